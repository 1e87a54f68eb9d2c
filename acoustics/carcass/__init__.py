"""Boxes as wood: shapes, joints, panels, room for what goes in, sheets to cut them from."""

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.cut_list import check_saw, cut_list
from acoustics.carcass.room.clearance import Clearances, check_contents
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.shapes import rectangle_profile, sloped_rear_profile

__all__ = [
    "Carcass",
    "Clearances",
    "Placed",
    "PortBody",
    "Profile",
    "RoundPart",
    "check_contents",
    "check_saw",
    "cut_list",
    "panels",
    "rectangle_profile",
    "sloped_rear_profile",
]
