"""When a car comes, on which days it is worked on, in which bay and by whom, and when it leaves."""

from __future__ import annotations

import datetime as dt
import uuid
from collections.abc import Iterator

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import Record, written_day
from jobs.models.bounded import number
from jobs.models.job import Job, JobPart

SATURDAY = 5
DAY = dt.timedelta(days=1)


class Bay(Record):
    """A place where one car can be worked on."""

    name = models.CharField(_("name"), max_length=40)

    class Meta:
        verbose_name = _("bay")
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        return self.name


class Span(models.Model):
    """A day or several in a row: all day long, or from time to time on each of them."""

    first_day = models.DateField(_("day"))
    last_day = models.DateField(_("until"), null=True, blank=True)
    from_time = models.TimeField(_("from"), null=True, blank=True)
    to_time = models.TimeField(_("to"), null=True, blank=True)

    class Meta:
        abstract = True

    @property
    def ends_on(self) -> dt.date:
        """The last day of it."""
        return self.last_day or self.first_day

    @property
    def days(self) -> Iterator[dt.date]:
        """Every day from the first to the last."""
        day = self.first_day
        while day <= self.ends_on:
            yield day
            day += DAY

    @property
    def days_in_words(self) -> str:
        """From when to when."""
        first, last = written_day(self.first_day), self.last_day
        return f"{first} – {written_day(last)}" if last and last != self.first_day else first

    @property
    def minutes_between(self) -> int | None:
        """Minutes from time to time; None where it is all day, or nobody said how long."""
        if self.from_time is None or self.to_time is None:
            return None
        return _of_day(self.to_time) - _of_day(self.from_time)

    def meets(self, other: Span) -> bool:
        """Whether both are at one time of a day that they share; without times it is all day."""
        mine, theirs = self._hours, other._hours
        return mine[0] < theirs[1] and theirs[0] < mine[1]

    @property
    def _hours(self) -> tuple[int, int]:
        begin = _of_day(self.from_time) if self.from_time else 0
        return begin, _of_day(self.to_time) if self.to_time else 24 * 60


def touching(first: dt.date, last: dt.date) -> models.Q:
    """Ask for the spans that have a day from the first to the last of these."""
    ends = models.Q(last_day__gte=first) | models.Q(last_day=None, first_day__gte=first)
    return models.Q(first_day__lte=last) & ends


class Absence(Span, Record):
    """Days on which somebody is not there: all day, or from time to time on each of them."""

    class Kind(models.TextChoices):
        HOLIDAY = "holiday", _("holiday")
        SICK = "sick", _("sick")
        OTHER = "other", _("away")

    person = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        related_name="absences",
        verbose_name=_("person"),
    )
    # For the person and the manager alone: the week says only that somebody is not there.
    kind = models.CharField(_("why"), max_length=7, choices=Kind, default=Kind.HOLIDAY)

    class Meta:
        verbose_name = _("absence")
        ordering = ["first_day", models.F("from_time").asc(nulls_first=True), "pk"]
        indexes = [models.Index(fields=["first_day", "last_day"])]

    def __str__(self) -> str:
        return f"{self.person.full_name}, {self.days_in_words}"

    def minutes_of(self, minutes_day: int) -> int:
        """How much of a day it takes away."""
        between = self.minutes_between
        return minutes_day if between is None else min(between, minutes_day)


class Booking(Span, JobPart):
    """A day in the calendar of a job, or several in a row."""

    class Kind(models.TextChoices):
        ARRIVAL = "arrival", _("the car comes")
        WORK = "work", _("work")
        PICK_UP = "pick_up", _("the car is fetched")

    job = models.ForeignKey(Job, models.CASCADE, related_name="bookings")
    kind = models.CharField(_("what happens"), max_length=7, choices=Kind, default=Kind.WORK)
    # Of work that takes several days; the car stands in its bay on those between too.
    weekends = models.BooleanField(_("on Saturday and Sunday too"), default=False)
    bay = models.ForeignKey(
        Bay, models.PROTECT, null=True, blank=True, related_name="+", verbose_name=_("bay")
    )
    person = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        blank=True,
        related_name="bookings",
        verbose_name=_("person"),
    )
    minutes = number(_("minutes a day"), most=1440, least=1)
    note = models.CharField(_("note"), max_length=120, blank=True)
    # What a telephone knows it by, whatever becomes of it (RFC 5545, 3.8.4.7).
    uid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    changed_at = models.DateTimeField(auto_now=True)

    class Meta(JobPart.Meta):
        verbose_name = _("day in the calendar")
        ordering = ["first_day", models.F("from_time").asc(nulls_first=True), "pk"]
        indexes = [models.Index(fields=["first_day", "last_day"])]

    def __str__(self) -> str:
        return f"{self.get_kind_display()}, {self.days_in_words}"

    def is_worked_on(self, day: dt.date) -> bool:
        """Whether somebody is at it that day; the car is there in any case."""
        within = self.first_day <= day <= self.ends_on
        return within and (self.weekends or self.kind != self.Kind.WORK or not is_weekend(day))

    @property
    def worked_days(self) -> list[dt.date]:
        """The days somebody is at it."""
        return [day for day in self.days if self.is_worked_on(day)]

    @property
    def planned(self) -> int | None:
        """Minutes of each day: as planned, else from time to time; None where nobody said."""
        return self.minutes_between if self.minutes is None else self.minutes


def is_weekend(day: dt.date) -> bool:
    """Whether it is a Saturday or a Sunday."""
    return day.weekday() >= SATURDAY


def _of_day(time: dt.time) -> int:
    return time.hour * 60 + time.minute
