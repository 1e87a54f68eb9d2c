"""From what is wanted of a box to the box that gives it, and what that costs against the box now.

Solved with the losses of the record: leakage for every kind, absorption and filling for a sealed
box. The port's own losses count in what a vented box costs, not in what is chosen.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from acoustics.circuit.solver import Sweep, sweep
from acoustics.circuit.targets import (
    Cost,
    cost_of,
    sealed_for_f3,
    sealed_for_q,
)
from acoustics.circuit.vented_targets import vented_for_f3, vented_for_shape, vented_for_volume
from acoustics.driver.driver import Driver as AcousticDriver
from acoustics.enclosure.alignments import Shape
from acoustics.enclosure.boxes import Door, PassiveRadiatorBox, Sealed, Vented
from acoustics.enclosure.closed_box import q_of_shape
from acoustics.enclosure.port import Port
from acoustics.errors import AcousticsError, NoSolutionError
from jobs import units
from jobs.design.box import drivers, enclosures
from jobs.design.box.boxes import BoxResult
from jobs.design.box.figures import FREQUENCIES
from jobs.design.records.findings import reason
from jobs.design.wording.refusals import sentence
from jobs.design.wording.targets import no_solution, undefined
from jobs.models import Box
from jobs.models.box_kinds import Behind, kind_of
from jobs.quantities.numbers import localized

Chamber = Sealed | Vented | PassiveRadiatorBox | Door

# Targets that take a figure -> the kind of quantity it is typed as.
FIGURES: dict[str, str] = {"qtc": "ratio", "f3": "frequency", "volume": "volume"}
FIGURE_WORDS: dict[str, Promise] = {
    "qtc": gettext_lazy("Qtc, the total Q"),
    "f3": gettext_lazy("3 dB down at"),
    "volume": gettext_lazy("net litres at hand"),
}
SHAPE_WORDS: dict[str, Promise] = {
    Shape.BUTTERWORTH: gettext_lazy("Butterworth: flat as far as it goes"),
    Shape.BESSEL: gettext_lazy("Bessel: evenest delay"),
    Shape.CHEBYSHEV: gettext_lazy("Chebyshev: lowest, with a rise"),
    Shape.QUASI_BUTTERWORTH: gettext_lazy("quasi-Butterworth: for a low Qts"),
    Shape.SUB_CHEBYSHEV: gettext_lazy("sub-Chebyshev: for a low Qts, softer"),
    Shape.DOUBLE_POLE: gettext_lazy("double-pole: two equal pairs of poles"),
}
# A rise of the response that is accepted when nothing else is said: common practice, no source.
ACCEPTED_RISE = 0.5
LEVELS_AT = (30.0, 50.0)
# An answer that strays further than this from what was asked says so.
MISSED, UNEVEN = 0.01, 0.1
# The fields of a box a target may fill.
FIELDS = ("wanted_volume", "wanted_tuning", "port_length")
# Any area will do: how a tuned box plays does not depend on it, only the speed of its air.
_ANY_AREA = 0.01


@dataclass(frozen=True, kw_only=True)
class Target:
    """What is wanted: a figure, or a shape; and the rise above the passband that is accepted."""

    want: str
    value: float | None = None
    rise: float = ACCEPTED_RISE


@dataclass(frozen=True, kw_only=True)
class Line:
    """One figure of the box as it is, of the box that meets the target, and the difference."""

    label: str
    now: str
    then: str
    difference: str


@dataclass(frozen=True, kw_only=True)
class Answer:
    """The box that meets a target, or why there is none."""

    target: Target
    trouble: str = ""
    lines: Sequence[Line] = ()
    # What would be typed into the box.
    fields: Mapping[str, float | None] | None = None
    port: Port | None = None
    # What stands against the port of this length.
    port_trouble: str = ""
    # By how much it misses what was asked once everything is in it, sentence by sentence.
    misses: Sequence[str] = ()
    now: Sweep | None = None
    then: Sweep | None = None
    voltage: float = 2.83


def answer(result: BoxResult, target: Target) -> Answer:
    """Solve a target for a box; what stands in the way becomes words, never an exception."""
    box = result.box
    if words := undefined(box.kind, target.want):
        return Answer(target=target, trouble=words)
    part = getattr(box.driver.part, "driver", None) if box.driver else None
    if part is None:
        return Answer(target=target, trouble=_("The box has no driver yet."))
    try:
        driver = drivers.equivalent(part, box, box.channel, result.measured_set)
        chamber = _solve(result, driver, target)
    except NoSolutionError as error:
        return Answer(target=target, trouble=no_solution(error))
    except AcousticsError as error:
        return Answer(target=target, trouble=sentence(reason(error)))
    return _answered(result, driver, target, chamber)


def _solve(result: BoxResult, driver: AcousticDriver, target: Target) -> Chamber:
    box, value = result.box, target.value or 0.0
    behind = kind_of(box).behind
    if behind is Behind.CLOSED:
        return _sealed(box, driver, target, value, result.feed.series_resistance)
    if behind is Behind.PORT:
        return _vented(box, driver, target, value, result.feed.series_resistance)
    # A passive radiator or a door: the litres change, its cone or leak stays.
    load = enclosures.enclosure(box, value, None, result.measured)
    assert isinstance(load, PassiveRadiatorBox | Door)
    return load


def _sealed(box: Box, driver: AcousticDriver, target: Target, value: float, cable: float) -> Sealed:
    ql, qa, fill = enclosures.leak_q(box), enclosures.loss_q(box.qa), box.fill
    if target.want == "volume":
        return Sealed(volume=value, ql=ql, qa=qa, fill=fill)
    if target.want == "f3":
        return sealed_for_f3(driver, value, ql=ql, qa=qa, fill=fill, series_resistance=cable)
    if target.want != "qtc":
        shape = Shape(target.want)
        value = q_of_shape(shape, ripple=target.rise if shape is Shape.CHEBYSHEV else None)
    return sealed_for_q(driver, value, ql=ql, qa=qa, fill=fill, series_resistance=cable)


def _vented(box: Box, driver: AcousticDriver, target: Target, value: float, cable: float) -> Vented:
    opening = enclosures.port_opening(box)
    area = opening.area * box.port_count if opening else _ANY_AREA
    ql = enclosures.leak_q(box)
    if target.want in FIGURES:
        solve = vented_for_volume if target.want == "volume" else vented_for_f3
        vented = solve(driver, value, area=area, ql=ql, ripple=target.rise, series_resistance=cable)
    else:
        shape = Shape(target.want)
        vented = vented_for_shape(driver, shape, area=area, ql=ql, series_resistance=cable)
    return replace(vented, qa=enclosures.loss_q(box.qa), qp=enclosures.loss_q(box.qp))


def _answered(
    result: BoxResult, driver: AcousticDriver, target: Target, chamber: Chamber
) -> Answer:
    fields: dict[str, float | None] = {"wanted_volume": float(chamber.volume)}
    port, port_trouble = None, ""
    if isinstance(chamber, Vented):
        # A typed length would go before the tuning.
        fields |= {"wanted_tuning": float(chamber.resonance()), "port_length": None}
        try:
            port = _port(result.box, chamber)
        except NoSolutionError as error:
            port_trouble = no_solution(error)

    def solved(load: Chamber) -> Sweep:
        return sweep(
            driver=driver,
            box=load,
            frequencies=FREQUENCIES,
            voltage=result.voltage,
            series_resistance=result.feed.series_resistance,
        )

    def cost(load: Chamber) -> Cost | None:
        cable = result.feed.series_resistance
        try:
            return cost_of(driver, load, voltage=result.voltage, series_resistance=cable)
        except AcousticsError:
            return None  # its response never falls to half power

    as_is = result.load if isinstance(result.load, Chamber) else None
    now, then = solved(as_is) if as_is else None, solved(chamber)
    figures = cost(chamber)
    return Answer(
        target=target,
        lines=[
            *_cost_lines(as_is, chamber, cost(as_is) if as_is else None, figures),
            *_level_lines(now, then),
            *_port_lines(result, now, then, port),
        ],
        fields=fields,
        port=port,
        port_trouble=port_trouble,
        misses=_misses(result, target, chamber, figures, then),
        now=now,
        then=then,
        voltage=result.voltage,
    )


def _cost_lines(
    as_is: Chamber | None, chamber: Chamber, now: Cost | None, then: Cost | None
) -> list[Line]:
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
        _line(_("net volume"), "volume", *volumes),
        *[
            _line(label, kind, None if now is None else get(now), get(then))
            for label, kind, get in rows
            if then is not None and get(then) is not None
        ],
    ]


def _misses(
    result: BoxResult, target: Target, chamber: Chamber, cost: Cost | None, then: Sweep
) -> list[str]:
    """Hold the answer, worked out with coil, cable, every loss and the filters, to the target.

    It was chosen without the coil's inductance, and a vented one without absorption and port loss.
    """
    if target.want not in {"f3", "volume"} or not isinstance(chamber, Sealed | Vented):
        return []
    if cost is None:
        return [_("With everything in it, its level never falls by half its power.")]
    misses = []
    wanted = target.value or 0.0
    if target.want == "f3" and abs(cost.f3 / wanted - 1) > MISSED:
        words = _(
            "With coil, cable and all losses it is 3 dB down at %(f)s: %(by)s from what is asked."
        )
        misses.append(
            words
            % {
                "f": units.show(cost.f3, "frequency"),
                "by": _difference(cost.f3 - wanted, "frequency"),
            }
        )
    uneven = max(cost.peak, cost.sag)
    if isinstance(chamber, Vented) and uneven > target.rise + UNEVEN:
        words = _("With coil, cable and all losses it rises or sags by %(by)s, %(more)s too much.")
        misses.append(
            words
            % {
                "by": units.show(uneven, "level"),
                "more": units.show(uneven - target.rise, "level"),
            }
        )
    return [*misses, *_filtered_miss(result, target, then)]


def _filtered_miss(result: BoxResult, target: Target, then: Sweep) -> list[str]:
    """What the channel's filters make of the frequency asked for."""
    if result.feed.filters is None or target.want != "f3":
        return []
    played = then.at(frequencies=FREQUENCIES, filters=result.feed.filters)
    try:
        f3 = float(played.f3)
    except AcousticsError:
        return [_("As the channel's filters play it, it is below half the power throughout.")]
    if abs(f3 / (target.value or f3) - 1) <= MISSED:
        return []
    words = _("As the channel's filters play it, it is 3 dB down at %(f)s.")
    return [words % {"f": units.show(f3, "frequency")}]


def _level_lines(now: Sweep | None, then: Sweep) -> list[Line]:
    def level(solved: Sweep | None, frequency: float) -> float | None:
        return None if solved is None else float(solved.at(frequencies=[frequency]).spl[0])

    return [
        _line(
            _("level at %(f)s") % {"f": units.show(frequency, "frequency")},
            "level",
            level(now, frequency),
            level(then, frequency),
        )
        for frequency in LEVELS_AT
    ]


def _port(box: Box, vented: Vented) -> Port | None:
    """Return the port that tunes the box so, or None while its opening is not known."""
    return enclosures.port_tuned(box, float(vented.resonance()), float(vented.volume))


def _port_lines(result: BoxResult, now: Sweep | None, then: Sweep, port: Port | None) -> list[Line]:
    if then.port_speed is None or enclosures.port_opening(result.box) is None:
        return []
    length = result.port.length if result.port else None
    speed = None if now is None or now.port_speed is None else float(now.port_speed.max())
    return [
        _line(_("port length"), "length", length, port.length if port else None),
        _line(_("fastest air in the port"), "speed", speed, float(then.port_speed.max())),
    ]


def _line(label: str, kind: str, now: float | None, then: float | None) -> Line:
    difference = "" if now is None or then is None else _difference(then - now, kind)
    return Line(
        label=label, now=units.show(now, kind), then=units.show(then, kind), difference=difference
    )


def _difference(value: float, kind: str) -> str:
    """Show a difference with its sign and no finer than the figures it stands beside."""
    factor, unit = units.drawn_in(kind)
    decimals = units.KINDS[kind].shown(units.current_system())[0][1]
    digits = f"{value * factor:+.{decimals}f}"
    if not digits.strip("+-0."):
        digits = f"±{0:.{decimals}f}"
    return f"{localized(digits)}\N{NO-BREAK SPACE}{unit}".strip()
