"""Photos in a bucket: kept, shown, printed and handed on as from a disk, on a server of others."""

from __future__ import annotations

import io
import logging
from collections.abc import Iterator

import pytest
from django.conf import settings
from django.core.files.storage import default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import call_command
from django.test import override_settings
from django.urls import reverse
from PIL import Image
from pypdf import PdfReader

from jobs import arrivals, sheets
from jobs.backup.database import Counts
from jobs.backup.making import Made
from jobs.design.job.whole import load, work_out
from jobs.models import Photo, SheetKind
from tests.jobs.portable.conftest import packed
from tests.jobs.portable.test_round_trip import taken_in

boto3 = pytest.importorskip("boto3")
moto = pytest.importorskip("moto.server")
pytest.importorskip("storages")
pytestmark = pytest.mark.django_db
NAME, KEYS = "invented", {"access_key": "invented", "secret_key": "invented"}


@pytest.fixture(scope="module")
def bucket() -> Iterator[dict[str, object]]:
    """A server that speaks S3, on this machine, with an empty bucket; how the app is told of it."""
    server = moto.ThreadedMotoServer(ip_address="127.0.0.1", port=0, verbose=False)
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    server.start()
    host, port = server.get_host_and_port()
    there = {"endpoint_url": f"http://{host}:{port}", "region_name": "us-east-1"}
    client = boto3.client("s3", aws_access_key_id=NAME, aws_secret_access_key=NAME, **there)
    client.create_bucket(Bucket=NAME)
    options = settings.IN_A_BUCKET["OPTIONS"] | there | KEYS | {"bucket_name": NAME}
    yield settings.STORAGES | {"default": settings.IN_A_BUCKET | {"OPTIONS": options}}
    server.stop()


@pytest.fixture(autouse=True)
def _in_the_bucket(bucket) -> Iterator[None]:
    with override_settings(STORAGES=bucket):
        yield


def _jpeg() -> bytes:
    written = io.BytesIO()
    Image.new("RGB", (640, 480), "grey").save(written, "JPEG")
    return written.getvalue()


def test_a_photo_goes_through_a_bucket_as_through_a_disk(hatchback, browse):
    """Sent from the bay, shown on its page, printed, handed out in a job's file and taken in;
    a lost one is missing and no error; what was changed is found.
    """
    client = browse("installer")
    url = reverse("bay-photos", args=[hatchback.code, hatchback.sill.pk])
    photo = SimpleUploadedFile("x.jpg", _jpeg(), content_type="image/jpeg")
    assert client.post(url, {"photo": photo}).status_code == 302
    kept = Photo.objects.get(panel=hatchback.sill)
    assert type(default_storage._wrapped).__name__ == "S3Storage"
    assert default_storage.exists(kept.small.name)
    shown = client.get(reverse("photo", args=[hatchback.code, kept.pk]))
    with kept.small.open("rb") as file:
        assert b"".join(shown.streaming_content) == file.read()
    pdf = sheets.draft(work_out(load(hatchback.job)), SheetKind.PANELS, sheets.Options())
    assert [image for page in PdfReader(io.BytesIO(pdf)).pages for image in page.images]
    made, _planned = taken_in(packed(hatchback.job))
    (copy,) = made.photos.all()
    assert default_storage.exists(copy.small.name)
    default_storage.delete(kept.small.name)
    assert client.get(reverse("photo", args=[hatchback.code, kept.pk])).status_code == 404
    sheets.draft(work_out(load(hatchback.job)), SheetKind.PANELS, sheets.Options())


def test_what_was_sent_and_not_taken_in_is_cleared_from_a_bucket(monkeypatch):
    """A bucket has no folders, so what is old is looked for by the beginning of its name."""
    name = arrivals.keep(SimpleUploadedFile("job.zip", b"PK"))
    file = arrivals.opened(name)
    assert file is not None
    with file:
        assert file.read() == b"PK"
    monkeypatch.setattr(arrivals, "KEPT", -arrivals.KEPT)
    arrivals.clear()
    assert arrivals.opened(name) is None


def test_a_back_up_says_that_photos_are_elsewhere(tmp_path, capsys, monkeypatch):
    """Its file holds the database; photos in a bucket are not missing, they are in the bucket."""
    written = Made(counts=Counts(jobs=1, photos=1, sheets=0, newest=None), missing=["media/x.jpg"])
    monkeypatch.setattr("jobs.management.commands.backup.back_up", lambda *_a, **_more: written)
    monkeypatch.setattr("jobs.management.commands.backup.mark.leave", lambda file: None)
    with override_settings(BUCKET=NAME):
        call_command("backup", str(tmp_path / "x.zip"))
    told = capsys.readouterr()
    assert NAME in told.out
    assert "not on the disk" not in told.err
