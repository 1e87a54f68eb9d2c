"""A form field for a run's route: places in order, how it lies there and what edge it passes."""

from __future__ import annotations

from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.models import Panel, Stretch
from jobs.pages.forms.car_plan import car_plan

# The four things asked of a stretch; each is sent as a list, in the order of the page.
PARTS = ("panel", "place", "way", "edge")
LOOM, OWN = "loom", "own"
WAYS = [
    (LOOM, gettext_lazy("with the loom")),
    (OWN, gettext_lazy("on its own way")),
]
EDGES = [("", gettext_lazy("no edge")), *Stretch.Edge.choices]
EMPTY_ROWS = 2
MOST_ROWS = 24
LONGEST_PLACE = 80

Row = tuple[str, ...]


class RouteWidget(forms.Widget):
    """One slip for each stretch and two empty ones; a slip can be moved forward."""

    use_fieldset = True
    panels: list[Panel]

    def id_for_label(self, id_: str) -> str:
        """There is no single control to point at."""
        return ""

    def value_from_datadict(self, data: Any, files: Any, name: str) -> list[Row]:
        """Return the rows as they were sent."""
        return list(zip(*(data.getlist(f"{name}-{part}") for part in PARTS), strict=False))

    def value_omitted_from_data(self, data: Any, files: Any, name: str) -> bool:
        """Tell a route that was not sent from an empty one."""
        return f"{name}-panel" not in data

    def sent(self, name: str, value: list[Row]) -> dict[str, list[str]]:
        """Return what a browser would send for these rows."""
        return {f"{name}-{part}": [row[n] for row in value] for n, part in enumerate(PARTS)}

    def format_value(self, value: Any) -> str:
        """Say a route in words."""
        names = {str(panel.pk): panel.name for panel in self.panels}
        ways, edges = dict(WAYS), dict(EDGES)
        stops = [
            ", ".join(
                str(word)
                for word in (names.get(panel), place, ways.get(way), edge and edges.get(edge))
                if word
            )
            for panel, place, way, edge in value or []
            if panel or place
        ]
        return " → ".join(stops)

    def render(self, name: str, value: Any, attrs: Any = None, renderer: Any = None) -> Any:
        """Draw the slips."""
        rows = [*(value or []), *[("", "", LOOM, "")] * EMPTY_ROWS]
        context = {
            "name": name,
            "id": (attrs or {}).get("id", name),
            "rows": rows[:MOST_ROWS],
            "plan": car_plan(self.panels),
            "panels": [(str(panel.pk), panel.name) for panel in self.panels],
            "ways": WAYS,
            "edges": EDGES,
        }
        return render_to_string("parts/wiring/route.html", context)


class RouteField(forms.Field):
    """Cleans to unsaved stretches, in order."""

    widget = RouteWidget
    panels: list[Panel]
    wide = True  # what is asked of a stretch stands side by side

    def offer(self, panels: list[Panel]) -> None:
        """Offer the panels of this job."""
        assert isinstance(self.widget, RouteWidget)
        self.panels = self.widget.panels = panels

    def prepare_value(self, value: Any) -> Any:
        """Show stored stretches as rows."""
        if not isinstance(value, list):
            return []  # nothing yet, or a word in the address
        if value and isinstance(value[0], Stretch):
            return [
                (
                    str(stretch.panel_id or ""),
                    stretch.place,
                    LOOM if stretch.follows_loom else OWN,
                    stretch.edge,
                )
                for stretch in value
            ]
        return value

    def clean(self, value: Any) -> list[Stretch]:
        """Return the stretches; an empty slip is none."""
        rows = [row for row in value or [] if row[0] or row[1].strip()]
        if len(rows) > MOST_ROWS:
            raise ValidationError(_("At most %(most)s lines.") % {"most": MOST_ROWS})
        return [self._stretch(number, row) for number, row in enumerate(rows, start=1)]

    def _stretch(self, number: int, row: Row) -> Stretch:
        panel_key, place, way, edge = row
        panel = next((panel for panel in self.panels if str(panel.pk) == panel_key), None)
        if (
            (panel_key and panel is None)
            or way not in dict(WAYS)
            or edge not in dict(EDGES)
            or len(place) > LONGEST_PLACE
            or not place.isprintable()
        ):
            message = _("Place %(number)s cannot be read.")
            raise ValidationError(message % {"number": number})
        return Stretch(
            panel=panel,
            place=place.strip(),
            position=number,
            follows_loom=way == LOOM,
            edge=edge,
        )

    def has_changed(self, initial: Any, data: Any) -> bool:
        """Compare what would be shown."""
        rows = [row for row in data or [] if row[0] or row[1]]
        return rows != (self.prepare_value(initial) or [])
