"""What stiffens a box from within, from its record: plates by count, and each one entered."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from acoustics.carcass.shape import bracing
from acoustics.carcass.shape.braces import Brace
from acoustics.carcass.shape.prism import Carcass
from acoustics.errors import MissingError
from jobs.design.wording.names import Needed
from jobs.models import Box
from jobs.models.box.box_kinds import kind_of
from jobs.models.box.box_wood import PLATE, SHELF, STRUT_ACROSS, STRUT_ALONG, UPRIGHT

DIVIDER = "divider"


def braces(box: Box, bare: Carcass, thickness: float) -> tuple[Brace, ...]:
    """Return every brace of a box, its divider last; those entered are as thick as the sheet.

    The outer face of the divider, in which the driver sits, looks into the front chamber.
    """
    entered = []
    count: dict[str, int] = {}
    for row in box.inner_braces or ():
        word = row["kind"].split()[0]
        count[word] = count.get(word, 0) + 1
        entered.append(_entered(f"{word} {count[word]}", row, bare, thickness))
    counted = bracing.spaced_plates(
        bare, box.brace_count, opening=box.brace_opening, thickness=thickness
    )
    return (*counted, *entered, *_divider(box, bare, thickness))


def is_parted(box: Box) -> bool:
    """Whether a divider carries its driver."""
    return bool(box.divider) and kind_of(box).front_chamber


def _divider(box: Box, bare: Carcass, thickness: float) -> tuple[Brace, ...]:
    if not is_parted(box):
        return ()
    if box.divider_at is None:
        raise MissingError(Needed.DIVIDER_PLACE)
    at = box.divider_at
    if box.divider == Box.Divider.PLATE:
        return (bracing.plate(DIVIDER, bare, at, opening=0.0, thickness=thickness),)
    level = box.divider == Box.Divider.SHELF
    shelf = bracing.shelf(DIVIDER, bare, at, level=level, opening=0.0, thickness=thickness)
    # Turned over: a shelf's own outer face looks down or to the rear.
    return (replace(shelf, start=shelf.end, end=shelf.start),)


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
