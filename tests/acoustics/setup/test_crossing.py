"""Neighbouring ways: which polarity is the better, and how even their sum is."""

import numpy as np
import pytest

from acoustics.circuit.filters import Family, Filter, Norm, Passes, Way, sum_of_ways
from acoustics.errors import OutOfRangeError
from acoustics.setup.crossing import DEEPEST, Polarity, aligned, crossing

GRID = np.geomspace(20.0, 20e3, 2000)


def ways(family: Family, order: int, corner: float = 300.0, **more: Norm) -> tuple[Way, Way]:
    """The two ways of a crossover at one corner."""
    low, high = (
        Way(filters=(Filter(family=family, order=order, corner=corner, passes=side, **more),))
        for side in (Passes.LOW, Passes.HIGH)
    )
    return low, high


# Published: S. H. Linkwitz, JAES 24 (1976) 2-8; -3.01 and -6.02 dB at the corner by definition.
TABLE = [
    (Family.BUTTERWORTH, 1, -3.0103, Polarity.EITHER),
    (Family.BUTTERWORTH, 2, -3.0103, Polarity.TURNED),
    (Family.BUTTERWORTH, 3, -3.0103, Polarity.EITHER),
    (Family.BUTTERWORTH, 4, -3.0103, Polarity.ALIKE),
    (Family.LINKWITZ_RILEY, 2, -6.0206, Polarity.TURNED),
    (Family.LINKWITZ_RILEY, 4, -6.0206, Polarity.ALIKE),
    (Family.LINKWITZ_RILEY, 8, -6.0206, Polarity.ALIKE),
]


@pytest.mark.parametrize(("family", "order", "level", "better"), TABLE)
def test_each_alignment_meets_and_names_its_polarity(family, order, level, better):
    """Ways meet at their corner, and the polarity whose sum has no hole is named."""
    met = crossing(*ways(family, order))
    assert met is not None
    assert met.frequency == pytest.approx(300.0, rel=1e-4)
    assert met.level == pytest.approx(level, abs=0.01)
    assert met.better is better


@pytest.mark.parametrize(("order", "sign"), [(4, 1.0), (2, -1.0)])
def test_linkwitz_riley_sums_flat(order, sign):
    """The fourth order in phase and the second inverted are flat within 1e-9 dB."""
    low, high = ways(Family.LINKWITZ_RILEY, order)
    turned = Way(filters=high.filters, inverted=sign < 0)
    level = 20 * np.log10(np.abs(sum_of_ways([low, turned], GRID)))
    assert np.abs(level).max() < 1e-9


def test_butterworth_sums_as_the_handbook_says():
    """The second order has a null alike and +3 dB turned; the fourth +3 dB alike and a null."""
    second, fourth = crossing(*ways(Family.BUTTERWORTH, 2)), crossing(*ways(Family.BUTTERWORTH, 4))
    assert second is not None
    assert fourth is not None
    assert (second.alike.lowest, second.turned.highest) == pytest.approx(
        (DEEPEST, 3.0103), abs=0.01
    )
    assert (fourth.turned.lowest, fourth.alike.highest) == pytest.approx(
        (DEEPEST, 3.0103), abs=0.01
    )


# Second method: sums of scipy.signal.bessel, as worked out apart for each norm.
@pytest.mark.second_method
@pytest.mark.parametrize(
    ("order", "norm", "polarity", "lowest", "highest"),
    [
        (2, Norm.PHASE, "turned", 0.04, 1.25),
        (4, Norm.PHASE, "alike", -1.56, -0.06),
        (4, Norm.MAGNITUDE, "alike", -2.79, 0.01),
    ],
)
def test_bessel_sums_by_their_norm(order, norm, polarity, lowest, highest):
    """What a Bessel crossover sums to depends on what its corner means."""
    low, high = ways(Family.BESSEL, order, 1000.0, norm=norm)
    around = np.geomspace(100.0, 10e3, 4001)
    total = low.response(around) + (1 if polarity == "alike" else -1) * high.response(around)
    level = 20 * np.log10(np.abs(total))
    assert (level.min(), level.max()) == pytest.approx((lowest, highest), abs=0.006)


def test_a_delay_turns_the_better_polarity():
    """Half a period of delay at the crossing asks for the other polarity."""
    low, high = ways(Family.LINKWITZ_RILEY, 4)
    late = Way(filters=high.filters, delay=0.5 / 300.0)
    met = crossing(low, late)
    assert met is not None
    assert met.better is Polarity.TURNED


def test_ways_that_do_not_meet_have_no_crossing():
    """A way without a low-pass is never overtaken by the one above it."""
    _low, high = ways(Family.LINKWITZ_RILEY, 4)
    assert crossing(Way(), high) is None


@pytest.mark.parametrize(("delay", "turned"), [(0.0, False), (0.15e-3, True), (-0.1e-3, False)])
def test_ways_that_were_measured_are_brought_into_step(delay, turned):
    """A Linkwitz-Riley pair of the fourth order adds up in phase: what was done to it is found."""
    f = np.geomspace(20.0, 16_000.0, 240)
    low, high = (
        Filter(family=Family.LINKWITZ_RILEY, order=4, corner=2000.0, passes=side).response(f)
        for side in (Passes.LOW, Passes.HIGH)
    )
    moved = high * np.exp(2j * np.pi * f * delay) * (-1.0 if turned else 1.0)
    fit = aligned(f, low, moved, middle=2000.0)
    assert fit.delay == pytest.approx(delay, abs=3e-6)
    assert fit.turned is turned
    assert fit.after == pytest.approx(0.0, abs=0.05)
    assert (fit.before < -1.0) == (delay != 0.0)


def test_ways_that_never_play_together_are_not_fitted():
    """Where one is far louder than the other nothing can be told."""
    f = np.geomspace(20.0, 16_000.0, 240)
    with pytest.raises(OutOfRangeError):
        aligned(f, np.ones(240, complex), np.full(240, 1e-4, complex), middle=2000.0)
