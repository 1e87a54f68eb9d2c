"""False floors: what a panel stands on, its hatches, and what is wrong with either."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from acoustics.carcass.panels.floor import (
    Floor,
    Hatch,
    check_floor,
    check_hatches,
    hole_in_lid,
    support_height,
)
from acoustics.carcass.panels.sag import Bending, bending, check_bending
from acoustics.carcass.shape.outline import Circle, Loop, rectangle
from acoustics.errors import MissingError
from jobs.design.box.checks import SECTION
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, Term, adopt
from jobs.design.wood.pieces import Piece, Point
from jobs.design.wording.names import Needed
from jobs.models import TrimHatch, TrimPanel, TrimSupport

# Of a lid held by magnets: one at each corner, on a plate of steel. Common practice, no source.
MAGNETS = 4


@dataclass(frozen=True, kw_only=True)
class Prop:
    """A batten or block, and where it stands under the panel."""

    number: int
    kind: str
    stands: Loop
    height: float

    @property
    def what(self) -> str:
        """What people call it."""
        return str(TrimSupport.Kind(self.kind).label)

    @property
    def middle(self) -> Point:
        """From the lower left corner of the panel."""
        left, low, right, high = self.stands.polygon.bounds
        return (left + right) / 2, (low + high) / 2

    @property
    def size(self) -> tuple[float, float]:
        """Length and breadth, the longer first."""
        left, low, right, high = self.stands.polygon.bounds
        short, long = sorted((right - left, high - low))
        return long, short

    @property
    def volume(self) -> float:
        """Its wood [m³]."""
        return float(self.stands.area) * self.height


@dataclass(frozen=True, kw_only=True)
class HatchCut:
    """A hatch: its opening, its lid, the strips of its ledge, and how the lid is held."""

    number: int
    hatch: Hatch
    lid: Piece
    ledges: tuple[Piece, ...]
    held: str
    over: str

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """The lid, then its ledge."""
        return (self.lid, *self.ledges)

    @property
    def holds(self) -> str:
        """How its lid is held, as people call it."""
        return str(TrimHatch.Held(self.held).label)

    @property
    def magnets(self) -> int:
        """How many magnets, each with its plate."""
        return MAGNETS if self.held == TrimHatch.Held.MAGNETS else 0

    @property
    def hinge(self) -> float | None:
        """The length of its hinge, which is that of the bare lid."""
        return self.hatch.lid[0] if self.held == TrimHatch.Held.HINGE else None


def hatches_of(panel: TrimPanel, label: str, thickness: float, by: Point) -> tuple[HatchCut, ...]:
    """Work out the lid and the ledge of every hatch of a panel moved by so much."""
    grain = "x" if panel.material and panel.material.grained else ""
    cuts: list[HatchCut] = []
    for number, plain in enumerate(panel.hatches or (), start=1):
        row = TrimHatch.read(plain)
        hatch = Hatch(
            middle=(row.u + by[0], row.v + by[1]),
            width=row.width,
            height=row.height,
            gap=row.gap,
            finish=panel.edge,
            ledge=row.ledge,
        )
        holes: tuple[Circle, ...] = ()
        if row.finger_hole:
            middle = hole_in_lid(hatch, diameter=row.finger_hole)
            holes = (Circle(centre=middle, radius=row.finger_hole / 2),)
        lid = Piece(
            label=f"{label}L{number}",
            name=panel.name,
            panels=(f"lid {number}",),
            quantity=1,
            thickness=thickness,
            outline=rectangle(0.0, 0.0, *hatch.lid),
            holes=holes,
            grain=grain,
        )
        ledges = tuple(
            Piece(
                label=f"{label}S{2 * number - 1 + n}",
                name=panel.name,
                panels=("ledge",),
                quantity=2,
                thickness=thickness,
                outline=rectangle(0.0, 0.0, *strip),
            )
            for n, strip in enumerate(hatch.ledges)
        )
        cuts.append(
            HatchCut(
                number=number, hatch=hatch, lid=lid, ledges=ledges, held=row.held, over=row.over
            )
        )
    return tuple(cuts)


def props_of(panel: TrimPanel, thickness: float, by: Point) -> tuple[Prop, ...]:
    """Work out every support of a floor moved by so much; a trim panel stands on none."""
    if panel.kind != TrimPanel.Kind.FLOOR:
        return ()
    rows = [TrimSupport.read(plain) for plain in panel.supports or ()]
    usual = None
    if panel.level is not None:
        usual = support_height(level=panel.level, thickness=thickness, finish=panel.edge)
    props = []
    for number, row in enumerate(rows, start=1):
        height = row.height or usual
        if height is None:
            raise MissingError(Needed.FLOOR_LEVEL)
        u, v, across, up = row.u + by[0], row.v + by[1], row.across / 2, row.up / 2
        stands = rectangle(u - across, v - up, u + across, v + up)
        props.append(Prop(number=number, kind=row.kind, stands=stands, height=height))
    return tuple(props)


def floor_of(
    panel: TrimPanel, piece: Piece, props: Sequence[Prop], cuts: Sequence[HatchCut]
) -> Floor | None:
    """Return a floor on what it stands on; None of any other panel."""
    if panel.kind != TrimPanel.Kind.FLOOR:
        return None
    return Floor(
        outline=piece.outline,
        openings=piece.holes,
        supports=tuple((f"support {prop.number}", prop.stands) for prop in props),
        hatches=_named(cuts),
    )


def _named(cuts: Sequence[HatchCut]) -> tuple[tuple[str, Hatch], ...]:
    return tuple((f"hatch {cut.number}", cut.hatch) for cut in cuts)


def bending_of(panel: TrimPanel, floor: Floor | None) -> Bending | None:
    """Return how a floor bends under what it has to bear; None where nothing spans."""
    if floor is None or panel.material is None:
        return None
    material = panel.material
    return bending(
        floor,
        thickness=material.thickness,
        modulus=material.stiffness,
        load=panel.bears,
        strength=material.strength,
    )


def floor_findings(
    panel: TrimPanel, floor: Floor | None, bends: Bending | None, cuts: Sequence[HatchCut]
) -> list[Finding]:
    """Hold a floor against what it stands on and bears, and every hatch against a hand."""
    findings = list(check_hatches(_named(cuts)))
    if floor:
        findings += check_floor(floor)
    if bends:
        findings += check_bending(bends)
    whole = about(panel)
    without = [
        Finding(
            code="lid-without-grip",
            severity="look",
            section=SECTION,
            about=whole.at(f"hatch {cut.number}"),
            name=panel.name,
            place=(Term((f"hatch {cut.number}",)),),
        )
        for cut in cuts
        if not cut.lid.holes
    ]
    return [
        *adopt(findings, section=SECTION, about=whole, name=panel.name, places={}),
        *without,
    ]
