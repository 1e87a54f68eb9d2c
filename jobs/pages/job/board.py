"""The job board: where each job stands, whose it is, by when, and what is open on it."""

from __future__ import annotations

import datetime as dt
from typing import Any

from django import forms
from django.core.paginator import Paginator
from django.db.models import F, Q, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.design.calendar.reminders import reminders
from jobs.design.job import board_counts
from jobs.models import Job, Stage, User
from jobs.pages.forms.fields import judged_here

PER_PAGE = 30


class BoardForm(forms.Form):
    """Which jobs the board lists, and in what order; what is no choice narrows nothing."""

    who = forms.ModelChoiceField(
        User.objects.none(), label=gettext_lazy("consultant"), empty_label=gettext_lazy("anybody")
    )
    promised = forms.ChoiceField(
        label=gettext_lazy("promised"),
        choices=[
            ("", gettext_lazy("any day")),
            ("late", gettext_lazy("late")),
            ("week", gettext_lazy("within a week")),
            ("month", gettext_lazy("within four weeks")),
            ("never", gettext_lazy("no day said")),
        ],
    )
    open = forms.ChoiceField(
        label=gettext_lazy("open on it"),
        choices=[
            ("", gettext_lazy("anything")),
            ("stop", gettext_lazy("a stop")),
            ("look", gettext_lazy("something to decide")),
            ("nothing", gettext_lazy("nothing")),
        ],
    )
    halt = forms.ChoiceField(
        label=gettext_lazy("jobs that are"),
        choices=[
            ("", gettext_lazy("going on, or on hold")),
            ("going", gettext_lazy("going on")),
            *Job.Halt.choices,
            ("all", gettext_lazy("any of these")),
        ],
    )
    by = forms.ChoiceField(
        label=gettext_lazy("in order of"),
        choices=[
            ("", gettext_lazy("number")),
            ("promised", gettext_lazy("day promised")),
        ],
    )
    stage = forms.ChoiceField(choices=Stage.choices, widget=forms.HiddenInput)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.required = False
        people = User.objects.filter(jobs__isnull=False).distinct()
        who = self.fields["who"]
        assert isinstance(who, forms.ModelChoiceField)
        who.queryset = people.order_by("first_name", "last_name", "pk")
        vars(who)["label_from_instance"] = lambda person: person.full_name
        judged_here(self.fields.values())

    @property
    def narrows(self) -> bool:
        """Whether something beside a stage was asked for."""
        return any(self.data.get(name) for name in self.fields if name != "stage")

    def narrow(self, jobs: QuerySet[Job]) -> QuerySet[Job]:
        """Return the jobs that are asked for, in the order asked for."""
        self.is_valid()
        wanted: dict[str, Any] = self.cleaned_data
        today = timezone.localdate()
        going = Q(halt="") & ~Q(stage__in=(Stage.HANDED_OVER, Stage.AFTERCARE))
        narrower = {
            "late": going & Q(promised_on__lt=today),
            "week": Q(promised_on__range=(today, today + dt.timedelta(weeks=1))),
            "month": Q(promised_on__range=(today, today + dt.timedelta(weeks=4))),
            "never": Q(promised_on=None),
            # One that is being counted may have any.
            "stop": Q(open_stops__gt=0) | Q(open_stops=None),
            "look": Q(open_stops=0, open_looks__gt=0) | Q(open_looks=None),
            "nothing": Q(open_stops=0, open_looks=0),
            "going": Q(halt=""),
            "all": Q(),
        }
        for name in ("promised", "open"):
            jobs = jobs.filter(narrower.get(wanted.get(name) or "all", Q()))
        halt = wanted.get("halt", "")
        ended = Q(halt__in=(Job.Halt.LOST, Job.Halt.CANCELLED))
        if halt in Job.Halt.values:
            jobs = jobs.filter(halt=halt)
        else:
            jobs = jobs.filter(narrower[halt] if halt else ~ended)
        if wanted.get("stage"):
            jobs = jobs.filter(stage=wanted["stage"])
        if wanted.get("who"):
            jobs = jobs.filter(consultant=wanted["who"])
        order = [F("promised_on").asc(nulls_last=True)] if wanted.get("by") else []
        return jobs.order_by(*order, "-number")


@require_safe
def board(request: HttpRequest) -> HttpResponse:
    """Show where each job stands and what is open on it."""
    user = access.signed_in(request)
    access.require_member(user)
    form, today = BoardForm(request.GET), timezone.localdate()
    jobs = form.narrow(access.visible_jobs(user))
    context = {
        "page": Paginator(jobs, PER_PAGE).get_page(request.GET.get("page")),
        "form": form,
        "stages": Stage.choices,
        "stage_words": Stage.labels,
        "stage": request.GET.get("stage", ""),
        "to_call": len(reminders(today, today + dt.timedelta(weeks=1))),
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/job/board.html", context)


@require_POST
def count(request: HttpRequest, code: str) -> HttpResponse:
    """Count the findings of one job anew, where the board has none to show."""
    counted = access.open_job(access.signed_in(request), code)
    if counted.open_stops is None:
        board_counts.refresh(counted)
        counted.refresh_from_db(fields=["open_stops", "open_looks"])
    return render(request, "parts/job/tally.html", {"job": counted})


urlpatterns = [
    path("", board, name="board"),
    path("jobs/<str:code>/count/", count, name="count"),
]
