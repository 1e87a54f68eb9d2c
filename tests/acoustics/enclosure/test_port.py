"""Ports: length and tuning, end corrections, area, pipe resonance."""

import math

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy import optimize

from acoustics.circuit.solver import sweep
from acoustics.enclosure.boxes import Vented
from acoustics.enclosure.openings import Vent
from acoustics.enclosure.port import (
    End,
    Port,
    RectangularOpening,
    RoundOpening,
    ends,
    port_for_tuning,
    recommended_area,
)
from acoustics.enclosure.slot_ends import as_wide_correction, flanged_rectangle_correction
from acoustics.errors import MissingError, NoSolutionError, OutOfRangeError, PortFitError
from tests.acoustics.drivers import REFERENCE
from tests.refused import refused
from tests.second_method.slots import correction

sides = st.floats(0.01, 0.6)


def rayleigh_tuning(port: Port, volume: float) -> float:
    """fb = (c/2π) sqrt((S/Leff)/Vb): Lord Rayleigh, The Theory of Sound, vol. II, § 303."""
    return 343.2 / (2 * np.pi) * float(np.sqrt(port.area / port.effective_length / volume))


@pytest.mark.parametrize("aspect", [1, 2, 3, 5, 8, 10, 20, 50])
def test_rectangle_correction_equals_its_double_integral(aspect: float) -> None:
    """The closed form is the double integral it stands for (second method: `slots.py`)."""
    a, b = 0.03 * aspect, 0.03
    expected = correction(a, b)
    assert flanged_rectangle_correction(a, b) == pytest.approx(expected, rel=1e-8)


def test_rectangle_correction_by_random_points() -> None:
    """The mean inverse distance of random points gives the same end correction."""
    rng = np.random.default_rng(5)
    p, q = rng.random((2, 1_000_000, 2)) * [0.2, 0.05]
    area = 0.2 * 0.05
    estimate = area / (2 * np.pi) * np.mean(1.0 / np.hypot(*(p - q).T))
    assert flanged_rectangle_correction(0.2, 0.05) == pytest.approx(estimate, rel=0.01)


@given(a=sides, b=sides, k=st.floats(0.1, 10))
@settings(deadline=None, max_examples=50)
def test_rectangle_correction_is_symmetric_and_scales(a: float, b: float, k: float) -> None:
    """Turning the slot changes nothing, and an end correction is a length."""
    value = flanged_rectangle_correction(a, b)
    assert flanged_rectangle_correction(b, a) == pytest.approx(value, rel=1e-9)
    assert flanged_rectangle_correction(k * a, k * b) == pytest.approx(k * value, rel=1e-9)


@given(a=sides, b=sides)
@settings(deadline=None, max_examples=50)
def test_walls_add_air_and_a_free_end_sheds_it(a: float, b: float) -> None:
    """Free < flanged < on a wall < in a corner, and a corner doubles the flanged value."""
    slot = RectangularOpening(width=a, height=b)
    free, flanged, wall, corner = (
        slot.end_correction(e) for e in (End.FREE, End.FLANGED, End.ON_WALL, End.IN_CORNER)
    )
    assert free < flanged < wall < corner
    assert corner == pytest.approx(2 * flanged, rel=1e-9)


@given(a=sides)
@settings(deadline=None, max_examples=20)
def test_the_free_end_of_a_square_is_nearly_that_of_a_circle_of_its_area(a: float) -> None:
    """Little depends on the shape of a compact opening: 0.6133 r of Levine & Schwinger, to 3 %."""
    free = RectangularOpening(width=a, height=a).end_correction(End.FREE)
    assert free == pytest.approx(0.6133 * a / np.pi**0.5, rel=0.03)


@given(
    length=st.floats(0.01, 1.0),
    diameter=st.floats(0.02, 0.3),
    volume=st.floats(0.005, 0.5),
    count=st.integers(1, 4),
    end=st.sampled_from([End.FREE, End.FLANGED]),
)
@settings(deadline=None, max_examples=60)
def test_length_and_tuning_undo_each_other(
    length: float, diameter: float, volume: float, count: int, end: End
) -> None:
    """The length found for the tuning of a port is the length of that port."""
    opening = RoundOpening(diameter=diameter)
    port = Port(opening=opening, length=length, outer=end, count=count)
    tuning = rayleigh_tuning(port, volume)
    back = port_for_tuning(tuning, volume=volume, opening=opening, outer=end, count=count)
    assert back.length == pytest.approx(length, rel=1e-6, abs=1e-9)


def test_two_ports_of_half_the_box_tune_alike() -> None:
    """Two equal ports on a box tune as one port on half the box does."""
    opening = RectangularOpening(width=0.2, height=0.04)
    two = port_for_tuning(30.0, volume=0.08, opening=opening, count=2)
    one = port_for_tuning(30.0, volume=0.04, opening=opening)
    assert two.length == pytest.approx(one.length)


def test_a_long_port_tunes_about_one_percent_low() -> None:
    """The exact pipe, k tan(k Leff) = S/V, tunes 60 L with 0.43394 m at 29.719 Hz, not 30 Hz."""
    port = port_for_tuning(30.0, volume=0.06, opening=RoundOpening(diameter=0.1))
    exact = optimize.brentq(
        lambda f: (
            (k := 2 * np.pi * f / 343.2) * np.tan(k * port.effective_length) - port.area / 0.06
        ),
        10.0,
        40.0,
    )
    assert exact / 30.0 - 1.0 == pytest.approx(-0.0094, abs=2e-4)


def test_a_port_that_cannot_fit_says_how_high_it_reaches() -> None:
    """A wish above the tuning of a mere hole is refused, and just below the named limit it fits."""
    opening = RoundOpening(diameter=0.05)
    with pytest.raises(PortFitError) as caught:
        port_for_tuning(120.0, volume=0.06, opening=opening)
    highest = caught.value.given["limit"].value
    assert isinstance(highest, float)
    assert highest < 120.0
    assert port_for_tuning(highest * 0.999, volume=0.06, opening=opening).length > 0.0
    with pytest.raises(PortFitError):
        port_for_tuning(highest * 1.001, volume=0.06, opening=opening)


@pytest.mark.parametrize("bad", [0.0, -0.1, float("nan"), float("inf")])
def test_sizes_above_zero_only(bad: float) -> None:
    """A size of zero, below zero or not a number is refused by name."""
    opening = RoundOpening(diameter=0.1)
    with refused(OutOfRangeError, "above", "port-diameter"):
        RoundOpening(diameter=bad)
    with refused(OutOfRangeError, "above", "port-height"):
        RectangularOpening(width=0.1, height=bad)
    with refused(OutOfRangeError, "above", "port-length"):
        Port(opening=opening, length=bad)
    with refused(OutOfRangeError, "above", "volume"):
        port_for_tuning(30.0, volume=bad, opening=opening)
    with refused(OutOfRangeError, "above", "tuning"):
        port_for_tuning(bad, volume=0.05, opening=opening)
    with refused(OutOfRangeError, "above", "displacement"):
        recommended_area(tuning=30.0, displacement=bad)


def test_no_ports_and_round_ports_on_walls_are_refused() -> None:
    """A count of zero, and a round bore on a wall, have no answer."""
    opening = RoundOpening(diameter=0.1)
    with refused(OutOfRangeError, "at-least", "port-count"):
        Port(opening=opening, length=0.1, count=0)
    with refused(OutOfRangeError, "at-least", "port-count"):
        port_for_tuning(30.0, volume=0.05, opening=opening, count=0)
    with refused(OutOfRangeError, "one-of", "port-end"):
        Port(opening=opening, length=0.1, inner=End.ON_WALL)


@given(a=sides, b=sides)
@settings(deadline=None, max_examples=30)
def test_hydraulic_diameter_of_a_slot_lies_between_one_and_two_heights(a: float, b: float) -> None:
    """2wh/(w + h) is at least the smaller side and less than twice it."""
    assume(abs(a - b) > 1e-6)
    diameter = RectangularOpening(width=a, height=b).hydraulic_diameter
    assert min(a, b) <= diameter < 2 * min(a, b)


# Height of the slot and of the room it opens into [mm], end over height: mode matching in two
# dimensions, inner end at the bare edge of an 18 mm panel.
@pytest.mark.parametrize(
    ("h", "room", "over"), [(40, 400, 1.060), (50, 350, 0.883), (40, 320, 0.959)]
)
def test_a_slot_between_two_walls_against_mode_matching(h: int, room: int, over: float) -> None:
    """As wide as its box, the inner end adds what mode matching says, within 2 %."""
    assert as_wide_correction(h / 1000, room / 1000) == pytest.approx(over * h / 1000, rel=0.02)
    slot = RectangularOpening(width=0.3, height=h / 1000, room=room / 1000)
    assert slot.end_correction(End.AS_WIDE) == as_wide_correction(h / 1000, room / 1000)
    with refused(MissingError, "missing"):
        RectangularOpening(width=0.3, height=0.04).end_correction(End.AS_WIDE)


# Flares of this radius on a bore of 100 mm, 300 mm overall: effective length by finite elements.
@pytest.mark.parametrize(
    ("radius", "effective"), [(0.0, 0.3822), (0.025, 0.3648), (0.05, 0.3389), (0.1, 0.2776)]
)
def test_flares_shorten_a_port_as_finite_elements_say(radius: float, effective: float) -> None:
    """Both ends flared and flanged: within 0.5 % of an axisymmetric computation."""
    port = Port(opening=RoundOpening(diameter=0.1), length=0.3, inner=End.FLANGED, flare=radius)
    assert port.effective_length == pytest.approx(effective, rel=0.005)
    back = port_for_tuning(
        rayleigh_tuning(port, 0.06), volume=0.06, opening=port.opening, inner=End.FLANGED,
        flare=radius,
    )  # fmt: skip
    assert back.length == pytest.approx(0.3, rel=1e-6)


def test_a_flare_nobody_computed_is_refused() -> None:
    """Above one and a half bores, and at a slot, no value is known; at that bound it is."""
    bore = RoundOpening(diameter=0.1)
    with refused(OutOfRangeError, "between", "port-flare", value=0.1501, low=0.0, high=0.15):
        ends(bore, End.FLANGED, End.FLANGED, 0.1501)
    assert ends(bore, End.FLANGED, End.FLANGED, 0.15) < ends(bore, End.FLANGED, End.FLANGED)
    slot = RectangularOpening(width=0.3, height=0.04)
    with refused(OutOfRangeError, "between", "port-flare", value=0.02, low=0.0, high=0.0):
        ends(slot, End.FLANGED, End.FLANGED, 0.02)


def test_unlike_ports_share_as_their_lengths_let_them() -> None:
    """60 L, 100 × 300 and 75 × 200 mm: fb 43.773 Hz, shares 0.5483 and 0.4517, by hand.

    The shorter one carries the faster air, whatever its area: v goes with 1/L.
    """
    ports = [
        Port(opening=RoundOpening(diameter=0.1), length=0.3),
        Port(opening=RoundOpening(diameter=0.075), length=0.2),
    ]
    first, second = (Vent.of(port) for port in ports)
    box = Vented(volume=0.06, vent=first, second=second, ql=7.0)
    assert box.resonance() == pytest.approx(43.773, abs=1e-3)
    solved = sweep(driver=REFERENCE, box=box, frequencies=[20.0, 43.8, 90.0])
    one, two = solved.port_speeds
    assert one / two == pytest.approx(second.effective_length / first.effective_length)
    flow = one[1] * first.area + two[1] * second.area
    assert one[1] * first.area / flow == pytest.approx(0.5483, abs=1e-4)
    alone = [float(Vented(volume=0.06, vent=vent).resonance()) for vent in (first, second)]
    assert box.resonance() == pytest.approx(math.hypot(*alone))
    tuned = port_for_tuning(
        43.773, volume=0.06, opening=ports[0].opening, beside=second.area / second.effective_length
    )
    assert tuned.length == pytest.approx(0.3, abs=1e-4)
    # The second alone, by Helmholtz: nothing beside it tunes the box lower.
    with refused(NoSolutionError, "port-beside-tunes-higher") as caught:
        port_for_tuning(
            alone[1] - 0.1, volume=0.06, opening=ports[0].opening,
            beside=second.area / second.effective_length,
        )  # fmt: skip
    assert caught.value.given["limit"].value == pytest.approx(alone[1], rel=1e-6)
