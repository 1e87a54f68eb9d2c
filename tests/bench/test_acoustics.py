"""Speed of the acoustics, as ratios to bare numpy within one run."""

import math

import numpy as np
import pytest

from acoustics.circuit.solver import sweep
from acoustics.circuit.tolerance_bands import spread
from acoustics.enclosure.boxes import Vented
from acoustics.values import Floats, Real
from tests.acoustics.drivers import REFERENCE as D
from tests.bench.clock import cost

pytestmark = pytest.mark.bench

F = np.geomspace(10, 500, 1000)
VOLTS, AREA, QL, QP = 10.0, 0.01, 7.0, 50.0
Curves = tuple[Floats, Floats, Floats, Floats]


def ours(volume: Real, tuning: Real) -> Curves:
    """Level, excursion, port speed and impedance by the package."""
    box = Vented.tuned(volume=volume, frequency=tuning, area=AREA, ql=QL, qp=QP)
    solved = sweep(driver=D, box=box, frequencies=F, voltage=VOLTS)
    assert solved.port_speed is not None
    return solved.spl, solved.excursion, solved.port_speed, np.abs(solved.impedance)


def bare(volume: Real, tuning: Real) -> Curves:
    """The same formulae written out by hand."""
    rho, c = 1.204, 343.2
    s = 2j * np.pi * F
    cb, wb = volume / (rho * c * c), 2 * np.pi * tuning
    mass = 1 / (wb * wb * cb)
    port = 1 / (s * mass + wb * mass / QP)
    load = 1 / (s * cb + wb * cb / QL + port)
    mechanical = D.rms + s * D.mms + 1 / (s * D.cms) + D.sd**2 * load
    u = D.bl * VOLTS / (D.re * mechanical + D.bl**2)
    impedance = np.abs(D.re + D.bl**2 / mechanical)
    excursion = math.sqrt(2) * np.abs(u) / (2 * np.pi * F)
    speed = math.sqrt(2) * np.abs(u * D.sd * load * port) / AREA
    pressure = np.abs(rho * F * D.sd * u * load * s * cb)
    return 20 * np.log10(pressure / 20e-6), excursion, speed, impedance


def test_one_vented_sweep() -> None:
    """1 000 points of a vented box take at most three times the bare expression."""
    for one, other in zip(ours(0.06, 30.0), bare(0.06, 30.0), strict=True):
        assert one == pytest.approx(other, rel=1e-9)
    mine = cost(lambda: ours(0.06, 30.0), times=7, calls=200)
    hand = cost(lambda: bare(0.06, 30.0), times=7, calls=200)
    print(f"one vented sweep: {mine}, {mine.turns / hand.turns:.2f} times bare numpy")
    assert mine.turns < 3 * hand.turns


def test_a_thousand_candidates() -> None:
    """1 000 frequencies by 1 000 candidates take at most 1.3 times as long as bare numpy."""
    volumes, tunings = np.linspace(0.03, 0.1, 1000), np.linspace(20, 40, 1000)
    mine = cost(lambda: ours(volumes, tunings))
    hand = cost(lambda: bare(volumes[:, None], tunings[:, None]))
    print(f"a thousand candidates: {mine}, {mine.turns / hand.turns:.2f} times bare numpy")
    assert mine.turns < 1.3 * hand.turns


def test_spread_of_two_thousand_draws() -> None:
    """2 000 draws over 120 frequencies take under 40 ms of CPU, over those of a page half of it."""
    box = Vented.tuned(volume=0.06, frequency=30.0, area=AREA, ql=QL)
    f = np.geomspace(10, 500, 120)
    spent = cost(lambda: spread(driver=D, box=box, frequencies=f, voltage=VOLTS), times=5)
    page = np.geomspace(10, 500, 48)
    drawn = cost(lambda: spread(driver=D, box=box, frequencies=page, voltage=VOLTS), times=5)
    print(f"2 000 draws: {spent}; at a page's frequencies: {drawn}")
    assert spent.nominal < 0.040
    assert drawn.nominal < 0.020
