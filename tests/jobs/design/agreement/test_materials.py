"""What is bought, counted in the steps in which it is sold."""

from __future__ import annotations

from decimal import Decimal
from types import SimpleNamespace
from typing import Any

import pytest

from jobs.design.agreement.materials import _covering, _sheet_words
from jobs.design.wood.cutting import SheetPlan
from jobs.models import SheetMaterial

SHOP = SimpleNamespace(covering_price=Decimal(40), covering_cost=Decimal(22), currency="EUR")


def _trims(*sizes: tuple[float, float]) -> list[Any]:
    return [
        SimpleNamespace(covered=size, cover=None, record=SimpleNamespace(name=f"lid {number}"))
        for number, size in enumerate(sizes, start=1)
    ]


@pytest.mark.parametrize(
    ("sizes", "square_metres"),
    [
        ([(0.6, 0.5)], "0.30"),
        # 0.3 and 0.3003 m², up to the next hundredth.
        ([(0.6, 0.5), (1.0, 0.3003)], "0.61"),
    ],
)
def test_covering_is_the_sum_of_its_areas_up_to_the_next_hundredth(sizes, square_metres):
    """Of panels without a cover material of their own, each named in the one line."""
    elsewhere = SimpleNamespace(covered=(2.0, 2.0), cover="carpet")
    trims = [*_trims(*sizes), elsewhere]
    (line,) = _covering(SimpleNamespace(workshop=SHOP), trims)
    assert line.quantity == Decimal(square_metres)
    assert (line.each, line.cost_each) == (Decimal(40), Decimal(22))
    assert line.details == tuple(f"lid {number}" for number in range(1, len(sizes) + 1))


def test_nothing_covered_is_no_line():
    """Where no panel is covered by the shop's own price, nothing is charged for it."""
    assert list(_covering(SimpleNamespace(workshop=SHOP), _trims())) == []


def test_pieces_no_sheet_is_known_for_are_named():
    """With a sheet that was not laid out its name stands before them."""
    pieces: Any = (SimpleNamespace(title="front"), SimpleNamespace(title="rear"))
    none = SheetPlan(material=None, thickness=0.018, pieces=pieces)
    assert _sheet_words(none) == "no sheet of their thickness: front, rear"
    sheet = SheetMaterial(name="Birch 18")
    assert _sheet_words(SheetPlan(material=sheet, thickness=0.018, pieces=pieces)) == (
        f"{sheet}: front, rear"
    )
