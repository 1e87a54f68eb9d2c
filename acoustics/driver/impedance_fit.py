"""Fit a driver's parameters to a measured impedance curve."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import cast

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares
from scipy.signal import find_peaks

from acoustics.driver.coil import SHAPES, CoilShape, coil_impedance, coil_in_the_bass
from acoustics.driver.impedance_sweep import ImpedanceSweep, crossings, symmetric_fs
from acoustics.driver.no_sweep import (
    refuse_amplifier,
    refuse_decibels,
    refuse_other_units,
    refuse_radians,
    refuse_second_peak,
)
from acoustics.errors import COUNT, FitError, Quantity
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.sources import Source
from acoustics.values import Complexes, Floats, Real, require_positive

COIL = ("le", "coil_factor", "coil_exponent", "second_le", "second_resistance")
_COIL = 4  # the fit moves ln fs, ln Re, ln Qms, ln Qes, then three numbers of the voice coil
_FAR = 100.0  # in ln: a curve no driver has leads a fit past any number
ASYMMETRY = 0.01  # sqrt(f1 f2) against fs; common practice, no source
HIDDEN = 0.005  # share of Re that a lossy coil adds at fs before a meter is asked for; our choice
LIKELIER = 20.0  # how much a bridged coil has to be before it is believed; our choice
VAGUE = 0.2  # largest standard error over the value that is still an answer; our choice
FEWEST_ACROSS = 2  # points above sqrt(Re Rmax) that a fit needs; our choice
NO_DRIVER = 0.1  # misfit above which nothing is told; our choice
POOR_FIT = 0.03  # root mean square of the relative misfit; common practice, no source


@dataclass(frozen=True, kw_only=True)
class ImpedanceFit:
    """Parameters that an impedance sweep tells, and how sure they are.

    Attributes:
        fs: resonance [Hz]
        re: resistance of the voice coil at direct current [Ω]
        qms: mechanical Q at fs [-]
        qes: electrical Q at fs [-]
        qts: total Q at fs [-]
        le: inductance of the voice coil [H]
        coil_factor: factor K of the lossy voice coil, K s^n [Ω·sⁿ]
        coil_exponent: exponent n of the lossy voice coil, idle while K is 0 [-]
        second_le: inductance L2 that R2 bridges, where that fits better than K s^n [H]
        second_resistance: resistance R2 across it [Ω]
        standard_errors: standard errors of fs, re, qms, qes and qts by name [as the parameter]
        misfit: root mean square of the relative difference to the measured curve [-]
        symmetric_fs: sqrt(f1 f2), or None when the sweep does not reach f1 and f2 [Hz]
        findings: what to look at
    """

    fs: float
    re: float
    qms: float
    qes: float
    qts: float
    le: float
    coil_factor: float
    coil_exponent: float
    second_le: float
    second_resistance: float
    standard_errors: Mapping[str, float]
    misfit: float
    symmetric_fs: float | None
    findings: tuple[Finding, ...]

    def coil_up_to(self, highest: float) -> tuple[float, float]:
        """Inductance and semi-inductance that come nearest to the fitted coil in the bass.

        Args:
            highest: highest frequency that matters [Hz]

        Returns: inductance [H] and semi-inductance [Ω·√s]

        Raises:
            OutOfRangeError: the frequency is not above zero.
        """
        return coil_in_the_bass(self.coil, highest)

    @property
    def coil(self) -> dict[str, float]:
        """Figures of the fitted coil by the names of coil_impedance.

        Returns: figures by name [SI]
        """
        return {name: getattr(self, name) for name in COIL}


def driver_impedance(
    frequency: Floats,
    *,
    fs: Real,
    re: Real,
    qms: Real,
    qes: Real,
    le: Real = 0.0,
    coil_factor: Real = 0.0,
    coil_exponent: Real = 0.5,
    second_le: Real = 0.0,
    second_resistance: Real = 0.0,
) -> Complexes:
    """Impedance of a driver in free air.

    Z = Re + s Le + K s^n + s L2 R2/(R2 + s L2) + Re (Qms/Qes) x/(1 + x + (s/ωs)²), x = s/(ωs Qms).

    Args:
        frequency: frequency [Hz]
        fs: resonance [Hz]
        re: resistance of the voice coil [Ω]
        qms: mechanical Q at fs [-]
        qes: electrical Q at fs [-]
        le: inductance of the voice coil [H]
        coil_factor: factor K of the lossy voice coil [Ω·sⁿ]
        coil_exponent: exponent n of the lossy voice coil; 0.5 is a semi-inductance [-]
        second_le: inductance L2 that its resistance bridges; none while it is 0 [H]
        second_resistance: resistance R2 across it [Ω]

    Returns: complex impedance [Ω]

    Source: R. H. Small, "Direct-Radiator Loudspeaker System Analysis", JAES 20 (1972) 383-395;
        the coil: as coil_impedance.
    """
    s = cast("Complexes", 2j * np.pi * frequency)
    p = 1j * frequency / fs
    motional = re * qms / qes * (p / qms) / (1.0 + p / qms + p**2)
    coil = coil_impedance(
        s,
        le=le,
        coil_factor=coil_factor,
        coil_exponent=coil_exponent,
        second_le=second_le,
        second_resistance=second_resistance,
    )
    return re + coil + motional


def fit_impedance(sweep: ImpedanceSweep, *, re: float | None = None) -> ImpedanceFit:
    """Fit fs, Re, Qms, Qes and the voice-coil inductance to a free-air sweep.

    Two shapes of a lossy coil are tried, s Le + K s^n and s Le + L2 beside R2, and the nearer kept.
    Least squares on the logarithm of the impedance (magnitude, and phase when it was measured),
    so that every point counts by its relative error. The inductance is in the model, hence does
    not bias the Q values as it does in the three-frequency method.

    Args:
        sweep: measured sweep, in free air or in the box to be analysed
        re: voice-coil resistance measured at direct current; fitted unless given [Ω]

    Returns: parameters with standard errors

    Raises:
        FitError: no resonance peak inside the sweep, or too few points around it: a parameter
            would be uncertain by more than 20 %; two peaks; a curve no single driver has;
            phase in radians; decibels; an amplifier left connected; figures that no loudspeaker in
            hertz and ohms has.
        OutOfRangeError: re is not above zero.

    Valid: one resonance; small signals; random, independent errors for the standard errors.

    Source: model as driver_impedance; f1, f2 and their check: R. H. Small, JAES 20 (1972) 383-395.
    """
    if re is not None:
        require_positive(Name.COIL_RESISTANCE, re, "Ω")
    refuse_radians(sweep.magnitude, sweep.phase)
    refuse_amplifier(sweep.magnitude)
    start, scales = _first_guess(sweep, re)
    fits = []
    for shape in SHAPES:
        fits.append(_least_misfit(sweep, start, shape(*scales), re))
        start = fits[-1].driver
    best = min(fits, key=lambda fit: fit.rms)
    # As many numbers each: the nearer is the likelier (Akaike). A coil without loss is both.
    if fits[0].rms < best.rms * math.exp(math.log(LIKELIER) / len(best.misfit)):
        best = fits[0]
    values = best.values | {"qts": 1 / (1 / best.values["qms"] + 1 / best.values["qes"])}
    errors = _standard_errors(values, _covariance(best.jacobian, best.misfit, best.moving))
    if best.rms > NO_DRIVER:
        raise FitError(code="fits-no-driver", value=Quantity(best.rms), limit=Quantity(NO_DRIVER))
    vague = tuple(Name(name) for name, error in errors.items() if error > VAGUE * values[name])
    if vague and best.rms <= POOR_FIT:  # a curve that does not fit is reported as such instead
        raise FitError(code="uncertain", names=vague)
    refuse_decibels(sweep.magnitude, sweep.phase, best.rms, lambda: _as_decibels(sweep))
    refuse_other_units(values)
    measured = symmetric_fs(sweep, values["fs"], values["re"])
    expected = symmetric_fs(_as_fitted(sweep, values), values["fs"], values["re"])
    findings = _sweep_findings(expected, measured, best.rms)
    if re is None and _hides_resistance(values):
        findings += (Finding(code="coil-resistance-fitted", value=values["re"], unit="Ω"),)
    return ImpedanceFit(
        **values,
        standard_errors=errors,
        misfit=best.rms,
        symmetric_fs=measured,
        findings=findings,
    )


@dataclass(frozen=True, kw_only=True)
class _Least:
    """Where least squares end for one shape of the coil."""

    driver: Floats
    values: dict[str, float]
    misfit: Floats
    jacobian: Floats
    moving: NDArray[np.bool_]

    @property
    def rms(self) -> float:
        return float(np.sqrt(np.mean(self.misfit**2)))


def _least_misfit(
    sweep: ImpedanceSweep, driver: Floats, coil: CoilShape, re: float | None
) -> _Least:
    start = np.array([*driver, *coil.start])
    free = np.array([True, re is None, True, True, True, True, True])
    measured = np.log(sweep.magnitude)
    phase = None if sweep.phase is None else np.deg2rad(sweep.phase)
    if len(measured) * (1 if phase is None else 2) < np.count_nonzero(free) + 2:
        value, limit = Quantity(len(measured), COUNT), Quantity(int(free.sum()), COUNT)
        raise FitError(code="too-few-points", value=value, limit=limit)

    def whole(part: Floats) -> Floats:
        x = start.copy()
        x[free] = part
        return x

    def misfit(part: Floats) -> Floats:
        ratio = np.log(driver_impedance(sweep.frequency, **_parameters(whole(part), coil)))
        magnitude: Floats = ratio.real - measured
        return magnitude if phase is None else np.concatenate([magnitude, ratio.imag - phase])

    def slopes(part: Floats) -> Floats:
        each = _log_slopes(sweep.frequency, whole(part), coil)[:, free]
        return each.real if phase is None else np.vstack([each.real, each.imag])

    lowest = np.array([*[-np.inf] * _COIL, *coil.lowest])
    highest = np.array([*[np.inf] * _COIL, *coil.highest])
    with np.errstate(all="ignore"):  # a curve no driver has leads anywhere
        solution = least_squares(
            misfit,
            start[free],
            jac=slopes,
            bounds=(lowest[free], highest[free]),
            x_scale="jac",
            xtol=1e-9,
            ftol=1e-9,
        )
    x = whole(solution.x)
    moving = free & (x > lowest + 1e-9) & (x < highest - 1e-9)
    return _Least(
        driver=x[:_COIL],
        values={**dict.fromkeys(COIL, 0.0), "coil_exponent": 0.5, **_parameters(x, coil)},
        misfit=solution.fun,
        jacobian=np.asarray(solution.jac)[:, moving[free]],
        moving=moving,
    )


def _parameters(x: Floats, coil: CoilShape) -> dict[str, float]:
    """Parameters by name from the numbers the fit moves: logarithms, and those of the coil."""
    fs, re, qms, qes = (float(value) for value in np.exp(np.clip(x[:_COIL], -_FAR, _FAR)))
    return {"fs": fs, "re": re, "qms": qms, "qes": qes, **coil.figures(x[_COIL:])}


def _log_slopes(frequency: Floats, x: Floats, coil: CoilShape) -> Complexes:
    """Slope of ln Z by each of the seven numbers of the fit, one column each."""
    now = _parameters(x, coil)
    s = cast("Complexes", 2j * np.pi * frequency)
    p = 1j * frequency / now["fs"]
    bottom = 1.0 + p / now["qms"] + p**2
    motional = now["re"] / now["qes"] * p / bottom
    columns = [
        -motional * (1.0 - p**2) / bottom,  # ln fs
        now["re"] + motional,  # ln Re
        motional * (p / now["qms"]) / bottom,  # ln Qms
        -motional,  # ln Qes
        *coil.slopes(x[_COIL:], s),
    ]
    return np.stack(columns, axis=1) / driver_impedance(frequency, **now)[:, None]


def _as_decibels(sweep: ImpedanceSweep) -> float:
    """How far a driver misses the curve where its figures are taken for decibels of an ohm."""
    read = ImpedanceSweep(frequency=sweep.frequency, magnitude=10 ** (sweep.magnitude / 20))
    try:
        start, scales = _first_guess(read, None)
    except FitError:
        return np.inf
    fits = [_least_misfit(read, start, shape(*scales), None) for shape in SHAPES]
    return min(fit.rms for fit in fits)


def _hides_resistance(values: Mapping[str, float]) -> bool:
    """Whether the coil's losses raise its resistance at fs by more than a fit tells from Re."""
    s = np.array([2j * np.pi * values["fs"]])
    at_fs = coil_impedance(s, **{name: values[name] for name in COIL})
    return float(at_fs.real[0]) > HIDDEN * values["re"]


def _first_guess(sweep: ImpedanceSweep, re: float | None) -> tuple[Floats, tuple[float, float]]:
    """Start of the fit by the three-frequency method; resistance and ω that scale the coil."""
    level = np.log(sweep.magnitude)
    peaks, about = find_peaks(level, prominence=0.05)
    if len(peaks) == 0:
        raise FitError(code="no-peak")
    heights = about["prominences"]
    peak = int(peaks[np.argmax(heights)])
    refuse_second_peak(sweep.frequency[peaks], heights)
    fs, highest = float(sweep.frequency[peak]), float(sweep.magnitude[peak])
    base = re if re is not None else float(sweep.magnitude.min())
    ratio = max(highest / base, 1.05)
    high = sweep.magnitude > base * np.sqrt(ratio)
    left, right = np.cumprod(high[peak::-1]), np.cumprod(high[peak:])
    across = int(left.sum() + right.sum()) - 1
    if across < FEWEST_ACROSS:
        raise FitError(code="coarse", value=Quantity(fs, "Hz"))
    crossed = crossings(sweep, peak, base * np.sqrt(ratio))
    below, above = crossed[0] or fs**2 / (crossed[1] or 1.5 * fs), crossed[1]
    above = above or fs**2 / below
    qms = fs * np.sqrt(ratio) / max(above - below, 1e-3 * fs)
    qes = qms / (ratio - 1.0)
    top = 2.0 * np.pi * float(sweep.frequency[-1])
    return np.log([fs, base, qms, qes]), (base, top)


def _covariance(jacobian: Floats, misfit: Floats, moving: NDArray[np.bool_]) -> Floats:
    """Covariance of the seven numbers of the fit; those held or at their bound have none.

    A direction in which the voice coil's numbers trade places (no loss: any exponent will do) is
    left out; one that reaches fs, Re or a Q means that the sweep does not determine them.
    """
    size = np.linalg.norm(jacobian, axis=0)
    told = size > 1e-9 * size.max()
    _, singular, directions = np.linalg.svd(jacobian[:, told] / size[told], full_matrices=False)
    clear = singular > 1e-8 * singular[0]
    index = np.nonzero(moving)[0][told]
    vague = np.abs(directions[~clear][:, index < _COIL])
    if not np.isin(np.nonzero(moving[:_COIL])[0], index).all() or np.any(vague > 0.1):
        raise FitError(code="undetermined")
    scaled = directions[clear].T / singular[clear] / size[told][:, None]
    full = np.zeros((7, 7))
    freedom = len(misfit) - np.count_nonzero(clear)
    full[np.ix_(index, index)] = scaled @ scaled.T * float(misfit @ misfit) / freedom
    return full


def _standard_errors(values: Mapping[str, float], covariance: Floats) -> dict[str, float]:
    """Standard errors by name; that of Qts takes the tie between Qms and Qes into account."""
    spread = np.sqrt(np.diag(covariance))
    names = ("fs", "re", "qms", "qes")
    errors = {name: float(values[name] * spread[i]) for i, name in enumerate(names)}
    slope = np.zeros(7)
    slope[2] = values["qts"] / values["qms"]
    slope[3] = values["qts"] / values["qes"]
    errors["qts"] = values["qts"] * float(np.sqrt(slope @ covariance @ slope))
    return errors


def _as_fitted(sweep: ImpedanceSweep, values: Mapping[str, float]) -> ImpedanceSweep:
    """The fitted driver at the frequencies measured, its coil included."""
    figures = {name: value for name, value in values.items() if name != "qts"}
    magnitude = np.abs(driver_impedance(sweep.frequency, **figures))
    return ImpedanceSweep(frequency=sweep.frequency, magnitude=magnitude)


def _sweep_findings(
    expected: float | None, symmetric: float | None, misfit: float
) -> tuple[Finding, ...]:
    findings = []
    if symmetric and expected and abs(symmetric / expected - 1.0) > ASYMMETRY:
        findings.append(
            Finding(
                code="sweep-not-symmetric",
                value=symmetric,
                limit=expected,
                unit="Hz",
                source=(Source.SMALL_EVEN_PEAK,),
            )
        )
    if misfit > POOR_FIT:
        findings.append(
            Finding(
                code="sweep-fits-badly",
                value=misfit,
                limit=POOR_FIT,
                unit="-",
            )
        )
    return tuple(findings)
