"""Amplifiers as loads: current, part output, heat."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wiring.errors import OutOfRangeError
from wiring.supply.amplifier import (
    Amplifier,
    AmplifierClass,
    constant_power_current,
    share_of_crest,
)


def amplifier(
    stage: str = "D", output: float = 500.0, efficiency: float = 0.85, idle: float | None = 10.0
) -> Amplifier:
    """An invented amplifier."""
    return Amplifier(
        id="A1",
        stage=AmplifierClass(stage),
        rated_output=output,
        efficiency=efficiency,
        idle_power=idle,
    )


@pytest.mark.parametrize(
    ("output", "efficiency", "voltage", "expected"),
    [
        (500, 0.85, 14.4, 40.8),
        (500, 0.85, 12.6, 46.7),
        (500, 0.85, 11.0, 53.5),
        (500, 0.60, 14.4, 57.9),
        (1000, 0.80, 14.4, 86.8),
        (1000, 0.80, 12.0, 104.2),
        (300, 0.60, 14.4, 34.7),
    ],
)
def test_constant_power_current(
    output: float, efficiency: float, voltage: float, expected: float
) -> None:
    """I = P/(ηV), worked by hand; the definition of efficiency."""
    current = constant_power_current(output=output, efficiency=efficiency, voltage=voltage)
    assert current == pytest.approx(expected, abs=0.051)


@pytest.mark.parametrize(
    ("share", "efficiency", "input_share"),
    [(1.0, 0.785, 1.273), (1 / 3, 0.453, 0.735), (1 / 8, 0.278, 0.450), (1 / 10, 0.248, 0.403)],
)
def test_ideal_class_b(share: float, efficiency: float, input_share: float) -> None:
    """η = (π/4)√p and input p/η, against the mean of a rectified sine (second method, numpy)."""
    phase = (np.arange(200_000) + 0.5) / 200_000 * np.pi
    drawn = np.sqrt(share) * np.mean(np.sin(phase))  # supply 1 V, load 1 Ω
    given_out = share / 2
    ideal = amplifier("AB", efficiency=np.pi / 4, idle=0.0)
    taken = ideal.input_power(share) / ideal.rated_output
    assert share / taken == pytest.approx(given_out / drawn, rel=1e-6)
    assert share / taken == pytest.approx(efficiency, abs=6e-4)
    assert taken == pytest.approx(input_share, abs=6e-4)


def test_crest_factor_of_generated_programme() -> None:
    """The share is the mean square over half the squared peak (definition, made-up noise)."""
    noise = np.random.default_rng(1).normal(size=50_000)
    crest = 20 * np.log10(np.abs(noise).max() / np.sqrt(np.mean(noise**2)))
    share = np.mean(noise**2) / (np.abs(noise).max() ** 2 / 2)
    assert share_of_crest(float(crest)) == pytest.approx(share)


def test_named_programmes_are_their_crest_factors() -> None:
    """12 dB is one eighth and 7.8 dB one third of the rated output (definition)."""
    assert share_of_crest(12.04) == pytest.approx(1 / 8, rel=1e-3)
    assert share_of_crest(7.78) == pytest.approx(1 / 3, rel=1e-3)
    assert share_of_crest(10 * np.log10(2)) == pytest.approx(1.0)


def test_share_takes_arrays() -> None:
    """Every function of the share works on arrays alike."""
    shares = np.array([0.0, 0.125, 1.0])
    one = amplifier()
    assert np.allclose(one.input_power(shares), [one.input_power(s) for s in shares])
    assert np.allclose(one.heat(shares), [one.heat(s) for s in shares])


@pytest.mark.parametrize("stage", ["AB", "D"])
def test_full_output_takes_the_rated_input(stage: str) -> None:
    """At full output the input is the rated output over the efficiency (definition)."""
    one = amplifier(stage, efficiency=0.6, idle=20.0)
    assert one.input_power(1.0) == pytest.approx(500 / 0.6)
    assert one.input_power(0.0) == pytest.approx(20.0)


amplifiers = st.builds(
    lambda stage, output, efficiency, idle: amplifier(
        stage, output, efficiency, None if idle is None else idle * (output / efficiency - output)
    ),
    stage=st.sampled_from(["AB", "D"]),
    output=st.floats(20, 3000),
    efficiency=st.floats(0.4, 0.78),
    idle=st.none() | st.floats(0.0, 1.0),
)


@settings(deadline=None, max_examples=200)
@given(one=amplifiers, share=st.floats(0.0, 1.0))
def test_heat_is_never_negative_nor_above_the_worst(one: Amplifier, share: float) -> None:
    """No output makes more heat than the worst one, found without a search."""
    worst, at = one.worst_heat()
    assert 0.0 <= at <= 1.0
    assert -1e-9 <= one.heat(share) <= worst * (1 + 1e-9) + 1e-9


@settings(deadline=None, max_examples=100)
@given(one=amplifiers, low=st.floats(0.0, 1.0), high=st.floats(0.0, 1.0))
def test_louder_never_draws_less(one: Amplifier, low: float, high: float) -> None:
    """The input power never falls as the output rises."""
    low, high = sorted((low, high))
    assert one.input_power(low) <= one.input_power(high) + 1e-9


@settings(deadline=None, max_examples=100)
@given(share=st.floats(0.01, 1.0), idle=st.floats(0.0, 1.0))
def test_unknown_idle_power_is_bounded_from_above(share: float, idle: float) -> None:
    """Without its idle power a class D stage is never said to draw less than it does.

    Holds while the idle input stays below √p/(1 + √p) of the full input, as documented.
    """
    full = 500 / 0.85
    root = share**0.5
    power = min(idle * root / (1 + root) * full, 500 / 0.85 - 500)
    assert (
        amplifier(idle=None).input_power(share) >= amplifier(idle=power).input_power(share) - 1e-9
    )


@pytest.mark.parametrize(
    "broken",
    [
        lambda: amplifier(output=0.0),
        lambda: amplifier(output=float("nan")),
        lambda: amplifier(efficiency=0.0),
        lambda: amplifier(efficiency=1.2),
        lambda: amplifier("AB", efficiency=0.9),
        lambda: amplifier(idle=-1.0),
        lambda: amplifier(idle=500.0),
        lambda: amplifier().input_power(1.5),
        lambda: amplifier().current(share=1.0, voltage=0.0),
        lambda: share_of_crest(2.0),
        lambda: constant_power_current(output=-1.0, efficiency=0.5, voltage=12.0),
        lambda: constant_power_current(output=1.0, efficiency=0.5, voltage=float("nan")),
    ],
)
def test_impossible_input_is_refused(broken) -> None:
    """What cannot be raises an error of its own, never a number."""
    with pytest.raises(OutOfRangeError):
        broken()
