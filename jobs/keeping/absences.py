"""Why somebody was away is nobody's business for ever: absences go for good, history and all."""

from __future__ import annotations

import datetime as dt

from django.db import transaction
from django.db.models import Q
from django.utils import timezone

from jobs.keeping.removed import KEPT_FOR
from jobs.models import Absence

# So long that the hours of a whole year can still be looked at.
REMEMBERED = dt.timedelta(days=366)


def clear_absences(now: dt.datetime | None = None) -> int:
    """Delete what was removed thirty days ago or over for a year; returns how many went."""
    moment = now or timezone.now()
    over = moment.date() - REMEMBERED
    ended = Q(last_day__lt=over) | Q(last_day=None, first_day__lt=over)
    rows = Absence.with_removed.filter(ended | Q(removed_at__lt=moment - KEPT_FOR))
    with transaction.atomic():
        keys = list(rows.values_list("pk", flat=True))
        rows.filter(pk__in=keys).delete()
        # After the rows: that they went is an entry of their history too.
        Absence.history.filter(id__in=keys).delete()
    return len(keys)
