"""What a section shows of the wood inside a box."""

from __future__ import annotations

from dataclasses import dataclass

from acoustics.carcass.shape.profile import Point


@dataclass(frozen=True, kw_only=True)
class SeenBrace:
    """Wood inside as the side view shows it.

    Attributes:
        outline: corners (x, y) [m].
        cut: whether the section cuts it; if not, it is the edge of a window behind.
    """

    outline: tuple[Point, ...]
    cut: bool
