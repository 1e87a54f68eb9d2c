"""Breaking capacity against ABYC E-11, AC and DC Electrical Systems on Boats, Table V-A."""

import pytest

from tests.refused import refused
from wiring.cable.fuse import breaking_need_by_cca
from wiring.errors import OutsideTableError


@pytest.mark.parametrize(
    ("cranking", "main", "branch"),
    [(650, 1500, 750), (651, 3000, 1500), (1100, 3000, 1500), (1101, 5000, 2500)],
)
def test_breaking_bins(cranking: float, main: float, branch: float) -> None:
    """Breaking capacity by cold-cranking rating at the edges of the bins (Table V-A)."""
    assert breaking_need_by_cca(cranking, main=True) == main
    assert breaking_need_by_cca(cranking, main=False) == branch


def test_large_batteries_need_their_makers_figure() -> None:
    """Above 2 200 A the table ends (newer text of ABYC E-11)."""
    with refused(OutsideTableError, "at-most", "cold-cranking"):
        breaking_need_by_cca(2201, main=True)
