"""A run on the wrong side of the car: its ends held against the panels its route passes."""

from collections.abc import Iterator
from dataclasses import dataclass

from wiring.findings import END, START, Finding
from wiring.sources import Source

LEFT, RIGHT = "left", "right"
_OPPOSITE = {LEFT: RIGHT, RIGHT: LEFT}


@dataclass(frozen=True, kw_only=True)
class Way:
    """One run with the sides of the car it lies on; a side is "left", "right" or another word.

    Attributes:
        id: what the run is known by; findings hand it back
        start: side of what it starts at, empty where nobody noted it
        end: side of what it ends at, likewise
        passed: (id, side) of what it passes in order
    """

    id: str
    start: str
    end: str
    passed: tuple[tuple[str, str], ...]


def check_side(way: Way) -> Iterator[Finding]:
    """Find an end on the other side than what the route passes next to it, and a needless crossing.

    Args:
        way: the run

    Returns:
        the findings, each with the id of what is passed there as its value

    Source: definition; common practice
    """
    if not way.passed:
        return
    ends = ((START, way.start, way.passed[0]), (END, way.end, way.passed[-1]))
    wrong = [
        Finding(
            code="run-wrong-side",
            about=way.id,
            detail=(end,),
            value=passed,
            source=(Source.COMMON_PRACTICE,),
        )
        for end, side, (passed, beside) in ends
        if _OPPOSITE.get(side) == beside
    ]
    yield from wrong
    if wrong or way.start != way.end or way.start not in _OPPOSITE:
        return
    beyond = [passed for passed, side in way.passed if side == _OPPOSITE[way.start]]
    if beyond:
        yield Finding(
            code="run-crosses-car",
            about=way.id,
            value=beyond[0],
            source=(Source.COMMON_PRACTICE,),
        )
