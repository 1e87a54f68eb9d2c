"""After hand-over: visits, what was changed since, whom to call, and cables by their lot."""

from __future__ import annotations

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.design.calendar.reminders import months_after, of_a_job, reminders
from jobs.design.job.after.recall import cars_with
from jobs.design.job.after.visits import work_out_aftercare
from jobs.design.job.whole import load, work_out
from jobs.models import (
    CableLot,
    FactoryAsBuilt,
    ItemAsBuilt,
    Job,
    PanelContent,
    RunAsBuilt,
    ServiceVisit,
    Stage,
    Workshop,
)
from tests.jobs.factories import make_run_as_built

pytestmark = pytest.mark.django_db


@pytest.fixture
def left(hatchback):
    """The car left two years ago, of a workshop that checks after six weeks."""
    day = timezone.localdate() - dt.timedelta(days=730)
    Job.objects.filter(pk=hatchback.job.pk).update(stage=Stage.HANDED_OVER, left_on=day)
    for model in (ItemAsBuilt, RunAsBuilt, FactoryAsBuilt):
        for rows in (model.objects, model.history):
            rows.update(done_at=timezone.now() - dt.timedelta(days=740))
    shop = Workshop.read()
    shop.first_check_weeks, shop.warranty_months = 6, 24
    shop.save()
    hatchback.job.refresh_from_db()
    return hatchback


def test_a_visit_years_later_finds_a_swapped_fuse(left, shelf, cast, browse):
    """The page starts from what is in the car; what is otherwise stands with the visit, beside
    what it was, and the checks are run on it. Without a record the plan stands in for the car.
    """
    run, client = left.main_run, browse("installer")
    page = reverse("aftercare", args=[left.code])
    assert f"{run.fuse.rating:.0f}" in client.get(page).content.decode()
    other = shelf["100 A"]
    make_run_as_built(run, cast.installer, fuse=other, reason="Somebody put a smaller one in.")
    sent = {
        "day": str(timezone.localdate()), "reason": "complaint", "person": cast.installer.pk,
        "run": run.pk, "told": "It cuts out.", "seen": "The wrong fuse.",
    }  # fmt: skip
    assert client.post(reverse("visit-add", args=[left.code]), sent).status_code == 302
    records = load(Job.objects.get(pk=left.job.pk))
    after = work_out_aftercare(records)
    (visit,) = [visit for visit in after.visits if visit.record.reason == "complaint"]
    assert [step.key for step in visit.changes] == [("Run", run.pk)]
    assert after.open_complaints == [visit.record]
    assert after.besides == []
    html = " ".join(client.get(page).content.decode().split())
    for words in (
        "It cuts out.",
        "The wrong fuse.",
        "Somebody put a smaller one in.",
        "held against the plan",
    ):
        assert words in html
    fused = next(row for row in work_out(records).records.runs if row.pk == run.pk)
    assert fused.fuse == other


def test_whom_to_call_is_said_until_somebody_looked(left, browse):
    """A check stays due until it was made; a warranty is told in the days in which it ends."""
    job = left.job
    due = {reminder.kind: reminder.day for reminder in of_a_job(job, load(job).visits)}
    assert due["check"] == job.left_on + dt.timedelta(weeks=6)
    assert due["warranty"] == months_after(job.left_on, 24)
    week = (due["warranty"] - dt.timedelta(days=3), due["warranty"] + dt.timedelta(days=3))
    assert [(row.kind, row.job) for row in reminders(*week)] == [("check", job), ("warranty", job)]
    for name in ("board", "calendar"):
        assert "to call" in browse("installer").get(reverse(name)).content.decode()
    day = timezone.localdate()
    ServiceVisit.objects.create(
        job=job, day=day, reason=ServiceVisit.Reason.CHECK, person=job.consultant
    )
    assert [row.kind for row in reminders(*week)] == ["warranty"]
    assert [row.kind for row in of_a_job(job, load(job).visits)] == ["warranty"]
    page = browse("installer").get(reverse("aftercare", args=[job.code])).content.decode()
    assert "First check:" not in page
    assert "First check made:" in page
    # Once it has left anew, that check was of the time before.
    Job.objects.filter(pk=job.pk).update(left_on=day + dt.timedelta(days=1))
    assert [row.kind for row in of_a_job(Job.objects.get(pk=job.pk), load(job).visits)] == [
        *("check", "warranty")
    ]
    Job.objects.filter(pk=job.pk).update(left_on=job.left_on)
    assert reminders(week[1] + dt.timedelta(days=1), week[1] + dt.timedelta(days=7)) == []


def test_a_car_that_is_handed_over_is_counted_from_that_day(hatchback, browse):
    """The manager lets it go; the day is kept and stands on the page of the job."""
    sent = {"to": "handed_over", "reason": "The customer needs it."}
    url = reverse("stage", args=[hatchback.code])
    assert browse("manager").post(url, sent).status_code == 302
    assert Job.objects.get(pk=hatchback.job.pk).left_on == timezone.localdate()


def test_a_cable_is_called_back_by_its_lot(hatchback, van):
    """A noted lot counts for its run, or for all of that cable in the car; one that nobody noted
    may be any.
    """
    cable = hatchback.main_run.conductor
    van.link.conductor = cable
    van.link.save()
    cars = {car.job.pk for car in cars_with(cable, "L-2200", "L-2299")}
    assert cars == {hatchback.job.pk, van.job.pk}
    lot = CableLot.objects.create(job=van.job, conductor=cable, number="L-3000")
    assert {car.job.pk for car in cars_with(cable, "L-2200", "L-2299")} == {hatchback.job.pk}
    assert {car.job.pk for car in cars_with(cable, "L-3000")} == {van.job.pk}
    lot.remove()
    assert van.job.pk in {car.job.pk for car in cars_with(cable, "L-3000")}


def test_each_of_several_pieces_has_its_serial_number(hatchback, browse):
    """Two speakers of one line, numbered piece by piece, are not said to be unrecorded."""
    item = hatchback.job.equipmentitems.filter(quantity__gt=1).first()
    for number in ("Z-1", "Z-2"):
        PanelContent.objects.create(job=hatchback.job, equipment=item, serial=number)
    page = browse("installer").get(reverse("aftercare", args=[hatchback.code])).content.decode()
    assert "Z-1, Z-2" in page
