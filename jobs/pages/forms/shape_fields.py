"""The lists a box, a panel and a part are entered with, as tables; the first four can be drawn."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, pgettext_lazy

from jobs import units
from jobs.models.box.box import BoxCorner, InnerBrace, Obstacle
from jobs.models.box.box_wood import BRACES, FACES, STRUT_ACROSS
from jobs.models.box.row_lists import MOST_CORNERS, MOST_ENTRIES, ListedRow
from jobs.models.box.trim import TrimCorner
from jobs.pages.forms.rows_field import Column, Row, RowsField

MOST_RATINGS = MOST_POINTS = 12
YES = "yes"
# A window larger than this leaves no brace.
MOST_OPEN = 0.9
BOW_HELP = gettext_lazy(
    "A bow makes an arc of the edge after a corner: how far its middle lies off the straight line, "
    "outwards, or inwards below zero."
)
PLAN_HELP = gettext_lazy(
    "The outside of the bottom, front at the left, turning inward nowhere. Side 1 runs from the "
    "first corner to the second; the driver sits in the last one unless you choose another. A wall "
    "that leans inwards makes the top smaller; below zero it leans outwards."
)
OBSTACLES_HELP = gettext_lazy(
    "Blocks with upright sides: where the lower front edge lies, how deep and high; across the car "
    "from the left of the cavity, all the way when left empty."
)
BRACES_HELP = gettext_lazy(
    "A shelf lies so far above the bottom, an upright stands so far from the front, a plate from "
    "the left side, each to its middle. A strut takes two places, front before up before left, and "
    "its breadth."
)


def kept_as(row: type[ListedRow], columns: Sequence[Column]) -> dict[str, Any]:
    """How cells and the plain data of these rows come of each other; columns are fields of a row.

    A cell left empty is what a row has by itself, and so are the last cells that are shown empty.
    """
    blank = row()
    usual = {column.name: getattr(blank, column.name) for column in columns}

    def pack(cells: Row) -> Any:
        typed = zip(usual, cells, strict=True)
        return row(**{name: cell for name, cell in typed if cell is not None}).plain

    def unpack(kept: Any) -> Row:
        read = row.read(kept)
        cells = [getattr(read, name) for name in usual]
        for n, column in reversed(list(enumerate(columns))):
            if column.needed or cells[n] != usual[column.name]:
                break
            cells[n] = None
        return tuple(cells)

    return {"columns": columns, "pack": pack, "unpack": unpack}


def length_column(name: str, label: Any, **more: Any) -> Column:
    return Column(name=name, label=label, kind="length", **more)


ACROSS, UP = pgettext_lazy("shape", "across"), pgettext_lazy("shape", "up")


class OutlineField(RowsField):
    """Corners in order round a shape, across and up; with `bows` its edges may be arcs, with
    `radii` its corners rounded, with `leans` they are walls that may lean.

    It is drawn, with the lists `beside` it, or `on` the bench; `plate` names the two fields that
    make a rectangle of it while it has no corners.
    """

    def __init__(
        self,
        *,
        bows: bool = False,
        radii: bool = False,
        leans: bool = False,
        on: str = "",
        plate: str = "",
        beside: Sequence[str] = (),
        **kwargs: Any,
    ) -> None:
        columns = [length_column("x", ACROSS), length_column("y", UP)]
        if bows:
            bow = pgettext_lazy("shape", "bow")
            columns.append(length_column("bow", bow, needed=False, usual="0"))
            kwargs.setdefault("help_text", BOW_HELP)
        if radii:
            columns.append(
                length_column(
                    "radius", gettext_lazy("radius"), positive=True, needed=False, usual="0"
                )
            )
        if leans:
            kwargs.setdefault("help_text", PLAN_HELP)
            columns.append(
                Column(
                    name="lean",
                    label=gettext_lazy("lean of the wall"),
                    kind="angle",
                    needed=False,
                    usual="0",
                )
            )
        # A corner of any outline says the same.
        kept = kept_as(TrimCorner if radii else BoxCorner, columns)
        super().__init__(most=MOST_CORNERS, least=3, **kept, **kwargs)
        self.widget.draws, self.widget.on = "outline", on
        self.widget.plate, self.widget.beside = plate, beside

    def gather(self, rows: list[Any]) -> Any:
        """Refuse an arc that is more than half a circle."""
        for number, (here, there) in enumerate(pairwise([*rows, *rows[:1]]), start=1):
            bow = abs(here[2]) if len(here) > 2 else 0.0
            across, up = there[0] - here[0], there[1] - here[1]
            if 2 * bow > (across**2 + up**2) ** 0.5 * (1 + 1e-9):
                message = _("The arc after corner %(n)s is more than half a circle.")
                raise ValidationError(message % {"n": number})
        return rows or None


class ObstaclesField(RowsField):
    """Blocks that stand in a cavity, drawn on its outline."""

    def __init__(self, *, on: str = "", **kwargs: Any) -> None:
        columns = [
            Column(name="name", label=gettext_lazy("what it is")),
            length_column("x", ACROSS),
            length_column("y", UP),
            length_column("depth", gettext_lazy("depth"), positive=True),
            length_column("height", gettext_lazy("height"), positive=True),
            length_column("start", gettext_lazy("from the left"), needed=False),
            length_column("end", pgettext_lazy("reach", "to"), needed=False),
        ]
        super().__init__(
            **kept_as(Obstacle, columns),
            most=MOST_ENTRIES,
            check=_block_trouble,
            help_text=OBSTACLES_HELP,
            **kwargs,
        )
        self.widget.draws, self.widget.on = "blocks", on


def _block_trouble(row: Row) -> str:
    *_block, start, end = row
    if end is not None and (start or 0.0) >= end:
        return _("it ends before it begins.")
    return ""


class BracesField(RowsField):
    """What stiffens a box from within, one by one."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [
            Column(name="kind", label=gettext_lazy("kind"), choices=[("", "–"), *BRACES]),
            length_column("at", gettext_lazy("at")),
            length_column("second", gettext_lazy("strut: and at"), needed=False),
            length_column("breadth", gettext_lazy("strut: breadth"), needed=False, positive=True),
            Column(
                name="open",
                label=gettext_lazy("share cut out"),
                kind="percent",
                needed=False,
                usual="0",
            ),
        ]
        super().__init__(
            **kept_as(InnerBrace, columns),
            most=MOST_ENTRIES,
            check=_brace_trouble,
            help_text=BRACES_HELP,
            **kwargs,
        )


def _is_strut(kind: str) -> bool:
    return kind.split()[0] == STRUT_ACROSS.split()[0]


def _brace_trouble(row: Row) -> str:
    kind, _at, second, breadth, share = row
    if _is_strut(kind):
        if second is None or breadth is None:
            return _("a strut needs both places and its breadth.")
        return _("nothing is cut out of a strut.") if share else ""
    if second is not None or breadth is not None:
        return _("only a strut has a second place and a breadth.")
    if not 0 <= (share or 0.0) <= MOST_OPEN:
        return _("nine tenths of a brace can be cut out at most.")
    return ""


class SidesField(RowsField):
    """Sides that are of another thickness than the sheet."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [
            Column(name="face", label=gettext_lazy("side"), choices=[("", "–"), *FACES]),
            length_column("thickness", gettext_lazy("thickness"), positive=True),
        ]
        super().__init__(columns, most=MOST_ENTRIES, **kwargs)

    def gather(self, rows: list[Any]) -> Any:
        """Return the thickness of each side; one named twice is refused."""
        sides = dict(rows)
        if len(sides) < len(rows):
            raise ValidationError(_("A side is named twice."))
        return sides or None

    def parted(self, kept: Any) -> Any:
        """Return each side with its thickness."""
        return list(kept.items()) if isinstance(kept, dict) else kept or ()


Rating = tuple[bool, float, float]


class RatingsField(RowsField):
    """What an amplifier gives into which load: (bridged, power, load)."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [
            Column(name="power", label=gettext_lazy("power"), kind="power", positive=True),
            Column(name="load", label=gettext_lazy("into"), kind="resistance", positive=True),
            Column(
                name="bridged",
                label=gettext_lazy("channels"),
                choices=[("", gettext_lazy("each alone")), (YES, gettext_lazy("bridged"))],
                needed=False,
            ),
        ]
        super().__init__(
            columns,
            most=MOST_RATINGS,
            pack=lambda row: (bool(row[2]), row[0], row[1]),
            unpack=lambda rating: (rating[1], rating[2], YES if rating[0] else None),
            **kwargs,
        )

    def gather(self, rows: list[Any]) -> list[Rating]:
        """Return every rating."""
        return rows


class CurveField(RowsField):
    """Points of a fuse's curve, rising in current and falling in time."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [
            Column(name="multiple", label=gettext_lazy("times its rating"), kind="ratio"),
            Column(name="time", label=gettext_lazy("opens within"), kind="time", positive=True),
        ]
        super().__init__(
            columns,
            most=MOST_POINTS,
            pack=list,
            check=lambda row: "" if row[0] > 1 else _("it is more than once the rating."),
            **kwargs,
        )

    def gather(self, rows: list[Any]) -> list[list[float]]:
        """Return the points by current; a larger current opens sooner."""
        points = sorted(rows)
        for (low, slow), (high, fast) in pairwise(points):
            if high == low or fast > slow:
                message = _(
                    "A fuse opens sooner at a larger current: look at %(low)s × and %(high)s ×."
                )
                shown = {
                    "low": units.show(low, "ratio", exact=True),
                    "high": units.show(high, "ratio", exact=True),
                }
                raise ValidationError(message % shown)
        return points
