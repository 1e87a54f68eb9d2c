"""A form field for what stands in a cavity, such as `hinge: 400 0 100 200 0 250`."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.pages.forms.wood_fields import ListField, figure_of, shown_length

OBSTACLES_HELP = gettext_lazy(
    "Such as hinge: 400 0 100 200 0 250: front lower corner across and up, depth, height; then "
    "from where to where across the car, from the left of the cavity."
)

LONGEST_NAME = 60


class ObstaclesField(ListField):
    """Upright blocks: name, lower corner, depth and height, and from where to where across."""

    def clean(self, value: Any) -> list[dict[str, Any]] | None:
        """Return name, corners, start and end of each in metres."""
        return self.entries(value)

    def read(self, entry: str) -> dict[str, Any]:
        """Read one obstacle."""
        name, colon, numbers = (part.strip() for part in entry.partition(":"))
        lengths = [figure_of(text, entry) for text in numbers.split()]
        whole = len(lengths) == 4
        named = colon and 0 < len(name) <= LONGEST_NAME
        good = len(lengths) in (4, 6) and min(lengths[2:4]) > 0
        if not (named and good) or (not whole and lengths[4] >= lengths[5]):
            message = _(
                "“%(entry)s”: give a name, a colon, the front lower corner across and up, depth "
                "and height; then from where to where across, if it does not reach all the way."
            )
            raise ValidationError(message % {"entry": entry})
        x, y, depth, height = lengths[:4]
        return {
            "name": name,
            "points": [[x, y], [x + depth, y], [x + depth, y + height], [x, y + height]],
            "start": 0.0 if whole else lengths[4],
            "end": None if whole else lengths[5],
        }

    def prepare_value(self, value: Any) -> Any:
        """Show stored obstacles the way they are typed."""
        if not isinstance(value, list):
            return value
        return "; ".join(_typed(obstacle) for obstacle in value)


def _typed(obstacle: dict[str, Any]) -> str:
    (x, y), _right, (far, high), _left = obstacle["points"]
    lengths = [x, y, far - x, high - y]
    if obstacle["end"] is not None:
        lengths += [obstacle["start"], obstacle["end"]]
    return f"{obstacle['name']}: " + " ".join(shown_length(length) for length in lengths)
