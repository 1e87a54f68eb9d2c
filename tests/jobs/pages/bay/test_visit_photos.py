"""Photos of a visit: taken in the bay, shown with it, printed once, carried along."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from django.utils import timezone

from jobs.design.job.whole import load, work_out
from jobs.keeping.removed import clear_removed
from jobs.models import Job, Photo, ServiceVisit, Stage
from jobs.sheets import panels
from tests.jobs.portable.conftest import packed
from tests.jobs.portable.test_round_trip import taken_in
from tests.jobs.test_photos import _jpeg as picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def visit(hatchback) -> ServiceVisit:
    """What the car, which had left, is in the bay for today."""
    today = timezone.localdate()
    left = {"stage": Stage.HANDED_OVER, "left_on": today - dt.timedelta(days=9)}
    Job.objects.filter(pk=hatchback.job.pk).update(**left)
    ServiceVisit.objects.filter(job=hatchback.job).delete()
    return ServiceVisit.objects.create(
        job=hatchback.job, day=today, reason=ServiceVisit.Reason.COMPLAINT, told="It buzzes.",
        person=hatchback.job.consultant,
    )  # fmt: skip


def _sent(client, visit, data: bytes, **more):
    url = reverse("visit-photos", args=[visit.job.code, visit.pk])
    return client.post(url, {"photo": SimpleUploadedFile("a.jpg", data, "image/jpeg")} | more)


def test_a_visit_has_photos_from_the_bay_to_the_paper(visit, hatchback, cast, browse):
    """Taken with signal or without, it is seen in the bay, with the visit, and on the record once;
    a job's file takes it along; it goes with the visit, thirty days after that was removed.
    """
    job, client = hatchback.job, browse("installer")
    bay, page = (reverse(name, args=[job.code]) for name in ("bay", "aftercare"))
    assert "It buzzes." in client.get(bay).content.decode()
    assert _sent(client, visit, picture()).status_code == 302
    act = {
        "key": str(uuid.uuid4()), "author": cast.installer.pk, "kind": "photo", "visit": visit.pk,
        "photo": SimpleUploadedFile("b.jpg", picture(), "image/jpeg"),
    }  # fmt: skip
    assert client.post(reverse("bay-acts", args=[job.code]), act).status_code == 200
    taken = list(Photo.objects.filter(visit=visit, panel=None))
    assert len(taken) == 2
    for address in (bay, page):
        shown = client.get(address).content.decode()
        assert all(reverse("photo", args=[job.code, photo.pk]) in shown for photo in taken)
    # One that shows a panel too stands with its panel on paper, and nowhere else.
    edit = reverse("picture-edit", args=[job.code, taken[1].pk])
    fields = {"version": taken[1].version, "visit": visit.pk, "panel": hatchback.sill.pk}
    assert client.post(edit, fields).status_code == 302
    printed = panels.context(work_out(load(Job.objects.get(pk=job.pk))))
    ((of, pictures, lost),) = printed["since_photos"]
    assert (of, len(pictures), lost) == (visit.pk, 1, 0)
    assert {key: len(rows) for key, rows, _lost in printed["photos"]}[hatchback.sill.pk] == 1
    there, _planned = taken_in(packed(job))
    assert [photo.visit.told for photo in there.photos.all()] == ["It buzzes."] * 2
    visit.remove()
    clear_removed(timezone.now() + dt.timedelta(days=31))
    assert not Photo.with_removed.filter(visit=visit.pk).exists()


def test_what_is_no_photo_is_told_and_a_photo_is_of_something(visit, hatchback, browse):
    """A file that cannot be read is refused in words; a photo of nothing is not saved."""
    client = browse("installer")
    answer = _sent(client, visit, b"no photo")
    assert "can be read" in client.get(answer.url).content.decode()
    assert not Photo.objects.filter(visit=visit).exists()
    assert _sent(client, visit, picture()).status_code == 302
    photo = Photo.objects.get(visit=visit)
    edit = reverse("picture-edit", args=[hatchback.code, photo.pk])
    answer = client.post(edit, {"version": photo.version, "caption": "typed"})
    assert answer.status_code == 422
    assert "or of which visit" in answer.content.decode()
    assert "typed" in answer.content.decode()
    assert default_storage.exists(photo.small.name)


def test_a_stranger_finds_no_visit_to_photograph(visit, browse):
    """404 to whoever is not of the workshop; a page to look at there is none."""
    assert _sent(browse("stranger"), visit, picture()).status_code == 404
    url = reverse("visit-photos", args=[visit.job.code, visit.pk])
    assert browse("installer").get(url).status_code == 405
