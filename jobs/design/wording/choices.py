"""What a calculator lets choose between, said in the reader's language."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

CHOICES: dict[str, Promise | str] = {
    # -- voice coils, ends of a port
    "single": _("single"),
    "series": _("in series"),
    "parallel": _("in parallel"),
    "free": _("free"),
    "flanged": _("in a wall"),
    # -- power tree
    "battery": _("battery"),
    "block": _("distribution block"),
    "breaker": _("circuit breaker"),
    "load": _("load"),
    "ground": _("ground"),
    "starter battery": _("starter battery"),
    "second battery": _("second battery"),
    "dc-dc": _("DC-DC converter"),
    "alternator": _("alternator"),
    "capacitor": _("capacitor bank"),
    "amplifier": _("amplifier"),
    "power": _("power"),
    "current": _("current"),
    "resistance": _("resistance"),
    "worst": _("worst case"),
    "loud": _("loud"),
    "music": _("music"),
    # -- zones
    "engine bay": _("engine bay"),
    "cabin": _("cabin"),
    "under carpet": _("under the carpet"),
    "boot": _("boot"),
    "outside": _("outside"),
    # -- cables and fuses
    "awg": "AWG",
    "sae": "SAE",
    "metric": _("metric"),
    "copper": _("copper"),
    "copper_clad_aluminium_10": _("copper-clad aluminium"),
    "copper_clad_aluminium_15": _("copper-clad aluminium"),
    "aluminium": _("aluminium"),
}
