"""What the states of the car are called."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

STATES: dict[str, Promise] = {
    "engine-off": _("engine off"),
    "running": _("engine running"),
    "idling": _("engine idling, hot"),
    "low-phase": _("engine running, charging let down"),
    "source-away off": _("without %(source)s, engine off"),
    "source-away running": _("without %(source)s, engine running"),
    "battery-flat off": _("%(source)s flat, engine off"),
    "battery-flat running": _("%(source)s flat, engine running"),
    "charging": _("%(source)s flat and charging, nothing played"),
    "starting": _("%(source)s starts the engine"),
    "key-off": _("key off"),
}
