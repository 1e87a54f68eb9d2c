"""Bands that hold nine in ten of the systems the tolerances allow."""

import math

import numpy as np
import pytest

from acoustics.circuit.solver import sweep
from acoustics.circuit.tolerance_bands import Tolerances, check_spread, spread
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import (
    Box,
    InfiniteBaffle,
    PassiveRadiatorBox,
    Sealed,
    Vented,
)
from acoustics.errors import OutOfRangeError
from tests.acoustics.drivers import REFERENCE, passive_cone
from tests.refused import refused

F = np.geomspace(10, 500, 40)
VENTED = Vented.tuned(volume=0.060, frequency=30.0, area=0.008, ql=7.0)
NONE = Tolerances(
    compliance=0, mass=0, force_factor=0, mechanical_resistance=0, coil_resistance=0,
    volume=0, port_length=0, losses=0, temperature=0,
)  # fmt: skip
BOXES: dict[str, Box] = {
    "sealed": Sealed(volume=0.040, ql=9.0),
    "vented": VENTED,
    "baffle": InfiniteBaffle(),
    "radiator": PassiveRadiatorBox(
        volume=0.06, radiator=passive_cone(fp=15, qmp=8, vap=0.12, sd=0.049), ql=7.0
    ),
    "band-pass": BandPass(rear=Sealed(volume=0.03), front=VENTED),
}


@pytest.mark.parametrize("kind", BOXES)
def test_no_tolerance_leaves_the_curve(kind: str) -> None:
    """With all tolerances zero the band is the nominal curve itself."""
    bands = spread(driver=REFERENCE, box=BOXES[kind], frequencies=F, tolerances=NONE, draws=100)
    nominal = sweep(driver=REFERENCE, box=BOXES[kind], frequencies=F)
    for band in (bands.spl.low, bands.spl.median, bands.spl.high):
        assert band == pytest.approx(nominal.spl, abs=1e-9)


def test_port_length_alone_moves_the_tuning_as_its_root() -> None:
    """fb goes with 1/sqrt(L): 10 % at two standard deviations gives ± 1.645 * 2.5 % at 5-95 %."""
    alone = Tolerances(**(vars(NONE) | {"port_length": 0.10}))
    bands = spread(driver=REFERENCE, box=VENTED, frequencies=F, tolerances=alone, draws=20_000)
    assert bands.resonance is not None
    # Normal distribution: 5 and 95 % lie at 1.645 standard deviations.
    expected = 30 * np.exp(np.array([-1, 0, 1]) * 1.645 * 0.10 / 2 / 2)
    found = (bands.resonance.low, bands.resonance.median, bands.resonance.high)
    assert found == pytest.approx(expected, rel=1e-3)


def test_temperature_alone_moves_the_tuning_with_the_speed_of_sound() -> None:
    """fb goes with c, and c with the root of absolute temperature."""
    alone = Tolerances(**(vars(NONE) | {"temperature": 20.0}))
    bands = spread(driver=REFERENCE, box=VENTED, frequencies=F, tolerances=alone, draws=20_000)
    assert bands.resonance is not None
    high = 30 * math.sqrt(1 + 1.645 * 10 / 293.15)
    assert float(bands.resonance.high) == pytest.approx(high, rel=1e-3)


def test_mass_alone_keeps_compliance() -> None:
    """A heavier cone lowers fc by the root of its mass and raises Qtc by it."""
    alone = Tolerances(**(vars(NONE) | {"mass": 0.10}))
    bands = spread(
        driver=REFERENCE, box=Sealed(volume=0.04), frequencies=F, tolerances=alone, draws=20_000
    )
    assert bands.resonance is not None
    assert bands.qtc is not None
    root = math.exp(1.645 * 0.10 / 2 / 2)
    assert float(bands.resonance.low) == pytest.approx(30 * math.sqrt(2.5) / root, rel=1e-3)
    assert float(bands.qtc.high) == pytest.approx(
        float(REFERENCE.qts) * math.sqrt(2.5) * root, rel=1e-3
    )


def test_bands_repeat() -> None:
    """The same start gives the same bands to the bit; another start nearly the same."""
    first = spread(driver=REFERENCE, box=VENTED, frequencies=F)
    again = spread(driver=REFERENCE, box=VENTED, frequencies=F)
    other = spread(driver=REFERENCE, box=VENTED, frequencies=F, start=2)
    assert np.array_equal(first.spl.low, again.spl.low)
    assert first.spl.high == pytest.approx(other.spl.high, abs=0.15)
    assert (first.spl.low < first.spl.median).all()
    assert (first.spl.median < first.spl.high).all()


def test_a_band_across_a_limit_is_a_look() -> None:
    """Only a limit inside the band is found: not one all draws keep, nor one all draws break."""
    bands = spread(driver=REFERENCE, box=VENTED, frequencies=F, voltage=20.0)
    low, high = float(bands.largest_excursion.low), float(bands.largest_excursion.high)
    found = check_spread(bands, xmax=(low + high) / 2, port_speed=1e3)
    assert [(f.code, f.severity) for f in found] == [("spread-crosses-xmax", "look")]
    assert check_spread(bands, xmax=2 * high, port_speed=1e3) == ()
    assert check_spread(bands, xmax=low / 2, port_speed=1e3) == ()
    assert check_spread(bands, xmax=None, port_speed=1e3) == ()
    (fastest,) = bands.largest_port_speeds
    middle = float(fastest.median)
    found = check_spread(bands, xmax=None, port_speed=middle)
    assert [f.code for f in found] == ["spread-crosses-port-speed"]


def test_impossible_tolerances_are_refused() -> None:
    """A negative or huge tolerance and a handful of draws are refused by name."""
    with refused(OutOfRangeError, "between", "tolerance", high=0.5):
        Tolerances(mass=-0.1)
    with refused(OutOfRangeError, "between", "tolerance", value=45.0, high=30.0):
        Tolerances(temperature=45.0)
    with refused(OutOfRangeError, "between", "draws"):
        spread(driver=REFERENCE, box=VENTED, frequencies=F, draws=10)
