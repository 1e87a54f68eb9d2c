"""Choosing cables and fuses: who may, what answers, what is put in, and one press to undo it."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from jobs.models import Conductor, Run

pytestmark = pytest.mark.django_db
CODE = "J-0001"
URL = reverse("choose", args=[CODE])
FIELDS = ("conductor_id", "fuse_id", "fuse_distance", "end_fuse_id", "end_fuse_distance")


def _parts(code: str = CODE) -> dict[str, tuple[object, ...]]:
    number = int(code[2:])
    rows = Run.objects.filter(job__number=number)
    return {run.label: tuple(getattr(run, name) for name in FIELDS) for run in rows}


def _fingerprint(html: str) -> str:
    found = re.search(r'name="fingerprint" value="(\w+)"', html)
    assert found
    return found[1]


def _put_in(client, *keep: int, url: str = URL):
    page = client.get(url, {"keep": keep}).content.decode()
    return client.post(url, {"keep": keep, "fingerprint": _fingerprint(page)}, follow=True)


def _undo(page: str) -> str:
    found = re.search(r'action="(/jobs/[^"]+/choose/\w+/restore/)"', page)
    assert found
    return found[1]


def test_who_decides_what_is_built_reads_what_would_be_chosen(browse):
    """Each power run stands there with what is there, what would be chosen and what bound it."""
    client = browse("designer")
    html = client.get(URL).content.decode()
    for label in ("P01", "P02", "P03", "P04"):
        assert f">{label}<" in html
    assert "the fuse its load needs" in html
    assert "35\u00a0mm²" in html
    assert "<main" in html
    assert URL in client.get(reverse("power", args=[CODE])).content.decode()


def test_ticks_are_answered_without_a_page_around_them(browse):
    """The part that htmx asks for keeps the ticked run and carries a fingerprint of its own."""
    client, run = browse("designer"), Run.objects.get(job__number=1, kind="P", number=1)
    answer = client.get(URL, {"keep": [run.pk]}, headers={"HX-Request": "true"})
    html = answer.content.decode()
    assert "<main" not in html
    assert "HX-Request" in answer.headers["Vary"]
    assert re.search(rf'value="{run.pk}"[^>]* checked', html)
    assert "kept as it is" in html
    assert _fingerprint(html) != _fingerprint(client.get(URL).content.decode())
    again = client.post(URL, {"keep": [run.pk], "again": "1"})  # the same without a script
    assert "kept as it is" in again.content.decode()


def test_reading_writes_nothing(browse):
    """Looking at proposals and ticking leaves the runs as they are."""
    before, client = _parts(), browse("designer")
    client.get(URL)
    client.get(URL, {"keep": ["1", "x", "-5", "999999"]})
    client.post(URL, {"again": "1"})
    assert _parts() == before


def test_proposals_are_put_in_whole_and_undone_with_one_press(browse):
    """Every changed run is an ordinary edit with version and history; undoing brings all back."""
    client, before = browse("designer"), _parts()
    run = Run.objects.get(job__number=1, kind="P", number=1)
    page = _put_in(client).content.decode()
    assert "Put in: 3 runs." in page
    put_in = _parts()
    assert {label for label in before if before[label] != put_in[label]} == {"P01", "P03", "P04"}
    changed = Run.objects.get(pk=run.pk)
    assert changed.version == run.version + 1
    assert changed.history.first().version == changed.version
    assert changed.history.first().history_user.username == "designer"
    assert "Every run has what would be chosen." in client.get(URL).content.decode()
    undone = client.post(_undo(page), follow=True).content.decode()
    assert "Back as before." in undone
    assert _parts() == before
    assert Run.objects.get(pk=run.pk).version == run.version + 2


def test_a_kept_run_is_not_touched(browse):
    """What is ticked stays, whatever else is put in."""
    run = Run.objects.get(job__number=1, kind="P", number=1)
    _put_in(browse("consultant"), run.pk)
    now = Run.objects.get(pk=run.pk)
    assert (now.conductor_id, now.version) == (run.conductor_id, run.version)


def test_an_undo_stands_back_when_somebody_went_on(browse):
    """A run edited since is not overwritten: nothing is undone, and the page says which run."""
    client = browse("designer")
    page = _put_in(client).content.decode()
    run = Run.objects.get(job__number=1, kind="P", number=3)
    run.version += 1
    run.length = 2.0
    run.save()
    after = _parts()
    answer = client.post(_undo(page), follow=True).content.decode()
    assert "Not undone: P03 changed since." in answer
    assert _parts() == after


def test_proposals_that_are_no_longer_those_are_not_put_in(browse):
    """The second of two people is told and shown what it comes to now."""
    client = browse("designer")
    old = _fingerprint(client.get(URL).content.decode())
    run = Run.objects.get(job__number=1, kind="P", number=2)
    run.version += 1
    run.length = 2.5
    run.save()
    before = _parts()
    answer = client.post(URL, {"fingerprint": old})
    assert answer.status_code == 422
    assert "The job changed while you were reading" in answer.content.decode()
    assert _parts() == before


def test_what_does_not_pass_cannot_be_put_in(browse):
    """Without cable that serves the stop is shown with its limit, no button, and no post helps."""
    Conductor.objects.exclude(size="1.5 mm²").update(insulation_temperature=None)
    client, before = browse("manager"), _parts()
    html = client.get(URL).content.decode()
    assert "Nothing passes" in html
    assert "Put in:" not in html
    assert client.post(URL, {"fingerprint": _fingerprint(html)}).status_code == 422
    assert _parts() == before


def test_a_job_without_a_tree_says_so(browse, demo):
    """An empty tree has nothing to choose for, and the page stands."""
    Run.objects.filter(job=demo[CODE]).update(removed_at="2026-11-25T12:00:00Z")
    answer = browse("designer").get(URL)
    assert answer.status_code == 200
    assert "Put in:" not in answer.content.decode()


def test_strangers_installers_and_other_jobs(browse, demo):
    """A stranger finds nothing, an installer may not, and no job undoes the choice of another."""
    assert browse("stranger").get(URL).status_code == 404
    assert browse("stranger").post(URL).status_code == 404
    installer = browse("installer")
    assert installer.get(URL).status_code == 403
    assert installer.post(URL).status_code == 403
    undo = _undo(_put_in(browse("designer")).content.decode())
    before = _parts()
    assert browse("stranger").post(undo).status_code == 404
    assert installer.post(undo).status_code == 403
    assert browse("designer").post(undo.replace(CODE, "J-0002")).status_code == 404
    assert browse("designer").post(undo.replace("/restore/", "0/restore/")).status_code == 404
    assert _parts() == before
    assert browse("designer").get(reverse("choose", args=["J-9999"])).status_code == 404


def test_the_wrong_method_is_refused(browse):
    """Nothing is chosen by PUT or DELETE, and nothing is undone by a link."""
    client = browse("designer")
    undo = _undo(_put_in(client).content.decode())
    assert client.put(URL).status_code == 405
    assert client.delete(URL).status_code == 405
    assert client.get(undo).status_code == 405


def test_both_ends_of_a_link_between_batteries_are_put_in_and_back(browse):
    """The camper's link gets a smaller fuse at each end, and both come back."""
    client, before = browse("designer"), _parts("J-0002")
    page = _put_in(client, url=reverse("choose", args=["J-0002"])).content.decode()
    link = Run.objects.get(job__number=2, kind="P", number=1)
    assert link.fuse is not None
    assert link.end_fuse is not None
    assert link.end_fuse.rating < 100
    client.post(_undo(page))
    assert _parts("J-0002") == before
