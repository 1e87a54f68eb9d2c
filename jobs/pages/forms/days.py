"""Days that are hardly meant: each is refused once, by name, and taken when it is sent again."""

from __future__ import annotations

import datetime as dt
from typing import Any, ClassVar, cast

from django import forms
from django.http import QueryDict
from django.utils import timezone
from django.utils.translation import gettext as _

from jobs.models.base import written_day
from jobs.pages.forms.forms import R, RecordForm

# Nobody promises a car further ahead; common practice, no source.
FURTHEST = dt.timedelta(days=3 * 365)


class DaysForm(RecordForm[R]):
    """Asks once about a day that is over and should lie ahead, or the other way about."""

    ahead: ClassVar[set[str]] = set()
    over: ClassVar[set[str]] = set()
    # What was asked about: another day is asked about anew.
    meant = forms.CharField(required=False, widget=forms.HiddenInput)

    def clean(self) -> dict[str, Any]:
        """Ask about each day that was changed to one that is hardly meant."""
        cleaned = super().clean()
        odd = {
            name: words
            for name in self.ahead | self.over
            if name in self.changed_data and (words := self._oddness(name, cleaned.get(name)))
        }
        asked = " ".join(f"{name} {cleaned[name].isoformat()}" for name in sorted(odd))
        if odd and cleaned.get("meant") != asked:
            self.data = cast(QueryDict, self.data).copy()
            self.data[self.add_prefix("meant")] = asked
            for name, words in odd.items():
                self.add_error(name, words)
        return cleaned

    def _oddness(self, name: str, day: dt.date | None) -> str:
        """Say what is odd about a day; nothing where it may well be meant."""
        if day is None:
            return ""
        today = timezone.localdate()
        if name in self.ahead and day < today:
            sentence = _("%(day)s is over. If it is meant, save once more.")
        elif name in self.over and day > today:
            sentence = _("%(day)s is still to come. If it is meant, save once more.")
        elif day - today > FURTHEST:
            sentence = _("%(day)s is years away. If it is meant, save once more.")
        else:
            return ""
        return sentence % {"day": written_day(day)}
