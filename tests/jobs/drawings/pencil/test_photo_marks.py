"""What is marked on a photo lies where the finger drew it, whatever the photo's shape."""

from __future__ import annotations

import re

import pytest

from jobs.drawings.pencil.photo_marks import photo_marks
from jobs.models import Photo


def _drawn(*marks: list[object], proportion: float | None = 0.5) -> str:
    photo = Photo(proportion=proportion)
    photo.marks = list(marks)
    return str(photo_marks(photo))


def test_a_photo_without_marks_has_nothing_over_it() -> None:
    """No mark, or a photo nobody knows the shape of: no drawing."""
    assert _drawn() == ""
    assert _drawn(["arrow", 0.1, 0.1, 0.9, 0.9], proportion=None) == ""


def test_an_arrow_ends_at_its_tip() -> None:
    """Its shaft goes from tail to tip, and both strokes of its head meet there."""
    svg = _drawn(["arrow", 0.1, 0.2, 0.6, 0.8])
    assert 'viewBox="0 0 1000 500"' in svg
    assert "M100 100L600 400" in svg
    assert svg.count("L600 400L") == 2  # once in the light stroke, once in the dark one


@pytest.mark.parametrize("proportion", [0.5, 1.0, 1.75])
def test_a_circle_is_round(proportion: float) -> None:
    """Its radius is one, across and up, on a wide photo as on a tall one (Pythagoras)."""
    svg = _drawn(["circle", 0.5, 0.5, 0.5 + 0.03, 0.5 + 0.04 / proportion], proportion=proportion)
    radii = set(re.findall(r"A([\d.]+) ([\d.]+)", svg))
    assert radii == {("50", "50")}
