"""The days of one job: when the car comes, who works on it where, when it is fetched."""

from __future__ import annotations

import datetime as dt
from typing import Any, ClassVar

from django.db.models import Q
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.calendar.week import work_out_days
from jobs.models import Bay, Booking
from jobs.models.calendar import DAY, is_weekend
from jobs.pages.calendar.people import offer_people
from jobs.pages.forms import strip
from jobs.pages.forms.days import OF_A_SPAN, SpanForm
from jobs.pages.forms.record_rows import RowKind

# Nobody plans a car for longer at a stretch; common practice, no source.
LONGEST = dt.timedelta(days=92)
# What only work has; of a car that comes or leaves it would change nothing.
OF_WORK: dict[str, Any] = {
    "last_day": None, "to_time": None, "weekends": False, "minutes": None, "bay": None,
}  # fmt: skip


class BookingForm(SpanForm[Booking]):
    """A day, or several in a row."""

    longest = LONGEST
    fieldsets: ClassVar = [
        (gettext_lazy("What and when"), ["kind", "first_day", "from_time"]),
        (gettext_lazy("Work"), ["last_day", "weekends", "to_time", "minutes", "bay"]),
        (gettext_lazy("By whom"), ["person", "note"]),
    ]
    only_for: ClassVar = {gettext_lazy("Work"): (Booking.Kind.WORK.value,)}

    class Meta:
        model = Booking
        fields = ("kind", "first_day", "from_time", *OF_WORK, "person", "note")
        widgets = OF_A_SPAN
        help_texts: ClassVar = {
            "last_day": gettext_lazy("Empty: one day. The car keeps its bay in between."),
            "minutes": gettext_lazy("Of this person. Empty: from time to time, or all day."),
            "note": gettext_lazy("For the workshop; it goes into nobody’s telephone."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        offer_people(self, also=self.instance.person_id)
        # A bay that was taken out meanwhile stays with the days that were planned in it.
        offered = Q(removed_at=None) | Q(pk=self.instance.bay_id)
        self.offer("bay", Bay.with_removed.filter(offered))

    def clean(self) -> dict[str, Any]:
        """Days and times in their order, and time enough for what is planned."""
        cleaned = super().clean()
        if cleaned.get("kind") != Booking.Kind.WORK:
            for name in OF_WORK:
                self.errors.pop(name, None)
            return cleaned | OF_WORK
        begin, end = cleaned.get("from_time"), cleaned.get("to_time")
        if begin and end and begin < end and cleaned.get("minutes"):
            between = (end.hour - begin.hour) * 60 + end.minute - begin.minute
            if cleaned["minutes"] > between:
                words = _("Between these times there are only %(n)d minutes.")
                self.add_error("minutes", words % {"n": between})
        first, last = cleaned.get("first_day"), cleaned.get("last_day")
        if first and "last_day" not in self.errors and not cleaned.get("weekends"):
            days = range(((last or first) - first).days + 1)
            if all(is_weekend(first + n * DAY) for n in days):
                self._ask_weekend()
        return cleaned

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
