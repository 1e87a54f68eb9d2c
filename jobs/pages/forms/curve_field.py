"""A form field for a fuse's time-current curve, one point a line: `6 × 0.4 s`."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

from jobs import units
from jobs.pages.forms.fields import LONGEST_LIST

LINE = re.compile(r"(?P<multiple>[\d.,\s]+?)\s*[x×*]\s*(?P<time>.+)", re.I)
MOST_POINTS = 12

Point = list[float]


class CurveField(forms.CharField):
    """Points (times the rating, opens within), rising in current and falling in time."""

    widget = forms.Textarea(attrs={"rows": 4, "autocomplete": "off"})

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=LONGEST_LIST, **kwargs)

    def clean(self, value: Any) -> list[Point]:
        """Return the points; a line that cannot be read is named by its number."""
        lines = [line.strip() for line in (super().clean(value) or "").splitlines() if line.strip()]
        if len(lines) > MOST_POINTS:
            raise ValidationError(_("At most %(most)s lines.") % {"most": MOST_POINTS})
        points = sorted(self._point(number, line) for number, line in enumerate(lines, start=1))
        for (low, slow), (high, fast) in pairwise(points):
            if high == low or fast > slow:
                message = _(
                    "A fuse opens sooner at a larger current: look at %(low)g × and %(high)g ×."
                )
                raise ValidationError(message % {"low": low, "high": high})
        return points

    def _point(self, number: int, line: str) -> Point:
        match = LINE.fullmatch(line)
        if match is None:
            message = _("Line %(number)s, “%(line)s”: write it as “6 × 0.4 s”.")
            raise ValidationError(message % {"number": number, "line": line})
        try:
            multiple = units.parse(match["multiple"], "ratio")
            time = units.parse(match["time"], "time")
        except units.UnreadableQuantity as error:
            message = _("Line %(number)s: %(error)s")
            raise ValidationError(message % {"number": number, "error": error}) from error
        if multiple <= 1 or time <= 0:
            message = _("Line %(number)s: more than once the rating, and a time above zero.")
            raise ValidationError(message % {"number": number})
        return [multiple, time]

    def prepare_value(self, value: Any) -> Any:
        """Show stored points the way they are typed."""
        if not isinstance(value, list):
            return value
        return "\n".join(
            f"{units.show(multiple, 'ratio', exact=True)} × {units.show(time, 'time', exact=True)}"
            for multiple, time in value
        )

    def has_changed(self, initial: Any, data: Any) -> bool:
        """Compare what would be shown."""
        return super().has_changed(self.prepare_value(initial), data)
