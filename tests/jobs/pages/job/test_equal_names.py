"""Names are words for people: a decision covers one record, and a mark stands at its record."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from jobs.design.job import board_counts
from jobs.design.job.whole import load, work_out
from jobs.models import Box, Decision, Job, Panel, PowerNode, Run, Stretch
from jobs.sheets import build

pytestmark = pytest.mark.django_db
CODE = "J-0417"  # of the hatchback
REASON = "Bench test only; nothing is connected before the wiring is drawn."


def _job() -> Job:
    return Job.objects.get(number=417)


def _load(name: str, kind: str = PowerNode.Kind.LOAD) -> PowerNode:
    """Something that takes current and that no run feeds: two stops, no source and no figure."""
    return PowerNode.objects.create(job=_job(), kind=kind, name=name)


def _stops(*rows: PowerNode | Panel | Box):
    keys = {(row._meta.model_name, str(row.pk)) for row in rows}
    findings = work_out(load(_job())).findings
    return [one for one in findings if (one.about.kind, one.about.key) in keys]


def _keys_on(page: str) -> list[str]:
    """The decision pages a page of findings leads to."""
    return re.findall(rf"/jobs/{CODE}/findings/([0-9a-f]{{16}})/", page)


def _settle(client, finding) -> None:
    sent = {"fingerprint": finding.fingerprint, "reason": REASON}
    answer = client.post(reverse("decide", args=[CODE, finding.key]), sent)
    assert answer.status_code == 302


@pytest.mark.parametrize(
    "names",
    [
        ("Monoblock #1", "Monoblock #2", "Monoblock #3"),
        ("Monoblock", "Monoblock", "Monoblock"),
    ],
)
def test_a_released_stop_covers_no_load_added_later(browse, hatchback, names):
    """Two unwired amplifiers show all four stops; a third one is open and counted by the board."""
    before = len(work_out(load(_job())).open_stops)
    known = [_load(name, PowerNode.Kind.AMPLIFIER) for name in names[:2]]
    manager = browse("manager")
    stops = [one for one in _stops(*known) if one.severity == "stop"]
    assert len(stops) == 4
    page = manager.get(reverse("findings", args=[CODE])).content.decode()
    assert {one.key for one in stops} <= set(_keys_on(page))
    for one in stops:
        _settle(manager, one)
    manager.get(reverse("findings", args=[CODE]))
    assert _job().open_stops == before
    added = _load(names[2], PowerNode.Kind.AMPLIFIER)
    board_counts.refresh(_job())
    assert _job().open_stops == before + 2
    page = manager.get(reverse("findings", args=[CODE])).content.decode()
    assert {one.key for one in _stops(added) if one.severity == "stop"} <= set(_keys_on(page))


def test_one_acceptance_covers_one_door(browse, hatchback):
    """Two panels of one name are asked about twice, and accepting one leaves the other open."""
    doors = [Panel.objects.create(job=_job(), name="Door card") for _ in range(2)]
    consultant = browse("consultant")
    asked = [one for one in _stops(*doors) if one.code == "airbag-unknown"]
    assert [one.about.key for one in asked] == [str(door.pk) for door in doors]
    _settle(consultant, asked[0])
    stored = Decision.objects.latest("pk")
    assert (stored.about_kind, stored.about_key) == ("panel", str(doors[0].pk))
    left = [one for one in _stops(*doors) if one.code == "airbag-unknown" and one.is_open]
    assert [one.about.key for one in left] == [str(doors[1].pk)]


def test_two_boxes_of_one_name_show_all_they_have(hatchback):
    """A copy of a box under the same name brings as many findings again."""
    first = _job().boxes.first()
    before = _stops(first)
    assert before
    twin = Box.objects.get(pk=first.pk)
    for name in Box.lists():
        setattr(twin, name, getattr(first, name))
    twin.pk = twin.entry_token = None
    twin.save()
    assert len(_stops(first)) == len(before)
    assert [one.code for one in _stops(twin)] == [one.code for one in _stops(first)]


def _stop_marks(drawings) -> int:
    return sum(drawing.count("mark stop") for drawing in drawings)


@pytest.mark.parametrize("name", ["Amp rear", "Amp, rear", "Amp · rear", "Amp #2"])
def test_a_load_carries_its_stop_mark_whatever_it_is_called(browse, hatchback, name):
    """The mark stands on the power tree of the page and on that of the build sheet."""
    url = reverse("power", args=[CODE])
    figures = re.compile(r'<figure class="figure">.*?</figure>', re.DOTALL)
    before = _stop_marks(figures.findall(browse("designer").get(url).content.decode()))
    _load(name)
    page = browse("designer").get(url).content.decode()
    assert _stop_marks(figures.findall(page)) == before + 1
    assert _stop_marks(build.context(work_out(load(_job())))["power"]) == before + 1


def test_a_run_shows_its_own_findings_only(browse, hatchback):
    """P10's page says what concerns P10, and nothing of P100."""
    job = _job()
    nodes = [_load("A"), _load("B")]
    ten, hundred = (
        Run.objects.create(
            job=job, kind=Run.Kind.POWER, number=number, start=nodes[0], end=nodes[1]
        )
        for number in (10, 100)
    )
    # One finding names all runs without a route, so both have one.
    for run in (ten, hundred):
        Stretch.objects.create(run=run, position=1, place="under the sill")
    page = browse("designer").get(reverse("run", args=[CODE, ten.label])).content.decode()
    assert "P10" in page
    assert "P100" not in page
    other = browse("designer").get(reverse("run", args=[CODE, hundred.label])).content.decode()
    assert "length-unknown" in other
