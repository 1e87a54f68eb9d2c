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


class Booking(JobPart):
    """A day in the calendar of a job, or several in a row."""

    class Kind(models.TextChoices):
        ARRIVAL = "arrival", _("the car comes")
        WORK = "work", _("work")
        PICK_UP = "pick_up", _("the car is fetched")

    job = models.ForeignKey(Job, models.CASCADE, related_name="bookings")
    kind = models.CharField(_("what happens"), max_length=7, choices=Kind, default=Kind.WORK)
    first_day = models.DateField(_("day"))
    # Of work that takes several; the car stands in its bay on the days between too.
    last_day = models.DateField(_("until"), null=True, blank=True)
    weekends = models.BooleanField(_("on Saturday and Sunday too"), default=False)
    from_time = models.TimeField(_("from"), null=True, blank=True)
    to_time = models.TimeField(_("to"), null=True, blank=True)
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
        ordering = ["first_day", "from_time", "pk"]
        indexes = [models.Index(fields=["first_day", "last_day"])]

    def __str__(self) -> str:
        first, last = written_day(self.first_day), self.last_day
        days = f"{first} – {written_day(last)}" if last and last != self.first_day else first
        return f"{self.get_kind_display()}, {days}"

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
        if self.minutes is not None or self.from_time is None or self.to_time is None:
            return self.minutes
        return _of_day(self.to_time) - _of_day(self.from_time)

    def meets(self, other: Booking) -> bool:
        """Whether both are at one time of a day that they share; without times it is all day."""
        mine, theirs = self._hours, other._hours
        return mine[0] < theirs[1] and theirs[0] < mine[1]

    @property
    def _hours(self) -> tuple[int, int]:
        begin = _of_day(self.from_time) if self.from_time else 0
        return begin, _of_day(self.to_time) if self.to_time else 24 * 60


def is_weekend(day: dt.date) -> bool:
    """Whether it is a Saturday or a Sunday."""
    return day.weekday() >= SATURDAY


def _of_day(time: dt.time) -> int:
    return time.hour * 60 + time.minute
