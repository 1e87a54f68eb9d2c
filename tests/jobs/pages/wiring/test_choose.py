"""Choosing cables and fuses: who may, what answers, what is put in, and one press to undo it."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from jobs.models import Conductor, Run
from tests.jobs.scenes import Scene

pytestmark = pytest.mark.django_db
FIELDS = ("conductor_id", "fuse_id", "fuse_distance", "end_fuse_id", "end_fuse_distance")


@pytest.fixture
def url(hatchback) -> str:
    return _url(hatchback)


def _url(scene: Scene) -> str:
    return reverse("choose", args=[scene.code])


def _parts(scene: Scene) -> dict[str, tuple[object, ...]]:
    rows = Run.objects.filter(job=scene.job)
    return {run.label: tuple(getattr(run, name) for name in FIELDS) for run in rows}


def _fingerprint(html: str) -> str:
    found = re.search(r'name="fingerprint" value="(\w+)"', html)
    assert found
    return found[1]


def _put_in(client, url: str, *keep: int):
    page = client.get(url, {"keep": keep}).content.decode()
    return client.post(url, {"keep": keep, "fingerprint": _fingerprint(page)}, follow=True)


def _undo(page: str) -> str:
    found = re.search(r'action="(/jobs/[^"]+/choose/\w+/restore/)"', page)
    assert found
    return found[1]


def test_who_decides_what_is_built_reads_what_would_be_chosen(hatchback, browse, url):
    """Each power run stands there with what is there, what would be chosen and what bound it."""
    client = browse("designer")
    html = client.get(url).content.decode()
    for run in hatchback.job.runs.filter(kind=Run.Kind.POWER):
        assert f">{run.label}<" in html
    assert "the fuse its load needs" in html
    assert "35\u00a0mm²" in html
    assert "<main" in html
    assert url in client.get(reverse("power", args=[hatchback.code])).content.decode()


def test_ticks_are_answered_without_a_page_around_them(hatchback, browse, url):
    """The part that htmx asks for keeps the ticked run and carries a fingerprint of its own."""
    client, run = browse("designer"), hatchback.main_run
    answer = client.get(url, {"keep": [run.pk]}, headers={"HX-Request": "true"})
    html = answer.content.decode()
    assert "<main" not in html
    assert "HX-Request" in answer.headers["Vary"]
    assert re.search(rf'value="{run.pk}"[^>]* checked', html)
    assert "kept as it is" in html
    assert _fingerprint(html) != _fingerprint(client.get(url).content.decode())
    again = client.post(url, {"keep": [run.pk], "again": "1"})  # the same without a script
    assert "kept as it is" in again.content.decode()


def test_reading_writes_nothing(hatchback, browse, url):
    """Looking at proposals and ticking leaves the runs as they are."""
    before, client = _parts(hatchback), browse("designer")
    client.get(url)
    client.get(url, {"keep": ["1", "x", "-5", "999999"]})
    client.post(url, {"again": "1"})
    assert _parts(hatchback) == before


def test_proposals_are_put_in_whole_and_undone_with_one_press(hatchback, browse, url, cast):
    """Every changed run is an ordinary edit with version and history; undoing brings all back."""
    client, before = browse("designer"), _parts(hatchback)
    run = hatchback.main_run
    page = _put_in(client, url).content.decode()
    assert "Put in: 3 runs." in page
    put_in = _parts(hatchback)
    # The branch to the front has what would be chosen already.
    changes = (hatchback.main_run, hatchback.mono_run, hatchback.processor_run)
    changed = {label for label in before if before[label] != put_in[label]}
    assert changed == {one.label for one in changes}
    changed = Run.objects.get(pk=run.pk)
    assert changed.version == run.version + 1
    assert changed.history.first().version == changed.version
    assert changed.history.first().history_user == cast.designer
    assert "Every run has what would be chosen." in client.get(url).content.decode()
    undone = client.post(_undo(page), follow=True).content.decode()
    assert "Back as before." in undone
    assert _parts(hatchback) == before
    assert Run.objects.get(pk=run.pk).version == run.version + 2


def test_a_kept_run_is_not_touched(hatchback, browse, url):
    """What is ticked stays, whatever else is put in."""
    run = hatchback.main_run
    _put_in(browse("consultant"), url, run.pk)
    now = Run.objects.get(pk=run.pk)
    assert (now.conductor_id, now.version) == (run.conductor_id, run.version)


def test_an_undo_stands_back_when_somebody_went_on(hatchback, browse, url):
    """A run edited since is not overwritten: nothing is undone, and the page says which run."""
    client = browse("designer")
    page = _put_in(client, url).content.decode()
    run = Run.objects.get(pk=hatchback.mono_run.pk)
    run.version += 1
    run.length = 2.0
    run.save()
    after = _parts(hatchback)
    answer = client.post(_undo(page), follow=True).content.decode()
    assert f"Not undone: {run} changed since." in answer
    assert _parts(hatchback) == after


def test_proposals_that_are_no_longer_those_are_not_put_in(hatchback, browse, url):
    """The second of two people is told and shown what it comes to now."""
    client = browse("designer")
    old = _fingerprint(client.get(url).content.decode())
    run = hatchback.six_run
    run.version += 1
    run.length = 2.5
    run.save()
    before = _parts(hatchback)
    answer = client.post(url, {"fingerprint": old})
    assert answer.status_code == 422
    assert "The job changed while you were reading" in answer.content.decode()
    assert _parts(hatchback) == before


def test_what_does_not_pass_cannot_be_put_in(hatchback, browse, url):
    """Without cable that serves the stop is shown with its limit, no button, and no post helps."""
    Conductor.objects.exclude(size="1.5 mm²").update(insulation_temperature=None)
    client, before = browse("manager"), _parts(hatchback)
    html = client.get(url).content.decode()
    assert "Nothing passes" in html
    assert "Put in:" not in html
    assert client.post(url, {"fingerprint": _fingerprint(html)}).status_code == 422
    assert _parts(hatchback) == before


def test_a_job_without_a_tree_says_so(browse, hatchback, url):
    """An empty tree has nothing to choose for, and the page stands."""
    Run.objects.filter(job=hatchback.job).update(removed_at="2026-11-25T12:00:00Z")
    answer = browse("designer").get(url)
    assert answer.status_code == 200
    assert "Put in:" not in answer.content.decode()


def test_strangers_installers_and_other_jobs(browse, hatchback, van, url):
    """A stranger finds nothing, an installer may not, and no job undoes the choice of another."""
    assert browse("stranger").get(url).status_code == 404
    assert browse("stranger").post(url).status_code == 404
    installer = browse("installer")
    assert installer.get(url).status_code == 403
    assert installer.post(url).status_code == 403
    undo = _undo(_put_in(browse("designer"), url).content.decode())
    before = _parts(hatchback)
    assert browse("stranger").post(undo).status_code == 404
    assert installer.post(undo).status_code == 403
    assert browse("designer").post(undo.replace(hatchback.code, van.code)).status_code == 404
    assert browse("designer").post(undo.replace("/restore/", "0/restore/")).status_code == 404
    assert _parts(hatchback) == before
    assert browse("designer").get(reverse("choose", args=["J-9999"])).status_code == 404


def test_the_wrong_method_is_refused(browse, url):
    """Nothing is chosen by PUT or DELETE, and nothing is undone by a link."""
    client = browse("designer")
    undo = _undo(_put_in(client, url).content.decode())
    assert client.put(url).status_code == 405
    assert client.delete(url).status_code == 405
    assert client.get(undo).status_code == 405


def test_both_ends_of_a_link_between_batteries_are_put_in_and_back(van, browse):
    """The van's link gets a fuse at each end for what charges through it, and both go again."""
    van.link.fuse = van.link.end_fuse = None
    van.link.save()
    client, before = browse("designer"), _parts(van)
    page = _put_in(client, _url(van)).content.decode()
    link = Run.objects.get(pk=van.link.pk)
    assert link.fuse is not None
    assert link.end_fuse is not None
    assert link.fuse.rating == link.end_fuse.rating == 150.0
    client.post(_undo(page))
    assert _parts(van) == before
