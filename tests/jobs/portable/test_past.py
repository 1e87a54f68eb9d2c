"""What rows were before goes with the file: told there as here, and erased there as here."""

from __future__ import annotations

import datetime as dt
import io
import json
import zipfile
from typing import Any

import pytest
from django.apps import apps
from django.utils import timezone

from jobs.design.job.after.visits import work_out_aftercare
from jobs.design.job.whole import load
from jobs.keeping.erase import erase
from jobs.models import Customer, Job, Offer, Run, RunAsBuilt, ServiceVisit, Stage
from jobs.portable.past import past_fields
from jobs.portable.schema import row_fields
from tests.jobs.factories import make_run_as_built
from tests.jobs.portable.conftest import packed
from tests.jobs.portable.test_refused import _members, members, refusal, with_document
from tests.jobs.portable.test_round_trip import says, taken_in

pytestmark = pytest.mark.django_db
__all__ = ["_members", "members"]  # what is in a file, to be changed


def _history(file: io.BytesIO) -> dict[str, Any]:
    document = json.loads(zipfile.ZipFile(file).read("job.json"))
    history: dict[str, Any] = document["records"]["history"]
    return history


def _told(job: Job) -> list[list[tuple[str, str]]]:
    """From what to what, visit by visit where one changed anything, the newest first."""
    visits = work_out_aftercare(load(job)).visits
    told = [[(d.was, d.now) for step in v.changes for d in step.differences] for v in visits]
    return [changes for changes in told if changes]


@pytest.fixture
def visited(hatchback, shelf, cast) -> Job:
    """A car that left; the fuse of a run was another at each of two visits."""
    left = timezone.localdate() - dt.timedelta(days=200)
    Job.objects.filter(pk=hatchback.job.pk).update(stage=Stage.AFTERCARE, left_on=left)
    row = make_run_as_built(hatchback.main_run, cast.installer)
    name = hatchback.job.vehicle.customer.name
    for days, fuse, why in ((100, "40 A", f"{name} rang"), (50, "100 A", "It was weak.")):
        row.fuse, row.reason = shelf[fuse], why
        row.done_at = timezone.now() - dt.timedelta(days=days)
        row.save()
        ServiceVisit.objects.create(
            job=hatchback.job, day=timezone.localdate(row.done_at), person=cast.installer,
            reason=ServiceVisit.Reason.SERVICE,
        )  # fmt: skip
    return Job.objects.select_related("vehicle__customer").get(pk=hatchback.job.pk)


def test_two_visits_that_changed_one_row_are_two_steps_elsewhere(visited):
    """From what to what at each, with the part that was there between, which no row names now."""
    told = _told(visited)
    assert [len(changes) for changes in told] == [1, 1]
    assert told[0][0][0] == told[1][0][1]
    file = packed(visited)
    made, _planned = taken_in(file)
    assert _told(made) == told
    assert says(packed(made)) == says(file)
    entries = RunAsBuilt.history.filter(job=made.pk).order_by("history_id")
    then = RunAsBuilt.history.filter(job=visited.pk).order_by("history_id")
    assert [e.history_date for e in entries] == [e.history_date for e in then]


def test_of_who_touched_a_row_only_those_are_named_whom_the_job_names(visited, hatchback, cast):
    """Whoever only changed a figure once is nobody in the file; secrets stay in each entry too."""
    run = Run.objects.get(pk=hatchback.main_run.pk)
    for person in (cast.stranger, cast.installer):
        run._history_user = person
        run.length += 0.1
        run.save()
    file = packed(visited)
    text = zipfile.ZipFile(file).read("job.json").decode()
    assert cast.stranger.last_name not in text
    by = [entry["by"] for entry in _history(file)["Run"] if entry["row"]["id"] == 1]
    assert [bool(key) for key in by[-2:]] == [False, True]
    for name, entries in _history(file).items():
        own = set(row_fields(apps.get_model("jobs", name)))
        assert own >= {field for entry in entries for field in entry["row"]}, name
    assert not {"token", "signature"} & past_fields(Offer).keys()


def test_who_is_erased_is_in_no_entry_that_came_with_a_file(visited, cast):
    """The name somebody typed into a note goes out of it, wherever the job was taken in."""
    customer = Customer.objects.get(pk=visited.vehicle.customer_id)
    name = customer.name
    made, planned = taken_in(packed(visited))
    assert planned.customer.is_here
    rows = RunAsBuilt.history.filter(job__in=[visited.pk, made.pk], reason__contains=name)
    assert rows.count() == 2
    erase(customer, by=cast.manager, why="asked for", plates=False)
    assert not rows.exists()
    for job in (visited, made):
        read = Job.objects.select_related("vehicle__customer").get(pk=job.pk)
        assert name not in zipfile.ZipFile(packed(read)).read("job.json").decode()


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"wings": 2}, "newer Undertrim"),
        ({"id": 777}, "hang together"),
        ({"length": "long"}, "schema"),
        ({"entered_on": None}, "newer Undertrim"),
    ],
)
def test_an_entry_that_cannot_be_is_refused(members, change, why):
    """A field of later, a row that is not there, a figure that is none: nothing is half made."""

    def changed(document: dict[str, Any]) -> None:
        document["records"]["history"]["Run"][0]["row"].update(change)

    assert why in refusal(with_document(members, changed))
