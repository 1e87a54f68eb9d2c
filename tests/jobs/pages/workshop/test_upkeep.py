"""The manager sees how the house runs, and what to do where it does not."""

from __future__ import annotations

import datetime as dt
from collections import namedtuple
from contextlib import nullcontext
from types import SimpleNamespace

import pytest
from django.core.management import call_command
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from config.workshop import certificate
from config.workshop.certificate import Place
from jobs.backup import mark
from jobs.models import PrintOrder, PrintWorker, Session
from jobs.pages.workshop import upkeep
from jobs.sheets.printing.worker import SILENT, Worker
from tests.jobs.factories import make_job

pytestmark = pytest.mark.django_db
Usage = namedtuple("Usage", "total used free")


@pytest.fixture(autouse=True)
def _own_folder(settings, tmp_path):
    settings.VAR_DIR = tmp_path


def _page(browse) -> str:
    return " ".join(browse("manager").get(reverse("upkeep")).content.decode().split())


def _order(cast, **more: object) -> PrintOrder:
    return PrintOrder.objects.create(
        job=make_job(), kind="build", options={"paper": "a4", "language": "en", "boxes": []},
        to_issue=False, asked_by=cast.designer, asked_at=timezone.now(), **more,
    )  # fmt: skip


def test_it_is_linked_for_the_manager_alone(browse):
    """The link stands in the manager's head menu and in nobody else's."""
    url = reverse("upkeep")
    assert url in browse("manager").get("/").content.decode()
    assert url not in browse("consultant").get("/").content.decode()
    assert browse("manager").post(url).status_code == 405


@pytest.mark.parametrize(
    ("age", "words"),
    [
        (None, "No back-up was made yet"),
        (dt.timedelta(hours=47), "Young enough."),
        (dt.timedelta(hours=49), "The last back-up is more than two days old"),
    ],
)
def test_a_back_up_that_is_missing_or_old_is_said(browse, tmp_path, monkeypatch, age, words):
    """Its age and size are read from the mark it left."""
    if age is not None:
        file = tmp_path / "undertrim.zip"
        file.write_bytes(b"x" * 2048)
        now = timezone.now()
        with monkeypatch.context() as earlier:
            earlier.setattr(mark.timezone, "now", lambda: now - age)
            mark.leave(file)
    html = _page(browse)
    said = {"No back-up was made yet", "Young enough.", "The last back-up is more than two days"}
    assert words in html
    assert sum(one in html for one in said) == 1
    assert ("2.0 KB" in html) is (age is not None)


@pytest.mark.parametrize("damage", ["", "{", "[]", '{"at": "x"}', '{"at": 1, "file": 1}'])
def test_a_damaged_mark_counts_as_none(tmp_path, damage):
    """Unknown is never taken for good."""
    (tmp_path / mark.NAME).write_text(damage)
    assert mark.read() is None


@pytest.mark.parametrize(("free", "low"), [(9.9, True), (10.1, False)])
def test_a_disk_that_is_nearly_full_is_said(browse, monkeypatch, free, low):
    """Below a tenth somebody must make room."""
    usage = Usage(total=100 * 10**9, used=0, free=int(free * 10**9))
    monkeypatch.setattr(upkeep.shutil, "disk_usage", lambda folder: usage)
    html = _page(browse)
    assert f"{free} GB of 100.0 GB are free" in html
    assert ("The disk is nearly full" in html) is low


@pytest.mark.parametrize(
    ("days", "words"),
    [(800, ""), (30, "runs out in 29 days"), (0, "ran out"), (None, "")],
)
def test_a_certificate_near_its_end_is_said(browse, settings, monkeypatch, tmp_path, days, words):
    """A month before, after it, else only the day; where the file is not to be read, that."""
    place = Place(folder=tmp_path)
    if days is not None:
        monkeypatch.setattr(certificate, "DAYS", days)
        certificate.make_authority(place, "Invented workshop", ["undertrim.invalid"])
        certificate.make_certificate(place, ["undertrim.invalid"])
    settings.CERTIFICATES = [str(place.certificate)]
    shown = _page(browse)
    assert ("runs out on" in shown) == (days is not None) == ("is not known" not in shown)
    assert words in shown
    assert ("opens this house without a warning" in shown) == bool(words)


def test_whether_anything_prints_is_said(browse):
    """A process that was silent for a while prints nothing, as far as anybody knows."""
    words = "The process that prints gives no sign"
    assert words in _page(browse)
    Worker().beat()
    assert words not in _page(browse)
    PrintWorker.objects.update(beat_at=timezone.now() - SILENT)
    assert words in _page(browse)


def test_prints_that_wait_or_failed_are_listed_with_a_way_to_ask_again(browse, cast):
    """By job and sheet; a failed one with its reason and its button."""
    html = _page(browse)
    assert "No print is waiting." in html
    assert "No print failed in the last week." in html
    waits = _order(cast)
    failed = _order(
        cast, state="failed", trouble="broken", detail="ZeroDivisionError",
        finished_at=timezone.now(),
    )  # fmt: skip
    html = _page(browse)
    assert reverse("sheet-print", args=[waits.job.code, waits.pk]) in html
    assert reverse("sheet-print-again", args=[failed.job.code, failed.pk]) in html
    assert "Something went wrong while it was printed." in html
    assert "ZeroDivisionError" in html


def test_it_asks_as_many_questions_of_twenty_rows_as_of_one(browse, cast):
    """Prints and devices are read once, however many."""
    client, url = browse("manager"), reverse("upkeep")

    def rows(number: int) -> None:
        for n in range(number):
            _order(cast)
            _order(cast, state="failed", finished_at=timezone.now())
            Session.objects.create(
                session_key=f"{number} {n}", session_data="", user=cast.designer, device="phone",
                seen_at=timezone.now(), expire_date=timezone.now() + dt.timedelta(days=1),
            )  # fmt: skip

    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert client.get(url).status_code == 200
        return len(queries)

    rows(1)
    client.get(url)
    few = asked()
    rows(19)
    assert asked() == few
    assert client.get(url).content.decode().count("Dan Draw, a phone") == 20


def test_a_back_up_leaves_its_mark(tmp_path, monkeypatch):
    """The command notes when it was made, how large it is and where."""
    file = tmp_path / "made.zip"

    def make(installation: object, file, *, replace: bool) -> object:
        file.write_bytes(b"x" * 10)
        return namedtuple("Made", "counts missing")("", [])

    monkeypatch.setattr("jobs.management.commands.backup.back_up", make)
    monkeypatch.setattr("jobs.management.commands.backup.Installation.here", lambda: None)
    call_command("backup", str(file))
    left = mark.read()
    assert left is not None
    assert (left.file, left.size) == (str(file), 10)
    assert left.age < dt.timedelta(minutes=1)
    assert (tmp_path / mark.NAME).stat().st_mode & 0o077 == 0


def test_a_database_of_its_own_server_is_asked_for_its_size(monkeypatch):
    """The server's answer to one question, in bytes."""
    asked: list[str] = []
    cursor = SimpleNamespace(execute=asked.append, fetchone=lambda: (123_456_789, 1))
    connection = SimpleNamespace(vendor="postgresql", cursor=lambda: nullcontext(cursor))
    monkeypatch.setattr(upkeep, "connection", connection)
    assert upkeep._database_size() == 123_456_789
    assert asked == ["SELECT pg_database_size(current_database())"]
