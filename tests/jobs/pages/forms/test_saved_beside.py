"""An instrument says what was last saved beside what is being typed."""

from __future__ import annotations

import pytest
from django.urls import reverse

from tests.jobs.pages.kinds import typed


def _preview(hatchback, browse, slug, row, **changed):
    """Return the answer to a row's form with some of its fields typed anew."""
    client = browse("designer")
    form = client.get(reverse(f"{slug}-edit", args=[hatchback.code, row.pk])).context["form"]
    sent = typed(form) | {"row": row.pk} | changed
    return client.post(reverse(f"{slug}-preview", args=[hatchback.code]), sent)


def _shown(answer):
    return {label: (value, was) for label, value, was in answer.context["results"]}


ROWS = [
    ("box", "box", {"width": "700 mm"}),
    ("run", "main_run", {"length": "6 m"}),
    ("node", "battery", {"voltage": "12.1 V"}),
]


@pytest.mark.parametrize(("slug", "name", "changed"), ROWS)
def test_the_saved_value_stands_beside_the_typed_one(hatchback, browse, slug, name, changed):
    """A changed figure is shown with the one the saved page shows; an unchanged row with none."""
    row = getattr(hatchback, name)
    page = browse("designer").get(reverse(f"{slug}-edit", args=[hatchback.code, row.pk]))
    untouched = _preview(hatchback, browse, slug, row)
    assert not any(was for _value, was in _shown(untouched).values())
    assert 'class="was"' not in untouched.content.decode()
    answer = _preview(hatchback, browse, slug, row, **changed)
    saved = {label: value for label, value, _was in page.context["results"]}
    assert {label: was for label, (_value, was) in _shown(answer).items()} == saved
    assert any(value != was for value, was in _shown(answer).values())
    assert 'class="was">saved' in answer.content.decode()


def test_what_cannot_be_read_is_no_change(hatchback, browse):
    """A text that is no length leaves the saved figures alone."""
    run = hatchback.main_run
    answer = _preview(hatchback, browse, "run", run, length="as long as it takes")
    assert not any(was for _value, was in _shown(answer).values())


def test_every_run_shows_what_it_was(hatchback, browse):
    """A longer main cable changes the runs behind it, and each says its saved voltage."""
    main = hatchback.main_run
    answer = _preview(hatchback, browse, "run", main, length="6 m")
    rows = answer.context["run_rows"]
    assert len(rows) > 1
    for row, saved in rows:
        assert saved.run.pk == row.run.pk
        assert row.end_voltage < saved.end_voltage


def test_a_point_of_the_tree_may_be_renamed(hatchback, browse):
    """While a name is typed its runs stay joined to it, and the figures stay what they were."""
    battery = hatchback.battery
    answer = _preview(hatchback, browse, "node", battery, name="another name")
    assert "tree-cannot-be" not in answer.content.decode()
    assert all(value == was for value, was in _shown(answer).values())
