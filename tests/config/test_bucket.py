"""Photos and issued sheets in a bucket: kept, shown, handed on and erased as from a disk."""

from __future__ import annotations

import io
from collections.abc import Iterator

import pytest
from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import Storage, default_storage
from django.core.files.uploadedfile import SimpleUploadedFile
from django.core.management import CommandError, call_command
from django.test import override_settings
from django.urls import reverse
from django.utils import timezone
from PIL import Image
from pypdf import PdfReader

from jobs import arrivals, sheets
from jobs.backup.database import Counts
from jobs.backup.making import Made
from jobs.design.job.whole import load, work_out
from jobs.keeping.erase import erase
from jobs.keeping.removed import delete_files
from jobs.models import CustomerPage, IssuedSheet, Job, Photo, SheetKind
from jobs.sheets import engine
from jobs.sheets.chain import faults
from tests.bucket import NAME, running
from tests.jobs.portable.conftest import packed
from tests.jobs.portable.test_round_trip import taken_in

Config = pytest.importorskip("botocore.config").Config
pytest.importorskip("storages")
pytestmark = pytest.mark.django_db
KEYS = {"access_key": NAME, "secret_key": NAME}


@pytest.fixture(scope="module")
def bucket() -> Iterator[dict[str, object]]:
    """A server that speaks S3, on this machine, with an empty bucket; how the app is told of it."""
    with running() as address:
        there = {"endpoint_url": address, "region_name": "us-east-1", "bucket_name": NAME}
        options = settings.IN_A_BUCKET["OPTIONS"] | there | KEYS
        yield settings.STORAGES | {"default": settings.IN_A_BUCKET | {"OPTIONS": options}}


@pytest.fixture(autouse=True)
def _in_the_bucket(bucket) -> Iterator[None]:
    with override_settings(STORAGES=bucket, BUCKET=NAME):
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


@pytest.fixture
def issued(hatchback, cast, monkeypatch) -> IssuedSheet:
    """A hand-over, issued into the bucket."""
    monkeypatch.setattr(engine, "render", lambda html, **_more: b"%PDF-" + html.encode())
    design = work_out(load(hatchback.job))
    return sheets.issue(design, SheetKind.HANDOVER, sheets.Options(), cast.manager)


def test_an_issued_sheet_goes_through_a_bucket(hatchback, issued, browse):
    """Its row is small, its bytes are what was printed, its chain holds, and a file takes it along;
    changed or lost in the bucket it is found, and its page says so.
    """
    job, client = Job.objects.get(pk=hatchback.job.pk), browse("manager")
    assert (bytes(issued.pdf), default_storage.exists(issued.file.name)) == (b"", True)
    pdf = issued.content()
    page = reverse("sheet-issued", args=[job.code, issued.pk])
    assert client.get(page).content == pdf
    assert list(faults(job)) == []
    made, planned = taken_in(packed(job))
    copy = made.issued_sheets.get()
    assert (copy.content(), planned.damaged) == (pdf, [])
    assert copy.file.name != issued.file.name
    default_storage.delete(issued.file.name)
    assert [fault.what for fault in faults(job)] == ["its PDF is missing from the store"]
    answer = client.get(page)
    assert (answer.status_code, "is missing" in answer.content.decode()) == (409, True)
    paper = reverse("customer-paper", args=[CustomerPage.objects.get(job=job).token])
    assert client.get(paper).status_code == 404
    packed(job)
    default_storage.save(issued.file.name, ContentFile(b"%PDF-another"))
    assert [fault.what for fault in faults(job)] == ["its PDF was changed"]
    assert client.get(page).status_code == 409


def test_a_sheet_that_is_not_kept_leaves_no_file(hatchback, issued, cast):
    """What is raised in the transaction that keeps it takes the bytes back too."""

    def refused(_sheet: IssuedSheet) -> None:
        raise LookupError

    folder = f"sheets/{hatchback.job.pk}"
    before = default_storage.listdir(folder)
    with pytest.raises(LookupError):
        sheets.issue(
            work_out(load(hatchback.job)), SheetKind.HANDOVER, sheets.Options(), cast.manager,
            kept=refused,
        )  # fmt: skip
    assert default_storage.listdir(folder) == before


def test_who_is_erased_is_on_no_sheet_in_the_bucket(hatchback, issued, cast):
    """The file goes with the bytes; the number, the date and the link of the chain stay."""
    name = issued.file.name
    customer = hatchback.job.vehicle.customer
    delete_files(erase(customer, by=cast.manager, why="asked for", plates=True))
    issued.refresh_from_db()
    assert (issued.file.name, default_storage.exists(name)) == ("", False)
    assert list(faults(Job.objects.get(pk=hatchback.job.pk))) == []


def test_sheets_move_into_a_bucket_and_back(hatchback, issued, monkeypatch, tmp_path):
    """What was issued goes either way as it is; a lost file or an erased sheet goes neither."""
    monkeypatch.setattr(settings, "MEDIA_ROOT", tmp_path)
    pdf, name = issued.content(), issued.file.name
    call_command("files", "disk")
    issued.refresh_from_db()
    assert (bytes(issued.pdf), issued.file.name) == (pdf, "")
    assert not default_storage.exists(name)
    folder = f"sheets/{hatchback.job.pk}"
    with monkeypatch.context() as meanwhile:

        def erase_first(_of: object, *given: object, **named: object) -> object:
            IssuedSheet.objects.update(pdf=b"", erased_at=timezone.now())
            return keep(_of, *given, **named)

        keep = Storage.save
        meanwhile.setattr(Storage, "save", erase_first)
        before = default_storage.listdir(folder)
        call_command("files", "bucket")
    assert default_storage.listdir(folder) == before
    IssuedSheet.objects.update(pdf=pdf, erased_at=None)
    call_command("files", "bucket")
    issued.refresh_from_db()
    assert (bytes(issued.pdf), issued.content()) == (b"", pdf)
    assert list(faults(Job.objects.get(pk=hatchback.job.pk))) == []
    default_storage.delete(issued.file.name)
    with pytest.raises(CommandError, match="1 files were not moved"):
        call_command("files", "disk")
    issued.refresh_from_db()
    assert issued.file.name


def test_a_bucket_that_does_not_answer_is_told(hatchback, issued, browse, bucket):
    """Whoever opens a sheet meanwhile reads what is the matter and tries again."""
    options = bucket["default"]["OPTIONS"] | {
        "endpoint_url": "http://127.0.0.1:9",
        "client_config": Config(connect_timeout=1, retries={"total_max_attempts": 1}),
    }
    client = browse("manager")
    client.raise_request_exception = False
    gone = bucket | {"default": bucket["default"] | {"OPTIONS": options}}
    with override_settings(STORAGES=gone):
        answer = client.get(reverse("sheet-issued", args=[hatchback.code, issued.pk]))
    assert answer.status_code == 503
    assert "store of photos and sheets" in answer.content.decode()


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
