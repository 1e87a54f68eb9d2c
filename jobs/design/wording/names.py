"""The name of a figure that was refused or is missing, whoever asked for it."""

from __future__ import annotations

from enum import StrEnum

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

import acoustics.names
import wiring.names
from jobs.design.wording.figures import FIGURES, SYMBOLS
from jobs.design.wording.wiring_figures import WIRING_FIGURES


class Needed(StrEnum):
    """What records must hold before a calculator can be asked."""

    DRIVER = "driver"
    FACTORY_DRIVER = "factory-driver"
    FACTORY_HOLE = "factory-hole"
    NET_VOLUME = "net-volume"
    DOOR_LEAKAGE = "door-leakage"
    RADIATOR = "radiator"
    PORT_OPENING = "port-opening"
    PORT_AND_TUNING = "port-and-tuning"
    PORT_STRAIGHT = "port-straight"
    FRONT_VOLUME = "front-volume"
    DIVIDER_PLACE = "divider-place"
    REAR_PORT_DIAMETER = "rear-port-diameter"
    REAR_PORT_LENGTH = "rear-port-length"
    SECOND_PORT_LENGTH = "second-port-length"
    SHEET_MATERIAL = "sheet-material"
    OUTER_DIAMETER = "outer-diameter"
    INNER_DIAMETER = "inner-diameter"
    SCREW_CIRCLE = "screw-circle"
    WIDTH = "width"
    HEIGHT = "height"
    CARCASS = "carcass"
    FLOOR_LEVEL = "floor-level"
    RAISED = "raised"
    SPACER_WIDTH = "spacer-width"
    BEND_AT = "bend-at"
    BEND_ANGLE = "bend-angle"
    BEND_SKIN = "bend-skin"
    BEND_BLADE = "bend-blade"


NEEDED: dict[Needed, Promise] = {
    Needed.DRIVER: _("driver"),
    Needed.FACTORY_DRIVER: _("the factory driver, chosen for the hole of this box"),
    Needed.FACTORY_HOLE: _("area of the factory hole"),
    Needed.NET_VOLUME: _("the net volume, or outside dimensions and sheet material"),
    Needed.DOOR_LEAKAGE: _("leakage QL of the door"),
    Needed.RADIATOR: _("the passive radiator"),
    Needed.PORT_OPENING: _("the size of the port's opening"),
    Needed.PORT_AND_TUNING: _("the port: its opening, and its length or the tuning wanted"),
    Needed.PORT_STRAIGHT: _("straight piece before the bend"),
    Needed.FRONT_VOLUME: _("volume of the front chamber"),
    Needed.DIVIDER_PLACE: _("the place of the divider, or the volume of the front chamber"),
    Needed.REAR_PORT_DIAMETER: _("diameter of the rear port"),
    Needed.REAR_PORT_LENGTH: _("length of the rear port, or the rear tuning wanted"),
    Needed.SECOND_PORT_LENGTH: _("length of the second port"),
    Needed.SHEET_MATERIAL: _("sheet material"),
    Needed.OUTER_DIAMETER: _("outer diameter"),
    Needed.INNER_DIAMETER: _("inner diameter"),
    Needed.SCREW_CIRCLE: _("bolt circle"),
    Needed.WIDTH: _("width"),
    Needed.HEIGHT: _("height"),
    Needed.CARCASS: _("carcass of the box it covers"),
    Needed.RAISED: _("how high the ring's middle stands above the base"),
    Needed.SPACER_WIDTH: _("the width of the spacers"),
    Needed.BEND_AT: _("where the bend begins"),
    Needed.BEND_ANGLE: _("how far it bends"),
    Needed.BEND_SKIN: _("wood left under each kerf"),
    Needed.BEND_BLADE: _("width of a kerf"),
    Needed.FLOOR_LEVEL: _("how high the floor lies, or the height of each support"),
}


def figure_name(name: StrEnum) -> str:
    """Return the name of a figure as the reader calls it."""
    match name:
        case acoustics.names.Name():
            return SYMBOLS.get(name) or str(FIGURES[name])
        case wiring.names.Name():
            return str(WIRING_FIGURES[name])
        case Needed():
            return str(NEEDED[name])
    raise TypeError(name)
