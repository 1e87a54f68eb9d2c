"""Crimps, supports, bends and colours against published figures."""

import pytest

from wiring.cable.conductor import awg_area
from wiring.cable.markings import COLOUR_LETTERS
from wiring.cable.terminals import bend_radius, pull_force, support_count

# AWG, N of UL 486A's pull-out table, N of MIL-T-7928 (today SAE AS7928) for crimps.
# Both print pounds; the newtons are those pounds at 4.45 N/lbf.
FORCES = [
    ("26", 13.4, 31.1), ("24", 22.3, 44.5), ("22", 35.6, 66.7), ("20", 57.9, 84.5),
    ("18", 89.0, 169.0), ("16", 133.5, 222.5), ("14", 222.5, 311.5), ("12", 311.5, 489.3),
    ("10", 356.0, 667.2), ("8", 400.5, None), ("6", 445.0, None), ("4", 623.0, None),
    ("2", 801.0, None), ("1/0", 1112.5, None),
]  # fmt: skip


@pytest.mark.parametrize(("size", "commercial", "military"), FORCES)
def test_pull_forces(size: str, commercial: float, military: float | None) -> None:
    """Both printed columns come back for every listed size."""
    force = pull_force(awg_area(size))
    assert force.size == size
    assert force.commercial == pytest.approx(commercial, rel=5e-3)
    if military is None:
        assert force.military is None
    else:
        assert force.military == pytest.approx(military, rel=5e-3)
    assert force.required >= max(force.commercial, force.military or 0.0)


def test_pull_force_of_the_largest_size() -> None:
    """2/0 AWG holds 300 lbf (UL 486A)."""
    assert pull_force(awg_area("2/0")).commercial == pytest.approx(300 * 4.44822, rel=1e-5)


def test_support_spacing() -> None:
    """ISO 10133:2012: 450 mm by 7.3, 300 mm for battery conductors by 7.4."""
    assert support_count(3.0, battery_cable=True) == 10
    assert support_count(4.5, battery_cable=False) == 10
    assert support_count(4.51, battery_cable=False) == 11


def test_bend_factors() -> None:
    """4, 5 and 6 times the outer diameter: ICEA S-95-658 (NEMA WC 70), from memory."""
    inch = 0.0254
    assert bend_radius(outer_diameter=inch) == pytest.approx(4 * inch)
    assert bend_radius(outer_diameter=2 * inch) == pytest.approx(5 * 2 * inch)
    assert bend_radius(outer_diameter=2.1 * inch) == pytest.approx(6 * 2.1 * inch)


def test_colour_letters() -> None:
    """IEC 60757, letters of twelve colours."""
    published = {
        "BK": "black", "BN": "brown", "RD": "red", "OG": "orange", "YE": "yellow",
        "GN": "green", "BU": "blue", "VT": "violet", "GY": "grey", "WH": "white", "PK": "pink",
        "TQ": "turquoise",
    }  # fmt: skip
    assert published.items() <= COLOUR_LETTERS.items()
