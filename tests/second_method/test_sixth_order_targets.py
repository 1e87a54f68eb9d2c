"""A band-pass vented on both sides for a band, against a free search that shares no code.

The circuit branch by branch (R. H. Small, "Vented-Box Loudspeaker Systems", JAES 21 (1973)
363-372; two chambers in series with the diaphragm), and scipy's differential evolution over both
volumes and both tunings: the fewest litres whose edges and evenness are those asked for.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import differential_evolution

from acoustics.circuit.sixth_order_targets import vented_band_pass_for_band
from acoustics.driver.driver import Driver
from acoustics.errors import NoSolutionError

pytestmark = pytest.mark.second_method
RHO, C, QL = 1.204, 343.2, 7.0


def level(driver: Driver, boxes: np.ndarray, f: np.ndarray) -> np.ndarray:
    """Level of each box, given as rows of rear litres and tuning, front litres and tuning."""
    s = 2j * np.pi * f
    rear, front = (_chamber(boxes[:, side, None], boxes[:, side + 1, None], s) for side in (0, 2))
    sd, bl, re = float(driver.sd), float(driver.bl), float(driver.re)
    moving = float(driver.rms) + s * float(driver.mms) + 1 / (s * float(driver.cms))
    coil = re + s * float(driver.le)
    flow = sd * bl / (coil * (moving + sd**2 * (rear[0] + front[0])) + bl**2)
    # What leaves each chamber through port and leak: what goes in less what the air takes up.
    out = flow * ((1 - front[1] * front[0]) - (1 - rear[1] * rear[0]))
    return 20 * np.log10(np.abs(RHO * s * out) / (2 * np.pi) / 20e-6)


def _chamber(volume: np.ndarray, tuning: np.ndarray, s: np.ndarray):  # type: ignore[no-untyped-def]
    """Impedance of a chamber and the admittance of its air."""
    w, air = 2 * np.pi * tuning, volume / (RHO * C**2)
    return 1 / (s * air + w * air / QL + w**2 * air / s), s * air


def read(driver: Driver, boxes: np.ndarray, low: float, high: float) -> tuple[np.ndarray, ...]:
    """How far the edges lie from those asked for, and how uneven the inner two thirds are."""
    f = np.geomspace(low / 5, high * 5, 400)
    levels = level(driver, boxes, f)
    holds = levels >= levels.max(axis=-1, keepdims=True) - 10 * np.log10(2)
    top = levels.argmax(axis=-1)
    off = np.empty(len(boxes))
    third = (high / low) ** (1 / 3)
    inner = level(driver, boxes, math.sqrt(low * high) * np.geomspace(1 / third, third, 90))
    for k, at in enumerate(top):
        first = at - int(np.argmin(holds[k, at::-1])) + 1
        last = at + int(np.argmin(holds[k, at:])) - 1
        half = levels[k, at] - 10 * np.log10(2)
        lower = np.interp(half, levels[k, first - 1 : first + 1], np.log(f[first - 1 : first + 1]))
        upper = np.interp(half, levels[k, [last + 1, last]], np.log(f[[last + 1, last]]))
        off[k] = max(abs(lower - math.log(low)), abs(upper - math.log(high)))
    return off, np.ptp(inner, axis=-1)


def fewest_litres(driver: Driver, low: float, high: float, ripple: float, seed: int) -> float:
    """Fewest litres of any box with this band; inf where the search meets none."""
    vas = float(driver.vas)
    bounds = [
        (math.log(0.02 * vas), math.log(20 * vas)),
        (math.log(low / 2), math.log(low * high) / 2),
    ]
    bounds += [bounds[0], (math.log(0.4 * high), math.log(1.6 * high))]

    def worth(x: np.ndarray) -> np.ndarray:
        off, uneven = read(driver, np.exp(x.T), low, high)
        return (
            np.log(np.exp(x[0]) + np.exp(x[2]))
            + 300 * np.maximum(off - 0.001, 0)
            + 10 * np.maximum(uneven - ripple, 0)
        )

    best = differential_evolution(
        worth, bounds, rng=seed, vectorized=True, updating="deferred", popsize=24, maxiter=90,
        tol=1e-6, polish=False,
    )  # fmt: skip
    box = np.exp(best.x)
    off, uneven = read(driver, box[None], low, high)
    return float(box[0] + box[2]) if off[0] < 0.0015 and uneven[0] < ripple + 0.005 else math.inf


def a_case(rng: np.random.Generator) -> tuple[Driver, float, float, float]:
    """An invented driver, a band and what is accepted inside it."""
    driver = Driver(
        fs=float(rng.uniform(22, 45)), qms=float(rng.uniform(3, 9)),
        qes=float(rng.uniform(0.25, 0.7)), vas=float(rng.uniform(0.015, 0.12)),
        re=float(rng.uniform(1.5, 6)), sd=float(rng.uniform(0.02, 0.08)), le=0.0003,
    )  # fmt: skip
    low = float(driver.fs) * float(rng.uniform(0.8, 1.6))
    return driver, low, low * float(rng.uniform(1.6, 3.0)), float(rng.choice([0.5, 1.0, 2.0]))


@pytest.mark.parametrize("count", [2, pytest.param(60, marks=pytest.mark.long)])
def test_no_band_is_refused_that_a_free_search_finds(count: int) -> None:
    """Each band is met within 0.5 % and as evenly as asked; a refused one is not met by the search.

    The search takes edges within 0.15 %, which are worth a tenth of a decibel where a level falls
    by 24 dB an octave: that much it has to be evener to prove a refusal wrong. The litres are
    those of the search as a rule, and never much more: it looks in more places.
    """
    rng = np.random.default_rng(606)
    times = []
    for number in range(count):
        driver, low, high, ripple = a_case(rng)
        try:
            box = vented_band_pass_for_band(
                driver, low, high, area=0.01, rear_area=0.01, ql=QL, ripple=ripple
            )
        except NoSolutionError:
            free = fewest_litres(driver, low, high, ripple - 0.1, number)
            assert math.isinf(free), (number, driver, low, high, ripple)
            continue
        row = [box.rear.volume, box.rear.resonance(), box.front.volume, box.front.resonance()]  # type: ignore[attr-defined]
        off, uneven = read(driver, np.array([row], dtype=float), low, high)
        assert off[0] < 0.005, (number, low, high, off)
        assert uneven[0] < ripple + 0.03
        times.append((row[0] + row[2]) / fewest_litres(driver, low, high, ripple, number))
    assert len(times) >= count / 3
    assert max(times) < 1.4
    assert np.median(times) < 1.04
