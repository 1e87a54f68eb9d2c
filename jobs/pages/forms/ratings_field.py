"""A form field for an amplifier's ratings, one line each: `bridged 320 W into 4 Ω`."""

from __future__ import annotations

import re
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

from jobs import units
from jobs.pages.forms.fields import LONGEST_LIST

LINE = re.compile(
    r"(?P<bridged>bridged\s+|gebrückt\s+)?(?P<power>.+?)\s+(?:into|at|an)\s+(?P<load>.+)", re.I
)
MOST_LINES = 12

Rating = tuple[bool, float, float]


class RatingsField(forms.CharField):
    """Lines of (bridged, power, load)."""

    widget = forms.Textarea(attrs={"rows": 4, "autocomplete": "off"})

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=LONGEST_LIST, **kwargs)

    def clean(self, value: Any) -> list[Rating]:
        """Return the ratings; a line that cannot be read is named by its number."""
        lines = [line.strip() for line in (super().clean(value) or "").splitlines() if line.strip()]
        if len(lines) > MOST_LINES:
            raise ValidationError(_("At most %(most)s lines.") % {"most": MOST_LINES})
        return [self._rating(number, line) for number, line in enumerate(lines, start=1)]

    def _rating(self, number: int, line: str) -> Rating:
        match = LINE.fullmatch(line)
        if match is None:
            message = _("Line %(number)s, “%(line)s”: write it as “100 W into 4 Ω”.")
            raise ValidationError(message % {"number": number, "line": line})
        try:
            power = units.parse(match["power"], "power")
            load = units.parse(match["load"], "resistance")
        except units.UnreadableQuantity as error:
            message = _("Line %(number)s: %(error)s")
            raise ValidationError(message % {"number": number, "error": error}) from error
        if power <= 0 or load <= 0:
            raise ValidationError(
                _("Line %(number)s: both must be above zero.") % {"number": number}
            )
        return bool(match["bridged"]), power, load

    def prepare_value(self, value: Any) -> Any:
        """Show stored ratings the way they are typed."""
        if not isinstance(value, list):
            return value
        return "\n".join(
            ("bridged " if bridged else "")
            + units.show(power, "power", exact=True)
            + " into "
            + units.show(load, "resistance", exact=True)
            for bridged, power, load in value
        )

    def has_changed(self, initial: Any, data: Any) -> bool:
        """Compare what would be shown."""
        return super().has_changed(self.prepare_value(initial), data)
