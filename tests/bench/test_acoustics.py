"""Speed of the acoustics, as ratios to bare numpy within one run."""

import math
import time
from collections.abc import Callable

import numpy as np
import pytest

from acoustics.boxes import Vented
from acoustics.solver import sweep
from acoustics.spread import spread
from acoustics.values import Floats, Real
from tests.acoustics.drivers import REFERENCE as D

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


def best_of(action: Callable[[], object], *, repeats: int, rounds: int) -> float:
    """Shortest CPU time of one call."""
    times = []
    for _ in range(rounds):
        begin = time.process_time()
        for _ in range(repeats):
            action()
        times.append((time.process_time() - begin) / repeats)
    return min(times)


def test_one_vented_sweep() -> None:
    """1 000 points of a vented box take at most three times the bare expression."""
    for mine, hand in zip(ours(0.06, 30.0), bare(0.06, 30.0), strict=True):
        assert mine == pytest.approx(hand, rel=1e-9)
    mine_time = best_of(lambda: ours(0.06, 30.0), repeats=200, rounds=7)
    hand_time = best_of(lambda: bare(0.06, 30.0), repeats=200, rounds=7)
    print(f"one vented sweep: {mine_time / hand_time:.2f} times bare numpy")
    assert mine_time < 3 * hand_time


def test_a_thousand_candidates() -> None:
    """1 000 frequencies by 1 000 candidates take at most twice the bare expression."""
    volumes, tunings = np.linspace(0.03, 0.1, 1000), np.linspace(20, 40, 1000)
    mine_time = best_of(lambda: ours(volumes, tunings), repeats=1, rounds=5)
    hand_time = best_of(lambda: bare(volumes[:, None], tunings[:, None]), repeats=1, rounds=5)
    print(f"a thousand candidates: {mine_time / hand_time:.2f} times bare numpy")
    assert mine_time < 2 * hand_time


def test_spread_of_two_thousand_draws() -> None:
    """2 000 draws over 120 frequencies take under half a second of CPU."""
    box = Vented.tuned(volume=0.06, frequency=30.0, area=AREA, ql=QL)
    f = np.geomspace(10, 500, 120)
    taken = best_of(
        lambda: spread(driver=D, box=box, frequencies=f, voltage=VOLTS), repeats=1, rounds=3
    )
    print(f"2 000 draws: {taken * 1e3:.0f} ms of CPU")
    assert taken < 0.5
