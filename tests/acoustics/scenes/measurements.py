"""Drivers completed from sheets and sweeps, finished boxes proved, files of columns read."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from acoustics.air.air import standard_at
from acoustics.circuit.finished_box import BoxFit, fit_finished_box
from acoustics.circuit.finished_checks import check_finished_box
from acoustics.circuit.loudest import loudest_box
from acoustics.circuit.solver import sweep
from acoustics.columns import parse_columns
from acoustics.driver.coil import coil_impedance, coil_in_the_bass
from acoustics.driver.completion import complete_driver, misread_figures
from acoustics.driver.driver import Driver
from acoustics.driver.impedance_fit import (
    POOR_FIT,
    ImpedanceFit,
    driver_impedance,
    fit_impedance,
)
from acoustics.driver.impedance_sweep import ImpedanceSweep, crossings
from acoustics.driver.measurement import (
    compare_with_catalogue,
    moving_parts_from_mass,
    moving_parts_from_volume,
    parse_impedance,
)
from acoustics.enclosure.boxes import Box, Door, InfiniteBaffle, PassiveRadiatorBox
from acoustics.enclosure.openings import Vent
from tests.acoustics.scenes.enclosures import BOXES, CONE, SUB
from tests.told import findings, refusal, refusals, row

F = np.geomspace(6.0, 2500.0, 150)
FIGURES = {"fs": 31.0, "re": 3.4, "qms": 5.1, "qes": 0.46}
SHEET = {
    "fs": 29.0, "qes": 0.43, "qms": 4.7, "vas": 0.064, "re": 3.3, "sd": 0.0495, "qts": 0.394,
    "mms": 0.16, "bl": 14.96, "cms": 1.84e-4, "rms": 6.3, "efficiency": 0.0035,
}  # fmt: skip


def _measured(noise: float = 0.003, phase: bool = True, **figures: float) -> ImpedanceSweep:
    rng = np.random.default_rng(4)
    exact = driver_impedance(F, **(FIGURES | figures))
    magnitude = np.abs(exact) * (1 + noise * rng.standard_normal(F.size))
    angle = np.rad2deg(np.angle(exact) + noise * rng.standard_normal(F.size))
    return ImpedanceSweep(frequency=F, magnitude=magnitude, phase=angle if phase else None)


def _twice(low: bool, high: float) -> float:
    """Frequency of a driver whose curve rises again at 400 Hz by so many nepers."""
    curve = _measured(1e-9, phase=False, le=2e-5, **({"qms": 2.0, "qes": 1.3} if low else {}))
    rise = np.exp(high * np.exp(-((np.log(F / 400.0) / 0.1) ** 2)))
    return fit_impedance(replace(curve, magnitude=curve.magnitude * rise)).fs


def _seven(phase: bool) -> ImpedanceSweep:
    """Seven points, which are enough with their phases only."""
    at = np.array([14.0, 25.0, 29.0, 31.0, 33.5, 39.0, 90.0])
    exact = driver_impedance(at, **FIGURES, le=5e-4)
    angle = np.rad2deg(np.angle(exact))
    return ImpedanceSweep(frequency=at, magnitude=np.abs(exact), phase=angle if phase else None)


def _fit(fit: ImpedanceFit) -> Mapping[str, object]:
    return {
        "figures": row(fit.fs, fit.re, fit.qms, fit.qes, fit.qts, fit.misfit, fit.symmetric_fs),
        "coil": row([value * 1e3 for value in fit.coil.values()], fit.coil_up_to(200.0)),
        "errors": row(list(fit.standard_errors.items())),
        "findings": findings(fit.findings),
    }


def sweeps() -> Mapping[str, object]:
    """Show drivers read from a sweep, with each kind of coil, and moving parts from two."""
    lossy = {"le": 2e-4, "coil_factor": 0.012, "coil_exponent": 0.65}
    bridged = {"le": 4e-4, "second_le": 9e-4, "second_resistance": 3.0}
    free = fit_impedance(_measured(**lossy))
    laden = fit_impedance(_measured(**(lossy | {"fs": 24.0, "qes": 0.57, "qms": 6.2})))
    boxed = fit_impedance(_measured(**(lossy | {"fs": 52.0, "qes": 0.78, "qms": 8.3})))
    skewed = _measured(**lossy)
    lean = replace(skewed, magnitude=skewed.magnitude * np.where(F > 31.0, 1.12, 1.0), phase=None)
    s = 2j * np.pi * F
    out: dict[str, object] = {
        "free": _fit(free),
        "bridged": _fit(fit_impedance(_measured(**bridged))),
        "noisy": _fit(fit_impedance(_measured(noise=0.05, **lossy))),
        "by magnitude": _fit(fit_impedance(_measured(phase=False, **lossy), re=3.4)),
        "lean": _fit(fit_impedance(lean)),
        "mass": row(moving_parts_from_mass(free, laden, mass=0.09, sd=0.05)),
        "volume": row(moving_parts_from_volume(free, boxed, volume=0.03, sd=0.05,
            air=standard_at(303.0))),
        "curves": row(
            driver_impedance(F, **FIGURES, **lossy), coil_impedance(s, **bridged),
            coil_in_the_bass(bridged, 300.0), coil_in_the_bass(lossy, 100.0),
        ),
    }  # fmt: skip
    short = ImpedanceSweep(
        frequency=np.array([20.0, 30.0, 50.0]), magnitude=np.array([4.0, 30.0, 4.0])
    )
    out["crossed"] = row(
        crossings(short, 1, 9.0), crossings(short, 1, 4.0), crossings(short, 1, 3.0)
    )
    found = {"fs": 33.0, "qts": 0.42, "vas": 0.08, "qms": 5.6, "le": 1e-3, "none": 3.0}
    stated = {"fs": 31.0, "qts": 0.42, "vas": 0.06, "qms": 4.7}
    out["compared"] = findings(compare_with_catalogue(found, stated))
    out["closer"] = findings(compare_with_catalogue(found, stated, tolerance={"fs": 0.05}))
    calls: dict[str, Callable[[], object]] = {
        "no mass": lambda: moving_parts_from_mass(free, boxed, mass=0.09, sd=0.05),
        "no box": lambda: moving_parts_from_volume(free, replace(free, fs=30.0), volume=0.03,
            sd=0.05),
        "radians": lambda: fit_impedance(replace(skewed,
            phase=np.deg2rad(np.asarray(skewed.phase)))),
        "amplifier": lambda: fit_impedance(ImpedanceSweep(frequency=F, magnitude=np.full(F.size,
            0.1))),
        "flat": lambda: fit_impedance(ImpedanceSweep(frequency=F, magnitude=4 + 0.0001 * F)),
        "two peaks": lambda: fit_impedance(
            ImpedanceSweep(frequency=F, magnitude=skewed.magnitude + skewed.magnitude[::-1])),
        **{
            # A second peak that stands out by a little more or less than is clear.
            f"peak of {high}": lambda high=high, low=low: _twice(low, high)
            for low, high in ((True, 0.3), (True, 0.315), (False, 0.6), (False, 0.63))
        },
        "decibels": lambda: fit_impedance(
            ImpedanceSweep(frequency=F, magnitude=20 * np.log10(skewed.magnitude))),
        "no driver": lambda: fit_impedance(
            replace(skewed, magnitude=skewed.magnitude * np.where(F > 300.0, 0.3, 1.0))),
        "kilohertz": lambda: fit_impedance(replace(skewed, frequency=F / 1000, phase=None)),
        "few": lambda: fit_impedance(
            ImpedanceSweep(frequency=F[50:64:2], magnitude=skewed.magnitude[50:64:2])),
        "seven": lambda: fit_impedance(_seven(phase=False)),
        "seven with phase": lambda: fit_impedance(_seven(phase=True)).fs,
        "coarse": lambda: fit_impedance(
            ImpedanceSweep(frequency=F[::24], magnitude=skewed.magnitude[::24])),
        "columns": lambda: ImpedanceSweep(frequency=F[::-1], magnitude=F),
    }  # fmt: skip
    return out | {"refused": refusals(calls)}


def sheets() -> Mapping[str, object]:
    """Show drivers completed from some of their figures, and those that contradict."""
    few = ("fs", "qes", "qms", "vas", "re", "sd")
    plain = {name: SHEET[name] for name in few}
    by_motor = {"mms": 0.16, "cms": 1.84e-4, "rms": 6.3, "bl": 14.96, "re": 3.3, "diameter": 0.251}
    calls: dict[str, Callable[[], object]] = {
        "plain": lambda: complete_driver(**plain, le=1e-3, xmax=0.011),
        "motor": lambda: complete_driver(**by_motor, air=standard_at(283.0)),
        "qts": lambda: complete_driver(fs=29.0, qts=0.394, qms=4.7, vas=0.064, re=3.3, sd=0.0495),
        "qts and qes": lambda: complete_driver(
            fs=29.0, qts=0.394, qes=0.43, vas=0.064, re=3.3, sd=0.0495),
        "efficiency": lambda: complete_driver(
            fs=29.0, efficiency=0.0035, qms=4.7, vas=0.064, re=3.3, sd=0.0495),
        "all": lambda: complete_driver(**SHEET),
        "one wrong": lambda: complete_driver(**(SHEET | {"bl": 21.0})),
        "slip": lambda: complete_driver(**(SHEET | {"mms": 1.6})),
        "strict": lambda: complete_driver(**(plain | {"mms": 0.17, "qts": 0.4}), tolerance=0.02),
        "missing": lambda: complete_driver(fs=29.0, qts=0.394),
        "impossible": lambda: complete_driver(fs=29.0, qts=0.5, qes=0.43),
        "impossible later": lambda: complete_driver(
            **{k: v for k, v in by_motor.items() if k != "rms"}, qts=0.9),
        "nothing": lambda: complete_driver(fs=0.0),
        "xmech": lambda: Driver(**plain, xmax=0.02, xmech=0.01),
        "as far": lambda: Driver(**plain, xmax=0.02, xmech=0.02),
        "negative": lambda: Driver(**plain, le=-1.0),
    }  # fmt: skip
    misread = {
        name: row(misread_figures(SHEET | change))
        for name, change in {
            "fine": {}, "bl": {"bl": 21.0}, "mms": {"mms": 160.0}, "qts": {"qts": 3.94},
            "two": {"bl": 21.0, "fs": 40.0}, "unknown": {"mms": 0.0},
        }.items()
    }  # fmt: skip
    return {**refusals(calls), "misread": misread}


def _proved(fit: BoxFit, drawn: float) -> Mapping[str, object]:
    checked = {
        str(closed): findings(check_finished_box(fit, drawn=drawn, closed=closed))
        for closed in (True, False)
    }
    errors = list(fit.standard_errors.items())
    return {
        "figures": row(fit.resonance, fit.ql, fit.misfit, fit.one_leak, fit.several, errors),
        "driver": row(fit.driver.fs, fit.driver.qes, fit.driver.qms, fit.driver.re, fit.driver.vas),
        **checked,
    }


def finished() -> Mapping[str, object]:
    """Show finished boxes proved by their impedance, and those that are another box."""
    rng = np.random.default_rng(6)
    at = np.geomspace(8.0, 600.0, 110)
    built = replace(SUB, qes=0.47, re=3.45)
    pairs: dict[str, tuple[Box, Box]] = {
        "sealed": (BOXES["sealed"], replace(BOXES["sealed"], volume=0.034, ql=6.0)),
        "vented": (BOXES["vented"], replace(BOXES["vented"], volume=0.055, ql=5.0)),
        "radiators": (
            PassiveRadiatorBox(volume=0.05, radiator=CONE, ql=9.0),
            PassiveRadiatorBox(volume=0.048, radiator=replace(CONE, mms=0.12), ql=7.0, qa=30.0),
        ),
        "door": (Door(volume=0.045, ql=20.0), Door(volume=0.05, ql=12.0)),
        "band-pass": (BOXES["band-pass"], BOXES["band-pass"]),
    }
    out: dict[str, object] = {}
    curves: dict[str, ImpedanceSweep] = {}
    for name, (drawn, real) in pairs.items():
        z = sweep(driver=built, box=real, frequencies=at).impedance
        curves[name] = ImpedanceSweep(
            frequency=at,
            magnitude=np.abs(z) * (1 + 0.003 * rng.standard_normal(at.size)),
            phase=None if name == "door" else np.rad2deg(np.angle(z)),
        )
        out[name] = _proved(fit_finished_box(curves[name], driver=SUB, box=drawn), 36.0)
    fit = fit_finished_box(curves["sealed"], driver=SUB, box=BOXES["sealed"])
    out["fits"] = findings(
        finding
        for misfit in (POOR_FIT * 0.999, POOR_FIT * 1.001)
        for finding in check_finished_box(
            replace(fit, misfit=misfit), drawn=fit.resonance, closed=True
        )
    )
    sealed, vented = curves["sealed"], curves["vented"]
    open_door = Door(volume=0.04, ql=3.0, opening=Vent(area=0.01, effective_length=0.1))
    calls: dict[str, Callable[[], object]] = {
        "baffle": lambda: fit_finished_box(sealed, driver=SUB, box=InfiniteBaffle()),
        "other coil": lambda: fit_finished_box(sealed, driver=replace(SUB, re=6.0),
            box=BOXES["sealed"]),
        "one peak": lambda: fit_finished_box(sealed, driver=SUB, box=BOXES["vented"]),
        "two peaks": lambda: fit_finished_box(vented, driver=SUB, box=BOXES["sealed"]),
        "low": lambda: fit_finished_box(sealed, driver=replace(SUB, fs=70.0), box=BOXES["sealed"]),
        "no box": lambda: fit_finished_box(
            replace(sealed, magnitude=sealed.magnitude * np.where(at > 200.0, 0.6, 1.0)),
            driver=SUB, box=BOXES["sealed"]),
        "few": lambda: fit_finished_box(
            ImpedanceSweep(frequency=at[::20], magnitude=sealed.magnitude[::20]),
            driver=SUB, box=open_door),
    }  # fmt: skip
    return out | {"refused": refusals(calls)}


def loudest() -> Mapping[str, object]:
    """Show the box of given litres that plays loudest, closed and vented, with limits."""
    given = {"volume": 0.045, "amplifier_voltage": 40.0}
    beside = Vent(area=0.002, effective_length=0.3)
    calls: dict[str, Callable[[], object]] = {
        "closed": lambda: loudest_box(SUB, 30.0, 80.0, vented=False, losses={"ql": 10.0}, **given),
        "vented": lambda: loudest_box(
            SUB, 32.0, 80.0, vented=True, losses={"ql": 9.0, "qp": 60.0}, **given),
        "area": lambda: loudest_box(
            SUB, 32.0, 80.0, vented=True, area=0.004, amplifier_current=8.0, **given),
        "beside": lambda: loudest_box(
            SUB, 30.0, 80.0, vented=True, area=0.004, second=beside, **given),
        "beside too much": lambda: loudest_box(
            SUB, 20.0, 25.0, vented=True, second=replace(beside, area=0.05), **given),
        "turned": lambda: loudest_box(SUB, 80.0, 30.0, vented=True, **given),
        "no xmax": lambda: loudest_box(replace(SUB, xmax=None), 30.0, 80.0, vented=False, **given),
    }  # fmt: skip
    return refusals(calls)


LINES = "\n".join(f"{20 * 2**n} {7.5 - n / 8} {n - 4}" for n in range(9))


def columns() -> Mapping[str, object]:
    """Show files of columns, as programs write them, and what makes them unreadable."""
    swapped = "\n".join(f"{7.5 - n / 8} {20 * 2**n}" for n in range(9))
    texts: dict[str, str | bytes] = {
        "plain": LINES,
        "latin": ("* Ω\n" + LINES).encode("utf-16"),
        "commented": "# Freq Z Phase\n% none\n" + LINES + "\n! end",
        "commas": LINES.replace(" ", ", "),
        "semicolons": LINES.replace(".", ",").replace(" ", ";"),
        "tabs": LINES.replace(" ", "\t"),
        "decimal commas": LINES.replace(".", ","),
        "falling": "\n".join(LINES.splitlines()[::-1]),
        "named": "Z (ohm)  Freq (Hz)\n" + swapped,
        "kilohertz": "freq kHz  Z  P\n"
        + "\n".join(f"{0.02 * 2**n} {7 - n / 8} {n}" for n in range(9)),
        "two": "\n".join(f"{20 * 2**n},{7.5 - n / 8}" for n in range(9)),
    }
    bad: dict[str, str | bytes] = {
        "empty": "", "few": "20 7\n30 8", "binary": b"\x00\x01", "words": LINES + "\nx 3 4",
        "count": LINES + "\n9000 4", "infinite": LINES + "\n9000 1e999 3", "swapped": swapped,
        "order": LINES + "\n40 3 4", "low": "\n".join(f"{n + 1} 4" for n in range(9)),
        "in kHz": "kHz Z P\n" + LINES, "separator": LINES.replace(".", ",").replace(" ", ","),
        "negative": LINES.replace(" 7.5", " -7.5"), "reactive": LINES.replace(" -4", " -104"),
        "four": LINES.replace(" ", " 1 "), "long": "1" * 2_000_001,
    }  # fmt: skip
    out: dict[str, object] = {
        name: refusal(lambda text=text: parse_columns(text)) for name, text in texts.items()
    }
    out |= {name: refusal(lambda text=text: parse_impedance(text)) for name, text in bad.items()}
    return out


SCENES = {
    "sweeps": sweeps,
    "sheets": sheets,
    "finished": finished,
    "loudest": loudest,
    "columns": columns,
}
