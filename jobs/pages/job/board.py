"""The job board, the search, and the page that starts a job."""

from __future__ import annotations

import re
from typing import Any, ClassVar

from django import forms
from django.contrib import messages
from django.core.paginator import Paginator
from django.db import transaction
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse_lazy
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs import access
from jobs.design.job import board_counts
from jobs.models import (
    BayNote,
    Box,
    BoxAsBuilt,
    BoxSweep,
    CabinCurve,
    CarAnswer,
    Channel,
    ChannelCurve,
    ChannelSetting,
    Customer,
    DriverSweep,
    EquipmentItem,
    FactoryAsBuilt,
    FactoryPart,
    Fixing,
    Job,
    Measurement,
    Panel,
    PanelContent,
    PanelStep,
    Part,
    Photo,
    PowerNode,
    Ring,
    Run,
    RunAsBuilt,
    Stage,
    TrimPanel,
    User,
    Vehicle,
    WoodStep,
    Word,
)
from jobs.pages.forms import strip
from jobs.pages.forms.fields import asked
from jobs.pages.forms.forms import RecordForm
from jobs.search import look_up

Shelf = Word.Shelf
# The page of a job on which a record is read.
PAGE_OF: dict[type[Any], str] = {
    BayNote: "bay",
    Box: "boxes",
    CabinCurve: "car",
    Channel: "channels",
    ChannelCurve: "setup-measured",
    ChannelSetting: "setup-as-set",
    BoxAsBuilt: "shop",
    BoxSweep: "boxes",
    DriverSweep: "equipment",
    CarAnswer: "gate",
    FactoryAsBuilt: "bay",
    FactoryPart: "car",
    Fixing: "panels",
    Measurement: "bay",
    Panel: "panels",
    PanelContent: "panels",
    PanelStep: "panels",
    Photo: "panels",
    PowerNode: "power",
    RunAsBuilt: "bay",
    Ring: "boxes",
    TrimPanel: "boxes",
    WoodStep: "shop",
}
# What its name is made of.
READ_WITH: dict[type[Any], tuple[str, ...]] = {
    PanelContent: ("equipment__part", "factory_part", "box"),
    BoxAsBuilt: ("box",),
    BoxSweep: ("box",),
    ChannelCurve: ("channel",),
    ChannelSetting: ("channel",),
    DriverSweep: ("item__part",),
    BayNote: ("fixing",),
    FactoryAsBuilt: ("factory_part",),
    RunAsBuilt: ("run",),
    Photo: ("panel",),
}
PER_PAGE = 30
MOST_HITS = 20
MOST_OFFERED = 12
# How a customer is written into one line, so that two of one name are told apart.
_NUMBERED = re.compile(r"#(\d{1,18})$")


@require_safe
def board(request: HttpRequest) -> HttpResponse:
    """Show where each job stands and what is open on it."""
    user = access.signed_in(request)
    access.require_member(user)
    jobs = access.visible_jobs(user)
    stage = request.GET.get("stage", "")
    if stage in Stage.values:
        jobs = jobs.filter(stage=stage)
    page = Paginator(jobs.order_by("-number"), PER_PAGE).get_page(request.GET.get("page"))
    context = {
        "page": page,
        "stages": Stage.choices,
        "stage_words": Stage.labels,
        "stage": stage,
        "may_spec": access.may_spec(user),
    }
    return render(request, "pages/job/board.html", context)


def _found(shelf: Shelf, text: str, *kinds: QuerySet[Any]) -> tuple[list[Any], bool]:
    """Return the records of a shelf that bear what was typed, best first, and whether more do."""
    hits = look_up(text, shelf, MOST_HITS)
    records: dict[tuple[str, int], Any] = {}
    for rows in kinds:
        kind = str(rows.model._meta.model_name)
        if keys := hits.keys(kind):
            records |= {(kind, row.pk): row for row in rows.filter(pk__in=keys)}
    return [records[hit] for hit in hits.records if hit in records], hits.more


def _hits(jobs: QuerySet[Job], text: str) -> dict[str, Any]:
    """Find jobs, cables, equipment, parts of the catalogue, and what stands written in a job."""
    places = [kind.objects.select_related("job", *READ_WITH.get(kind, ())) for kind in PAGE_OF]
    items = EquipmentItem.objects.select_related("job", "part")
    runs = Run.objects.select_related("job", "start", "end", "channel__amplifier__part")
    of_jobs = {
        "runs": _found(Shelf.RUN, text, runs),
        "items": _found(Shelf.ITEM, text, items),
        "places": _found(Shelf.PLACE, text, *places),
    }
    job_keys = {row.job_id for rows, _more in of_jobs.values() for row in rows}
    visible = set(jobs.filter(pk__in=job_keys).values_list("pk", flat=True))
    groups = {
        name: ([row for row in rows if row.job_id in visible], more)
        for name, (rows, more) in of_jobs.items()
    } | {
        "jobs": _found(Shelf.JOB, text, jobs),
        "parts": _found(Shelf.PART, text, Part.objects.all()),
    }
    results: dict[str, Any] = {name: rows for name, (rows, _more) in groups.items()}
    results["places"] = [
        {"row": row, "page": PAGE_OF[type(row)], "noun": row._meta.verbose_name}
        for row in results["places"]
    ]
    return results | {"more": any(more for _rows, more in groups.values())}


@require_safe
def search(request: HttpRequest) -> HttpResponse:
    """Search whatever somebody wrote into a job, its car, its customer or the catalogue."""
    user = access.signed_in(request)
    access.require_member(user)
    text = asked(request, "q")
    hits = _hits(access.visible_jobs(user), text) if text else {}
    return render(request, "pages/job/search.html", {"q": text, **hits})


class NewJobForm(RecordForm[Vehicle]):
    """The least that starts a job: who, which car, what for."""

    title = forms.CharField(label=gettext_lazy("what for, in one line"), max_length=120)
    known_customer = forms.CharField(
        label=gettext_lazy("a customer we know"),
        help_text=gettext_lazy("type part of the name and choose from the list"),
        max_length=140,
        required=False,
        widget=forms.TextInput(
            attrs={
                "list": "known-customers",
                "autocomplete": "off",
                "hx-get": reverse_lazy("customers"),
                "hx-trigger": "input changed delay:120ms",
                "hx-target": "#known-customers",
                "hx-sync": "this:replace",
            }
        ),
    )
    new_customer = forms.CharField(
        label=gettext_lazy("or a new customer’s name"), max_length=120, required=False
    )
    fieldsets: ClassVar = [
        (gettext_lazy("For whom"), ["known_customer", "new_customer"]),
        (gettext_lazy("Which car"), ["maker", "model", "year", "plate", "driver_side", "energy"]),
        (gettext_lazy("What for"), ["title"]),
    ]

    class Meta:
        model = Vehicle
        fields = ("maker", "model", "year", "plate", "driver_side", "energy")

    def clean_known_customer(self) -> Customer | None:
        """Find whom the line names: by its number, or by a name nobody else has."""
        text = self.cleaned_data["known_customer"]
        if not text:
            return None
        if numbered := _NUMBERED.search(text):
            matches = list(Customer.objects.filter(pk=int(numbered[1]), erased_at=None))
        else:
            matches = list(Customer.objects.filter(name__iexact=text)[:2])
        if not matches:
            raise forms.ValidationError(_("Nobody of this name has been here yet."))
        if len(matches) > 1:
            raise forms.ValidationError(_("Two have this name: choose one from the list."))
        return matches[0]

    def clean(self) -> dict[str, Any]:
        """Ask for a customer, known or new."""
        cleaned = super().clean()
        if "known_customer" in self.errors:
            return cleaned
        if not cleaned.get("known_customer") and not cleaned.get("new_customer"):
            self.add_error("new_customer", _("Choose a customer or write a new one’s name."))
        return cleaned

    def start(self, user: User) -> Job:
        """Make customer, car and job together; a form sent twice makes one job."""
        data = self.cleaned_data
        token = data["entry_token"]
        # Asked for first: of a form sent twice at once the second waits here and finds the job.
        number = Job.next_number()
        if token and (before := Job.objects.filter(entry_token=token).first()):
            return before
        self.instance.customer = data["known_customer"] or Customer.objects.create(
            name=data["new_customer"]
        )
        vehicle = self.save()
        return Job.objects.create(
            number=number,
            vehicle=vehicle,
            title=data["title"],
            consultant=user,
            entry_token=token,
        )


@require_http_methods(["GET", "POST"])
def new_job(request: HttpRequest) -> HttpResponse:
    """Start a job."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    form = NewJobForm(request.POST or None)
    status = 200
    if request.method == "POST":
        with transaction.atomic():
            if form.is_valid():
                job = form.start(user)
                messages.success(request, _("Started: %(job)s.") % {"job": job.code})
                return redirect("brief", job.code)
        status = 422
    return render(request, "pages/job/new_job.html", {"form": form}, status=status)


@require_safe
def customers(request: HttpRequest) -> HttpResponse:
    """Offer the customers a word of whose begins with what is being typed."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    text = asked(request, "known_customer")
    customers, _more = _found(Shelf.CUSTOMER, text, Customer.objects.all())
    offered = customers[:MOST_OFFERED]
    return render(request, "pages/workshop/customers.html", {"customers": offered})


@require_safe
def job(request: HttpRequest, code: str) -> HttpResponse:
    """Show one job at a glance: what is open and what comes next."""
    user = access.signed_in(request)
    opened = access.open_job(user, code)
    design = strip.worked_out(request, opened)
    context = {
        "job": opened,
        "open": [*design.open_stops, *design.open_looks],
        "stages": Stage.labels,
        "steps": strip.steps(request, opened, ""),
        "may_spec": access.may_spec(user),
        "may_release": access.may_release(user),
    }
    return render(request, "pages/job/job.html", context)


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
    path("search/", search, name="search"),
    path("jobs/new/", new_job, name="new-job"),
    path("jobs/new/customers/", customers, name="customers"),
    path("jobs/<str:code>/", job, name="job"),
    path("jobs/<str:code>/count/", count, name="count"),
]
