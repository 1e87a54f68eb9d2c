"""Targets that ask for more than one figure: most level in a band, a cone's mass."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from django.utils.translation import gettext as _

from acoustics.air.air import STANDARD
from acoustics.circuit.limits import clean_level
from acoustics.circuit.loudest import Loudest, loudest_box
from acoustics.circuit.solver import Sweep
from acoustics.driver.driver import Driver as AcousticDriver
from acoustics.enclosure.boxes import PassiveRadiatorBox
from acoustics.enclosure.openings import Vent
from acoustics.errors import AcousticsError, MissingError
from jobs import units
from jobs.design.box import enclosures
from jobs.design.box.boxes import BoxResult
from jobs.design.box.study import LIMITS
from jobs.design.carcass.contents import by_area_rule
from jobs.design.wording.names import Needed
from jobs.models.box.box_kinds import Behind, kind_of

POINTS = 40


@dataclass(frozen=True, kw_only=True)
class Trade:
    """What other litres would give, and what holds the best box back, in words."""

    loudest: Loudest
    words: Sequence[str]


def loudest(
    result: BoxResult, driver: AcousticDriver, volume: float, low: float, high: float
) -> Loudest:
    """Return the box of these litres that plays loudest from here to there."""
    box, vented = result.box, kind_of(result.box).behind is Behind.PORT
    # By the area rule the opening grows with the tuning: then each tuning tried has its own.
    typed = vented and not by_area_rule(box)
    area = enclosures.port_area(box) if typed else None
    second = enclosures.second_port(box)
    losses: dict[str, Any] = {"ql": enclosures.leak_q(box), "qa": enclosures.loss_q(box.qa)}
    losses |= {"qp": enclosures.loss_q(box.qp)} if vented else {"fill": box.fill}
    return loudest_box(
        driver,
        low,
        high,
        volume=volume,
        vented=vented,
        area=area,
        second=Vent.of(second) if second else None,
        losses=losses,
        amplifier_voltage=result.feed.voltage,
        amplifier_current=result.feed.current,
        series_resistance=result.feed.series_resistance,
    )


def trade_of(best: Loudest) -> Trade:
    """Say what holds the loudest box back, and what of its limits nobody knows."""
    words = [
        _("Least at %(f)s: %(limit)s sets the limit.")
        % {"f": units.show(best.frequency, "frequency"), "limit": LIMITS[best.limit]}
    ]
    if best.unknown:
        names = ", ".join(str(LIMITS[name]) for name in best.unknown)
        words.append(_("Not known, so not counted: %(names)s.") % {"names": names})
    return Trade(loudest=best, words=words)


def least_level(result: BoxResult, solved: Sweep | None, low: float, high: float) -> float | None:
    """Return the least of the largest clean levels of a box in a band."""
    if solved is None:
        return None
    step = (high / low) ** (1 / (POINTS - 1))
    band = [low * step**k for k in range(POINTS)]
    try:
        clean = clean_level(
            solved.at(frequencies=band),
            amplifier_voltage=result.feed.voltage,
            amplifier_current=result.feed.current,
        )
    except AcousticsError:
        return None
    return float(clean.spl.min())


def with_mass(result: BoxResult, tuning: float) -> PassiveRadiatorBox:
    """Return the box of the litres at hand whose cones are loaded to this tuning."""
    box = result.load
    if not isinstance(box, PassiveRadiatorBox):
        raise MissingError(Needed.RADIATOR)
    added = box.radiator.added_mass_for(tuning, float(box.volume), STANDARD)
    return replace(box, radiator=replace(box.radiator, added_mass=added))
