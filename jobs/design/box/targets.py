"""From what is wanted of a box to the box that gives it, and what that costs against the box now.

Solved with the losses of the record: leakage for every kind, absorption and filling for a sealed
box. The port's own losses count in what a vented box costs, not in what is chosen.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import copy
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
from jobs.design.box.band_targets import band_fields, band_lines, band_misses, for_band
from jobs.design.box.boxes import BoxResult
from jobs.design.box.figures import FREQUENCIES
from jobs.design.box.target_lines import (
    MISSED,
    UNEVEN,
    Chamber,
    Line,
    cost_lines,
    difference,
    level_lines,
    loud_line,
    mass_line,
    port_lines,
    rear_port_line,
)
from jobs.design.box.wider_targets import Trade, loudest, trade_of, with_mass
from jobs.design.carcass.carcass import taken_by_port
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
# The fields of a box a target may fill.
FIELDS = (
    *("wanted_volume", "wanted_tuning", "port_length"),
    *("front_volume", "radiator_added_mass"),
    *("rear_wanted_tuning", "rear_port_length"),
)


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
        return for_band(result, driver, target.low, target.high, target.rise)
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
    area = enclosures.port_area(box) or enclosures.ANY_AREA
    ql = enclosures.leak_q(box)
    if target.want in FIGURES:
        solve = vented_for_volume if target.want == "volume" else vented_for_f3
        vented = solve(driver, value, area=area, ql=ql, ripple=target.rise, series_resistance=cable)
    else:
        shape = Shape(target.want)
        vented = vented_for_shape(driver, shape, area=area, ql=ql, series_resistance=cable)
    return replace(vented, qa=enclosures.loss_q(box.qa), qp=enclosures.loss_q(box.qp))


@dataclass(frozen=True, kw_only=True)
class _Built:
    """An answer as the record would have it; `trouble` says why its port cannot be cut."""

    load: Solved
    port: Port | None = None
    # Of a band-pass vented on both sides.
    rear_port: Port | None = None
    trouble: str = ""
    # What the port takes of the inside, its walls with it.
    taken: float | None = None


def _built(result: BoxResult, fields: Mapping[str, float | None], chosen: Solved) -> _Built:
    """Type the answer into the box: its own port, a second one beside it, and every loss."""
    box, net = copy(result.box), fields["wanted_volume"]
    for name, value in fields.items():
        setattr(box, name, value)
    if net is None or not kind_of(box).port:
        return _Built(load=chosen)
    try:
        port = enclosures.port_for(box, net)
        if port is None:
            return _Built(load=chosen)
        load = enclosures.enclosure(box, net, port, result.measured)
        assert isinstance(load, Solved)
        behind = enclosures.rear_port(box, net) if "rear_wanted_tuning" in fields else None
        taken = taken_by_port(box, port.length)
        return _Built(load=load, port=port, rear_port=behind, taken=taken)
    except NoSolutionError as error:
        return _Built(load=chosen, trouble=no_solution(error))
    except AcousticsError as error:
        return _Built(load=chosen, trouble=sentence(reason(error)))


def _answered(result: BoxResult, driver: AcousticDriver, target: Target, chosen: Chamber) -> Answer:
    fields: dict[str, float | None] = {"wanted_volume": float(chosen.volume)}
    if isinstance(chosen, Vented):
        # A typed length would go before the tuning.
        fields |= {"wanted_tuning": float(chosen.resonance()), "port_length": None}
    if isinstance(chosen, PassiveRadiatorBox) and target.want == "fb":
        fields |= {"radiator_added_mass": float(chosen.radiator.added_mass)}
    built = _built(result, fields, chosen)
    assert isinstance(built.load, Chamber)

    def cost(load: Chamber) -> Cost | None:
        cable = result.feed.series_resistance
        try:
            return cost_of(driver, load, voltage=result.voltage, series_resistance=cable)
        except AcousticsError:
            return None  # its response never falls to half power

    as_is = result.load if isinstance(result.load, Chamber) else None
    now = _solved(result, driver, as_is) if as_is else None
    then = _solved(result, driver, built.load)
    figures = cost(built.load)
    return Answer(
        target=target,
        lines=[
            *cost_lines(as_is, built.load, cost(as_is) if as_is else None, figures),
            *(mass_line(as_is, built.load) if target.want == "fb" else []),
            *(
                loud_line(result, target.low, target.high, now, then)
                if target.want == "loudest"
                else []
            ),
            *level_lines(now, then),
            *port_lines(result, now, then, built.port, built.taken),
        ],
        fields=fields,
        port=built.port,
        port_trouble=built.trouble,
        misses=[*_unsaid(result.box), *_misses(result, target, built.load, figures, then)],
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


def _band_pass(
    result: BoxResult, driver: AcousticDriver, target: Target, chosen: BandPass
) -> Answer:
    """Two chambers and what tunes them; the rear one is what the wood leaves."""
    fields = band_fields(chosen)
    built = _built(result, fields, chosen)
    as_is = result.load if isinstance(result.load, BandPass) else None
    now = _solved(result, driver, as_is) if as_is else None
    then = _solved(result, driver, built.load)
    return Answer(
        target=target,
        lines=[
            *band_lines(now, then),
            *level_lines(now, then),
            *port_lines(result, now, then, built.port, built.taken),
            *rear_port_line(result, built.rear_port),
        ],
        fields=fields,
        port=built.port,
        port_trouble=built.trouble,
        misses=band_misses(then, target.low, target.high, target.rise),
        now=now,
        then=then,
        voltage=result.voltage,
    )


def _unsaid(box: Box) -> list[str]:
    """What nobody said of a door, and how it is counted here."""
    if not kind_of(box).hole or box.hole:
        return []
    return [_("Nobody said what becomes of the factory hole; here it counts as blanked off.")]


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
