"""Lists typed as tables: read to metres, shown again, refused with row and column; and kept."""

from __future__ import annotations

import math
from types import SimpleNamespace
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.utils import translation

from jobs.models import Box, BoxCorner, Obstacle
from jobs.pages.forms.route_field import MOST_ROWS, RouteField
from jobs.pages.forms.row_acts import _route
from jobs.pages.forms.rows_field import Column, RowsField, RowsWidget
from jobs.pages.forms.shape_fields import (
    BracesField,
    CurveField,
    ObstaclesField,
    OutlineField,
    RatingsField,
    SidesField,
)
from jobs.pages.wood.panel_fields import (
    HatchesField,
    OpeningsField,
    StationsField,
    SupportsField,
)

# What is typed into each kind of list, and what is kept of it.
SAID: dict[str, tuple[RowsField, list[tuple[str, ...]], Any]] = {
    "outline": (
        OutlineField(bows=True),
        [("0", "0", ""), ("41,6 cm", "0", "20 mm"), ("170", "433 mm", "0")],
        [[0.0, 0.0], [0.416, 0.0, 0.02], [0.17, 0.433]],
    ),
    "obstacles": (
        ObstaclesField(),
        [
            ("hinge", "400", "0", "100", "200", "0", "250"),
            ("strut", "10", "20", "30", "40", "", ""),
        ],
        [
            {
                "name": "hinge",
                "points": [[0.4, 0.0], [0.5, 0.0], [0.5, 0.2], [0.4, 0.2]],
                "start": 0.0,
                "end": 0.25,
            },
            {
                "name": "strut",
                "points": [[0.01, 0.02], [0.04, 0.02], [0.04, 0.06], [0.01, 0.06]],
                "start": 0.0,
                "end": None,
            },
        ],
    ),
    "braces": (
        BracesField(),
        [("shelf", "150", "", "", "50"), ("strut up", "150", "500", "30", "")],
        [
            {"kind": "shelf", "at": [0.15], "open": 0.5},
            {"kind": "strut up", "at": [0.15, 0.5, 0.03], "open": 0.0},
        ],
    ),
    "sides": (
        SidesField(),
        [("front", "22 mm"), ("left", "16")],
        {"front": 0.022, "left": 0.016},
    ),
    "openings": (
        OpeningsField(),
        [("200", "150", "120", "", ""), ("80", "60", "100", "40", ""), ("9", "9", "4", "4", "1")],
        [[0.2, 0.15, 0.12], [0.08, 0.06, 0.1, 0.04], [0.009, 0.009, 0.004, 0.004, 0.001]],
    ),
    "rounded": (
        OutlineField(bows=True, radii=True),
        [("0", "0", "", "25"), ("41,6 cm", "0", "20 mm", ""), ("170", "433 mm", "", "")],
        [[0.0, 0.0, 0.0, 0.025], [0.416, 0.0, 0.02], [0.17, 0.433]],
    ),
    "stations": (
        StationsField(),
        [("2", "100", "-4"), ("2", "20 cm", "0")],
        [[2, 0.1, -0.004], [2, 0.2, 0.0]],
    ),
    "supports": (
        SupportsField(),
        [("batten", "400", "50", "800", "40", ""), ("block", "1", "2", "3", "4", "108")],
        [["batten", 0.4, 0.05, 0.8, 0.04], ["block", 0.001, 0.002, 0.003, 0.004, 0.108]],
    ),
    "hatches": (
        HatchesField(),
        [("500", "300", "300", "240", "1.5", "28", "", "hinge", "fuses")],
        [[0.5, 0.3, 0.3, 0.24, 0.0015, 0.028, None, "hinge", "fuses"]],
    ),
    "ratings": (
        RatingsField(),
        [("100 W", "4 Ω", ""), ("0,32 kW", "4", "yes")],
        [(False, 100.0, 4.0), (True, 320.0, 4.0)],
    ),
    "curve": (
        CurveField(),
        [("6", "0.4 s"), ("2", "1 min"), ("10", "50")],
        [[2.0, 60.0], [6.0, 0.4], [10.0, 0.05]],
    ),
}
# What cannot be, and what is said of it.
REFUSED: list[tuple[str, list[tuple[str, ...]], str]] = [
    ("outline", [("0", "0", ""), ("1", "0", "")], "At least 3"),
    ("outline", [("0", "0", "")] * 41, "At most 40"),
    ("outline", [("0", "0", ""), ("x", "", ""), ("1", "1", "")], "Row 2, across"),
    ("outline", [("0", "0", "60"), ("100", "0", ""), ("0", "90", "")], "half a circle"),
    ("outline", [("0", "0", ""), ("5 m", "0", ""), ("0", "1", "")], "Row 2, across.*cannot be"),
    ("obstacles", [("hinge", "400", "0", "100", "200", "250", "250")], "ends before it begins"),
    ("obstacles", [("hinge", "400", "0", "0", "200", "", "")], "Row 1, depth"),
    ("obstacles", [("", "400", "0", "100", "200", "", "")], "what it is: This is missing"),
    ("obstacles", [("x" * 61, "400", "0", "100", "200", "", "")], "60 letters"),
    ("obstacles", [("a\0b", "400", "0", "100", "200", "", "")], "60 letters"),
    ("braces", [("bar", "100", "", "", "")], "not one of the choices"),
    ("braces", [("shelf", "100", "200", "", "")], "only a strut|Only a strut"),
    ("braces", [("strut up", "100", "200", "", "")], "both places"),
    ("braces", [("strut up", "100", "200", "0", "")], "breadth"),
    ("braces", [("shelf", "100", "", "", "95")], "nine tenths|Nine tenths"),
    ("sides", [("bonnet", "12 mm")], "not one of the choices"),
    ("sides", [("front", "12 mm"), ("front", "16 mm")], "named twice"),
    ("openings", [("200", "150", "0", "", "")], "Row 1, width"),
    ("openings", [("200", "150", "60", "", "5")], "no corners to round"),
    ("openings", [("200", "150", "60", "40", "21")], "half its shorter side"),
    ("openings", [("20", "20", "10", "", "")] * 31, "At most 30"),
    ("stations", [("41", "100", "4")], "not one of the choices"),
    ("supports", [("batten", "400", "50", "0", "40", "")], "Row 1, across"),
    ("hatches", [("500", "300", "300", "240", "1.5", "28", "", "", "")], "lid held by"),
    ("ratings", [("", "4 Ω", "")], "Row 1, power"),
    ("ratings", [("100 W", "0", "")], "more than zero"),
    ("curve", [("1", "60 s")], "more than once its rating|more than once the rating"),
    ("curve", [("2", "1 s"), ("6", "2 s")], "opens sooner"),
    ("curve", [("six", "1 s")], "Row 1, times"),
]


@pytest.mark.parametrize("name", SAID)
def test_what_is_typed_is_kept_in_si_and_shown_again(name):
    """Plain numbers and any unit, in either language; a row nobody typed into is none."""
    field, rows, kept = SAID[name]
    blank = ("",) * len(field.columns)
    with translation.override("en"):
        read = field.clean([*rows, blank])
        assert _near(read, kept)
    for language in ("en", "de"):
        with translation.override(language):
            assert _near(field.clean(field.prepare_value(read)), kept)
            assert not field.has_changed(read, [*field.prepare_value(read), blank])
            assert field.words(read)
    assert not field.clean([blank])


def _near(one: Any, other: Any) -> bool:
    if isinstance(other, float):
        return math.isclose(one, other, abs_tol=1e-12)
    if isinstance(other, dict):
        return one.keys() == other.keys() and all(_near(one[key], other[key]) for key in other)
    if isinstance(other, list | tuple):
        return len(one) == len(other) and all(map(_near, one, other))
    return bool(one == other)


@pytest.mark.parametrize(("name", "rows", "says"), REFUSED)
def test_what_cannot_be_is_said_with_its_row(name, rows, says):
    """Too many, too few, half a row, a word for a figure: each is said where it is."""
    with pytest.raises(ValidationError, match=says):
        SAID[name][0].clean(rows)


def test_five_slips_of_the_pen_are_enough_for_one_answer():
    """Of thirty wrong rows the first five are named."""
    with pytest.raises(ValidationError) as refused:
        OpeningsField().clean([("a", "1", "1", "", "")] * 30)
    assert len(refused.value.messages) == 5


@pytest.mark.django_db
def test_a_list_is_rows_of_a_table_and_comes_back_whole(hatchback):
    """Saved, read anew, written over and emptied; what is not saved yet is read as it is typed."""
    box = Box.objects.get(pk=hatchback.box.pk)
    box.cavity_profile = SAID["outline"][2]
    box.cavity_obstacles = SAID["obstacles"][2]
    assert not Obstacle.objects.exists()
    assert box.cavity_profile == SAID["outline"][2]
    box.save()
    assert Obstacle.objects.filter(box=box).count() == 2
    again = Box.objects.get(pk=box.pk)
    assert again.cavity_profile == SAID["outline"][2]
    assert _near(again.cavity_obstacles, SAID["obstacles"][2])
    assert again.history.first().hanging["cavity_profile"] == SAID["outline"][2]
    again.cavity_profile = None
    again.save()
    assert Box.objects.get(pk=box.pk).cavity_profile is None
    assert not BoxCorner.objects.filter(box=box, outline="cavity").exists()
    assert Obstacle.objects.filter(box=box).count() == 2


def test_typed_rows_are_said_in_one_line():
    """A choice by its words, other cells as they were typed, nothing where nothing was."""
    columns = [
        Column(name="kind", label="kind", choices=[("", "–"), ("b", "batten")]),
        Column(name="at", label="at"),
    ]
    widget = RowsWidget(columns, most=5)
    rows = [("b", "100 mm"), ("", ""), ("z", ""), ("", "20 mm")]
    assert widget.format_value(rows) == "batten, 100 mm; z; 20 mm"
    assert widget.format_value(None) == ""


def test_a_route_has_so_many_lines_and_no_more():
    """Those that say nothing are not counted."""
    field = RouteField()
    field.offer([])
    row, empty = ("", "sill", "loom", ""), ("", " ", "loom", "")
    assert len(field.clean([row, empty] * MOST_ROWS)) == MOST_ROWS
    with pytest.raises(ValidationError) as refused:
        field.clean([row] * (MOST_ROWS + 1))
    assert refused.value.messages == [f"At most {MOST_ROWS} lines."]


def test_a_route_on_the_other_side_goes_by_its_panels_or_their_names():
    """Where the other side has no panel its name stands in words, unless a place does."""
    panels = [SimpleNamespace(pk=1, name="sill, left"), SimpleNamespace(pk=2, name="sill, right"),
              SimpleNamespace(pk=3, name="door, left")]  # fmt: skip
    sent = {
        "route-panel": ["1", "3", "3", ""],
        "route-place": ["", "", "hinge, left", "pillar, left"],
    }
    assert _route(SimpleNamespace(panels=panels), "route", sent) == {
        "route-panel": ["2", "", "", ""],
        "route-place": ["", "door, right", "hinge, right", "pillar, right"],
    }
