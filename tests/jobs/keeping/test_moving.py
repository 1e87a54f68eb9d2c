"""Files moved from the disk into a bucket and back: each checked, none lost, begun again."""

from __future__ import annotations

import errno
import hashlib
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import Storage, default_storage, storages
from django.core.management import CommandError, call_command
from django.test import override_settings

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.keeping import moving
from jobs.models import IssuedSheet, Job, Photo, SheetKind, User
from jobs.sheets import engine
from jobs.sheets.chain import faults
from tests.bucket import NAME, running
from tests.jobs.factories import make_job

Config = pytest.importorskip("botocore.config").Config
pytest.importorskip("storages")
pytestmark = pytest.mark.django_db


@pytest.fixture(scope="module")
def bucket() -> Iterator[dict[str, object]]:
    """How the app is told of a bucket on this machine."""
    with running() as address:
        there = {"endpoint_url": address, "region_name": "us-east-1", "bucket_name": NAME}
        keys = {"access_key": NAME, "secret_key": NAME}
        options = settings.IN_A_BUCKET["OPTIONS"] | there | keys
        yield settings.STORAGES | {"default": settings.IN_A_BUCKET | {"OPTIONS": options}}


@pytest.fixture
def disk(tmp_path) -> Iterator[Storage]:
    """The store beside the database, in a folder of the test's own."""
    with override_settings(MEDIA_ROOT=tmp_path / "media"):
        yield storages.create_storage(settings.BESIDE)


@pytest.fixture
def moved(bucket, disk):
    """Move files; returns what was said."""

    def run(to: str, *more: str, given: dict[str, object] = bucket) -> str:
        with override_settings(STORAGES=given, BUCKET=NAME):
            call_command("files", to, *more)

    return run


def _photo(disk: Storage, job: Job, name: str, by: User) -> Photo:
    """A photo whose three files lie on the disk."""
    for part in ("image", "small", "original"):
        disk.save(f"photos/{name}-{part}.jpg", ContentFile(f"{name} {part}".encode() * 9))
    files = {part: f"photos/{name}-{part}.jpg" for part in ("image", "small", "original")}
    return Photo.objects.create(job=job, taken_by=by, **files)


def _lying(store: Storage) -> dict[str, bytes]:
    lying = {}
    for name in moving.lying_in(store):
        with store.open(name) as opened:
            lying[name] = opened.read()
    return lying


def test_files_go_into_the_bucket_and_come_back_as_they_were(
    hatchback, cast, bucket, disk, moved, monkeypatch, capsys
):
    """Photos, whatever else lies there and an issued sheet; looked at first, then moved, then back,
    byte for byte, and every chain of sheets still holds.
    """
    monkeypatch.setattr(engine, "render", lambda html, **_more: b"%PDF-" + html.encode())
    sheet = sheets.issue(
        work_out(load(hatchback.job)), SheetKind.HANDOVER, sheets.Options(), cast.manager
    )
    pdf = bytes(sheet.pdf)
    assert pdf
    _photo(disk, hatchback.job, "sill", cast.manager)
    disk.save("takes/sweep.wav", ContentFile(b"RIFF"))
    before = _lying(disk)
    moved("bucket", "--dry-run")
    assert "would move" in capsys.readouterr().out
    assert _lying(disk) == before
    moved("bucket")
    with override_settings(STORAGES=bucket, BUCKET=NAME):
        sheet.refresh_from_db()
        there = _lying(default_storage)
        assert (bytes(sheet.pdf), sheet.content()) == (b"", pdf)
        assert there == before | {sheet.file.name: pdf}
        assert list(faults(Job.objects.get(pk=hatchback.job.pk))) == []
    assert _lying(disk) == {}
    capsys.readouterr()
    moved("disk")
    sheet.refresh_from_db()
    assert (bytes(sheet.pdf), sheet.file.name) == (pdf, "")
    # What no row names stays in a bucket that may hold what is not ours.
    assert _lying(disk) == {name: held for name, held in before.items() if "sweep" not in name}
    with override_settings(STORAGES=bucket, BUCKET=NAME):
        assert set(_lying(default_storage)) == {"takes/sweep.wav"}
        default_storage.delete("takes/sweep.wav")


def test_what_cannot_be_moved_is_named_and_left(cast, bucket, disk, moved, capsys):
    """A file that is lost and one whose name is another's; the rest is moved, and again says so."""
    job = make_job()
    lost, other = (_photo(disk, job, name, cast.manager) for name in ("lost", "other"))
    disk.delete(lost.small.name)
    with override_settings(STORAGES=bucket, BUCKET=NAME):
        default_storage.save(other.image.name, ContentFile(b"of somebody else"))
        for _turn in range(2):
            with pytest.raises(CommandError, match="2 files were not moved"):
                moved("bucket")
            told = capsys.readouterr().err
            assert f"{lost.small.name}: is named by the database and lies neither" in told
            assert f"{other.image.name}: another file" in told
            assert disk.exists(other.image.name)
        assert _lying(default_storage)[other.image.name] == b"of somebody else"
        for name in _lying(default_storage):
            default_storage.delete(name)


def test_a_move_that_was_cut_off_is_begun_again(cast, bucket, disk, moved, monkeypatch):
    """Stopped between two files, and in the middle of one: the same command ends what it began."""
    photo = _photo(disk, make_job(), "cut", cast.manager)
    every = _lying(disk)
    whole, count = Storage.save, iter(range(9))

    def stopped(self, name, content, max_length=None):
        if next(count) == 1:
            raise KeyboardInterrupt
        return whole(self, name, content, max_length)

    monkeypatch.setattr(Storage, "save", stopped)
    with pytest.raises(CommandError, match="Stopped"):
        moved("bucket")
    assert len(_lying(disk)) == 2
    moved("bucket")
    assert _lying(disk) == {}
    half = Path(disk.path(photo.small.name))
    half.parent.mkdir(parents=True, exist_ok=True)
    half.write_bytes(every[photo.small.name][:7])
    moved("disk")
    assert _lying(disk) == every


def test_nothing_goes_before_its_copy_was_read_back(cast, bucket, disk, moved, monkeypatch, capsys):
    """A store that keeps other bytes than it was given costs nobody the file."""
    photo, read = _photo(disk, make_job(), "bent", cast.manager), moving._hash

    def bent(store, name, first=None):
        wrong = type(store).__name__ == "S3Storage" and name == photo.image.name
        return hashlib.sha256(b"x").hexdigest() if wrong else read(store, name, first)

    monkeypatch.setattr(moving, "_hash", bent)
    with pytest.raises(CommandError, match="1 files were not moved"):
        moved("bucket")
    assert "was not read back" in capsys.readouterr().err
    assert set(_lying(disk)) == {photo.image.name}
    monkeypatch.undo()
    moved("bucket")
    moved("disk")


def test_a_full_disk_and_a_bucket_that_is_gone_are_told(cast, bucket, disk, moved, monkeypatch):
    """Both stop the move with nothing lost; without a bucket there is nothing to move."""
    photo = _photo(disk, make_job(), "full", cast.manager)
    every = _lying(disk)
    options = bucket["default"]["OPTIONS"] | {
        "endpoint_url": "http://127.0.0.1:9",
        "client_config": Config(connect_timeout=1, retries={"total_max_attempts": 1}),
    }
    with pytest.raises(CommandError, match="does not answer"):
        moved("bucket", given=bucket | {"default": bucket["default"] | {"OPTIONS": options}})
    assert _lying(disk) == every
    moved("bucket")

    def full(*_given, **_named):
        raise OSError(errno.ENOSPC, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr("django.core.files.locks.lock", full)  # once its file is there
        with pytest.raises(CommandError, match="disk is full"):
            moved("disk")
    assert _lying(disk) == {}
    moved("disk")
    assert _lying(disk) == every
    assert Photo.objects.get(pk=photo.pk).small.name in every
    assert not IssuedSheet.objects.exists()
    with override_settings(BUCKET=""), pytest.raises(CommandError, match="No bucket is set"):
        call_command("files", "bucket")
