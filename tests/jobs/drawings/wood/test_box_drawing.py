"""Box drawings: to scale, cut wood, nothing hidden drawn as seen."""

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.carcass.shape.contents import Placed
from jobs.drawings.pencil.pencil import hatch, round_down
from jobs.drawings.pencil.svg import DrawingError
from jobs.drawings.wood.axonometric import axonometric
from jobs.drawings.wood.box import Box
from jobs.drawings.wood.box_drawing import View, face_view, side_view
from tests.jobs.drawings.wood.boxes import IN_FRONT, IN_TOP, PORT, prism, wedge

WEDGE = Box(body=wedge(IN_FRONT, IN_TOP))
VIEW = View(key="b", title="Box", description="A box")


def words(drawing: str) -> list[str]:
    return [e.text or "" for e in ET.fromstring(drawing).iter() if e.tag.endswith("text")]


def test_dimensions_are_the_true_sizes() -> None:
    """Depth, height, top and the true length of the slope (by Pythagoras) stand on the drawing."""
    said = words(side_view(WEDGE, VIEW))
    slope = f"{1000 * math.hypot(0.11, 0.36):.1f}"
    assert {"330", "360", "220", slope} <= set(said)
    assert "driver <10 in>: Ø 262, Ø 234 mm" in said


def test_the_scale_bar_has_the_scale_of_the_drawing() -> None:
    """The bar's length on paper over its length in words equals the drawn depth over the depth."""
    drawing = face_view(WEDGE, "front", VIEW)
    root = ET.fromstring(drawing)
    frames = [e for e in root.iter() if e.tag.endswith("rect") and e.get("stroke-width") == "0.9"]
    bar = float(frames[0].attrib["width"])
    length = next(float(w.split()[0]) for w in words(drawing) if w.endswith(" mm") and "Ø" not in w)
    circle = max(float(e.attrib["r"]) for e in root.iter() if e.tag.endswith("circle"))
    assert bar / length == pytest.approx(2 * circle / 262, rel=1e-3)


def test_two_things_at_one_height_keep_their_numbers_apart() -> None:
    """A port beside its driver shares its height: their numbers stand apart."""
    port = Placed(part=PORT, face="front", u=0.51, v=0.18)
    drawing = side_view(Box(body=wedge(IN_FRONT, port)), VIEW)
    rings = [
        (float(e.attrib["cx"]), float(e.attrib["cy"]), float(e.attrib["r"]))
        for e in ET.fromstring(drawing).iter()
        if e.tag.endswith("circle")
    ]
    assert len(rings) == 4  # two beside the drawing, two before the names below it
    for k, (x, y, r) in enumerate(rings):
        assert all(math.dist((x, y), other[:2]) >= 2 * r for other in rings[:k])


def test_a_face_seen_from_outside_gives_the_centre_from_left_and_floor() -> None:
    """From the front the far side is on the left: 310 - 100 mm across, 180 mm up."""
    said = words(face_view(WEDGE, "front", VIEW))
    assert {"620", "360", "210", "180"} <= set(said)


def test_hatching_covers_the_wood_and_nothing_else() -> None:
    """Stroke length times pitch is the hatched area: a square of 100 with a hole of 40."""
    square = [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
    hole = [(30.0, 30.0), (70.0, 30.0), (70.0, 70.0), (30.0, 70.0)]
    d = hatch(square, holes=[hole], gap=0.5, angle=-37)
    numbers = [float(v) for v in re.findall(r"-?[\d.]+", d)]
    strokes = zip(numbers[::4], numbers[1::4], numbers[2::4], numbers[3::4], strict=True)
    total = sum(math.dist((a, b), (c, e)) for a, b, c, e in strokes)
    assert total * 0.5 == pytest.approx(100**2 - 40**2, rel=0.01)


def test_a_convex_box_shows_nine_edges_and_hides_three() -> None:
    """Of a block's twelve edges three meet in the hidden corner."""
    block = prism([(0, 0), (0.3, 0), (0.3, 0.3), (0, 0.3)])
    root = ET.fromstring(axonometric(block, VIEW))
    paths = [e for e in root.iter() if e.tag.endswith("path")]
    hidden = next(e for e in paths if e.get("stroke-dasharray") == "1 3")
    seen = next(e for e in paths if e.get("stroke-width") == "1.7")
    assert (hidden.attrib["d"].count("M"), seen.attrib["d"].count("M")) == (3, 9)


@settings(deadline=None, max_examples=25)
@given(
    st.floats(0.1, 1.2),
    st.floats(0.1, 1.2),
    st.floats(0.1, 1.5),
    st.floats(-0.3, 0.3),
    st.sampled_from(["screen", "paper"]),
)
def test_any_wedge_is_drawn_inside_its_paper(
    depth: float, height: float, width: float, lean: float, size: str
) -> None:
    """All three views are well formed and keep every stroke and ring on the paper."""
    top = max(depth + lean, 0.08)
    body = prism([(0, 0), (depth, 0), (top, height), (0, height)], width=width, thickness=0.012)
    box, view = Box(body=body), replace(VIEW, size=size)
    for drawing in (side_view(box, view), face_view(box, "rear", view), axonometric(body, view)):
        root = ET.fromstring(drawing)
        wide, tall = float(root.attrib["width"]), float(root.attrib["height"])
        met = 0
        for e in root.iter():
            if e.tag.endswith("path") and "transform" not in e.attrib and e.get("d"):
                numbers = [float(v) for v in re.findall(r"-?[\d.]+", e.attrib["d"])]
                met += len(numbers)
                assert all(-1 <= x <= wide + 1 for x in numbers[::2])
                assert all(-1 <= y <= tall + 1 for y in numbers[1::2])
        assert met >= 8


def test_scale_bars_are_round() -> None:
    """1, 2 or 5 times a power of ten, never more than there is room for."""
    assert [round_down(v) for v in (0.19, 0.2, 0.499, 7, 1.0)] == [0.1, 0.2, 0.2, 5, 1.0]
    with pytest.raises(DrawingError):
        round_down(0)
