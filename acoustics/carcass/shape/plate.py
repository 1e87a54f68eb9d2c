"""Wood as a plate: the first mode of a panel, and the brace that lifts it out of the band."""

from __future__ import annotations

import math
from dataclasses import dataclass

from acoustics.carcass.shape.errors import CarcassError, metres
from acoustics.errors import Quantity


@dataclass(frozen=True, kw_only=True)
class Board:
    """What a sheet is made of.

    Attributes:
        modulus: Young's modulus [Pa].
        density: density [kg/m³].
        poisson: Poisson's ratio [-].

    Raises:
        CarcassError: when modulus or density is not above 0, or the ratio not within 0 and 0.5.
    """

    modulus: float
    density: float
    poisson: float = 0.3

    def __post_init__(self) -> None:
        good = self.modulus > 0 and self.density > 0 and 0 <= self.poisson < 0.5
        if not (good and math.isfinite(self.modulus) and math.isfinite(self.density)):
            raise CarcassError(
                code="board-impossible",
                modulus=Quantity(self.modulus, "Pa"),
                density=Quantity(self.density, "kg/m³"),
                poisson=Quantity(self.poisson),
            )


def check_density(density: float | None) -> None:
    """Refuse the density of a sheet when it is known and not above 0.

    Args:
        density: density, or None when not known [kg/m³].

    Raises:
        CarcassError: when it is not above 0.

    Source: definition.
    """
    if density is not None and not density > 0:
        raise CarcassError(code="density-not-positive", density=Quantity(density, "kg/m³"))


def first_mode(length: float, width: float, *, thickness: float, board: Board) -> float:
    """Return the first mode of a rectangular panel whose edges are held but may turn.

    f = (π / 2) · sqrt(D / (ρ h)) · (1 / a² + 1 / b²) with D = E h³ / (12 (1 − ν²)).

    Args:
        length: one side [m].
        width: the other side [m].
        thickness: thickness [m].
        board: what it is made of.

    Returns: frequency [Hz]

    Raises:
        CarcassError: when a dimension is not above 0 m.

    Valid: thin isotropic plate, simply supported; glued edges are stiffer, so the true mode
        lies higher.

    Source: A. W. Leissa, "Vibration of Plates", NASA SP-160 (1969), ch. 4, from memory.
    """
    if not (min(length, width, thickness) > 0 and math.isfinite(length * width * thickness)):
        raise CarcassError(
            code="panel-size-not-positive",
            length=metres(length),
            width=metres(width),
            thickness=metres(thickness),
        )
    stiffness = board.modulus * thickness**3 / (12 * (1 - board.poisson**2))
    speed = math.sqrt(stiffness / (board.density * thickness))
    return math.pi / 2 * speed * (1 / length**2 + 1 / width**2)


def bays_needed(
    divided: float, held: float, *, thickness: float, board: Board, band_top: float
) -> int:
    """Return into how many bays braces must divide one side to lift the mode out of a band.

    Args:
        divided: the side that is divided; the longer one needs the fewest braces [m].
        held: the other side [m].
        thickness: thickness [m].
        board: what it is made of.
        band_top: highest frequency used [Hz].

    Returns: number of equal bays, 1 when no brace is needed [-]

    Raises:
        CarcassError: when a dimension or the frequency is not above 0.

    Valid: equal bays; in practice they are made a little unequal, the longest no longer than this.

    Source: common practice, no source.
    """
    if not (band_top > 0 and math.isfinite(band_top)):
        raise CarcassError(code="band-top-not-positive", frequency=Quantity(band_top, "Hz"))
    unit = first_mode(1.0, 1.0, thickness=thickness, board=board) / 2
    first_mode(divided, held, thickness=thickness, board=board)  # refuses what is no panel
    wanted = band_top / unit - 1 / held**2  # 1 / bay² must reach this
    bays = 1 if wanted <= 1 / divided**2 else math.ceil(divided * math.sqrt(wanted) - 1e-9)
    return max(bays, 1)
