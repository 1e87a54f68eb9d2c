"""A band-pass held to the band that was asked for."""

from __future__ import annotations

import numpy as np
import pytest

from acoustics.circuit.band_pass_targets import band_edges, band_pass_for_band, deepest_sag
from acoustics.circuit.solver import sweep
from jobs import units
from jobs.design.box.band_targets import band_misses
from tests.acoustics.drivers import REFERENCE


@pytest.fixture(scope="module")
def solved():
    """A band-pass of the reference driver, over its whole band."""
    box = band_pass_for_band(REFERENCE, 25.0, 110.0, area=0.01, ql=7.0, rear_ql=7.0)
    return sweep(driver=REFERENCE, box=box, frequencies=np.geomspace(10, 500, 800))


def test_a_band_off_by_a_hundredth_is_said_with_both_its_ends(solved):
    """Within 1 % at both ends it is met; beyond it at either the sentence names what it has."""
    low, high = band_edges(solved)
    sag = deepest_sag(solved)
    ends = {name: units.show(end, "frequency") for name, end in (("low", low), ("high", high))}
    says = "With coil, cable and all losses its band goes from {low} to {high}.".format(**ends)
    for wanted, misses in (
        ((low, high), []),
        ((low / 1.009, high / 0.991), []),
        ((low / 1.011, high), [says]),
        ((low, high / 0.989), [says]),
    ):
        assert band_misses(solved, *wanted, sag) == misses


def test_a_band_that_sags_too_far_is_said_with_how_much(solved):
    """A tenth of a dB more than accepted is met; beyond, what it sags and the excess."""
    low, high = band_edges(solved)
    sag = deepest_sag(solved)
    assert sag > 0.7
    assert band_misses(solved, low, high, sag - 0.09) == []
    by, more = units.show(sag, "level"), units.show(0.7, "level")
    assert band_misses(solved, low, high, sag - 0.7) == [
        f"Inside its band the level sags by {by}, {more} too much."
    ]
