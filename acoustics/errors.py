"""What the package refuses, as data: a code and the figures it turns on. No sentences here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar, TypedDict, Unpack

from acoustics.names import Name

COUNT = ""  # the unit of what is counted

# code -> what is given with it. The comment says when it is raised and what cures it.
CODES: dict[str, tuple[str, ...]] = {
    # --- a figure outside what it can be; cure: correct it ---------------------------------------
    "above": ("name", "value", "limit"),
    "below": ("name", "value", "limit"),
    "at-least": ("name", "value", "limit"),
    "between": ("name", "value", "low", "high"),  # both ends allowed
    "one-of": ("name", "value", "choices"),
    "whole-number": ("name", "value"),
    "even": ("name", "value"),
    "finite": ("name", "value"),
    "eight-corners": ("name", "value"),
    "two-equal-columns": ("name", "value"),  # value: lines of the first column
    "rising": ("name", "value"),  # numbers that do not rise from line to line
    "equal-rising-columns": ("name", "value"),
    "number-pairs": ("name", "value"),
    "simple-outline": ("name", "value"),  # an outline that crosses itself or encloses nothing
    "measured": ("name", "value"),  # nobody measured it. Cure: measure it
    "stable": ("name", "value"),
    "less-steep": ("name", "value"),
    # --- too little, or two figures that cannot both be true --------------------------------------
    "missing": ("names",),  # names of what would complete the input. Cure: enter them
    "contradicts-below": ("name", "value", "limit"),  # the others ask for less than limit
    "contradicts-at-least": ("name", "value", "limit"),  # the others ask for limit or more
    "flares-longer-than-port": ("value", "limit"),  # both flares, port. Cure: smaller flares
    # --- a target out of reach; limit is the nearest that can be reached --------------------------
    "port-does-not-tune": ("value", "limit"),  # the ends alone hold too much air. Cure: larger port
    "port-beside-tunes-higher": ("value", "limit"),  # alone. Cure: that one longer or narrower
    "qtc-out-of-reach": ("value", "limit"),  # Cure: another Qtc, or less loss
    "f3-out-of-reach": ("value", "limit"),  # Cure: another driver
    "vented-f3-out-of-reach": ("value", "limit"),  # Cure: accept more ripple, another driver
    "ripple-out-of-reach": ("value", "limit"),  # every tuning. Cure: accept more, larger box
    "no-even-box": ("value", "limit"),  # no box at all is so even. Cure: accept more
    "shape-out-of-reach": ("shape", "value", "limit"),  # of Qts. Cure: another shape or driver
    "shape-of-fourth-order": ("shape",),  # asked of a sealed box. Cure: another shape, a vented box
    "leaks-too-much": ("value",),  # no box of this QL has the shape. Cure: a tighter box
    "band-below-driver": ("value", "limit"),  # middle of the band, fs. Cure: a higher band
    "band-out-of-reach": ("value", "limit"),  # both edges. Cure: a wider band, another driver
    "sixth-band-out-of-reach": ("value", "limit"),  # the same of two vented chambers
    "band-uneven": ("value", "limit"),  # sag accepted, the least there is. Cure: accept more
    "lightest-tunes-lower": ("value", "limit"),  # without added mass. Cure: less air, lighter cone
    "never-falls": ("drop", "limit"),  # the sweep ends at limit before the response falls by drop
    # --- a sweep that does not tell what is asked of it; cure: measure again ----------------------
    "too-few-points": ("value", "limit"),  # points, figures to fit
    "uncertain": ("names",),  # left uncertain by more than a fifth
    "no-peak": (),
    "coarse": ("value",),  # too few points across the resonance at value
    "undetermined": (),
    "two-peaks": ("value", "limit"),  # a vented box, or two drivers. Cure: one driver, free air
    "fits-no-driver": ("value", "limit"),  # misfit. Cure: ohms, not dB; one driver, no amplifier
    "amplifier-connected": ("value", "limit"),  # highest impedance, least. Cure: take it off
    "looks-like-decibels": ("value", "limit"),  # misfit as ohms, as dB. Cure: export ohms
    "phase-in-radians": ("value",),  # largest phase. Cure: export degrees
    "not-in-hertz-and-ohms": ("name", "value", "low", "high"),  # Cure: a heading that says the unit
    "mass-did-not-lower": ("value", "limit"),  # resonance with the mass, and without
    "box-did-not-raise": ("value", "limit"),  # resonance in the box, and without
    # --- a sweep of a finished box that tells nothing of it ---------------------------------------
    "box-not-worked-out": (),  # raised by the bridge. Cure: complete the box
    "no-box-to-prove": (),  # an infinite baffle
    "other-coil": ("value", "limit"),  # lowest impedance, Re. Cure: the right box and terminals
    "box-lacks-peak": ("value", "limit"),  # peaks found, wanted. Cure: the right box; start lower
    "box-peak-too-many": ("value", "limit"),  # lowest and highest peak. Cure: the right box
    "peak-below-driver": ("value", "limit"),  # resonance found, the driver's own in free air
    "fits-no-box": ("value", "limit"),  # misfit. Cure: the right box, no amplifier, no rattle
    # --- a recording that says nothing of the channel; cure: record again -------------------------
    "recording-short": ("value", "limit"),  # how long it is, how long what was played is
    "recording-silent": (),  # Cure: the right microphone, and its level
    "recording-clipped": ("value",),  # when it reached full scale. Cure: less level
    "marks-not-found": (),  # Cure: lead the right input to a speaker; play the marked sweep
    "recording-not-wav": (),  # Cure: save it as WAV, PCM
    "recording-slow": ("value", "limit"),  # sample rates. Cure: another microphone, not wireless
    "recording-lost-samples": ("value", "limit"),  # how far the clocks seem apart
    "recording-other-rate": ("value", "limit"),  # as the file says, as it is. Cure: record anew
    "recording-long": ("value", "limit"),  # Cure: one sweep for each recording
    # --- a text that holds no columns of numbers; line counts from 1, 0 is the whole file ---------
    "too-long": ("line", "value", "limit"),  # characters. Cure: export fewer points
    "binary": ("line",),  # Cure: export as text
    "empty": ("line", "value", "limit"),  # lines of numbers
    "not-a-number": ("line",),
    "separator": ("line",),  # decimal commas or commas between. Cure: semicolons
    "column-count": ("line", "value"),
    "columns-swapped": ("line",),
    "kilohertz": ("line", "value"),  # frequency and its unit do not agree
    "frequency-order": ("line", "value"),
    "not-impedance": ("line", "value"),  # Ω not above 0, or a phase beyond ±90°
    "not-a-gain": ("line",),  # more than a cabin can add
}


@dataclass(frozen=True)
class Quantity:
    """A figure with its SI unit.

    Attributes:
        value: the figure [as named in unit]
        unit: its SI unit, "-" for a ratio, COUNT for what is counted
    """

    value: float
    unit: str = "-"

    def __str__(self) -> str:
        """Say it to a developer."""
        return f"{self.value:g} {self.unit}".rstrip()


class Id(str):
    """What a caller calls a part or a place: handed back as it came, said by who knows it."""

    __slots__ = ()


# A figure, a name of one, an id, a word of the package's own, several of them, or unknown.
Given = Quantity | StrEnum | Id | str | tuple["Given", ...] | None


class Limit(TypedDict, total=False):
    """What is asked of a figure: one of these.

    Attributes:
        above: the least, itself not allowed [as the figure]
        below: the most, itself not allowed [as the figure]
        at_least: the least allowed [as the figure]
        between: the least and the most allowed [as the figure]
        one_of: what is allowed [as the figure]
        to_be: code of a limit that has no figure
    """

    above: float
    below: float
    at_least: float
    between: tuple[float, float]
    one_of: tuple[str | float, ...]
    to_be: str


class AcousticsError(ValueError):
    """Base of every error this package raises on purpose.

    Attributes:
        code: stable kebab-case key of its codes
        given: what it turns on, by the names its code lists

    Raises:
        KeyError: the code is not listed, or something else is given than it lists.
    """

    codes: ClassVar[Mapping[str, tuple[str, ...]]] = CODES

    def __init__(self, *, code: str, **given: Given) -> None:
        if set(self.codes[code]) != set(given):
            raise KeyError(code, *given)
        self.code = code
        self.given = given
        words = ", ".join(f"{key} {_plain(value)}" for key, value in given.items())
        super().__init__(f"{code}: {words}" if words else code)


def _plain(value: Given) -> str:
    if isinstance(value, tuple):
        return " / ".join(_plain(part) for part in value)
    return "unknown" if value is None else str(value)


class OutOfRangeError(AcousticsError):
    """A value lies outside the limits within which a formula or a part makes sense."""

    def __init__(
        self, name: Name, value: float | str | None, unit: str = "-", **limit: Unpack[Limit]
    ) -> None:
        code, asked = _asked(limit, unit)
        super().__init__(code=code, name=name, value=_quantity(value, unit), **asked)


def _quantity(value: float | str | None, unit: str) -> Quantity | str | None:
    """A number with its unit; a word and what is unknown have none."""
    return value if value is None or isinstance(value, str) else Quantity(float(value), unit)


def _asked(limit: Limit, unit: str) -> tuple[str, dict[str, Given]]:
    """Code of a limit, and its figures with their unit."""
    if "to_be" in limit:
        return limit["to_be"], {}
    if "between" in limit:
        low, high = limit["between"]
        return "between", {"low": _quantity(low, unit), "high": _quantity(high, unit)}
    if "one_of" in limit:
        return "one-of", {"choices": tuple(_quantity(word, unit) for word in limit["one_of"])}
    [(key, bound)] = limit.items()
    return key.replace("_", "-"), {"limit": _quantity(bound, unit)}  # type: ignore[arg-type]


class MissingError(AcousticsError):
    """Too little was given: the missing quantities are named."""

    def __init__(self, *names: StrEnum) -> None:
        super().__init__(code="missing", names=names)


class ContradictionError(AcousticsError):
    """Two given values cannot both be true."""


class NoSolutionError(AcousticsError):
    """A wanted target cannot be reached; the best that can be reached is given."""


class PortFitError(NoSolutionError):
    """A port that cannot fit: its two ends alone hold more air than the tuning allows."""

    def __init__(self, tuning: float, highest: float) -> None:
        limit = Quantity(highest, "Hz")
        super().__init__(code="port-does-not-tune", value=Quantity(tuning, "Hz"), limit=limit)


class SweepFileError(AcousticsError):
    """A text file of measured columns cannot be read: the line and the reason are given.

    Attributes:
        line: number of the line, counted from 1; 0 when it is about the whole file [-]
    """

    def __init__(self, *, code: str, line: int, **given: Given) -> None:
        self.line = line
        super().__init__(code=code, line=Quantity(line, COUNT), **given)


class RecordingError(AcousticsError):
    """A recording says nothing of the channel: the reason is given."""


class FitError(AcousticsError):
    """A measured curve does not determine the wanted parameters: the reason is given."""
