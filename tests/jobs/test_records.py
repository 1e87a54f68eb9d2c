"""Records: removed and back, counted up, with their history, and the board's counts kept."""

from __future__ import annotations

import pytest

from jobs.design.job import board_counts
from jobs.design.job.whole import load, work_out
from jobs.models import Job, Run

pytestmark = pytest.mark.django_db


def test_a_removed_record_is_hidden_and_comes_back(hatchback):
    """Removing keeps the row; restoring shows it again with every figure."""
    box = hatchback.box
    box.remove()
    assert not hatchback.job.boxes.exists()
    box.restore()
    assert hatchback.job.boxes.get().wanted_volume == box.wanted_volume


def test_every_change_leaves_its_trace(hatchback):
    """What was there before a change can be read in the record's history."""
    item = hatchback.sub
    was, item.place = item.place, "somewhere else"
    item.save()
    assert [one.place for one in item.history.all()[:2]] == ["somewhere else", was]


def test_a_number_is_never_given_twice(hatchback, van):
    """The number of a removed job is not used again."""
    last = max(hatchback.job, van.job, key=lambda job: job.number)
    last.remove()
    assert Job.next_number() == last.number + 1


def test_the_boards_counts_are_the_jobs_own(hatchback, saloon):
    """What the board shows is what the job's findings come to, also after a change."""
    for job in (hatchback.job, saloon.job):
        board_counts.refresh(job)
        job.refresh_from_db()
        design = work_out(load(job))
        assert (job.open_stops, job.open_looks) == (
            len(design.open_stops),
            len(design.open_looks),
        )
    job = saloon.job
    assert job.open_looks
    Run.objects.filter(pk=saloon.main_run.pk).update(length=None)
    board_counts.refresh(job)
    assert Job.objects.get(pk=job.pk).open_stops > job.open_stops


def test_a_removed_speaker_leaves_its_channel_without_one(hatchback):
    """A channel whose speaker was removed has none; the job still works out."""
    job = hatchback.job
    channel = hatchback.bass
    channel.speaker.remove()
    records = load(job)
    assert next(one for one in records.channels if one == channel).speaker is None
    assert work_out(records).findings
