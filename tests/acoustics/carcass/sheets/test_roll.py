"""Cover off the roll: nothing overlaps, nothing turns that may not, few metres are taken."""

import itertools

import numpy as np
import pytest

from acoustics.carcass.shape.errors import SheetError
from acoustics.carcass.sheets.roll import Cut, Roll, lay_on_roll
from tests.refused import refused


def counted(roll: Roll, step: float = 0.01) -> np.ndarray:
    """How many pieces lie on each cell of a raster of the roll."""
    cells = np.zeros((round(roll.length / step), round(roll.width / step)), dtype=int)
    for laid in roll.laid:
        top, right = laid.y + laid.along, laid.x + laid.across
        rows = slice(round(laid.y / step), round(top / step))
        cells[rows, round(laid.x / step) : round(right / step)] += 1
    return cells


def test_pieces_lie_whole_on_the_roll_and_nowhere_twice():
    """200 invented lists: a raster of 10 mm counts every piece once, none beyond the edge."""
    rng = np.random.default_rng(7)
    for _ in range(200):
        cuts = [
            Cut(
                name=str(n),
                across=int(rng.integers(5, 140)) / 100,
                along=int(rng.integers(5, 200)) / 100,
                turns=bool(rng.integers(2)),
            )
            for n in range(int(rng.integers(1, 9)))
        ]
        roll = lay_on_roll(cuts, width=1.4)
        cells = counted(roll)
        assert cells.max() == 1
        area = sum(cut.across * cut.along for cut in cuts)
        assert cells.sum() / 1e4 == pytest.approx(area)
        by_name = {cut.name: cut for cut in cuts}
        for laid in roll.laid:
            cut, lies = by_name[laid.name], (laid.across, laid.along)
            ways = {(cut.across, cut.along)} | ({(cut.along, cut.across)} if cut.turns else set())
            assert lies in ways
        assert roll.length >= max(area / 1.4, 0) - 1e-9


def shortest(cuts, width: float) -> float:
    """Every order and every way to lie, each piece as low and then as far left as it goes."""
    best = float("inf")
    for order in itertools.permutations(cuts):
        for turned in itertools.product((False, True), repeat=len(order)):
            laid: list[tuple[int, int, int, int]] = []
            for cut, turn in zip(order, turned, strict=True):
                across, along = (round(100 * size) for size in (cut.across, cut.along))
                if turn:
                    across, along = along, across
                spots = (
                    (y, x)
                    for y in range(0, 400, 5)
                    for x in range(0, round(100 * width) - across + 1, 5)
                    if all(
                        x >= px + pw or px >= x + across or y >= py + ph or py >= y + along
                        for px, py, pw, ph in laid
                    )
                )
                spot = next(spots, None)
                if spot is None:
                    break
                laid.append((spot[1], spot[0], across, along))
            else:
                best = min(best, max(y + h for _x, y, _w, h in laid) / 100)
    return best


def test_few_pieces_take_hardly_more_than_the_shortest_length():
    """Three pieces in every order and way, on a raster of 50 mm: at most a tenth more."""
    rng = np.random.default_rng(3)
    for _ in range(12):
        cuts = [
            Cut(name=str(n), across=a / 20, along=b / 20, turns=True)
            for n, (a, b) in enumerate(rng.integers(4, 20, size=(3, 2)))
        ]
        assert lay_on_roll(cuts, width=1.4).length <= 1.1 * shortest(cuts, 1.4) + 1e-9


def test_what_has_a_pile_is_not_turned_and_the_order_is_rounded_up():
    """Two pieces of 800 by 400 mm with a pile need 800 mm of a roll of 800; turned, they share."""
    pile = [Cut(name=n, across=0.8, along=0.41, turns=False) for n in "ab"]
    assert lay_on_roll(pile, width=0.82).length == pytest.approx(0.82)
    assert lay_on_roll(pile, width=0.82).order == pytest.approx(0.9)
    free = [Cut(name=n, across=0.8, along=0.41, turns=True) for n in "ab"]
    assert lay_on_roll(free, width=0.82).length == pytest.approx(0.8)
    with refused(SheetError, "cover-wider-than-roll", across=0.8, width=0.7):
        lay_on_roll(pile, width=0.7)
    assert lay_on_roll(free, width=0.7).length == pytest.approx(1.6)
