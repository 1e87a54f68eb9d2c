"""Second sweeps, reading impedance files, and holding a measurement against a catalogue."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.air.air import STANDARD, Air
from acoustics.driver.driver import Driver
from acoustics.driver.impedance_fit import ImpedanceFit, driver_impedance, fit_impedance
from acoustics.driver.impedance_sweep import ImpedanceSweep
from acoustics.driver.measurement import (
    compare_with_catalogue,
    moving_parts_from_mass,
    moving_parts_from_volume,
    parse_impedance,
)
from acoustics.errors import FitError, OutOfRangeError, SweepFileError
from tests.refused import refused

DRIVER = Driver(fs=33.0, qms=4.2, qes=0.52, re=3.2, vas=0.045, sd=0.034)


def fit_of(
    *, stiffness: float = 1.0, mass: float = 0.0, noise: float = 0.0, number: int = 0
) -> ImpedanceFit:
    """Fit of the invented driver with its stiffness multiplied and a mass added."""
    compliance, moving = DRIVER.cms / stiffness, DRIVER.mms + mass
    ws = 1.0 / np.sqrt(compliance * moving)
    frequency = np.geomspace(8.0, 2000.0, 400)
    exact = driver_impedance(
        frequency,
        fs=ws / (2 * np.pi),
        re=DRIVER.re,
        qms=ws * moving / DRIVER.rms,
        qes=ws * moving * DRIVER.re / DRIVER.bl**2,
        le=0.4e-3,
    )
    error = noise * np.random.default_rng(number).standard_normal(400)
    return fit_impedance(ImpedanceSweep(frequency=frequency, magnitude=np.abs(exact) * (1 + error)))


@pytest.mark.parametrize(("noise", "tolerance"), [(0.0, 1e-3), (0.005, 0.03)])
def test_added_mass(noise: float, tolerance: float) -> None:
    """A known mass on the cone gives Mms, Cms, Rms, Bl and Vas of the driver that was swept."""
    parts = moving_parts_from_mass(
        fit_of(noise=noise, number=1),
        fit_of(mass=0.05, noise=noise, number=2),
        mass=0.05,
        sd=DRIVER.sd,
    )
    for name in ("mms", "cms", "rms", "bl", "vas"):
        assert getattr(parts, name) == pytest.approx(getattr(DRIVER, name), rel=tolerance), name


@pytest.mark.parametrize(("noise", "tolerance"), [(0.0, 2e-3), (0.005, 0.04)])
def test_known_volume(noise: float, tolerance: float) -> None:
    """A sealed box of known volume gives the same."""
    volume = 0.025
    boxed = fit_of(stiffness=1 + DRIVER.vas / volume, noise=noise, number=3)
    parts = moving_parts_from_volume(
        fit_of(noise=noise, number=1), boxed, volume=volume, sd=DRIVER.sd
    )
    for name in ("mms", "cms", "rms", "bl", "vas"):
        assert getattr(parts, name) == pytest.approx(getattr(DRIVER, name), rel=tolerance), name


def test_standard_errors_of_mass_are_honest() -> None:
    """Over 40 pairs of noisy sweeps the error of Mms spreads like its standard error."""
    scores = []
    for number in range(40):
        parts = moving_parts_from_mass(
            fit_of(noise=0.005, number=number),
            fit_of(mass=0.05, noise=0.005, number=100 + number),
            mass=0.05,
            sd=DRIVER.sd,
        )
        scores.append((parts.mms - DRIVER.mms) / parts.standard_errors["mms"])
    assert float(np.mean(np.square(scores))) == pytest.approx(1.0, abs=4 * np.sqrt(2 / 40))


@given(density=st.floats(1.0, 1.3), speed=st.floats(330.0, 355.0))
@settings(deadline=None, max_examples=5)
def test_mass_owes_nothing_to_the_air(density: float, speed: float) -> None:
    """The added-mass method needs the air for Vas alone."""
    free, loaded = fit_of(), fit_of(mass=0.05)
    air = Air(density=density, speed_of_sound=speed)
    here = moving_parts_from_mass(free, loaded, mass=0.05, sd=DRIVER.sd, air=air)
    there = moving_parts_from_mass(free, loaded, mass=0.05, sd=DRIVER.sd)
    assert here.mms == there.mms
    assert here.vas / there.vas == pytest.approx(air.bulk_modulus / STANDARD.bulk_modulus)


def test_second_sweeps_that_went_the_wrong_way_are_refused() -> None:
    """A mass must lower the resonance and a box must raise it."""
    free = fit_of()
    with refused(FitError, "mass-did-not-lower"):
        moving_parts_from_mass(free, free, mass=0.05, sd=DRIVER.sd)
    with refused(FitError, "box-did-not-raise"):
        moving_parts_from_volume(free, fit_of(mass=0.05, stiffness=0.5), volume=0.02, sd=0.03)
    # The sweep of the free driver sent a second time, as that of the box.
    with refused(FitError, "box-did-not-raise"):
        moving_parts_from_volume(free, free, volume=0.02, sd=DRIVER.sd)
    with refused(OutOfRangeError, "above", "added-mass"):
        moving_parts_from_mass(free, free, mass=0.0, sd=DRIVER.sd)
    with refused(OutOfRangeError, "above", "test-box-volume"):
        moving_parts_from_volume(free, free, volume=-1.0, sd=DRIVER.sd)


def test_a_measurement_outside_its_tolerance_is_a_finding() -> None:
    """fs 20 % high is named with both values; what is within, or unknown, is not."""
    found = compare_with_catalogue(
        {"fs": 36.0, "qes": 0.55, "vas": 0.040},
        {"fs": 30.0, "qes": 0.52, "bl": 9.0},
    )
    assert [(f.code, f.detail, f.value, f.limit, f.unit) for f in found] == [
        ("measured-differs-from-catalogue", ("fs",), 36.0, 30.0, "Hz")
    ]


@pytest.mark.parametrize(("value", "findings"), [(33.0, 0), (33.1, 1), (27.0, 0), (26.9, 1)])
def test_tolerance_by_name_on_both_sides(value: float, findings: int) -> None:
    """A tolerance of 10 % for fs holds from 27 to 33 Hz."""
    found = compare_with_catalogue({"fs": value}, {"fs": 30.0}, tolerance={"fs": 0.1 + 1e-12})
    assert len(found) == findings


def test_catalogue_values_must_be_values() -> None:
    """A catalogue value or tolerance of zero is refused."""
    with refused(OutOfRangeError, "above", "fs"):
        compare_with_catalogue({"fs": 30.0}, {"fs": 0.0})
    with refused(OutOfRangeError, "above", "tolerance"):
        compare_with_catalogue({"fs": 30.0}, {"fs": 30.0}, tolerance=0.0)


def test_impedance_file_to_parameters() -> None:
    """A text file with decimal commas goes all the way to fs and Q."""
    frequency = np.geomspace(10, 1000, 200)
    z = driver_impedance(frequency, fs=33.0, re=3.2, qms=4.2, qes=0.52)
    rows = zip(frequency, np.abs(z), np.rad2deg(np.angle(z)), strict=True)
    lines = [f"{f:.4f};{m:.5f};{p:.4f}".replace(".", ",") for f, m, p in rows]
    fit = fit_impedance(parse_impedance("Hz;ohm;deg\n" + "\n".join(lines)))
    assert fit.fs == pytest.approx(33.0, rel=1e-4)
    assert fit.qts == pytest.approx(4.2 * 0.52 / 4.72, rel=1e-3)


@pytest.mark.parametrize(
    ("row", "value"), [("50\t-4\t0", -4.0), ("50\t0\t0", 0.0), ("50\t8\t170", 170.0)]
)
def test_rows_that_are_no_impedance_are_refused(row: str, value: float) -> None:
    """An impedance is above zero and its phase within ±90°."""
    lines = [f"{10 * n}\t8\t0" for n in range(1, 12)]
    lines[4] = row
    with refused(SweepFileError, "not-impedance", line=5, value=value):
        parse_impedance("\n".join(lines))
