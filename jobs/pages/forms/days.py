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

# How days and times are asked for.
DAY = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
TIME = forms.TimeInput(attrs={"type": "time"}, format="%H:%M")
OF_A_SPAN = {"first_day": DAY, "last_day": DAY, "from_time": TIME, "to_time": TIME}

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


class SpanForm(DaysForm[R]):
    """Days in a row, with times or without: both in their order, and not for ever."""

    ahead: ClassVar = {"first_day", "last_day"}
    longest: ClassVar[dt.timedelta]

    def clean(self) -> dict[str, Any]:
        """Hold the last day to the first, and the end to the beginning."""
        cleaned = super().clean()
        first, last = cleaned.get("first_day"), cleaned.get("last_day")
        if first and last and last < first:
            self.add_error("last_day", _("This day is before the first."))
        elif first and last and last - first > self.longest:
            words = _("At most %(n)d days in a row.")
            self.add_error("last_day", words % {"n": self.longest.days})
        begin, end = cleaned.get("from_time"), cleaned.get("to_time")
        if end and not begin:
            self.add_error("from_time", _("Say from when, too."))
        elif begin and end and end <= begin:
            self.add_error("to_time", _("This is not after the time it begins."))
        return cleaned
