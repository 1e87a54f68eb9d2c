"""What the lists of a form take, say and refuse, and a run's route, is what was let stand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import pytest
from django.core.exceptions import ValidationError
from django.http import QueryDict

from jobs.models import Panel, Stretch
from jobs.models.box.box_wood import BRACES, FACES, STRUT_ACROSS
from jobs.models.box.trim import TrimCorner
from jobs.pages.forms.route_field import RouteField
from jobs.pages.forms.rows_field import RowsField
from jobs.pages.forms.shape_fields import (
    BracesField,
    CurveField,
    ObstaclesField,
    OutlineField,
    RatingsField,
    SidesField,
    length_column,
)
from jobs.pages.wood.panel_fields import (
    BeneathField,
    HatchesField,
    MountsField,
    OpeningsField,
    StationsField,
    SupportsField,
)
from tests.approval import figures, hold
from tests.jobs.factories import make_part
from tests.words import words

Typed = Sequence[tuple[str, ...]]
SQUARE = [("0", "0"), ("40 cm", "0"), ("40 cm", "300"), ("0", "12 in")]
SHELF, UPRIGHT = (key for key, _word in BRACES[:2])
FACE, OTHER_FACE = (key for key, _word in FACES[:2])
THREE = [("0", "0"), ("1", "0"), ("0", "1")]


def _answer(field: RowsField, typed: Typed) -> dict[str, object]:
    """What is kept of what is typed and how that is shown again, or all that is wrong."""
    try:
        kept = field.clean(list(typed))
    except ValidationError as error:
        return {"wrong": error.messages}
    shown = field.prepare_value(kept)
    line, again = field.words(kept), field.widget.format_value(shown)
    changed = [field.has_changed(kept, shown), field.has_changed(kept, typed)]
    return {"kept": kept, "shown": shown, "said": [line, again], "changed": changed}


def _corners(typed: Typed, *more: str) -> Typed:
    return [(*row, *more) for row in typed]


LISTS: dict[str, tuple[RowsField, Iterable[Typed]]] = {
    "outline": (
        OutlineField(),
        [SQUARE, [], SQUARE[:2], SQUARE[:3], THREE * 60, [("", ""), *SQUARE, (" ", "")],
         [("x", ""), ("1 kg", "2"), *SQUARE], [("x", "y")] * 4, [("0", "-5 mm"), *SQUARE[1:]]],
    ),
    "bowed": (
        OutlineField(bows=True),
        # A bow of half the edge is a half circle: 200 mm over 400 mm.
        [[(*SQUARE[0], "200"), *_corners(SQUARE[1:], "")],
         [(*SQUARE[0], "-200"), *_corners(SQUARE[1:], "")],
         [(*SQUARE[0], "200.1"), *_corners(SQUARE[1:], "0")],
         [*_corners(SQUARE[:3], ""), (*SQUARE[3], "-152.5")],
         [*_corners(SQUARE[:3], "1"), (*SQUARE[3], "-152.4")]],
    ),
    "rounded": (
        OutlineField(bows=True, radii=True),
        [[(*SQUARE[0], "", "30 mm"), *_corners(SQUARE[1:], "10", "")],
         [(*SQUARE[0], "", "-1"), *_corners(SQUARE[1:], "", "0")],
         _corners(SQUARE, "", "")],
    ),
    "leaning": (
        OutlineField(leans=True),
        [[(*SQUARE[0], "12°"), *_corners(SQUARE[1:], "-3")], _corners(SQUARE, "")],
    ),
    "obstacles": (
        ObstaclesField(on="cavity"),
        [[("arch", "0", "1", "20 cm", "30", "", ""), ("pipe", "1", "2", "3", "4", "5", "6"),
          ("edge", "1", "2", "3", "4", "", "1")],
         [("a", "0", "0", "1", "1", "6", "6"), ("b", "0", "0", "1", "1", "6.1", "6"),
          ("c", "0", "0", "1", "1", "", "0"), ("d", "0", "0", "0", "-1", "", "")],
         [("n" * 61, "0", "0", "1", "1", "", ""), ("n" * 60, "0", "0", "1", "1", "", ""),
          ("", "0", "0", "1", "1", "", "")]],
    ),
    "braces": (
        BracesField(),
        [[(SHELF, "100", "", "", "50 %"), (UPRIGHT, "1 in", "", "", ""),
          (STRUT_ACROSS, "100", "80", "30", ""), (STRUT_ACROSS, "0", "0", "30", "0")],
         [(SHELF, "1", "", "", "90"), (SHELF, "1", "", "", "0"), (SHELF, "1", "", "", "90.1"),
          (SHELF, "1", "", "", "-1")],
         [(STRUT_ACROSS, "1", "", "3", ""), (STRUT_ACROSS, "1", "2", "", ""),
          (STRUT_ACROSS, "1", "2", "3", "10"), (SHELF, "1", "2", "", ""),
          (SHELF, "1", "", "3", ""), ("none", "1", "", "", "")]],
    ),
    "sides": (
        SidesField(),
        [[(FACE, "22"), (OTHER_FACE, "0.5 in")], [(FACE, "22"), (FACE, "25")],
         [(FACE, "0"), ("", "22")], [(FACE, "-1 mm")]],
    ),
    "ratings": (
        RatingsField(),
        [[("100", "4", ""), ("0.3 kW", "2 ohm", "yes")], [("0", "4", ""), ("9", "0", "no")],
         [("9", "4", "")] * 12, [("9", "4", "")] * 13],
    ),
    "curve": (
        CurveField(),
        [[("2", "5 s"), ("1.35", "30 min"), ("6", "0.1 s")], [("2", "5"), ("3", "5")],
         [("2", "5"), ("3", "5.1")], [("2", "5"), ("2", "4")], [("1", "5"), ("1.01", "9")],
         [("2", "0")], [("2", "1")] * 13],
    ),
    "openings": (
        OpeningsField(on="corners"),
        [[("1", "2", "160 mm", "", ""), ("0", "0", "20 cm", "100", "50"),
          ("0", "0", "60", "100", "30")],
         [("0", "0", "9", "8", "0")],
         [("0", "0", "100", "", "5"), ("0", "0", "100", "60", "30.1"),
          ("0", "0", "60", "100", "30"),
          ("0", "0", "60", "100", "-1"), ("0", "0", "0", "", ""), ("0", "0", "", "", "")]],
    ),
    "stations": (
        StationsField(),
        [[("1", "100", "12"), ("2", "-5", "-1 in")],
         [("0", "1", "1"), ("", "1", ""), ("1", "", "")],
         [("200", "1", "1")]],
    ),
    "supports": (
        SupportsField(),
        [[("batten", "1", "2", "3", "4", "5"), ("block", "1", "2", "3", "4", "")],
         [("batten", "1", "2", "0", "-4", "0"), ("leg", "1", "2", "3", "4", "")]],
    ),
    "hatches": (
        HatchesField(),
        [[("1", "2", "300", "200", "1.5", "15", "", key, "") for key in ("magnets", "screws")],
         [("1", "2", "300", "200", "1.5", "15", "25", "magnets", "spare wheel")],
         [("1", "2", "0", "0", "0", "0", "0", "nails", "x")]],
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", LISTS)
def test_a_list_answers_what_was_let_stand(name):
    """Rows in several units, at the limits and a hair beyond, and every trouble."""
    field, tried = LISTS[name]
    answers = {str(number): _answer(field, typed) for number, typed in enumerate(tried)}
    drawn = words(field.widget.render("list", field.prepare_value(None)))
    about = [str(field.help_text), field.most, field.least, field.wide, field.widget.draws,
             field.widget.on, field.prepare_value("word"), field.prepare_value({})]  # fmt: skip
    hold(f"lists/{name}", figures({"answers": answers, "drawn": drawn, "about": about}))


def test_a_list_is_read_from_what_a_browser_sends():
    """Columns side by side; one not sent at all is told from an empty one."""
    widget = OutlineField(bows=True).widget
    sent = QueryDict("c-x=1&c-x=2&c-y=3&c-y=4&c-bow=&c-bow=5")
    rows = widget.value_from_datadict(sent, None, "c")
    assert rows == [("1", "3", ""), ("2", "4", "5")]
    assert widget.sent("c", rows) == {"c-x": ["1", "2"], "c-y": ["3", "4"], "c-bow": ["", "5"]}
    assert widget.value_from_datadict({"c-x": "1"}, None, "c") == []
    assert widget.value_omitted_from_data(QueryDict("c-y=3"), None, "c")
    assert not widget.value_omitted_from_data(sent, None, "c")
    assert widget.id_for_label("c") == ""


def test_what_nobody_touched_keeps_its_digits():
    """A third of a metre is shown rounded, and stays a third while its row is as shown."""
    field = OutlineField()
    kept = [[1 / 3, 0.0], [1.0, 0.0], [1.0, 1.0]]
    shown = field.prepare_value(kept)
    assert not field.has_changed(kept, shown)
    assert field.has_changed(kept, [*shown[:2], ("1 m", "1.1 m")])


def test_rows_say_by_themselves_what_is_usual():
    """The last cells at their usual value are shown empty, one before a typed cell is not."""
    columns = [length_column("x", "x"), length_column("y", "y"),
               length_column("bow", "bow", needed=False, usual="0"),
               length_column("radius", "radius", needed=False, usual="0")]  # fmt: skip
    field = OutlineField(bows=True, radii=True)
    assert [column.name for column in field.columns] == [column.name for column in columns]
    plain = TrimCorner(x=1.0, y=2.0).plain
    assert field.unpack(plain) == (1.0, 2.0, None, None)
    assert field.unpack(TrimCorner(x=1.0, y=2.0, bow=0.1).plain) == (1.0, 2.0, 0.1, None)
    assert field.unpack(TrimCorner(x=1.0, y=2.0, radius=0.1).plain) == (1.0, 2.0, 0.0, 0.1)


@pytest.mark.django_db
def test_what_is_chosen_of_the_job_is_what_was_let_stand():
    """Parts on a board and fuses under a floor: what is offered, and nothing else."""
    parts = [make_part("Block", maker="Low"), make_part("Relay")]
    mounts, beneath = MountsField(), BeneathField()
    mounts.offer(parts)
    beneath.offer(["Main fuse", "Ring 8"])
    of = [str(part.pk) for part in parts]
    kept = mounts.clean([(of[0], "10 cm", "20", "yes"), (of[1], "1", "2", "")])
    told = [[str(kept[n][0]) == of[n], *kept[n][1:]] for n in range(2)]
    wrong = _answer(mounts, [("0", "1", "2", ""), (of[0], "", "2", "no")])
    shown = [row[1:] for row in mounts.prepare_value(kept)]
    said = [mounts.words(kept), mounts.words([[10**9, 0, 0, False]])]
    tried = ([("Main fuse", "1", "2"), ("Ring 8", "", "")], [("Other", "", ""), ("", "1", "")])
    hold("lists/offered", figures({
        "mounts": told, "wrong": wrong, "shown": shown, "said": said,
        "beneath": [_answer(beneath, typed) for typed in tried],
        "most": [mounts.most, beneath.most],
    }))  # fmt: skip


ROUTES: Sequence[Typed] = (
    [("7", "", "loom", ""), ("", " under the seat ", "own", "lined"), ("", " ", "loom", "")],
    [("8", "beside it", "own", "")],
    [("9", "", "loom", "")],
    [("7", "", "somehow", "")],
    [("7", "", "loom", "odd")],
    [("", "p" * 80, "loom", "")],
    [("", "p" * 81, "loom", "")],
    [("", "a\nb", "loom", "")],
    [("7", "", "loom", "")] * 24,
    [("7", "", "loom", "")] * 25,
    [("", "", "loom", "")] * 25,
    [],
)


def test_a_route_is_read_and_said_as_was_let_stand():
    """Panels, places, ways and edges; what no stretch can be; the longest there is."""
    field = RouteField()
    field.offer([Panel(pk=7, name="Sill, left"), Panel(pk=8, name="Boot floor")])
    edge = Stretch.Edge.values[0]
    told = {}
    for number, typed in enumerate(ROUTES):
        typed = [tuple(edge if cell == "lined" else cell for cell in row) for row in typed]
        try:
            kept = field.clean(typed)
        except ValidationError as error:
            told[str(number)] = {"wrong": error.messages}
            continue
        stretches = [[s.position, s.panel_id, s.place, s.follows_loom, s.edge] for s in kept]
        told[str(number)] = {
            "kept": stretches[:3], "number": len(kept),
            "said": field.widget.format_value(typed[:3]),
            "shown": field.prepare_value(kept)[:3], "changed": field.has_changed(kept, typed),
        }  # fmt: skip
    widget = field.widget
    whole = widget.render("route", [("7", "", "loom", edge), ("", "roof", "own", "")])
    sent = QueryDict("r-panel=7&r-panel=&r-place=&r-place=x&r-way=loom&r-way=own&r-edge=&r-edge=")
    rows = widget.value_from_datadict(sent, None, "r")
    told["drawn"] = words(whole)
    drawn = (widget.render("route", [("7", "", "loom", "")] * n) for n in (0, 22, 23, 30))
    told["rows drawn"] = [slips.count('name="route-way') for slips in drawn]
    told["sent"] = [rows, widget.sent("r", rows), widget.value_omitted_from_data({}, None, "r"),
                    widget.value_omitted_from_data(sent, None, "r"), widget.id_for_label("r"),
                    field.prepare_value("word"), field.has_changed([], [("", "", "own", "")]),
                    field.has_changed(None, [("", "x", "own", "")]), field.wide]  # fmt: skip
    hold("lists/route", figures(told))
