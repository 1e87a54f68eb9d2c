"""What a box that was worked out is worth: how sure, how loud, how protected, and its waves."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby
from typing import TypeVar

import numpy as np
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from acoustics.boxes import Door
from acoustics.doors import door_fates
from acoustics.errors import AcousticsError, MissingError
from acoustics.limits import CleanLevel, HighPass, clean_level, protective_high_pass
from acoustics.modes import ModeVerdict, judge_modes
from acoustics.solver import Sweep, sweep
from acoustics.spread import Band, SpreadBands, check_spread, spread
from jobs import units
from jobs.design import drivers
from jobs.design.box_checks import SECTION
from jobs.design.box_figures import FREQUENCIES, NAMES, Floats
from jobs.design.boxes import BoxResult
from jobs.design.enclosures import SHEET_METAL
from jobs.design.findings import SEVERITIES, Finding, adopt

# Enough for a smooth band; two thousand systems are solved at each.
SPREAD_FREQUENCIES = np.geomspace(10.0, 500.0, 80)
DOOR_FREQUENCIES = (40.0, 63.0, 80.0, 100.0, 160.0)
# Where a box is used up to when no low-pass says otherwise: common practice, no source.
USED_UP_TO = 120.0

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
class DoorStudy:
    """The door's level with each fate of the factory hole, and the difference from blanked off."""

    frequencies: Floats
    levels: Mapping[str, Floats]
    # (fate, (frequency, difference in dB) at each of DOOR_FREQUENCIES)
    differences: Sequence[tuple[str, Sequence[tuple[float, float]]]]


@dataclass(frozen=True, kw_only=True)
class BoxStudy:
    """Each part is None where it could not be worked out; `troubles` then says why, by name."""

    result: BoxResult
    solved: Sweep
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
        return isinstance(self.solved.box, Door)

    @property
    def low_pass(self) -> float | None:
        """The low-pass of the channel that feeds the box."""
        channel = self.result.box.channel
        return channel.lowpass_frequency if channel else None

    @property
    def used_up_to(self) -> float:
        """The highest frequency the box is used at."""
        return self.low_pass or USED_UP_TO

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
        f3 = next((one.value for one in self.result.figures if one.name == "f3"), None)
        return bool(self.high_pass and f3 and self.high_pass.frequency > f3)


def study(result: BoxResult) -> BoxStudy | None:
    """Study a box that was worked out; what stands in the way becomes words, never an exception."""
    driver, load = result.driver, result.load
    if driver is None or load is None:
        return None
    troubles: dict[str, str] = {}

    def attempt(name: str, work: Callable[[], T]) -> T | None:
        try:
            return work()
        except AcousticsError as error:
            troubles[name] = _reason(error)
            return None

    solved = sweep(driver=driver, box=load, frequencies=FREQUENCIES, voltage=result.voltage)
    bands = attempt(
        "bands",
        lambda: spread(
            driver=driver, box=load, frequencies=SPREAD_FREQUENCIES, voltage=result.voltage
        ),
    )
    modes = attempt("modes", lambda: _modes(result))
    made = BoxStudy(
        result=result,
        solved=solved,
        bands=bands,
        figures=_sure_figures(result, bands) if bands else [],
        loud=attempt("loud", lambda: clean_level(solved, amplifier_voltage=result.amplifier)),
        high_pass=attempt("high_pass", lambda: protective_high_pass(solved)),
        modes=modes,
        door=attempt("door", lambda: _door(result, load)) if isinstance(load, Door) else None,
        findings=[],
        troubles=troubles,
    )
    return replace(made, findings=_findings(made))


def _reason(error: AcousticsError) -> str:
    if isinstance(error, MissingError):
        return _("Not known: %(names)s.") % {"names": ", ".join(map(_missing_word, error.missing))}
    return str(error)


def _missing_word(name: str) -> str:
    return str(LIMITS.get(name, name))


def _sure_figures(result: BoxResult, bands: SpreadBands) -> list[SureFigure]:
    """Put the bands beside the figures of the box as drawn."""
    has_fc = any(one.name == "fc" for one in result.figures)
    by_name: dict[str, Band | None] = {
        "fc" if has_fc else "fb": bands.resonance,
        "qtc": bands.qtc,
        "f3": bands.f3,
        "largest_excursion": bands.largest_excursion,
        "largest_port_speed": bands.largest_port_speed,
    }
    return [
        SureFigure(
            label=str(NAMES[one.name][0]),
            kind=one.kind,
            value=one.value,
            low=None if band is None else float(band.low),
            high=None if band is None else float(band.high),
        )
        for one in result.figures
        if one.name in by_name
        for band in [by_name[one.name]]
    ]


def _modes(result: BoxResult) -> ModeVerdict | None:
    """Look for standing waves between the real inner walls."""
    if result.wood is None:
        return None
    carcass = result.wood.carcass
    left, right = carcass.air_span
    channel = result.box.channel
    low_pass = channel.lowpass_frequency if channel else None
    return judge_modes(
        profile=carcass.air_profile.points, width=right - left, highest_used=low_pass or USED_UP_TO
    )


def _door(result: BoxResult, load: Door) -> DoorStudy | None:
    """Play the door with each fate of its factory hole; the box's radiator was in it."""
    item = result.box.radiator
    part = getattr(item.part, "driver", None) if item else None
    if part is None or result.driver is None:
        needs = _(
            "the factory driver, chosen as the radiator of this box, with Sd, fs, Q, Vas and Re"
        )
        what = "the factory hole"
        raise MissingError(what, (needs,))
    fates = door_fates(
        volume=float(load.volume),
        ql=float(load.ql),
        factory=drivers.completed(part).driver,
        thickness=SHEET_METAL,
    )
    solved = {
        name: sweep(
            driver=result.driver,
            box=getattr(fates, name),
            frequencies=FREQUENCIES,
            voltage=result.voltage,
        )
        for name in FATES
    }
    at = {name: one.at(frequencies=DOOR_FREQUENCIES).spl for name, one in solved.items()}
    return DoorStudy(
        frequencies=FREQUENCIES,
        levels={name: one.spl for name, one in solved.items()},
        differences=[
            (str(FATES[name]), list(zip(DOOR_FREQUENCIES, at[name] - at["blanked"], strict=True)))
            for name in FATES
            if name != "blanked"
        ],
    )


def _findings(made: BoxStudy) -> list[Finding]:
    """Collect what the calculators have to say under the box's name, worst first."""
    box, driver = made.result.box, made.solved.driver
    found = [*made.modes.findings] if made.modes else []
    if made.bands:
        xmax = None if driver.xmax is None else float(driver.xmax)
        found += check_spread(made.bands, xmax=xmax)
    named = [
        replace(one, where=box.name, value=_span(made.bands, one.code) or one.value)
        for one in found
    ]
    adopted = adopt(named, section=SECTION, record_id=box.pk)
    return sorted(adopted, key=lambda one: SEVERITIES.index(one.severity))


def _span(bands: SpreadBands | None, code: str) -> str:
    """Say from where to where a band reaches, in the reader's units."""
    if bands is None:
        return ""
    spans = {
        "spread-crosses-xmax": (bands.largest_excursion, "length"),
        "spread-crosses-port-speed": (bands.largest_port_speed, "speed"),
    }
    band, kind = spans.get(code, (None, ""))
    if band is None:
        return ""
    return f"{units.show(float(band.low), kind)} – {units.show(float(band.high), kind)}"
