"""Targets that ask for more than one figure: most level in a band, a band-pass, a cone's mass."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from django.utils.translation import gettext as _

from acoustics.air.air import STANDARD
from acoustics.circuit.band_pass_targets import band_edges, band_pass_for_band
from acoustics.circuit.limits import clean_level
from acoustics.circuit.loudest import Loudest, loudest_box
from acoustics.circuit.solver import Sweep
from acoustics.driver.driver import Driver as AcousticDriver
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import PassiveRadiatorBox, Sealed, Vented
from acoustics.errors import AcousticsError, MissingError
from jobs import units
from jobs.design.box import enclosures
from jobs.design.box.boxes import BoxResult
from jobs.design.box.study import LIMITS
from jobs.design.carcass.slots import ports
from jobs.design.wording.names import Needed
from jobs.models.box.box_kinds import Behind, kind_of

POINTS = 40
# A band is no band where a port's air is all that is left of the driver.
ANY_AREA = 0.01


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
    opening = enclosures.port_opening(box) if vented and box.port_diameter else None
    losses: dict[str, Any] = {"ql": enclosures.leak_q(box), "qa": enclosures.loss_q(box.qa)}
    losses |= {"qp": enclosures.loss_q(box.qp)} if vented else {"fill": box.fill}
    return loudest_box(
        driver,
        low,
        high,
        volume=volume,
        vented=vented,
        area=opening.area * ports(box) if opening else None,
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


def for_band(result: BoxResult, driver: AcousticDriver, low: float, high: float) -> BandPass:
    """Return the band-pass of the fourth order whose band ends at two frequencies."""
    opening = enclosures.port_opening(result.box)
    return band_pass_for_band(
        driver,
        low,
        high,
        area=opening.area * ports(result.box) if opening else ANY_AREA,
        ql=enclosures.leak_q(result.box, Behind.PORT),
        rear_ql=enclosures.leak_q(result.box, Behind.CLOSED),
        series_resistance=result.feed.series_resistance,
    )


@dataclass(frozen=True, kw_only=True)
class BandFigures:
    """The figures of a band-pass that a target compares."""

    rear: float
    front: float
    rear_resonance: float
    front_tuning: float
    low: float
    high: float


def band_figures(solved: Sweep | None) -> BandFigures | None:
    """Return the figures of a band-pass, or None for another box or one without a band."""
    if solved is None or not isinstance(box := solved.box, BandPass):
        return None
    rear, front = box.rear, box.front
    assert isinstance(rear, Sealed | Vented)
    assert isinstance(front, Vented)
    try:
        low, high = band_edges(solved)
    except AcousticsError:
        low = high = math.nan
    return BandFigures(
        rear=float(rear.volume),
        front=float(front.volume),
        rear_resonance=float(rear.resonance(solved.driver)),
        front_tuning=float(front.resonance()),
        low=low,
        high=high,
    )
