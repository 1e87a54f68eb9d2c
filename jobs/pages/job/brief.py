"""The brief: what the customer wants, in their words and in ours."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.db.models import Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from jobs.models import Job, User
from jobs.pages.forms.days import DaysForm
from jobs.pages.forms.one_record import Single


class PersonField(forms.ModelChoiceField[User]):
    """A choice of people by the name they go by, not the one they sign in with."""

    def label_from_instance(self, obj: User) -> str:
        """Return the name printed where this person signs."""
        return obj.full_name


class BriefForm(DaysForm[Job]):
    """What was asked for, and by when."""

    ahead: ClassVar = {"promised_on"}

    quantities: ClassVar = {
        "reserve_wanted": "duration",
        "room_at_most": "volume",
        "height_at_most": "length",
        "heavier_at_most": "mass",
        "current_at_most": "current",
    }
    or_zero: ClassVar = {"room_at_most"}
    fieldsets: ClassVar = [
        (_("The job"), ["title", "consultant", "promised_on", "budget"]),
        (_("In the customer's words"), ["wishes", "listening"]),
        (
            _("In ours"),
            [
                "programme",
                "calls_heard",
                "looks",
                "space_to_keep",
                "must_stay_factory",
            ],
        ),
        (
            _("Limits the plan is held against"),
            [
                *("room_at_most", "height_at_most", "heavier_at_most", "current_at_most"),
                *("reserve_wanted", "undrilled"),
            ],
        ),
        (_("For the hand-over"), ["why_this", "how_to_use", "care_notes"]),
    ]

    class Meta:
        model = Job
        fields = (
            "title",
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
            "room_at_most",
            "height_at_most",
            "heavier_at_most",
            "current_at_most",
            "undrilled",
            "why_this",
            "how_to_use",
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


class HaltForm(DaysForm[Job]):
    """Why a job does not go on, and when somebody looks at it again."""

    ahead: ClassVar = {"look_again_on"}

    class Meta:
        model = Job
        fields = ("halt", "halt_why", "look_again_on")
        widgets = {"look_again_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")}
        help_texts = {"halt": _("left empty, it goes on")}

    def clean(self) -> dict[str, Any]:
        """Ask why, and of a job that waits, until when; of one that goes on, nothing stays."""
        cleaned = super().clean()
        if not cleaned.get("halt"):
            return cleaned | {"halt_why": "", "look_again_on": None}
        if not cleaned.get("halt_why"):
            self.add_error("halt_why", gettext("Say why it does not go on."))
        if cleaned["halt"] == Job.Halt.ON_HOLD and not cleaned.get("look_again_on"):
            self.add_error("look_again_on", gettext("Say when somebody looks at it again."))
        return cleaned


urlpatterns = [
    Single(
        slug="brief",
        form=BriefForm,
        record=lambda job: job,
        section="brief",
        template="pages/job/brief.html",
    ).url(),
    Single(
        slug="halt",
        form=HaltForm,
        record=lambda job: job,
        section="brief",
        template="pages/job/halt.html",
    ).url(),
]
