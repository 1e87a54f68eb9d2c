"""How wood is joined, in words: what is glued to what and why now, what screws hold by."""

from __future__ import annotations

from collections.abc import Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext

from acoustics.carcass.shape.inside.fastener import Fastener
from jobs import units
from jobs.models import Supply

# reason -> sentence. {panel} is what is added, {onto} what it is glued to.
GLUING: dict[str, Promise] = {
    "layers-flat": _("Glue {panel} flat onto {onto}, clamped over the whole face."),
    "lies-on-bench": _("Lay {panel} on the bench, its inside up."),
    "stands-on-base": _("Stand {panel} on {onto}, square to it."),
    "leans-on-base": _("Stand {panel} on {onto}; the bevel of its foot gives its lean."),
    "joins-neighbour": _("Add {panel}; it closes on {onto}."),
    "closes-ring": _("Slide {panel} in; it closes the ring with {onto}."),
    "while-open": _("Set {panel} in while the side is open; glue it to {onto}."),
    "closes-box": _("Seal every seam inside, then close with {panel}."),
}

FASTENERS: Mapping[str, tuple[Promise, Promise]] = {
    "barrel-longer-than-wood": (
        _("{where}: the barrel of its T-nut or insert is {value} long, the wood there {limit}."),
        _(
            "Take one with a shorter barrel, or glue a ring of wood behind the hole; a T-nut that "
            "stands out is never drawn tight."
        ),
    ),
    "barrel-unknown": (
        _("{where}: nobody knows how long the barrel of its T-nut or insert is."),
        _("Measure it without its flange and enter it in the catalogue."),
    ),
    "fastener-hole-unknown": (
        _("{where}: nobody knows which hole its screws, T-nuts or inserts ask for."),
        _("Read it in the part maker's sheet, or try it in an offcut, and enter it."),
    ),
    "fastener-thread-unknown": (
        _("{where}: nobody has said which thread or size its screws have."),
        _("Enter it in the catalogue, as it is marked."),
    ),
    "supply-short": (
        _("{where}: the wood of the job takes {value}; the equipment list holds less."),
        _("Add what lacks in the wood shop, or say why less will do."),
    ),
    "supply-pack-unknown": (
        _("{where}: the wood takes {value}, and nobody has said what a pack holds."),
        _("Enter in the catalogue what a pack or roll of it holds."),
    ),
    "supply-spread-unknown": (
        _("{where}: how much of it the covers take is not known: its spread is missing."),
        _("Enter in the catalogue how much goes on a square metre, from its maker's sheet."),
    ),
    "fastener-hole-differs": (
        _("{where}: holes of {value} are drawn; what its screws hold by asks for {limit}."),
        _("Enter the hole from the part maker's sheet, or choose what the screws hold by anew."),
    ),
}


def fastener_name(fastener: Fastener | None) -> str:
    """Say what screws hold by, in short: its thread and what it is; nothing where nobody chose."""
    if fastener is None:
        return ""
    return f"{fastener.thread} {Supply.Use(fastener.kind).label}".strip()


def fastener_words(fastener: Fastener | None) -> str:
    """Say what screws hold by, with the length of its barrel."""
    words = fastener_name(fastener)
    if fastener is None or fastener.barrel is None:
        return words
    barrel = units.show(fastener.barrel, "length")
    return pgettext("wood", "%(fastener)s, barrel %(length)s") % {
        "fastener": words,
        "length": barrel,
    }
