"""Options of the whole job: kept as they are, held side by side, taken up again whole."""

from __future__ import annotations

import io

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pypdf import PdfReader

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.design.options.side_by_side import work_out_options
from jobs.design.records.data import to_data
from jobs.models import DesignOption, EquipmentItem, Job, OptionCopy, Run, SheetKind, Stage
from jobs.options import MOST, RefusedError, is_kept, keep, take_up

pytestmark = pytest.mark.django_db
# How often a row was written, and what an option says of itself.
NOT_THE_DESIGN = {"version", "edition", "open_stops", "open_looks"}


@pytest.fixture
def job(hatchback) -> Job:
    """The hatchback before its work has begun."""
    hatchback.job.stage = Stage.SPEC
    hatchback.job.save()
    return hatchback.job


def _design(job):
    """Every designed row of a job, without how often it was written."""
    rows = to_data(load(Job.objects.get(pk=job.pk)))["rows"]
    designed = (
        *("EquipmentItem", "Channel", "Box", "BoxCorner", "Obstacle", "Ring", "TrimPanel"),
        *("TrimOpening", "Run", "Stretch", "PowerNode", "GroundPoint", "LoomJoin", "Panel"),
        *("PanelStep", "PanelContent", "FactoryPart", "PriceLine", "Fixing", "WoodStep"),
    )
    return {
        name: sorted(
            repr(sorted((k, v) for k, v in row.items() if k not in NOT_THE_DESIGN | _keys(name)))
            for row in rows.get(name, ())
        )
        for name in designed
    }


def _keys(name):
    """Rows that are part of another are written anew: their own key says nothing."""
    of_another = {"BoxCorner", "Obstacle", "TrimOpening", "Stretch"}
    return {"id"} if name in of_another else set()


def test_an_option_comes_back_whole(job, hatchback):
    """Changed, removed and new rows, a route, a shape: all as they were when it was kept."""
    before = _design(job)
    option = keep(job, "Plain")
    hatchback.box.width = 0.6
    hatchback.box.save()
    hatchback.box.corners.all().delete()
    hatchback.bass_run.remove()
    hatchback.main_run.stretches.all().delete()
    hatchback.turn_on_run.wakes.clear()
    new = EquipmentItem.objects.create(job=job, part=hatchback.six.part, place="new")
    assert _design(job) != before
    take_up(option)
    assert _design(job) == before
    assert not EquipmentItem.objects.filter(pk=new.pk).exists()
    assert is_kept(load(Job.objects.get(pk=job.pk)))


def test_nothing_is_lost_when_another_is_taken_up(job, hatchback):
    """What was designed meanwhile is kept by itself, and comes back too."""
    plain = keep(job, "Plain")
    hatchback.box.width = 0.6
    hatchback.box.save()
    more = _design(job)
    take_up(plain)
    assert [option.name for option in job.options.all()] == ["Plain", "before “Plain”"]
    take_up(job.options.last())
    assert _design(job) == more


def test_what_was_done_meanwhile_stays(job, hatchback):
    """Serial numbers, what was ordered, ticks and codes are of the work, not of the design."""
    option = keep(job, "Plain")
    item, step = hatchback.sub, job.panelsteps.filter(done_at=None).first()
    item.serial, item.state, item.place = "S-9", "ordered", "elsewhere"
    item.save()
    step.done_at = job.created_at
    step.save()
    take_up(option)
    item.refresh_from_db()
    step.refresh_from_db()
    assert (item.serial, item.state, item.place) == ("S-9", "ordered", "box in the boot")
    assert step.done_at is not None


def test_once_the_work_has_begun_no_option_is_taken_up(job, hatchback):
    """What changes then is an addition."""
    option = keep(job, "Plain")
    Job.objects.filter(pk=job.pk).update(stage=Stage.BAY)
    with pytest.raises(RefusedError, match="addition"):
        take_up(option)


def test_choosing_leaves_the_others_readable(job, hatchback, browse):
    """One is chosen at a time; each is still worked out from what was kept of it."""
    plain = keep(job, "Plain")
    hatchback.box.width = 0.6
    hatchback.box.save()
    large = keep(job, "Large")
    client = browse("consultant")
    for option in (large, plain):
        client.post(reverse("option-choose", args=[job.code, option.pk]))
        assert list(DesignOption.objects.exclude(chosen_at=None)) == [option]
    html = client.get(reverse("options", args=[job.code])).content.decode()
    litres = dict(work_out_options([plain, large], work_out(load(job))).rows)["Room the boxes take"]
    assert litres[0] != litres[1]
    for cell in litres:
        assert cell in html


def test_three_options_ask_no_more_of_the_database_than_one(job):
    """They are worked out from their copies."""
    options = [keep(job, f"Option {number}") for number in range(3)]
    design = work_out(load(job))

    def queries(count):
        with CaptureQueriesContext(connection) as seen:
            work_out_options(options[:count], design)
        return len(seen)

    queries(1)  # the car, which is read once
    assert queries(3) == queries(1)


@pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable())
def test_three_options_are_one_page_that_names_each_in_its_curves(job, hatchback):
    """What all have in common is said once; a wider box is drawn wider."""
    names = ("Plain", "Wide", "Narrow")
    for name, width in zip(names, (hatchback.box.width, 0.7, 0.5), strict=True):
        hatchback.box.width = width
        hatchback.box.save()
        keep(job, name, "In the customer's words.")
    design = work_out(load(Job.objects.get(pk=job.pk)))
    options = list(job.options.all())
    side_by_side = work_out_options(options, design)
    assert len(side_by_side.goes_in) == 1
    called = [candidate.name for candidate in side_by_side.comparison.candidates]
    assert called == ["A Plain", "B Wide", "C Narrow"]
    chosen = sheets.Options(paper="letter", options=tuple(str(option.pk) for option in options))
    pdf = sheets.draft(design, SheetKind.OPTIONS, chosen)
    assert len(PdfReader(io.BytesIO(pdf)).pages) == 1


def test_the_page_keeps_and_refuses_in_words(job, browse):
    """A name is needed; no more are kept than a person can hold apart."""
    client, url = browse("consultant"), reverse("options", args=[job.code])
    assert client.get(url).status_code == 200
    assert client.post(url, {"name": ""}).status_code == 422
    assert client.post(url, {"name": "Plain", "text": "As it is"}).status_code == 302
    option = DesignOption.objects.get()
    data = option.copy.data
    for number in range(MOST - 1):
        more = DesignOption.objects.create(job=job, name=f"{number}", fingerprint="x")
        OptionCopy.objects.create(option=more, data=data)
    answer = client.post(url, {"name": "One more"}, follow=True)
    assert "remove one first" in answer.content.decode()
    assert OptionCopy.objects.count() == MOST
    assert browse("designer").get(url).status_code == 403
    assert browse("stranger").get(url).status_code == 404
    taken = reverse("option-take", args=[job.code, option.pk])
    assert client.get(taken).status_code == 405
    assert Run.objects.filter(job=job).exists()
