"""The brief: what the customer wants, in their words and in ours; and whom to call."""

from __future__ import annotations

from typing import ClassVar

from django.utils.translation import gettext_lazy as _

from jobs.models import Customer, Job
from jobs.pages.forms import RecordForm
from jobs.pages.single import Single


class BriefForm(RecordForm[Job]):
    """What was asked for, and where the job stands."""

    quantities: ClassVar = {"reserve_wanted": "duration"}
    fieldsets: ClassVar = [
        (_("The job"), ["title", "stage", "consultant", "promised_on", "budget"]),
        (_("In the customer's words"), ["wishes", "listening"]),
        (
            _("In ours"),
            ["programme", "reserve_wanted", "looks", "space_to_keep", "must_stay_factory"],
        ),
        (_("For the hand-over"), ["care_notes"]),
    ]

    class Meta:
        model = Job
        fields = (
            "title",
            "stage",
            "consultant",
            "promised_on",
            "budget",
            "wishes",
            "listening",
            "programme",
            "reserve_wanted",
            "looks",
            "space_to_keep",
            "must_stay_factory",
            "care_notes",
        )


class CustomerForm(RecordForm[Customer]):
    """Whom to call."""

    class Meta:
        model = Customer
        fields = ("name", "phone", "email", "address", "notes")


urlpatterns = [
    Single(
        slug="brief",
        form=BriefForm,
        record=lambda job: job,
        section="brief",
        template="pages/brief.html",
    ).url(),
    Single(
        slug="customer",
        form=CustomerForm,
        record=lambda job: job.vehicle.customer,
        section="brief",
        template="pages/customer.html",
    ).url(),
]
