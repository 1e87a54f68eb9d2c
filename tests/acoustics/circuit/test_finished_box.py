"""A finished box by its impedance: tuning, leak and losses come back; another box is refused."""

from dataclasses import replace

import numpy as np
import pytest

from acoustics.circuit.finished_box import BoxFit, fit_finished_box
from acoustics.circuit.solver import sweep
from acoustics.driver.driver import Driver
from acoustics.driver.impedance_sweep import ImpedanceSweep
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Box, InfiniteBaffle, PassiveRadiatorBox, Sealed, Vented
from acoustics.enclosure.openings import Radiator
from acoustics.errors import FitError
from tests.acoustics.drivers import REFERENCE
from tests.refused import refused

F = np.geomspace(8, 500, 200)
DRIVER = replace(REFERENCE, le=0.6e-3, semi_inductance=0.01)
VENTED = Vented.tuned(volume=0.05, frequency=31.0, area=0.008, ql=7.0)
SEALED = Sealed(volume=0.035, ql=20.0)


def _sweep(driver: Driver, box: Box, rng: np.random.Generator, noise: float) -> ImpedanceSweep:
    z = sweep(driver=driver, box=box, frequencies=F).impedance
    errors = noise * rng.standard_normal((2, F.size))
    return ImpedanceSweep(
        frequency=F,
        magnitude=np.abs(z) * (1 + errors[0]),
        phase=np.rad2deg(np.angle(z) + errors[1]),
    )


def _drawn_and_built(kind: str, rng: np.random.Generator) -> tuple[Driver, Box, Driver, Box]:
    """An invented box as drawn, and as it was built with a driver and parts that stray."""
    fs = float(np.exp(rng.uniform(np.log(20), np.log(60))))
    built = Driver(
        fs=fs, qms=rng.uniform(3, 9), qes=rng.uniform(0.3, 0.7), re=rng.uniform(1, 6),
        vas=rng.uniform(0.01, 0.08), sd=0.03, le=rng.uniform(1e-4, 5e-4),
        semi_inductance=rng.uniform(0, 0.02),
    )  # fmt: skip
    litres, ql, off = built.vas * rng.uniform(0.4, 2), rng.uniform(4, 20), rng.uniform(0.9, 1.1, 4)
    drawn = replace(built, qes=built.qes * off[0])
    if kind == "sealed":
        return drawn, Sealed(volume=litres * off[1], ql=20.0), built, Sealed(volume=litres, ql=ql)
    if kind == "band-pass":
        rear, tuning = Sealed(volume=litres, ql=20.0), fs * 1.5

        def front(tuning: float, leak: float) -> Vented:
            return Vented.tuned(volume=litres * 0.6, frequency=tuning, area=0.01, ql=leak)

        return (
            drawn, BandPass(rear=rear, front=front(tuning, 7.0)),
            built, BandPass(rear=rear, front=front(tuning * off[1], ql)),
        )  # fmt: skip
    drawn = replace(drawn, fs=built.fs * off[2], re=built.re * off[3])
    if kind == "passive radiator":
        cone = Radiator(sd=0.04, mms=0.2, cms=3e-4, rms=4.0, added_mass=0.1)
        return (
            drawn, PassiveRadiatorBox(volume=litres, radiator=replace(cone, mms=0.18), ql=7.0),
            built, PassiveRadiatorBox(volume=litres * off[1], radiator=cone, ql=ql),
        )  # fmt: skip
    tuning = fs * rng.uniform(0.7, 1.3)
    return (
        drawn, Vented.tuned(volume=litres, frequency=tuning * off[1], area=0.008, ql=7.0),
        built, Vented.tuned(volume=litres, frequency=tuning, area=0.008, ql=ql),
    )  # fmt: skip


KINDS = ("sealed", "vented", "passive radiator", "band-pass")


@pytest.mark.parametrize("count", [4, pytest.param(100, marks=pytest.mark.long)])
@pytest.mark.parametrize("kind", KINDS)
def test_the_tuning_comes_back_within_half_a_per_cent(kind: str, count: int) -> None:
    """With 0.5 % noise fb or fc is found within 0.5 %, and what leaks within a fifth.

    The truth is the box that made the curve.
    """
    rng = np.random.default_rng(7)
    for _ in range(count):
        drawn, wanted, built, box = _drawn_and_built(kind, rng)
        fit = fit_finished_box(_sweep(built, box, rng, 0.005), driver=drawn, box=wanted)
        heard = box.front if isinstance(box, BandPass) else box
        assert fit.resonance == pytest.approx(float(heard.resonance(built)), rel=0.005)
        assert fit.ql == pytest.approx(float(heard.ql), rel=0.2)
        assert fit.misfit < 0.008
        assert not fit.several


def test_several_losses_are_told_from_one_leak() -> None:
    """Loss in leak, lining and port is not taken for one leak: one leak misses five times more."""
    rng = np.random.default_rng(3)
    lossy = replace(VENTED, ql=15.0, qa=30.0, qp=12.0)
    fit = fit_finished_box(_sweep(DRIVER, lossy, rng, 0.002), driver=DRIVER, box=VENTED)
    assert set(fit.several) == {"ql", "qa", "qp"}
    assert fit.several["qp"] == pytest.approx(12.0, rel=0.5)
    assert fit.one_leak > 5 * fit.misfit


def test_what_is_found_plays_as_the_box_that_was_measured() -> None:
    """The response of what was found lies on that of what was built, within 0.1 dB."""
    rng = np.random.default_rng(5)
    drawn, wanted, built, box = _drawn_and_built("vented", rng)
    fit = fit_finished_box(_sweep(built, box, rng, 0.002), driver=drawn, box=wanted)
    heard = np.geomspace(15, 200, 60)
    ours = sweep(driver=fit.driver, box=fit.box, frequencies=heard)
    true = sweep(driver=built, box=box, frequencies=heard)
    assert ours.spl - ours.spl[-1] == pytest.approx(true.spl - true.spl[-1], abs=0.1)


def _refused(code: str, measured: ImpedanceSweep, box: Box = VENTED) -> BoxFit | None:
    with refused(FitError, code):
        return fit_finished_box(measured, driver=DRIVER, box=box)
    return None


def test_a_sweep_of_another_box_or_of_an_amplifier_is_refused() -> None:
    """Each way of measuring something else has its own refusal."""
    rng = np.random.default_rng(1)
    vented, closed = _sweep(DRIVER, VENTED, rng, 0), _sweep(DRIVER, SEALED, rng, 0)
    _refused("box-lacks-peak", closed)
    _refused("box-peak-too-many", vented, SEALED)
    _refused("peak-below-driver", _sweep(replace(DRIVER, fs=15.0), SEALED, rng, 0), SEALED)
    two = replace(DRIVER, re=2 * DRIVER.re)
    _refused("other-coil", _sweep(two, VENTED, rng, 0))
    across = replace(vented, magnitude=1 / (1 / vented.magnitude + 1 / 0.05), phase=None)
    _refused("amplifier-connected", across)
    _refused("no-box-to-prove", closed, InfiniteBaffle())
    bent = replace(closed, magnitude=closed.magnitude * (1 + 0.35 * np.sin(6 * np.log(F))))
    _refused("fits-no-box", bent, SEALED)
    short = ImpedanceSweep(frequency=F[::28], magnitude=vented.magnitude[::28])
    _refused("too-few-points", short)
