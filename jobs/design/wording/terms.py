"""The calculators' own words for a place, a metal or a source, said in the reader's language."""

from __future__ import annotations

import re

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

# Every other name is the workshop's or a maker's, and is left as it was typed.
TERMS: dict[str, Promise] = {
    # -- power tree and supply
    "out": _("out"),
    "return": _("return"),
    "copper": _("copper"),
    "copper_clad_aluminium_10": _("copper-clad aluminium"),
    "copper_clad_aluminium_15": _("copper-clad aluminium"),
    "aluminium": _("aluminium"),
    "battery": _("battery"),
    "alternator": _("alternator"),
    "DC-DC converter": _("DC-DC converter"),
    "charging source": _("charging source"),
    "vehicle": _("car"),
    # -- box and its panels
    "box": _("box"),
    "port": _("port"),
    "cavity": _("cavity"),
    "opening": _("opening"),
    "impedance sweep": _("impedance sweep"),
    "front": pgettext_lazy("wood", "front"),
    "rear": pgettext_lazy("wood", "rear"),
    "top": pgettext_lazy("wood", "top"),
    "bottom": pgettext_lazy("wood", "bottom"),
    "left": pgettext_lazy("wood", "left"),
    "right": pgettext_lazy("wood", "right"),
    "lower rear": pgettext_lazy("wood", "lower rear"),
    "upper rear": pgettext_lazy("wood", "upper rear"),
    "side": pgettext_lazy("wood", "side"),
    "brace": pgettext_lazy("wood", "brace"),
    "layer": pgettext_lazy("wood", "layer"),
    "toe top": pgettext_lazy("wood", "toe top"),
    "riser": pgettext_lazy("wood", "riser"),
    "step riser": pgettext_lazy("wood", "step riser"),
    "step tread": pgettext_lazy("wood", "step tread"),
    "cut": pgettext_lazy("wood", "cut corner"),
    "arch": pgettext_lazy("wood", "arch"),
    "terminal plate": _("terminal plate"),
    "wood": _("wood"),
    # -- sources that are no publication
    "common practice, no source": _("common practice, no source"),
    "engineering guidance, common practice, no source": _("common practice, no source"),
    "the driver's data sheet": _("the driver's data sheet"),
    "amplifier's sheet": _("the amplifier's data sheet"),
    "amplifier maker's sheet": _("the amplifier's data sheet"),
    "terminal maker's sheet": _("the terminal maker's sheet"),
    "vehicle maker's instructions": _("the vehicle maker's instructions"),
    "driver's sheet, or motor and basket as solids": _(
        "the driver's data sheet, or motor and basket as solids"
    ),
    "speaker run of the channel; not known counts as none, where the cone moves most": _(
        "speaker run of the channel; not known counts as none, where the cone moves most"
    ),
    # xgettext:no-python-format
    "catalogue, ± 15 %": _("catalogue, ± 15 %"),
    "2 000 draws of the stated tolerances": _("2 000 draws of the stated tolerances"),
    "sum over the cut list": _("sum over the cut list"),
    "circuit of driver and box, solved at each frequency": _(
        "circuit of driver and box, solved at each frequency"
    ),
    "tuning less both end corrections": _("tuning less both end corrections"),
}
SEPARATOR = re.compile(r"( · | / |, )")
NUMBERED = re.compile(r"(.*\D)( \d+)")


def term(text: str) -> str:
    """Say a calculator's word; a list of words is said one by one, a number at the end stays."""
    if text in TERMS:
        return str(TERMS[text])
    return "".join(_word(part) for part in SEPARATOR.split(text))


def _word(text: str) -> str:
    numbered = NUMBERED.fullmatch(text)
    word, number = (numbered[1], numbered[2]) if numbered else (text, "")
    face, layer = word.removesuffix(" layer"), word.endswith(" layer")
    if layer and face in TERMS:
        return f"{TERMS[face]}, {TERMS['layer']}{number}"
    return f"{TERMS[word]}{number}" if word in TERMS else text
