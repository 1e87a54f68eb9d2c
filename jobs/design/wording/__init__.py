"""The sentence and the cure of every finding: the one place where a code becomes words."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from jobs.design.wording.boxes import BOXES
from jobs.design.wording.power import POWER
from jobs.design.wording.records import RECORDS
from jobs.design.wording.runs import RUNS
from jobs.design.wording.supply import SUPPLY

# code -> (what it says, what cures it). {where}, {value} and {limit} are filled in; {amount} is
# the value without its sign, for margins that are below zero when something is wrong.
WORDS: dict[str, tuple[Promise, Promise]] = {**BOXES, **RECORDS, **POWER, **SUPPLY, **RUNS}

# The calculators' own words for a place or a state; every other name is the workshop's.
TERMS: dict[str, Promise] = {
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
    "box": _("box"),
    "port": _("port"),
    "front": _("front"),
    "cavity": _("cavity"),
    "opening": _("opening"),
    "impedance sweep": _("impedance sweep"),
}


def says(code: str, where: str, value: str, limit: str) -> str:
    """Return the finding as one sentence."""
    return _filled(WORDS[code][0], where, value, limit)


def cure(code: str) -> str:
    """Return what would cure it."""
    return str(WORDS[code][1])


def _filled(words: Promise, where: str, value: str, limit: str) -> str:
    unknown = gettext("unknown")
    parts = (str(TERMS.get(part, part)) for part in where.split(" · "))
    return str(words).format(
        where=" · ".join(parts),
        value=str(TERMS.get(value, value)) or unknown,
        limit=limit or unknown,
        amount=value.lstrip("-−") or unknown,
    )
