"""Boxes of wood against closed forms: areas, bevels, solids, plates."""

import math

import pytest

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.shape.contents import RoundPart
from acoustics.carcass.shape.joints import Joint
from acoustics.carcass.shape.plate import Board, bays_needed, first_mode
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.shapes import sloped_rear_profile

WEDGE = sloped_rear_profile(0.40, 0.22, 0.36)


def test_wedge_volume_and_back():
    """V = W·H·(D1 + D2)/2 = 0.10044 m³ and a back of √(0.18² + 0.36²) = 0.40249 m."""
    assert WEDGE.area * 0.9 == pytest.approx(0.100440, rel=1e-9)
    assert WEDGE.length(1) == pytest.approx(0.40249, abs=5e-6)


def test_wedge_bevels():
    """Butt bevel = slope 26.5651°; mitres 58.28° below and 31.72° above (closed form)."""
    butt = {p.name: p for p in panels(Carcass(profile=WEDGE, width=0.9, thickness=0.018))}
    rear = butt["rear"]
    assert [math.degrees(c.bevel) for c in rear.cuts] == pytest.approx(
        [26.5651, 0, 26.5651, 0], abs=1e-4
    )
    mitred = Carcass(profile=WEDGE, width=0.9, thickness=0.018, joints=(Joint(kind="mitre"),) * 4)
    rear = {p.name: p for p in panels(mitred)}["rear"]
    assert math.degrees(rear.cuts[0].bevel) == pytest.approx(58.28, abs=0.01)
    assert math.degrees(rear.cuts[2].bevel) == pytest.approx(31.72, abs=0.01)


def test_driver_displacement():
    """Motor Ø 156 × 60 mm and frustum 78 → 122.5 mm, 50 mm high: 2.751 L.

    π r² h + π h (r² + r R + R²)/3.
    """
    part = RoundPart(
        name="driver",
        cutout_diameter=0.245,
        flange_diameter=0.27,
        basket_depth=0.05,
        motor_diameter=0.156,
        motor_depth=0.06,
    )
    assert part.volume == pytest.approx(2.751e-3, abs=5e-7)


@pytest.mark.parametrize(
    ("modulus", "density", "whole", "halved"),
    [(3e9, 750, 154.49, 297.09), (9e9, 680, 281.01, 540.41)],
)
def test_first_mode_of_a_plate(modulus, density, whole, halved):
    """0.6 × 0.4 m of 18 mm, whole and halved: (π/2) √(D/ρh) (1/a² + 1/b²), ν = 0.3.

    A. W. Leissa, Vibration of Plates, NASA SP-160 (1969), chapter 4; moduli from memory.
    """
    board = Board(modulus=modulus, density=density)
    assert first_mode(0.6, 0.4, thickness=0.018, board=board) == pytest.approx(whole, abs=0.005)
    assert first_mode(0.3, 0.4, thickness=0.018, board=board) == pytest.approx(halved, abs=0.005)
    assert bays_needed(0.6, 0.4, thickness=0.018, board=board, band_top=0.5) == 1
    assert bays_needed(0.6, 0.4, thickness=0.018, board=board, band_top=whole - 1) == 1
    assert bays_needed(0.6, 0.4, thickness=0.018, board=board, band_top=whole + 1) == 2
    assert bays_needed(0.6, 0.4, thickness=0.018, board=board, band_top=halved + 1) == 3
