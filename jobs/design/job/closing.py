"""What is checked before a panel goes back on, and whether it is on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from jobs.design.job.panels import PanelResult
from jobs.models import PanelClosing

# By code, in the order they are gone through; a code is stored, its words are for people.
CHECKS: dict[str, Promise] = {
    "steps": _("Every step behind it is ticked."),
    "plays": _("What is behind it plays, and its polarity is right."),
    "travel": _("Window, lock and handle move free of everything new."),
    "insulated": _("Every unused plug is insulated and tied back."),
    "torqued": _("Grounds and lugs behind it are tightened to their torque."),
    "contents": _("What is behind it stands on the list, with its numbers."),
    "photos": _("There are photos of it as it is now."),
    "clips": _("Its clips are whole, or replaced or taped."),
}


@dataclass(frozen=True, kw_only=True)
class Check:
    """One check of one panel: a person's word, or what the records say by themselves."""

    code: str
    # None where only a person can say.
    known: bool | None = None

    @property
    def says(self) -> str:
        """The check in one sentence."""
        return str(CHECKS[self.code])


def checks_of(result: PanelResult) -> list[Check]:
    """The checks that mean anything for this panel."""
    known: dict[str, bool | None] = {"photos": bool(result.photos)}
    if result.steps:
        known["steps"] = all(step.done_at for step in result.steps)
    if any(row.equipment_id or row.box_id for row in result.contents):
        known["plays"] = None
    if result.runs or result.contents:
        known["travel"] = None
    if any(row.factory_part_id for row in result.contents):
        known["insulated"] = None
    if result.grounds or any(passing.run.kind == "P" for passing in result.runs):
        known["torqued"] = None
    known["contents"] = False if result.state == "silent" else None
    if result.fastenings or result.panel.fixings:
        known["clips"] = None
    return [Check(code=code, known=known[code]) for code in CHECKS if code in known]


def closing_of(panel: int, closings: Sequence[PanelClosing]) -> PanelClosing | None:
    """The closing that holds now; none where the panel is off."""
    mine = [row for row in closings if row.panel_id == panel]
    return mine[-1] if mine and mine[-1].reopened_at is None else None
