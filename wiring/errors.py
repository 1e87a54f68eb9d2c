"""What the package refuses, as data: a code and the figures it turns on. No sentences here."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TypedDict, Unpack

from wiring.names import Name

COUNT = ""  # the unit of what is counted

# code -> what is given with it. The comment says when it is raised and what cures it.
CODES: dict[str, tuple[str, ...]] = {
    # -- a figure outside what it can be -> correct it ------------------------------------
    "above": ("name", "value", "limit"),
    "below": ("name", "value", "limit"),
    "at-least": ("name", "value", "limit"),
    "at-most": ("name", "value", "limit"),
    "between": ("name", "value", "low", "high"),  # both ends allowed
    "one-of": ("name", "value", "choices"),
    "made-of": ("name", "value", "choices"),  # letters that are no pairs of these
    "share": ("name", "value"),  # 0 to 1
    "share-above-zero": ("name", "value"),  # above 0 and at most 1
    "ideal-class-b": ("name", "value"),  # class AB above π/4, the ideal class B stage
    "opens-sooner": ("name", "value"),  # a curve of a fuse that opens later with more current
    "run-label": ("name", "value"),  # no letter of a kind of run and two digits or more
    "sourced": ("name", "value"),  # a rated current without its source -> enter the source
    # -- a figure that is needed and unknown -> enter it ----------------------------------
    "entered": ("name", "value"),
    # -- a tree that contradicts itself -> correct the run --------------------------------
    "another-node": ("name", "value"),  # a run that ends where it starts
    "known-node": ("name", "value"),  # a node the tree does not have
    "known-run": ("name", "value"),
    "known-fuse": ("name", "value"),
    "used-once": ("name", "value"),  # a label used twice
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
    """What a caller calls a node, a run or a load: handed back as it came."""

    __slots__ = ()


# A figure, a name of one, an id, a word of the package's own, several of them, or unknown.
Given = Quantity | StrEnum | Id | str | tuple["Given", ...] | None


class Limit(TypedDict, total=False):
    """What is asked of a figure: one of these.

    Attributes:
        above: the least, itself not allowed [as the figure]
        below: the most, itself not allowed [as the figure]
        at_least: the least allowed [as the figure]
        at_most: the most allowed [as the figure]
        between: the least and the most allowed [as the figure]
        one_of: what is allowed
        made_of: pairs of letters that are allowed
        to_be: code of a limit that has no figure
    """

    above: float
    below: float
    at_least: float
    at_most: float
    between: tuple[float | str, float | str]
    one_of: tuple[str, ...]
    made_of: tuple[str, ...]
    to_be: str


class WiringError(ValueError):
    """Input that no 12 V installation can have.

    Attributes:
        code: stable kebab-case key of CODES
        given: what it turns on, by the names its code lists
        about: id of the run, node, load or cable whose figure it is, or nothing

    Raises:
        KeyError: the code is not listed, or something else is given than it lists
    """

    def __init__(
        self,
        name: Name,
        value: float | str | None,
        unit: str = "-",
        *,
        about: str = "",
        **limit: Unpack[Limit],
    ) -> None:
        self.code, asked = _asked(limit, unit)
        self.given: dict[str, Given] = {"name": name, "value": _quantity(value, unit), **asked}
        self.about = Id(about)
        if set(CODES[self.code]) != set(self.given):
            raise KeyError(self.code, *self.given)
        words = ", ".join(f"{key} {_plain(given)}" for key, given in self.given.items())
        super().__init__(f"{self.code}: {words}" + (f", about {about}" if about else ""))


def _plain(value: Given) -> str:
    if isinstance(value, tuple):
        return " / ".join(_plain(part) for part in value)
    return "unknown" if value is None else str(value)


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
    [(key, bound)] = limit.items()
    code = key.replace("_", "-")
    if isinstance(bound, tuple):
        return code, {"choices": bound}
    return code, {"limit": _quantity(bound, unit)}  # type: ignore[arg-type]


class OutOfRangeError(WiringError):
    """A number outside what its quantity can be, such as a negative current."""


class OutsideTableError(WiringError):
    """A size, temperature or count that the published table does not list."""


class InsulationTooColdError(WiringError):
    """Insulation whose temperature class is not above the air around it."""


class TreeError(WiringError):
    """A power tree that contradicts itself, such as a run to a node that does not exist."""


class UnknownDataError(WiringError):
    """A calculation was asked for while a number it needs is unknown."""

    def __init__(self, name: Name, *, about: str = "") -> None:
        super().__init__(name, None, about=about, to_be="entered")


def require_positive(*, name: Name, value: float, unit: str, about: str = "") -> None:
    """Refuse a number that is not finite and above zero.

    Args:
        name: name of the value
        value: the number to test [in unit]
        unit: its SI unit
        about: id of the run or fuse whose figure it is

    Raises:
        OutOfRangeError: if the number is zero, negative, infinite or not a number

    Source: definition
    """
    if not (math.isfinite(value) and value > 0):
        raise OutOfRangeError(name, value, unit, about=about, above=0)


def require_not_negative(*, name: Name, value: float, unit: str) -> None:
    """Refuse a number that is not finite or is below zero.

    Args:
        name: name of the value
        value: the number to test [in unit]
        unit: its SI unit

    Raises:
        OutOfRangeError: if the number is negative, infinite or not a number

    Source: definition
    """
    if not (math.isfinite(value) and value >= 0):
        raise OutOfRangeError(name, value, unit, at_least=0)


def require_between(*, name: Name, value: float, low: float, high: float, unit: str) -> None:
    """Refuse a number outside a closed range.

    Args:
        name: name of the value
        value: the number to test [in unit]
        low: least allowed [in unit]
        high: most allowed [in unit]
        unit: its SI unit

    Raises:
        OutOfRangeError: if the number is outside the range or not a number

    Source: definition
    """
    if not (math.isfinite(value) and low <= value <= high):
        if high == math.inf:
            raise OutOfRangeError(name, value, unit, at_least=low)
        raise OutOfRangeError(name, value, unit, between=(low, high))


def known(*, name: Name, value: float | None) -> float:
    """Insist that a number has been entered.

    Args:
        name: name of the value
        value: the number, None if unknown [SI]

    Returns:
        the number [SI]

    Raises:
        UnknownDataError: if it is unknown

    Source: definition
    """
    if value is None:
        raise UnknownDataError(name)
    return value
