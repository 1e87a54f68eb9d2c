"""What a box that was worked out is worth: how sure, how loud, how protected, and its waves."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby
from typing import TypeVar

import numpy as np
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

from acoustics.air.modes import ModeVerdict
from acoustics.circuit.limits import CleanLevel, HighPass, clean_level, protective_high_pass
from acoustics.circuit.solver import Sweep, sweep
from acoustics.circuit.tolerance_bands import Band, SpreadBands
from acoustics.enclosure.boxes import Door
from acoustics.enclosure.doors import door_fates
from acoustics.errors import AcousticsError, MissingError
from jobs.design.box import drivers
from jobs.design.box.boxes import BoxResult
from jobs.design.box.checks import check_sure
from jobs.design.box.enclosures import SHEET_METAL, hole_q
from jobs.design.box.figures import FREQUENCIES, PORT_FIGURES, Floats, port_names
from jobs.design.records.findings import Finding, reason
from jobs.design.wording.names import Needed
from jobs.design.wording.refusals import sentence

# Where the high-pass is asked for what it costs.
LOSS_AT = (20.0, 30.0, 40.0, 60.0)
DOOR_FREQUENCIES = (40.0, 63.0, 80.0, 100.0, 160.0)

LIMITS: dict[str, str | Promise] = {
    "heat": gettext_lazy("heat in the voice coil"),
    "excursion": gettext_lazy("cone travel"),
    "port": gettext_lazy("air speed in the port"),
    "radiator": gettext_lazy("travel of the passive radiator"),
    "amplifier-voltage": gettext_lazy("the amplifier's voltage"),
    "amplifier-current": gettext_lazy("the amplifier's current"),
}
FATES: dict[str, str | Promise] = {
    "blanked": gettext_lazy("blanked off"),
    "left_open": gettext_lazy("left open"),
    "unplugged": gettext_lazy("factory driver left in, unplugged"),
}
T = TypeVar("T")


@dataclass(frozen=True, kw_only=True)
class SureFigure:
    """One figure as worked out, and where nine in ten builds lie."""

    label: str
    kind: str
    value: float | None
    low: float | None
    high: float | None


@dataclass(frozen=True, kw_only=True)
class BindingRange:
    """A stretch of frequencies in which the same limit is reached first."""

    limit: str
    low: float
    high: float


@dataclass(frozen=True, kw_only=True)
class FilterEffect:
    """What a high-pass does: travel before and after, and (frequency, level lost) pairs."""

    travel: float
    held: float
    losses: Sequence[tuple[float, float]]


@dataclass(frozen=True, kw_only=True)
class DoorStudy:
    """The door's level with each fate of the factory hole, and the difference from blanked off."""

    frequencies: Floats
    levels: Mapping[str, Floats]
    hole_q: float
    # (fate, (frequency, difference in dB) at each of DOOR_FREQUENCIES)
    differences: Sequence[tuple[str, Sequence[tuple[float, float]]]]


@dataclass(frozen=True, kw_only=True)
class BoxStudy:
    """Each part is None where it could not be worked out; `troubles` then says why, by name."""

    result: BoxResult
    # Without the channel's filters, and as the channel plays it.
    alone: Sweep
    played: Sweep
    bands: SpreadBands | None
    figures: Sequence[SureFigure]
    loud: CleanLevel | None
    high_pass: HighPass | None
    modes: ModeVerdict | None
    door: DoorStudy | None
    findings: Sequence[Finding]
    troubles: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_door(self) -> bool:
        """Whether there is a factory hole to decide about."""
        return isinstance(self.alone.box, Door)

    @property
    def has_filters(self) -> bool:
        """Whether the channel's filters change what is played."""
        return self.played is not self.alone

    @property
    def played_travel(self) -> float:
        """How far the cone moves as the channel plays it."""
        return float(self.played.excursion.max())

    @property
    def xmax(self) -> float | None:
        """How far the maker lets the cone move."""
        xmax = self.alone.driver.xmax
        return None if xmax is None else float(xmax)

    @property
    def effect(self) -> FilterEffect | None:
        """What the protective high-pass does to the box without the channel's filters."""
        if self.high_pass is None:
            return None
        return FilterEffect(
            travel=float(self.alone.excursion.max()),
            held=float(self.high_pass.excursion.max()),
            losses=[
                (f, round(float(np.interp(f, self.alone.frequencies, self.high_pass.loss)), 1))
                for f in LOSS_AT
            ],
        )

    @property
    def ranges(self) -> list[BindingRange]:
        """Which limit is reached first, from the lowest frequency to the highest."""
        if self.loud is None:
            return []
        pairs = zip(self.loud.binding, self.loud.frequencies, strict=True)
        runs = [
            (name, [float(f) for _name, f in run]) for name, run in groupby(pairs, lambda p: p[0])
        ]
        return [
            BindingRange(limit=str(LIMITS[str(name)]), low=run[0], high=run[-1])
            for name, run in runs
        ]

    @property
    def not_counted(self) -> list[str]:
        """The limits nothing is known of."""
        return [str(LIMITS[name]) for name in self.loud.unknown] if self.loud else []

    @property
    def high_pass_too_high(self) -> bool:
        """Whether the protection would begin above where the box itself gives out."""
        f3 = next((figure.value for figure in self.result.figures if figure.name == "f3"), None)
        return bool(self.high_pass and f3 and self.high_pass.frequency > f3)


def study(result: BoxResult) -> BoxStudy | None:
    """Study a box that was worked out; what stands in the way becomes words, never an exception."""
    alone, played, load = result.alone, result.played, result.load
    if alone is None or played is None or load is None:
        return None
    troubles: dict[str, str] = {}

    def attempt(name: str, work: Callable[[], T]) -> T | None:
        try:
            return work()
        except AcousticsError as error:
            troubles[name] = sentence(reason(error))
            return None

    volts, amperes = result.feed.voltage, result.feed.current
    bands = attempt("bands", lambda: result.bands)
    return BoxStudy(
        result=result,
        alone=alone,
        played=played,
        bands=bands,
        figures=_sure_figures(result, bands) if bands else [],
        loud=attempt(
            "loud",
            lambda: clean_level(alone, amplifier_voltage=volts, amplifier_current=amperes),
        ),
        high_pass=attempt("high_pass", lambda: protective_high_pass(alone)),
        modes=attempt("modes", lambda: result.modes),
        door=attempt("door", lambda: _door(result, load)) if isinstance(load, Door) else None,
        findings=check_sure(
            result.box,
            alone.driver,
            bands,
            result.modes,
            top_known=result.used_up_to is not None,
            voltage=result.voltage,
        ),
        troubles=troubles,
    )


def _sure_figures(result: BoxResult, bands: SpreadBands) -> list[SureFigure]:
    """Put the bands beside the figures of the box as drawn."""
    has_fc = any(figure.name == "fc" for figure in result.figures)
    by_name: dict[str, Band | None] = {
        "fc" if has_fc else "fb": bands.resonance,
        "qtc": bands.qtc,
        "f3": bands.f3,
        "largest_excursion": bands.largest_excursion,
    }
    names = port_names(result.load) if result.load else ()
    for name, band in zip(names, bands.largest_port_speeds, strict=False):
        by_name[PORT_FIGURES[name][1]] = band
    return [
        SureFigure(
            label=figure.label,
            kind=figure.kind,
            value=figure.value,
            low=None if band is None else float(band.low),
            high=None if band is None else float(band.high),
        )
        for figure in result.figures
        if figure.name in by_name
        for band in [by_name[figure.name]]
    ]


def _door(result: BoxResult, load: Door) -> DoorStudy | None:
    """Play the door with each fate of its factory hole; the box's radiator was in it."""
    factory = drivers.of_item(result.box.radiator, result.measured)
    if factory is None or result.driver is None:
        raise MissingError(Needed.FACTORY_DRIVER)
    fates = door_fates(
        volume=float(load.volume),
        ql=float(load.ql),
        factory=factory.driver,
        thickness=SHEET_METAL,
        area=result.box.hole_area,
        qp=hole_q(result.box),
    )
    solved = {
        name: sweep(
            driver=result.driver,
            box=getattr(fates, name),
            frequencies=FREQUENCIES,
            voltage=result.voltage,
            series_resistance=result.feed.series_resistance,
        )
        for name in FATES
    }
    at = {name: response.at(frequencies=DOOR_FREQUENCIES).spl for name, response in solved.items()}
    return DoorStudy(
        frequencies=FREQUENCIES,
        levels={name: response.spl for name, response in solved.items()},
        hole_q=hole_q(result.box),
        differences=[
            (str(FATES[name]), list(zip(DOOR_FREQUENCIES, at[name] - at["blanked"], strict=True)))
            for name in FATES
            if name != "blanked"
        ],
    )
