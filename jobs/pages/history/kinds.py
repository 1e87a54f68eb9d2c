"""Every kind of record whose history people read, and where its entries are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import Model, QuerySet
from django.utils.translation import gettext_lazy as _

from jobs.models import (
    CarAnswer,
    Customer,
    Decision,
    GateSign,
    Intake,
    IntakeMark,
    Job,
    JobPart,
    Offer,
    PanelClosing,
    Part,
    StageRelease,
    User,
    Vehicle,
    Workshop,
)
from jobs.pages.agreement.agreement import PAYMENT
from jobs.pages.agreement.hours import WORK_TIME
from jobs.pages.agreement.options import OPTION
from jobs.pages.agreement.price import PRICE_LINE
from jobs.pages.bay.as_built import FACTORY_AS_BUILT, ITEM_AS_BUILT, RUN_AS_BUILT
from jobs.pages.bay.intake import IntakeForm
from jobs.pages.bay.measure import MEASUREMENT
from jobs.pages.bay.notes import NOTE
from jobs.pages.bay.pictures import PICTURE
from jobs.pages.box.as_built import BOX_AS_BUILT
from jobs.pages.box.boxes import BOX
from jobs.pages.box.cabin import CURVE
from jobs.pages.box.finished import BOX_SWEEP
from jobs.pages.box.measured import SWEEP
from jobs.pages.calendar.days import BOOKING
from jobs.pages.forms.record_rows import RowKind
from jobs.pages.job.aftercare import LOT, VISIT
from jobs.pages.job.brief import BriefForm
from jobs.pages.job.car import FACTORY, VehicleForm
from jobs.pages.job.car_templates import TEMPLATE
from jobs.pages.job.customer import CONVERSATION, CustomerForm
from jobs.pages.job.equipment import ITEM
from jobs.pages.job.panels import CONTENT, FIXING, LAYER, PANEL, STEP
from jobs.pages.setup.as_set import CHANNEL_SETTING
from jobs.pages.setup.measured import CHANNEL_CURVE
from jobs.pages.setup.processor_files import PROCESSOR_FILE
from jobs.pages.setup.target_curves import TARGET_CURVE
from jobs.pages.wiring.channels import CHANNEL
from jobs.pages.wiring.grounds import GROUND, JOIN
from jobs.pages.wiring.power import NODE
from jobs.pages.wiring.runs import RUN
from jobs.pages.wood.rings_and_trim import RING, TRIM_PANEL
from jobs.pages.wood.shop import WOOD_STEP
from jobs.pages.workshop.part_forms import FORMS
from jobs.pages.workshop.people import PersonForm
from jobs.pages.workshop.workshop import WorkshopForm

# In the order of the pages they stand on.
ROWS: tuple[RowKind, ...] = (
    *(FACTORY, CURVE, ITEM, SWEEP, CHANNEL, BOX, BOX_SWEEP, RING, TRIM_PANEL),
    *(WOOD_STEP, BOX_AS_BUILT),
    *(NODE, RUN, GROUND, JOIN),
    *(PANEL, FIXING, LAYER, STEP, CONTENT, PICTURE, MEASUREMENT, NOTE),
    *(RUN_AS_BUILT, ITEM_AS_BUILT, FACTORY_AS_BUILT),
    *(CHANNEL_CURVE, TARGET_CURVE, CHANNEL_SETTING, PROCESSOR_FILE),
    *(VISIT, LOT),
    *(PRICE_LINE, OPTION, PAYMENT, WORK_TIME, BOOKING, CONVERSATION, TEMPLATE),
)


@dataclass(frozen=True, kw_only=True)
class Kind:
    """A kind of record: what it is called, and the form that knows the words of its fields."""

    slug: str
    model: type[Model]
    called: Any
    form: Any = None

    @property
    def label(self) -> str:
        """What the workshop calls one of them, in the reader's language."""
        return str(self.called)


def _of_rows(row: RowKind) -> Kind:
    called = row.called or row.model._meta.verbose_name
    return Kind(slug=row.slug, model=row.model, called=called, form=row.form)


KINDS: dict[str, Kind] = {
    kind.slug: kind
    for kind in (
        Kind(slug="brief", model=Job, called=_("brief"), form=BriefForm),
        Kind(slug="customer", model=Customer, called=_("customer"), form=CustomerForm),
        Kind(slug="car", model=Vehicle, called=_("car"), form=VehicleForm),
        *(_of_rows(row) for row in ROWS),
        Kind(slug="decision", model=Decision, called=_("decision")),
        Kind(slug="offer", model=Offer, called=_("spec and price")),
        Kind(slug="intake", model=Intake, called=_("intake"), form=IntakeForm),
        Kind(slug="intake-mark", model=IntakeMark, called=_("mark on the car")),
        Kind(slug="closing", model=PanelClosing, called=_("closing of a panel")),
        Kind(slug="electronics", model=CarAnswer, called=_("electronics of the car")),
        Kind(slug="gate-sign", model=GateSign, called=_("check before hand-over")),
        Kind(slug="release", model=StageRelease, called=_("stage released")),
    )
}
PERSON = Kind(slug="person", model=User, called=_("person"), form=PersonForm)
WORKSHOP = Kind(slug="workshop", model=Workshop, called=_("workshop"), form=WorkshopForm)


@dataclass(frozen=True, kw_only=True)
class Source:
    """Entries of one kind that are read together: those of a job, of a part, of a person."""

    kind: Kind
    entries: QuerySet[Any]


def of_job(job: Job, kinds: Iterable[Kind]) -> list[Source]:
    """Everything that was ever written on a job, its car and its customer."""
    keys: dict[type[Model], int] = {
        Job: job.pk,
        Vehicle: job.vehicle_id,
        Customer: job.vehicle.customer_id,
    }
    return [
        Source(
            kind=kind,
            entries=_history(kind.model).filter(job=job)
            if issubclass(kind.model, JobPart)
            else _history(kind.model).filter(id=keys[kind.model]),
        )
        for kind in kinds
    ]


def of_part(part: Part) -> list[Source]:
    """A part of the catalogue: what was removed as a part of any kind is noted apart."""
    form = FORMS[part.kind]
    models: list[Any] = list(dict.fromkeys((form._meta.model, Part)))
    called = part.get_kind_display()
    return [
        Source(
            kind=Kind(slug=model.__name__.lower(), model=model, called=called, form=form),
            entries=_history(model).filter(id=part.pk),
        )
        for model in models
    ]


def of_one(kind: Kind, pk: int) -> list[Source]:
    """One record that belongs to no job."""
    return [Source(kind=kind, entries=_history(kind.model).filter(id=pk))]


def _history(model: Any) -> QuerySet[Any]:
    entries: QuerySet[Any] = model.history.all()
    return entries
