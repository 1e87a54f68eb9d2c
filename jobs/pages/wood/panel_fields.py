"""The lists a panel is entered with: openings, battens, what it stands on and carries, hatches."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.models.box.floor import TrimBeneath, TrimHatch, TrimSupport
from jobs.models.box.row_lists import MOST_CORNERS, MOST_ENTRIES
from jobs.models.box.trim import TrimOpening, TrimStation
from jobs.models.parts.catalogue import Part
from jobs.pages.forms.rows_field import Column, Row, RowsField
from jobs.pages.forms.shape_fields import ACROSS, UP, YES, kept_as, length_column

MOST_HATCHES = MOST_MOUNTS = 8


class OpeningsField(RowsField):
    """Openings by their middles: round, or with a width and a height; drawn on an outline."""

    def __init__(self, *, on: str = "", **kwargs: Any) -> None:
        columns = [
            length_column("u", ACROSS),
            length_column("v", UP),
            length_column("width", gettext_lazy("width, or diameter"), positive=True),
            length_column(
                "height",
                gettext_lazy("height"),
                positive=True,
                needed=False,
                usual=gettext_lazy("round"),
            ),
            length_column("radius", gettext_lazy("radius"), positive=True, needed=False, usual="0"),
        ]
        super().__init__(
            most=MOST_ENTRIES, check=_opening_trouble, **kept_as(TrimOpening, columns), **kwargs
        )
        self.widget.draws, self.widget.on = "openings", on


def _opening_trouble(row: Row) -> str:
    _u, _v, width, height, radius = row
    if not radius:
        return ""
    if height is None:
        return _("a round opening has no corners to round.")
    if not 0 <= radius <= min(width, height) / 2:
        return _("its corners are rounded by half its shorter side at most.")
    return ""


class StationsField(RowsField):
    """An edge as measured from a straight batten laid along it, station by station."""

    def __init__(self, **kwargs: Any) -> None:
        numbers = [(str(n), str(n)) for n in range(1, MOST_CORNERS + 1)]
        columns = [
            Column(
                name="corner", label=gettext_lazy("after corner"), choices=[("", "–"), *numbers]
            ),
            length_column("along", gettext_lazy("along the batten")),
            length_column("out", gettext_lazy("outwards")),
        ]
        super().__init__(most=MOST_CORNERS, **kept_as(TrimStation, columns), **kwargs)


class SupportsField(RowsField):
    """Battens and blocks under a floor, by their middles."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [
            Column(
                name="kind",
                label=gettext_lazy("kind"),
                choices=[("", "–"), *TrimSupport.Kind.choices],
            ),
            length_column("u", gettext_lazy("middle across")),
            length_column("v", gettext_lazy("middle up")),
            length_column("across", ACROSS, positive=True),
            length_column("up", UP, positive=True),
            length_column(
                "height",
                gettext_lazy("height"),
                positive=True,
                needed=False,
                usual=gettext_lazy("to the level"),
            ),
        ]
        super().__init__(most=MOST_ENTRIES, **kept_as(TrimSupport, columns), **kwargs)


class HatchesField(RowsField):
    """Hatches by the middles of their openings in the bare wood."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [
            length_column("u", gettext_lazy("middle across")),
            length_column("v", gettext_lazy("middle up")),
            length_column("width", gettext_lazy("width"), positive=True),
            length_column("height", gettext_lazy("height"), positive=True),
            length_column("gap", gettext_lazy("gap"), positive=True),
            length_column("ledge", gettext_lazy("ledge"), positive=True),
            length_column("finger_hole", gettext_lazy("finger hole"), positive=True, needed=False),
            Column(
                name="held",
                label=gettext_lazy("lid held by"),
                choices=[("", "–"), *TrimHatch.Held.choices],
            ),
            Column(name="over", label=gettext_lazy("what lies under it"), needed=False),
        ]
        super().__init__(most=MOST_HATCHES, **kept_as(TrimHatch, columns), **kwargs)


class BeneathField(RowsField):
    """Fuses and terminals under a floor, by what is printed on them, and where each lies."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [
            Column(name="what", label=gettext_lazy("fuse or terminal"), longest=80),
            length_column("u", gettext_lazy("middle across"), needed=False),
            length_column("v", gettext_lazy("middle up"), needed=False),
        ]
        super().__init__(most=MOST_ENTRIES, **kept_as(TrimBeneath, columns), **kwargs)

    def offer(self, names: Iterable[str]) -> None:
        """Say what of the job can be chosen; what is no more there stays readable."""
        choices = [("", "–"), *((name, name) for name in names)]
        self.columns = [replace(self.columns[0], choices=choices), *self.columns[1:]]
        self.widget.columns = self.columns


@dataclass(frozen=True, kw_only=True)
class _PartColumn(Column):
    """A part of the catalogue by its key; what is offered is said later."""

    def say(self, value: Any) -> str:
        """Return its name, wherever it is read."""
        return str(Part.with_removed.filter(pk=value).first() or "–")


class MountsField(RowsField):
    """What is screwed to a board, by the middles."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [
            _PartColumn(name="part_id", label=gettext_lazy("part"), choices=[("", "–")]),
            length_column("u", gettext_lazy("middle across")),
            length_column("v", gettext_lazy("middle up")),
            Column(
                name="turned",
                label=gettext_lazy("its length lies"),
                choices=[("", ACROSS), (YES, UP)],
                needed=False,
            ),
        ]
        super().__init__(
            columns,
            most=MOST_MOUNTS,
            pack=lambda row: [int(row[0]), row[1], row[2], bool(row[3])],
            unpack=lambda kept: (str(kept[0]), kept[1], kept[2], YES if kept[3] else None),
            **kwargs,
        )

    def offer(self, parts: Iterable[Part]) -> None:
        """Say which parts of the job can be chosen."""
        choices = [("", "–"), *((str(part.pk), str(part)) for part in parts)]
        self.columns = [replace(self.columns[0], choices=choices), *self.columns[1:]]
        self.widget.columns = self.columns
