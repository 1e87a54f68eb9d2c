"""The loudest box of given litres against a search of our own, and a band-pass for a band."""

import math

import numpy as np
import pytest

from acoustics.air.air import STANDARD
from acoustics.circuit.band_pass_targets import band_edges, band_pass_for_band
from acoustics.circuit.loudest import loudest_box
from acoustics.circuit.solver import sweep
from acoustics.enclosure.boxes import PassiveRadiatorBox, Sealed, Vented
from acoustics.enclosure.openings import Radiator, Vent
from acoustics.errors import MissingError, NoSolutionError, OutOfRangeError
from tests.acoustics.drivers import REFERENCE, driver_with_qts, passive_cone
from tests.refused import refused

BAND = np.geomspace(25, 60, 40)


def _least(box, *, amplifier: float) -> float:
    """Least clean level in the band, limit by limit, at one volt scaled up."""
    solved = sweep(driver=REFERENCE, box=box, frequencies=BAND, voltage=1.0)
    volts = np.minimum(
        REFERENCE.xmax / solved.excursion,
        np.abs(solved.impedance) * math.sqrt(REFERENCE.power_rating / REFERENCE.re),
    )
    if solved.port_speed is not None:
        volts = np.minimum(volts, 17.0 / solved.port_speed)
    return float((solved.spl + 20 * np.log10(np.minimum(volts, amplifier))).min())


@pytest.mark.parametrize("litres", [0.025, 0.05, 0.08])
def test_no_tuning_of_these_litres_is_louder(litres: float) -> None:
    """Of 400 tunings tried one by one none plays more than 0.05 dB louder through the band."""
    area = 0.012
    found = loudest_box(
        REFERENCE, 25, 60, volume=litres, vented=True, area=area, losses={"ql": 7.0},
        amplifier_voltage=40.0,
    )  # fmt: skip
    assert isinstance(found.box, Vented)
    assert found.level == pytest.approx(_least(found.box, amplifier=40.0), abs=1e-6)
    tried = [
        _least(Vented.tuned(volume=litres, frequency=f, area=area, ql=7.0), amplifier=40.0)
        for f in np.geomspace(12.5, 60, 400)
    ]
    assert max(tried) <= found.level + 0.05


def test_no_tuning_is_louder_with_a_second_port_beside() -> None:
    """The first port is longer by what the second lets through; each has its own air speed."""
    area, litres = 0.012, 0.05
    second = Vent(area=0.0028, effective_length=0.25)
    found = loudest_box(
        REFERENCE, 25, 60, volume=litres, vented=True, area=area, second=second,
        losses={"ql": 7.0}, amplifier_voltage=40.0,
    )  # fmt: skip
    assert isinstance(found.box, Vented)
    assert found.box.second == second
    assert found.level == pytest.approx(_least(found.box, amplifier=40.0), abs=1e-6)
    levels = []
    for f in np.geomspace(12.5, 60, 400):
        # Helmholtz, by hand: what the tuning asks for less what the second gives.
        left = (2 * math.pi * f / 343.2) ** 2 * litres - 0.0028 / 0.25
        if left > 0:
            first = Vent(area=area, effective_length=area / left)
            box = Vented(volume=litres, vent=first, second=second, ql=7.0)
            levels.append(_least(box, amplifier=40.0))
    assert 100 < len(levels) < 400
    assert max(levels) <= found.level + 0.05
    wide = Vent(area=0.05, effective_length=0.05)
    with refused(NoSolutionError, "port-beside-tunes-higher"):
        loudest_box(REFERENCE, 25, 60, volume=litres, vented=True, area=area, second=wide)


def test_a_cone_that_stands_still_sets_no_limit() -> None:
    """Without losses it does at the tuning, and how far it goes divides nothing."""
    loudest = loudest_box(
        REFERENCE, 30.0, 80.0, volume=0.045, vented=True, area=0.004, amplifier_voltage=40.0
    )
    assert np.isfinite(loudest.levels).all()


def test_the_trade_off_rises_with_litres_and_passes_through_the_answer() -> None:
    """Litres against level: the curve meets the answer at the litres at hand."""
    for vented in (True, False):
        found = loudest_box(
            REFERENCE, 25, 60, volume=0.05, vented=vented, amplifier_voltage=40.0,
            losses={"ql": 10.0},
        )  # fmt: skip
        at = np.interp(0.05, found.volumes, found.levels)
        assert at == pytest.approx(found.level, abs=0.3)
        assert found.levels[-1] > found.levels[0]
        assert isinstance(found.box, Vented if vented else Sealed)
    with refused(MissingError, "missing"):
        loudest_box(driver_with_qts(0.4), 25, 60, volume=0.05, vented=False)
    with refused(OutOfRangeError, "above"):
        loudest_box(REFERENCE, 60, 25, volume=0.05, vented=False)


def test_a_band_pass_for_its_own_band_is_the_classical_one() -> None:
    """Edges 31.757 and 83.139 Hz without losses: 31.0305 L behind, 20.4528 L before, both 51.38 Hz.

    By hand: Qb = S = 1/√2 with the reference driver.
    """
    box = band_pass_for_band(REFERENCE, 31.757, 83.139, area=0.01)
    assert box.rear.volume == pytest.approx(31.0305e-3, rel=2e-4)
    assert box.front.volume == pytest.approx(20.4528e-3, rel=2e-4)
    assert box.front.resonance() == pytest.approx(51.383, rel=1e-4)


@pytest.mark.parametrize(("low", "high"), [(33.0, 70.0), (40.0, 120.0), (35.0, 60.0)])
def test_the_band_ends_where_it_was_asked_to_losses_included(low: float, high: float) -> None:
    """With leaks and a cable both edges lie within 0.1 % of what was asked."""
    box = band_pass_for_band(
        REFERENCE, low, high, area=0.01, ql=7.0, rear_ql=20.0, series_resistance=0.1
    )
    solved = sweep(
        driver=REFERENCE, box=box, frequencies=np.geomspace(5, 900, 900), series_resistance=0.1
    )
    assert band_edges(solved) == pytest.approx((low, high), rel=1e-3)
    with refused(NoSolutionError, "band-below-driver"):
        band_pass_for_band(REFERENCE, 15.0, 40.0, area=0.01)


@pytest.mark.parametrize(("tuning", "grams"), [(22.0, 126.06), (20.0, 219.62)])
def test_the_mass_for_a_tuning_by_hand(tuning: float, grams: float) -> None:
    """A cone of 15 Hz, Vap 120 L and 490 cm² in 60 L: worked by hand from Small's equations."""
    cone = passive_cone(fp=15.0, qmp=10.0, vap=0.12, sd=0.049)
    added = cone.added_mass_for(tuning, 0.06, STANDARD)
    assert added == pytest.approx(grams / 1000, rel=1e-4)
    loaded = Radiator(sd=cone.sd, mms=cone.mms, cms=cone.cms, rms=cone.rms, added_mass=added)
    assert PassiveRadiatorBox(volume=0.06, radiator=loaded).resonance() == pytest.approx(tuning)
    with refused(NoSolutionError, "lightest-tunes-lower"):
        cone.added_mass_for(30.0, 0.06, STANDARD)
