"""When a finding is to be settled, and who settles it.

Which of them can wait until the car is apart is the workshop's own order; common practice, no
source.
"""

from __future__ import annotations

from jobs.design.records.findings import Finding
from jobs.models import Role, Stage

# The stage before which it is settled, by code; what is not named here follows its page.
IN_THE_BAY = (
    *("drilled-panel", "ground-not-bare", "ground-resistance-unknown", "ground-resistance-high"),
    *("key-off-added-high", "key-off-added-unknown", "key-off-total-high", "key-off-total-unknown"),
    *("measured-outside", "measured-far-outside", "not-placed", "placed-too-often"),
    *("panels-not-recorded", "panel-not-empty", "box-tuned-off", "box-leaks"),
    *("losses-not-one-leak", "box-sweep-fits-badly", "box-sweep-cannot-be-used"),
    *("quieter-than-before", "polarity-turned-since", "heard-outside-its-band"),
)
ON_THE_CAR = (
    *("airbag-unknown", "airbag-procedure-missing", "route-missing", "grommet-missing"),
    *("passage-unknown", "bend-too-tight", "bend-radius-unknown", "outer-diameter-unknown"),
    *("terminal-not-chosen", "stud-torque-unknown", "ground-surface-unknown"),
    "fuse-terminal-not-chosen",
    *("return-end-unknown", "line-beside-power-unknown", "zone-unknown", "screw-circle-unknown"),
    *("factory-fate-open", "battery-place-unknown", "amplifier-air-unknown", "coil-diode-unknown"),
    *("box-fixing-unknown", "fixing-into-nothing", "mass-unknown", "opening-unknown"),
    *("high-voltage-car", "high-voltage-vehicle-caution", "smart-charging-caution"),
    *("start-stop-caution", "pull-force-unpublished", "capacitor-needs-fuse-and-slow-charge"),
    *("car-taken-over", "glass-unknown", "drilling-unknown"),
)
_BY_CODE = dict.fromkeys(IN_THE_BAY, Stage.HANDED_OVER) | dict.fromkeys(ON_THE_CAR, Stage.BAY)
_BY_PAGE = {"panels": Stage.BAY, "bay": Stage.HANDED_OVER}
DUE = (Stage.AGREED, Stage.BAY, Stage.HANDED_OVER)

WHO = {
    "brief": Role.CONSULTANT,
    "car": Role.CONSULTANT,
    "panels": Role.INSTALLER,
    "bay": Role.INSTALLER,
}


def due_of(finding: Finding) -> Stage:
    """Return the stage before which a finding is to be settled."""
    return _BY_CODE.get(finding.code) or _BY_PAGE.get(finding.section, Stage.AGREED)


def cured_by(finding: Finding) -> Role:
    """Return who can cure it: what shows only in the bay is for whoever works there."""
    if due_of(finding) == Stage.HANDED_OVER:
        return Role.INSTALLER
    return WHO.get(finding.section, Role.DESIGNER)
