"""In which order the panels of a box are glued, and why."""

from __future__ import annotations

from dataclasses import dataclass

from acoustics.carcass.box import Carcass
from acoustics.carcass.braces import CrossBrace
from acoustics.carcass.faces import CHEEKS

# reason -> when it is given.
REASONS = {
    # Layers are glued flat while both sides can still be clamped.
    "layers-flat": "before anything stands",
    # The first cheek lies on the bench with its inside up: everything is squared against it.
    "lies-on-bench": "first of all panels",
    # The first wall stands on the cheek and is squared to it.
    "stands-on-base": "first wall",
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


def glue_order(carcass: Carcass) -> tuple[GlueStep, ...]:
    """Return the order in which the panels are glued.

    Stacked layers first, flat; then one cheek on the bench, the walls round the profile from the
    lowest one that runs through, the braces while a side is open, and the other cheek last. Every
    panel touches one that is already there, and none is shut out by another.

    Args:
        carcass: the box.

    Returns: steps, every panel once, in order

    Source: common practice, no source.
    """
    steps: list[tuple[str, tuple[str, ...], str]] = []
    count: dict[str, int] = {}
    for layer in carcass.layers:
        count[layer.face] = count.get(layer.face, 0) + 1
        steps.append((f"{layer.face} layer {count[layer.face]}", (layer.face,), "layers-flat"))
    # The cheek without a hole lies steadier; the left one when both are whole.
    holes = [sum(p.face == cheek for p in carcass.contents) for cheek in CHEEKS]
    base, lid = CHEEKS if holes[0] <= holes[1] else CHEEKS[::-1]
    steps.append((base, (), "lies-on-bench"))
    standing: list[str] = []
    names = carcass.profile.names
    first = _foot(carcass)
    order = [names[(first + k) % len(names)] for k in range(len(names))]
    for k, name in enumerate(order):
        neighbours = (order[k - 1], order[(k + 1) % len(order)])
        onto = (base, *(n for n in dict.fromkeys(neighbours) if n in standing))
        last = k == len(order) - 1
        reason = "stands-on-base" if k == 0 else "closes-ring" if last else "joins-neighbour"
        steps.append((name, onto, reason))
        standing.append(name)
    low = carcass.air_span[0]
    # From the cheek on the bench upwards, so that none shuts another out.
    plates = [b for b in carcass.braces if isinstance(b, CrossBrace)]
    plates.sort(key=lambda b: b.at - low, reverse=base == "right")
    others = [b for b in carcass.braces if not isinstance(b, CrossBrace)]
    for brace in (*others, *plates):
        steps.append((brace.name, tuple(order), "while-open"))
    steps.append((lid, tuple(order), "closes-box"))
    return tuple(
        GlueStep(number=i + 1, panel=panel, onto=onto, reason=reason)
        for i, (panel, onto, reason) in enumerate(steps)
    )


def _foot(carcass: Carcass) -> int:
    """The edge to begin with: the lowest, the longer and then the earlier of equals."""
    profile = carcass.profile

    def height(edge: int) -> float:
        a, b = profile.points[edge], profile.points[(edge + 1) % len(profile)]
        return round(a[1] + b[1], 6)

    return min(range(len(profile)), key=lambda e: (height(e), -profile.length(e), e))
