"""The job board, the search, and the page that starts a job."""

from __future__ import annotations

import re
from typing import Any, ClassVar

from django import forms
from django.contrib import messages
from django.core.paginator import Paginator
from django.db import transaction
from django.db.models import Q, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse_lazy
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_safe

from jobs import access
from jobs.models import Customer, EquipmentItem, Job, Run, Stage, User, Vehicle
from jobs.pages.forms import strip
from jobs.pages.forms.fields import asked
from jobs.pages.forms.forms import RecordForm

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


def _hits(jobs: QuerySet[Job], text: str) -> dict[str, Any]:
    """Find jobs by number, title, customer, car or plate; runs by label; items by serial."""
    wanted = (
        Q(title__icontains=text)
        | Q(vehicle__maker__icontains=text)
        | Q(vehicle__model__icontains=text)
        | Q(vehicle__plate__icontains=text)
        | Q(vehicle__customer__name__icontains=text)
    )
    digits = text.upper().removeprefix("J-")
    if digits.isdecimal() and len(digits) < 10:
        wanted |= Q(number=int(digits))
    runs = Run.objects.none()
    label = text.upper()
    if label[:1] in Run.Kind.values and label[1:].isdecimal() and len(label) < 6:
        runs = Run.objects.filter(kind=label[0], number=int(label[1:]), job__in=jobs)
    serials = EquipmentItem.objects.filter(serial__icontains=text, job__in=jobs)
    return {
        "jobs": jobs.filter(wanted)[:MOST_HITS],
        "runs": runs.select_related("job", "start", "end")[:MOST_HITS],
        "items": serials.select_related("job", "part")[:MOST_HITS],
    }


@require_safe
def search(request: HttpRequest) -> HttpResponse:
    """Search jobs, customers, cars, plates, cable labels and serial numbers."""
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
            found = list(Customer.objects.filter(pk=int(numbered[1])))
        else:
            found = list(Customer.objects.filter(name__iexact=text)[:2])
        if not found:
            raise forms.ValidationError(_("Nobody of this name has been here yet."))
        if len(found) > 1:
            raise forms.ValidationError(_("Two have this name: choose one from the list."))
        return found[0]

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
    """Offer the customers whose name holds what is being typed."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    text = asked(request, "known_customer")
    found = Customer.objects.filter(name__icontains=text)[:MOST_OFFERED] if text else []
    return render(request, "pages/workshop/customers.html", {"customers": found})


@require_safe
def job(request: HttpRequest, code: str) -> HttpResponse:
    """Show one job at a glance: what is open and what comes next."""
    user = access.signed_in(request)
    found = access.open_job(user, code)
    design = strip.worked_out(request, found)
    context = {
        "job": found,
        "open": [*design.open_stops, *design.open_looks],
        "stages": Stage.labels,
        "steps": strip.steps(request, found, ""),
        "may_spec": access.may_spec(user),
        "may_release": access.may_release(user),
    }
    return render(request, "pages/job/job.html", context)


urlpatterns = [
    path("", board, name="board"),
    path("search/", search, name="search"),
    path("jobs/new/", new_job, name="new-job"),
    path("jobs/new/customers/", customers, name="customers"),
    path("jobs/<str:code>/", job, name="job"),
]
