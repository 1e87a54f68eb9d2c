"""How much air moves along with the end of a slot: in a large panel, and between two walls."""

import numpy as np

from acoustics.errors import OutOfRangeError
from acoustics.names import Name
from acoustics.values import Real, require_positive

# A slot between two walls ends at the bare edge of its panel instead of flush in a wall: mode
# matching in two dimensions gives 0.867 to 0.887 of the flush end for an 18 mm panel.
BARE_EDGE = 0.88


def as_wide_correction(height: float, room: float) -> float:
    """End correction of a slot as wide as the room it opens into, ending at a panel's bare edge.

    ΔL = 0.88 (2h/π) [((1+x²)/2x) ln((1+x)/(1−x)) + ln((1−x²)/4x)], x = h/H.

    Args:
        height: height of the slot [m]
        room: height of the room from the slot's floor [m]

    Returns: length to add for this end [m]

    Raises:
        OutOfRangeError: the slot is not lower than its room.

    Valid: two dimensions, wavelength much longer than the room; panel of about 18 mm: ± 2 %.

    Source: a step in a channel, e.g. J. Miles, J. Acoust. Soc. Am. 17 (1946) 259 (from memory);
        0.88: mode matching, our own.
    """
    require_positive(Name.PORT_HEIGHT, height, "m")
    if height >= room:
        raise OutOfRangeError(Name.PORT_HEIGHT, height, "m", below=room)
    x = height / room
    flush = (1 + x**2) / (2 * x) * np.log((1 + x) / (1 - x)) + np.log((1 - x**2) / (4 * x))
    return float(BARE_EDGE * 2 * height / np.pi * flush)


def flanged_rectangle_correction(width: Real, height: Real) -> Real:
    """End correction of a flanged rectangular opening with uniform air speed across it.

    ΔL = (1/2πS) ∬∬ dS dS'/r, in closed form with a = width, b = height:
    ΔL = [2ab(a asinh(b/a) + b asinh(a/b)) + ⅔(a³ + b³ − (a² + b²)^1.5)] / (2πab).

    Uniform speed makes it an upper bound: about 3 % above the true pipe for a round opening.

    Args:
        width: one side of the opening [m]
        height: other side of the opening [m]

    Returns: length to add for this end [m]

    Valid: low frequencies (wavelength much longer than the opening), infinite flange.

    Source: Lord Rayleigh, The Theory of Sound, vol. II, §§ 302 and 307 (piston in an infinite
        flange); the integral over a rectangle is elementary and is checked by quadrature.
    """
    a, b = width, height
    integral = 2.0 * a * b * (a * np.arcsinh(b / a) + b * np.arcsinh(a / b)) + (2.0 / 3.0) * (
        a**3 + b**3 - (a**2 + b**2) ** 1.5
    )
    correction: Real = integral / (2.0 * np.pi * a * b)
    return correction
