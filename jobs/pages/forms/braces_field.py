"""A form field for what stiffens a box from within, such as `shelf: 150 50%`."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.models.box_wood import BRACES
from jobs.pages.forms.wood_fields import ListField, figure_of, shown_length

BRACES_HELP = gettext_lazy(
    "Such as shelf: 150 50%; upright: 200; plate: 300; strut across: 200 150 40. A shelf lies so "
    "far above the bottom, an upright stands so far from the front, a plate from the left side, "
    "each to its middle; then the share cut out, if any. A strut runs across, along (to the rear) "
    "or up: give where, front before up before left, and its breadth."
)
# A window larger than this leaves no brace.
MOST_OPEN = 0.9


class BracesField(ListField):
    """Braces with their places: kind, a colon, and what places it."""

    def clean(self, value: Any) -> list[dict[str, Any]] | None:
        """Return kind, places in metres and open share of each."""
        return self.entries(value)

    def read(self, entry: str) -> dict[str, Any]:
        """Read one brace, by the calculator's name or by the reader's."""
        word, _colon, rest = (part.strip() for part in entry.partition(":"))
        known = {kind: kind for kind, _label in BRACES}
        known |= {str(label).lower(): kind for kind, label in BRACES}
        kind = known.get(" ".join(word.lower().split()))
        if kind is None:
            message = _("“%(entry)s”: start with one of %(kinds)s, and a colon.")
            names = ", ".join(str(label) for _kind, label in BRACES)
            raise ValidationError(message % {"entry": entry, "kinds": names})
        texts = rest.split()
        strut = kind.startswith("strut")
        share = 0.0
        if not strut and texts and texts[-1].endswith("%"):
            share = _share(texts.pop(), entry)
        lengths = [figure_of(text, entry) for text in texts]
        if strut and (len(lengths) != 3 or lengths[2] <= 0):
            message = _("“%(entry)s”: give the two measures that place the strut, and its breadth.")
            raise ValidationError(message % {"entry": entry})
        if not strut and len(lengths) != 1:
            message = _(
                "“%(entry)s”: give one place, then the share cut out, such as 50%%, or none."
            )
            raise ValidationError(message % {"entry": entry})
        return {"kind": kind, "at": lengths, "open": share}

    def prepare_value(self, value: Any) -> Any:
        """Show stored braces the way they are typed."""
        if not isinstance(value, list):
            return value
        names = dict(BRACES)
        return "; ".join(_typed(brace, str(names[brace["kind"]])) for brace in value)


def _share(text: str, entry: str) -> float:
    share = figure_of(text, entry, "ratio")
    if not 0 <= share <= MOST_OPEN:
        message = _("“%(entry)s”: nine tenths of a brace can be cut out at most.")
        raise ValidationError(message % {"entry": entry})
    return share


def _typed(brace: dict[str, Any], name: str) -> str:
    parts = [shown_length(length) for length in brace["at"]]
    if brace["open"]:
        parts.append(f"{100 * brace['open']:g}%")
    return f"{name}: " + " ".join(parts)
