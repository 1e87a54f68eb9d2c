"""Errors of the wiring calculators: each names the value, the limit and the unit."""

import math


class WiringError(ValueError):
    """Input that no 12 V installation can have.

    Attributes:
        name: what the value is
        value: the value as given
        limit: the limit it broke, as words or number
        unit: SI unit of value and limit
    """

    def __init__(self, *, name: str, value: object, limit: object, unit: str = "-") -> None:
        self.name = name
        self.value = value
        self.limit = limit
        self.unit = unit
        super().__init__(f"{name} is {value} {unit}, must be {limit}")


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


def require_positive(*, name: str, value: float, unit: str) -> None:
    """Refuse a number that is not finite and above zero.

    Args:
        name: what the value is
        value: the number to test [in unit]
        unit: its SI unit

    Raises:
        OutOfRangeError: if the number is zero, negative, infinite or not a number

    Source: definition
    """
    if not (math.isfinite(value) and value > 0):
        raise OutOfRangeError(name=name, value=value, limit="above 0", unit=unit)


def require_not_negative(*, name: str, value: float, unit: str) -> None:
    """Refuse a number that is not finite or is below zero.

    Args:
        name: what the value is
        value: the number to test [in unit]
        unit: its SI unit

    Raises:
        OutOfRangeError: if the number is negative, infinite or not a number

    Source: definition
    """
    if not (math.isfinite(value) and value >= 0):
        raise OutOfRangeError(name=name, value=value, limit="0 or more", unit=unit)


def require_between(*, name: str, value: float, low: float, high: float, unit: str) -> None:
    """Refuse a number outside a closed range.

    Args:
        name: what the value is
        value: the number to test [in unit]
        low: least allowed [in unit]
        high: most allowed [in unit]
        unit: its SI unit

    Raises:
        OutOfRangeError: if the number is outside the range or not a number

    Source: definition
    """
    if not (math.isfinite(value) and low <= value <= high):
        raise OutOfRangeError(name=name, value=value, limit=f"{low} to {high}", unit=unit)


def known(*, name: str, value: float | None, unit: str) -> float:
    """Insist that a number has been entered.

    Args:
        name: what the value is
        value: the number, None if unknown [in unit]
        unit: its SI unit

    Returns:
        the number [in unit]

    Raises:
        UnknownDataError: if it is unknown

    Source: definition
    """
    if value is None:
        raise UnknownDataError(name=name, value=None, limit="entered", unit=unit)
    return value
