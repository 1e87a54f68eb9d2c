"""The plan held against what was asked for: each limit breaks alone, and none that is kept."""

from __future__ import annotations

from dataclasses import replace

import pytest

from jobs.design.agreement.shown import Shown
from jobs.design.job.wishes import check_wishes

pytestmark = pytest.mark.django_db
LIMITS = {
    "room_at_most": "room-above-wish",
    "height_at_most": "height-above-wish",
    "heavier_at_most": "mass-above-wish",
    "current_at_most": "current-above-wish",
}


@pytest.fixture
def design(as_loaded, hatchback):
    """The hatchback, of which everything is known but a few grams."""
    return as_loaded.design(hatchback)


def _findings(design, **more):
    parts = {"boxes": design.boxes, "masses": design.masses, "supply": design.supply} | more
    return list(check_wishes(design.records, **parts))


@pytest.mark.parametrize(("field", "code"), LIMITS.items())
def test_a_limit_that_is_broken_is_said_with_both_figures(design, monkeypatch, field, code):
    """A hundredth below what the plan takes breaks it, a hundredth above keeps it."""
    monkeypatch.setattr(design.job, field, 1e-6)
    (finding,) = _findings(design)
    assert (finding.code, finding.limit) == (code, 1e-6)
    assert finding.section in {"boxes", "equipment", "power"}
    monkeypatch.setattr(design.job, field, finding.value * 0.99)
    assert [row.code for row in _findings(design)] == [code]
    monkeypatch.setattr(design.job, field, finding.value * 1.01)
    assert [row.code for row in _findings(design) if row.limit is not None] == []


def test_the_figures_are_those_of_the_box_as_drawn(design, monkeypatch):
    """The hatchback's box: 360 mm high; width times the area of its side (plane geometry)."""
    monkeypatch.setattr(design.job, "height_at_most", 1e-6)
    monkeypatch.setattr(design.job, "room_at_most", 1e-6)
    room, height = _findings(design)
    assert height.value == pytest.approx(0.36)
    assert room.value == pytest.approx(0.48 * 0.36 * (0.335 + 0.225) / 2)
    assert height.about.kind == "box"


def test_what_is_not_known_keeps_no_limit(design, monkeypatch):
    """A box nobody drew, a part nobody weighed, a car whose supply is not entered: said as such."""
    for field in LIMITS:
        monkeypatch.setattr(design.job, field, 1e6)
    codes = {row.code for row in _findings(
        design, boxes=[replace(row, wood=None) for row in design.boxes],
        supply=replace(design.supply, budget=None),
        masses=replace(design.masses, rows=[replace(row, mass=None) for row in design.masses.rows]),
    )}  # fmt: skip
    assert codes == {"room-unknown", "mass-against-wish-unknown", "current-against-wish-unknown"}


def test_a_panel_that_is_drilled_and_a_part_that_is_touched(design, monkeypatch):
    """Only where that was asked for; a part that stays in use is left alone."""
    panel, part = design.records.panels[0], design.records.factory_parts[0]
    monkeypatch.setattr(panel, "drilled", True)
    monkeypatch.setattr(part, "fate", "replaced")
    assert _findings(design) == []
    monkeypatch.setattr(design.job, "undrilled", True)
    monkeypatch.setattr(part, "untouched", True)
    findings = _findings(design)
    assert [(row.code, row.about.kind) for row in findings] == [
        ("drilled-against-wish", "panel"), ("touched-against-wish", "factorypart")]  # fmt: skip
    assert "replaced" in findings[1].says
    monkeypatch.setattr(part, "fate", "in_use")
    monkeypatch.setattr(panel, "drilled", False)
    assert _findings(design) == []


def test_answers_in_words_are_frozen_as_questions(design, monkeypatch):
    """To be ticked with the yes; an empty one is no question, and older papers have none."""
    monkeypatch.setattr(design.job, "space_to_keep", " Boot floor flat ")
    monkeypatch.setattr(design.job, "must_stay_factory", "")
    shown = Shown.of(design.price, design.job)
    assert shown.questions == (("space_to_keep", "Boot floor flat"),)
    assert Shown.read(shown.plain) == shown
    older = {name: value for name, value in shown.plain.items() if name != "questions"}
    assert Shown.read(older).questions == ()
