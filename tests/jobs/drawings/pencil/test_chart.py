"""Charts: rules, curves inside their frame, names that keep apart."""

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
from django.utils import translation
from hypothesis import given, settings
from hypothesis import strategies as st

from jobs.drawings.pencil import svg
from jobs.drawings.pencil.axis import Axis, axis_over
from jobs.drawings.pencil.chart import SIZES, Band, Chart, Limit, Marker, Series, chart, data_table
from jobs.drawings.pencil.svg import DrawingError

FREQUENCY = Axis(label="Frequency", unit="Hz", low=10, high=500, log=True)
LEVEL = Axis(label="Level", unit="dB", low=60, high=100)
XS = [10 * 50 ** (i / 60) for i in range(61)]


def spec(**changes: object) -> Chart:
    plain = Chart(
        key="c",
        title="Level",
        description="Level over frequency",
        x=FREQUENCY,
        y=LEVEL,
        series=[Series(name="one", x=XS, y=[60 + 30 * i / 60 for i in range(61)])],
    )
    return replace(plain, **changes)  # type: ignore[arg-type]


def frame_of(root: ET.Element) -> list[float]:
    return [float(v) for v in root.attrib["data-frame"].split()]


def curve_points(root: ET.Element, name: str) -> list[tuple[float, float]]:
    lines = [e for e in root.iter() if e.get("data-series") == name]
    pairs = [p.split(",") for e in lines for p in e.attrib["points"].split()]
    return [(float(x), float(y)) for x, y in pairs]


@pytest.mark.parametrize(("language", "written"), [("en", "\u221212.5"), ("de", "\u221212,5")])
def test_a_rule_is_numbered_with_the_readers_decimal_mark(language: str, written: str) -> None:
    """A comma where the reader writes one, and a minus sign that is no hyphen."""
    with translation.override(language):
        assert LEVEL.number_text(-12.5) == written


def test_log_rule_is_numbered_one_two_five() -> None:
    """Two decades of frequency carry the numbers a person expects, and short ticks between."""
    named, fine = FREQUENCY.ticks()
    assert named == [10, 20, 50, 100, 200, 500]
    assert fine == [30, 40, 60, 70, 80, 90, 300, 400]


@settings(deadline=None, max_examples=100)
@given(st.floats(-1e4, 1e4), st.floats(1e-3, 1e4))
def test_even_rules_have_round_steps(low: float, span: float) -> None:
    """Steps are 1, 2 or 5 times a power of ten, and no tick lies beyond the ends."""
    axis = Axis(label="a", unit="b", low=low, high=low + span)
    named, fine = axis.ticks(8)
    assert 2 <= len(named) <= 9
    step = named[1] - named[0]
    lead = step / 10 ** math.floor(math.log10(step) + 1e-6)
    assert min(abs(lead - m) for m in (1, 2, 5)) < 1e-3
    assert all(axis.low - 1e-6 <= v <= axis.high + 1e-6 for v in named + fine)


@settings(deadline=None, max_examples=100)
@given(st.lists(st.floats(-1e5, 1e5), min_size=1, max_size=20))
def test_an_axis_over_values_holds_them(values: list[float]) -> None:
    """Nothing worth drawing falls outside an axis laid over it."""
    axis = axis_over(values, label="a", unit="b")
    assert axis.low <= min(values)
    assert max(values) <= axis.high


@pytest.mark.parametrize(
    "bad", [(0, 10, True), (-1, 10, True), (5, 5, False), (1, math.nan, False)]
)
def test_impossible_axes_are_refused(bad: tuple[float, float, bool]) -> None:
    """An axis needs two different finite ends, above zero when logarithmic."""
    with pytest.raises(DrawingError):
        Axis(label="a", unit="Hz", low=bad[0], high=bad[1], log=bad[2])


@settings(deadline=None, max_examples=60)
@given(st.lists(st.floats(-1e6, 1e6), min_size=2, max_size=40))
def test_curves_stay_inside_the_frame(ys: list[float]) -> None:
    """However wild the values, no stroke leaves the frame (to the tenth that is written)."""
    ys = [60.0, 70.0, *ys]  # a stroke that is surely drawn, before what may lie outside
    xs = [12 * 1.3**i for i in range(len(ys))]
    root = ET.fromstring(chart(spec(series=[Series(name="one", x=xs, y=ys)])))
    left, top, right, bottom = frame_of(root)
    points = curve_points(root, "one")
    assert len(points) >= 2
    for x, y in points:
        assert left - 0.06 <= x <= right + 0.06
        assert top - 0.06 <= y <= bottom + 0.06


def test_points_can_be_turned_back_into_values() -> None:
    """A read-out needs the frame and the axes only: values come back within a tenth of a unit."""
    root = ET.fromstring(chart(spec()))
    left, top, right, bottom = frame_of(root)
    kind, low, high, unit = root.attrib["data-x"].split()
    assert (kind, unit) == ("log", "Hz")
    _, y_low, y_high, _ = root.attrib["data-y"].split()
    drawn = np.array(curve_points(root, "one"))
    for want_x, want_y in zip(XS, spec().series[0].y, strict=True):
        x = left + math.log(want_x / float(low)) / math.log(float(high) / float(low)) * (
            right - left
        )
        # Points nobody would miss are left out; between two the curve is straight.
        y = np.interp(x, drawn[:, 0], drawn[:, 1])
        level = float(y_low) + (bottom - y) / (bottom - top) * (float(y_high) - float(y_low))
        assert level == pytest.approx(want_y, abs=0.03)


@settings(deadline=None, max_examples=40)
@given(st.lists(st.floats(60, 100), min_size=1, max_size=6), st.sampled_from(["screen", "paper"]))
def test_names_at_the_ends_never_overlap(ends: list[float], size: str) -> None:
    """Curves may meet at their ends; their names keep a line apart and stay on the drawing."""
    series = [
        Series(name=f"box {i} with a long name", x=XS, y=[end] * len(XS))
        for i, end in enumerate(ends)
    ]
    root = ET.fromstring(chart(spec(series=series, size=size)))
    font = SIZES[size].font
    right = frame_of(root)[2]
    words = [e for e in root.iter() if e.tag.endswith("text") and float(e.attrib["x"]) > right + 20]
    ys = sorted(float(e.attrib["y"]) for e in words)
    assert len(ys) >= len(ends)
    assert all(b - a >= font * 0.8 for a, b in pairwise(ys))
    assert ys[-1] <= SIZES[size].height
    for e in words:
        assert float(e.attrib["x"]) + svg.text_width(e.text, font) <= SIZES[size].width


@settings(deadline=None, max_examples=40)
@given(st.lists(st.floats(10, 500), min_size=2, max_size=6))
def test_marker_words_never_overlap(xs: list[float]) -> None:
    """Marks that lie close get their words on different rows."""
    markers = [Marker(x=x, words=f"mark {i} at {x:.0f} Hz") for i, x in enumerate(xs)]
    root = ET.fromstring(chart(spec(markers=markers)))
    font = SIZES["screen"].font
    boxes = []
    for e in root.iter():
        if e.text and e.text.startswith("mark "):
            half = svg.text_width(e.text, font) / 2
            middle, y = float(e.attrib["x"]), float(e.attrib["y"])
            boxes.append((middle - half, middle + half, y))
    assert len(boxes) == len(xs)
    for i, a in enumerate(boxes):
        for b in boxes[:i]:
            assert a[1] <= b[0] or b[1] <= a[0] or abs(a[2] - b[2]) >= font


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_a_curve_with_a_hole_is_refused_by_name(bad: float) -> None:
    """Not a number on a curve is an error that names the curve, never a gap."""
    with pytest.raises(DrawingError, match="broken"):
        chart(spec(series=[Series(name="broken", x=[10, 100], y=[70, bad])]))


def test_curves_of_uneven_columns_and_logs_of_nothing_are_refused() -> None:
    """As many x as y, and no zero on a logarithmic rule."""
    with pytest.raises(DrawingError, match="as many"):
        chart(spec(series=[Series(name="s", x=[10, 100], y=[70])]))
    with pytest.raises(DrawingError, match="logarithmic"):
        chart(spec(series=[Series(name="s", x=[0, 100], y=[70, 80])]))


def test_each_curve_has_its_own_pattern_and_a_ghost_is_pale() -> None:
    """Curves are told apart without colour."""
    ys = [80.0] * len(XS)
    series = [Series(name=f"s{i}", x=XS, y=ys) for i in range(6)]
    series.append(Series(name="last saved", x=XS, y=ys, ghost=True))
    root = ET.fromstring(chart(spec(series=series)))
    parents = {e.get("data-series"): g for g in root.iter() for e in g if e.get("data-series")}
    patterns = [parents[f"s{i}"].get("stroke-dasharray") for i in range(6)]
    assert len(set(patterns)) == 6
    assert float(parents["last saved"].attrib["stroke-opacity"]) < 1


def test_a_limit_beyond_the_rule_is_named_at_the_edge() -> None:
    """A limit never vanishes because the axis is too short for it."""
    drawing = chart(spec(limits=[Limit(value=130, words="heat"), Limit(value=94, words="clip")]))
    assert "↑ heat" in drawing
    assert ">clip<" in drawing


def test_table_interpolates_on_the_drawn_line_and_ends_with_the_curve() -> None:
    """Halfway on a logarithmic rule is the geometric mean; beyond the ends is no value."""
    series = [Series(name="s", x=[10, 1000], y=[0, 10])]
    head, rows = data_table(spec(series=series), [100, 2000])
    assert head == ["Frequency, Hz", "s, dB"]
    assert rows[0] == [100, pytest.approx(5)]
    assert rows[1] == [2000, None]


def test_the_same_chart_gives_the_same_bytes_without_inline_style() -> None:
    """Deterministic, named for a screen reader, and nothing a content security policy blocks."""
    full = spec(
        bands=[Band(name="5–95 %", x=XS, low=[70] * 61, high=[75] * 61)],
        limits=[Limit(value=94, words="clip")],
        markers=[Marker(x=42, words="f3")],
    )
    drawing = chart(full)
    assert drawing == chart(full)
    assert not re.search(r"style=|<script|url\(", drawing)
    root = ET.fromstring(drawing)
    assert root.attrib["aria-labelledby"] == "c-title"
    assert root.findtext("{*}title") == "Level"


def test_a_bound_carries_its_strokes_on_the_far_side() -> None:
    """Every stroke of a bound begins on the curve and leads to the side not to be entered."""
    wave = [75 + 12 * math.sin(i / 8) for i in range(61)]
    drawing = str(chart(spec(series=[Series(name="most", x=XS, y=wave, bound=True)])))
    points = curve_points(ET.fromstring(drawing), "most")
    found = re.findall(r"M([\d.]+) ([\d.]+)l(-?[\d.]+) (-?[\d.]+)", drawing)
    strokes = [one for one in (tuple(map(float, four)) for four in found) if one[0] < points[-1][0]]
    assert len(strokes) > 20
    for x0, y0, along, up in strokes:
        (xa, ya), (xb, yb) = next(pair for pair in pairwise(points) if pair[1][0] >= x0)
        assert y0 == pytest.approx(ya + (yb - ya) * (x0 - xa) / (xb - xa), abs=0.2)
        # The page counts downwards: left of the way along the curve is its upper side.
        assert (xb - xa) * up - (yb - ya) * along < 0


def test_bounds_of_several_boxes_have_patterns_of_their_own() -> None:
    """Two bounds differ by pattern, and a bound does not use up the pattern of a plain curve."""
    y = [70.0] * 61
    series = [Series(name=f"most {n}", x=XS, y=y, bound=True) for n in range(2)]
    series.append(Series(name="plain", x=XS, y=y))
    drawing = str(chart(spec(series=series)))
    groups = [drawing.partition(f'data-series="{s.name}"')[0].rpartition("<g")[2] for s in series]
    dashed = ["stroke-dasharray" in group.partition(">")[0] for group in groups]
    assert dashed == [False, True, False]
