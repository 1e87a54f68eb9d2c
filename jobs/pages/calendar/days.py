"""The days of one job: when the car comes, who works on it where, when it is fetched."""

from __future__ import annotations

import datetime as dt
from typing import Any, ClassVar

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.calendar.week import work_out_days
from jobs.models import Booking, User
from jobs.models.calendar import is_weekend
from jobs.pages.forms import strip
from jobs.pages.forms.days import DaysForm
from jobs.pages.forms.record_rows import RowKind

# Nobody plans a car for longer at a stretch; common practice, no source.
LONGEST = dt.timedelta(days=92)
# What only work has; of a car that comes or leaves it would change nothing.
OF_WORK: dict[str, Any] = {
    "last_day": None, "to_time": None, "weekends": False, "minutes": None, "bay": None,
}  # fmt: skip
DAY = {"type": "date"}
TIME = {"type": "time"}


class BookingForm(DaysForm[Booking]):
    """A day, or several in a row."""

    ahead: ClassVar = {"first_day", "last_day"}
    fieldsets: ClassVar = [
        (gettext_lazy("What and when"), ["kind", "first_day", "from_time"]),
        (gettext_lazy("Work"), ["last_day", "weekends", "to_time", "minutes", "bay"]),
        (gettext_lazy("By whom"), ["person", "note"]),
    ]
    only_for: ClassVar = {gettext_lazy("Work"): (Booking.Kind.WORK.value,)}

    class Meta:
        model = Booking
        fields = ("kind", "first_day", "from_time", *OF_WORK, "person", "note")
        widgets: ClassVar = {
            "first_day": forms.DateInput(attrs=DAY, format="%Y-%m-%d"),
            "last_day": forms.DateInput(attrs=DAY, format="%Y-%m-%d"),
            "from_time": forms.TimeInput(attrs=TIME, format="%H:%M"),
            "to_time": forms.TimeInput(attrs=TIME, format="%H:%M"),
        }
        help_texts: ClassVar = {
            "last_day": gettext_lazy("Empty: one day. The car keeps its bay in between."),
            "minutes": gettext_lazy("Of this person. Empty: from time to time, or all day."),
            "note": gettext_lazy("For the workshop; it goes into nobody’s telephone."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        person = self.fields["person"]
        assert isinstance(person, forms.ModelChoiceField)
        working = [user.pk for user in User.objects.filter(is_active=True) if user.roles]
        keys = [*working, self.instance.person_id or 0]
        person.queryset = User.objects.filter(pk__in=keys).order_by("first_name", "pk")
        vars(person)["label_from_instance"] = lambda user: user.full_name

    def clean(self) -> dict[str, Any]:
        """Days and times in their order, and time enough for what is planned."""
        cleaned = super().clean()
        if cleaned.get("kind") != Booking.Kind.WORK:
            for name in OF_WORK:
                self.errors.pop(name, None)
            return cleaned | OF_WORK
        first, last = cleaned.get("first_day"), cleaned.get("last_day")
        if first and last:
            self._check_days(first, last)
        begin, end = cleaned.get("from_time"), cleaned.get("to_time")
        if end and not begin:
            self.add_error("from_time", _("Say from when, too."))
        elif begin and end and end <= begin:
            self.add_error("to_time", _("This is not after the time it begins."))
        elif begin and end and cleaned.get("minutes"):
            between = (end.hour - begin.hour) * 60 + end.minute - begin.minute
            if cleaned["minutes"] > between:
                words = _("Between these times there are only %(n)d minutes.")
                self.add_error("minutes", words % {"n": between})
        if first and not (last or cleaned.get("weekends")) and is_weekend(first):
            self._ask_weekend()
        return cleaned

    def _check_days(self, first: dt.date, last: dt.date) -> None:
        if last < first:
            self.add_error("last_day", _("This day is before the first."))
        elif last - first > LONGEST:
            words = _("At most %(n)d days in a row.")
            self.add_error("last_day", words % {"n": LONGEST.days})
        elif not self.cleaned_data.get("weekends"):
            span = (first + dt.timedelta(days=n) for n in range((last - first).days + 1))
            if all(is_weekend(day) for day in span):
                self._ask_weekend()

    def _ask_weekend(self) -> None:
        words = _("This is a weekend: tick that it is worked on Saturday and Sunday too.")
        self.add_error("weekends", words)


@require_safe
def days(request: HttpRequest, code: str) -> HttpResponse:
    """List the days of a job, what clashes on them, and the hours still to be planned."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    bookings, clashes, hours = work_out_days(job)
    context = {
        "job": job,
        "bookings": bookings,
        "clashes": clashes,
        "hours": [hours],
        "may_spec": access.may_spec(user),
        "steps": strip.steps(request, job, "days"),
        "section": "days",
    }
    return render(request, "pages/calendar/days.html", context)


BOOKING = RowKind(slug="booking", form=BookingForm, section="days")

urlpatterns = [
    path("jobs/<str:code>/days/", days, name="days"),
    *BOOKING.urls(),
]
