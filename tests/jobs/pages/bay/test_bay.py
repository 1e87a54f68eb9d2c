"""The bay: nobody's tick and nobody's value goes without a word."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.models import Measurement, PanelStep
from tests.jobs.pages.history.test_history import read

pytestmark = pytest.mark.django_db


def _write(client, job, row: Measurement, text: str, version: int | None = None):
    sent = {f"m{row.pk}-value": text}
    if version is not None:
        sent[f"m{row.pk}-version"] = str(version)
    return client.post(reverse("measure", args=[job.code, row.pk]), sent)


def test_an_empty_field_takes_no_value_away(hatchback, browse):
    """The value and its name stay; an empty field before there is any changes nothing."""
    row = hatchback.key_off
    assert _write(browse("designer"), hatchback.job, row, "", row.version).status_code == 302
    row.refresh_from_db()
    assert (row.value, row.measured_by) == (None, None)
    _write(browse("installer"), hatchback.job, row, "32 mA", row.version)
    answer = _write(browse("designer"), hatchback.job, row, "", row.version + 1)
    assert answer.status_code == 422
    assert "takes none away" in answer.content.decode()
    row.refresh_from_db()
    assert (row.value, row.measured_by.username) == (0.032, "ina")


def test_the_second_value_is_told_of_the_first(hatchback, browse):
    """Both are shown; sent again the second stands, and the first one is still to be read."""
    row = hatchback.key_off
    _write(browse("installer"), hatchback.job, row, "32 mA", row.version)
    answer = _write(browse("designer"), hatchback.job, row, "41 mA", row.version)
    html = answer.content.decode().replace("\xa0", " ")
    assert answer.status_code == 422
    assert "Ina Fit wrote 32" in html
    assert "41 mA" in html
    form = next(line.form for line in answer.context["lines"] if line.row.pk == row.pk)
    version = int(form["version"].value())
    assert _write(browse("designer"), hatchback.job, row, "41 mA", version).status_code == 302
    row.refresh_from_db()
    assert (row.value, row.measured_by.username) == (0.041, "dan")
    said = read(browse("manager"), reverse("bay", args=[hatchback.code]))
    assert "written down before: 32" in said
    assert "(Ina Fit" in said
    past = f"{reverse('history', args=[hatchback.code])}?of=measurement-{row.pk}"
    assert "Measured 32" in read(browse("manager"), past)


def test_the_same_value_again_leaves_the_first_name(hatchback, browse):
    """Whoever sends what stands there already has measured nothing."""
    row = hatchback.key_off
    _write(browse("installer"), hatchback.job, row, "32 mA", row.version)
    assert _write(browse("designer"), hatchback.job, row, "32 mA", row.version).status_code == 302
    row.refresh_from_db()
    assert row.measured_by.username == "ina"


def test_a_tick_is_taken_back_knowingly(hatchback, browse):
    """A second tap says whose it is and asks, of one's own too; the name stays in the history."""
    step = PanelStep.objects.filter(job=hatchback.job, done_at=None).first()
    url = reverse("tick", args=[hatchback.code, step.pk])
    browse("installer").post(url, {"done": "1"})
    for who, headers, status in (
        ("designer", {}, 409),
        ("designer", {"HX-Request": "true"}, 200),
        ("installer", {"HX-Request": "true"}, 200),
    ):
        answer = browse(who).post(url, {"done": "0"}, headers=headers)
        assert answer.status_code == status
        assert "Ina Fit ticked this" in answer.content.decode()
        step.refresh_from_db()
        assert step.done_by.username == "ina"
    assert browse("designer").post(url, {"done": "0", "sure": "1"}).status_code == 302
    step.refresh_from_db()
    assert step.done_at is None
    past = f"{reverse('history', args=[hatchback.code])}?of=step-{step.pk}"
    assert "Done by Ina Fit → now –" in read(browse("manager"), past)


def test_the_second_tick_is_told_of_the_first(hatchback, browse):
    """The first name stays, and the second person reads it."""
    step = PanelStep.objects.filter(job=hatchback.job, done_at=None).first()
    url = reverse("tick", args=[hatchback.code, step.pk])
    browse("installer").post(url, {"done": "1"})
    answer = browse("designer").post(url, {"done": "1"}, headers={"HX-Request": "true"})
    assert "ticked already" in answer.content.decode()
    assert "Ina Fit" in answer.content.decode()
    told = browse("designer").post(url, {"done": "1"}, follow=True).content.decode()
    assert "Ina Fit has ticked this already" in told


def test_what_was_removed_meanwhile_says_who(hatchback, browse):
    """A value or a tick for a row that is gone: who removed it, what was written, the way back."""
    row = hatchback.key_off
    step = PanelStep.objects.filter(job=hatchback.job).first()
    browse("designer").post(reverse("measurement-remove", args=[hatchback.code, row.pk]))
    browse("designer").post(reverse("step-remove", args=[hatchback.code, step.pk]))
    client = browse("consultant")
    sent = {f"m{row.pk}-value": "32 mA"}
    url = reverse("measure", args=[hatchback.code, row.pk])
    html = client.post(url, sent, follow=True).content.decode()
    assert "Dan Draw has removed" in html
    assert "32 mA" in html
    assert reverse("measurement-restore", args=[hatchback.code, row.pk]) in html
    url = reverse("tick", args=[hatchback.code, step.pk])
    answer = client.post(url, {"done": "1"}, headers={"HX-Request": "true"})
    assert answer.headers["HX-Redirect"] == reverse("bay", args=[hatchback.code])
    assert "Dan Draw has removed" in client.get(answer.headers["HX-Redirect"]).content.decode()
