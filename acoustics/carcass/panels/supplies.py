"""What holds a box together and tight: joints to glue, screws, gasket."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.contents import RoundPart
from acoustics.carcass.shape.inside.fastener import Fastener
from acoustics.carcass.shape.panel import EdgeCut, Panel

# Glue spread on one face of a joint [kg/m²], and screws so far apart along it [m]: common practice,
# no source. The glue maker's sheet comes first.
SPREAD = 0.2
APART = 0.15


@dataclass(frozen=True, kw_only=True)
class Supplies:
    """What to have at hand for one box.

    Attributes:
        joints: length of all glued joints, which is that of the bead that seals them [m].
        glued: area that is glued, one face of each joint, layers included [m²].
        screws: screws along the joints, 150 mm apart or less [-].
        gasket: tape under the rims of drivers, radiators and terminal plates [m].
        part_screws: screws or bolts of those parts as far as their number is known [-].
        fastened: what they hold by, None where nobody has chosen it, and how many of each [-].
        unscrewed: names of the parts whose number of screws is not known.
    """

    joints: float
    glued: float
    screws: int
    gasket: float
    part_screws: int
    fastened: tuple[tuple[Fastener | None, int], ...]
    unscrewed: tuple[str, ...]

    @property
    def glue(self) -> float:
        """Glue at 0.2 kg/m² on one face of each joint.

        Returns: mass [kg]

        Source: common practice, no source.
        """
        return SPREAD * self.glued


def supplies(carcass: Body, wood: Sequence[Panel]) -> Supplies:
    """Return what a box takes to be glued, screwed and sealed.

    joints = sum of the edges that end at another panel, a mitred pair counted once;
    gasket = sum of pi (rim + hole) / 2

    Args:
        carcass: the box.
        wood: its panels.

    Returns: the lengths, counts and the glue [m, kg]

    Valid: an edge counts by its longer face, which is the safe side.

    Source: definition; spread and distance of the screws are common practice, no source.
    """
    joints, glued, screws = 0.0, 0.0, 0
    for panel in wood:
        for cut in panel.cuts:
            share = _share(cut)
            joints += share * cut.length
            glued += share * cut.length * panel.thickness / math.cos(cut.bevel)
            if share == 1.0 or cut.mate > panel.name:
                screws += _screws(cut.length) if share else 0
        if panel.name.rpartition(" layer ")[1]:
            glued += panel.area
    round_parts = [p.part for p in carcass.contents if isinstance(p.part, RoundPart)]
    return Supplies(
        joints=joints,
        glued=glued,
        screws=screws,
        gasket=sum(math.pi * (p.flange_diameter + p.cutout_diameter) / 2 for p in round_parts),
        part_screws=sum(part.screws or 0 for part in round_parts),
        fastened=_counted((part.fastener, part.screws) for part in round_parts),
        unscrewed=tuple(dict.fromkeys(part.name for part in round_parts if not part.screws)),
    )


def together(several: Sequence[Supplies]) -> Supplies:
    """Return what several boxes take together.

    Args:
        several: what each takes.

    Returns: sums; what is not known of one is not known of all

    Source: definition.
    """
    return Supplies(
        joints=sum(each.joints for each in several),
        glued=sum(each.glued for each in several),
        screws=sum(each.screws for each in several),
        gasket=sum(each.gasket for each in several),
        part_screws=sum(each.part_screws for each in several),
        fastened=_counted(pair for each in several for pair in each.fastened),
        unscrewed=tuple(dict.fromkeys(name for each in several for name in each.unscrewed)),
    )


def _counted(
    pairs: Iterable[tuple[Fastener | None, int]],
) -> tuple[tuple[Fastener | None, int], ...]:
    """What screws hold by, each once, in the order they come; of what is not counted nothing."""
    count: Counter[Fastener | None] = Counter()
    for fastener, number in pairs:
        count[fastener] += number
    return tuple((fastener, number) for fastener, number in count.items() if number)


def _share(cut: EdgeCut) -> float:
    """How much of a joint an edge stands for: the end is glued, what hides it is not counted."""
    if not cut.mate or (cut.joint in ("butt", "rebate") and cut.runs_through):
        return 0.0
    return 0.5 if cut.joint == "mitre" else 1.0


def _screws(length: float) -> int:
    return math.ceil(length / APART) + 1
