"""A crossover filter as digital sections: second method, odd orders, and the corner's limit."""

import numpy as np
import pytest
from scipy import signal

from acoustics.circuit.filters import Family, Filter, Norm, Passes
from acoustics.errors import OutOfRangeError
from acoustics.setup.sections import sections

RATE = 48_000.0
GRID = np.geomspace(10.0, 23e3, 300)
KINDS = [
    (family, order, norm)
    for family in Family
    for order in range(1, 9)
    for norm in Norm
    if (family is not Family.LINKWITZ_RILEY or order % 2 == 0)
    and (family is Family.BESSEL or norm is Norm.MAGNITUDE)
]


def library(family: Family, order: int, norm: Norm, corner: float, side: str) -> np.ndarray:
    """The same filter by scipy.signal, its corner given in advance for the bilinear transform."""
    names = {Norm.MAGNITUDE: "mag", Norm.PHASE: "phase", Norm.DELAY: "delay"}
    if family is Family.BESSEL:
        warped = 2 * RATE * np.tan(np.pi * corner / RATE)
        z, p, k = signal.bessel(order, warped, side, analog=True, output="zpk", norm=names[norm])
        zeros, poles, gain = signal.bilinear_zpk(z, p, k, RATE)
        sos = signal.zpk2sos(zeros, poles, gain)
    elif family is Family.BUTTERWORTH:
        sos = signal.butter(order, corner, side, fs=RATE, output="sos")
    else:
        half = signal.butter(order // 2, corner, side, fs=RATE, output="sos")
        sos = np.vstack([half, half])
    _, response = signal.sosfreqz(sos, GRID, fs=RATE)
    return response


@pytest.mark.second_method
@pytest.mark.parametrize("side", Passes)
@pytest.mark.parametrize(("family", "order", "norm"), KINDS)
def test_sections_agree_with_a_library(family, order, norm, side):
    """Every family, order, norm and side equals scipy.signal within 1e-9, odd orders too."""
    cut = Filter(family=family, order=order, corner=2500.0, passes=side, norm=norm)
    together = np.prod([each.response(GRID) for each in sections(cut, RATE)], axis=0)
    expected = library(family, order, norm, 2500.0, side.value)
    assert np.abs(together - expected).max() < 1e-9


def test_first_order_equals_its_published_form():
    """80 Hz at 48 kHz: K = tan(π f/fs), a1 = (K − 1)/(K + 1), b0 = K/(1 + K)."""
    # From memory: bilinear transform of 1/(1 + s); reckoned apart to twelve digits.
    cut = Filter(family=Family.BUTTERWORTH, order=1, corner=80.0, passes=Passes.LOW)
    (only,) = sections(cut, RATE)
    assert (only.a1, only.b0) == pytest.approx((-0.989582475319, 0.00520876234062), rel=1e-11)
    assert (only.b2, only.a2) == (0.0, 0.0)


def test_a_digital_low_pass_falls_sooner_far_up():
    """LR4 at 2.5 kHz, 48 kHz: -25.52 and -53.40 dB at 5 and 10 kHz; analogue -24.61 and -48.20."""
    cut = Filter(family=Family.LINKWITZ_RILEY, order=4, corner=2500.0, passes=Passes.LOW)
    at = np.array([5000.0, 10_000.0])
    digital = np.prod([each.response(at) for each in sections(cut, RATE)], axis=0)
    # Second method: scipy.signal.
    assert 20 * np.log10(np.abs(digital)) == pytest.approx([-25.52, -53.40], abs=0.005)
    assert 20 * np.log10(np.abs(cut.response(at))) == pytest.approx([-24.61, -48.20], abs=0.005)


@pytest.mark.parametrize("corner", [24_000.0, 30_000.0])
def test_a_corner_no_processor_can_play_is_refused(corner):
    """At half the sample rate and above there is no such filter, and the limit is said."""
    cut = Filter(family=Family.BUTTERWORTH, order=2, corner=corner, passes=Passes.HIGH)
    with pytest.raises(OutOfRangeError) as refused:
        sections(cut, RATE)
    assert refused.value.given["limit"].value == 24_000.0
