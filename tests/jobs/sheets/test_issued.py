"""What was issued: it can be made again, its file is held to its hash, and what changed is said."""

from __future__ import annotations

import hashlib
import logging
import subprocess
import sys
from datetime import UTC, datetime

import pytest
from django.conf import settings
from django.core.files.base import ContentFile
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils.html import escape

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.design.records.data import from_data
from jobs.models import (
    AmplifierRating,
    Box,
    Conductor,
    Driver,
    IssuedSheet,
    Job,
    Panel,
    Part,
    Run,
    SheetKind,
    Workshop,
)
from jobs.sheets import engine
from jobs.sheets.issue import frozen, printed
from tests.jobs.scenes import Scene
from tests.jobs.sheets.kinds import OF_THE_WORK

pytestmark = pytest.mark.django_db
needs_pdf = pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable())
MOMENT = datetime(2026, 11, 28, 9, 0, tzinfo=UTC)


@pytest.fixture
def quick(monkeypatch):
    """Let nothing be laid out: these tests are about what happens round it."""
    monkeypatch.setattr(engine, "render", lambda html, **_more: html.encode())


def _job(scene: Scene) -> Job:
    return Job.objects.select_related("vehicle__customer", "consultant").get(pk=scene.job.pk)


def _issue(cast, scene: Scene, kind: SheetKind = SheetKind.BUILD) -> IssuedSheet:
    design = work_out(load(_job(scene)))
    return sheets.issue(design, kind, sheets.Options(), cast.manager)


def _change_all_parts() -> None:
    """Give every part of the catalogue another name and other figures."""
    for model in Part.__subclasses__():
        if model.__name__.startswith("Historical"):
            continue
        for part in model.objects.all():
            part.name = f"Another {part.pk}"
            for field in model._meta.concrete_fields:
                was = getattr(part, field.attname)
                if field.get_internal_type() == "FloatField" and was:
                    setattr(part, field.attname, was * 1.7)
            if isinstance(part, Conductor):
                part.size = "2 AWG"
            part.save()
    AmplifierRating.objects.update(power=7.0)
    shop = Workshop.current()
    shop.name, shop.kerf = "Another workshop", 0.009
    shop.save()


@pytest.mark.parametrize("kind", OF_THE_WORK)
def test_an_issued_sheet_prints_the_same_after_its_parts_have_changed(hatchback, cast, quick, kind):
    """What was frozen is enough: the same document, although every part has other figures."""
    issued = _issue(cast, hatchback, kind)
    assert len(issued.pdf) > 2000
    _change_all_parts()
    again = IssuedSheet.objects.get(pk=issued.pk)
    with CaptureQueriesContext(connection) as queries:
        design = work_out(from_data(again.data))
        options = sheets.Options(**again.data["options"] | {"boxes": ()})
        html, _attached = printed(
            design, sheets.SHEETS[kind], options, revision=again.revision, at=again.issued_at
        )
    assert html.encode() == bytes(again.pdf)
    assert len(queries) == 0
    now, _attached = printed(
        work_out(load(_job(hatchback))),
        sheets.SHEETS[kind],
        options,
        revision=1,
        at=again.issued_at,
    )
    assert now != html, "the parts were changed, and this sheet does not show it"


@needs_pdf
def test_the_bytes_are_the_same_too(saloon, cast, monkeypatch):
    """Laid out anew, the frozen data give the very file that was issued."""
    monkeypatch.setattr("django.utils.timezone.now", lambda: MOMENT)
    issued = _issue(cast, saloon, SheetKind.CABLES)
    _change_all_parts()
    design = work_out(from_data(IssuedSheet.objects.get(pk=issued.pk).data))
    IssuedSheet.objects.filter(pk=issued.pk).delete()
    again = sheets.issue(design, SheetKind.CABLES, sheets.Options(), cast.manager)
    assert again.sha256 == issued.sha256


def test_photos_are_kept_by_their_hash(hatchback, cast, quick, tmp_path):
    """Of each photo the hash is kept, and that its file is lost when it is."""
    panel = Panel.objects.filter(job=_job(hatchback)).first()
    photo = panel.photos.create(job=_job(hatchback), caption="behind it", taken_by=cast.installer)
    for name in ("image", "small", "original"):
        getattr(photo, name).save(f"{name}.jpg", ContentFile(name.encode()))
    kept = frozen(work_out(load(_job(hatchback))), sheets.Options())["photos"]
    assert kept[str(photo.pk)]["small"] == hashlib.sha256(b"small").hexdigest()
    photo.small.storage.delete(photo.small.name)
    kept = frozen(work_out(load(_job(hatchback))), sheets.Options())["photos"]
    assert kept[str(photo.pk)]["small"] == ""


def test_a_changed_file_is_refused(hatchback, cast, browse, quick, caplog):
    """Bytes that do not fit their hash are not shown; the page says so calmly, the log too."""
    issued = _issue(cast, hatchback)
    address = reverse("sheet-issued", args=[hatchback.code, issued.pk])
    assert browse("installer").get(address).content == bytes(issued.pdf)
    IssuedSheet.objects.update(pdf=b"%PDF-FAKE")
    with caplog.at_level(logging.ERROR):
        answer = browse("installer").get(address)
    assert answer.status_code == 409
    assert "has changed since it was issued" in answer.content.decode()
    assert b"FAKE" not in answer.content
    assert f"issued sheet {issued.pk}" in caplog.text
    assert browse("stranger").get(address).status_code == 404


def _says(browse, scene: Scene) -> str:
    page = browse("designer").get(reverse("sheets", args=[scene.code]))
    assert page.status_code == 200
    return " ".join(page.content.decode().split())


def test_the_page_says_what_has_changed_since(hatchback, cast, browse, quick):
    """By plain names: what is new, what is gone, which fields of what are others."""
    issued = _issue(cast, hatchback)
    said = _says(browse, hatchback)
    assert issued.sha256[:12] in said
    assert "the job has not changed since" in said
    box, run = Box.objects.filter(job=_job(hatchback)).first(), _job(hatchback).runs.first()
    box.width += 0.01
    box.save()
    run.colour = "BK"
    run.save()
    said = _says(browse, hatchback)
    assert f"changed since: {escape(f'box {box.name} (width), run {run.label} (colour')}" in said
    run.stretches.all().delete()
    assert f"run {run.label} (colour (IEC 60757), route)" in _says(browse, hatchback)
    Panel.objects.create(job=_job(hatchback), name="Tailgate")
    channel, panel = (
        _job(hatchback).channels.last(),
        _job(hatchback).panels.filter(contents__isnull=False).first(),
    )
    channel.remove()
    panel.remove()  # what was behind it still points at it
    said = _says(browse, hatchback)
    assert f"gone: panel {escape(panel.name)}" in said
    assert "new: panel Tailgate" in said
    assert f"gone: channel {escape(channel.name)}" in said
    issued = _issue(cast, hatchback)
    said = _says(browse, hatchback)
    assert "replaced by revision 2" in said
    assert "the job has not changed since" in said


def test_a_changed_part_or_setting_is_named(hatchback, cast, browse, quick):
    """The catalogue and the workshop count: a sheet was made from them as well."""
    _issue(cast, hatchback)
    driver = Driver.objects.filter(uses__job=_job(hatchback)).first()
    driver.fs = 99.0
    driver.save()
    rating = AmplifierRating.objects.filter(amplifier__uses__job=_job(hatchback)).first()
    rating.power += 1
    rating.save()
    shop = Workshop.current()
    shop.kerf = 0.009
    shop.save()
    said = _says(browse, hatchback)
    assert escape(f"driver {driver} (resonance fs)") in said
    assert escape(f"amplifier {rating.amplifier} (rated power)") in said
    assert escape(f"workshop {shop} (width of the cut)") in said


def test_what_follows_by_itself_is_no_change(hatchback, cast, browse, quick):
    """A stage, a count on the board, another sheet issued: none of it makes a sheet old."""
    _issue(cast, hatchback)
    _issue(cast, hatchback, SheetKind.LABELS)
    job = _job(hatchback)
    job.stage, job.open_stops = "handed_over", 3
    job.save()
    assert _says(browse, hatchback).count("the job has not changed since") == 2


def test_many_changes_are_counted(hatchback, cast, browse, quick):
    """The list stays short: the first few by name, then how many more."""
    _issue(cast, hatchback)
    Run.objects.filter(job=_job(hatchback)).update(length=9.9)
    more = Run.objects.filter(job=_job(hatchback)).count() - 6
    assert more > 0
    assert f"and {more} more" in _says(browse, hatchback)


def test_of_the_first_scheme_it_cannot_be_told(hatchback, cast, browse, quick):
    """It kept too little to compare with; the page warns of what is inside."""
    issued = _issue(cast, hatchback)
    IssuedSheet.objects.update(data={"schema": 1, "records": []}, fingerprint="")
    said = _says(browse, hatchback)
    assert "whether the job has changed since cannot be told" in said
    assert "it opens only to those who may see prices" in said
    assert reverse("sheet-issued", args=[hatchback.code, issued.pk]) not in said


def test_the_page_asks_as_often_however_many_were_issued(hatchback, cast, browse, quick):
    """The same number of queries for one sheet and for many, changed or not."""

    def asked() -> int:
        client = browse("designer")
        client.get(reverse("sheets", args=[hatchback.code]))
        with CaptureQueriesContext(connection) as queries:
            client.get(reverse("sheets", args=[hatchback.code]))
        return len(queries)

    _issue(cast, hatchback)
    Run.objects.filter(job=_job(hatchback)).update(length=9.9)
    one = asked()
    for kind in OF_THE_WORK[:3]:
        _issue(cast, hatchback, kind)
        _issue(cast, hatchback, kind)
    Run.objects.filter(job=_job(hatchback)).update(length=8.8)
    assert asked() == one


def test_nothing_is_locked_while_it_prints(hatchback, cast, monkeypatch):
    """While a sheet is laid out no transaction is open, so that others go on writing."""
    outside = len(connection.savepoint_ids)
    seen: list[int] = []

    def slow(html: str, **_more: object) -> bytes:
        seen.append(len(connection.savepoint_ids))
        return html.encode()

    monkeypatch.setattr(engine, "render", slow)
    _issue(cast, hatchback)
    assert seen == [outside]


def test_who_comes_second_takes_the_next_revision(hatchback, cast, monkeypatch):
    """The revision was taken while it printed: it is printed again under the next one."""
    prints: list[str] = []

    def render(html: str, **_more: object) -> bytes:
        if not prints:
            prints.append(html)
            _issue(cast, hatchback)
        prints.append(html)
        return html.encode()

    monkeypatch.setattr(engine, "render", render)
    issued = _issue(cast, hatchback)
    assert issued.revision == 2
    assert bytes(issued.pdf).decode() == prints[-1]
    assert sorted(IssuedSheet.objects.values_list("revision", flat=True)) == [1, 2]


TWO_FIRST_PRINTS = """
import sys, threading
import django
django.setup()
from jobs.sheets import engine
from tests.jobs.sheets.kinds import OF_THE_WORK
out, err = sys.stdout, sys.stderr
both = threading.Barrier(2)
printed = []
def first():
    both.wait()
    printed.append(engine.render("<p>invented</p>")[:4])
threads = [threading.Thread(target=first) for _ in range(2)]
[one.start() for one in threads]
[one.join() for one in threads]
assert sys.stdout is out and sys.stderr is err
print(printed)
"""


@needs_pdf
def test_two_first_prints_at_once_leave_the_output_alone():
    """Whoever prints first in two threads of a process finds stdout and stderr as they were."""
    done = subprocess.run(
        [sys.executable, "-c", TWO_FIRST_PRINTS],
        cwd=settings.BASE_DIR,
        env={"DJANGO_SETTINGS_MODULE": "config.settings", "PATH": "/usr/bin:/bin"},
        capture_output=True,
        text=True,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    assert done.stdout.strip() == "[b'%PDF', b'%PDF']"
