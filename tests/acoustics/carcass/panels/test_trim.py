"""Adaptor rings and openings in trim panels."""

import math

import pytest

from acoustics.carcass.panels.trim import AdaptorRing, TrimPanel
from acoustics.carcass.shape.errors import CarcassError, PlacementError
from acoustics.carcass.shape.outline import Circle, rectangle
from tests.refused import refused


def ring(**more) -> AdaptorRing:
    """An invented ring for a 165 mm driver."""
    sizes = {
        "outer_diameter": 0.18, "inner_diameter": 0.144, "bolt_circle_diameter": 0.162,
        "screws": 4, "screw_diameter": 0.004, "layers": (0.012, 0.009),
    }  # fmt: skip
    return AdaptorRing(**(sizes | more))


def test_flat_ring_by_hand():
    """Area times stack; 9 mm of wood either side of the screw circle less half a screw."""
    flat = ring()
    assert flat.thickness == pytest.approx((0.021, 0.021))
    assert flat.volume == pytest.approx(math.pi * (0.09**2 - 0.072**2) * 0.021)
    assert flat.wood_at_screw == pytest.approx(0.007)
    assert len(flat.figures) == 6
    assert all(math.hypot(*f.centre) == pytest.approx(0.081) for f in flat.figures[2:])


def test_tilted_ring_by_numbers():
    """The volume of a slant-cut ring agrees with a sum over thin strips."""
    tilted = ring(tilt=math.radians(12))
    low, high = tilted.thickness
    assert high - low == pytest.approx(0.18 * math.tan(math.radians(12)))
    steps = 20000
    total = 0.0
    for k in range(steps):
        x = -0.09 + 0.18 * (k + 0.5) / steps
        chord = math.sqrt(0.09**2 - x * x) - math.sqrt(max(0.072**2 - x * x, 0.0))
        total += 2 * chord * (low + (x + 0.09) * math.tan(math.radians(12))) * 0.18 / steps
    assert tilted.volume == pytest.approx(total, rel=1e-5)


def test_openings_keep_their_reveal():
    """A circle grows by the reveal and a rectangle by it on each side."""
    panel = TrimPanel(
        outline=rectangle(0, 0, 0.9, 0.4),
        shown=(Circle(centre=(0.2, 0.2), radius=0.135), rectangle(0.6, 0.1, 0.8, 0.2)),
        reveal=0.004,
    )
    assert panel.openings[0].radius == pytest.approx(0.139)
    assert panel.openings[1].polygon.bounds == pytest.approx((0.596, 0.096, 0.804, 0.204))
    assert panel.area == pytest.approx(0.36 - math.pi * 0.139**2 - 0.208 * 0.108)


def test_impossible_trim_says_why():
    """Screws without wood, a tilt too steep, and openings that meet are refused."""
    with refused(CarcassError, "screw-circle-off-wood", low=0.148, high=0.176):
        ring(bolt_circle_diameter=0.147)
    with refused(CarcassError, "ring-incomplete"):
        ring(tilt=1.0)
    two = (Circle(centre=(0.2, 0.2), radius=0.1), Circle(centre=(0.4, 0.2), radius=0.098))
    with refused(PlacementError, "opening-reaches-rim"):
        TrimPanel(outline=rectangle(0, 0, 0.9, 0.4), shown=two, reveal=0.004)
