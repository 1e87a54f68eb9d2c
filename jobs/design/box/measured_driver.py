"""A driver by its measured impedance, held against the catalogue.

Every figure is given as the catalogue writes it: Re of one coil, the rest with both coils driven.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache

import numpy as np

from acoustics.circuit.tolerance_bands import Tolerances
from acoustics.driver.impedance_fit import ImpedanceFit, driver_impedance, fit_impedance
from acoustics.driver.impedance_sweep import ImpedanceSweep
from acoustics.driver.measurement import (
    TOLERANCE,
    MovingParts,
    compare_with_catalogue,
    moving_parts_from_mass,
    moving_parts_from_volume,
    parse_impedance,
)
from acoustics.errors import AcousticsError, MissingError, SweepFileError
from acoustics.names import Name
from jobs.design.box import drivers
from jobs.design.box.drivers import Measured, MeasuredSet
from jobs.design.box.figures import FREQUENCIES, Floats
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, Term, adopt, reason
from jobs.design.wording.columns import column_trouble
from jobs.design.wording.names import Needed, figure_name
from jobs.design.wording.refusals import sentence
from jobs.models import Driver, DriverSweep

SECTION = "equipment"
# Name -> the kind of quantity it is shown as, in the order a data sheet lists them.
KINDS = {
    "fs": "frequency",
    "re": "resistance",
    "qms": "ratio",
    "qes": "ratio",
    "qts": "ratio",
    "mms": "moving_mass",
    "cms": "compliance",
    "rms": "mechanical_resistance",
    "bl": "force_factor",
    "vas": "volume",
}
SEVERAL = 64
SURE = 1.96  # standard errors that hold 19 in 20
# Relative; the least is common practice, no source, the most is what a spread may be drawn from.
LEAST_STRAY, MOST_STRAY = 0.02, 0.5


@dataclass(frozen=True, kw_only=True)
class Row:
    """One figure as measured and as the catalogue has it; None where one of them is silent.

    The error holds the truth in 19 of 20 sweeps.
    """

    name: str
    measured: float | None
    error: float | None
    catalogue: float | None

    @property
    def label(self) -> str:
        """What it is called."""
        return figure_name(Name(self.name))

    @property
    def kind(self) -> str:
        """How it is shown."""
        return KINDS[self.name]

    @property
    def deviation(self) -> float | None:
        """Measured over catalogue, less one."""
        if self.measured is None or self.catalogue is None:
            return None
        return self.measured / self.catalogue - 1

    @property
    def is_outside(self) -> bool:
        """Whether it lies further from the catalogue than parts usually do."""
        return self.deviation is not None and abs(self.deviation) > TOLERANCE


@dataclass(frozen=True, kw_only=True)
class SweepResult:
    """What a stored sweep tells; with `refused` set, nothing but the reason."""

    record: DriverSweep
    findings: Sequence[Finding]
    refused: AcousticsError | None = None
    # Why the second sweep tells nothing, though the first does.
    second_refused: AcousticsError | None = None
    measured: ImpedanceSweep | None = None
    fit: ImpedanceFit | None = None
    second: ImpedanceSweep | None = None
    second_fit: ImpedanceFit | None = None
    moving: MovingParts | None = None
    rows: Sequence[Row] = ()
    figures: MeasuredSet | None = field(default=None)

    @property
    def trouble(self) -> str:
        """Why it tells nothing, in the reader's language."""
        return "" if self.refused is None else reason(self.refused)

    @property
    def second_trouble(self) -> str:
        """Why the second sweep tells nothing."""
        return "" if self.second_refused is None else reason(self.second_refused)

    @property
    def is_used(self) -> bool:
        """Whether the boxes of the job are worked out with it."""
        return self.record.in_use and self.figures is not None


@lru_cache(maxsize=SEVERAL)
def read_and_fit(text: str, resistance: float | None) -> tuple[ImpedanceSweep, ImpedanceFit]:
    """Read a sweep and fit a driver to it; the same text is fitted once."""
    sweep = parse_impedance(text)
    return sweep, fit_impedance(sweep, re=resistance)


def work_out_sweep(record: DriverSweep) -> SweepResult:
    """Work a stored sweep out; what stands in the way becomes a finding, never an exception."""
    part: Driver | None = getattr(record.item.part, "driver", None) if record.item else None
    where = _where(record)
    try:
        if part is None:
            raise MissingError(Needed.DRIVER)
        measured, fit = read_and_fit(record.content, record.resistance)
    except AcousticsError as error:
        return SweepResult(
            record=record, findings=[_refused(record, error, "first")], refused=error
        )
    second = second_fit = moving = trouble = None
    if record.method and record.second:
        try:
            second, second_fit = read_and_fit(record.second, record.resistance)
            moving = _moving(record, part, fit, second_fit)
        except AcousticsError as error:
            trouble = error
    values, errors = _as_catalogue(record, part, fit, moving)
    catalogue = catalogue_of(part)
    findings = [
        *_of_fit(record, fit, "first"),
        *(_of_fit(record, second_fit, "second") if second_fit else ()),
        *adopt(
            compare_with_catalogue(values, catalogue),
            section=SECTION,
            about=about(record),
            name=where,
            places={},
        ),
    ]
    if trouble is not None:
        findings.append(_refused(record, trouble, "second"))
    return SweepResult(
        record=record,
        findings=findings,
        second_refused=trouble,
        measured=measured,
        fit=fit,
        second=second,
        second_fit=second_fit,
        moving=moving,
        rows=[
            Row(
                name=name,
                measured=values.get(name),
                error=SURE * errors[name] if name in errors else None,
                catalogue=catalogue.get(name),
            )
            for name in KINDS
            if name in values or name in catalogue
        ],
        figures=_set(record, part, fit, moving),
    )


def fitted_impedance(fit: ImpedanceFit, frequency: Floats) -> Floats:
    """Return the magnitude of the fitted driver's impedance."""
    magnitude: Floats = np.abs(
        driver_impedance(
            frequency,
            fs=fit.fs,
            re=fit.re,
            qms=fit.qms,
            qes=fit.qes,
            **fit.coil,
        )
    )
    return magnitude


def read_trouble(text: str, resistance: float | None) -> str:
    """Say why a text holds no sweep a driver can be fitted to, with its line; or nothing."""
    try:
        read_and_fit(text, resistance)
    except SweepFileError as error:
        return column_trouble(error, text)
    except AcousticsError as error:
        return sentence(reason(error))
    return ""


def in_use(results: Sequence[SweepResult]) -> Measured:
    """Return the measured sets the boxes are worked out with, by equipment item."""
    return {
        result.record.item_id: result.figures
        for result in results
        if result.record.in_use and result.figures is not None
    }


def catalogue_of(part: Driver) -> Mapping[str, float]:
    """Return the catalogue's figures, those that follow from the others included."""
    entered = {name: value for name in KINDS if (value := getattr(part, name)) is not None}
    try:
        driver = drivers.completed(part).driver
    except AcousticsError:
        return entered  # too little to complete; what is there can still be compared
    follows = {name: float(getattr(driver, name)) for name in KINDS if name != "re"}
    return follows | entered


def _where(record: DriverSweep) -> str:
    """Name a sweep: its driver, and the specimen or the day."""
    part = str(record.item.part) if record.item else ""
    return ", ".join(word for word in (part, record.specimen or str(record.measured_on)) if word)


def _moving(
    record: DriverSweep, part: Driver, fit: ImpedanceFit, second: ImpedanceFit
) -> MovingParts:
    if part.sd is None:
        raise MissingError(Name.SD)
    if record.method == DriverSweep.Method.MASS:
        if record.added_mass is None:
            raise MissingError(Name.ADDED_MASS)
        return moving_parts_from_mass(fit, second, mass=record.added_mass, sd=part.sd)
    if record.box_volume is None:
        raise MissingError(Name.TEST_BOX_VOLUME)
    return moving_parts_from_volume(fit, second, volume=record.box_volume, sd=part.sd)


def _coil_factors(record: DriverSweep, part: Driver) -> tuple[float, float, float]:
    """What Re of one coil, and Re and Bl of two in series, are over those measured."""
    if part.coils != 2:
        return 1.0, 1.0, 1.0
    if record.coils == DriverSweep.Coils.PARALLEL:
        # Two in parallel: half of one coil; four times that, and twice the turns, in series.
        return 2.0, 4.0, 2.0
    return 0.5, 1.0, 1.0


def _as_catalogue(
    record: DriverSweep, part: Driver, fit: ImpedanceFit, moving: MovingParts | None
) -> tuple[dict[str, float], dict[str, float]]:
    """Values and standard errors by name, as the catalogue writes them."""
    one_coil, _series, turns = _coil_factors(record, part)
    factors = {"re": one_coil, "bl": turns}
    values = {name: getattr(fit, name) for name in ("fs", "re", "qms", "qes", "qts")}
    errors = dict(fit.standard_errors)
    if moving:
        values |= {name: getattr(moving, name) for name in ("mms", "cms", "rms", "bl", "vas")}
        errors |= moving.standard_errors
    return (
        {name: value * factors.get(name, 1.0) for name, value in values.items()},
        {name: value * factors.get(name, 1.0) for name, value in errors.items()},
    )


def _set(
    record: DriverSweep, part: Driver, fit: ImpedanceFit, moving: MovingParts | None
) -> MeasuredSet:
    """The set a box is worked out with: the coil as it is in the bass, both coils in series."""
    _one, in_series, _turns = _coil_factors(record, part)
    le, semi_inductance = fit.coil_up_to(float(FREQUENCIES[-1]))
    return MeasuredSet(
        fs=fit.fs,
        qms=fit.qms,
        qes=fit.qes,
        re=fit.re * in_series,
        le=le * in_series,
        semi_inductance=semi_inductance * in_series,
        vas=moving.vas if moving else None,
        tolerances=_tolerances(fit, moving) if moving else None,
    )


def _tolerances(fit: ImpedanceFit, moving: MovingParts) -> Tolerances:
    """Twice each standard error, and never less than what scales and warm suspensions leave."""

    def stray(source: ImpedanceFit | MovingParts, name: str) -> float:
        twice = 2 * source.standard_errors[name] / float(getattr(source, name))
        return min(max(twice, LEAST_STRAY), MOST_STRAY)

    return Tolerances(
        compliance=stray(moving, "cms"),
        mass=stray(moving, "mms"),
        force_factor=stray(moving, "bl"),
        mechanical_resistance=stray(moving, "rms"),
        coil_resistance=stray(fit, "re"),
    )


def _of_fit(record: DriverSweep, fit: ImpedanceFit, which: str) -> list[Finding]:
    adopted = adopt(fit.findings, section=SECTION, about=about(record, which), name=_where(record))
    sweep = Term(("impedance sweep" if which == "first" else "second impedance sweep",))
    return [replace(finding, place=(sweep,)) for finding in adopted]


def _refused(record: DriverSweep, error: AcousticsError, which: str) -> Finding:
    return Finding(
        code="sweep-cannot-be-used",
        severity="look",
        section=SECTION,
        about=about(record, which),
        name=_where(record),
        value=str(error),
        refused=error,
    )
