"""Sheets, parts and full-size templates."""

import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise

import pytest

from jobs.design.wood.pieces import Circle, Loop, Piece
from jobs.drawings.pencil.svg import DrawingError, text_width
from jobs.drawings.wood.box_drawing import View
from jobs.drawings.wood.nest_drawing import Sheet, nest_drawing
from jobs.drawings.wood.part_drawing import part_drawing
from jobs.drawings.wood.tiles import Template, tiles
from jobs.drawings.wood.wood import Hole, Part
from jobs.drawings.wood.wood_pictures import part

# An invented front panel, 620 x 360 mm with two holes.
PANEL = Part(
    number="1",
    name="Front <panel>",
    outline=[(0, 0), (0.62, 0), (0.62, 0.36), (0, 0.36)],
    holes=[Hole(centre=(0.21, 0.18), diameter=0.234), Hole(centre=(0.5, 0.08), diameter=0.05)],
    grain="x",
)
VIEW = View(key="w", title="Wood", description="d")
TEMPLATE = Template(key="t", title="Template", part=PANEL, caption="Print at 100 %.")


def words(drawing: str) -> list[str]:
    return [e.text or "" for e in ET.fromstring(drawing).iter() if e.tag.endswith("text")]


def lines(drawing: str) -> list[list[tuple[float, float]]]:
    return [
        [(float(p.split(",")[0]), float(p.split(",")[1])) for p in e.attrib["points"].split()]
        for e in ET.fromstring(drawing).iter()
        if e.tag.endswith("polyline")
    ]


def test_a_sheet_lists_every_part_with_its_size() -> None:
    """Number, name and size of each part stand under the sheet; offcuts say theirs."""
    other = replace(PANEL, number="2", outline=[(0.7, 0.1), (1.0, 0.1), (1.0, 0.3)], holes=())
    sheet = Sheet(width=2.44, height=1.22, parts=[PANEL, other], offcuts=[(1.2, 0, 1.2, 1.2)])
    said = words(nest_drawing(sheet, VIEW))
    assert "Front <panel>, 620 × 360 mm" in said
    assert "1200 × 1200" in said
    assert said.count("2") == 2
    assert {"2440", "1220"} <= set(said)


def test_words_on_a_part_stand_clear_of_its_cuts() -> None:
    """The number of a panel does not stand on the edge of its cut-out."""
    spot, room = PANEL.clear_spot()
    assert room > 0.05
    for hole in PANEL.holes:
        assert abs(math.dist(spot, hole.centre) - hole.diameter / 2) >= room * 0.98


def test_a_part_says_where_its_holes_are() -> None:
    """Centres from the left and from the floor, and diameters."""
    said = words(part_drawing(PANEL, VIEW))
    assert {"620", "360", "210", "500", "180", "80", "Ø 234", "Ø 50"} <= set(said)


def test_the_length_of_a_side_covers_no_number() -> None:
    """A batten under the middle of a side: the length of that side moves along it."""
    corners = [(0, 0), (0.6, 0), (0.6, 0.4), (0.1, 0.4), (0, 0.3)]
    batten = [(0.2, 0.005), (0.4, 0.005), (0.4, 0.04), (0.2, 0.04)]
    floor = replace(PANEL, outline=corners, holes=(), seats=[("7", batten)])
    drawn = [e for e in ET.fromstring(part_drawing(floor, VIEW)).iter() if e.tag.endswith("text")]
    at = {e.text: (float(e.attrib["x"]), float(e.attrib["y"])) for e in drawn}
    free = ET.fromstring(part_drawing(replace(floor, seats=()), VIEW)).iter()
    middle = {e.text: float(e.attrib["x"]) for e in free if e.tag.endswith("text")}["600"]
    size = VIEW.font
    apart = (text_width("600", size) + text_width("7", 0.85 * size)) / 2
    lengths = [e for e in drawn if e.text == "600" and float(e.attrib["x"]) != middle]
    assert lengths, "the length stayed where it was"
    assert all(abs(float(e.attrib["x"]) - at["7"][0]) >= apart for e in lengths)


def test_only_a_circle_is_taken_for_one() -> None:
    """A bow drawn in many steps has no middle to drill at, and its size does not say all of it."""
    steps = [math.pi * k / 150 for k in range(151)]
    bow = Piece(
        label="1", name="bow", quantity=1, thickness=0.012,
        outline=Loop(points=tuple((0.3 + 0.3 * math.cos(t), 0.2 * math.sin(t)) for t in steps)),
    )  # fmt: skip
    ring = replace(bow, outline=Circle(centre=(0.15, 0.15), radius=0.15))
    assert not part(bow).upright
    assert part(bow).middles == []
    assert part(ring).upright
    ((x, y),) = part(ring).middles
    assert (x, y) == pytest.approx((0.15, 0.15))


def test_the_check_bar_is_a_hundred_millimetres_on_paper() -> None:
    """One drawing unit is one millimetre, and the bar is 100 of them without a stroke."""
    root = ET.fromstring(tiles(TEMPLATE)[0].drawing)
    assert (root.attrib["width"], root.attrib["viewBox"]) == ("190mm", "0 0 190 277")
    bar = next(e for e in root.iter() if e.tag.endswith("rect"))
    assert (bar.attrib["width"], bar.get("stroke")) == ("100", None)


def test_tiles_laid_edge_over_edge_show_every_line_once_or_twice() -> None:
    """The cut length over all pages is the part's, more by what the overlaps repeat."""
    whole = 2 * (620 + 360) + math.pi * (234 + 50)
    drawn = sum(
        math.dist(a, b)
        for tile in tiles(TEMPLATE)
        for line in lines(tile.drawing)
        for a, b in pairwise(line)
    )
    assert whole - 0.5 < drawn < whole * 1.25


def test_neighbours_agree_in_their_overlap() -> None:
    """A line that leaves a page at its right edge enters the next at the same height."""
    first, second = (t for t in tiles(TEMPLATE) if t.name in ("1-1", "1-2"))

    def level_lines(drawing: str, edge: float) -> set[float]:
        pairs = [pair for line in lines(drawing) for pair in pairwise(line)]
        return {a[1] for a, b in pairs if a[1] == b[1] and edge in (a[0], b[0])}

    assert level_lines(first.drawing, 190) == level_lines(second.drawing, 0) != set()


def test_no_cut_line_comes_near_the_bar() -> None:
    """The foot of the page stays free of lines to cut."""
    heights = [y for tile in tiles(TEMPLATE) for line in lines(tile.drawing) for _, y in line]
    assert len(heights) > 4
    assert max(heights) <= 277 - 15 + 1e-6


def test_empty_pages_are_left_out() -> None:
    """A large ring needs no paper for its middle."""
    ring = Part(
        number="1",
        name="Ring",
        outline=[(0, 0), (0.8, 0), (0.8, 1.1), (0, 1.1)],
    )
    names = [tile.name for tile in tiles(replace(TEMPLATE, part=ring))]
    assert "2-2" not in names
    assert "1-1" in names


def test_impossible_wood_is_refused() -> None:
    """No size, no number, no paper: each says so."""
    with pytest.raises(DrawingError, match="corners"):
        replace(PANEL, outline=[(0, 0), (1, math.nan), (1, 1)])
    with pytest.raises(DrawingError, match="across"):
        replace(PANEL, outline=[(0, 0), (1, 0), (2, 0)])
    with pytest.raises(DrawingError, match="cannot hold"):
        tiles(replace(TEMPLATE, paper=(0.1, 0.1)))
