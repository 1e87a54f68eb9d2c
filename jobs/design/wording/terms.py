"""The calculators' own words for a place or a metal, said in the reader's language."""

from __future__ import annotations

import re

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.design.wording.figures import SYMBOLS
from jobs.design.wording.sources import SOURCES

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
    "shelf": pgettext_lazy("wood", "shelf"),
    "upright": pgettext_lazy("wood", "upright"),
    "plate": pgettext_lazy("wood", "plate"),
    "strut": pgettext_lazy("wood", "strut"),
    "layer": pgettext_lazy("wood", "layer"),
    "toe top": pgettext_lazy("wood", "toe top"),
    "riser": pgettext_lazy("wood", "riser"),
    "step riser": pgettext_lazy("wood", "step riser"),
    "step tread": pgettext_lazy("wood", "step tread"),
    "cut": pgettext_lazy("wood", "cut corner"),
    "arch": pgettext_lazy("wood", "arch"),
    "terminal plate": _("terminal plate"),
    "wood": _("wood"),
}
SEPARATOR = re.compile(r"( · | / )")
NUMBERED = re.compile(r"(.*\D)( \d+)")


def term(text: str) -> str:
    """Say a calculator's word; a list of words is said one by one, a number at the end stays."""
    if text in SOURCES:
        return str(SOURCES[text])
    return "; ".join(_listed(part) for part in text.split("; "))


def _listed(text: str) -> str:
    if text in SOURCES or text in TERMS:
        return str(SOURCES.get(text) or TERMS[text])
    return "".join(_enumerated(part) for part in SEPARATOR.split(text))


def _enumerated(text: str) -> str:
    """A list with one word of nobody's in it is what somebody typed, such as “bulkhead, left”."""
    words = [_word(one) for one in text.split(", ")]
    return text if None in words else ", ".join(str(one) for one in words)


def _word(text: str) -> str | None:
    numbered = NUMBERED.fullmatch(text)
    word, number = (numbered[1], numbered[2]) if numbered else (text, "")
    face, layer = word.removesuffix(" layer"), word.endswith(" layer")
    if layer and face in TERMS:
        return f"{TERMS[face]}, {TERMS['layer']}{number}"
    return f"{TERMS[word]}{number}" if word in TERMS else SYMBOLS.get(text)
