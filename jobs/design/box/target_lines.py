"""The figures of a box as it is beside those of the box that meets a target, line by line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from django.utils.translation import gettext as _

from acoustics.circuit.solver import Sweep
from acoustics.circuit.targets import Cost
from acoustics.enclosure.boxes import Door, PassiveRadiatorBox, Sealed, Vented
from acoustics.enclosure.port import Port
from jobs import units
from jobs.design.box.boxes import BoxResult
from jobs.design.box.figures import NAMES, PORT_FIGURES, port_speeds
from jobs.design.box.wider_targets import least_level
from jobs.design.carcass.carcass import taken_by_port
from jobs.quantities.numbers import localized

Chamber = Sealed | Vented | PassiveRadiatorBox | Door
LEVELS_AT = (30.0, 50.0)
# An answer that strays further than this from what was asked says so; a share, and decibels.
MISSED, UNEVEN = 0.01, 0.1


@dataclass(frozen=True, kw_only=True)
class Line:
    """One figure of the box as it is, of the box that meets the target, and the difference."""

    label: str
    now: str
    then: str
    difference: str


def cost_lines(
    as_is: Chamber | None, chamber: Chamber, now: Cost | None, then: Cost | None
) -> list[Line]:
    """Compare what both boxes cost, figure by figure."""
    resonance = _("resonance in the box, fc")
    if isinstance(chamber, Vented | PassiveRadiatorBox):
        resonance = _("tuning, fb")
    rows: list[tuple[str, str, Callable[[Cost], float | None]]] = [
        (resonance, "frequency", lambda figures: figures.resonance),
        (_("Qtc, losses included"), "ratio", lambda figures: figures.qtc),
        (_("3 dB down at"), "frequency", lambda figures: figures.f3),
        (_("largest rise above the passband"), "level", lambda figures: figures.peak),
        (_("deepest sag of the passband"), "level", lambda figures: figures.sag),
        (_("largest cone travel from there up"), "length", lambda figures: figures.excursion),
    ]
    volumes = (None if as_is is None else float(as_is.volume), float(chamber.volume))
    return [
        line(_("net volume"), "volume", *volumes),
        *[
            line(label, kind, None if now is None else get(now), get(then))
            for label, kind, get in rows
            if then is not None and get(then) is not None
        ],
    ]


def level_lines(now: Sweep | None, then: Sweep) -> list[Line]:
    """Compare how loud both boxes are in the bass."""

    def level(solved: Sweep | None, frequency: float) -> float | None:
        return None if solved is None else float(solved.at(frequencies=[frequency]).spl[0])

    return [
        line(
            _("level at %(f)s") % {"f": units.show(frequency, "frequency")},
            "level",
            level(now, frequency),
            level(then, frequency),
        )
        for frequency in LEVELS_AT
    ]


def mass_line(as_is: Chamber | None, chamber: Chamber) -> list[Line]:
    """Compare the mass each passive radiator is loaded with."""
    if not isinstance(chamber, PassiveRadiatorBox):
        return []
    now = as_is.radiator.added_mass if isinstance(as_is, PassiveRadiatorBox) else None
    then = float(chamber.radiator.added_mass)
    return [line(_("mass added to each"), "moving_mass", None if now is None else float(now), then)]


def loud_line(
    result: BoxResult, low: float, high: float, now: Sweep | None, then: Sweep
) -> list[Line]:
    """Compare the least of the largest clean levels in a band."""
    words = _("least of the largest clean levels, %(low)s to %(high)s") % {
        "low": units.show(low, "frequency"),
        "high": units.show(high, "frequency"),
    }
    levels = (least_level(result, solved, low, high) for solved in (now, then))
    return [line(words, "level", *levels)]


def port_lines(
    result: BoxResult, now: Sweep | None, then: Sweep, port: Port | None, taken: float | None
) -> list[Line]:
    """Compare the port, what it takes of the inside, and how fast its air and its fellow's is."""
    if port is None:
        return []
    length = result.port.length if result.port else None
    had = taken_by_port(result.box, length) if length else None
    before = dict(port_speeds(now)) if now else {}
    return [
        line(_("port length"), "length", length, port.length),
        line(_("taken by the port"), "volume", had, taken),
        *[
            line(str(NAMES[PORT_FIGURES[name][1]][0]), "speed", before.get(name), fastest)
            for name, fastest in port_speeds(then)
        ],
    ]


def rear_port_line(result: BoxResult, port: Port | None) -> list[Line]:
    """Compare the length of the port behind, as it is typed and as it would be cut."""
    if port is None:
        return []
    return [line(_("length of the rear port"), "length", result.box.rear_port_length, port.length)]


def line(label: str, kind: str, now: float | None, then: float | None) -> Line:
    """Return one figure of both boxes, as it is shown."""
    apart = "" if now is None or then is None else difference(then - now, kind)
    return Line(
        label=label, now=units.show(now, kind), then=units.show(then, kind), difference=apart
    )


def difference(value: float, kind: str) -> str:
    """Show a difference with its sign and no finer than the figures it stands beside."""
    factor, unit = units.drawn_in(kind)
    decimals = units.KINDS[kind].shown(units.current_system())[0][1]
    digits = f"{value * factor:+.{decimals}f}"
    if not digits.strip("+-0."):
        digits = f"±{0:.{decimals}f}"
    return f"{localized(digits)}\N{NO-BREAK SPACE}{unit}".strip()
