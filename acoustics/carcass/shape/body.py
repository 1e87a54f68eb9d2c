"""A box as wood, whichever way it is built up, and what it offers to be drawn."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from acoustics.carcass.shape.braces import Layer
from acoustics.carcass.shape.contents import Placed
from acoustics.carcass.shape.faces import Extent, Face
from acoustics.carcass.shape.panel import Vector
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Point, Profile
from acoustics.carcass.shape.seen import SeenBrace
from acoustics.carcass.shape.taper import Taper

# Both have contents, layers and braces in faces of the same kind, litres, a profile and a width.
Body = Carcass | Taper


class Drawn(Protocol):
    """What a body offers to be drawn; a new kind of body is drawn by answering this."""

    @property
    def profile(self) -> Profile:
        """Outline of the side view [m]."""

    @property
    def air_profile(self) -> Profile:
        """The same less the wood, as a section shows it [m]."""

    @property
    def faces(self) -> tuple[str, ...]:
        """Names of its faces."""

    @property
    def between_cheeks(self) -> tuple[str, ...]:
        """Faces that are rectangles from cheek to cheek."""

    @property
    def extents(self) -> tuple[Extent, ...]:
        """Depth and width at the bottom, and at the top where it differs [m]."""

    @property
    def contents(self) -> tuple[Placed, ...]:
        """Parts in its faces."""

    @property
    def layers(self) -> tuple[Layer, ...]:
        """Stacked baffles."""

    def face(self, name: str) -> Face:
        """Return a face as a frame with its size and wood [m]."""

    def outline(self, name: str) -> tuple[Point, ...]:
        """Return the wood of a face, counter-clockwise in its frame [m]."""

    def centre(self, placed: Placed) -> Point:
        """Return where a part sits on its face [m]."""

    def way_out(self, name: str) -> Vector:
        """Return the way from the middle of the box to that of a face [m]."""

    def seen_braces(self) -> Sequence[SeenBrace]:
        """Return the wood inside as a section through the middle shows it."""
