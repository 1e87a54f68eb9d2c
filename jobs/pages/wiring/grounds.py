"""Ground points, and joins to the factory loom."""

from __future__ import annotations

from typing import Any, ClassVar

from django.utils.translation import gettext_lazy as _

from jobs import access
from jobs.models import GroundPoint, LoomJoin
from jobs.pages.forms import row_acts
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class GroundForm(RecordForm[GroundPoint]):
    """A place where returns meet metal."""

    quantities: ClassVar = {
        "resistance": "resistance",
        "torque": "torque",
        "length": "cable_length",
    }
    fieldsets: ClassVar = [
        (_("What it is"), ["name", "kind", "place", "panel"]),
        (_("The metal"), ["surface", "resistance", "stud", "torque"]),
        (_("What leads on from it"), ["conductor", "length"]),
    ]

    class Meta:
        model = GroundPoint
        exclude = ("job",)
        help_texts: ClassVar = {
            "resistance": _("millivolts over amperes, with a known current flowing"),
            "conductor": _("only where several returns share a cable from here"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("panel", self.instance.job.panels.all())


class JoinForm(RecordForm[LoomJoin]):
    """Where our cable meets the factory loom."""

    quantities: ClassVar = {"level": "voltage"}
    any_sign: ClassVar = {"level"}
    fieldsets: ClassVar = [
        (_("The factory's side"), ["connector", "pin", "colour", "panel"]),
        (_("What was found"), ["carries", "signal", "level"]),
        (_("Ours"), ["run", "how"]),
    ]

    class Meta:
        model = LoomJoin
        exclude = ("job",)
        help_texts: ClassVar = {
            "level": _("measured on the pin; a colour or a number proves nothing"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        job = self.instance.job
        self.offer("panel", job.panels.all())
        self.offer("run", job.runs.all())


# Where it really is, how tight, what was found on a pin: written down by whoever stands there.
GROUND = RowKind(
    slug="ground",
    form=GroundForm,
    section="power",
    allowed=access.may_record,
    in_table=("name", "kind", "place", "panel", "surface", "resistance"),
    sided=("name", "place", "panel"),
    not_copied=("resistance",),
)
JOIN = RowKind(slug="join", form=JoinForm, section="power", allowed=access.may_record)

urlpatterns = [*row_acts.urls(GROUND), *GROUND.urls(), *JOIN.urls()]
