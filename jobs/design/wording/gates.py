"""What the gates between the stages say: a sentence, and a word for the strip."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

# code -> (the sentence, what stands beside the step of the strip).
GATES: dict[str, tuple[Promise, Promise]] = {
    "halted": (_("This job is %(halt)s: %(why)s"), _("%(halt)s")),
    "wishes": (_("What the customer wants is not written down."), _("nothing yet")),
    "equipment": (_("No equipment is listed."), _("nothing yet")),
    "channels": (_("Speakers or amplifiers are listed, and no channel."), _("nothing yet")),
    "box": (_("A box is drawn, and none is chosen to be built."), _("none chosen")),
    "cables": (_("Amplifiers are listed, and no cable."), _("nothing yet")),
    "stops": (_("Stop: %(says)s"), _("stops: %(n)s")),
    "looks-spec": (_("To decide on the spec: %(n)s"), _("to decide: %(n)s")),
    "agreed": (_("Offered and not agreed: %(number)s"), _("not agreed")),
    "paid": (_("Agreed and not paid in full: %(number)s"), _("not paid")),
    "parts": (_("Not in the workshop yet: %(names)s"), _("to come: %(n)s")),
    "intake": (_("The car is not taken in: nobody has signed how it came."), _("not taken in")),
    "panels": (_("No panel is listed."), _("nothing yet")),
    "looks-bay": (_("To decide before the bay: %(n)s"), _("to decide: %(n)s")),
    "steps": (_("Steps not ticked: %(n)s"), _("%(ready)s of %(all)s")),
    "placed": (_("Nobody has said where these are: %(names)s"), _("%(ready)s of %(all)s placed")),
    "values-planned": (_("No value to measure is planned."), _("no values")),
    "values": (_("Values not measured: %(n)s"), _("%(ready)s of %(all)s")),
    "refit": (_("Steps of putting back not ticked: %(n)s"), _("%(ready)s of %(all)s")),
    "closed": (_("Panels not closed: %(names)s"), _("open: %(n)s")),
    "signed": (_("%(what)s"), _("to sign: %(n)s")),
    "electronics": (_("%(what)s"), _("to answer: %(n)s")),
    "looks-handover": (_("To decide before hand-over: %(n)s"), _("to decide: %(n)s")),
    "sheets": (_("Not issued: %(names)s"), _("%(ready)s of %(all)s issued")),
}


def gate_says(code: str, figures: Mapping[str, Any]) -> str:
    """Return what is missing as a sentence."""
    return str(GATES[code][0]) % figures


def gate_word(code: str, figures: Mapping[str, Any]) -> str:
    """Return what is missing in the words of the strip."""
    return str(GATES[code][1]) % figures
