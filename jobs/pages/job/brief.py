"""The brief: what the customer wants, in their words and in ours; and whom to call."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.db.models import Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from jobs.design.job.handover_gate import may_hand_over
from jobs.design.job.whole import load, work_out
from jobs.models import Customer, Job, Stage, User
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.one_record import Single

# Stages in which the car is with its owner.
GONE = (Stage.HANDED_OVER, Stage.AFTERCARE)


class PersonField(forms.ModelChoiceField[User]):
    """A choice of people by the name they go by, not the one they sign in with."""

    def label_from_instance(self, obj: User) -> str:
        """Return the name printed where this person signs."""
        return obj.full_name


class BriefForm(RecordForm[Job]):
    """What was asked for, and where the job stands."""

    quantities: ClassVar = {"reserve_wanted": "duration"}
    fieldsets: ClassVar = [
        (_("The job"), ["title", "stage", "consultant", "promised_on", "budget"]),
        (_("In the customer's words"), ["wishes", "listening"]),
        (
            _("In ours"),
            [
                "programme",
                "calls_heard",
                "reserve_wanted",
                "looks",
                "space_to_keep",
                "must_stay_factory",
            ],
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
            "calls_heard",
            "reserve_wanted",
            "looks",
            "space_to_keep",
            "must_stay_factory",
            "care_notes",
        )
        labels = {"consultant": _("Consultant")}
        field_classes = {"consultant": PersonField}
        # The browser writes the date the way its owner does.
        widgets = {"promised_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        consultant = self.fields["consultant"]
        assert isinstance(consultant, forms.ModelChoiceField)
        # Whoever has left since stays with the jobs they had.
        works_here = Q(is_active=True) & ~Q(roles=[])
        consultant.queryset = User.objects.filter(works_here | Q(pk=self.instance.consultant_id))

    def clean_stage(self) -> str:
        """A car goes to its owner through the gate, or on the manager's word."""
        stage = str(self.cleaned_data["stage"])
        leaves = stage in GONE and self.initial.get("stage") not in GONE
        if leaves and not may_hand_over(work_out(load(self.instance))):
            raise forms.ValidationError(
                gettext("Not before the gate is open: see “Before hand-over” in the bay.")
            )
        return stage


class CustomerForm(RecordForm[Customer]):
    """Whom to call."""

    class Meta:
        model = Customer
        fields = ("name", "phone", "email", "address", "notes")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.erased_at:  # nobody moves in where somebody was erased
            for name in self._meta.fields or ():
                self.fields[name].disabled = True


urlpatterns = [
    Single(
        slug="brief",
        form=BriefForm,
        record=lambda job: job,
        section="brief",
        template="pages/job/brief.html",
    ).url(),
    Single(
        slug="customer",
        form=CustomerForm,
        record=lambda job: job.vehicle.customer,
        section="brief",
        template="pages/workshop/customer.html",
        beside=lambda job: {"customer": job.vehicle.customer},
    ).url(),
]
