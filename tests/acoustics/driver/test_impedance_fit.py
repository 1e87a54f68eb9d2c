"""Parameters from an impedance sweep: recovery under noise, honest errors, refusals."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize

from acoustics.circuit.solver import sweep as solve
from acoustics.driver.driver import Driver
from acoustics.driver.impedance_fit import (
    ImpedanceFit,
    ImpedanceSweep,
    driver_impedance,
    fit_impedance,
)
from acoustics.enclosure.boxes import InfiniteBaffle
from acoustics.errors import FitError, OutOfRangeError
from tests.refused import refused

# Invented drivers: name, parameters, and what the coil does besides its resistance.
_NAMES = ("fs", "re", "qms", "qes", "le", "coil_factor", "coil_exponent")
DRIVERS = {
    name: dict(zip(_NAMES, values, strict=True))
    for name, values in {
        "big sub": (22.0, 1.7, 9.0, 0.38, 1.0e-3, 0.0, 0.5),
        "sub, semi-inductance": (30.0, 3.5, 5.0, 0.45, 0.0, 0.03, 0.5),
        "dual coil": (28.0, 0.9, 12.0, 0.6, 0.0, 0.006, 0.7),
        "door woofer": (62.0, 3.3, 3.2, 0.7, 0.2e-3, 0.02, 0.5),
        "weak magnet": (38.0, 5.6, 4.0, 1.2, 0.0, 0.01, 0.75),
        "tweeter": (900.0, 3.1, 2.0, 1.1, 3.0e-5, 0.0, 0.5),
    }.items()
}


def noisy_sweep(
    driver: dict[str, float], *, noise: float, number: int, phase: bool, points: int = 400
) -> ImpedanceSweep:
    """A sweep of one driver with random errors of the relative size given."""
    rng = np.random.default_rng(number)
    frequency = np.geomspace(driver["fs"] / 6, driver["fs"] * 60, points)
    exact = driver_impedance(frequency, **driver)
    errors = noise * rng.standard_normal((2, points))
    angle = np.rad2deg(np.angle(exact) + errors[1]) if phase else None
    return ImpedanceSweep(
        frequency=frequency, magnitude=np.abs(exact) * (1 + errors[0]), phase=angle
    )


@pytest.mark.parametrize("phase", [True, False], ids=["phase", "magnitude"])
@pytest.mark.parametrize("number", [1, 2, 3])
@pytest.mark.parametrize("driver", DRIVERS.values(), ids=DRIVERS.keys())
def test_parameters_come_back_under_noise(
    driver: dict[str, float], number: int, phase: bool
) -> None:
    """With 0.5 % noise fs returns within 0.3 % and the Q values within 2 %."""
    fit = fit_impedance(noisy_sweep(driver, noise=0.005, number=number, phase=phase))
    qts = driver["qms"] * driver["qes"] / (driver["qms"] + driver["qes"])
    assert fit.fs == pytest.approx(driver["fs"], rel=0.003)
    assert fit.re == pytest.approx(driver["re"], rel=0.02)
    assert fit.qms == pytest.approx(driver["qms"], rel=0.02)
    assert fit.qes == pytest.approx(driver["qes"], rel=0.02)
    assert fit.qts == pytest.approx(qts, rel=0.02)
    assert fit.misfit == pytest.approx(0.005, rel=0.15)


@pytest.mark.parametrize("driver", DRIVERS.values(), ids=DRIVERS.keys())
def test_parameters_come_back_exactly_without_noise(driver: dict[str, float]) -> None:
    """A sweep without noise gives back what made it."""
    fit = fit_impedance(noisy_sweep(driver, noise=0.0, number=0, phase=True))
    for name in ("fs", "re", "qms", "qes"):
        assert getattr(fit, name) == pytest.approx(driver[name], rel=2e-4)


def test_standard_errors_are_honest() -> None:
    """Over 40 noisy sweeps the error over its standard error spreads like one (χ² within 4 σ)."""
    driver = DRIVERS["sub, semi-inductance"]
    scores: dict[str, list[float]] = {name: [] for name in ("fs", "qms", "qes", "qts")}
    true = {**driver, "qts": driver["qms"] * driver["qes"] / (driver["qms"] + driver["qes"])}
    for number in range(40):
        fit = fit_impedance(noisy_sweep(driver, noise=0.005, number=number, phase=True, points=80))
        for name, row in scores.items():
            row.append((getattr(fit, name) - true[name]) / fit.standard_errors[name])
    for name, row in scores.items():
        mean_square = float(np.mean(np.square(row)))
        assert mean_square == pytest.approx(1.0, abs=4 * np.sqrt(2 / 40)), name


@given(
    fs=st.floats(15.0, 120.0),
    re=st.floats(0.5, 12.0),
    qms=st.floats(1.5, 15.0),
    qes=st.floats(0.2, 1.5),
    le=st.floats(0.0, 1.0),
    loss=st.floats(0.0, 1.0),
    exponent=st.floats(0.5, 0.85),
)
@settings(deadline=None, max_examples=25)
def test_any_plain_driver_comes_back(
    fs: float, re: float, qms: float, qes: float, le: float, loss: float, exponent: float
) -> None:
    """Any driver whose coil stays below twice its resistance at ten times fs is recovered."""
    top = 2 * np.pi * 10 * fs
    driver = {
        "fs": fs,
        "re": re,
        "qms": qms,
        "qes": qes,
        "le": le * re / top,
        "coil_factor": loss * re / top**exponent,
        "coil_exponent": exponent,
    }
    fit = fit_impedance(noisy_sweep(driver, noise=0.0, number=0, phase=True))
    assert fit.fs == pytest.approx(fs, rel=1e-3)
    assert fit.qms == pytest.approx(qms, rel=5e-3)
    assert fit.qes == pytest.approx(qes, rel=5e-3)


def test_a_measured_resistance_is_kept() -> None:
    """Re measured at direct current is taken, not fitted."""
    driver = DRIVERS["door woofer"]
    fit = fit_impedance(noisy_sweep(driver, noise=0.005, number=4, phase=False), re=3.3)
    assert fit.re == pytest.approx(3.3)
    assert fit.standard_errors["re"] == 0.0
    assert fit.qes == pytest.approx(0.7, rel=0.01)


def test_coil_carried_over_to_the_bass() -> None:
    """An exponent of one half carries over exactly, another one within 6 % of the highest."""
    exact = {"fs": 30.0, "re": 3.5, "qms": 5.0, "qes": 0.45, "le": 0.4e-3, "coil_factor": 0.03}
    fit = fit_impedance(noisy_sweep(exact, noise=0.0, number=0, phase=True))
    inductance, semi = fit.coil_up_to(500.0)
    s = 2j * np.pi * np.linspace(20, 500, 30)
    assert s * inductance + semi * np.sqrt(s) == pytest.approx(
        s * 0.4e-3 + 0.03 * np.sqrt(s), rel=0.01
    )
    other = DRIVERS["dual coil"]
    fit = fit_impedance(noisy_sweep(other, noise=0.0, number=0, phase=True))
    inductance, semi = fit.coil_up_to(500.0)
    coil = other["coil_factor"] * s ** other["coil_exponent"]
    assert np.abs(s * inductance + semi * np.sqrt(s) - coil).max() < 0.06 * np.abs(coil).max()


def test_a_lopsided_peak_is_reported() -> None:
    """sqrt(f1 f2) away from the fitted driver's is a finding; a coil that leans it is none."""
    driver = {"fs": 30.0, "re": 3.5, "qms": 5.0, "qes": 0.45, "le": 2.5e-3}
    lossy = fit_impedance(noisy_sweep(driver, noise=0.0, number=0, phase=True))
    assert lossy.findings == ()
    assert lossy.symmetric_fs is not None
    assert abs(lossy.symmetric_fs / lossy.fs - 1) > 0.01
    leaning = noisy_sweep({**driver, "le": 0.0}, noise=0.0, number=0, phase=False)
    flank = (leaning.frequency > 31.0) & (leaning.frequency < 60.0)
    magnitude = np.where(flank, 1.25 * leaning.magnitude, leaning.magnitude)
    fit = fit_impedance(ImpedanceSweep(frequency=leaning.frequency, magnitude=magnitude))
    assert "sweep-not-symmetric" in [f.code for f in fit.findings]
    plain = fit_impedance(noisy_sweep({**driver, "le": 0.0}, noise=0.0, number=0, phase=True))
    assert plain.findings == ()
    assert plain.symmetric_fs == pytest.approx(30.0, rel=1e-3)


def test_a_curve_that_is_no_single_driver_is_reported() -> None:
    """A vented box has two peaks; one resonance cannot follow them and the misfit says so."""
    frequency = np.geomspace(10, 500, 300)
    two = driver_impedance(frequency, fs=18.5, re=1.75, qms=4, qes=0.5) + driver_impedance(
        frequency, fs=48.5, re=1.75, qms=4, qes=0.5
    )
    with refused(FitError, "two-peaks"):
        fit_impedance(ImpedanceSweep(frequency=frequency, magnitude=np.abs(two)))


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (lambda f, z: (f, 20 * np.log10(np.abs(z)), np.rad2deg(np.angle(z))), "fits-no-driver"),
        (lambda f, z: (f, np.abs(z), np.angle(z)), "phase-in-radians"),
        (lambda f, z: (f / 1000, np.abs(z), None), "not-in-hertz-and-ohms"),
        (lambda f, z: (f, np.abs(z) * 1000, None), "not-in-hertz-and-ohms"),
        (lambda f, z: (f, np.abs(z) / 1000, None), "not-in-hertz-and-ohms"),
    ],
    ids=["decibels", "radians", "kilohertz", "milliohms", "kilohms"],
)
def test_other_units_than_hertz_ohms_and_degrees_are_refused(change, code: str) -> None:  # type: ignore[no-untyped-def]
    """A curve in other units gives no figures, whatever its heading left unsaid."""
    frequency = np.geomspace(10, 2000, 300)
    exact = driver_impedance(frequency, fs=30.0, re=3.5, qms=5.0, qes=0.45, le=5e-4)
    moved, magnitude, phase = change(frequency, exact)
    with refused(FitError, code):
        fit_impedance(ImpedanceSweep(frequency=moved, magnitude=magnitude, phase=phase))


def test_second_method_for_the_three_frequencies() -> None:
    """f1 and f2 solved on the exact curve give the same Q as the fit (scipy root finding)."""
    driver = {"fs": 41.0, "re": 3.1, "qms": 6.0, "qes": 0.5}

    def height(f: float) -> float:
        return float(np.abs(driver_impedance(np.array([f]), **driver))[0])

    level = np.sqrt(driver["re"] * height(41.0))
    below = optimize.brentq(lambda f: height(f) - level, 5.0, 41.0)
    above = optimize.brentq(lambda f: height(f) - level, 41.0, 300.0)
    ratio = height(41.0) / driver["re"]
    qms = 41.0 * np.sqrt(ratio) / (above - below)
    fit = fit_impedance(noisy_sweep(driver, noise=0.0, number=0, phase=False))
    assert fit.qms == pytest.approx(qms, rel=1e-4)
    assert fit.qes == pytest.approx(qms / (ratio - 1), rel=1e-4)


def sweep(frequency: list[float], magnitude: list[float]) -> ImpedanceSweep:
    return ImpedanceSweep(frequency=np.array(frequency), magnitude=np.array(magnitude))


def test_sweeps_that_tell_nothing_are_refused() -> None:
    """No peak, and too few points around one, are refused with a cure."""
    rising = np.geomspace(10, 1000, 50)
    with refused(FitError, "no-peak"):
        fit_impedance(ImpedanceSweep(frequency=rising, magnitude=3 + rising / 100))
    with refused(FitError, "too-few-points"):
        fit_impedance(sweep([10, 20, 29, 31, 50], [4, 6, 20, 19, 4]))
    with refused(OutOfRangeError, "above", "coil-resistance"):
        fit_impedance(noisy_sweep(DRIVERS["tweeter"], noise=0, number=0, phase=True), re=-1.0)


@pytest.mark.parametrize(
    ("fs", "qms", "code"),
    [
        (114.0, 5.8, "coarse"),
        (79.0, 1.7, "coarse"),
        (52.0, 11.6, "uncertain"),
        (25.0, 4.0, "no-peak"),
    ],
)
def test_steps_coarser_than_the_resonance_are_refused(fs: float, qms: float, code: str) -> None:
    """Steps of 130 Hz across the resonance determine nothing and are never answered."""
    frequency = np.linspace(8, 20e3, 150)
    exact = driver_impedance(
        frequency, fs=fs, re=4.0, qms=qms, qes=0.6, coil_factor=0.01, coil_exponent=0.65
    )
    with refused(FitError, code):
        fit_impedance(ImpedanceSweep(frequency=frequency, magnitude=np.abs(exact)))


def test_noise_that_leaves_a_parameter_uncertain_is_refused() -> None:
    """With 2.5 % noise and a peak hardly above it no Q is given as if it were known."""
    frequency = np.geomspace(15, 120, 30)
    exact = np.abs(driver_impedance(frequency, fs=40.0, re=4.0, qms=1.0, qes=6.0))
    error = 0.025 * np.random.default_rng(3).standard_normal(30)
    with refused(FitError, "uncertain"):
        fit_impedance(ImpedanceSweep(frequency=frequency, magnitude=exact * (1 + error)))


@pytest.mark.second_method
def test_impedance_is_that_of_the_solver_without_a_box() -> None:
    """The closed form of the fit and the lumped solver agree in an infinite baffle."""
    driver = Driver(
        fs=33.0, qms=4.2, qes=0.52, re=3.2, vas=0.045, sd=0.034, le=0.4e-3, semi_inductance=0.02
    )
    frequency = np.geomspace(5, 2000, 200)
    solved = solve(driver=driver, box=InfiniteBaffle(), frequencies=frequency).impedance
    closed = driver_impedance(
        frequency, fs=33.0, re=3.2, qms=4.2, qes=0.52, le=0.4e-3, coil_factor=0.02
    )
    assert closed == pytest.approx(solved, rel=1e-9)


@pytest.mark.parametrize(
    ("frequency", "magnitude", "words"),
    [
        ([0.0, 20.0], [4.0, 4.0], ("above", "frequency")),
        ([10.0, 20.0], [4.0, -4.0], ("above", "impedance")),
        ([10.0, 20.0], [4.0, float("nan")], ("above", "impedance")),
        ([20.0, 10.0], [4.0, 4.0], ("equal-rising-columns", "impedance-sweep")),
        ([10.0, 20.0], [4.0, 4.0, 4.0], ("equal-rising-columns", "impedance-sweep")),
    ],
)
def test_columns_that_are_no_impedance_are_refused(
    frequency: list[float], magnitude: list[float], words: tuple[str, ...]
) -> None:
    """Frequencies and magnitudes are above zero, rise, and have equal length."""
    with refused(OutOfRangeError, *words):
        sweep(frequency, magnitude)


def test_a_fit_is_a_plain_record() -> None:
    """The fit keeps every value by the name a driver uses."""
    fit = fit_impedance(noisy_sweep(DRIVERS["tweeter"], noise=0.0, number=0, phase=False))
    assert isinstance(fit, ImpedanceFit)
    assert set(fit.standard_errors) == {"fs", "re", "qms", "qes", "qts"}
