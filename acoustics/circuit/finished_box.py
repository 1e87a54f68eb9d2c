"""What an impedance sweep of a finished box tells: its tuning, its losses and its leak.

The drawn system is moved until its impedance lies on the measured one. Moved are the coil, the
force factor, the air and the port, and where the curve has a peak on each side of the tuning, the
suspension too; the moving mass is held, for no impedance tells it. All loss of the box is first
put into one leak; losses in port and lining are let in where they explain the curve far better.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, cast

import numpy as np
from scipy.optimize import least_squares
from scipy.signal import find_peaks

from acoustics.air.air import STANDARD, Air
from acoustics.circuit.solver import sweep
from acoustics.driver.driver import Driver
from acoustics.driver.impedance_sweep import ImpedanceSweep
from acoustics.driver.no_sweep import refuse_amplifier, refuse_radians
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Box, Door, PassiveRadiatorBox, Sealed, Vented
from acoustics.errors import COUNT, FitError, Quantity
from acoustics.values import Floats

# All of these are our choice.
HIGHEST = 500.0  # above it coil and wood do what no lumped box does [Hz]
PEAK = 0.1  # prominence of a peak in ln |Z|
OTHER_COIL = 1.6  # lowest impedance over the coil's resistance, or under it
NO_BOX = 0.1  # misfit above which nothing is told
LIKELIER = 1000.0  # how much several losses have to be before one leak is given up
LEAKIEST, TIGHT = 0.3, 1000.0  # Q of a loss beyond which a sweep tells it from nothing no more
WITHIN = 30.0  # how far, as a factor, a figure may lie from where the fit begins


@dataclass(frozen=True, kw_only=True)
class BoxFit:
    """A finished box as its impedance tells it.

    Attributes:
        driver: driver as found, its moving mass as before
        box: box as found, tuning, air and losses
        resonance: tuning fb, or resonance fc of a closed box with its driver [Hz]
        ql: Q of all loss taken as one leak, at that resonance [-]
        standard_errors: standard errors of resonance and ql by name [as the figure]
        misfit: root mean square of the relative difference to the measured curve [-]
        one_leak: the same while all loss is one leak [-]
        several: Q of leak, port and lining by name where one leak does not explain it [-]
    """

    driver: Driver
    box: Box
    resonance: float
    ql: float
    standard_errors: Mapping[str, float]
    misfit: float
    one_leak: float
    several: Mapping[str, float]


def fit_finished_box(
    measured: ImpedanceSweep, *, driver: Driver, box: Box, air: Air = STANDARD
) -> BoxFit:
    """Fit tuning, losses and coil of a drawn box to the impedance of the finished one.

    Args:
        measured: sweep across the terminals of the box
        driver: its driver, or the equivalent of several, as it is thought to be
        box: the box as drawn
        air: air it was measured in

    Returns: the box as found

    Raises:
        FitError: an amplifier across the box; radians; more or fewer peaks than the kind has;
            another coil than the driver's; a peak below the driver's own; too few points; a curve
            such a box cannot have.

    Valid: piston range, small signals, up to 500 Hz.

    Source: the solver; start: R. H. Small, "Vented-Box Loudspeaker Systems, Part IV", JAES 21
        (1973), from memory.
    """
    refuse_radians(measured.magnitude, measured.phase)
    refuse_amplifier(measured.magnitude)
    used = measured.frequency <= HIGHEST
    curve = ImpedanceSweep(
        frequency=measured.frequency[used],
        magnitude=measured.magnitude[used],
        phase=None if measured.phase is None else measured.phase[used],
    )
    _refuse_other_coil(curve, driver)
    start = _start(curve, driver, box, air)
    leak = _least(curve, _Model.of(driver, box, start, ("ql",)))
    several = _least(curve, _Model.of(driver, box, start, _places(box), leak.figures))
    best = several if _explains_more(leak, several) else leak
    if best.rms > NO_BOX:
        raise FitError(code="fits-no-box", value=Quantity(best.rms), limit=Quantity(NO_BOX))
    found_driver, found_box = best.system()
    resonance = float(_resonance(found_box, found_driver, air))
    errors = best.errors(lambda d, b: float(_resonance(b, d, air)))
    return BoxFit(
        driver=found_driver,
        box=found_box,
        resonance=resonance,
        ql=leak.figures["ql"],
        standard_errors={"resonance": errors, "ql": leak.error_of("ql")},
        misfit=best.rms,
        one_leak=leak.rms,
        several={name: several.figures[name] for name in _places(box)}
        if best is several and best is not leak
        else {},
    )


def _resonance(box: Box, driver: Driver, air: Air) -> Any:
    """Tuning of the chamber that is heard, or resonance in a closed one."""
    chamber = box.front if isinstance(box, BandPass) else box
    assert isinstance(chamber, Sealed | Vented | PassiveRadiatorBox | Door)
    return chamber.resonance(driver, air)


def _places(box: Box) -> tuple[str, ...]:
    """Where a kind of box can lose energy."""
    if isinstance(box, Vented):
        return ("ql", "qa", "qp")
    if isinstance(box, PassiveRadiatorBox):
        return ("ql", "qa")
    return ("ql",)  # of a closed box, leak and lining look alike


def _refuse_other_coil(curve: ImpedanceSweep, driver: Driver) -> None:
    lowest, re = float(curve.magnitude.min()), float(driver.re)
    if not re / OTHER_COIL <= lowest <= re * OTHER_COIL:
        raise FitError(code="other-coil", value=Quantity(lowest, "Ω"), limit=Quantity(re, "Ω"))


def _peaks_of(box: Box) -> int:
    if isinstance(box, BandPass):
        return 1 + _peaks_of(box.rear)
    return 2 if isinstance(box, Vented | PassiveRadiatorBox) else 1


def _start(curve: ImpedanceSweep, driver: Driver, box: Box, air: Air) -> dict[str, float]:
    """Where the fit begins, read off the peaks; and what says that it is another box."""
    level = np.log(curve.magnitude)
    peaks, about = find_peaks(level, prominence=PEAK)
    wanted = _peaks_of(box)
    if len(peaks) < wanted:
        value, limit = Quantity(len(peaks), COUNT), Quantity(wanted, COUNT)
        raise FitError(code="box-lacks-peak", value=value, limit=limit)
    strongest = np.sort(peaks[np.argsort(about["prominences"])[::-1][: wanted + 1]])
    prominent = np.sort(about["prominences"])[::-1]
    if len(peaks) > wanted and prominent[wanted] > 0.5 * prominent[wanted - 1]:
        low, high = (float(curve.frequency[place]) for place in strongest[[0, -1]])
        raise FitError(
            code="box-peak-too-many", value=Quantity(low, "Hz"), limit=Quantity(high, "Hz")
        )
    kept = np.sort(peaks[np.argsort(about["prominences"])[::-1][:wanted]])
    first, last = float(curve.frequency[kept[0]]), float(curve.frequency[kept[-1]])
    if wanted == 1:
        fs = float(driver.fs)
        if first <= fs:
            raise FitError(
                code="peak-below-driver", value=Quantity(first, "Hz"), limit=Quantity(fs, "Hz")
            )
        return {"volume": float(driver.vas) / ((first / fs) ** 2 - 1.0)}
    if isinstance(box, BandPass):
        return {}
    between = slice(kept[0], kept[-1] + 1)
    tuning = float(curve.frequency[between][np.argmin(level[between])])
    alpha = (last**2 - tuning**2) * (tuning**2 - first**2) / (last * first) ** 2
    fs = first * last / tuning
    vas = float(driver.vas) * (float(driver.fs) / fs) ** 2
    return {"fs": fs, "tuning": tuning, "volume": vas / alpha}


@dataclass(frozen=True, kw_only=True)
class _Model:
    """The drawn system with the figures a fit moves, and where they begin."""

    driver: Driver
    drawn: Box
    start: Mapping[str, float]

    @classmethod
    def of(
        cls,
        driver: Driver,
        box: Box,
        read: Mapping[str, float],
        places: Sequence[str],
        before: Mapping[str, float] | None = None,
    ) -> "_Model":
        top = 2 * math.pi * 100.0
        start = {
            "re": float(driver.re),
            "qes": float(driver.qes),
            "le": max(float(driver.le), 0.02 * float(driver.re) / top),
            "semi_inductance": max(
                float(driver.semi_inductance), 0.02 * float(driver.re) / math.sqrt(top)
            ),
            **_air_of(box, driver),
            **dict(read),
            **dict.fromkeys(places, 10.0),
        }
        if "fs" in start:
            start["qms"] = float(driver.qms)
        if before:
            start |= dict(before) | {name: 50.0 for name in places if name != "ql"}
        return cls(driver=driver, drawn=box, start=start)

    def system(self, figures: Mapping[str, Any]) -> tuple[Driver, Box]:
        """Driver and box with these figures, each a number or an array of candidates."""
        fs = figures.get("fs", self.driver.fs)
        driver = replace(
            self.driver,
            fs=fs,
            qms=figures.get("qms", self.driver.qms),
            qes=figures["qes"],
            re=figures["re"],
            le=figures["le"],
            semi_inductance=figures["semi_inductance"],
            vas=self.driver.vas * (self.driver.fs / fs) ** 2,
        )
        return driver, _box_with(self.drawn, figures)


def _air_of(box: Box, driver: Driver) -> dict[str, float]:
    """Air and tuning of a box as drawn, by the names the fit moves them under."""
    if isinstance(box, Vented | PassiveRadiatorBox):
        air = {
            "volume": float(box.volume),
            "tuning": float(box.resonance()),
            "fs": float(driver.fs),
        }
        # No impedance tells litres, only what they are to the suspension: the cone's own are moved.
        return air | ({} if isinstance(box, Vented) else {"softness": 1.0})
    if isinstance(box, BandPass):
        front = _air_of(box.front, driver)
        air = {"volume": float(cast(Any, box.rear).volume)}
        air |= {"front_volume": front["volume"], "front_tuning": front["tuning"]}
        if isinstance(box.rear, Vented):
            air["tuning"] = float(box.rear.resonance())
        return air
    if isinstance(box, Sealed | Door):
        return {"volume": float(box.volume)}
    raise FitError(code="no-box-to-prove")


def _box_with(box: Box, figures: Mapping[str, Any]) -> Box:
    """The drawn box with other air, tuning and losses."""
    losses = {name: figures[name] for name in ("ql", "qa", "qp") if name in figures}
    if isinstance(box, BandPass):
        front = {"volume": figures["front_volume"], "tuning": figures["front_tuning"], **losses}
        rear = {"volume": figures["volume"], "ql": cast(Any, box.rear).ql}
        if "tuning" in figures:
            rear |= {"tuning": figures["tuning"], **losses}
        return BandPass(rear=_box_with(box.rear, rear), front=_box_with(box.front, front))
    volume = figures["volume"]
    if isinstance(box, Vented):
        factor = (box.resonance() / figures["tuning"]) ** 2 * box.volume / volume
        return replace(box.lengthened(factor), volume=volume, **losses)
    if isinstance(box, PassiveRadiatorBox):
        cone = box.radiator
        softness = figures["softness"]
        cone = replace(cone, cms=cone.cms * softness, rms=cone.rms / softness, added_mass=0.0)
        stiffness = 1 / cone.compliance + STANDARD.bulk_modulus / volume
        mass = stiffness / (2 * math.pi * figures["tuning"]) ** 2 * cone.count * cone.sd**2
        return replace(box, volume=volume, radiator=replace(cone, mms=mass), **losses)
    assert isinstance(box, Sealed | Door)
    return replace(box, volume=volume, **losses)


@dataclass(frozen=True, kw_only=True)
class _Least:
    """Where least squares end."""

    model: _Model
    x: Floats
    misfit: Floats
    covariance: Floats

    @property
    def rms(self) -> float:
        return float(np.sqrt(np.mean(self.misfit**2)))

    @property
    def figures(self) -> dict[str, float]:
        return dict(zip(self.model.start, map(float, np.exp(self.x)), strict=True))

    def system(self) -> tuple[Driver, Box]:
        return self.model.system(self.figures)

    def error_of(self, name: str) -> float:
        place = list(self.model.start).index(name)
        return self.figures[name] * float(np.sqrt(self.covariance[place, place]))

    def errors(self, figure: Callable[[Driver, Box], float]) -> float:
        """Standard error of what follows from the figures, by a small step in each."""
        step, names = 1e-5, list(self.model.start)

        def at(x: Floats) -> float:
            return figure(*self.model.system(dict(zip(names, map(float, np.exp(x)), strict=True))))

        steps = step * np.eye(len(names))
        slope = np.array([(at(self.x + d) - at(self.x - d)) / (2 * step) for d in steps])
        return float(np.sqrt(slope @ self.covariance @ slope))


def _least(curve: ImpedanceSweep, model: _Model) -> _Least:
    names = list(model.start)
    measured = np.log(curve.magnitude)
    phase = None if curve.phase is None else np.deg2rad(curve.phase)
    points = len(measured) * (1 if phase is None else 2)
    if points < len(names) + 2:
        value, limit = Quantity(len(measured), COUNT), Quantity(len(names), COUNT)
        raise FitError(code="too-few-points", value=value, limit=limit)

    def misfits(x: Floats) -> Floats:
        """Of several candidates at once, one in a row."""
        figures = dict(zip(names, np.exp(x).T, strict=True))
        driver, box = model.system(figures)
        ratio = np.log(sweep(driver=driver, box=box, frequencies=curve.frequency).impedance)
        magnitude = ratio.real - measured
        if phase is None:
            return cast(Floats, magnitude)
        return np.concatenate([magnitude, ratio.imag - phase], axis=-1)

    def misfit(x: Floats) -> Floats:
        return cast(Floats, misfits(x[None, :])[0])

    def slopes(x: Floats) -> Floats:
        step = 1e-5 * np.eye(len(names))
        both = misfits(np.concatenate([x + step, x - step]))
        return ((both[: len(names)] - both[len(names) :]) / 2e-5).T

    start = np.log(list(model.start.values()))
    reach = np.array([math.log(WITHIN)] * len(names))
    lowest, highest = start - reach, start + reach
    coil = np.array([name in ("le", "semi_inductance") for name in names])
    lowest[coil] -= math.log(WITHIN)  # a coil may have next to none of one of them
    losses = np.array([name in _LOSSES for name in names])
    lowest[losses], highest[losses] = math.log(LEAKIEST), math.log(TIGHT)
    with np.errstate(all="ignore"):  # a curve no box has leads anywhere
        solution = least_squares(
            misfit,
            start,
            jac=slopes,
            bounds=(lowest, highest),
            x_scale="jac",
            xtol=1e-9,
            ftol=1e-9,
        )
    jacobian = np.asarray(solution.jac)
    told = np.linalg.norm(jacobian, axis=0) > 1e-9 * np.linalg.norm(jacobian)
    told &= (solution.x > lowest + 1e-6) & (solution.x < highest - 1e-6)
    covariance = np.zeros((len(names), len(names)))
    freedom = points - int(told.sum())
    square = np.linalg.pinv(jacobian[:, told].T @ jacobian[:, told], rcond=1e-12)
    covariance[np.ix_(told, told)] = square * float(solution.fun @ solution.fun) / freedom
    return _Least(model=model, x=solution.x, misfit=solution.fun, covariance=covariance)


_LOSSES = ("ql", "qa", "qp")


def _explains_more(leak: _Least, several: _Least) -> bool:
    """Whether several losses are so much likelier than one leak, by Akaike's measure."""
    more = len(several.x) - len(leak.x)
    points = len(leak.misfit)
    gain = points * math.log(leak.rms / several.rms) - more
    return gain > math.log(LIKELIER)
