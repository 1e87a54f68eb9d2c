"""The calculators' own words for a place or a metal, said in the reader's language."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from django.utils.functional import Promise
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.design.wording.figures import SYMBOLS

_WORDS: Mapping[str, Promise] = {
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
    "front axle": _("front axle"),
    "rear axle": _("rear axle"),
    # -- box and its panels
    "box": _("box"),
    "port": _("port"),
    "second port": _("second port"),
    "cavity": _("cavity"),
    "opening": _("opening"),
    "impedance sweep": _("impedance sweep"),
    "second impedance sweep": _("second impedance sweep"),
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
    "divider": pgettext_lazy("wood", "divider"),
    "chamber": pgettext_lazy("wood", "chamber"),
    "rear port": _("rear port"),
    "front port": _("front port"),
    "port board": pgettext_lazy("wood", "port board"),
    "strut": pgettext_lazy("wood", "strut"),
    "toe top": pgettext_lazy("wood", "toe top"),
    "riser": pgettext_lazy("wood", "riser"),
    "step riser": pgettext_lazy("wood", "step riser"),
    "step tread": pgettext_lazy("wood", "step tread"),
    "cut": pgettext_lazy("wood", "cut corner"),
    "arch": pgettext_lazy("wood", "arch"),
    "terminal plate": _("terminal plate"),
    "wood": _("wood"),
    "support": pgettext_lazy("wood", "support"),
    "hatch": pgettext_lazy("wood", "hatch"),
    "lid": pgettext_lazy("wood", "lid"),
    "ledge": pgettext_lazy("wood", "ledge"),
}
# Panels that a box has several of, and how many of each, and of layers on a face, have a word.
_COUNTED = (
    *("brace", "shelf", "upright", "plate", "strut", "side", "arch", "chamber", "port board"),
    *("support", "hatch", "lid"),
)
_MANY, _LAYERS = 64, 6
_LAYER = pgettext_lazy("wood", "layer")
_PANELS: Mapping[str, Promise] = {
    **_WORDS,
    **{
        f"{word} {number}": format_lazy("{} {}", _WORDS[word], number)
        for word in _COUNTED
        for number in range(1, _MANY + 1)
    },
}
# Every other name is the workshop's or a maker's, and is left as it was typed.
TERMS: Mapping[str, str | Promise] = {
    **SYMBOLS,
    **_PANELS,
    **{
        f"{face} layer {number}": format_lazy("{}, {} {}", words, _LAYER, number)
        for face, words in _PANELS.items()
        for number in range(1, _LAYERS + 1)
    },
}


def term(word: str) -> str:
    """Say a word of the calculators; another one is left as it is."""
    return str(TERMS.get(word, word))


def terms(words: Iterable[str]) -> str:
    """Say several words of the calculators, one after the other."""
    return ", ".join(term(word) for word in words)
