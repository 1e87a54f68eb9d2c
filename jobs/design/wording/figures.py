"""What the acoustics call a figure, said in the reader's language."""

from __future__ import annotations

import re

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

# Symbols of the trade are the same in every language.
SYMBOLS = {
    "fs": "fs", "fb": "fb", "f3": "f3", "qts": "Qts", "Qts": "Qts", "qes": "Qes", "qms": "Qms",
    "Qtc": "Qtc", "QL": "QL", "QA": "QA", "QP": "QP", "vas": "Vas", "cms": "Cms", "mms": "Mms",
    "rms": "Rms", "bl": "Bl", "re": "Re", "le": "Le", "sd": "Sd", "xmax": "Xmax",
    "xmech": "Xmech",
}  # fmt: skip
FIGURES: dict[str, Promise] = {
    # -- driver
    "diameter": _("diameter of the cone"),
    "efficiency": _("efficiency"),
    "semi_inductance": _("semi-inductance of the voice coil"),
    "power_rating": _("continuous power"),
    "effective area": _("cone area Sd"),
    "voice-coil resistance": _("coil resistance Re"),
    "the factory driver": _("the factory driver, chosen for the hole of this box"),
    # -- limits of the largest clean level
    "heat": _("heat in the voice coil (continuous power)"),
    "excursion": _("cone travel (Xmax)"),
    "port": _("air speed in the port"),
    "radiator": _("travel of the passive radiator (Xmax)"),
    "amplifier-voltage": _("the amplifier's voltage"),
    "amplifier-current": _("the amplifier's current"),
    "amplifier voltage": _("the amplifier's voltage"),
    "amplifier current": _("the amplifier's current"),
    "port speed": _("air speed in the port"),
    # -- box
    "volume": _("net volume"),
    "box volume": _("net volume"),
    "volume of the box": _("net volume of the test box"),
    "fill factor": _("filling gain"),
    "net volume": _("the net volume, or outside dimensions and sheet material"),
    "leakage of the door": _("leakage QL of the door"),
    "passive radiator": _("the passive radiator"),
    "port opening": _("the size of the port's opening"),
    "port and tuning": _("the port: its opening, and its length or the tuning wanted"),
    "front chamber": _("volume of the front chamber"),
    "rear port diameter": _("diameter of the rear port"),
    "rear port length": _("length of the rear port"),
    "factory hole": _("area of the factory hole"),
    "area of the hole": _("area of the factory hole"),
    "drivers in isobaric pairs": _("drivers in isobaric pairs"),
    "drivers in series": _("drivers in series"),
    "drivers in parallel": _("drivers in parallel"),
    # -- port and radiator
    "port area": _("area of the port"),
    "port diameter": _("diameter of the port"),
    "port width": _("width of the port"),
    "port height": _("height of the port"),
    "port length": _("length of the port"),
    "effective port length": _("length of the port with both ends"),
    "hydraulic diameter": _("hydraulic diameter of the port"),
    "displacement": _("volume it takes from the box"),
    "number of ports": _("number of ports"),
    "end of a round port": _("end of a round port"),
    "tuning frequency": _("tuning"),
    "number of radiators": _("number of passive radiators"),
    "added mass": _("added mass"),
    "radiator area": _("area of the passive radiator"),
    "radiator compliance": _("compliance of the passive radiator"),
    "radiator excursion": _("Xmax of the passive radiator"),
    "radiator mass": _("moving mass of the passive radiator"),
    "radiator resistance": _("mechanical loss of the passive radiator"),
    "thickness of the metal": _("thickness of the metal"),
    # -- wood
    "sheet material": _("sheet material"),
    "outer diameter": _("outer diameter"),
    "inner diameter": _("inner diameter"),
    "bolt circle": _("bolt circle"),
    "width": _("width"),
    "height": _("height"),
    "carcass of the box it covers": _("carcass of the box it covers"),
    "straight piece before the bend": _("straight piece before the bend"),
    # -- inside and cabin
    "inside width": _("inside width"),
    "highest used frequency": _("low-pass of the channel"),
    "highest frequency": _("highest frequency"),
    "corners of the profile": _("corners of the profile"),
    "profile": _("side profile"),
    "cabin length": _("cabin length inside"),
    "cabin volume": _("cabin air volume"),
    "transfer curve": _("transfer curve"),
    "frequency of the transfer curve": _("frequency of the transfer curve"),
    "phase of the transfer curve": _("phase of the transfer curve"),
    # -- voltage, cable, filters
    "voltage": _("voltage"),
    "series resistance": _("resistance of the cable"),
    "frequency": _("frequency"),
    "corner frequency": _("corner of the filter"),
    "order of the filter": _("order of the filter"),
    "order of a Linkwitz-Riley filter": _("order of a Linkwitz–Riley filter"),
    "level": _("level"),
    "delay": _("delay"),
    "distance": _("distance"),
    "impedance": _("impedance"),
    "impedance sweep": _("impedance sweep"),
    "ripple": _("ripple"),
    "peak": _("peak of the response"),
    "leakage QL": _("leakage QL"),
    "tolerance": _("tolerance"),
    "number of ways": _("number of ways"),
    "number of modes": _("number of standing waves"),
    "speed of sound": _("speed of sound"),
}
COILS = re.compile(r"coils .*")


def figure_name(name: str) -> str:
    """Return the name of a figure; one nobody gave words to is left as it is."""
    if name in SYMBOLS:
        return SYMBOLS[name]
    if COILS.fullmatch(name):
        return str(_("voice coils"))
    return str(FIGURES.get(name, name))
