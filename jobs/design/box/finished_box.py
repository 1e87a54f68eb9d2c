"""A finished box by its impedance: laid over the solved one, judged, and played as found."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import cast

from django.utils.translation import gettext as _

from acoustics.circuit.finished_box import BoxFit, fit_finished_box
from acoustics.circuit.finished_checks import SURE, check_finished_box
from acoustics.circuit.solver import Sweep, sweep
from acoustics.driver.driver import Driver as AcousticDriver
from acoustics.driver.impedance_sweep import ImpedanceSweep
from acoustics.driver.measurement import parse_impedance
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Box as Enclosure
from acoustics.enclosure.boxes import Door, PassiveRadiatorBox, Sealed, Vented
from acoustics.errors import AcousticsError, FitError, SweepFileError
from jobs import units
from jobs.design.box.boxes import BoxResult
from jobs.design.box.figures import FREQUENCIES
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, adopt, reason
from jobs.design.wording.columns import column_trouble
from jobs.design.wording.refusals import sentence
from jobs.models import BoxSweep

SECTION = "boxes"
SEVERAL = 32


@dataclass(frozen=True, kw_only=True)
class FoundFigure:
    """One figure of the box as drawn and as found; `error` holds 19 in 20."""

    label: str
    kind: str
    drawn: float | None
    as_found: float | None
    error: float | None = None


@dataclass(frozen=True, kw_only=True)
class FinishedBox:
    """What a sweep of a finished box tells; with `refused` set, nothing but the reason."""

    record: BoxSweep
    result: BoxResult
    findings: Sequence[Finding]
    refused: AcousticsError | None = None
    measured: ImpedanceSweep | None = None
    fit: BoxFit | None = None
    # As drawn and as found, at the same voltage, without filters or cable.
    drawn: Sweep | None = None
    as_found: Sweep | None = None
    figures: Sequence[FoundFigure] = ()
    losses: Mapping[str, float] = field(default_factory=dict)

    @property
    def trouble(self) -> str:
        """Why it proves nothing, in the reader's language."""
        return "" if self.refused is None else reason(self.refused)

    @property
    def agrees(self) -> bool:
        """Whether the built box is the drawn one, as far as a sweep tells."""
        return self.fit is not None and not self.findings


@lru_cache(maxsize=SEVERAL)
def _read_and_fit(
    text: str, driver: AcousticDriver, load: Hashable
) -> tuple[ImpedanceSweep, BoxFit]:
    """Read a sweep and fit the box to it; the same text of the same box is fitted once."""
    measured = parse_impedance(text)
    return measured, fit_finished_box(measured, driver=driver, box=cast(Enclosure, load))


def work_out_finished(record: BoxSweep, result: BoxResult) -> FinishedBox:
    """Work a sweep of a finished box out; what stands in the way becomes a finding."""
    try:
        if result.driver is None or result.load is None:
            raise FitError(code="box-not-worked-out")
        measured, fit = _read_and_fit(record.content, result.driver, cast(Hashable, result.load))
    except AcousticsError as error:
        return FinishedBox(
            record=record, result=result, findings=[_refused(record, error)], refused=error
        )
    drawn, as_found = (
        sweep(driver=driver, box=box, frequencies=FREQUENCIES, voltage=result.voltage)
        for driver, box in ((result.driver, result.load), (fit.driver, fit.box))
    )
    resonance = float(_chamber(result.load).resonance(result.driver))
    closed = isinstance(result.load, Sealed | Door)
    return FinishedBox(
        record=record,
        result=result,
        findings=adopt(
            check_finished_box(fit, drawn=resonance, closed=closed),
            section=SECTION,
            about=about(record),
            name=_where(record),
        ),
        measured=measured,
        fit=fit,
        drawn=drawn,
        as_found=as_found,
        figures=_figures(fit, result.driver, drawn, as_found, resonance, closed=closed),
        losses={} if not fit.several else dict(fit.several),
    )


def _where(record: BoxSweep) -> str:
    """Name a sweep: its box, and the day once it is entered."""
    return str(record) if record.measured_on else str(record.box)


def sweep_trouble(text: str, result: BoxResult) -> str:
    """Say why a text proves nothing of a box, with its line; or nothing."""
    if result.driver is None or result.load is None:
        return ""  # the box itself says what it lacks
    try:
        _read_and_fit(text, result.driver, cast(Hashable, result.load))
    except SweepFileError as error:
        return column_trouble(error, text)
    except AcousticsError as error:
        return sentence(reason(error))
    return ""


def _chamber(load: Enclosure) -> Sealed | Vented | PassiveRadiatorBox | Door:
    """The chamber whose resonance stands for the box."""
    chamber = load.front if isinstance(load, BandPass) else load
    assert isinstance(chamber, Sealed | Vented | PassiveRadiatorBox | Door)
    return chamber


def _figures(
    fit: BoxFit,
    driver: AcousticDriver,
    drawn: Sweep,
    as_found: Sweep,
    resonance: float,
    *,
    closed: bool,
) -> list[FoundFigure]:
    chamber = _chamber(drawn.box)
    return [
        FoundFigure(
            label=_("resonance in the box, fc") if closed else _("tuning, fb"),
            kind="frequency",
            drawn=resonance,
            as_found=fit.resonance,
            error=SURE * fit.standard_errors["resonance"],
        ),
        FoundFigure(
            label=_("leakage QL, all loss taken as one leak"),
            kind="ratio",
            drawn=float(chamber.ql),
            as_found=fit.ql,
            error=SURE * fit.standard_errors["ql"],
        ),
        FoundFigure(
            label=_("3 dB down at"), kind="frequency", drawn=_f3(drawn), as_found=_f3(as_found)
        ),
        FoundFigure(
            label=_("the driver's own resonance, fs"),
            kind="frequency",
            drawn=float(driver.fs),
            as_found=None if closed else float(fit.driver.fs),
        ),
        FoundFigure(
            label=_("resistance of the coils as wired"),
            kind="resistance",
            drawn=float(driver.re),
            as_found=float(fit.driver.re),
        ),
        FoundFigure(
            label=_("%(figure)s, at %(voltage)s")
            % {
                "figure": _("largest cone travel"),
                "voltage": units.show(float(drawn.voltage), "voltage"),
            },
            kind="length",
            drawn=float(drawn.excursion.max()),
            as_found=float(as_found.excursion.max()),
        ),
    ]


def _f3(solved: Sweep) -> float | None:
    try:
        return float(solved.f3)
    except AcousticsError:
        return None


def _refused(record: BoxSweep, error: AcousticsError) -> Finding:
    return Finding(
        code="box-sweep-cannot-be-used",
        severity="look",
        section=SECTION,
        about=about(record),
        name=_where(record),
        value=str(error),
        refused=error,
    )
