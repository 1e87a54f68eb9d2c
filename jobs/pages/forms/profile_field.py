"""A form field for a side profile typed as corners, such as `0 0; 400 0; 400 300; 150 300`."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

from jobs import units
from jobs.pages.forms.fields import LONGEST_LIST

MOST_CORNERS = 40


class ProfileField(forms.CharField):
    """Corners in order round the profile: across, then up; a length each, units as typed."""

    widget = forms.Textarea(attrs={"rows": 3, "autocomplete": "off"})

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=LONGEST_LIST, **kwargs)

    def clean(self, value: Any) -> list[list[float]] | None:
        """Return the corners in metres, or None when nothing was typed."""
        text = super().clean(value)
        if not text:
            return None
        corners = [part.strip() for part in text.replace("\n", ";").split(";") if part.strip()]
        if not 3 <= len(corners) <= MOST_CORNERS:
            message = _("A profile has 3 to %(most)s corners; this one has %(n)s.")
            raise ValidationError(message % {"most": MOST_CORNERS, "n": len(corners)})
        return [self._corner(number, corner) for number, corner in enumerate(corners, start=1)]

    def _corner(self, number: int, text: str) -> list[float]:
        lengths = text.split()
        if len(lengths) != 2:
            message = _("Corner %(number)s is “%(text)s”: it needs two lengths, across and up.")
            raise ValidationError(message % {"number": number, "text": text})
        try:
            return [units.parse(length, "length") for length in lengths]
        except units.UnreadableQuantity as error:
            message = _("Corner %(number)s: %(error)s")
            raise ValidationError(message % {"number": number, "error": error}) from error

    def prepare_value(self, value: Any) -> Any:
        """Show stored corners the way they are typed."""
        if not isinstance(value, list):
            return value
        return "; ".join(
            " ".join(
                units.show(length, "length", exact=True).replace("\N{NO-BREAK SPACE}", "")
                for length in corner
            )
            for corner in value
        )

    def has_changed(self, initial: Any, data: Any) -> bool:
        """Compare what would be shown."""
        return super().has_changed(self.prepare_value(initial), data)
