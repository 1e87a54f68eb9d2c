"""The box page: which groups are open, what the drawing is told, what a refused figure leaves."""

from __future__ import annotations

import json
import math

import pytest
from django.urls import reverse

from jobs.design.box.boxes import BoxResult
from jobs.design.job.whole import load, work_out
from jobs.models import Box, TrimPanel
from jobs.pages.box.bench import bench
from jobs.pages.box.box_form import BoxForm
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db
BANANAS = "12 bananas"


def opened(form: BoxForm) -> set[str]:
    """The groups a page opens by itself."""
    return {fold.slug for fold, _groups, is_open, *_rest in form.folds if is_open}


def test_open_is_what_its_kind_still_needs(hatchback):
    """A finished box opens nothing; another what it lacks first, and names what else it lacks."""
    box = Box.objects.get(pk=hatchback.box.pk)
    assert opened(BoxForm(instance=box)) == set()
    new = BoxForm(instance=Box(job=box.job))
    assert opened(new) == {"what"}
    assert {fold.slug for fold, _g, _o, lacks, _for in new.folds if lacks} == {
        "what",
        "carcass",
        "wood",
    }
    box.kind = Box.Kind.VENTED
    box.port_diameter = box.port_length = box.wanted_tuning = None
    assert opened(BoxForm(instance=box)) == {"air"}
    box.port_diameter, box.wanted_tuning = 0.07, 35.0
    assert opened(BoxForm(instance=box)) == set()
    slot = {"port_shape": "slot", "port_height": 0.04, "port_width": None}
    for name, value in slot.items():
        setattr(box, name, value)
    assert opened(BoxForm(instance=box)) == {"air"}
    box.port_lies = Box.Lies.BOTTOM  # from wall to wall where it has no width
    assert opened(BoxForm(instance=box)) == set()
    box.kind, box.front_volume = Box.Kind.BAND_PASS_6, 0.02
    assert opened(BoxForm(instance=box)) == {"air"}
    box.rear_port_diameter, box.rear_wanted_tuning = 0.08, 30.0
    assert opened(BoxForm(instance=box)) == set()
    box.shape, box.cut_depth = Box.Shape.STEP, None
    assert opened(BoxForm(instance=box)) == {"carcass"}


def test_every_field_stands_beside_the_drawing_or_in_one_group(hatchback):
    """None of the fields is lost between the groups, and none stands twice."""
    form = BoxForm(instance=hatchback.box)
    shown = [field.name for field in form.sizes]
    shown += [
        field.name
        for _f, groups, *_rest in form.folds
        for _t, of_it, _k in groups
        for field in of_it
    ]
    assert sorted(shown) == sorted(field.name for field in form.visible_fields())
    assert len(shown) > 70


@pytest.mark.parametrize(("name", "text", "fold"), [("width", BANANAS, ""), ("ql", BANANAS, "air")])
def test_results_beside_a_refused_figure_are_the_last_good_ones(
    hatchback, browse, name, text, fold
):
    """While a figure cannot be read it is said that its last good one was used; saved, it opens."""
    box, client = hatchback.box, browse("designer")
    sent = {k: v for k, v in typed(BoxForm(instance=box)).items() if v is not None}
    live = client.post(reverse("box-preview", args=[hatchback.code]), sent | {"row": box.pk})
    assert "last-good" not in live.content.decode()
    wrong = sent | {"row": box.pk, name: text}
    live = client.post(reverse("box-preview", args=[hatchback.code]), wrong)
    assert "the last good one was used" in live.content.decode()
    assert "31.94" in live.content.decode()
    answer = client.post(reverse("box-edit", args=[hatchback.code, box.pk]), wrong)
    assert answer.status_code == 422
    assert opened(answer.context["form"]) == {fold} - {""}


def test_the_drawing_knows_where_everything_sits(hatchback):
    """The face with the driver, its middle as worked out, and what an empty figure stands for."""
    result = work_out(load(hatchback.job)).saved_box(hatchback.box.pk)
    known = json.loads(bench(result))
    front = next(face for face in known["faces"] if face["key"] == "front")
    driver = next(item for item in front["items"] if item["u"] == "driver_u")
    assert (driver["x"], driver["y"]) == pytest.approx((front["width"] / 2, front["height"] / 2))
    assert driver["w"] == pytest.approx(hatchback.box.driver.part.driver.outer_diameter)
    assert known["place"] == pytest.approx(list(result.place[:2]))
    assert known["taken"]["driver_u"].endswith(" mm")


RECTANGLE = {
    "shape": Box.Shape.RECTANGLE, "width": 0.7, "height": 0.38, "depth": 0.42, "top_depth": None,
    "port_face": "", "wanted_tuning": None, "port_length": 0.1,
}  # fmt: skip
SIXTH = {
    "kind": Box.Kind.BAND_PASS_6, "divider": "upright", "front_volume": 0.018, "port_u": 0.12,
    "rear_port_diameter": 0.08, "rear_port_length": 0.1,
}  # fmt: skip


@pytest.mark.parametrize(
    ("fields", "movable"),
    [
        ({}, {"driver": "driver_u", "port": "port_u"}),
        # Of two chambers the place of the front port alone can be entered.
        (SIXTH, {"driver": "driver_u", "port": "port_u", "rear port": None}),
        # Where a slot along a wall is the walls say, not its figures.
        (
            {"port_shape": "slot", "port_lies": "bottom", "port_height": 0.03},
            {"driver": "driver_u", "port": None},
        ),
        (
            {"second_port_diameter": 0.05, "second_port_length": 0.12},
            {"driver": "driver_u", "port": "port_u", "second port": "second_port_u"},
        ),
        # Two drivers stand in a row; a pair in one hole is moved as one.
        ({"driver_count": 2, "width": 0.9}, {"driver": None, "port": "port_u"}),
        ({"driver_count": 2, "isobaric": True}, {"driver": "driver_u", "port": "port_u"}),
    ],
    ids=["vented", "sixth order", "slot along a wall", "second", "two drivers", "isobaric"],
)
def test_what_the_drawing_moves_is_what_its_figures_place(saloon, fields, movable):
    """Each part has the figures that place it and no other's, or none where none is read."""
    records = load(saloon.job)
    for name, value in (RECTANGLE | fields).items():
        setattr(records.boxes[0], name, value)
    known = json.loads(bench(work_out(records).boxes[0]))
    assert {item["name"]: item["u"] for face in known["faces"] for item in face["items"]} == movable


@pytest.mark.parametrize(
    ("kind", "ql", "qp"),
    [
        # Taken as usual: acoustics' own figures; a door is worked out with no guess at its leakage.
        (Box.Kind.SEALED, "20", "no loss"),
        (Box.Kind.VENTED, "7", "no loss"),
        (Box.Kind.DOOR, "", "10"),
    ],
)
def test_an_empty_loss_shows_what_is_taken_for_it(hatchback, kind, ql, qp):
    """The page and the drawing say the same: a figure where one is taken, else nothing."""
    box = load(hatchback.job).boxes[0]
    box.kind, box.ql, box.qa, box.qp = kind, None, None, None
    fields = BoxForm(instance=box).fields
    taken = json.loads(bench(BoxResult(box=box, checked=())))["taken"]
    for name, usual in {"ql": ql, "qa": "no loss", "qp": qp}.items():
        assert fields[name].widget.attrs["placeholder"] == usual
        assert taken[name] == usual


def test_a_trim_panel_may_have_corners_and_arcs(hatchback):
    """An own outline is cut as drawn: a half circle on a rectangle adds its own area."""
    panel = TrimPanel.objects.get(pk=hatchback.cover.pk)
    panel.box, panel.openings = None, None
    panel.outline = [[0.1, 0.1], [0.5, 0.1, 0.1], [0.5, 0.3], [0.1, 0.3]]
    panel.save()
    trim = next(t for t in work_out(load(hatchback.job)).trims if t.record == panel)
    assert trim.piece is not None
    assert trim.piece.outline.area == pytest.approx(0.08 + math.pi * 0.1**2 / 2, rel=1e-3)
    assert trim.piece.size == pytest.approx((0.5, 0.2), abs=1e-4)


def test_an_arc_of_the_cavity_leaves_less_room(hatchback):
    """A wheel arch drawn as an arc that bows inwards takes a box out of the cavity it went into."""
    box = Box.objects.get(pk=hatchback.box.pk)

    def codes() -> set[str]:
        return {finding.code for finding in work_out(load(box.job)).saved_box(box.pk).findings}

    box.cavity_profile = [[-0.02, -0.01], [0.6, -0.01], [0.6, 0.385], [-0.02, 0.385]]
    box.save()
    before = codes()
    box.cavity_profile = [[-0.02, -0.01, -0.19], [0.6, -0.01], [0.6, 0.385], [-0.02, 0.385]]
    box.save()
    assert codes() - before
