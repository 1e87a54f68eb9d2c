"""A box as wood, whichever way it is built up."""

from __future__ import annotations

from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.taper import Taper

# Both have contents, layers and braces in faces of the same kind, litres, a profile and a width.
Body = Carcass | Taper
