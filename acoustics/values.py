"""Plain numbers and arrays of candidates, and the checks they all share."""

import math
from typing import cast

import numpy as np
from numpy.typing import NDArray

from acoustics.errors import OutOfRangeError
from acoustics.names import Name

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
# One value, or one value per candidate.
Real = float | Floats
_LARGEST = float(np.finfo(float).max)


def column(value: Real) -> Real:
    """Give candidates an axis of their own so that they spread against frequency.

    A plain number stays one; an array of shape (...) becomes (..., 1).

    Args:
        value: number or array of candidates [as given]

    Returns: value, ready to meet an array over frequency [as given]

    Source: definition.
    """
    return value[..., None] if isinstance(value, np.ndarray) else value


def require_positive(name: Name, value: Real, unit: str, *, infinite: bool = False) -> None:
    """Refuse a value that is not a positive number.

    Args:
        name: name of the value in the field's words
        value: value to check [as named in unit]
        unit: SI unit of the value
        infinite: whether infinity is a proper value, as for the Q of no loss

    Raises:
        OutOfRangeError: value is zero, negative, not a number, or infinite where it may not be.

    Source: definition.
    """
    top = math.inf if infinite else _LARGEST
    if isinstance(value, float | int):  # plain numbers by far outnumber arrays
        if 0 < value <= top:
            return
        offender: float = value
    else:
        good = (value > 0) & (value <= top)
        if good.all():
            return
        offender = cast(float, np.asarray(value)[~good].flat[0])
    raise OutOfRangeError(name, offender, unit, above=0)


def require_between(name: Name, value: Real, low: float, high: float, unit: str) -> None:
    """Refuse a value outside closed limits.

    Args:
        name: name of the value in the field's words
        value: value to check [as named in unit]
        low: lowest value allowed [as named in unit]
        high: highest value allowed [as named in unit]
        unit: SI unit of the three

    Raises:
        OutOfRangeError: value is outside the limits or not a number.

    Source: definition.
    """
    if isinstance(value, float | int):
        if low <= value <= high:
            return
        offender: float = value
    else:
        good = (value >= low) & (value <= high)
        if good.all():
            return
        offender = cast(float, np.asarray(value)[~good].flat[0])
    if high == np.inf:
        raise OutOfRangeError(name, offender, unit, at_least=low)
    raise OutOfRangeError(name, offender, unit, between=(low, high))
