"""What stiffens a box from within, from its record: plates by count, and each one entered."""

from __future__ import annotations

from typing import Any

from acoustics.carcass.shape import bracing
from acoustics.carcass.shape.braces import Brace
from acoustics.carcass.shape.prism import Carcass
from jobs.models import Box
from jobs.models.box_wood import PLATE, SHELF, STRUT_ACROSS, STRUT_ALONG, UPRIGHT


def braces(box: Box, bare: Carcass, thickness: float) -> tuple[Brace, ...]:
    """Return every brace of a box; those entered by hand are as thick as the sheet."""
    entered = []
    count: dict[str, int] = {}
    for row in box.inner_braces or ():
        word = row["kind"].split()[0]
        count[word] = count.get(word, 0) + 1
        entered.append(_entered(f"{word} {count[word]}", row, bare, thickness))
    counted = bracing.spaced_plates(
        bare, box.brace_count, opening=box.brace_opening, thickness=thickness
    )
    return (*counted, *entered)


def _entered(name: str, row: dict[str, Any], bare: Carcass, thickness: float) -> Brace:
    kind = row["kind"]
    if kind == PLATE:
        (at,) = row["at"]
        return bracing.plate(name, bare, at, opening=row["open"], thickness=thickness)
    if kind in (SHELF, UPRIGHT):
        (at,) = row["at"]
        level = kind == SHELF
        return bracing.shelf(name, bare, at, level=level, opening=row["open"], thickness=thickness)
    first, second, breadth = row["at"]
    at = (first, second)
    if kind == STRUT_ACROSS:
        return bracing.strut_across(name, bare, at, breadth=breadth, thickness=thickness)
    return bracing.strut_between_walls(
        name, bare, at, level=kind == STRUT_ALONG, breadth=breadth, thickness=thickness
    )
