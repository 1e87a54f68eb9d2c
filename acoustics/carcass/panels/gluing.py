"""In which order the panels of a box are glued, and why."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from shapely.geometry import Polygon

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.braces import Brace, CrossBrace, Layer, Strut
from acoustics.carcass.shape.faces import CHEEKS
from acoustics.carcass.shape.inside.slab import Slab
from acoustics.carcass.shape.leaning import ENDS
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.taper import Taper

# reason -> when it is given.
REASONS = {
    # Layers are glued flat while both sides can still be clamped.
    "layers-flat": "before anything stands",
    # The first cheek lies on the bench with its inside up: everything is squared against it.
    "lies-on-bench": "first of all panels",
    # The first wall stands on the cheek and is squared to it.
    "stands-on-base": "first wall",
    # A leaning wall is not squared: the bevel of its foot gives its lean.
    "leans-on-base": "first wall, where all lean",
    # This wall closes on the one before and on the cheek.
    "joins-neighbour": "walls that follow round the profile",
    # The last wall closes the ring; it is slid in along the width.
    "closes-ring": "last wall",
    # What stands inside goes in while one side is open.
    "while-open": "braces",
    # The last cheek closes the box; seal every seam inside before it goes on.
    "closes-box": "last of all",
}


@dataclass(frozen=True, kw_only=True)
class GlueStep:
    """One step of the assembly.

    Attributes:
        number: counted from 1 [-].
        panel: the panel that is added.
        onto: the panels it is glued to.
        reason: why now, a key of REASONS.

    Source: common practice, no source.
    """

    number: int
    panel: str
    onto: tuple[str, ...]
    reason: str


# A brace nearer to a wall than this touches it [m].
SAME = 1e-6
Steps = list[tuple[str, tuple[str, ...], str]]


def glue_order(carcass: Body) -> tuple[GlueStep, ...]:
    """Return the order in which the panels are glued.

    Stacked layers first, flat; then one cheek on the bench, the walls round the profile from the
    lowest one that runs through, the braces while a side is open, and the other cheek last. Where
    all walls lean, bottom and top are what the cheeks are, and the braces go in before the last
    wall: from above they would not pass. Every panel touches one that is already there, and none
    is shut out by another.

    Args:
        carcass: the box.

    Returns: steps, every panel once, in order

    Source: common practice, no source.
    """
    if isinstance(carcass, Taper):
        ends, span = ENDS, carcass.air_span
        names, first, begins = carcass.plan.names, 0, "leans-on-base"
    else:
        ends, span = CHEEKS, carcass.air_span
        names, first, begins = carcass.profile.names, _foot(carcass), "stands-on-base"
    # The end without a hole lies steadier; the first one when both are whole.
    holes = [sum(p.face == end for p in carcass.contents) for end in ends]
    base, lid = ends if holes[0] <= holes[1] else ends[::-1]
    order = [*names[first:], *names[:first]]
    walls = _ring(base, order, begins)
    inner = _inner(carcass.braces, span, from_start=base == ends[0])
    steps = [*_flat(carcass.layers), (base, (), "lies-on-bench")]
    if isinstance(carcass, Taper):
        closing, onto, reason = walls.pop()
        steps += [*walls, *((brace.name, tuple(order[:-1]), "while-open") for brace in inner)]
        steps.append((closing, (*onto, *(brace.name for brace in inner)), reason))
    else:
        steps += walls
        steps += [
            (brace.name, _touched(carcass, brace, base, order), "while-open") for brace in inner
        ]
    steps.append((lid, tuple(order), "closes-box"))
    return tuple(
        GlueStep(number=i + 1, panel=panel, onto=onto, reason=reason)
        for i, (panel, onto, reason) in enumerate(steps)
    )


def _inner(braces: Sequence[Brace], span: tuple[float, float], *, from_start: bool) -> list[Brace]:
    """The braces from the end on the bench upwards, so that none shuts another out."""
    # The boards of a port go in first, in their own order: each is glued to the one before.
    boards = [brace for brace in braces if isinstance(brace, Slab)]
    rest = [brace for brace in braces if not isinstance(brace, Slab)]
    if from_start:
        return [*boards, *sorted(rest, key=lambda b: b.reach(*span)[0])]
    return [*boards, *sorted(rest, key=lambda b: -b.reach(*span)[1])]


def _touched(carcass: Carcass, brace: Brace, base: str, order: list[str]) -> tuple[str, ...]:
    """What stands already and a brace is glued to: the walls it meets, and the end on the bench."""
    if isinstance(brace, CrossBrace):
        return tuple(order)
    if isinstance(brace, Strut):
        return (base,)
    air = carcass.air_profile
    section = brace.section(air.polygon)
    met = tuple(name for name in order if section.distance(air.lines[name]) < SAME)
    if isinstance(brace, Slab):
        ends = dict(zip(CHEEKS, zip(brace.span, carcass.air_span, strict=True), strict=True))
        touches = abs(ends[base][0] - ends[base][1]) < SAME
        boards = [b for b in carcass.braces if isinstance(b, Slab)]
        earlier = boards[: boards.index(brace)]
        beside = tuple(b.name for b in earlier if _meet(b, brace, air.polygon))
        return ((base,) if touches else ()) + met + beside
    return met if brace.span else (base, *met)


def _meet(board: Slab, other: Slab, air: Polygon) -> bool:
    """Whether two boards touch: in the side view, and across the width."""
    apart = max(board.span[0], other.span[0]) - min(board.span[1], other.span[1])
    return apart < SAME and board.section(air).distance(other.section(air)) < SAME


def _flat(layers: tuple[Layer, ...]) -> Steps:
    """Stacked layers, each on its face."""
    count: dict[str, int] = {}
    steps: Steps = []
    for layer in layers:
        count[layer.face] = count.get(layer.face, 0) + 1
        steps.append((f"{layer.face} layer {count[layer.face]}", (layer.face,), "layers-flat"))
    return steps


def _ring(base: str, order: list[str], first: str) -> Steps:
    """The walls round the box, each onto the base and the neighbours that stand already."""
    steps: Steps = []
    for k, name in enumerate(order):
        neighbours = dict.fromkeys((order[k - 1], order[(k + 1) % len(order)]))
        onto = (base, *(n for n in neighbours if n in order[:k]))
        last = k == len(order) - 1
        reason = first if k == 0 else "closes-ring" if last else "joins-neighbour"
        steps.append((name, onto, reason))
    return steps


def _foot(carcass: Carcass) -> int:
    """The edge to begin with: the lowest, the longer and then the earlier of equals."""
    profile = carcass.profile

    def height(edge: int) -> float:
        a, b = profile.points[edge], profile.points[(edge + 1) % len(profile)]
        return round(a[1] + b[1], 6)

    return min(range(len(profile)), key=lambda e: (height(e), -profile.length(e), e))
