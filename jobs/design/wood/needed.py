"""Glue, tape, screws and T-nuts that the wood of a job takes, and what of it is on the list."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from django.utils.translation import gettext as _

from acoustics.carcass.panels.supplies import SPREAD, Supplies, together
from acoustics.carcass.shape.contents import RoundPart
from acoustics.carcass.shape.inside.fastener import Fastener
from jobs import units
from jobs.design.box.boxes import BoxResult
from jobs.design.carcass.contents import fastener_of
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.design.wood.trim import TrimResult
from jobs.models import EquipmentItem, Ring, Supply

SECTION = "equipment"
Use = Supply.Use
# What an amount of each is counted in: kilograms, metres or pieces.
QUANTITIES = {
    Use.GLUE: "mass",
    Use.COVER_GLUE: "mass",
    Use.TAPE: "cable_length",
}


@dataclass(frozen=True, kw_only=True)
class Need:
    """One supply that the wood takes.

    `part` is what somebody put on the equipment list or chose for the screws of a driver; without
    one it is not said yet which. What nobody knows is None.
    """

    use: Supply.Use
    part: Supply | None
    amount: float | None
    listed: int = 0
    # Of glue: what it goes on.
    area: float = 0.0
    # Whether there is more that nobody could count.
    at_least: bool = False

    def met_by(self, part: Supply) -> Need:
        """The need with what was chosen for it: of glue its own coverage counts."""
        if not self.area:
            return replace(self, part=part)
        amount = None if part.spread is None else self.area * part.spread
        return replace(self, part=part, amount=amount)

    @property
    def pack(self) -> float | None:
        """What a pack of it holds."""
        if self.part is None:
            return None
        kind = QUANTITIES.get(self.use)
        if kind == "mass":
            return self.part.pack_mass
        return self.part.pack_length if kind else self.part.pack_pieces

    @property
    def lacking(self) -> int | None:
        """Whole packs that are not on the equipment list yet."""
        if self.amount is None or not self.pack:
            return None
        return max(math.ceil(self.amount / self.pack - 1e-9) - self.listed, 0)

    @property
    def says(self) -> str:
        """The amount as people read it; empty while nobody knows."""
        if self.amount is None:
            return ""
        kind = QUANTITIES.get(self.use)
        shown = units.show(self.amount, kind) if kind else f"{self.amount:.0f}"
        return _("at least %(low)s") % {"low": shown} if self.at_least else shown


def work_out_needs(
    records: JobRecords, boxes: Sequence[BoxResult], trims: Sequence[TrimResult]
) -> list[Need]:
    """Count what the wood of a job takes: boxes that are built, rings, floors, covers."""
    taken = _of_boxes(boxes)
    rings = [trim for trim in trims if isinstance(trim.record, Ring) and trim.piece]
    glued = (taken.glued if taken else 0.0) + sum(map(_glued, trims))
    covered = sum(cut.across * cut.along for trim in trims for cut in trim.cover)
    rims = [_under_rims(ring) for ring in rings]
    tape = (taken.gasket if taken else 0.0) + sum(rim for rim in rims if rim is not None)
    listed = _listed(records.equipment)
    needs = [
        _spread(Use.GLUE, glued, listed, usual=SPREAD),
        _spread(Use.COVER_GLUE, covered, listed),
        _counted(_need(Use.TAPE, tape, listed), at_least=None in rims),
        *_fastened(records, boxes, taken, rings, listed),
    ]
    return [need for need in needs if need.amount is None or need.amount > 0]


def _of_boxes(boxes: Sequence[BoxResult]) -> Supplies | None:
    each = [box.wood.supplies for box in boxes if box.box.chosen and box.wood]
    return together(each) if each else None


def _glued(trim: TrimResult) -> float:
    """Layers of a ring on each other, and strips under the rims of hatches [m²]."""
    strips = [ledge for hatch in trim.hatches for ledge in hatch.ledges]
    area = sum(ledge.size[0] * ledge.size[1] * ledge.quantity for ledge in strips)
    if isinstance(trim.record, Ring) and trim.piece:
        wood = trim.piece.outline.area - sum(hole.area for hole in trim.piece.holes)
        area += wood * (trim.piece.quantity - trim.record.quantity)
    return area


def _under_rims(trim: TrimResult) -> float | None:
    """Tape under the rims of the drivers that sit on a ring; None where one is not known [m]."""
    ring = trim.record
    assert isinstance(ring, Ring)
    part = getattr(ring.driver.part, "driver", None) if ring.driver else None
    if part is None:
        return 0.0
    if part.outer_diameter is None or part.cutout_diameter is None:
        return None
    rim: float = (part.outer_diameter + part.cutout_diameter) / 2
    return math.pi * rim * ring.quantity


def _listed(items: Sequence[EquipmentItem]) -> dict[str, dict[Supply, int]]:
    """Supplies of the equipment list by their use, in its order, with the packs of each."""
    listed: dict[str, dict[Supply, int]] = defaultdict(dict)
    for item in items:
        if supply := getattr(item.part, "supply", None):
            of_use = listed[supply.use]
            of_use[supply] = of_use.get(supply, 0) + item.quantity
    return listed


def _need(use: Supply.Use, amount: float | None, listed: dict[str, dict[Supply, int]]) -> Need:
    part, packs = next(iter(listed[use].items()), (None, 0))
    return Need(use=use, part=part, amount=amount, listed=packs)


def _counted(need: Need, *, at_least: bool) -> Need:
    """The need as far as it could be counted; unknown where nothing of it could."""
    amount = None if at_least and not need.amount else need.amount
    return replace(need, amount=amount, at_least=at_least)


def _spread(
    use: Supply.Use,
    area: float,
    listed: dict[str, dict[Supply, int]],
    usual: float | None = None,
) -> Need:
    """Glue for an area, by the coverage of the one that is chosen."""
    amount = 0.0 if not area else None if usual is None else area * usual
    need = replace(_need(use, amount, listed), area=area)
    return need.met_by(need.part) if need.part and area else need


def _fastened(
    records: JobRecords,
    boxes: Sequence[BoxResult],
    taken: Supplies | None,
    rings: Sequence[TrimResult],
    listed: dict[str, dict[Supply, int]],
) -> Iterator[Need]:
    """Screws of the joints, and what the parts in the faces and on the rings are held by."""
    chosen = [item.fastener for item in records.equipment if item.fastener]
    supply_of = {fastener_of(supply): supply for supply in chosen}
    count: Counter[Supply] = Counter()
    # Of these some hold a part of which nobody knows how many screws it has.
    uncounted = dict.fromkeys(supply_of[fastener] for fastener in _of_unknown_number(boxes))
    count.update(dict.fromkeys(uncounted, 0))
    for fastener, number in taken.fastened if taken else ():
        if fastener is not None:
            count[supply_of[fastener]] += number
    for trim in rings:
        ring = trim.record
        assert isinstance(ring, Ring)
        if ring.driver and ring.driver.fastener:
            count[ring.driver.fastener] += ring.screws * ring.quantity
    for supply, number in count.items():
        packs = listed[supply.use].pop(supply, 0)
        need = Need(use=Use(supply.use), part=supply, amount=float(number), listed=packs)
        yield _counted(need, at_least=supply in uncounted)
    joints = taken.screws if taken else 0
    yield _need(Use.SCREW, float(joints), listed)


def _of_unknown_number(boxes: Sequence[BoxResult]) -> Iterator[Fastener]:
    """What holds the parts of boxes of which nobody knows how many screws they have."""
    for box in boxes:
        for placed in box.wood.carcass.contents if box.box.chosen and box.wood else ():
            part = placed.part
            if isinstance(part, RoundPart) and part.fastener and not part.screws:
                yield part.fastener


def check_needs(
    records: JobRecords, boxes: Sequence[BoxResult], trims: Sequence[TrimResult]
) -> Iterator[Finding]:
    """Find supplies that do not last or are not ordered, or of which a figure is missing.

    What nobody has chosen is asked in the wood shop; here only what somebody has.
    """
    chosen = {item.fastener_id: item for item in records.equipment if item.fastener_id}
    listed = {item.part_id: item for item in records.equipment if hasattr(item.part, "supply")}
    items = {**chosen, **listed}
    for need in work_out_needs(records, boxes, trims) if items else ():
        item = items.get(need.part.pk) if need.part else None
        if item is None:
            continue
        if need.amount is None:  # of anything but glue the wood shop says so
            if need.area:
                yield _finding("supply-spread-unknown", item, need)
        elif need.pack is None:
            yield _finding("supply-pack-unknown", item, need)
        elif need.lacking:
            yield _finding("supply-short", item, need)


def _finding(code: str, item: EquipmentItem, need: Need) -> Finding:
    return Finding(
        code=code,
        severity="look",
        section=SECTION,
        about=about(item),
        name=str(need.part),
        value=need.amount,
        limit=None if need.lacking is None else float(need.lacking),
        value_said=need.says,
    )
