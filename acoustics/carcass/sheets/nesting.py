"""Laying the parts of a cut list on sheets, for a panel saw or for a router."""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from acoustics.carcass.shape.errors import SheetError, at_most, metres
from acoustics.carcass.sheets.blanks import Blank, Sheet
from acoustics.carcass.sheets.packing import MaxRects, Offer, Packer, Rect, Sawn, Spot
from acoustics.errors import Id
from acoustics.names import Name

Mode = Literal["panel saw", "router"]

# Lengths are packed as whole micrometres: parts rounded up, sheets down.
MICRO = 1e6
# How many orders are measured strictly, and how many parts are placed in shaken ones.
STRICT, SHAKEN = 5, 1200
# How many more while the last sheet is nearly empty, in lists of so many parts at the most: a
# sheet bought for an offcut costs more than the search.
SEARCHED_ON, NEARLY_EMPTY, SHORT_LIST = 6000, 0.25, 100
MOST_PARTS = 1000


@dataclass(frozen=True, kw_only=True)
class Laid:
    """A part on a sheet.

    Attributes:
        blank: the part.
        x: from the left of the sheet, along its length [m].
        y: from its lower edge [m].
        length: extent along the sheet's length [m].
        width: extent along its width [m].
        turned: whether its length runs along the sheet's width.
    """

    blank: Blank
    x: float
    y: float
    length: float
    width: float
    turned: bool


@dataclass(frozen=True, kw_only=True)
class Offcut:
    """A rectangle that is left over.

    Attributes:
        x: from the left of the sheet, along its length [m].
        y: from its lower edge [m].
        length: extent along the sheet's length [m].
        width: extent along its width [m].
    """

    x: float
    y: float
    length: float
    width: float


@dataclass(frozen=True, kw_only=True)
class NestedSheet:
    """One sheet with its parts.

    Attributes:
        sheet: the sheet.
        parts: what is cut from it.
        offcuts: what is worth keeping, largest first; they do not overlap.
        from_stock: whether it is an offcut of the workshop's and no new sheet.
    """

    sheet: Sheet
    parts: tuple[Laid, ...]
    offcuts: tuple[Offcut, ...]
    from_stock: bool = False

    @property
    def used(self) -> float:
        """Share of the sheet that becomes parts.

        Returns: share, 0 to 1 [-]
        """
        return sum(p.length * p.width for p in self.parts) / self.sheet.area


@dataclass(frozen=True, kw_only=True)
class Nest:
    """All sheets, and how few could do at the very best.

    Attributes:
        sheets: the sheets, fullest first.
        lower_bound: number of sheets below which no layout can exist [-].
    """

    sheets: tuple[NestedSheet, ...]
    lower_bound: int


def nest(
    parts: Sequence[Blank],
    sheet: Sheet,
    *,
    kerf: float,
    trim: float,
    mode: Mode = "panel saw",
    smallest_offcut: float = 0.1,
) -> Nest:
    """Lay parts on as few equal sheets as the search finds.

    Several orders and rules of placing are tried, until the lower bound is reached; the layout
    with fewest sheets wins, then the one with least on its last sheet. On a panel saw every cut
    runs from edge to edge of the piece in hand; a router may cut anywhere.

    Args:
        parts: the parts.
        sheet: the sheet, as many as needed.
        kerf: width of the cut, left between any two parts [m].
        trim: cut off all round the sheet first [m].
        mode: panel saw or router.
        smallest_offcut: offcuts with a side shorter than this are not listed [m].

    Returns: sheets with parts and offcuts, and the lower bound

    Raises:
        SheetError: when there is no part, one is larger than the sheet, the trim leaves nothing, or
            kerf or trim are negative; when there are more than 1000 parts.

    Valid: rectangles; the lower bound is that of area and of parts that cannot share a sheet.

    Source: J. Jylänki, "A Thousand Ways to Pack the Bin" (2010), rules of placing, from memory.
    """
    if not (kerf >= 0 and trim >= 0 and math.isfinite(kerf + trim)):
        raise SheetError(code="kerf-or-trim-negative", kerf=metres(kerf), trim=metres(trim))
    if mode not in ("panel saw", "router"):
        raise SheetError(code="cutting-unknown", mode=mode)
    if not parts:
        raise SheetError(code="no-parts", name=Id(sheet.name))
    at_most(sum(part.quantity for part in parts), MOST_PARTS, Name.PARTS, SheetError)
    # Every part carries one kerf on its right and upper side, and so does the sheet.
    length = math.floor((sheet.length - 2 * trim + kerf) * MICRO + 0.01)
    width = math.floor((sheet.width - 2 * trim + kerf) * MICRO + 0.01)
    if min(length, width) <= 0:
        raise SheetError(code="trim-leaves-no-sheet", trim=metres(trim), name=Id(sheet.name))
    offers = [
        _offer(i, part, sheet, (length, width), kerf)
        for i, part in enumerate(parts)
        for _ in range(part.quantity)
    ]
    bound = _lower_bound(offers, length, width)
    best = _search(offers, length, width, mode, bound)
    sheets = [
        NestedSheet(
            sheet=sheet,
            parts=tuple(_laid(parts, placed, kerf, trim) for placed in packed.placed),
            offcuts=_offcuts(packed.leftovers(), kerf, trim, smallest_offcut),
        )
        for packed in best
    ]
    return Nest(sheets=tuple(sorted(sheets, key=lambda s: -s.used)), lower_bound=bound)


def from_stock(
    parts: Sequence[Blank],
    stock: Sequence[Sheet],
    *,
    kerf: float,
    mode: Mode = "panel saw",
    smallest_offcut: float = 0.1,
) -> tuple[tuple[NestedSheet, ...], tuple[Blank, ...]]:
    """Cut what fits from offcuts, the smallest first, and return what is left to cut.

    Large parts are placed before small ones; of the rules of placing the one is kept that fills
    an offcut best. An offcut on which no part lies is left alone.

    Args:
        parts: the parts.
        stock: offcuts with clean edges: nothing is trimmed off them.
        kerf: width of the cut, left between any two parts [m].
        mode: panel saw or router.
        smallest_offcut: what is left again is listed unless a side is shorter than this [m].

    Returns: the offcuts that are used, and the parts that still need a sheet

    Valid: rectangles; one offcut after the other, so not always the fewest new sheets.

    Source: J. Jylänki, "A Thousand Ways to Pack the Bin" (2010), rules of placing, from memory.
    """
    used: list[NestedSheet] = []
    rest = Counter({index: part.quantity for index, part in enumerate(parts)})
    for piece in sorted(stock, key=lambda piece: piece.area):
        packer = _fullest(parts, rest, piece, kerf, mode)
        if packer is None:
            continue
        rest.subtract(spot.part for spot in packer.placed)
        used.append(
            NestedSheet(
                sheet=piece,
                parts=tuple(_laid(parts, spot, kerf, 0.0) for spot in packer.placed),
                offcuts=_offcuts(packer.leftovers(), kerf, 0.0, smallest_offcut),
                from_stock=True,
            )
        )
    left = tuple(
        replace(part, quantity=rest[index]) for index, part in enumerate(parts) if rest[index]
    )
    return tuple(used), left


def _fullest(
    parts: Sequence[Blank], rest: Counter[int], piece: Sheet, kerf: float, mode: Mode
) -> Packer | None:
    length, width = (int((side + kerf) * MICRO + 0.01) for side in (piece.length, piece.width))
    wanted = [
        fitting
        for index, part in enumerate(parts)
        for fitting in [_offer_of(index, part, piece, (length, width), kerf)] * rest[index]
        if fitting is not None
    ]
    wanted.sort(key=lambda part: -part.ways[0][0] * part.ways[0][1])
    kind: type[Packer] = MaxRects if mode == "router" else Sawn
    best: Packer | None = None
    for rule in kind.rules:
        packer = kind(length, width, rule)
        for part in wanted:
            if (spot := packer.best(part)) is not None:
                packer.put(spot)
        if packer.placed and (best is None or packer.filled > best.filled):
            best = packer
    return best


def _offer_of(
    index: int, part: Blank, piece: Sheet, room: tuple[int, int], kerf: float
) -> Offer | None:
    try:
        return _offer(index, part, piece, room, kerf)
    except SheetError:  # larger than this offcut
        return None


def _offer(index: int, part: Blank, sheet: Sheet, room: tuple[int, int], kerf: float) -> Offer:
    """A part with the ways it may lie: straight, and turned unless its grain is kept."""
    w = math.ceil((part.length + kerf) * MICRO - 0.01)
    h = math.ceil((part.width + kerf) * MICRO - 0.01)
    ways = [(w, h, False)] if part.keep_grain or w == h else [(w, h, False), (h, w, True)]
    fitting = tuple(way for way in ways if way[0] <= room[0] and way[1] <= room[1])
    if not fitting:
        raise SheetError(
            code="part-beyond-grain" if part.keep_grain else "part-beyond-sheet",
            name=Id(part.name),
            length=metres(part.length),
            width=metres(part.width),
            sheet=Id(sheet.name),
            room_length=metres(room[0] / MICRO - kerf),
            room_width=metres(room[1] / MICRO - kerf),
        )
    return Offer(index=index, ways=fitting)


def _lower_bound(offers: Sequence[Offer], length: int, width: int) -> int:
    """Sheets by area, and parts of which no two can share a sheet."""
    area = sum(o.ways[0][0] * o.ways[0][1] for o in offers)
    lonely = sum(all(2 * w > length and 2 * h > width for w, h, _ in o.ways) for o in offers)
    return max(-(-area // (length * width)), lonely)


def _orders(offers: Sequence[Offer]) -> Iterator[list[Offer]]:
    """The orders worth trying: large first, by several measures of large; then large first by
    areas and long sides that are shaken a little, which finds what no strict order does.
    """
    sides = np.array([o.ways[0][:2] for o in offers], dtype=float)
    long, short = sides.max(axis=1), sides.min(axis=1)
    area = long * short
    for measure in (area, long, short, long + short, long - short):
        yield [offers[i] for i in np.argsort(-measure, kind="stable")]
    rng = np.random.default_rng(1)  # always the same layout for the same parts
    for turn in itertools.count():
        shaken = (area, long**2)[turn % 2] * rng.uniform(0.5, 1.5, len(offers))
        yield [offers[i] for i in np.argsort(-shaken, kind="stable")]


def _search(
    offers: Sequence[Offer], length: int, width: int, mode: Mode, bound: int
) -> list[Packer]:
    kind: type[Packer] = MaxRects if mode == "router" else Sawn
    best: list[Packer] = []
    best_score = (math.inf, math.inf)
    usual = STRICT + max(SHAKEN // len(offers), 1)
    most = usual + (SEARCHED_ON // len(offers) if len(offers) <= SHORT_LIST else 0)
    for number, order in enumerate(itertools.islice(_orders(offers), most)):
        # A sheet more than the bound is worth the longer search where hardly anything is on it.
        if number == usual and best_score[1] > NEARLY_EMPTY * length * width:
            break
        # The shaken orders take the rules in turn, the strict ones try them all.
        rules = kind.rules if number < STRICT else (kind.rules[number % len(kind.rules)],)
        for rule in rules:
            packed = _fill(order, kind, rule, length, width)
            score = (len(packed), min((p.filled for p in packed), default=0))
            if score < best_score:
                best, best_score = packed, score
            if len(best) <= bound:
                return best
    return best


def _fill(
    order: Sequence[Offer], kind: type[Packer], rule: str, length: int, width: int
) -> list[Packer]:
    """Put each part where it fits best on any sheet begun; begin another when it fits on none."""
    packed: list[Packer] = []
    for offer in order:
        spots = [(p.best(offer), p) for p in packed]
        fits = [(spot, p) for spot, p in spots if spot is not None]
        if fits:
            spot, packer = min(fits, key=lambda f: f[0].score)
        else:
            packer = kind(length, width, rule)
            packed.append(packer)
            first = packer.best(offer)
            assert first is not None  # every way was checked against the sheet
            spot = first
        packer.put(spot)
    return packed


def _laid(parts: Sequence[Blank], placed: Spot, kerf: float, trim: float) -> Laid:
    part = parts[placed.part]
    length, width = (part.width, part.length) if placed.turned else (part.length, part.width)
    return Laid(
        blank=part,
        x=trim + placed.x / MICRO,
        y=trim + placed.y / MICRO,
        length=length,
        width=width,
        turned=placed.turned,
    )


def _offcuts(free: Sequence[Rect], kerf: float, trim: float, smallest: float) -> tuple[Offcut, ...]:
    """Leftovers worth keeping; the kerf towards the next part is taken off."""
    sizes = ((x, y, w / MICRO - kerf, h / MICRO - kerf) for x, y, w, h in free)
    return tuple(
        Offcut(x=trim + x / MICRO, y=trim + y / MICRO, length=length, width=width)
        for x, y, length, width in sizes
        if min(length, width) >= smallest
    )
