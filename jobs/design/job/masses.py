"""What the job adds to the car in kilograms, and what it takes out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from acoustics.carcass.shape.contents import kind_of as kind_of_content
from jobs.design.box.boxes import BoxResult
from jobs.design.job.damping import DampingOrder
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, Term
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cable_mass import work_out_cable_mass
from jobs.design.wiring.schedule import LaidRuns
from jobs.design.wood.pieces import Piece
from jobs.design.wood.trim import TrimResult
from jobs.models import FactoryPart, Part, TrimPanel
from jobs.models.box.box_kinds import Behind, kind_of

SECTION = "equipment"
# Wood and cable are counted from what is cut; of terminals and fuses nobody knows the grams.
NOT_COUNTED = {
    Part.Kind.CONDUCTOR,
    Part.Kind.TERMINAL,
    Part.Kind.FUSE,
    Part.Kind.SHEET_MATERIAL,
    Part.Kind.COVER,
    Part.Kind.SUPPLY,
}
# On the equipment list, so not counted once more with their box.
LISTED = {"driver", "passive radiator"}
AXLES = {"front": Term(("front axle",)), "rear": Term(("rear axle",))}
OUT_OF_THE_CAR = {FactoryPart.Fate.REMOVED, FactoryPart.Fate.REPLACED}


@dataclass(frozen=True, kw_only=True)
class Weight:
    """One line: what it is, how heavy [kg]; None where nobody knows."""

    key: str  # of the record, and of what on it
    name: str
    mass: float | None
    taken_out: bool = False


@dataclass(frozen=True, kw_only=True)
class Masses:
    """Every line of a job, and what the car can bear."""

    rows: Sequence[Weight]
    payload: float | None
    front_axle_spare: float | None
    rear_axle_spare: float | None

    @property
    def added(self) -> float:
        """What is known of all that goes in."""
        return sum(row.mass or 0.0 for row in self.rows if not row.taken_out)

    @property
    def taken_out(self) -> float:
        """What is known of all that comes out for good."""
        return sum(row.mass or 0.0 for row in self.rows if row.taken_out)

    @property
    def net(self) -> float:
        """How much heavier the car becomes, as far as known."""
        return self.added - self.taken_out

    @property
    def unknown(self) -> list[str]:
        """What nobody has weighed."""
        return [row.name for row in self.rows if row.mass is None]

    @property
    def left(self) -> float | None:
        """What the car may carry besides; None where nobody said what it may."""
        return None if self.payload is None else self.payload - self.net

    @property
    def _spares(self) -> dict[str, float | None]:
        return {"front": self.front_axle_spare, "rear": self.rear_axle_spare}

    @property
    def axles(self) -> list[tuple[str, float]]:
        """The axles of which somebody entered what they may bear."""
        return [(axle, spare) for axle, spare in self._spares.items() if spare is not None]

    @property
    def unweighed_axles(self) -> list[str]:
        """Where somebody entered what the car may bear: the axles of which nobody has."""
        asked = self.payload is not None or self.axles
        return [axle for axle, spare in self._spares.items() if asked and spare is None]

    @property
    def axles_together(self) -> float | None:
        """What both axles may still bear; None where one is not known."""
        spares = [spare for _axle, spare in self.axles]
        return sum(spares) if len(spares) == len(self._spares) else None


def work_out_masses(
    records: JobRecords,
    boxes: Sequence[BoxResult],
    trims: Sequence[TrimResult],
    laid: LaidRuns,
    damping: Sequence[DampingOrder],
) -> Masses:
    """Weigh everything that goes in and comes out; insulation, screws and glue are not counted."""
    car = records.job.vehicle
    return Masses(
        rows=[
            *_boxes(boxes),
            *_trims(trims),
            *_equipment(records, damping),
            *_cables(records, laid),
            *(
                Weight(key=about(part).id, name=str(part), mass=part.mass, taken_out=True)
                for part in records.factory_parts
                if part.fate in OUT_OF_THE_CAR
            ),
        ],
        payload=car.payload,
        front_axle_spare=car.front_axle_spare,
        rear_axle_spare=car.rear_axle_spare,
    )


def _boxes(boxes: Sequence[BoxResult]) -> Iterator[Weight]:
    """The wood of each box that is built, with its ports; what else is in it is equipment."""
    for result in boxes:
        box, wood = result.box, result.wood
        if not box.chosen or kind_of(box).behind in (Behind.OPEN, Behind.DOOR):
            continue
        if result.shell:  # its ring is weighed with the rings
            name = _("%(box)s, its skin") % {"box": box.name}
            yield Weight(key=about(box).id, name=name, mass=result.shell.skin_mass)
            continue
        name = _("%(box)s, its wood") % {"box": box.name}
        board = wood.mass.wood if wood else None
        contents = wood.carcass.contents if wood else ()
        parts = [placed.part for placed in contents if kind_of_content(placed.part) not in LISTED]
        known = sum(part.mass or 0.0 for part in parts)
        yield Weight(key=about(box).id, name=name, mass=None if board is None else board + known)
        for kind in dict.fromkeys(kind_of_content(p) for p in parts if p.mass is None):
            label = str(wood.places.get(kind, kind)) if wood else kind
            yield Weight(key=f"{about(box).id} {kind}", name=f"{box.name}, {label}", mass=None)


def _trims(trims: Sequence[TrimResult]) -> Iterator[Weight]:
    for trim in trims:
        piece, material = trim.piece, trim.material
        mass = None
        if piece and material and material.density is not None:
            # What a floor stands on is reckoned as heavy as its board.
            wood = sum(_wood(cut) for cut in trim.pieces) + sum(prop.volume for prop in trim.props)
            mass = wood * material.density
        yield Weight(key=about(trim.record).id, name=trim.record.name, mass=mass)
        yield from _cover(trim)


def _cover(trim: TrimResult) -> Iterator[Weight]:
    """What a panel is covered with, whole rectangles; the glue is not counted."""
    if not trim.cover or not isinstance(trim.record, TrimPanel) or trim.record.cover is None:
        return
    area, each = sum(cut.across * cut.along for cut in trim.cover), trim.record.cover.area_mass
    name = _("%(panel)s, its cover") % {"panel": trim.record.name}
    mass = None if each is None else area * each
    yield Weight(key=f"{about(trim.record).id} cover", name=name, mass=mass)


def _wood(piece: Piece) -> float:
    """The wood of a piece, as often as it is cut [m³]."""
    area = piece.outline.area - sum(hole.area for hole in piece.holes)
    return area * piece.thickness * piece.quantity


def _equipment(records: JobRecords, orders: Sequence[DampingOrder]) -> Iterator[Weight]:
    planned = {order.part.pk for order in orders}
    for item in records.equipment:
        if item.part_id in planned:
            continue  # by what is stuck on, below
        if item.part.kind not in NOT_COUNTED:
            each = item.part.mass
            mass = None if each is None else each * item.quantity
            yield Weight(key=about(item).id, name=str(item), mass=mass)
    for order in orders:
        yield Weight(key=about(order.part).id, name=str(order.part), mass=order.mass)


def _cables(records: JobRecords, laid: LaidRuns) -> Iterator[Weight]:
    if not records.runs:
        return
    cables = work_out_cable_mass(records, laid)
    if cables.metal:
        yield Weight(key="cables", name=_("metal of the cables"), mass=cables.metal)
    if cables.unknown:
        labels = ", ".join(cables.unknown)
        name = _("cables without a size or a length: %(runs)s") % {"runs": labels}
        yield Weight(key=f"cables {labels}", name=name, mass=None)


def check_masses(records: JobRecords, masses: Masses) -> Iterator[Finding]:
    """Hold the kilograms to what the car may bear, where somebody entered that.

    Where each thing stands along the car is not known: an axle is held to all that goes in, and
    what was taken out helps only the axle it stood on. Both together bear the whole for certain.
    """
    if masses.left is not None and masses.left < 0:
        yield _of_car(records, "payload-exceeded", "stop", "", masses.net, masses.payload)
    together = masses.axles_together
    if together is not None and masses.net > together:
        yield _of_car(records, "axles-exceeded", "stop", "", masses.net, together)
    for axle, spare in masses.axles:
        if masses.added > spare:
            yield _of_car(records, "axle-may-be-overloaded", "look", axle, masses.added, spare)
    for axle in masses.unweighed_axles:
        yield _of_car(records, "axle-spare-unknown", "look", axle, masses.added, None)
    if masses.unknown and (masses.payload is not None or masses.axles):
        yield Finding(
            code="job-mass-unknown",
            severity="look",
            section=SECTION,
            about=about(records.job),
            name=records.job.code,
            # It rests on what is not known: one more asks again, a new name does not.
            value=", ".join(row.key for row in masses.rows if row.mass is None),
            value_said=", ".join(masses.unknown),
        )


def _of_car(
    records: JobRecords, code: str, severity: str, axle: str, value: float, limit: float | None
) -> Finding:
    car = records.job.vehicle
    return Finding(
        code=code,
        severity=severity,
        section=SECTION,
        about=about(car).at(axle),
        name=str(car),
        place=(AXLES[axle],) if axle else (),
        value=value,
        limit=limit,
        unit="kg",
    )
