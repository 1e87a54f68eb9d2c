"""Photos can be taken out: kept thirty days, or gone at once where they show a person."""

from __future__ import annotations

import io

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from jobs.models import Photo
from tests.jobs.pages.history.test_history import read
from tests.jobs.pages.kinds import listed, typed
from tests.jobs.test_photos import _jpeg as picture

pytestmark = pytest.mark.django_db


@pytest.fixture
def photo(hatchback, cast) -> Photo:
    """A photo of what is behind the sill, taken by the installer."""
    files = {name: ContentFile(b"x", "x.jpg") for name in ("image", "small", "original")}
    return Photo.objects.create(
        job=hatchback.job, panel=hatchback.sill, caption="plate in view",
        taken_by=cast.installer, **files,
    )  # fmt: skip


def _at(photo: Photo, act: str) -> str:
    return reverse(f"picture-{act}", args=[photo.job.code, photo.pk])


def test_a_photo_is_taken_out_and_brought_back(hatchback, photo, browse):
    """Its file is kept, and the page says who removed it."""
    assert browse("designer").post(_at(photo, "remove")).status_code == 302
    browse("designer").get(reverse("bay", args=[hatchback.code]))
    said = read(browse("manager"), reverse("bay", args=[hatchback.code]))
    assert "plate in view Dan Draw," in said
    assert default_storage.exists(photo.image.name)
    assert browse("installer").get(
        reverse("photo", args=[hatchback.code, photo.pk])
    ).status_code == 404  # fmt: skip
    assert browse("installer").post(_at(photo, "restore")).status_code == 302
    assert Photo.objects.filter(pk=photo.pk).exists()


def test_a_photo_of_a_person_goes_at_once(
    hatchback, photo, browse, django_capture_on_commit_callbacks
):
    """Files and caption are gone from row and history; that it was removed, and by whom, is not."""
    names = [photo.image.name, photo.small.name, photo.original.name]
    assert all(default_storage.exists(name) for name in names)
    with django_capture_on_commit_callbacks(execute=True):
        answer = browse("designer").post(_at(photo, "remove"), {"shows_person": "1"})
    assert answer.status_code == 302
    assert not any(default_storage.exists(name) for name in names)
    past = reverse("history", args=[hatchback.code]) + f"?of=picture-{photo.pk}"
    said = read(browse("manager"), past)
    assert "Dan Draw" in said
    assert "removed" in said
    assert "plate in view" not in said
    assert browse("manager").post(_at(photo, "restore")).status_code == 403


def test_who_may_let_files_go_at_once(hatchback, photo, browse, cast):
    """Whoever took it, and whoever may spec; another installer takes it out for thirty days."""
    Photo.objects.filter(pk=photo.pk).update(taken_by=cast.manager)
    gone = {"shows_person": "1"}
    assert browse("installer").post(_at(photo, "remove"), gone).status_code == 403
    assert browse("installer").post(_at(photo, "remove")).status_code == 302


def test_what_a_photo_shows_is_changed(hatchback, photo, browse):
    """Caption, panel and the tick; nonsense is kept as typed."""
    client = browse("installer")
    sent = typed(client.get(_at(photo, "edit")).context["form"])
    assert client.post(_at(photo, "edit"), sent | {"shows_person": "on"}).status_code == 302
    photo.refresh_from_db()
    assert photo.shows_person
    sent = typed(client.get(_at(photo, "edit")).context["form"])
    answer = client.post(_at(photo, "edit"), sent | {"caption": "far " * 50})
    assert answer.status_code == 422
    assert "far far" in answer.content.decode()


def test_a_photo_is_marked_by_whoever_works_on_the_car(hatchback, browse, cast):
    """An arrow is kept, drawn over the photo in the bay, and said in its history."""
    photo = _real(hatchback, cast)
    client = browse("installer")
    form = client.get(_at(photo, "edit")).context["form"]
    arrow = listed(form.fields["marks"], "marks", ("arrow", "10 %", "20 %", "60", "80"))
    assert client.post(_at(photo, "edit"), typed(form) | arrow).status_code == 302
    photo = Photo.objects.get(pk=photo.pk)
    assert photo.marks == [["arrow", 0.1, 0.2, 0.6, 0.8]]
    assert photo.proportion == 0.5
    assert "M100 100L600 400" in client.get(reverse("bay", args=[hatchback.code])).content.decode()
    past = reverse("history", args=[hatchback.code]) + f"?of=picture-{photo.pk}"
    assert "Marks – → now arrow, 10 %, 20 %, 60 %, 80 %" in read(browse("manager"), past)


@pytest.mark.parametrize(
    ("row", "says"),
    [
        (("arrow", "10", "20", "160", "80"), "beside the picture"),
        (("circle", "10", "20", "10", "20"), "the same"),
        (("circle", "12 bananas", "20", "10", "20"), "Row 1"),
    ],
)
def test_a_mark_that_cannot_be_drawn_is_told(hatchback, browse, cast, row, says):
    """What was typed stays in its cell."""
    photo = _real(hatchback, cast)
    client = browse("installer")
    form = client.get(_at(photo, "edit")).context["form"]
    answer = client.post(
        _at(photo, "edit"), typed(form) | listed(form.fields["marks"], "marks", row)
    )
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert f'value="{row[1]}"' in answer.content.decode()


def test_a_photo_moves_to_another_panel(hatchback, photo, browse):
    """With a step of the first panel it does not: the step is told to be another's."""
    client = browse("installer")
    other = hatchback.job.panels.exclude(pk=hatchback.sill.pk).first()
    step = hatchback.job.panelsteps.filter(panel=hatchback.sill).first()
    sent = typed(client.get(_at(photo, "edit")).context["form"]) | {"panel": other.pk}
    if step:
        answer = client.post(_at(photo, "edit"), sent | {"step": step.pk})
        assert "behind another panel" in answer.content.decode()
    assert client.post(_at(photo, "edit"), sent).status_code == 302
    photo.refresh_from_db()
    assert photo.panel == other


def _real(hatchback, cast) -> Photo:
    """A photo of twice its height, whose shape was not noted when it came."""
    file = io.BytesIO()
    Image.new("RGB", (80, 40), "grey").save(file, "JPEG")
    files = {name: ContentFile(file.getvalue(), "x.jpg") for name in ("image", "small", "original")}
    return Photo.objects.create(
        job=hatchback.job, panel=hatchback.sill, taken_by=cast.installer, **files
    )


def test_more_photos_than_are_taken_at_once_are_told(hatchback, browse, monkeypatch):
    """What was taken is counted, what was not as well; a file that is no photo stops nothing."""
    monkeypatch.setattr("jobs.pages.bay.notes.MOST_AT_ONCE", 2)
    files = [
        SimpleUploadedFile(name, content, "image/jpeg")
        for name, content in (("scan.jpg", b"%PDF-1.7"), ("a.jpg", picture()), ("b.jpg", picture()))
    ]
    url = reverse("bay-photos", args=[hatchback.code, hatchback.sill.pk])
    html = browse("installer").post(url, {"photo": files}, follow=True).content.decode()
    assert "scan.jpg: This file is no photo" in html
    assert "At most 2 photos at once. Not taken, to be sent again: 1." in html
    assert "Photos kept: 1." in html


def test_a_photo_of_a_panel_removed_meanwhile_is_kept_and_says_who(hatchback, browse):
    """With the panel it was taken of."""
    panel, client = hatchback.boot_floor, browse("installer")
    url = reverse("photo-add", args=[hatchback.code, panel.pk])
    for removed, says in (
        (False, "Photo kept."),
        (True, f"Photo kept. – has removed its panel meanwhile: {panel}."),
    ):
        if removed:
            panel.remove()
        file = SimpleUploadedFile("a.jpg", picture(), "image/jpeg")
        answer = client.post(url, {"photo": file, "caption": ""}, follow=True)
        assert [str(told) for told in answer.context["messages"]] == [says]
    assert Photo.objects.filter(panel_id=panel.pk).count() == 2
