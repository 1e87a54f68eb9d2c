"""What of the equipment could fly in a crash, and whether somebody said what holds it."""

from __future__ import annotations

from collections.abc import Iterator

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.models import EquipmentItem, Part, PowerNode

SECTION = "equipment"
# What lies in wood, in a door or along a loom is held by that; small parts weigh nothing much.
HELD_BY_ITSELF = {
    Part.Kind.DRIVER,
    Part.Kind.CONDUCTOR,
    Part.Kind.TERMINAL,
    Part.Kind.FUSE,
    Part.Kind.SHEET_MATERIAL,
    Part.Kind.DAMPING,
    Part.Kind.COVER,
    Part.Kind.SUPPLY,
}
# From here on a thing is asked after whatever it is [kg]: common practice, no source.
HEAVY = 1.0
# What is heavy although nobody weighed it.
_STORES = (PowerNode.Kind.BATTERY, PowerNode.Kind.CAPACITOR)


def may_be_loose(part: Part) -> bool:
    """Whether it is asked of such a part how it is held."""
    return part.kind not in HELD_BY_ITSELF


def check_held(records: JobRecords) -> Iterator[Finding]:
    """Ask of amplifiers, added batteries and whatever is heavy; what stands loose is a stop."""
    stores = {node.equipment_id for node in records.nodes if node.kind in _STORES}
    for item in records.equipment:
        part = item.part
        if not may_be_loose(part):
            continue
        heavy = part.mass is not None and part.mass >= HEAVY
        if heavy or part.kind == Part.Kind.AMPLIFIER or item.pk in stores:
            yield from _of_item(item)
    yield from _unlisted(records)


def _of_item(item: EquipmentItem) -> Iterator[Finding]:
    held, mass = EquipmentItem.Held, item.part.mass
    if item.held_by == held.LOOSE:
        yield _finding("equipment-unfixed", "stop", item, mass)
    elif item.held_by == held.UNSAID:
        yield _finding("equipment-fixing-unknown", "look", item, mass)
    elif item.held_by != held.MAKERS and not item.held_into.strip():
        yield _finding("equipment-into-nothing", "look", item, mass)


def _unlisted(records: JobRecords) -> Iterator[Finding]:
    """Batteries beside the car's own of which the equipment list knows nothing."""
    batteries = [node for node in records.nodes if node.kind == PowerNode.Kind.BATTERY]
    unlisted = [node for node in batteries if node.equipment_id is None]
    # The car's own is the one that starts it, or else the first.
    own = next((node for node in unlisted if node.cca or node.starting_current), None)
    own = own or next(iter(unlisted), None)
    for node in unlisted:
        if node is not own and len(batteries) > 1:
            yield Finding(
                code="battery-not-listed",
                severity="look",
                section=SECTION,
                about=about(node),
                name=node.name,
            )


def _finding(code: str, severity: str, item: EquipmentItem, mass: float | None) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        section=SECTION,
        about=about(item),
        name=str(item),
        value=mass,
        unit="kg" if mass is not None else "",
    )
