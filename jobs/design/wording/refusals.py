"""What a calculator of the wiring refused, said in the reader's language."""

from __future__ import annotations

import re
from typing import Protocol

from django.utils.functional import Promise
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from jobs.design.wording.terms import term


class Refusal(Protocol):
    """The shape of an error of the wiring package."""

    name: str
    value: object
    limit: object
    unit: str


# What the calculators call a figure; "… of P03" keeps the label.
NAMES: dict[str, Promise] = {
    "open-circuit voltage": _("open-circuit voltage"),
    "resistance": _("internal resistance"),
    "cold cranking": _("cold cranking current"),
    "current limit": _("output current limit"),
    "load current": _("current it takes"),
    "load power": _("power it takes"),
    "efficiency": _("efficiency at rated power"),
    "efficiency of class AB": _("efficiency at rated power, class AB"),
    "rated output": _("rated output"),
    "idle power": _("power without music (idle current × 14.4 V)"),
    "music power": _("power on music"),
    "minimum voltage": _("lowest supply voltage"),
    "length": _("length"),
    "return length": _("length of the way back"),
    "chassis resistance": _("chassis resistance, measured"),
    "joint resistance": _("resistance of the joints"),
    "bundled": _("current-carrying cables in the bundle"),
    "ambient": _("hottest air round it, if measured"),
    "rated voltage of the fuse": _("rated voltage of the fuse"),
    "insulation class": _("insulation temperature class"),
    "rated current": _("rated current"),
    "idle current": _("rated current at idle"),
    "hot factor": _("share left when hot"),
    "accessory limit": _("added load the vehicle maker allows"),
    "conductor area": _("conductor area"),
    "AWG size": _("size in AWG"),
    "SAE size": _("size in SAE"),
    "fuse rating": _("fuse rating"),
    "breaking capacity": _("breaking capacity"),
    "opening points": _("points of the opening curve"),
    "opening time": _("opening time"),
    "multiple of rating": _("multiple of the fuse rating"),
    "distance to the fuse": _("distance to the fuse"),
    "capacity": _("battery capacity"),
    "rated time": _("discharge time of the capacity"),
    "Peukert exponent": _("Peukert exponent"),
    "usable share": _("usable share"),
    "capacitance": _("capacitance"),
    "series resistance": _("internal resistance of the capacitor bank"),
    "open voltage": _("voltage left by the other loads"),
    "rest power": _("power between notes"),
    "key-off current": _("key-off current"),
    "added key-off current": _("key-off current of our parts"),
    "total key-off current": _("key-off current of the car"),
    "vehicle current": _("current of the car itself"),
    "charge current": _("current into the batteries"),
    "wanted time": _("time to play"),
    "current": _("current"),
    "end of run": _("end of run"),
    "length of a run": _("length"),
    "colour letters": _("colour (IEC 60757)"),
    "source resistance": _("output resistance of its source"),
    "capacitance per length": _("capacitance per length, core to screen"),
    "beside power": _("how far it lies along a power run"),
    "limit of the source": _("most its source may give"),
    "turn-on current": _("turn-on current"),
    "outer diameter": _("outer diameter"),
    "battery": _("battery"),
}
LIMITS: dict[str, Promise] = {
    "above 0": _("more than 0"),
    "0 or more": _("0 or more"),
    "entered": _("an entry"),
    "another node": _("another end than its start"),
    "used once": _("a label used once"),
    "above 1": _("more than 1"),
    "at most π/4, the ideal class B stage": _("at most 0.785, the ideal class B stage"),
    "rising in current and not rising in time": _("more current never opens later"),
    "above 0 and at most 1": _("more than 0 and at most 1"),
    "within 0 and 1": _("0 to 1"),
}
RANGE = re.compile(r"(?P<low>\S+) to (?P<high>\S+)")


def refusal(error: Refusal, shown: str) -> str:
    """Return what was refused, what stands there and what is asked for, without a full stop."""
    return gettext("%(name)s: %(value)s; asked for: %(limit)s") % {
        "name": _name(error.name),
        "value": shown or gettext("unknown"),
        "limit": _limit(str(error.limit), error.unit),
    }


def _name(name: str) -> str:
    if name in NAMES:
        return str(NAMES[name])
    for known in sorted(NAMES, key=len, reverse=True):
        if name.startswith((f"{known} of ", f"{known} ")):
            label = name[len(known) :].removeprefix(" of").strip()
            return f"{NAMES[known]}, {term(label)}"
    return name


def _limit(limit: str, unit: str) -> str:
    if limit in LIMITS:
        return str(LIMITS[limit])
    if found := RANGE.fullmatch(limit):
        words = {"low": found["low"], "high": found["high"], "unit": unit.strip("-")}
        return (gettext("%(low)s to %(high)s %(unit)s") % words).strip()
    return limit
