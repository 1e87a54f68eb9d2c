"""A run on the wrong side of the car is told by sides, at whichever end it is."""

from __future__ import annotations

import pytest

from wiring.runs.sides import Way, check_side


def _codes(start: str, end: str, *passed: str) -> list[tuple[str, tuple[str, ...], object]]:
    way = Way(
        id="run 1", start=start, end=end,
        passed=tuple((f"panel {n}", side) for n, side in enumerate(passed)),
    )  # fmt: skip
    return [(finding.code, finding.detail, finding.value) for finding in check_side(way)]


@pytest.mark.parametrize(
    ("start", "end", "passed"),
    [
        ("left", "right", ("left", "middle", "right")),
        ("left", "left", ("left", "middle", "left")),
        ("middle", "right", ("left", "right")),
        # What nobody noted is held against nothing, and a run may cross where no side is known.
        ("", "", ("left", "right")),
        ("left", "right", ("", "right")),
        ("left", "right", ("left", "")),
        ("left", "right", ()),
    ],
)
def test_a_run_on_its_own_side_says_nothing(start, end, passed):
    """Ends that agree with what the route passes next to them, or of which nothing is known."""
    assert _codes(start, end, *passed) == []


def test_each_end_on_the_other_side_is_named():
    """The end is told from the start, with the panel beside it."""
    assert _codes("left", "right", "left", "left") == [("run-wrong-side", ("end",), "panel 1")]
    assert _codes("right", "left", "left", "left") == [("run-wrong-side", ("start",), "panel 0")]
    assert [code for code, *_rest in _codes("left", "left", "right")] == ["run-wrong-side"] * 2


def test_a_run_that_crosses_and_comes_back_is_named():
    """Both ends on one side, and a panel of the other in between."""
    assert _codes("left", "left", "left", "right", "left") == [("run-crosses-car", (), "panel 1")]
    assert _codes("middle", "middle", "left", "right") == []
