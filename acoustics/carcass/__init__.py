"""Boxes as wood: shapes, joints, panels, room for what goes in, sheets to cut them from."""

from acoustics.carcass.assembly import panels
from acoustics.carcass.box import Carcass
from acoustics.carcass.clearance import Clearances, check_contents
from acoustics.carcass.contents import Placed, PortBody, RoundPart
from acoustics.carcass.cut_list import check_saw, cut_list
from acoustics.carcass.profile import Profile
from acoustics.carcass.shapes import rectangle_profile, sloped_rear_profile

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
