"""Coils, capacitors and resistors: published values, and the ladder solved by its matrices."""

import numpy as np
import pytest

from acoustics.circuit.filters import Family, Filter, Norm, Passes
from acoustics.errors import OutOfRangeError
from acoustics.setup.passive import Component, Place, l_pad, network

GRID = np.geomspace(20.0, 20e3, 100)
KINDS = [
    *[(Family.BUTTERWORTH, n, Norm.MAGNITUDE) for n in (1, 2, 3, 4)],
    *[(Family.LINKWITZ_RILEY, n, Norm.MAGNITUDE) for n in (2, 4, 8)],
    *[(Family.BESSEL, n, norm) for n in (2, 3, 4) for norm in Norm],
]


def solved(pieces, load):
    """Voltage across the load over that of the source, by the chain matrices of the parts."""
    s = 2j * np.pi * GRID
    chain = np.tile(np.eye(2, dtype=complex), (len(GRID), 1, 1))
    for piece in pieces:
        z = s * piece.value if piece.component is Component.COIL else 1 / (s * piece.value)
        step = np.tile(np.eye(2, dtype=complex), (len(GRID), 1, 1))
        if piece.place is Place.SERIES:
            step[:, 0, 1] = z
        else:
            step[:, 1, 0] = 1 / z
        chain = chain @ step
    return 1 / (chain[:, 0, 0] + chain[:, 0, 1] / load)


@pytest.mark.second_method
@pytest.mark.parametrize("passes", Passes)
@pytest.mark.parametrize(("family", "order", "norm"), KINDS)
def test_the_ladder_is_the_filter(family, order, norm, passes):
    """In front of its resistance the ladder has the filter's response, every order of it."""
    cut = Filter(family=family, order=order, corner=1200.0, passes=passes, norm=norm)
    pieces = network(cut, 4.0)
    assert len(pieces) == order
    assert pieces[0].place is Place.SERIES
    assert solved(pieces, 4.0) == pytest.approx(cut.response(GRID), rel=1e-9, abs=1e-12)


@pytest.mark.parametrize(
    ("family", "order", "corner", "load", "coil", "capacitor"),
    [
        # Common textbook formulas: first order ωL = R; Butterworth √2; Linkwitz-Riley 2.
        (Family.BUTTERWORTH, 2, 80.0, 4.0, 11.25395e-3, 351.686e-6),
        (Family.LINKWITZ_RILEY, 2, 80.0, 4.0, 15.91549e-3, 248.680e-6),
        (Family.BUTTERWORTH, 2, 3000.0, 4.0, 0.30011e-3, 9.3783e-6),
        (Family.LINKWITZ_RILEY, 2, 2500.0, 8.0, 1.01859e-3, 3.9789e-6),
    ],
)
def test_second_order_parts_are_those_of_the_textbook(family, order, corner, load, coil, capacitor):
    """C = 1/(√2 ωR) and L = √2 R/ω, or with 2 for Linkwitz and Riley."""
    for passes in Passes:
        cut = Filter(family=family, order=order, corner=corner, passes=passes)
        values = {piece.component: piece.value for piece in network(cut, load)}
        expected = {Component.COIL: coil, Component.CAPACITOR: capacitor}
        assert values == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize(
    ("load", "cut", "series", "across"),
    [
        # Voltage divider, reckoned by hand.
        (8.0, 3.0, 2.3364, 19.3922),
        (8.0, 6.0, 3.9905, 8.0381),
        (4.0, 6.0, 1.9953, 4.0190),
        (4.0, 10.0, 2.7351, 1.8499),
    ],
)
def test_a_pad_takes_its_level_and_keeps_the_load(load, cut, series, across):
    """Both resistors by the divider; the amplifier still sees the load."""
    before, beside = l_pad(load, cut)
    assert (before.value, beside.value) == pytest.approx((series, across), abs=5e-5)
    under = load * beside.value / (load + beside.value)
    assert before.value + under == pytest.approx(load)
    assert 20 * np.log10(under / (before.value + under)) == pytest.approx(-cut)


def test_no_pad_lifts_a_level():
    """A cut of nothing, and a lift, are refused."""
    for cut in (0.0, -3.0, 60.0):
        with pytest.raises(OutOfRangeError):
            l_pad(4.0, cut)
