"""What of the equipment could fly in a crash, and whether somebody said what holds it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.fixed import carries, held_findings, is_carried
from jobs.design.records.records import JobRecords
from jobs.models import Box, EquipmentItem, Part, PowerNode, TrimPanel
from jobs.models.box.box_kinds import Behind, kind_of

SECTION, WOOD = "equipment", "boxes"
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
    asked = [item for item in records.equipment if _is_asked(item, stores)]
    for item in asked:
        yield from held_findings(item, section=SECTION, mass=item.part.mass)
    yield from _carried(records, asked)
    yield from _unlisted(records)


def _is_asked(item: EquipmentItem, stores: Collection[int | None]) -> bool:
    part = item.part
    heavy = part.mass is not None and part.mass >= HEAVY
    important = heavy or part.kind == Part.Kind.AMPLIFIER or item.pk in stores
    return may_be_loose(part) and important


def _carried(records: JobRecords, asked: Sequence[EquipmentItem]) -> Iterator[Finding]:
    """What stands on something of ours, where nothing of ours is held to the car."""
    boxes = [
        box
        for box in records.boxes
        if box.chosen and kind_of(box).behind not in (Behind.OPEN, Behind.DOOR)
    ]
    panels = [panel for panel in records.trim_panels if panel.kind != TrimPanel.Kind.TRIM]
    if any(carries(box) for box in boxes) or any(carries(panel) for panel in panels):
        return
    standing: list[tuple[EquipmentItem | Box | TrimPanel, str]] = [
        *((item, SECTION) for item in asked),
        *((box, WOOD) for box in boxes),
        *((panel, WOOD) for panel in panels),
    ]
    for record, section in standing:
        if is_carried(record):
            yield Finding(
                code="carried-by-nothing-held",
                severity="look",
                section=section,
                about=about(record),
                name=record.name if isinstance(record, Box | TrimPanel) else str(record),
            )


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
