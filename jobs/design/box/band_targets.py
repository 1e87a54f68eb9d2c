"""A band-pass for a band: its chambers, what tunes them, both its edges, and how even it is."""

from __future__ import annotations

import math
from collections.abc import Mapping

from django.utils.translation import gettext as _

from acoustics.circuit.band_pass_targets import band_edges, band_pass_for_band, deepest_sag
from acoustics.circuit.sixth_order_targets import vented_band_pass_for_band
from acoustics.circuit.solver import Sweep
from acoustics.driver.driver import Driver as AcousticDriver
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Sealed, Vented
from acoustics.errors import AcousticsError
from jobs import units
from jobs.design.box import enclosures
from jobs.design.box.boxes import BoxResult
from jobs.design.box.figures import NAMES
from jobs.design.box.target_lines import MISSED, UNEVEN, Line, line
from jobs.models.box.box_kinds import Behind, kind_of

# What of a band-pass a target compares -> the figure it is called as, and its kind.
_ROWS: Mapping[str, tuple[str, str]] = {
    "rear": ("rear_volume", "volume"),
    "front": ("front_volume", "volume"),
    "rear_fc": ("rear_fc", "frequency"),
    "rear_tuning": ("rear_tuning", "frequency"),
    "front_tuning": ("front_tuning", "frequency"),
    "low": ("band_low", "frequency"),
    "high": ("band_high", "frequency"),
    "sag": ("band_sag", "level"),
}


def for_band(
    result: BoxResult, driver: AcousticDriver, low: float, high: float, ripple: float
) -> BandPass:
    """Return the band-pass of the box's order whose band ends at two frequencies."""
    box, cable = result.box, result.feed.series_resistance
    area = enclosures.port_area(box) or enclosures.ANY_AREA
    ql = enclosures.leak_q(box, Behind.PORT)
    if kind_of(box).behind is Behind.PORT:
        return vented_band_pass_for_band(
            driver, low, high, area=area, rear_area=enclosures.ANY_AREA, ql=ql, ripple=ripple,
            series_resistance=cable,
        )  # fmt: skip
    rear_ql = enclosures.leak_q(box, Behind.CLOSED)
    return band_pass_for_band(
        driver, low, high, area=area, ql=ql, rear_ql=rear_ql, series_resistance=cable
    )


def band_fields(chosen: BandPass) -> dict[str, float | None]:
    """Say what would be typed into the box; a typed length would go before a tuning."""
    rear, front = _chambers(chosen)
    fields: dict[str, float | None] = {
        "wanted_volume": float(rear.volume),
        "front_volume": float(front.volume),
        "wanted_tuning": float(front.resonance()),
        "port_length": None,
    }
    if isinstance(rear, Vented):
        fields |= {"rear_wanted_tuning": float(rear.resonance()), "rear_port_length": None}
    return fields


def band_lines(now: Sweep | None, then: Sweep) -> list[Line]:
    """Compare chambers, tunings and both edges of the band."""
    had, has = _figures(now), _figures(then)
    return [
        line(str(NAMES[figure][0]), kind, had.get(name), has[name])
        for name, (figure, kind) in _ROWS.items()
        if name in has
    ]


def band_misses(then: Sweep, low: float, high: float, accepted: float) -> list[str]:
    """Hold the answer, worked out with everything in it, to the band asked for."""
    has, misses = _figures(then), []
    off = max(abs(has["low"] / low - 1), abs(has["high"] / high - 1))
    if not off <= MISSED:
        words = _("With coil, cable and all losses its band goes from %(low)s to %(high)s.")
        ends = {name: units.show(has[name], "frequency") for name in ("low", "high")}
        misses.append(words % ends)
    if has["sag"] > accepted + UNEVEN:
        words = _("Inside its band the level sags by %(by)s, %(more)s too much.")
        by, more = has["sag"], has["sag"] - accepted
        misses.append(words % {"by": units.show(by, "level"), "more": units.show(more, "level")})
    return misses


def _chambers(box: BandPass) -> tuple[Sealed | Vented, Vented]:
    assert isinstance(box.rear, Sealed | Vented)
    assert isinstance(box.front, Vented)
    return box.rear, box.front


def _figures(solved: Sweep | None) -> dict[str, float]:
    """Figures of a band-pass by name; none of another box."""
    if solved is None or not isinstance(solved.box, BandPass):
        return {}
    rear, front = _chambers(solved.box)
    try:
        low, high = band_edges(solved)
    except AcousticsError:
        low = high = math.nan  # the sweep does not reach that far
    sealed = isinstance(rear, Sealed)
    return {
        "rear": float(rear.volume),
        "front": float(front.volume),
        "rear_fc" if sealed else "rear_tuning": float(rear.resonance(solved.driver)),
        "front_tuning": float(front.resonance()),
        "low": low,
        "high": high,
        "sag": deepest_sag(solved),
    }
