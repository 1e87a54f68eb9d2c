"""A car two years after it left: its paper is as it was, and what has changed since is told."""

from __future__ import annotations

import datetime as dt
import io

import pytest
from django.core.management import call_command
from django.urls import reverse
from django.utils import timezone

from jobs import sheets
from jobs.design.job.after.visits import work_out_aftercare
from jobs.design.job.whole import load, work_out
from jobs.models import Job, ServiceVisit, SheetKind, Stage
from jobs.pages.portable.published import job_schema
from jobs.portable.making import make
from jobs.portable.reading import opened
from jobs.sheets import engine, panels
from jobs.sheets.chain import faults
from tests.jobs.factories import make_run_as_built
from tests.jobs.portable.conftest import packed

pytestmark = pytest.mark.django_db
TWO_YEARS = dt.timedelta(days=730)


@pytest.fixture
def handed_over(hatchback, cast, monkeypatch):
    """Its sheets are issued, it leaves, the catalogue changes, and two years go by."""
    monkeypatch.setattr(engine, "render", lambda html, **_more: b"%PDF-" + html.encode())
    for kind in (SheetKind.BUILD, SheetKind.CUSTOMER):
        sheets.issue(work_out(load(hatchback.job)), kind, sheets.Options(), cast.manager)
    left = {"stage": Stage.HANDED_OVER, "left_on": timezone.localdate()}
    Job.objects.filter(pk=hatchback.job.pk).update(**left)
    fuse = hatchback.main_run.fuse
    fuse.name, fuse.rating = "Another name", fuse.rating * 2
    fuse.save()
    now = timezone.now
    monkeypatch.setattr(timezone, "now", lambda: now() + TWO_YEARS)
    return Job.objects.select_related("vehicle__customer").get(pk=hatchback.job.pk)


def _since(job: Job) -> list[tuple[str, str, str]]:
    """What became otherwise, and was told at a visit."""
    steps = [step for visit in work_out_aftercare(load(job)).visits for step in visit.changes]
    return [(d.label, d.was, d.now) for step in steps for d in step.differences]


def test_a_swapped_fuse_is_told_from_what_to_what(handed_over, hatchback, shelf, cast, client):
    """The whole way: paper unchanged, a visit that finds it, the file elsewhere, the codes."""
    job, run = handed_over, hatchback.main_run
    client.force_login(cast.manager, "django.contrib.auth.backends.ModelBackend")
    other = shelf["100 A"]
    kept = {sheet.pk: bytes(sheet.pdf) for sheet in job.issued_sheets.all()}
    page = reverse("aftercare", args=[job.code])
    html = " ".join(client.get(page).content.decode().split())
    assert "Another name (" in html  # in the catalogue alone
    assert f"{run.fuse.rating:.0f} A," not in html
    assert f"{run.fuse.rating / 2:.0f} A," in html  # the car has what was fitted
    sent = {"run": run.pk, "reason": "Found at the visit.", "fuse": other.pk, "rest": "designed"}
    url = reverse("run-as-built-add", args=[job.code])
    assert client.post(url, sent).status_code == 302
    visit = {
        "day": str(timezone.localdate()), "reason": "service", "run": run.pk,
        "person": job.consultant_id, "seen": "The wrong fuse.",
    }  # fmt: skip
    assert client.post(reverse("visit-add", args=[job.code]), visit).status_code == 302
    then = work_out_aftercare(load(job)).then
    frozen = next(row.fuse for row in then.records.runs if row.pk == run.pk)
    told = [("Fuse at the start", str(frozen), str(other))]
    assert _since(job) == told
    html = " ".join(client.get(page).content.decode().split())
    assert f"was {frozen}, now {other}. Found at the visit." in html
    # The record printed anew tells it once: what it was when the car left, not what was designed.
    record = panels.context(work_out(load(job)))
    steps = [step for visit in record["after"].visits for step in visit.changes]
    assert [d.was for step in steps for d in step.differences] == [str(frozen)]
    assert run not in [row for row, _differs in record["built"]]
    # What was issued is what it was, byte for byte, and its chain holds.
    for pk, pdf in kept.items():
        assert client.get(reverse("sheet-issued", args=[job.code, pk])).content == pdf
    assert list(faults(job)) == []
    # The code on the build sheet: current, until there is a newer one.
    build = job.issued_sheets.get(kind=SheetKind.BUILD)
    code = reverse("sheet-standing", args=[build.token])
    assert "This is the current one" in client.get(code).content.decode()
    again = sheets.Options(reason="the fuse")
    sheets.issue(work_out(load(job)), SheetKind.BUILD, again, job.consultant)
    assert "There is a newer one" in client.get(code).content.decode()
    # In an empty installation the same sheets, and the same story.
    file = packed(job)
    everything = [bytes(sheet.pdf) for sheet in job.issued_sheets.order_by("pk")]
    call_command("flush", interactive=False, verbosity=0)
    with opened(io.BytesIO(file.getvalue()), job_schema()) as arrival:
        there, _planned = make(arrival)
    assert [bytes(sheet.pdf) for sheet in there.issued_sheets.order_by("pk")] == everything
    assert list(faults(there)) == []
    assert _since(there) == told


def test_each_visit_starts_from_the_one_before(handed_over, hatchback, shelf, cast):
    """A row that was changed at two visits is told at each from what it was before that."""
    job, run = handed_over, hatchback.main_run
    row = make_run_as_built(run, cast.installer)
    for days, colour in ((0, "BU"), (30, "GN")):
        day = timezone.now() + dt.timedelta(days=days)
        row.colour, row.done_at = colour, day
        row.save()
        ServiceVisit.objects.create(
            job=job, day=timezone.localdate(day), reason=ServiceVisit.Reason.SERVICE,
            person=cast.installer,
        )  # fmt: skip
    visits = work_out_aftercare(load(job)).visits
    told = [[(d.was, d.now) for step in v.changes for d in step.differences] for v in visits]
    assert told[:2] == [[("BU", "GN")], [(run.colour or "–", "BU")]]


def test_what_nobody_signed_is_told_besides(handed_over, hatchback):
    """A row that was changed in the plan, one that is new and one that is gone; without a why."""
    job, run = handed_over, hatchback.main_run
    run.length = 9.0
    run.save()
    hatchback.line_run.remove()
    after = work_out_aftercare(load(job))
    came = {(step.row.pk, step.came, step.signed) for step in after.besides}
    assert {(run.pk, "", None), (hatchback.line_run.pk, "gone", None)} <= came
