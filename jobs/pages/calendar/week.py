"""The week of the workshop: cars that come and go, bays, people, and what is still to plan."""

from __future__ import annotations

import datetime as dt

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.dateparse import parse_date
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.calendar.reminders import reminders
from jobs.design.calendar.week import work_out_week
from jobs.models import User, Workshop
from jobs.models.calendar import DAY
from jobs.pages.forms.fields import asked

YEARS = range(2000, 2100)


@require_safe
def calendar(request: HttpRequest) -> HttpResponse:
    """Show the week of a day; of this one where none is asked for."""
    user = access.signed_in(request)
    access.require_member(user)
    today = timezone.localdate()
    day = _day(asked(request, "day")) or today
    monday = day - day.weekday() * DAY
    context = {
        "week": work_out_week(monday),
        "reminders": reminders(monday, monday + 6 * DAY),
        "number": monday.isocalendar().week,
        "sunday": monday + 6 * DAY,
        "before": monday - 7 * DAY,
        "after": monday + 7 * DAY,
        "today": today,
        "is_this_week": monday <= today < monday + 7 * DAY,
        "address": feed_address(user),
        "may_manage": access.may_manage(user),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/calendar/week.html", context)


def _day(text: str) -> dt.date | None:
    try:
        day = parse_date(text)
    except ValueError:
        return None
    return day if day and day.year in YEARS else None


def feed_address(user: User) -> str:
    """Where a telephone reads this person's days; empty where nobody may."""
    if not user.calendar_token:
        return ""
    base = settings.PUBLIC or Workshop.current().web_address
    return f"{base}{reverse('calendar-feed', args=[user.calendar_token])}"


urlpatterns = [path("calendar/", calendar, name="calendar")]
