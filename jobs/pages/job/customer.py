"""The customer of a job: whom to call, their cars and visits, and what was said when."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, ClassVar

from django.db.models import Prefetch
from django.utils import timezone
from django.utils.translation import gettext as _

from jobs import access
from jobs.models import Conversation, Customer, Job, Message, Offer, Vehicle
from jobs.pages.forms.days import DAY, DaysForm
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.one_record import Single
from jobs.pages.forms.record_rows import RowKind


class CustomerForm(RecordForm[Customer]):
    """Whom to call."""

    class Meta:
        model = Customer
        fields = ("name", "phone", "email", "address", "language", "notes")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.erased_at:  # nobody moves in where somebody was erased
            for name in self._meta.fields or ():
                self.fields[name].disabled = True


class ConversationForm(DaysForm[Conversation]):
    """What was said, on which day and how."""

    over: ClassVar = {"held_on"}

    class Meta:
        model = Conversation
        fields = ("held_on", "way", "text")
        widgets: ClassVar = {"held_on": DAY}


@dataclass(frozen=True, kw_only=True)
class Moment:
    """One thing that was said, written or agreed; `row` is what can be corrected of it."""

    on: dt.date
    at: dt.datetime  # when it was written down: what of one day came first
    job: Job
    way: str
    text: str
    who: str
    row: Conversation | None = None


def _card(job: Job) -> dict[str, Any]:
    """What stands beside a customer: cars, visits, and what was said, the newest first."""
    customer = job.vehicle.customer
    visits = Prefetch("jobs", Job.objects.order_by("number"), to_attr="visits")
    cars = Vehicle.objects.filter(customer=customer).order_by("pk").prefetch_related(visits)
    jobs = {visit.pk: visit for car in cars for visit in car.visits}
    moments = sorted(_moments(jobs), key=lambda moment: (moment.on, moment.at), reverse=True)
    # It stands under the brief in the strip; what was removed from it is its own.
    own = {"section": "customer", "of_jobs": jobs.values()}
    return {"customer": customer, "cars": cars, "moments": moments, **own}


def _moments(jobs: dict[int, Job]) -> Iterator[Moment]:
    rows = list(Conversation.objects.filter(job__in=jobs))
    began = Conversation.history.filter(id__in=[row.pk for row in rows], history_type="+")
    wrote = {entry.id: entry for entry in began.select_related("history_user")}
    for row in rows:
        entry = wrote.get(row.pk)
        yield Moment(
            on=row.held_on,
            at=entry.history_date if entry else timezone.now(),
            job=jobs[row.job_id],
            way=row.get_way_display(),
            text=row.text,
            who=entry.history_user.full_name if entry and entry.history_user else "",
            row=row,
        )
    for message in Message.objects.filter(job__in=jobs).select_related("asked_by"):
        yield Moment(
            on=timezone.localdate(message.asked_at),
            at=message.asked_at,
            job=jobs[message.job_id],
            way=_("e-mail, %(state)s") % {"state": message.get_state_display()},
            text=message.subject or str(message.get_kind_display()),
            who=message.asked_by.full_name,
        )
    agreed = Offer.objects.filter(job__in=jobs, accepted_at__isnull=False)
    for offer in agreed.select_related("job", "sheet"):
        assert offer.accepted_at is not None
        yield Moment(
            on=timezone.localdate(offer.accepted_at),
            at=offer.accepted_at,
            job=jobs[offer.job_id],
            way=_("agreed"),
            text=offer.number,
            who=offer.accepted_name,
        )


CONVERSATION = RowKind(
    slug="conversation",
    form=ConversationForm,
    section="customer",
    allowed=access.may_record,
)

urlpatterns = [
    Single(
        slug="customer",
        form=CustomerForm,
        record=lambda job: job.vehicle.customer,
        section="brief",
        template="pages/workshop/customer.html",
        beside=_card,
    ).url(),
    *CONVERSATION.urls(),
]
