"""A run edited on its page."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.models import Run
from tests.jobs.pages.forms_at import form_at
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def test_a_run_of_another_kind_gets_a_number_of_that_kind(hatchback, browse):
    """Whichever kind a run becomes, its label is one no other run has or had."""
    client = browse("designer")
    run = hatchback.job.runs.get(kind="P", number=1)
    hatchback.job.runs.get(kind="S", number=1)
    url = reverse("run-edit", args=[hatchback.code, run.pk])
    labels = {one.label for one in Run.with_removed.filter(job=hatchback.job)}
    sent = typed(form_at(url)) | {"kind": "S"}
    live = reverse("run-preview", args=[hatchback.code])
    assert client.post(live, sent | {"row": run.pk}).status_code == 200
    assert client.post(url, sent).status_code == 302
    run.refresh_from_db()
    assert run.kind == "S"
    assert run.label not in labels


def test_a_run_that_stays_of_its_kind_keeps_its_number(hatchback, browse):
    """Whatever else is changed, the label on the cable holds."""
    client = browse("designer")
    run = hatchback.job.runs.get(kind="P", number=1)
    url = reverse("run-edit", args=[hatchback.code, run.pk])
    sent = typed(form_at(url)) | {"length": "2 m"}
    assert client.post(url, sent).status_code == 302
    run.refresh_from_db()
    assert (run.label, run.length) == ("P01", 2.0)


@pytest.mark.parametrize("name", ["fuse_distance", "end_fuse_distance"])
def test_a_fuse_does_not_sit_before_its_source(hatchback, browse, name):
    """Zero is at the source; less is refused, and what was typed is kept."""
    client = browse("designer")
    run = hatchback.main_run
    url = reverse("run-edit", args=[hatchback.code, run.pk])
    sent = typed(form_at(url))
    answer = client.post(url, sent | {name: "-150 mm"})
    assert answer.status_code == 422
    assert "at least" in str(answer.context["form"].errors[name])
    assert "-150 mm" in answer.text
    assert client.post(url, sent | {name: "0 mm"}).status_code == 302


@pytest.mark.parametrize("name", ["fuse_distance", "end_fuse_distance"])
def test_a_fuse_sits_along_its_run(hatchback, browse, name):
    """At the very end it may sit; beyond, the length of the run is said."""
    client = browse("designer")
    url = reverse("run-edit", args=[hatchback.code, hatchback.main_run.pk])
    sent = typed(form_at(url)) | {"length": "3 m", name: "3001 mm"}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert str(answer.context["form"].errors[name][0]) == "The run is only 3.00\u00a0m long."
    assert client.post(url, sent | {name: "3 m"}).status_code == 302
