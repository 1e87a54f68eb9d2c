"""How long the app knows that somebody was away."""

from __future__ import annotations

import datetime as dt

import pytest
from django.utils import timezone

from jobs.keeping.absences import clear_absences
from jobs.models import Absence

pytestmark = pytest.mark.django_db


def test_absences_are_not_kept_for_ever(cast):
    """A year after they ended, or a month after they were taken back, history and all."""
    today = timezone.localdate()

    def away(days: int, last: int | None = None) -> Absence:
        first, until = (None if n is None else today - dt.timedelta(n) for n in (days, last))
        return Absence.objects.create(person=cast.designer, first_day=first, last_day=until)

    away(400)
    away(800, 368)
    stays = [away(800, 300), away(30)]
    gone = away(-5)
    gone.remove()
    assert clear_absences() == 2
    assert clear_absences(timezone.now() + dt.timedelta(days=31)) == 1
    assert set(Absence.with_removed.values_list("pk", flat=True)) == {row.pk for row in stays}
    assert set(Absence.history.values_list("id", flat=True)) == {row.pk for row in stays}
