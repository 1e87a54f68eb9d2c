"""From what is wanted of a box to the box that gives it, and what that costs against the box now.

Solved with the losses of the record: leakage for every kind, absorption and filling for a sealed
box. The port's own losses count in what a vented box costs, not in what is chosen.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
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
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Door, PassiveRadiatorBox, Sealed, Vented
from acoustics.enclosure.closed_box import q_of_shape
from acoustics.enclosure.port import Port
from acoustics.errors import AcousticsError, NoSolutionError
from jobs import units
from jobs.design.box import drivers, enclosures
from jobs.design.box.boxes import BoxResult
from jobs.design.box.figures import FREQUENCIES
from jobs.design.box.target_lines import (
    Chamber,
    Line,
    cost_lines,
    difference,
    level_lines,
    line,
)
from jobs.design.box.wider_targets import (
    Trade,
    band_figures,
    for_band,
    least_level,
    loudest,
    trade_of,
    with_mass,
)
from jobs.design.carcass.slots import ports
from jobs.design.records.findings import reason
from jobs.design.wording.refusals import sentence
from jobs.design.wording.targets import no_solution, undefined
from jobs.models import Box
from jobs.models.box.box_kinds import Behind, kind_of

Solved = Chamber | BandPass

# Targets that take a figure -> the kind of quantity it is typed as.
FIGURES: dict[str, str] = {
    "qtc": "ratio",
    "f3": "frequency",
    "volume": "volume",
    "loudest": "volume",
    "fb": "frequency",
}
# Targets that take a band, from one frequency to another.
BANDS = ("loudest", "band")
FIGURE_WORDS: dict[str, Promise] = {
    "qtc": gettext_lazy("Qtc, the total Q"),
    "f3": gettext_lazy("3 dB down at"),
    "volume": gettext_lazy("net litres at hand"),
    "loudest": gettext_lazy("most level in a band, in these net litres"),
    "fb": gettext_lazy("tuning of a passive radiator, by the mass added"),
    "band": gettext_lazy("a band-pass for a band"),
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
# An answer that strays further than this from what was asked says so.
MISSED, UNEVEN = 0.01, 0.1
# The fields of a box a target may fill.
FIELDS = (
    *("wanted_volume", "wanted_tuning", "port_length"),
    *("front_volume", "radiator_added_mass"),
)
# Any area will do: how a tuned box plays does not depend on it, only the speed of its air.
_ANY_AREA = 0.01


@dataclass(frozen=True, kw_only=True)
class Target:
    """What is wanted: a figure, or a shape; and the rise above the passband that is accepted."""

    want: str
    value: float | None = None
    rise: float = ACCEPTED_RISE
    # The band of a target that takes one.
    low: float = 0.0
    high: float = 0.0


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
    # Litres against level, where most level was asked for.
    trade: Trade | None = None
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
        trade = _loudest(result, driver, target) if target.want == "loudest" else None
        chamber = trade.loudest.box if trade else _solve(result, driver, target)
    except NoSolutionError as error:
        return Answer(target=target, trouble=no_solution(error))
    except AcousticsError as error:
        return Answer(target=target, trouble=sentence(reason(error)))
    if isinstance(chamber, BandPass):
        return _band_pass(result, driver, target, chamber)
    return replace(_answered(result, driver, target, chamber), trade=trade)


def _loudest(result: BoxResult, driver: AcousticDriver, target: Target) -> Trade:
    return trade_of(loudest(result, driver, target.value or 0.0, target.low, target.high))


def _solve(result: BoxResult, driver: AcousticDriver, target: Target) -> Solved:
    box, value = result.box, target.value or 0.0
    behind = kind_of(box).behind
    if target.want == "band":
        return for_band(result, driver, target.low, target.high)
    if target.want == "fb":
        return with_mass(result, value)
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
    area = opening.area * ports(box) if opening else _ANY_AREA
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
            tuning, net = float(chamber.resonance()), float(chamber.volume)
            port = enclosures.port_tuned(result.box, tuning, net)
        except NoSolutionError as error:
            port_trouble = no_solution(error)

    if isinstance(chamber, PassiveRadiatorBox) and target.want == "fb":
        fields |= {"radiator_added_mass": float(chamber.radiator.added_mass)}

    def cost(load: Chamber) -> Cost | None:
        cable = result.feed.series_resistance
        try:
            return cost_of(driver, load, voltage=result.voltage, series_resistance=cable)
        except AcousticsError:
            return None  # its response never falls to half power

    as_is = result.load if isinstance(result.load, Chamber) else None
    now = _solved(result, driver, as_is) if as_is else None
    then = _solved(result, driver, chamber)
    figures = cost(chamber)
    return Answer(
        target=target,
        lines=[
            *cost_lines(as_is, chamber, cost(as_is) if as_is else None, figures),
            *_mass_line(target, as_is, chamber),
            *_loud_line(result, target, now, then),
            *level_lines(now, then),
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


def _solved(result: BoxResult, driver: AcousticDriver, load: Solved) -> Sweep:
    return sweep(
        driver=driver,
        box=load,
        frequencies=FREQUENCIES,
        voltage=result.voltage,
        series_resistance=result.feed.series_resistance,
    )


def _band_pass(result: BoxResult, driver: AcousticDriver, target: Target, box: BandPass) -> Answer:
    """Two chambers and the tuning between them; the rear one is what the wood leaves."""
    as_is = result.load if isinstance(result.load, BandPass) else None
    now = _solved(result, driver, as_is) if as_is else None
    then = _solved(result, driver, box)
    had, has = band_figures(now), band_figures(then)
    assert has is not None
    port, port_trouble = None, ""
    try:
        port = enclosures.port_tuned(result.box, has.front_tuning, has.front)
    except NoSolutionError as error:
        port_trouble = no_solution(error)
    rows = [
        (_("net volume of the rear chamber"), "volume", "rear"),
        (_("volume of the front chamber"), "volume", "front"),
        (_("resonance with the rear chamber, fc"), "frequency", "rear_resonance"),
        (_("tuning of the front chamber"), "frequency", "front_tuning"),
        (_("band from, 3 dB down"), "frequency", "low"),
        (_("band up to, 3 dB down"), "frequency", "high"),
    ]
    return Answer(
        target=target,
        lines=[
            *[
                line(label, kind, getattr(had, name) if had else None, getattr(has, name))
                for label, kind, name in rows
            ],
            *level_lines(now, then),
            *_port_lines(result, now, then, port),
        ],
        fields={
            "wanted_volume": has.rear,
            "front_volume": has.front,
            "wanted_tuning": has.front_tuning,
            "port_length": None,
        },
        port=port,
        port_trouble=port_trouble,
        now=now,
        then=then,
        voltage=result.voltage,
    )


def _mass_line(target: Target, as_is: Chamber | None, chamber: Chamber) -> list[Line]:
    if target.want != "fb" or not isinstance(chamber, PassiveRadiatorBox):
        return []
    now = as_is.radiator.added_mass if isinstance(as_is, PassiveRadiatorBox) else None
    then = float(chamber.radiator.added_mass)
    return [line(_("mass added to each"), "moving_mass", None if now is None else float(now), then)]


def _loud_line(result: BoxResult, target: Target, now: Sweep | None, then: Sweep) -> list[Line]:
    if target.want != "loudest":
        return []
    words = _("least of the largest clean levels, %(low)s to %(high)s") % {
        "low": units.show(target.low, "frequency"),
        "high": units.show(target.high, "frequency"),
    }
    levels = (least_level(result, solved, target.low, target.high) for solved in (now, then))
    return [line(words, "level", *levels)]


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
                "by": difference(cost.f3 - wanted, "frequency"),
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


def _port_lines(result: BoxResult, now: Sweep | None, then: Sweep, port: Port | None) -> list[Line]:
    if then.port_speed is None or enclosures.port_opening(result.box) is None:
        return []
    length = result.port.length if result.port else None
    speed = None if now is None or now.port_speed is None else float(now.port_speed.max())
    return [
        line(_("port length"), "length", length, port.length if port else None),
        line(_("fastest air in the port"), "speed", speed, float(then.port_speed.max())),
    ]
