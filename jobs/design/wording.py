"""The sentence and the cure of every finding: the one place where a code becomes words."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

Words = tuple[str | Promise, str | Promise]

# code -> (what it says, what cures it); {where}, {value} and {limit} are filled in.
WORDS: dict[str, Words] = {
    "box-without-driver": (
        _("No driver is chosen for this box."),
        _("Choose one on the box page."),
    ),
    "box-cannot-be": (
        _("This box cannot be worked out: {value}."),
        _("Correct the figure it names."),
    ),
}


def says(code: str, where: str, value: str, limit: str) -> str:
    """Return the finding as one sentence."""
    return str(WORDS[code][0]).format(
        where=where, value=value or gettext("unknown"), limit=limit or gettext("unknown")
    )


def cure(code: str) -> str:
    """Return what would cure it."""
    return str(WORDS[code][1])
