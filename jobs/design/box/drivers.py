"""A catalogue driver, as one equivalent driver the solver understands."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from acoustics.circuit.tolerance_bands import Tolerances
from acoustics.driver.combination import combine, wire_coils
from acoustics.driver.completion import CompletedDriver, complete_driver, misread_figures
from acoustics.driver.driver import Driver as AcousticDriver
from acoustics.enclosure.openings import Radiator
from jobs.models import Box, Channel, Driver, EquipmentItem

_FIGURES = ("fs", "qts", "qes", "qms", "vas", "cms", "mms", "rms", "bl", "sd", "xmax")


@dataclass(frozen=True, kw_only=True)
class MeasuredSet:
    """What was measured of a driver, both of two coils driven in series.

    Without a second sweep Vas is not known. Specimens differ in their suspension far more than in
    their mass: the catalogue's moving mass is held, and Vas follows from the measured fs.
    """

    fs: float
    qms: float
    qes: float
    re: float
    le: float
    semi_inductance: float
    vas: float | None
    # How far it may still stray; None where only the usual tolerances are known.
    tolerances: Tolerances | None = None


# Item of the equipment list -> the measured set that takes the place of the catalogue's.
Measured = Mapping[int, MeasuredSet]
NOTHING_MEASURED: Measured = {}


def completed(part: Driver, measured: MeasuredSet | None = None) -> CompletedDriver:
    """Complete the catalogue's figures, or the measured ones; two coils count as in series.

    The catalogue holds Re and Le of one coil, and the rest with every coil driven.
    """
    if measured is not None:
        vas = measured.vas if measured.vas is not None else _vas_of_mass(part, measured.fs)
        return _complete(
            fs=measured.fs,
            qms=measured.qms,
            qes=measured.qes,
            re=measured.re,
            le=measured.le,
            semi_inductance=measured.semi_inductance,
            vas=float(vas),
            sd=part.sd,
            xmax=part.xmax,
            power_rating=part.power,
        )
    figures: dict[str, Any] = {name: getattr(part, name) for name in _FIGURES}
    coils = part.coils
    return _complete(
        **figures,
        re=None if part.re is None else part.re * coils,
        # Turns add up, and inductance goes with their square.
        le=(part.le or 0.0) * coils**2,
        power_rating=part.power,
    )


def _vas_of_mass(part: Driver, fs: float) -> float:
    """Vas of the catalogue's moving mass on a suspension that makes it resonate at fs."""
    driver = completed(part).driver
    return float(driver.vas * (driver.fs / fs) ** 2)


@dataclass(frozen=True, kw_only=True)
class Contradiction:
    """A figure of a data sheet that the others contradict, in the catalogue's terms."""

    field: str
    expected: float
    # The other figures of which one may be the wrong one instead.
    others: tuple[str, ...]


def contradictions(part: Driver) -> list[Contradiction]:
    """Hold a driver's figures against each other and name the one that is wrong, or all it may be.

    Qts is bounded by Qes and Qms alone, so a set that is short of others names all three.
    """
    figures = {name: getattr(part, name) for name in _FIGURES if name != "xmax"}
    figures["re"] = None if part.re is None else part.re * part.coils
    known = {name: value for name, value in figures.items() if value is not None}
    suspects = misread_figures(known)
    names = [suspect.name for suspect in suspects]
    return [
        Contradiction(
            field=suspect.name,
            expected=suspect.expected / (part.coils if suspect.name == "re" else 1),
            others=tuple(name for name in names if name != suspect.name),
        )
        for suspect in suspects
    ]


# A job asks for the same driver for its box, its study and its sweep.
_complete = lru_cache(maxsize=128)(complete_driver)


def of_item(item: EquipmentItem | None, measured: Measured) -> CompletedDriver | None:
    """Complete the driver of an equipment item, by what was measured of it where that is used."""
    part: Driver | None = getattr(item.part, "driver", None) if item else None
    if item is None or part is None:
        return None
    return completed(part, measured.get(item.pk))


def equivalent(
    part: Driver, box: Box, channel: Channel | None, measured: MeasuredSet | None = None
) -> AcousticDriver:
    """Return the drivers of a box as one, connected as the channel says."""
    driver = completed(part, measured).driver
    if part.coils == 2:
        wired = channel.coil_connection if channel else Channel.Connection.PARALLEL
        driver = wire_coils(
            driver, stated="series", wired="series" if wired == "series" else "parallel"
        )
    count = box.driver_count
    in_series = channel is not None and channel.connection == Channel.Connection.SERIES
    return combine(
        driver,
        series=count if in_series else 1,
        parallel=1 if in_series else count,
        isobaric=box.isobaric,
    )


def radiator(part: Driver, box: Box) -> Radiator:
    """Return a passive radiator: a catalogue driver without a motor."""
    cone = complete_driver(
        fs=part.fs,
        qms=part.qms,
        vas=part.vas,
        sd=part.sd,
        mms=part.mms,
        cms=part.cms,
        rms=part.rms,
        # A radiator has no coil; these stand in so that the mechanical set can be completed.
        re=1.0,
        qes=1e6,
        xmax=part.xmax,
    ).driver
    return Radiator(
        sd=cone.sd,
        mms=cone.mms,
        cms=cone.cms,
        rms=cone.rms,
        added_mass=box.radiator_added_mass,
        count=box.radiator_count,
        xmax=part.xmax,
    )
