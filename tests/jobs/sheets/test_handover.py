"""The hand-over says what the customer has and how it is lived with, in their words alone."""

from __future__ import annotations

import re

import pytest
from django.core.files.base import ContentFile
from django.urls import reverse
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import Decision, Job, Photo, SheetKind
from jobs.sheets.issue import printed
from tests.jobs.factories import make_job

pytestmark = pytest.mark.django_db


def said(job: Job, language: str = "en") -> str:
    """The words on the hand-over of a job as it is saved now."""
    sheet, options = sheets.SHEETS[SheetKind.HANDOVER], sheets.Options(language=language)
    design = work_out(load(Job.objects.get(pk=job.pk)))
    html, _data = printed(design, sheet, options, revision=1, at=timezone.now())
    return html


def test_it_prints_what_the_workshop_wrote_for_the_customer(hatchback):
    """What was chosen and why, how it is used, its care: as written; what is not has no head."""
    plain = said(hatchback.job)
    assert "What we chose, and why" not in plain
    texts = {
        "why_this": "Slow & low.",
        "how_to_use": "Turn the knob.",
        "care_notes": "Keep it dry.",
    }
    Job.objects.filter(pk=hatchback.job.pk).update(**texts)
    html = said(hatchback.job)
    for text in ("Slow &amp; low.", "Turn the knob.", "Keep it dry.", "What we chose, and why"):
        assert text in html


def test_the_customer_reads_no_codes_cures_or_reasons_of_the_house(saloon, browse):
    """Looks, decided or not, stay in the house; an open stop is said in one sentence."""
    design = work_out(load(saloon.job))
    look = next(each for each in design.open_looks if each.code == "port-noisy")
    reason = "Nobody listens that loud."
    answer = browse("designer").post(
        reverse("decide", args=[saloon.code, look.key]),
        {"fingerprint": look.fingerprint, "reason": reason},
    )
    assert answer.status_code == 302
    assert Decision.objects.get(job=saloon.job).reason == reason
    html = said(saloon.job)
    assert reason not in html
    findings = work_out(load(saloon.job)).findings
    assert len(findings) > 3
    for finding in findings:
        assert finding.code not in html
        assert not finding.cure or finding.cure not in html
    for stop in design.open_stops:
        assert stop.says in html


def test_fuses_are_listed_with_those_to_keep_in_the_car(hatchback):
    """Each as often as it sits there, its rating as it is printed on it."""
    html = said(hatchback.job)
    kept = re.sub(r"\s+", " ", html.partition("To keep in the car:")[2].partition("</p>")[0])
    counts = [int(n) for n in re.findall(r"(\d+) ×", kept)]
    runs = hatchback.job.runs.all()
    assert sum(counts) == sum(bool(run.fuse) + bool(run.end_fuse) for run in runs) > 1
    assert "150\xa0A" in html
    assert "150.0" not in html


def test_a_job_of_nothing_claims_nothing(db, cast):
    """What is not known is said to be not known, and no list is empty without a word."""
    html = said(make_job())
    for text in (
        "No part is on the list of this job.",
        "No fuse of ours is recorded.",
        "No factory part is recorded.",
        "How long it plays with the engine off is not known",
    ):
        assert text in html
    assert "To keep in the car" not in html
    assert "Handed over with this open" not in html


def test_photos_somebody_chose_are_on_it(hatchback, cast):
    """The first after the work opens it, the others stand beside those before; no other photo."""
    for caption, moment in (
        ("the old floor", "before"),
        ("the new floor", "after"),
        ("a crimp", ""),
    ):
        files = {name: ContentFile(caption.encode(), "x.jpg") for name in ("image", "small")}
        Photo.objects.create(
            job=hatchback.job, panel=hatchback.boot_floor, caption=caption, on_handover=moment,
            taken_by=cast.installer, **files,
        )  # fmt: skip
    html = said(hatchback.job)
    assert html.index("the new floor") < html.index("What you have") < html.index("the old floor")
    assert "a crimp" not in html
    lost = hatchback.job.photos.get(caption="the new floor").small
    lost.storage.delete(lost.name)
    assert "the new floor" not in said(hatchback.job)
