"""Parts laid on sheets, on what is left of them, and covers on a roll."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from acoustics.carcass.sheets.blanks import Blank, Sheet, check_blanks
from acoustics.carcass.sheets.nesting import Mode, NestedSheet, from_stock, nest
from acoustics.carcass.sheets.packing import MaxRects, Offer, Packer, Sawn, fit_score, without
from acoustics.carcass.sheets.roll import Cut, lay_on_roll
from tests.told import findings, row, rows

SHEET = Sheet(name="plywood", length=1.5, width=1.25)
PARTS = (
    Blank(number=1, name="front", length=0.61, width=0.42, quantity=2),
    Blank(number=2, name="cheek", length=0.42, width=0.36, quantity=3, keep_grain=True),
    Blank(number=3, name="bottom", length=0.58, width=0.33, quantity=2),
    Blank(number=4, name="brace", length=0.31, width=0.09, quantity=5),
    Blank(number=5, name="plate", length=0.2, width=0.2),
)
MANY = tuple(
    Blank(number=n, name=f"part {n}", length=0.3 + 0.037 * (n % 7), width=0.2 + 0.051 * (n % 4))
    for n in range(1, 15)
)


# Covers [cm] of which one order and one way to place them, each time another, come out shortest.
TURNING = (
    "75x25 65x75 105x60 95x60 65x70 45x20 95x105", "80x35 50x40 85x55 55x25 45x55 50x65 45x45",
    "40x40 70x85 55x70 80x55 55x65", "85x45 40x60 30x70 65x20 70x30 65x75",
    "80x70 55x50 40x40 35x65 30x50 55x65 45x85", "60x80 90x60 30x95 80x95 40x80 95x105 25x80",
    "105x40 70x80 85x85 55x95 65x95 80x80", "50x55 20x25 55x50 65x70 45x45 30x55 40x90",
    "50x80 80x45 35x80 50x50 40x80 90x40", "45x45 35x60 100x45 40x90 85x85 35x70",
    "85x30 55x50 60x55 25x75 40x20 65x50 55x60", "35x80 85x20 90x70 105x55 70x95 60x50 55x95",
)  # fmt: skip


def _sheets(sheets: Iterable[NestedSheet]) -> Mapping[str, object]:
    return {
        str(number): {
            "used": row(nested.sheet.name, nested.used, nested.from_stock),
            "parts": " | ".join(
                row(p.blank.number, p.x, p.y, p.length, p.width, p.turned) for p in nested.parts
            ),
            "offcuts": " | ".join(row(o.x, o.y, o.length, o.width) for o in nested.offcuts),
        }
        for number, nested in enumerate(sheets)
    }


def nests() -> Mapping[str, object]:
    """Show a saw and a router at the same parts, and at too many for one sheet."""
    out: dict[str, object] = {}
    modes: tuple[Mode, ...] = ("panel saw", "router")
    for mode in modes:
        few = nest(PARTS, SHEET, kerf=0.003, trim=0.01, mode=mode, smallest_offcut=0.08)
        many = nest(MANY, SHEET, kerf=0.004, trim=0.005, mode=mode)
        out[mode] = {"few": _sheets(few.sheets), "few at least": few.lower_bound}
        out[f"{mode}, many"] = {"sheets": _sheets(many.sheets), "at least": many.lower_bound}
    wide = (Blank(number=1, name="wide", length=0.8, width=0.8, quantity=3),)
    out["lonely"] = nest(wide, SHEET, kerf=0.0, trim=0.0).lower_bound
    return out


def stock() -> Mapping[str, object]:
    """Show pieces in stock used up, smallest first, and what is left to lay."""
    pieces = (
        Sheet(name="long", length=1.3, width=0.45),
        Sheet(name="small", length=0.5, width=0.4),
        Sheet(name="useless", length=0.15, width=0.07),
    )
    out: dict[str, object] = {}
    modes: tuple[Mode, ...] = ("panel saw", "router")
    for mode in modes:
        used, left = from_stock(PARTS, pieces, kerf=0.003, mode=mode, smallest_offcut=0.05)
        out[mode] = {"used": _sheets(used), "left": rows((b.number, b.quantity) for b in left)}
    large = (
        Blank(number=1, name="long", length=1.49, width=0.3, panels=("long",)),
        Blank(
            number=2, name="grained", length=0.5, width=1.3, keep_grain=True, panels=("grained",)
        ),
        Blank(number=3, name="turned", length=0.5, width=1.3, panels=("turned",)),
        Blank(number=4, name="huge", length=1.6, width=1.3, panels=("huge",)),
    )
    out["large"] = findings(check_blanks(large, SHEET, trim=0.01))
    return out


def packers() -> Mapping[str, object]:
    """Show each rule of both packers fill one sheet."""
    offers = [
        Offer(index=n, ways=((w, h, False), (h, w, True)) if n % 2 else ((w, h, False),))
        for n, (w, h) in enumerate(((40, 30), (35, 20), (20, 50), (15, 15), (30, 10), (25, 25)))
    ]
    out: dict[str, object] = {}
    kinds: tuple[type[Packer], ...] = (Sawn, MaxRects)
    for kind in kinds:
        for rule in kind.rules:
            packer = kind(90, 70, rule)
            for offer in offers:
                spot = packer.best(offer)
                if spot is not None:
                    packer.put(spot)
            placed = [(s.x, s.y, s.width, s.height, *s.score) for s in packer.placed]
            out[f"{kind.__name__} {rule}"] = row(packer.filled, placed, packer.leftovers())
    scores = ("short side", "long side", "area", "corner")
    out["scores"] = row(fit_score(fit, (3, 4, 30, 20), 12, 15) for fit in scores)
    out["without"] = row(without([(0, 0, 50, 40), (50, 0, 20, 70)], (10, 10, 45, 15)))
    return out


def roll() -> Mapping[str, object]:
    """Show covers laid on a roll, with and without a nap."""
    out = {}
    for turns in (False, True):
        cuts = [
            Cut(name=name, across=across, along=along, turns=turns)
            for name, across, along in (
                ("a", 0.6, 0.9),
                ("b", 0.5, 0.35),
                ("c", 0.85, 0.4),
                ("d", 0.3, 0.3),
                ("e", 0.7, 1.1),
                ("f", 0.45, 0.52),
            )
        ]
        laid = lay_on_roll(cuts, width=1.37)
        places = " | ".join(row(p.name, p.x, p.y, p.across, p.along) for p in laid.laid)
        out["turning" if turns else "with a nap"] = {
            "length": row(laid.length, laid.order),
            "laid": places,
        }
    for number, covers in enumerate(TURNING):
        cuts = [
            Cut(name=name, across=across / 100, along=along / 100, turns=True)
            for name, (across, along) in zip(
                "abcdefg", (map(float, size.split("x")) for size in covers.split()), strict=False
            )
        ]
        laid = lay_on_roll(cuts, width=1.37)
        out[f"shortest {number}"] = {"length": row(laid.length, [(p.x, p.y) for p in laid.laid])}
    out["nothing"] = {"length": row(lay_on_roll([], width=1.37).length)}
    return out  # fmt: skip


SCENES = {"nests": nests, "stock": stock, "packers": packers, "roll": roll}
