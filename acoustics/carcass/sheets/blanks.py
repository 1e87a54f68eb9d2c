"""Sheets as bought, and the rectangles to cut from them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from acoustics.carcass.panels.cut_list import CutPart
from acoustics.carcass.shape.errors import SheetError, metres
from acoustics.errors import COUNT, Id, Quantity
from acoustics.findings import Finding
from acoustics.sources import Source


@dataclass(frozen=True, kw_only=True)
class Sheet:
    """A sheet as bought; its grain runs along its length.

    Attributes:
        name: what it is called.
        length: length, along the grain [m].
        width: width [m].

    Raises:
        SheetError: when a dimension is not greater than 0 m.
    """

    name: str
    length: float
    width: float

    def __post_init__(self) -> None:
        for value in (self.length, self.width):
            if not (math.isfinite(value) and value > 0):
                raise SheetError(
                    code="sheet-size-not-positive", name=Id(self.name), value=metres(value)
                )

    @property
    def area(self) -> float:
        """Area of the sheet.

        Returns: area [m²]
        """
        return self.length * self.width


@dataclass(frozen=True, kw_only=True)
class Blank:
    """A rectangle to be cut, as often as it is needed.

    Attributes:
        number: number on the cut list [-].
        name: what it is called.
        length: one side; along the grain when that is to be kept [m].
        width: the other side [m].
        quantity: how many [-].
        keep_grain: whether its length must run along the grain of the sheet.
        panels: names of the panels of a box that are cut from it, none for another piece.

    Raises:
        SheetError: when a side is not greater than 0 m or none is needed.
    """

    number: int
    name: str
    length: float
    width: float
    quantity: int = 1
    keep_grain: bool = False
    panels: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for value in (self.length, self.width):
            if not (math.isfinite(value) and value > 0):
                raise SheetError(
                    code="part-size-not-positive", name=Id(self.name), value=metres(value)
                )
        if self.quantity < 1:
            raise SheetError(
                code="part-count-too-small",
                name=Id(self.name),
                quantity=Quantity(self.quantity, COUNT),
            )


def blanks(
    lines: Sequence[CutPart], *, thickness: float, tolerance: float = 1e-6
) -> tuple[Blank, ...]:
    """Return the rectangles to cut for all lines of one thickness.

    The rectangle goes round both faces, so that a bevel can still be cut from it. Grain that
    is to be kept runs along the blank's length.

    Args:
        lines: lines of the cut list.
        thickness: thickness of the sheet [m].
        tolerance: how nearly a panel must have it [m].

    Returns: one blank per line of that thickness

    Source: definition.
    """
    chosen = []
    for line in lines:
        if abs(line.panel.thickness - thickness) > tolerance:
            continue
        across, up = line.size
        grain = line.panel.grain
        length, width = (up, across) if grain == "up" else (across, up)
        if grain == "none" and width > length:
            length, width = width, length
        chosen.append(
            Blank(
                number=line.number,
                name=line.name,
                length=length,
                width=width,
                quantity=line.quantity,
                keep_grain=grain != "none",
                panels=line.names,
            )
        )
    return tuple(chosen)


def check_blanks(parts: Sequence[Blank], sheet: Sheet, *, trim: float) -> tuple[Finding, ...]:
    """Find the rectangles that no such sheet can hold.

    Args:
        parts: the parts.
        sheet: the sheet.
        trim: cut off all round the sheet first [m].

    Returns: one finding per part, with the side that is too long and the room for it

    Source: definition.
    """
    room = (sheet.length - 2 * trim, sheet.width - 2 * trim)
    findings = []
    for part in parts:
        sides = [part.length, part.width]
        most = list(room) if part.keep_grain else sorted(room)
        wanted = sides if part.keep_grain else sorted(sides)
        short = [pair for pair in zip(wanted, most, strict=True) if pair[0] > pair[1] + 1e-6]
        if short:
            findings.append(
                Finding(
                    code="part-larger-than-sheet",
                    detail=part.panels,
                    value=short[0][0],
                    limit=short[0][1],
                    unit="m",
                    source=(Source.SHEET_SIZE,),
                )
            )
    return tuple(findings)
