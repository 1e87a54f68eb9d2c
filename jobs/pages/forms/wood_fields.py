"""Form fields for wood: sides of another thickness, and openings in a trim panel."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

from jobs import units
from jobs.models.box_wood import FACES
from jobs.pages.forms.fields import LONGEST_LIST

MOST_ENTRIES = 30


class ListField(forms.CharField):
    """A list typed with semicolons or on lines of its own."""

    widget = forms.Textarea(attrs={"rows": 2, "autocomplete": "off"})

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=LONGEST_LIST, **kwargs)

    def read(self, entry: str) -> Any:
        """Return what one entry of the list stands for."""
        raise NotImplementedError

    def entries(self, value: Any) -> list[Any] | None:
        """Return every entry, or None when nothing was typed."""
        text = super().clean(value)
        parts = [part.strip() for part in text.replace("\n", ";").split(";") if part.strip()]
        if len(parts) > MOST_ENTRIES:
            message = _("At most %(most)s can be entered here; these are %(n)s.")
            raise ValidationError(message % {"most": MOST_ENTRIES, "n": len(parts)})
        return [self.read(part) for part in parts] or None

    def has_changed(self, initial: Any, data: Any) -> bool:
        """Compare what would be shown."""
        return super().has_changed(self.prepare_value(initial), data)


def figure_of(text: str, entry: str, kind: str = "length") -> float:
    """Return a figure in SI, or say in which entry it could not be read."""
    try:
        figure = units.parse(text, kind)
    except units.UnreadableQuantity as error:
        message = _("In “%(entry)s”: %(error)s") % {"entry": entry, "error": error}
        raise ValidationError(message) from error
    return figure


def shown_length(length: float) -> str:
    """Show a length the way it is typed, without a space in it."""
    return units.show(length, "length", exact=True).replace("\N{NO-BREAK SPACE}", "")


class SidesField(ListField):
    """Sides and their thickness, such as `front: 22 mm; left: 16 mm`."""

    def clean(self, value: Any) -> dict[str, float] | None:
        """Return the thickness of each side in metres."""
        entries = self.entries(value)
        return dict(entries) if entries else None

    def read(self, entry: str) -> tuple[str, float]:
        """Read one side, by the calculator's name or by the reader's."""
        side, _colon, thickness = (part.strip() for part in entry.partition(":"))
        known = {name: name for name, _label in FACES}
        known |= {str(label).lower(): name for name, label in FACES}
        if side.lower() not in known:
            message = _("“%(entry)s” names no side. Write for example “front: 22 mm”.")
            raise ValidationError(message % {"entry": entry})
        length = figure_of(thickness, entry)
        if length <= 0:
            raise ValidationError(_("This must be more than zero."))
        return known[side.lower()], length

    def prepare_value(self, value: Any) -> Any:
        """Show stored sides the way they are typed."""
        if not isinstance(value, dict):
            return value
        names = dict(FACES)
        return "; ".join(
            f"{names.get(side, side)}: {shown_length(length)}" for side, length in value.items()
        )


class OpeningsField(ListField):
    """Middles and sizes, such as `200 150 120` for a round one and `80 60 100 40` for a slot."""

    def clean(self, value: Any) -> list[list[float]] | None:
        """Return [across, up, diameter] or [across, up, width, height] of each in metres."""
        return self.entries(value)

    def read(self, entry: str) -> list[float]:
        """Read one opening."""
        lengths = [figure_of(text, entry) for text in entry.split()]
        if len(lengths) not in (3, 4) or any(size <= 0 for size in lengths[2:]):
            message = _(
                "“%(entry)s”: give its middle across and up, then a diameter, or a width and a "
                "height."
            )
            raise ValidationError(message % {"entry": entry})
        return lengths

    def prepare_value(self, value: Any) -> Any:
        """Show stored openings the way they are typed."""
        if not isinstance(value, list):
            return value
        return "; ".join(" ".join(shown_length(length) for length in opening) for opening in value)
