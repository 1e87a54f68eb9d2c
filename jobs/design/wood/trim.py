"""Speaker rings and trim panels: what a record of either comes to as wood."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from acoustics.carcass.panels.inner_wood import hole_of
from acoustics.carcass.panels.round_over import check_round_over
from acoustics.carcass.panels.sag import Bending
from acoustics.carcass.panels.trim import AdaptorRing
from acoustics.carcass.panels.trim import TrimPanel as PanelWithOpenings
from acoustics.carcass.room.clearance import USUAL
from acoustics.carcass.shape.contents import RoundPart
from acoustics.carcass.shape.inside.fastener import Fastener, check_fastener
from acoustics.carcass.shape.outline import Circle, Figure, Loop
from acoustics.errors import AcousticsError, MissingError
from acoustics.findings import Finding as CalculatorFinding
from jobs.design.box.boxes import BoxResult
from jobs.design.box.checks import SECTION
from jobs.design.carcass.contents import fastener_of
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt, reason
from jobs.design.records.fixed import held_findings
from jobs.design.records.records import JobRecords
from jobs.design.wood.bends import Bent, bend_findings, bent_of, kerfs_of
from jobs.design.wood.beneath import beneath_findings
from jobs.design.wood.boards import OnIt, board_findings, mounts_of
from jobs.design.wood.covers import CoverCut, RollOrder, cover_findings, cover_of, work_out_rolls
from jobs.design.wood.floors import (
    HatchCut,
    Prop,
    bending_of,
    floor_findings,
    floor_of,
    hatches_of,
    props_of,
)
from jobs.design.wood.outlines import need, openings_of, outline_of
from jobs.design.wood.pieces import Piece, Point, ScrewCircle, Seat, flat_of
from jobs.design.wood.ring_spacers import SpacerCut, spacers_of
from jobs.design.wording.names import Needed
from jobs.models import Driver, EquipmentItem, Ring, TrimPanel
from jobs.models.parts.catalogue import SheetMaterial

# Two drills closer than this are one [m].
SAME_HOLE = 1e-5


@dataclass(frozen=True, kw_only=True)
class TrimResult:
    """A ring or a trim panel worked out; with `refused` set there is no piece."""

    record: Ring | TrimPanel
    piece: Piece | None = None
    refused: AcousticsError | None = None
    findings: list[Finding] = field(default_factory=list)
    # The stack of a ring: at its low and at its high side.
    thickness: tuple[float, float] | None = None
    wood_at_screw: float | None = None
    # How far what was typed lies from the wood's own lower left corner.
    moved: Point = (0.0, 0.0)
    # Of a floor: its lids with their ledges, and what it stands on.
    hatches: tuple[HatchCut, ...] = ()
    props: tuple[Prop, ...] = ()
    bends: Bending | None = None
    # Of a panel that is bent over kerfs.
    bent: Bent | None = None
    # Of a ring in a moulded box: what it stands on.
    spacers: tuple[SpacerCut, ...] = ()
    # Of a board: what is screwed to it.
    on_it: tuple[OnIt, ...] = ()
    # What is cut off the roll for it.
    cover: tuple[CoverCut, ...] = ()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Every piece that is cut for it, the panel itself first."""
        if self.piece is None:
            return ()
        hatches = (piece for hatch in self.hatches for piece in hatch.pieces)
        return (self.piece, *(cut.piece for cut in self.spacers), *hatches)

    @property
    def material(self) -> SheetMaterial | None:
        """What it is cut from."""
        return self.record.material

    @property
    def covered(self) -> tuple[float, float] | None:
        """Across and up with what covers it round its edges; None of bare wood."""
        finish = self.record.edge if isinstance(self.record, TrimPanel) else 0.0
        if self.piece is None or not finish:
            return None
        width, height = self.piece.size
        return width + 2 * finish, height + 2 * finish

    @property
    def trouble(self) -> str:
        """Why there is no piece, or nothing."""
        return "" if self.refused is None else reason(self.refused)

    @property
    def edit(self) -> str:
        """The name of the page it is changed on."""
        return "ring-edit" if isinstance(self.record, Ring) else "trim-panel-edit"


def work_out_trim(records: JobRecords, boxes: Sequence[BoxResult]) -> list[TrimResult]:
    """Work every ring and trim panel out; what stands in the way is a finding."""
    by_box = {box.box.pk: box for box in boxes}
    results: list[TrimResult] = []
    for number, ring in enumerate(records.rings, start=1):
        try:
            results.append(_ring(ring, f"R{number}"))
        except AcousticsError as error:
            results.append(_trouble(ring, error))
    for number, panel in enumerate(records.trim_panels, start=1):
        result = panel_result(panel, f"T{number}", by_box, records.equipment)
        results.append(result)
        # A floor that cannot be cut yet is asked all the same how it is held.
        if panel.kind != TrimPanel.Kind.TRIM:
            result.findings.extend(held_findings(panel, section=SECTION))
        cuts = None if result.piece is None else [cut.hatch for cut in result.hatches]
        result.findings.extend(beneath_findings(panel, records, cuts, result.moved))
    return results


def panel_result(
    panel: TrimPanel,
    label: str,
    boxes: dict[int, BoxResult],
    equipment: Sequence[EquipmentItem],
) -> TrimResult:
    """Work one trim panel out under its label."""
    try:
        return _panel(panel, label, boxes, equipment)
    except AcousticsError as error:
        return _trouble(panel, error)


def _trouble(record: Ring | TrimPanel, error: AcousticsError) -> TrimResult:
    finding = Finding(
        code="box-cannot-be",
        # What is only missing can be entered; what cannot be must not be cut.
        severity="look" if isinstance(error, MissingError) else "stop",
        section=SECTION,
        about=about(record),
        name=record.name,
        value=str(error),
        refused=error,
    )
    return TrimResult(record=record, refused=error, findings=[finding])


def _ring(ring: Ring, label: str) -> TrimResult:
    part: Driver | None = getattr(ring.driver.part, "driver", None) if ring.driver else None
    inner = ring.inner_diameter or (part.cutout_diameter if part else None)
    screws = ring.bolt_circle or (part.bolt_circle if part else None)
    thickness = need(ring.material.thickness if ring.material else None, Needed.SHEET_MATERIAL)
    shape = AdaptorRing(
        outer_diameter=need(ring.outer_diameter, Needed.OUTER_DIAMETER),
        inner_diameter=need(inner, Needed.INNER_DIAMETER),
        bolt_circle_diameter=need(screws, Needed.SCREW_CIRCLE),
        screws=ring.screws,
        screw_diameter=ring.screw_diameter,
        layers=(thickness,) * ring.layers,
        tilt=ring.tilt,
    )
    _low, high = shape.thickness
    supply = ring.driver.fastener if ring.driver else None
    held_by = fastener_of(supply) if supply else None
    rim, *holes = shape.figures
    middle = (shape.outer_diameter / 2, shape.outer_diameter / 2)
    piece = Piece(
        label=label,
        name=ring.name,
        # A tilted stack needs whole layers up to its high side, planed down afterwards.
        quantity=ring.quantity * math.ceil(high / thickness - 1e-9),
        thickness=thickness,
        outline=_shifted(rim, middle),
        holes=tuple(_shifted(hole, middle) for hole in holes),
        marks=(
            ScrewCircle(
                centre=middle,
                radius=shape.bolt_circle_diameter / 2,
                screws=ring.screws,
                fastener=held_by,
            ),
        ),
    )
    return TrimResult(
        record=ring,
        piece=piece,
        findings=_screws(ring, shape, held_by),
        thickness=shape.thickness,
        spacers=spacers_of(
            ring,
            label,
            circle=(shape.outer_diameter + shape.inner_diameter) / 2,
            thickness=thickness,
        ),
        wood_at_screw=shape.wood_at_screw,
    )


def _screws(ring: Ring, shape: AdaptorRing, held_by: Fastener | None) -> list[Finding]:
    """Hold the wood beside the screws to what a panel must have, and what they hold by to both."""
    trouble: list[CalculatorFinding] = []
    if shape.wood_at_screw < USUAL.wood_at_screw:
        trouble.append(
            CalculatorFinding(
                code="screws-off-wood",
                value=shape.wood_at_screw,
                limit=USUAL.wood_at_screw,
                unit="m",
            )
        )
    if held_by is not None:
        low, _high = shape.thickness
        trouble += check_fastener(held_by, low)
        if held_by.hole is not None and abs(held_by.hole - shape.screw_diameter) > SAME_HOLE:
            trouble.append(
                CalculatorFinding(
                    code="fastener-hole-differs",
                    value=shape.screw_diameter,
                    limit=held_by.hole,
                    unit="m",
                )
            )
    return adopt(trouble, section=SECTION, about=about(ring), name=ring.name)


def _panel(
    panel: TrimPanel,
    label: str,
    boxes: dict[int, BoxResult],
    equipment: Sequence[EquipmentItem],
) -> TrimResult:
    outline, set_out, corner = outline_of(panel)
    width, height = (float(size) for size in outline.polygon.bounds[2:])
    material = panel.material
    thickness = need(material.thickness if material else None, Needed.SHEET_MATERIAL)
    shown = [
        *_shown_of_box(panel, boxes, (width, height)),
        *(_shifted(opening, corner) for opening in openings_of(panel)),
    ]
    hatches = hatches_of(panel, label, thickness, corner)
    props = props_of(panel, thickness, corner)
    board = mounts_of(panel, equipment, corner)
    on_it = board.on_it
    with_openings = PanelWithOpenings(
        outline=outline,
        shown=tuple(shown),
        reveal=panel.reveal,
        cut=tuple(cut.hatch.opening for cut in hatches),
    )
    bent = bent_of(panel, thickness, width, corner[0])
    piece = Piece(
        label=label,
        name=panel.name,
        quantity=1,
        kerfs=kerfs_of(bent, outline),
        round_over=panel.round_over or 0.0,
        flat=flat_of(outline.polygon, outline.polygon, panel.round_over or 0.0),
        thickness=thickness,
        outline=outline,
        holes=with_openings.openings,
        set_out=set_out,
        # A board stands on nothing of its own, and a floor carries nothing that is screwed to it.
        seats=tuple(
            Seat(outline=rim)
            for rim in [prop.stands for prop in props] or [thing.mounted.rim for thing in on_it]
        ),
        pilots=tuple(hole for thing in on_it for hole in thing.mounted.drilled),
        grain="x" if material and material.grained else "",
    )
    lids = [hatch.lid for hatch in hatches]
    cover = cover_of(panel, [piece, *lids])
    floor = floor_of(panel, piece, props, hatches)
    bends = bending_of(panel, floor)
    return TrimResult(
        record=panel,
        piece=piece,
        findings=[
            *_finish(panel, with_openings),
            *bend_findings(panel, bent, outline, piece.holes),
            *_rounded(panel, piece),
            *floor_findings(panel, floor, bends, hatches),
            *cover_findings(panel, cover),
            *board.findings,
            *board_findings(panel, piece, on_it),
        ],
        on_it=on_it,
        moved=corner,
        hatches=hatches,
        props=props,
        bends=bends,
        bent=bent,
        cover=cover,
    )


def rolls_of(trims: Sequence[TrimResult]) -> list[RollOrder]:
    """Return every cover material of a job with what is cut from it."""
    return work_out_rolls(
        (trim.record.cover, trim.cover)
        for trim in trims
        if isinstance(trim.record, TrimPanel) and trim.record.cover is not None and trim.cover
    )


def _finish(panel: TrimPanel, opened: PanelWithOpenings) -> list[Finding]:
    """What covers the edges must leave something of the gap."""
    if not opened.shown or panel.edge < panel.reveal or not panel.edge:
        return []
    return [
        Finding(
            code="finish-thicker-than-reveal",
            severity="stop",
            section=SECTION,
            about=about(panel),
            name=panel.name,
            value=panel.edge,
            limit=panel.reveal,
            unit="m",
        )
    ]


def _rounded(panel: TrimPanel, piece: Piece) -> list[Finding]:
    """Hold a round-over to the board and to the openings beside its rim."""
    if not piece.round_over:
        return []
    rim = piece.outline.polygon.exterior
    flat = min((float(rim.distance(hole.polygon)) for hole in piece.holes), default=None)
    findings = check_round_over(piece.round_over, board=piece.thickness, flat=flat)
    return adopt(findings, section=SECTION, about=about(panel), name=panel.name)


def _shown_of_box(
    panel: TrimPanel, boxes: dict[int, BoxResult], size: tuple[float, float]
) -> list[Figure]:
    """What shows of a face that lies in the middle of the panel, or beside it."""
    result = boxes.get(panel.box_id) if panel.box_id else None
    if panel.box_id is None:
        return []
    if result is None or result.wood is None:
        raise MissingError(Needed.CARCASS)
    carcass = result.wood.carcass
    name = panel.box_face or result.wood.face
    face = carcass.face(name)
    by = (
        (size[0] - face.size[0]) / 2 + panel.box_u,
        (size[1] - face.size[1]) / 2 + panel.box_v,
    )
    figures: list[Figure] = []
    for placed in carcass.contents:
        if placed.face != name:
            continue
        if isinstance(placed.part, RoundPart):
            rim = placed.part.flange_diameter / 2
            figures.append(Circle(centre=carcass.centre(placed), radius=rim))
        else:
            figures.append(hole_of(carcass, placed))
    return [_shifted(figure, by) for figure in figures]


def _shifted(figure: Figure, by: tuple[float, float]) -> Figure:
    if isinstance(figure, Circle):
        u, v = figure.centre
        return Circle(centre=(u + by[0], v + by[1]), radius=figure.radius, layer=figure.layer)
    points = tuple((u + by[0], v + by[1]) for u, v in figure.points)
    return Loop(points=points, layer=figure.layer)
