"""Parts on sheets: whole, apart by the kerf, along the grain, cut as the machine can."""

import itertools
import math
from collections import Counter

import numpy as np
import pytest
import rectpack

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.cut_list import cut_list
from acoustics.carcass.shape.errors import SheetError
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.shapes import rectangle_profile
from acoustics.carcass.sheets import nesting
from acoustics.carcass.sheets.blanks import Blank, Sheet, blanks
from acoustics.carcass.sheets.nesting import Laid, from_stock, nest
from acoustics.carcass.sheets.packing import fit_score, without
from tests.refused import refused

SHEET = Sheet(name="board", length=2.44, width=1.22)
KERF, TRIM = 0.0032, 0.010


def random_parts(number: int, largest: float, start: int) -> list[Blank]:
    """Invented parts, a third of them with their grain to keep."""
    rng = np.random.default_rng(start)
    return [
        Blank(
            number=i,
            name=f"part {i}",
            length=round(float(rng.uniform(0.1, largest)), 3),
            width=round(float(rng.uniform(0.1, min(largest, 1.1))), 3),
            keep_grain=i % 3 == 0,
        )
        for i in range(number)
    ]


def sawable(parts: list[Laid]) -> bool:
    """Whether cuts from edge to edge part all the pieces, one from another."""
    if len(parts) < 2:
        return True
    for low, size in (("x", "length"), ("y", "width")):
        spans = sorted(parts, key=lambda p: getattr(p, low))
        reach = 0.0
        for i, part in enumerate(spans):
            if i and getattr(part, low) >= reach + KERF - 1e-6:
                return sawable(spans[:i]) and sawable(spans[i:])
            reach = max(reach, getattr(part, low) + getattr(part, size))
    return False


@pytest.mark.parametrize("mode", ["panel saw", "router"])
@pytest.mark.parametrize("start", range(8))
def test_layouts_can_be_cut(mode, start):
    """Every part once, inside the trim, a kerf from the next, grain kept, offcuts free."""
    parts = random_parts(25, 0.9, start)
    done = nest(parts, SHEET, kerf=KERF, trim=TRIM, mode=mode)
    laid = [p for s in done.sheets for p in s.parts]
    assert sorted(p.blank.number for p in laid) == [p.number for p in parts]
    assert len(done.sheets) >= done.lower_bound
    for sheet in done.sheets:
        boxes = [(p.x, p.y, p.length, p.width) for p in sheet.parts]
        boxes += [(o.x, o.y, o.length, o.width) for o in sheet.offcuts]
        for i, (x, y, w, h) in enumerate(boxes):
            assert x >= TRIM - 1e-9
            assert y >= TRIM - 1e-9
            assert x + w <= 2.44 - TRIM + 1e-9
            assert y + h <= 1.22 - TRIM + 1e-9
            for a, b, c, d in boxes[:i]:
                apart = max(a - x - w, x - a - c, b - y - h, y - b - d)
                assert apart >= KERF - 1e-9
        for part in sheet.parts:
            assert not (part.blank.keep_grain and part.turned)
            straight = (part.blank.length, part.blank.width)
            assert (part.length, part.width) == (straight[::-1] if part.turned else straight)
        if mode == "panel saw":
            assert sawable(list(sheet.parts))


@pytest.mark.parametrize(
    ("across", "up", "number", "least"),
    [
        (0.55, 0.55, 3, 3),  # no two fit beside or above one another
        (0.45, 0.45, 4, 1),  # four share a sheet
        (0.55, 0.45, 3, 1),  # two share, one above the other; three are 0.74 of a sheet
        (0.95, 0.95, 2, 2),
        (0.45, 0.95, 3, 2),  # 1.28 sheets of wood
    ],
)
def test_no_fewer_sheets_are_promised_than_there_must_be(across, up, number, least):
    """Parts over half a sheet both ways need one each; else the wood they have must fit."""
    length, width = 2.44 - 2 * TRIM, 1.22 - 2 * TRIM
    part = Blank(
        number=1, name="part", length=across * length, width=up * width, quantity=number,
        keep_grain=True,
    )  # fmt: skip
    done = nest([part], SHEET, kerf=KERF, trim=TRIM, mode="router")
    assert done.lower_bound == least
    assert len(done.sheets) >= least


@pytest.mark.parametrize("mode", ["panel saw", "router"])
def test_a_part_as_large_as_the_trimmed_sheet_fits_and_a_larger_one_does_not(mode):
    """2440 × 1220 mm less 10 mm on every side; a tenth of a millimetre more is refused."""
    whole = {"number": 1, "name": "part", "length": 2.420, "width": 1.200}
    (sheet,) = nest([Blank(**whole)], SHEET, kerf=KERF, trim=TRIM, mode=mode).sheets
    assert [(p.x, p.y) for p in sheet.parts] == [(pytest.approx(TRIM), pytest.approx(TRIM))]
    for larger in ({"length": 2.4201}, {"width": 1.2001}):
        with pytest.raises(SheetError):
            nest([Blank(**whole | larger)], SHEET, kerf=KERF, trim=TRIM, mode=mode)


@pytest.mark.second_method
@pytest.mark.parametrize("start", range(12))
def test_never_more_sheets_than_the_reference_packer(start):
    """Under a router no more sheets than the rectpack library needs for the same parts."""
    parts = [
        Blank(number=p.number, name=p.name, length=p.length, width=p.width)
        for p in random_parts(30, (0.6, 0.9, 1.2)[start % 3], 100 + start)
    ]
    reference = rectpack.newPacker(rotation=True)
    for part in parts:
        reference.add_rect(round((part.length + KERF) * 1e6), round((part.width + KERF) * 1e6))
    reference.add_bin(
        round((2.44 - 2 * TRIM + KERF) * 1e6),
        round((1.22 - 2 * TRIM + KERF) * 1e6),
        count=float("inf"),
    )
    reference.pack()
    assert sum(len(b) for b in reference) == len(parts)
    done = nest(parts, SHEET, kerf=KERF, trim=TRIM, mode="router")
    assert len(done.sheets) <= len(reference)


def test_blanks_of_a_box():
    """A box of two thicknesses gives one set of blanks per thickness, numbered as the cut list."""
    carcass = Carcass(
        profile=rectangle_profile(0.3, 0.4),
        width=0.6,
        thickness=(0.018, 0.018, 0.018, 0.024),
        cheek_thickness=0.018,
        grain="up",
    )
    lines = cut_list(panels(carcass))
    thick = blanks(lines, thickness=0.024)
    assert [(b.name, b.keep_grain) for b in thick] == [("front", True)]
    thin = blanks(lines, thickness=0.018)
    assert {b.number for b in thin} | {b.number for b in thick} == {x.number for x in lines}
    assert sum(b.quantity for b in (*thin, *thick)) == 6


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: Blank(number=1, name="a", length=3.0, width=0.1), ("part-beyond-sheet",)),
        (
            lambda: Blank(number=1, name="a", length=1.3, width=0.1, keep_grain=True),
            None,
        ),
        (
            lambda: Blank(number=1, name="a", length=0.1, width=1.3, keep_grain=True),
            ("part-beyond-grain",),
        ),
    ],
)
def test_part_larger_than_its_sheet(make, says):
    """A part that no sheet holds is named, and grain counts."""
    if says is None:
        assert len(nest([make()], SHEET, kerf=KERF, trim=TRIM).sheets) == 1
        return
    with refused(SheetError, *says):
        nest([make()], SHEET, kerf=KERF, trim=TRIM)


def test_nothing_to_cut():
    """No parts, a trim that eats the sheet, a kerf or trim below nothing or endless are refused."""
    part = [Blank(number=1, name="a", length=0.1, width=0.1)]
    with refused(SheetError, "no-parts"):
        nest([], SHEET, kerf=KERF, trim=TRIM)
    with refused(SheetError, "trim-leaves-no-sheet"):
        nest(part, SHEET, kerf=KERF, trim=0.7)
    for kerf, trim in ((-0.001, TRIM), (KERF, -0.001), (math.inf, TRIM), (KERF, math.inf)):
        with refused(SheetError, "kerf-or-trim-negative"):
            nest(part, SHEET, kerf=kerf, trim=trim)


@pytest.mark.parametrize("seed", [25, 43, 72])
def test_a_sheet_is_not_begun_for_an_offcut(seed, monkeypatch):
    """Where the usual search puts one small part on a second sheet, it goes on and needs one."""
    rng = np.random.default_rng(seed)
    count, fill = int(rng.integers(7, 18)), rng.uniform(0.84, 0.95)
    long, short = rng.uniform(0.12, 0.9, count), rng.uniform(0.1, 0.5, count)
    scale = math.sqrt(fill * 2.42 * 1.2 / float((long * short).sum()))
    parts = [
        Blank(
            number=number,
            name=str(number),
            length=max(a, b) * scale,
            width=min(a, b) * scale,
            keep_grain=bool(rng.random() < 0.5),
        )
        for number, (a, b) in enumerate(zip(long, short, strict=True))
    ]
    assert len(nest(parts, SHEET, kerf=KERF, trim=TRIM).sheets) == 1
    monkeypatch.setattr(nesting, "SEARCHED_ON", 0)
    assert len(nest(parts, SHEET, kerf=KERF, trim=TRIM).sheets) == 2


@pytest.mark.parametrize("mode", ["panel saw", "router"])
def test_offcuts_are_used_before_a_sheet(mode):
    """Nothing lies over an edge or another part, grain is kept, no part is lost or doubled."""
    rng = np.random.default_rng(7)
    for _list in range(40):
        parts = [
            Blank(
                number=n, name=str(n), length=float(rng.uniform(0.1, 0.6)),
                width=float(rng.uniform(0.1, 0.4)), quantity=int(rng.integers(1, 4)),
                keep_grain=bool(rng.integers(2)),
            )
            for n in range(6)
        ]  # fmt: skip
        stock = [
            Sheet(name=str(n), length=float(long), width=float(wide))
            for n, (long, wide) in enumerate(rng.uniform(0.15, 1.0, (4, 2)))
        ]
        used, left = from_stock(parts, stock, kerf=0.004, mode=mode)
        counted = Counter(part.blank.number for sheet in used for part in sheet.parts)
        for part in left:
            counted[part.number] += part.quantity
        assert counted == Counter({part.number: part.quantity for part in parts})
        for sheet in used:
            assert sheet.from_stock
            for part in sheet.parts:
                assert part.x >= 0
                assert part.y >= 0
                assert part.x + part.length <= sheet.sheet.length + 1e-6
                assert part.y + part.width <= sheet.sheet.width + 1e-6
                assert not (part.turned and part.blank.keep_grain)
            for a, b in itertools.combinations(sheet.parts, 2):
                beside = max(b.x - a.x - a.length, a.x - b.x - b.length)
                above = max(b.y - a.y - a.width, a.y - b.y - b.width)
                assert max(beside, above) >= 0.004 - 1e-6


def test_free_rectangles_are_the_largest_and_none_lies_in_another():
    """What remains around a part, against every rectangle of a small grid looked at in turn."""
    side, taken = 6, [(0, 0, 2, 3), (3, 1, 2, 2), (1, 4, 3, 1)]
    free = [(0, 0, side, side)]
    for rect in taken:
        free = without(free, rect)
    cells = {(x, y) for tx, ty, w, h in taken for x in range(tx, tx + w) for y in range(ty, ty + h)}

    def clear(x: int, y: int, w: int, h: int) -> bool:
        inside = x >= 0 and y >= 0 and x + w <= side and y + h <= side
        return inside and not any((a, b) in cells for a in range(x, x + w) for b in range(y, y + h))

    every = itertools.product(range(side), range(side), range(1, side + 1), range(1, side + 1))
    largest = {
        (x, y, w, h)
        for x, y, w, h in every
        if clear(x, y, w, h)
        and not any(
            clear(*grown)
            for grown in (
                (x - 1, y, w + 1, h),
                (x, y - 1, w, h + 1),
                (x, y, w + 1, h),
                (x, y, w, h + 1),
            )
        )
    }
    assert sorted(free) == sorted(largest)


@pytest.mark.parametrize(
    ("fit", "score"),
    [("short side", (20, 60)), ("long side", (60, 20)), ("area", (5600, 20)), ("corner", (47, 3))],
)
def test_what_is_left_beside_a_part_says_how_well_it_fits(fit, score):
    """By hand: 60 × 40 laid at (3, 7) into 80 × 100; what is least is best."""
    assert fit_score(fit, (3, 7, 80, 100), 60, 40) == score
