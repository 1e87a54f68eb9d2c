"""Start a job: which car, for whom, what for; from nothing, or like an earlier one."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, ClassVar

from django import forms
from django.contrib import messages
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import path, reverse_lazy
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_safe

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.earlier.start_like import SIDED, Offer, begin_like, is_same_car, offers
from jobs.locks import held
from jobs.models import CarTemplate, Customer, Job, User, Vehicle, Word
from jobs.pages.forms import strip
from jobs.pages.forms.fields import LONGEST_SEARCH, NOTHING, asked, key_of
from jobs.pages.forms.forms import RecordForm
from jobs.pages.job.who import WhoForm, give_to
from jobs.search import look_up, words_in

MOST_OFFERED = 12
MOST_EARLIER = 4  # jobs of a model that are offered, the newest first
_CAR = ("plate", "maker", "model", "year", "driver_side", "energy")
_ASK = {
    "hx-get": reverse_lazy("known-cars"),
    "hx-include": "#id_plate, #id_maker, #id_model",
    "hx-trigger": "input changed delay:250ms",
    "hx-target": "#known-cars",
    "hx-sync": "closest form:replace",
    "autocomplete": "off",
}


@dataclass(frozen=True, kw_only=True)
class Beginning:
    """What a job begins from: nothing, a car template, an earlier job, perhaps the same car."""

    earlier: Job | None = None
    template: CarTemplate | None = None
    same: bool = False
    # A plate we know was typed, and somebody said that it is another car.
    another: bool = False

    @classmethod
    def read(cls, user: User, sent: QueryDict) -> Beginning:
        """Read it from the button that was pressed, or from what the page carries along."""
        what, _space, code = sent.get("choose", "").partition(" ")
        if not what:
            code = sent.get("like", "")
        elif what == "another":
            code = ""
        key = key_of(code if what == "template" else "" if what else sent.get("template"))
        template = CarTemplate.objects.filter(pk=key).select_related("job").first() if key else None
        if what == "template":
            code = template.job.code if template else ""
        same = what == "same" if what else bool(sent.get("same"))
        earlier = access.open_job(user, code) if code else None
        another = what == "another" or (not what and bool(sent.get("another")))
        return cls(earlier=earlier, template=template, same=bool(earlier) and same, another=another)

    @property
    def carried(self) -> dict[str, str]:
        """What the page carries along, until the job is started."""
        return {
            "like": self.earlier.code if self.earlier else "",
            "template": str(self.template.pk) if self.template else "",
            "same": "1" if self.same else "",
            "another": "1" if self.another else "",
        }


def taken_field(
    earlier: Job, offered: Iterable[Offer], template: CarTemplate | None = None
) -> forms.MultipleChoiceField:
    """Return the ticks for what is taken over of an earlier job, as its template says if any."""
    rows = list(offered)
    field = forms.MultipleChoiceField(
        label=_("What to take over from %(job)s") % {"job": earlier.code},
        required=False,
        choices=[(row.code, f"{row.word} ({row.count})") for row in rows],
        initial=[
            row.code for row in rows if (row.code in template.takes if template else row.usual)
        ],
        widget=forms.CheckboxSelectMultiple,
    )
    vars(field)["wide"] = True
    return field


SWAP, KEEP = "swap", "keep"


def sides_field() -> forms.ChoiceField:
    """Return what is asked where the earlier car is driven from the other side."""
    return forms.ChoiceField(
        label=_("left and right of panels and factory parts"),
        required=False,
        choices=[
            ("", NOTHING),
            (SWAP, _("swap them: what was on the driver's side is on the driver's side")),
            (KEEP, _("leave them as they are")),
        ],
        help_text=_(
            "That car is driven from the other side. Cables and speakers keep their sides; look "
            "each one up that was taken over."
        ),
    )


def check_sides(form: forms.Form | forms.ModelForm[Any], taken: Iterable[str]) -> None:
    """Ask before what lies on one side is taken over to a car driven from the other."""
    if SIDED.intersection(taken) and not form.cleaned_data.get("sides"):
        form.add_error("sides", _("Say what becomes of left and right, or untick it above."))


class StartForm(WhoForm, RecordForm[Vehicle]):
    """The least that starts a job: who, which car, what for."""

    title = forms.CharField(label=gettext_lazy("what for, in one line"), max_length=120)
    fieldsets: ClassVar = [
        (gettext_lazy("Which car"), list(_CAR)),
        (gettext_lazy("For whom, and what for"), ["known_customer", "new_customer", "title"]),
        (gettext_lazy("Like an earlier job"), ["taken", "sides"]),
    ]

    class Meta:
        model = Vehicle
        fields = _CAR
        widgets: ClassVar = {
            name: forms.TextInput(attrs=_ASK) for name in ("plate", "maker", "model")
        }

    def __init__(self, *args: Any, begin: Beginning, **kwargs: Any) -> None:
        self.begin = begin
        super().__init__(*args, **kwargs)
        earlier = begin.earlier
        if earlier is None:
            return
        car = earlier.vehicle
        if begin.same:
            for name in _CAR:
                del self.fields[name]
            if not car.customer.erased_at:
                self.initial.setdefault("known_customer", f"{car.customer} #{car.customer.pk}")
        else:
            for name in ("maker", "model", "driver_side", "energy"):
                self.initial[name] = self.initial.get(name) or getattr(car, name)
        offered = offers(earlier, same=begin.same, mirrored=self._is_mirrored())
        self.fields["taken"] = taken_field(earlier, offered, begin.template)
        if self._is_mirrored():
            self.fields["sides"] = sides_field()

    def _is_mirrored(self) -> bool:
        """Whether its driver sits on the other side than in the car of the earlier job."""
        side = (self.data if self.is_bound else self.initial).get("driver_side")
        earlier = self.begin.earlier
        return bool(
            earlier and not self.begin.same and side and side != earlier.vehicle.driver_side
        )

    def clean_plate(self) -> str:
        """Ask whether a plate that was here before is the same car."""
        plate: str = self.cleaned_data["plate"]
        if not self.begin.another and known_cars(plate):
            raise forms.ValidationError(
                _("A car of this plate was here before: say below whether it is this one.")
            )
        return plate

    def clean(self) -> dict[str, Any]:
        """Ask once before what lies on one side is taken over to a car driven from the other."""
        cleaned = super().clean()
        if "sides" in self.fields:
            check_sides(self, cleaned.get("taken", ()))
        return cleaned

    def start(self, user: User) -> Job:
        """Make customer, car and job together; a form sent twice makes one job."""
        data = self.cleaned_data
        token = data["entry_token"]
        earlier = self.begin.earlier
        # Asked for first: of a form sent twice at once the second waits here and finds the job.
        number = Job.next_number()
        if token and (before := Job.objects.filter(entry_token=token).first()):
            return before
        customer = self.customer()
        if earlier and self.begin.same:
            vehicle = earlier.vehicle
        else:
            self.instance.customer = customer
            vehicle = self.save()
        job = Job.objects.create(
            number=number,
            vehicle=vehicle,
            title=data["title"],
            consultant=user,
            entry_token=token,
        )
        if vehicle.customer != customer:
            give_to(job, customer)
        if earlier:
            swap = data.get("sides") == SWAP
            begin_like(job, earlier, data["taken"], same=self.begin.same, swap=swap)
            board_counts.forget(job)
        return job


def known_cars(plate: str) -> list[Job]:
    """Return the newest job of each car that bears this plate, however it is written."""
    written = b"".join(words_in(plate))
    if not written:
        return []
    keys = look_up(written.decode(), Word.Shelf.JOB, MOST_OFFERED).keys("job")
    jobs = Job.objects.filter(pk__in=keys).select_related("vehicle__customer", "consultant")
    newest: dict[int, Job] = {}
    for job in jobs.order_by("-number"):
        if b"".join(words_in(job.vehicle.plate)) == written:
            newest.setdefault(job.vehicle_id, job)
    return list(newest.values())


def _offered(sent: QueryDict) -> dict[str, list[Any]]:
    """Return cars of the plate, and templates and jobs of the model that is typed."""
    cars = known_cars(sent.get("plate", ""))
    maker, model = sent.get("maker", "").strip(), sent.get("model", "").strip()
    alike = Job.objects.filter(vehicle__maker__iexact=maker, vehicle__model__iexact=model)
    jobs = alike.select_related("vehicle", "consultant").order_by("-number")[:MOST_EARLIER]
    typed = {"maker": maker, "model": model}
    of_it = {f"job__vehicle__{name}__istartswith": text for name, text in typed.items() if text}
    kept = CarTemplate.objects.filter(job__removed_at=None, **of_it).select_related("job__vehicle")
    return {
        "cars": cars,
        "templates": list(kept[:MOST_OFFERED]),
        "alike": list(jobs) if maker and model else [],
    }


@require_safe
def known(request: HttpRequest) -> HttpResponse:
    """Offer the car whose plate is being typed, and earlier jobs of the model."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    return render(request, "parts/job/known_cars.html", _offered(request.GET))


@require_http_methods(["GET", "POST"])
def new_job(request: HttpRequest) -> HttpResponse:
    """Start a job."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    sent = request.POST if request.method == "POST" else request.GET
    begin = Beginning.read(user, sent)
    status = 200
    if request.method == "POST" and "choose" not in sent:
        form = StartForm(sent, begin=begin)
        with transaction.atomic():
            if form.is_valid():
                job = form.start(user)
                messages.success(request, _("Started: %(job)s.") % {"job": job.code})
                return redirect("brief", job.code)
        status = 422
    else:
        typed = {name: sent[name] for name in StartForm.base_fields if sent.get(name)}
        form = StartForm(initial=typed, begin=begin)
    context = {"form": form, "begin": begin, "offered": _offered(sent) if not begin.same else {}}
    return render(request, "pages/job/new_job.html", context, status=status)


@require_safe
def customers(request: HttpRequest) -> HttpResponse:
    """Offer the customers a word of whose begins with what is being typed."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    keys = look_up(asked(request, "known_customer"), Word.Shelf.CUSTOMER, MOST_OFFERED)
    by_key = Customer.objects.in_bulk(keys.keys("customer"))
    offered = [by_key[key] for key in keys.keys("customer") if key in by_key]
    return render(request, "pages/workshop/customers.html", {"customers": offered})


class TakeForm(forms.Form):
    """What a job that has begun takes over of an earlier one."""

    def __init__(self, *args: Any, job: Job, earlier: Job, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        same = is_same_car(earlier, job.vehicle)
        mirrored = earlier.vehicle.driver_side != job.vehicle.driver_side
        self.offered = offers(earlier, job, same=same, mirrored=mirrored)
        self.fields["taken"] = taken_field(earlier, self.offered)
        if mirrored:
            self.fields["sides"] = sides_field()

    def clean(self) -> dict[str, Any]:
        """Ask before what lies on one side is taken over to a car driven from the other."""
        if "sides" in self.fields:
            check_sides(self, self.cleaned_data.get("taken", ()))
        return self.cleaned_data


@require_http_methods(["GET", "POST"])
def take(request: HttpRequest, code: str) -> HttpResponse:
    """Take over what an earlier job has and this one has not."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    sent = request.POST if request.method == "POST" else request.GET
    earlier = _named(request, user, sent.get("like", "").strip())
    form = TakeForm(request.POST or None, job=job, earlier=earlier) if earlier else None
    if request.method == "POST" and earlier and form:
        with held(job):
            if form.is_valid():
                same = is_same_car(earlier, job.vehicle)
                taken, swap = form.cleaned_data["taken"], form.cleaned_data.get("sides") == SWAP
                begin_like(job, earlier, taken, same=same, swap=swap)
                board_counts.forget(job)
                messages.success(request, _("Taken over from %(job)s.") % {"job": earlier.code})
                return redirect("job", code)
    context = {
        "job": job,
        "earlier": earlier,
        "form": form,
        "alike": earlier_of_model(job),
        "steps": strip.steps(request, job, ""),
    }
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/job/take.html", context, status=status)


def _named(request: HttpRequest, user: User, code: str) -> Job | None:
    """Return the job somebody typed the number of, and say so where there is none."""
    if not code:
        return None
    try:
        return access.open_job(user, code.upper())
    except Http404:
        messages.error(
            request, _("There is no job %(code)s.") % {"code": code.upper()[:LONGEST_SEARCH]}
        )
        return None


def earlier_of_model(job: Job) -> list[Job]:
    """Return earlier jobs of the car's model, the newest first."""
    car = job.vehicle
    alike = Job.objects.filter(vehicle__maker__iexact=car.maker, vehicle__model__iexact=car.model)
    others = alike.exclude(pk=job.pk).select_related("vehicle", "consultant")
    return list(others.order_by("-number")[:MOST_EARLIER])


urlpatterns = [
    path("jobs/new/", new_job, name="new-job"),
    path("jobs/new/known/", known, name="known-cars"),
    path("jobs/new/customers/", customers, name="customers"),
    path("jobs/<str:code>/take/", take, name="take"),
]
