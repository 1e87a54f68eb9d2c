"""Fit a driver's parameters to a measured impedance curve."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import cast

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import least_squares, nnls
from scipy.signal import find_peaks

from acoustics.driver.no_sweep import refuse_other_units, refuse_radians, refuse_second_peak
from acoustics.errors import COUNT, FitError, OutOfRangeError, Quantity
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.sources import Source
from acoustics.values import Complexes, Floats, Real, require_positive

_COIL = 4  # the fit moves ln fs, ln Re, ln Qms, ln Qes, then three numbers of the voice coil
ASYMMETRY = 0.01  # sqrt(f1 f2) against fs; common practice, no source
EXPONENTS = (0.4, 0.9)  # of the lossy voice coil; 1 is the inductance beside it
VAGUE = 0.2  # largest standard error over the value that is still an answer; our choice
FEWEST_ACROSS = 2  # points above sqrt(Re Rmax) that a fit needs; our choice
NO_DRIVER = 0.1  # misfit above which nothing is told; our choice
POOR_FIT = 0.03  # root mean square of the relative misfit; common practice, no source


@dataclass(frozen=True, kw_only=True)
class ImpedanceSweep:
    """A measured impedance curve, rising in frequency.

    Attributes:
        frequency: frequency [Hz]
        magnitude: magnitude of the impedance [Ω]
        phase: phase of the impedance, or None when it was not measured [°]

    Raises:
        OutOfRangeError: lengths differ, values are not above zero, or frequencies do not rise.
    """

    frequency: Floats
    magnitude: Floats
    phase: Floats | None = None

    def __post_init__(self) -> None:
        """Refuse columns that are no impedance curve."""
        require_positive(Name.FREQUENCY, self.frequency, "Hz")
        require_positive(Name.IMPEDANCE, self.magnitude, "Ω")
        sizes = {len(self.frequency), len(self.magnitude)}
        if self.phase is not None:
            sizes.add(len(self.phase))
        if len(sizes) != 1 or np.any(np.diff(self.frequency) <= 0.0):
            points = len(self.frequency)
            raise OutOfRangeError(Name.IMPEDANCE_SWEEP, points, COUNT, to_be="equal-rising-columns")


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
    standard_errors: Mapping[str, float]
    misfit: float
    symmetric_fs: float | None
    findings: tuple[Finding, ...]

    def coil_up_to(self, highest: float) -> tuple[float, float]:
        """Inductance and semi-inductance that come nearest to the fitted coil in the bass.

        A driver is described by s Le + K √s; a fitted s Le + K s^n is carried over by least
        squares on its complex impedance, neither value below zero.

        Args:
            highest: highest frequency that matters [Hz]

        Returns: inductance [H] and semi-inductance [Ω·√s]

        Raises:
            OutOfRangeError: the frequency is not above zero.
        """
        require_positive(Name.HIGHEST_FREQUENCY, highest, "Hz")
        s = 2j * np.pi * np.linspace(highest / 50.0, highest, 50)
        coil = s * self.le + self.coil_factor * s**self.coil_exponent
        shapes = np.column_stack([s, np.sqrt(s)]) * [1.0, np.sqrt(np.abs(s[-1]))]
        weights, _ = nnls(
            np.vstack([shapes.real, shapes.imag]), np.concatenate([coil.real, coil.imag])
        )
        return float(weights[0]), float(weights[1] * np.sqrt(np.abs(s[-1])))


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
) -> Complexes:
    """Impedance of a driver in free air.

    Z = Re + s Le + K s^n + Re (Qms/Qes) x/(1 + x + (s/ωs)²), x = s/(ωs Qms).

    Args:
        frequency: frequency [Hz]
        fs: resonance [Hz]
        re: resistance of the voice coil [Ω]
        qms: mechanical Q at fs [-]
        qes: electrical Q at fs [-]
        le: inductance of the voice coil [H]
        coil_factor: factor K of the lossy voice coil [Ω·sⁿ]
        coil_exponent: exponent n of the lossy voice coil; 0.5 is a semi-inductance [-]

    Returns: complex impedance [Ω]

    Source: R. H. Small, "Direct-Radiator Loudspeaker System Analysis", JAES 20 (1972) 383-395;
        K s^0.5: J. Vanderkooy, JAES 37 (1989) 119-128; K s^n: J. R. Wright, "An Empirical Model
        for Loudspeaker Motor Impedance", JAES 38 (1990) 749-754, from memory.
    """
    s = 2j * np.pi * frequency
    p = 1j * frequency / fs
    motional = re * qms / qes * (p / qms) / (1.0 + p / qms + p**2)
    impedance = re + s * le + coil_factor * s**coil_exponent + motional
    return cast("Complexes", impedance)


def fit_impedance(sweep: ImpedanceSweep, *, re: float | None = None) -> ImpedanceFit:
    """Fit fs, Re, Qms, Qes and the voice-coil inductance to a free-air sweep.

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
            phase in radians; figures that no loudspeaker in hertz and ohms has.
        OutOfRangeError: re is not above zero.

    Valid: one resonance; small signals; random, independent errors for the standard errors.

    Source: model as driver_impedance; f1, f2 and their check: R. H. Small, JAES 20 (1972) 383-395.
    """
    if re is not None:
        require_positive(Name.COIL_RESISTANCE, re, "Ω")
    refuse_radians(sweep.magnitude, sweep.phase)
    start, scales = _first_guess(sweep, re)
    free = np.array([True, re is None, True, True, True, True, True])
    measured = np.log(sweep.magnitude)
    phase = None if sweep.phase is None else np.deg2rad(sweep.phase)
    if len(measured) * (1 if phase is None else 2) < np.count_nonzero(free) + 2:
        count, wanted = len(measured), int(np.count_nonzero(free))
        value, limit = Quantity(count, COUNT), Quantity(wanted, COUNT)
        raise FitError(code="too-few-points", value=value, limit=limit)

    def whole(part: Floats) -> Floats:
        x = start.copy()
        x[free] = part
        return x

    def misfit(part: Floats) -> Floats:
        ratio = np.log(driver_impedance(sweep.frequency, **_parameters(whole(part), scales)))
        magnitude: Floats = ratio.real - measured
        return magnitude if phase is None else np.concatenate([magnitude, ratio.imag - phase])

    def slopes(part: Floats) -> Floats:
        each = _log_slopes(sweep.frequency, whole(part), scales)[:, free]
        return each.real if phase is None else np.vstack([each.real, each.imag])

    lowest = np.array([-np.inf, -np.inf, -np.inf, -np.inf, 0.0, 0.0, EXPONENTS[0]])
    highest = np.array([np.inf] * 6 + [EXPONENTS[1]])
    solution = least_squares(
        misfit,
        start[free],
        jac=slopes,
        bounds=(lowest[free], highest[free]),
        x_scale="jac",
        xtol=1e-10,
        ftol=1e-10,
    )
    x = whole(solution.x)
    values = _parameters(x, scales)
    values["qts"] = values["qms"] * values["qes"] / (values["qms"] + values["qes"])
    moving = free & (x > lowest + 1e-9) & (x < highest - 1e-9)
    covariance = _covariance(np.asarray(solution.jac)[:, moving[free]], solution.fun, moving)
    errors = _standard_errors(values, covariance)
    rms = float(np.sqrt(np.mean(solution.fun**2)))
    if rms > NO_DRIVER:
        raise FitError(code="fits-no-driver", value=Quantity(rms), limit=Quantity(NO_DRIVER))
    vague = [name for name, error in errors.items() if error > VAGUE * values[name]]
    if vague and rms <= POOR_FIT:  # a curve that does not fit is reported as such instead
        raise FitError(code="uncertain", names=tuple(Name(name) for name in vague))
    refuse_other_units(values)
    symmetric = _symmetric_fs(sweep, values["fs"], values["re"])
    expected = _symmetric_fs(_as_fitted(sweep, values), values["fs"], values["re"])
    return ImpedanceFit(
        **values,
        standard_errors=errors,
        misfit=rms,
        symmetric_fs=symmetric,
        findings=_sweep_findings(expected, symmetric, rms),
    )


def _parameters(x: Floats, scales: tuple[float, float]) -> dict[str, float]:
    """Parameters by name from the numbers the fit moves: logarithms and fractions."""
    fs, re, qms, qes = (float(value) for value in np.exp(x[:4]))
    base, top = scales
    return {
        "fs": fs,
        "re": re,
        "qms": qms,
        "qes": qes,
        "le": float(x[4]) * base / top,
        "coil_factor": float(x[5]) * base / top ** float(x[6]),
        "coil_exponent": float(x[6]),
    }


def _log_slopes(frequency: Floats, x: Floats, scales: tuple[float, float]) -> Complexes:
    """Slope of ln Z by each of the seven numbers of the fit, one column each."""
    now = _parameters(x, scales)
    base, top = scales
    s = 2j * np.pi * frequency
    p = 1j * frequency / now["fs"]
    bottom = 1.0 + p / now["qms"] + p**2
    motional = now["re"] / now["qes"] * p / bottom
    lossy = base * (s / top) ** x[6]
    columns = [
        -motional * (1.0 - p**2) / bottom,  # ln fs
        now["re"] + motional,  # ln Re
        motional * (p / now["qms"]) / bottom,  # ln Qms
        -motional,  # ln Qes
        base * s / top,  # inductance
        lossy,  # lossy coil
        x[5] * lossy * np.log(s / top),  # its exponent
    ]
    return np.stack(columns, axis=1) / driver_impedance(frequency, **now)[:, None]


def _first_guess(sweep: ImpedanceSweep, re: float | None) -> tuple[Floats, tuple[float, float]]:
    """Start of the fit by the three-frequency method; resistance and ω that scale Le and K."""
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
    crossings = _crossings(sweep, peak, base * np.sqrt(ratio))
    below, above = crossings[0] or fs**2 / (crossings[1] or 1.5 * fs), crossings[1]
    above = above or fs**2 / below
    qms = fs * np.sqrt(ratio) / max(above - below, 1e-3 * fs)
    qes = qms / (ratio - 1.0)
    top = 2.0 * np.pi * float(sweep.frequency[-1])
    start = np.array([*np.log([fs, base, qms, qes]), 0.1, 0.3, 0.65])
    return start, (base, top)


def _crossings(sweep: ImpedanceSweep, peak: int, level: float) -> tuple[float | None, float | None]:
    """Frequencies below and above the peak where the magnitude first falls to a level."""

    def walk(indices: range) -> float | None:
        for inner, outer in pairwise(indices):
            z0, z1 = np.log(sweep.magnitude[[inner, outer]])
            if z1 <= np.log(level) <= z0:
                f0, f1 = np.log(sweep.frequency[[inner, outer]])
                share = (z0 - np.log(level)) / (z0 - z1) if z0 > z1 else 0.0
                return float(np.exp(f0 + share * (f1 - f0)))
        return None

    return walk(range(peak, -1, -1)), walk(range(peak, len(sweep.frequency)))


def _symmetric_fs(sweep: ImpedanceSweep, fs: float, re: float) -> float | None:
    """sqrt(f1 f2) of the measured curve, where |Z| = sqrt(Re Rmax)."""
    near = np.abs(np.log(sweep.frequency / fs)) < 0.2
    if not near.any():
        return None
    peak = int(np.argmax(np.where(near, sweep.magnitude, 0.0)))
    below, above = _crossings(sweep, peak, float(np.sqrt(re * sweep.magnitude[peak])))
    return None if below is None or above is None else float(np.sqrt(below * above))


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
