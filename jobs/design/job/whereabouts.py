"""Where everything is: behind a panel, elsewhere in words, or said by nobody yet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jobs.design.job.panels import PanelResult
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.models import Box, EquipmentItem, FactoryPart, GroundPoint, PanelContent, Record

SECTION = "panels"
# They lie somewhere, unlike what was taken out of the car for good.
OUT_OF_ITS_PLACE = (FactoryPart.Fate.REMOVED, FactoryPart.Fate.REPLACED)

# What somebody has to find again; the battery's own post is where the battery is.
ON_THE_CAR = (GroundPoint.Kind.BODY, GroundPoint.Kind.BLOCK)

Thing = EquipmentItem | Box | FactoryPart


@dataclass(frozen=True, kw_only=True)
class Whereabouts:
    """One thing of the job, how many pieces of it there are and of how many somebody said where."""

    thing: Thing
    name: str
    planned: str  # where it was to go, in words
    pieces: int
    placed: int

    @property
    def missing(self) -> int:
        """Pieces of which nobody has said where they are."""
        return max(self.pieces - self.placed, 0)

    @property
    def too_many(self) -> int:
        """Pieces that were written down and are not on the list."""
        return max(self.placed - self.pieces, 0)

    @property
    def asked_as(self) -> str:
        """The field of a content that names it."""
        kinds = {EquipmentItem: "equipment", Box: "box", FactoryPart: "factory_part"}
        return kinds[type(self.thing)]


def work_out_whereabouts(records: JobRecords) -> list[Whereabouts]:
    """Return every piece of equipment, box that is built and factory part with where it is."""
    seen = _seen(records)
    items = [
        Whereabouts(
            thing=item,
            name=str(item.part),
            planned=item.place,
            pieces=item.quantity,
            placed=sum(row.pieces for row in seen if row.equipment_id == item.pk),
        )
        for item in records.equipment
        if not item.is_used_up
    ]
    boxes = [
        Whereabouts(
            thing=box,
            name=str(box),
            planned=box.place,
            pieces=1,
            placed=min(1, sum(row.box_id == box.pk for row in seen)),
        )
        for box in records.boxes
        if box.chosen
    ]
    factory = [
        Whereabouts(
            thing=part,
            name=str(part),
            planned="",
            pieces=1,
            placed=_of_factory(part, seen),
        )
        for part in records.factory_parts
    ]
    return [*items, *boxes, *factory]


def elsewhere(records: JobRecords) -> list[PanelContent]:
    """Return what is in the car, and behind none of its panels."""
    return [row for row in records.contents if row.panel_id is None and row.elsewhere]


def _seen(records: JobRecords) -> list[PanelContent]:
    """The rows that say where something is; a panel that was taken out says it no more."""
    there = {panel.pk for panel in records.panels}
    return [
        row
        for row in records.contents
        if row.panel_id in there or (row.panel_id is None and row.elsewhere)
    ]


def _of_factory(part: FactoryPart, seen: Sequence[PanelContent]) -> int:
    """Whether it is known where a factory part is.

    What stays in use is where the car's maker put it, which is its place; what was taken out is
    where somebody keeps it; what was unplugged lies behind a panel and is looked for there.
    """
    if any(row.factory_part_id == part.pk for row in seen):
        return 1
    if part.fate in OUT_OF_ITS_PLACE:
        return int(bool(part.kept_where.strip()))
    return int(part.fate == FactoryPart.Fate.IN_USE)


def check_whereabouts(records: JobRecords, panels: Sequence[PanelResult]) -> Iterator[Finding]:
    """Name what nobody has placed, what was placed twice, and panels nothing is known of."""
    things = work_out_whereabouts(records)
    if missing := [thing for thing in things if thing.missing]:
        yield _together(
            records,
            "not-placed",
            [(thing.thing, thing.missing) for thing in missing],
            [f"{thing.missing} × {thing.name}" for thing in missing],
        )
    for thing in things:
        if thing.too_many:
            yield Finding(
                code="placed-too-often",
                severity="look",
                section=SECTION,
                about=about(thing.thing),
                name=thing.name,
                value=float(thing.placed),
                limit=float(thing.pieces),
            )
    if silent := [result.panel for result in panels if result.state == "silent"]:
        yield _together(
            records,
            "panels-not-recorded",
            [(panel, 1) for panel in silent],
            [panel.name for panel in silent],
        )
    for point in records.grounds:
        if point.kind in ON_THE_CAR and point.panel is None and not point.place.strip():
            yield Finding(
                code="ground-place-unknown",
                severity="look",
                section=SECTION,
                about=about(point),
                name=point.name,
            )
    for result in panels:
        if result.panel.empty_at and result.is_listed:
            yield Finding(
                code="panel-not-empty",
                severity="look",
                section=SECTION,
                about=about(result.panel),
                name=result.panel.name,
            )


def _together(
    records: JobRecords,
    code: str,
    counted: Sequence[tuple[Record, int]],
    names: Sequence[str],
) -> Finding:
    """One finding for many rows: a list of thirty alike would hide what matters."""
    keys = [(about(row), number) for row, number in counted]
    return Finding(
        code=code,
        severity="look",
        section=SECTION,
        about=about(records.job),
        also=tuple(key for key, _number in keys),
        name=records.job.code,
        # It rests on which are missing and how many of each: one more asks again.
        value=", ".join(f"{key.id} × {number}" for key, number in keys),
        value_said=", ".join(names),
    )
