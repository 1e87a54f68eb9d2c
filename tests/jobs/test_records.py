"""Records: removed and back, counted up, with their history, and the board's counts kept."""

from __future__ import annotations

import pytest

from jobs.design.job import board_counts
from jobs.design.job.whole import load, work_out
from jobs.models import Job, Run

pytestmark = pytest.mark.django_db


def test_a_removed_record_is_hidden_and_comes_back(demo):
    """Removing keeps the row; restoring shows it again with every figure."""
    box = demo["J-0001"].boxes.get()
    box.remove()
    assert not demo["J-0001"].boxes.exists()
    box.restore()
    assert demo["J-0001"].boxes.get().wanted_volume == box.wanted_volume


def test_every_change_leaves_its_trace(demo):
    """What was there before a change can be read in the record's history."""
    item = demo["J-0001"].equipmentitems.first()
    was, item.place = item.place, "somewhere else"
    item.save()
    assert [one.place for one in item.history.all()[:2]] == ["somewhere else", was]


def test_a_number_is_never_given_twice(demo):
    """The number of a removed job is not used again."""
    last = max(demo.values(), key=lambda job: job.number)
    last.remove()
    assert Job.next_number() == last.number + 1


def test_the_boards_counts_are_the_jobs_own(demo):
    """What the board shows is what the job's findings come to, also after a change."""
    for job in demo.values():
        design = work_out(load(job))
        assert (job.open_stops, job.open_looks) == (
            len(design.open_stops),
            len(design.open_looks),
        )
    job = demo["J-0003"]
    Run.objects.filter(job=job, kind="P").update(length=None)
    board_counts.refresh(job)
    assert Job.objects.get(pk=job.pk).open_stops > (job.open_stops or 0)


def test_a_removed_speaker_leaves_its_channel_without_one(demo):
    """A channel whose speaker was removed has none; the job still works out."""
    job = demo["J-0001"]
    channel = job.channels.filter(speaker__isnull=False).first()
    channel.speaker.remove()
    records = load(job)
    assert next(one for one in records.channels if one == channel).speaker is None
    assert work_out(records).findings
