"""What stands before a cone: a grille or a cover must clear surround and travel."""

from __future__ import annotations

from collections.abc import Iterator

from acoustics.findings import Finding
from acoustics.sources import Source

# What is left between the cone at full travel and the grille: common practice, no source [m].
GAP = 0.003
TOUCH = 1e-6


def check_grille(
    *, height: float, recess: float, surround: float | None, travel: float
) -> Iterator[Finding]:
    """Hold a grille against the cone that moves behind it.

    room = height + recess - surround - travel

    Args:
        height: from the face the driver sits in to the inside of the grille [m].
        recess: how deep the driver's flange is let into that face [m].
        surround: how far surround or cone stand before the mounting face of the flange at rest;
            None where nobody measured it [m].
        travel: how far the cone moves outwards at most [m].

    Yields: findings

    Valid: a stiff grille; what gives under a hand comes nearer.

    Source: definition; the gap that is left is common practice, no source.
    """
    if surround is None:
        yield Finding(code="grille-not-checked", unit="m")
        return
    needed = surround + travel
    room = height + recess
    if room < needed - TOUCH:
        code, limit = "grille-hits-cone", needed
    elif room < needed + GAP - TOUCH:
        code, limit = "grille-near-cone", needed + GAP
    else:
        return
    yield Finding(code=code, value=room, limit=limit, unit="m", source=(Source.COMMON_PRACTICE,))
