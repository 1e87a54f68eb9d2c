"""What it costs to fit a box to a cavity, and to nest a box's parts."""

from __future__ import annotations

import numpy as np
import pytest

from acoustics.carcass.cavity.cavity import Cavity, Obstacle, Opening
from acoustics.carcass.cavity.fit import Wanted, fit
from acoustics.carcass.cavity.fit_build import Stock
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.shape.contents import PortBody
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.sheets.blanks import Blank, Sheet
from acoustics.carcass.sheets.nesting import nest
from tests.acoustics.carcass.cavity.test_fit import driver
from tests.bench.clock import cost

pytestmark = pytest.mark.bench


CAVITY = Cavity(
    profile=Profile(points=((0, 0), (0.55, 0), (0.6, 0.2), (0.42, 0.45), (0, 0.45))),
    width=1.0,
    gap=0.01,
    opening=Opening(width=0.9, height=0.5),
    obstacles=(
        Obstacle(
            name="arch", points=((0.4, 0), (0.6, 0), (0.6, 0.15), (0.4, 0.15)), start=0.0, end=0.2
        ),
    ),
)
PORT = PortBody.straight("port", width=0.08, length=0.2, wall=0.003)


@pytest.mark.parametrize("litres", [45, 300])
def test_a_fit_takes_less_than_half_a_second(litres) -> None:
    """A cavity with an obstacle and an opening, a driver and a port: what fits, what does not."""
    wish = Wanted(
        net_volume=litres / 1000,
        stock=Stock(thickness=0.018),
        load=Load(driver=driver(), port=PORT),
    )
    spent = cost(lambda: fit(CAVITY, wish))
    print(f"\nfit to {litres} L: {spent}")
    assert spent.nominal < 0.5


@pytest.mark.parametrize(("count", "limit"), [(30, 0.1), (300, 0.5)])
def test_parts_are_nested_while_somebody_waits(count: int, limit: float) -> None:
    """Invented parts on sheets of 2.5 × 1.25 m: thirty in 0.1 s, three hundred in 0.5 s."""
    rng = np.random.default_rng(3)
    sides = rng.uniform(0.2, 0.9, size=(count, 2))
    blanks = [
        Blank(number=i, name=f"part {i}", length=float(a), width=float(b), keep_grain=i % 3 == 0)
        for i, (a, b) in enumerate(sides, start=1)
    ]
    sheet = Sheet(name="board", length=2.5, width=1.25)
    spent = cost(lambda: nest(blanks, sheet, kerf=0.0032, trim=0.01))
    print(f"\n{count} parts nested: {spent}")
    assert spent.nominal < limit
