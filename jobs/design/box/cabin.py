"""A box in its car: the most a cabin without leaks could add, or a curve measured in the car.

Neither promises a level: the bound is never reached by a car that leaks and gives, and a measured
curve holds for the place, the seat and the day it was measured.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from django.utils.translation import gettext as _

from acoustics.air.cabin import PressureZoneBound, TransferCurve
from acoustics.columns import parse_columns
from acoustics.errors import SweepFileError
from jobs.design.box.figures import FREQUENCIES, Floats
from jobs.design.wording.columns import LARGEST_GAIN, column_trouble
from jobs.models import CabinCurve, Vehicle


class UnreadableCurveError(ValueError):
    """A text holds no transfer curve; the message says on which line and why."""


@dataclass(frozen=True, kw_only=True)
class Cabin:
    """What is known of a car's cabin: a measured curve before an ideal bound, or what is missing.

    `gain` is added to the level in a half space, at `frequencies` only: below the first standing
    wave for the bound, within the measured range for a curve.
    """

    frequencies: Floats
    gain: Floats
    bound: PressureZoneBound | None = None
    curve: CabinCurve | None = None
    trouble: str = ""

    @property
    def is_known(self) -> bool:
        """Whether there is anything to draw."""
        return self.frequencies.size > 1

    def level(self, half_space: Floats) -> Floats:
        """Return the level with the cabin's gain, at `frequencies`, from that at FREQUENCIES."""
        at = np.interp(np.log(self.frequencies), np.log(FREQUENCIES), half_space)
        level: Floats = at + self.gain
        return level


def read_transfer(text: str) -> TransferCurve:
    """Return the curve a text holds, or raise UnreadableCurveError."""
    try:
        columns = parse_columns(text)
        beyond = np.flatnonzero(np.abs(columns.value) > LARGEST_GAIN)
        if beyond.size:
            line = min(columns.lines[int(row)] for row in beyond)
            raise SweepFileError(code="not-a-gain", line=line)
    except SweepFileError as error:
        raise UnreadableCurveError(column_trouble(error, text)) from error
    curve = TransferCurve(frequency=columns.frequency, level=columns.value, phase=columns.phase)
    if _within(curve).size < 2:
        message = _("The curve has nothing between 10 and 500 Hz, where boxes are drawn.")
        raise UnreadableCurveError(message)
    return curve


def cabin_of(vehicle: Vehicle, curves: Iterable[CabinCurve]) -> Cabin:
    """Return what is known of a cabin; of `curves` the first counts, the newest."""
    for curve in curves:
        try:
            measured = read_transfer(curve.content)
        except UnreadableCurveError as error:
            return _nothing(str(error))
        within = _within(measured)
        return Cabin(frequencies=within, gain=measured.gain(within), curve=curve)
    if vehicle.cabin_volume is None or vehicle.cabin_length is None:
        missing = [
            name
            for name, value in (
                (_("cabin air volume"), vehicle.cabin_volume),
                (_("cabin length inside"), vehicle.cabin_length),
            )
            if value is None
        ]
        return _nothing(_("Not known: %(names)s.") % {"names": ", ".join(missing)})
    bound = PressureZoneBound(volume=vehicle.cabin_volume, length=vehicle.cabin_length)
    below = FREQUENCIES[bound.first_mode > FREQUENCIES]
    if below.size < 2:
        return _nothing(
            _("The first standing wave of this cabin lies below 10 Hz: there is no bound to draw.")
        )
    # Drawn right up to the standing wave, where the bound ends.
    ends_inside = bound.first_mode < FREQUENCIES[-1]
    frequencies = np.append(below, bound.first_mode) if ends_inside else below
    return Cabin(frequencies=frequencies, gain=bound.gain(frequencies), bound=bound)


def _nothing(trouble: str) -> Cabin:
    none = np.array([])
    return Cabin(frequencies=none, gain=none, trouble=trouble)


def _within(curve: TransferCurve) -> Floats:
    """Frequencies of the charts that were measured."""
    low, high = curve.frequency[0], curve.frequency[-1]
    within: Floats = FREQUENCIES[(low <= FREQUENCIES) & (high >= FREQUENCIES)]
    return within
