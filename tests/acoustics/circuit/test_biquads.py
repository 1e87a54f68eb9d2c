"""Biquads: second method, invariants and refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import signal

from acoustics.circuit.biquads import Biquad, BiquadKind, biquad, shelf_q
from acoustics.errors import OutOfRangeError
from tests.refused import refused

RATE = 48_000.0
GRID = np.geomspace(5.0, 23_000.0, 200)


@pytest.mark.second_method
@pytest.mark.parametrize("frequency", [31.5, 80.0, 1000.0, 9000.0])
@pytest.mark.parametrize("kind", [BiquadKind.LOW_PASS, BiquadKind.HIGH_PASS])
def test_passes_equal_the_bilinear_butterworth(kind: BiquadKind, frequency: float) -> None:
    """Q = 1/√2 is the second-order Butterworth of scipy.signal at the same rate."""
    side = "low" if kind is BiquadKind.LOW_PASS else "high"
    b, a = signal.butter(2, frequency, side, fs=RATE)
    found = biquad(kind, frequency=frequency, sample_rate=RATE)
    assert (found.b0, found.b1, found.b2) == pytest.approx(b, rel=1e-9)
    assert (found.a1, found.a2) == pytest.approx(a[1:], rel=1e-9)


@pytest.mark.second_method
@pytest.mark.parametrize("q", [0.7, 4.0, 30.0])
def test_notch_and_peak_equal_a_library(q: float) -> None:
    """Notch and band-pass equal iirnotch and iirpeak of scipy.signal in shape and place.

    The library sets the width at -3 dB by tan(w0/2Q), the note by sin(w0)/2Q: alike far below
    half the rate.
    """
    for kind, design in (
        (BiquadKind.NOTCH, signal.iirnotch),
        (BiquadKind.BAND_PASS, signal.iirpeak),
    ):
        b, a = design(200.0, q, fs=RATE)
        _, expected = signal.freqz(b, a, GRID, fs=RATE)
        found = biquad(kind, frequency=200.0, sample_rate=RATE, q=q).response(GRID)
        assert found == pytest.approx(expected, abs=2e-4)


@pytest.mark.second_method
def test_response_equals_a_library() -> None:
    """The response on the unit circle is that of scipy.signal."""
    found = biquad(BiquadKind.HIGH_SHELF, frequency=3000.0, sample_rate=RATE, gain=5.0, q=0.9)
    _, expected = signal.freqz(
        [found.b0, found.b1, found.b2], [1.0, found.a1, found.a2], GRID, fs=RATE
    )
    assert found.response(GRID) == pytest.approx(expected, rel=1e-10)


@given(
    kind=st.sampled_from(BiquadKind),
    share=st.floats(1e-3, 0.49),
    q=st.floats(0.1, 30.0),
    gain=st.floats(-18.0, 18.0),
)
@settings(deadline=None, max_examples=100)
def test_every_biquad_is_stable(kind: BiquadKind, share: float, q: float, gain: float) -> None:
    """Both poles lie inside the unit circle whatever is asked for."""
    with_gain = kind.value in ("peaking", "low-shelf", "high-shelf")
    found = biquad(
        kind, frequency=share * RATE, sample_rate=RATE, q=q, gain=gain if with_gain else 0.0
    )
    assert np.abs(np.roots([1.0, found.a1, found.a2])).max() < 1.0
    assert np.isfinite(found.response(GRID)).all()


@given(
    kind=st.sampled_from([BiquadKind.PEAKING, BiquadKind.LOW_SHELF, BiquadKind.HIGH_SHELF]),
    frequency=st.floats(20.0, 15e3),
    q=st.floats(0.3, 10.0),
    gain=st.floats(-15.0, 15.0),
)
@settings(deadline=None, max_examples=60)
def test_a_cut_undoes_the_lift(kind: BiquadKind, frequency: float, q: float, gain: float) -> None:
    """The same filter with the opposite gain takes back what it gave."""
    lift = biquad(kind, frequency=frequency, sample_rate=RATE, q=q, gain=gain)
    cut = biquad(kind, frequency=frequency, sample_rate=RATE, q=q, gain=-gain)
    assert lift.response(GRID) * cut.response(GRID) == pytest.approx(1.0, abs=1e-6)


@given(frequency=st.floats(20.0, 15e3), q=st.floats(0.3, 10.0))
@settings(deadline=None, max_examples=40)
def test_an_all_pass_passes_all(frequency: float, q: float) -> None:
    """An all-pass has magnitude one everywhere and turns by 180° at its frequency."""
    found = biquad(BiquadKind.ALL_PASS, frequency=frequency, sample_rate=RATE, q=q)
    assert np.abs(found.response(GRID)) == pytest.approx(1.0, abs=1e-7)
    assert found.response(np.array([frequency]))[0] == pytest.approx(-1.0, abs=1e-6)


def test_shelf_slope_and_q() -> None:
    """Slope 1 is Q = 1/√2 for every gain; a slope too steep for the gain is refused."""
    assert shelf_q(gain=9.0, slope=1.0) == pytest.approx(np.sqrt(0.5))
    with refused(OutOfRangeError, "above", "shelf-slope"):
        shelf_q(gain=0.0, slope=0.0)
    with refused(OutOfRangeError, "less-steep", "shelf-slope"):
        shelf_q(gain=60.0, slope=3.0)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"frequency": 24_000.0}, ("below", "filter-frequency")),
        ({"frequency": 0.0}, ("above", "filter-frequency")),
        ({"sample_rate": 0.0}, ("above", "sample-rate")),
        ({"q": 0.0}, ("above", "filter-q")),
        ({"gain": 3.0}, ("between", "gain")),
        ({"gain": float("nan")}, ("between", "gain")),
    ],
)
def test_biquads_that_do_not_exist_are_refused(
    change: dict[str, float], words: tuple[str, ...]
) -> None:
    """A frequency at half the rate, a Q of zero, or a gain where there is none are refused."""
    given_values = {"frequency": 80.0, "sample_rate": RATE, **change}
    with refused(OutOfRangeError, *words):
        biquad(BiquadKind.LOW_PASS, **given_values)


def test_unstable_coefficients_and_frequencies_beyond_half_the_rate_are_refused() -> None:
    """A filter that would run away, and a frequency that cannot be, are refused."""
    with refused(OutOfRangeError, "stable", "filter-feedback"):
        Biquad(b0=1.0, b1=0.0, b2=0.0, a1=-2.0, a2=1.0, sample_rate=RATE)
    good = biquad(BiquadKind.NOTCH, frequency=60.0, sample_rate=RATE)
    with refused(OutOfRangeError, "between", "frequency"):
        good.response(np.array([25_000.0]))
