"""A job with one of everything a file carries, and a short way out and in."""

from __future__ import annotations

import io

import pytest
from django.core.files.base import ContentFile
from django.utils import timezone
from PIL import Image

from jobs import sheets
from jobs.design.job.stages import as_left
from jobs.design.job.whole import load, work_out
from jobs.design.records.decisions import take
from jobs.models import (
    CarAnswer,
    GateSign,
    Job,
    Offer,
    Photo,
    SheetKind,
    StageRelease,
    Stretch,
    User,
)
from jobs.pages.portable.published import job_schema
from jobs.panel_codes import give_codes
from jobs.portable.writing import write
from jobs.sheets import engine
from jobs.sheets.chain import digest, link
from tests.jobs.factories import make_run_as_built, make_step
from tests.jobs.offers import make_offer
from tests.jobs.scenes import Hatchback


def jpeg(grey: int) -> ContentFile[bytes]:
    """A small photo."""
    written = io.BytesIO()
    Image.new("L", (8, 6), grey).save(written, "JPEG")
    return ContentFile(written.getvalue(), "x.jpg")


def packed(job: Job) -> io.BytesIO:
    """The file of a job."""
    file = io.BytesIO()
    write(Job.objects.get(pk=job.pk), file, job_schema())
    return file


def fill(scene: Hatchback, by: User) -> Job:
    """Give the hatchback what is measured, decided, signed, shown, agreed and issued."""
    job, now = scene.again().job, timezone.now()
    panel = job.panels.order_by("pk")[0]
    step = make_step(panel, "photo of the plugs", done_by=by, done_at=now)
    for grey in (40, 200):
        files = {name: jpeg(grey + n) for n, name in enumerate(("image", "small", "original"))}
        photo = Photo.objects.create(
            job=job, panel=panel, step=step, taken_by=by, caption=f"grey {grey}", **files
        )
        photo.marks = [["arrow", 0.1, 0.2, 0.3, 0.4]]
        photo.save()
    answer = CarAnswer(job=job, code="codes-before", written_by=by, written_at=now)
    answer.report_name = "tester.txt"
    answer.report.save("x", ContentFile(b"P0000"), save=False)
    answer.save()
    run = job.runs.exclude(stretches=None).order_by("pk")[0]
    built = make_run_as_built(run, by)
    built.route = [
        [panel.pk, "", True, ""],
        [None, "through the grommet", False, Stretch.Edge.GROMMET],
    ]
    built.save()
    channel = job.channels.order_by("-pk")[0]
    GateSign.objects.create(
        job=job, code="polarity", subject=f"channel {channel.pk}", signed_by=by, signed_at=now
    )
    give_codes(job)
    offer = make_offer(job, by, accepted_at=now, accepted_name="Invented Name", signature=[[1, 2]])
    Offer.objects.filter(pk=offer.pk).update(photos_wanted=True)
    paper = offer.sheet
    paper.data_sha256 = digest(paper.data)
    paper.link = link(paper, job.last_link)
    paper.save()
    Job.objects.filter(pk=job.pk).update(last_link=paper.link)
    offer.photos.set([job.photos.order_by("-pk")[0]])
    design = work_out(load(job))
    for finding in [f for f in design.findings if f.severity != "note"][:4]:
        take(job, finding, by, "it was looked at")
    design = work_out(load(job))
    StageRelease.objects.create(
        job=job, left_open=as_left(design.still_open), reason="the rest on Monday",
        released_by=by, released_at=now,
    )  # fmt: skip
    for reason in ("", "a longer cable"):
        sheets.issue(work_out(load(job)), SheetKind.CABLES, sheets.Options(reason=reason), by)
    return job


@pytest.fixture(scope="module")
def _full(_building, _hatchback, _people) -> Job:
    kept, engine.render = engine.render, lambda html, **_more: b"%PDF-" + html.encode()
    try:
        return _building(fill, _hatchback, _people.manager)
    finally:
        engine.render = kept


@pytest.fixture
def full(db, _full) -> Job:
    """The hatchback with one of everything."""
    return Job.objects.select_related("vehicle__customer").get(pk=_full.pk)


@pytest.fixture(scope="module")
def _file(_building, _full) -> bytes:
    return _building(packed, _full).getvalue()


@pytest.fixture
def file(db, _file) -> io.BytesIO:
    """Its file."""
    return io.BytesIO(_file)
