"""The page of a part: contradictions at the figure that is wrong, and the jobs it is in."""

from __future__ import annotations

import pytest
from django.urls import reverse

from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db

# One driver: Bl² = 2 pi fs Mms Re / Qes, Vas = 1.184 · 346.1² · Sd² / ((2 pi fs)² Mms).
AGREE = {"fs": "28 Hz", "qts": "0.522", "qes": "0.58", "qms": "5.2", "re": "3.4 Ω"}
MOTOR = {"mms": "149.7 g", "bl": "12.42 T·m", "vas": "75 L", "sd": "495 cm²"}


def _told(client, **figures):
    answer = client.post(reverse("part-check", args=["driver"]), {"coils": "1", **figures})
    assert answer.status_code == 200
    form = answer.context["form"]
    told = {name: str(field.said) for name, field in form.fields.items() if hasattr(field, "said")}
    assert all(text in answer.content.decode() for text in told.values())
    return told


def test_figures_that_agree_are_left_alone(shelf, browse):
    """A sheet that is read right is told nothing."""
    assert _told(browse("consultant"), **AGREE, **MOTOR) == {}


def test_a_contradiction_is_told_at_the_figure_that_is_wrong(shelf, browse):
    """A Qes ten times too high is told at Qes, with what the others lead to."""
    told = _told(browse("consultant"), **AGREE | MOTOR | {"qes": "5.8"})
    assert list(told) == ["qes"]
    assert "0.58" in told["qes"]


def test_of_three_figures_each_that_may_be_wrong_is_told(shelf, browse):
    """Qts, Qes and Qms alone cannot tell which of them is misread; each names the others."""
    told = _told(browse("consultant"), qts="0.3", qes="0.58", qms="5.2")
    assert set(told) == {"qts", "qes", "qms"}
    assert "Qes" in told["qts"]


def test_two_coils_count_as_they_are_entered(shelf, browse):
    """Re of one coil, the rest with both driven: the same driver with two coils agrees too."""
    figures = AGREE | MOTOR | {"coils": "2", "re": "1.7 Ω"}
    assert _told(browse("consultant"), **figures) == {}
    told = _told(browse("consultant"), **figures | {"re": "17 Ω"})
    assert list(told) == ["re"]
    assert "1.7" in told["re"]


def test_a_saved_contradiction_stands_on_its_page(shelf, browse):
    """A sheet that contradicts itself may be saved; the page says so whenever it is opened."""
    client, url = browse("consultant"), reverse("part-edit", args=[shelf["woofer"].pk])
    sent = typed(client.get(url).context["form"]) | AGREE | MOTOR | {"qes": "5.8", "coils": "1"}
    for name in ("cms", "rms"):
        sent[name] = ""
    assert client.post(url, sent).status_code == 302
    assert "0.58" in client.get(url).context["form"].fields["qes"].said


def test_a_page_lists_the_jobs_a_part_is_in(hatchback, browse):
    """Whoever changes a figure sees whose work it changes."""
    page = browse("consultant").get(reverse("part-edit", args=[hatchback.sub.part_id]))
    assert [job.code for job in page.context["jobs"]] == [hatchback.code]
    cable = hatchback.main_run.conductor
    page = browse("consultant").get(reverse("part-edit", args=[cable.pk]))
    assert [job.code for job in page.context["jobs"]] == [hatchback.code]


def test_the_five_questions(shelf, browse):
    """Works for who decides; 404 for a stranger, 403 for the bench, 405 to read, 404 unknown."""
    url = reverse("part-check", args=["driver"])
    assert browse("consultant").post(url, {"fs": "12 bananas"}).status_code == 200
    assert browse("stranger").post(url).status_code == 404
    assert browse("installer").post(url).status_code == 403
    assert browse("consultant").get(url).status_code == 405
    assert browse("consultant").post(reverse("part-check", args=["nothing"])).status_code == 404
