"""An instrument says what was last saved beside what is being typed."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.models import Box, PowerNode, Run
from tests.jobs.pages.kinds import typed

CODE = "J-0001"


def _preview(browse, slug, row, **changed):
    """Return the answer to a row's form with some of its fields typed anew."""
    client = browse("designer")
    form = client.get(reverse(f"{slug}-edit", args=[CODE, row.pk])).context["form"]
    sent = typed(form) | {"row": row.pk} | changed
    return client.post(reverse(f"{slug}-preview", args=[CODE]), sent)


def _shown(answer):
    return {label: (value, was) for label, value, was in answer.context["results"]}


ROWS = [
    ("box", Box, {}, {"width": "700 mm"}),
    ("run", Run, {"kind": Run.Kind.POWER}, {"length": "6 m"}),
    ("node", PowerNode, {"kind": PowerNode.Kind.BATTERY}, {"voltage": "12.1 V"}),
]


@pytest.mark.parametrize(("slug", "model", "which", "changed"), ROWS)
def test_the_saved_value_stands_beside_the_typed_one(demo, browse, slug, model, which, changed):
    """A changed figure is shown with the one the saved page shows; an unchanged row with none."""
    row = model.objects.filter(job=demo[CODE], **which).first()
    page = browse("designer").get(reverse(f"{slug}-edit", args=[CODE, row.pk]))
    untouched = _preview(browse, slug, row)
    assert not any(was for _value, was in _shown(untouched).values())
    assert 'class="was"' not in untouched.content.decode()
    answer = _preview(browse, slug, row, **changed)
    saved = {label: value for label, value, _was in page.context["results"]}
    assert {label: was for label, (_value, was) in _shown(answer).items()} == saved
    assert any(value != was for value, was in _shown(answer).values())
    assert 'class="was">saved' in answer.content.decode()


def test_what_cannot_be_read_is_no_change(demo, browse):
    """A text that is no length leaves the saved figures alone."""
    run = Run.objects.filter(job=demo[CODE], kind=Run.Kind.POWER).first()
    answer = _preview(browse, "run", run, length="as long as it takes")
    assert not any(was for _value, was in _shown(answer).values())


def test_every_run_shows_what_it_was(demo, browse):
    """A longer main cable changes the runs behind it, and each says its saved voltage."""
    main = Run.objects.get(job=demo[CODE], kind=Run.Kind.POWER, number=1)
    answer = _preview(browse, "run", main, length="6 m")
    rows = answer.context["run_rows"]
    assert len(rows) > 1
    for row, saved in rows:
        assert saved.run.pk == row.run.pk
        assert row.end_voltage < saved.end_voltage


def test_a_point_of_the_tree_may_be_renamed(demo, browse):
    """While a name is typed its runs stay joined to it, and the figures stay what they were."""
    battery = PowerNode.objects.filter(job=demo[CODE], kind=PowerNode.Kind.BATTERY).first()
    answer = _preview(browse, "node", battery, name="another name")
    assert "tree-cannot-be" not in answer.content.decode()
    assert all(value == was for value, was in _shown(answer).values())
