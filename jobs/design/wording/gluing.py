"""The order of assembly in words: what is glued to what, and why now."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

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
