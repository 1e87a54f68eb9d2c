"""The SVG writer: escaping, numbers, text that fits."""

import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobs.drawings.pencil import svg

NASTY = '<script>alert("1")</script> & \' \x00\x08 \ufffe'


def test_words_are_escaped_and_stripped_of_what_xml_cannot_carry() -> None:
    """Whatever a person typed stands in the drawing as text and breaks nothing."""
    drawing = svg.document(
        svg.text(NASTY, (1, 2), size=10),
        key="x",
        title=NASTY,
        description=NASTY,
        width=10,
        height=10,
        data_name=NASTY,
    )
    root = ET.fromstring(drawing)
    assert root.find(".//{*}script") is None
    assert root.findtext("{*}text") == '<script>alert("1")</script> & \'  '
    assert root.get("data-name") == '<script>alert("1")</script> & \'  '


@settings(deadline=None, max_examples=60)
@given(st.text(max_size=60))
def test_any_text_gives_well_formed_xml(words: str) -> None:
    """No text a person can type makes a drawing unreadable."""
    ET.fromstring(svg.el("svg", svg.el("text", words), title=words))


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -float("inf")])
def test_what_is_not_finite_is_refused(value: float) -> None:
    """A drawing never holds nan."""
    with pytest.raises(svg.DrawingError, match="finite"):
        svg.number(value)
    with pytest.raises(svg.DrawingError, match="finite"):
        svg.points([(0.0, value)])


def test_numbers_are_short_and_zero_has_no_sign() -> None:
    """A coordinate is written to a hundredth at most."""
    assert [svg.number(v) for v in (1.0, 1.239, -0.001, 100)] == ["1", "1.24", "0", "100"]


@pytest.mark.parametrize("key", ["", "A", "1a", 'a"b', "a b"])
def test_a_key_that_is_no_safe_id_is_refused(key: str) -> None:
    """The key becomes part of ids, so it is plain."""
    with pytest.raises(svg.DrawingError, match="key"):
        svg.document(key=key, title="t", description="d", width=1, height=1)


def test_estimated_widths_cover_the_widest_face_asked_for() -> None:
    """The estimate is never narrower than a real face: measured with Pillow, a second method."""
    font_module = pytest.importorskip("PIL.ImageFont")
    path = Path("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf")
    if not path.exists():
        pytest.skip("the DejaVu Sans face is not installed")
    face = font_module.truetype(str(path), 1000)
    for words in (
        "Distribution block",
        "25 mm², 4.2 m",
        "S10 · 4 Ω",
        "Bassreflexgehäuse 34 L",
        "Five-channel amplifier",
        "WWW mmm @ 100 %",
        "Ø 234, illicit fjord",
    ):
        real = face.getlength(words) / 1000
        assert real <= svg.text_width(words, 1) <= 1.35 * real


@settings(deadline=None, max_examples=80)
@given(st.text("abc WMil-é", max_size=40), st.floats(20, 300), st.integers(1, 3))
def test_wrapped_lines_fit(words: str, width: float, lines: int) -> None:
    """No line is wider than its room, and there are no more of them than asked for."""
    rows = svg.wrap(words, width, 10, lines)
    assert 1 <= len(rows) <= lines
    assert all(svg.text_width(row, 10) <= width for row in rows)


@settings(deadline=None, max_examples=100)
@given(st.lists(st.tuples(st.floats(-50, 350), st.floats(1, 40)), max_size=12))
def test_spread_blocks_never_overlap_or_leave_their_bounds(
    blocks: list[tuple[float, float]],
) -> None:
    """Labels keep apart and inside; when there is too little room all shrink alike."""
    wanted, sizes = [b[0] for b in blocks], [b[1] for b in blocks]
    placed = svg.spread(wanted, sizes, 0, 300)
    shrink = min(1.0, 300 / sum(sizes)) if sizes else 1.0
    spans = sorted(
        (p - s * shrink / 2, p + s * shrink / 2) for p, s in zip(placed, sizes, strict=True)
    )
    assert all(a >= -1e-6 and b <= 300 + 1e-6 for a, b in spans)
    assert all(spans[i][1] <= spans[i + 1][0] + 1e-6 for i in range(len(spans) - 1))


def test_blocks_with_room_stay_where_they_were_wanted() -> None:
    """Nothing moves without need."""
    assert svg.spread([10, 200, 100], [20, 20, 20], 0, 300) == [10, 200, 100]
