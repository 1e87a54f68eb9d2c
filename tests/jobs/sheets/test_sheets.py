"""The printed documents: what is on them, that they freeze, and who may print them."""

from __future__ import annotations

import hashlib
import io
from datetime import UTC, datetime
from functools import lru_cache

import pytest
from django.core.management import CommandError, call_command
from django.urls import reverse
from pypdf import PdfReader

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import Decision, IssuedSheet, SheetKind, Workshop
from jobs.sheets import engine, panels
from tests.jobs.sheets.kinds import OF_THE_WORK, on_paper

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
]
NBSP = "\N{NO-BREAK SPACE}"


@lru_cache(maxsize=32)
def words(pdf: bytes) -> str:
    """Everything a reader can select on a sheet, on one line."""
    text = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)
    return " ".join(text.replace(NBSP, " ").split())


def test_what_the_installer_needs_stands_apart_from_what_it_rests_on(hatchback, as_loaded):
    """Litres and sources are on the workings alone, cables and channels on the build
    sheet, sizes of wood on neither.
    """
    design = as_loaded.design(hatchback)
    text = words(as_loaded.sheet(hatchback, SheetKind.BUILD))
    workings = words(as_loaded.sheet(hatchback, SheetKind.WORKINGS))
    box = design.boxes[0]
    for of_the_desk in (
        on_paper(box.net_volume, "volume"),
        "Leakage radiates in this model",
    ):
        assert of_the_desk in workings
        assert of_the_desk not in text
    assert "Cut list" not in text
    for run in design.records.runs:
        assert run.label in text
    for channel in design.channels:
        assert channel.channel.name in text


def test_every_page_names_its_job_and_counts(hatchback, as_loaded):
    """Job number and page X of Y stand on each page, in A4 and in Letter."""
    for paper, width in (("a4", 595), ("letter", 612)):
        pdf = as_loaded.sheet(hatchback, SheetKind.PANELS, paper=paper)
        pages = PdfReader(io.BytesIO(pdf)).pages
        assert round(float(pages[0].mediabox.width)) == width
        for number, page in enumerate(pages, start=1):
            text = page.extract_text()
            assert hatchback.code in text
            assert f"{number} / {len(pages)}" in text


def test_the_panel_record_tells_the_ends_behind_each_panel(hatchback):
    """Where a route begins or ends, its cores, studs and torques; in between nothing."""
    design = work_out(load(hatchback.job))
    ends = dict(panels.context(design)["ends"])
    floor, trim = (
        next(stretch.panel for stretch in reversed(run.route))
        for run in (hatchback.main_run, hatchback.six_run)
    )
    here = {(row.label, row.at_start) for row in ends[floor.pk]}
    main, six = hatchback.main_run.label, hatchback.six_run.label
    assert {(f"{main} +", True), (f"{main} −", False), (f"{six} +", True)} <= here
    assert (f"{six} +", False) not in here
    # A ferrule goes into a clamp: no stud, nothing to tighten here.
    assert trim != floor
    there = {(row.label, row.at_start, row.stud) for row in ends[trim.pk]}
    assert (f"{six} +", False, "") in there
    # Signal and turn-on are made there too.
    assert {hatchback.line_run.label, hatchback.turn_on_run.label} <= {
        label for label, _at_start, _stud in there
    }
    every = [(row.label, row.number, row.at_start) for rows in ends.values() for row in rows]
    schedule = panels.context(design)["schedule"]
    loose = panels.context(design)["loose"]
    assert loose == {"grounds": [hatchback.sensor], "joins": [hatchback.join]}
    assert sorted(every) == sorted((r.label, r.number, r.at_start) for r in schedule.ends)
    sensor = next(r for r in ends[floor.pk] if r.label == f"{main} −" and r.at_start)
    assert (sensor.stud, sensor.torque) == ("M8", 10.0)


def test_hand_over_fits_the_glove_box_and_says_whom_to_call(hatchback, as_loaded):
    """At most eight pages, with the fuses, what is still factory and the workshop's number."""
    pdf = as_loaded.sheet(hatchback, SheetKind.HANDOVER)
    assert len(PdfReader(io.BytesIO(pdf)).pages) <= 8
    text = words(pdf)
    assert "Never a larger fuse" in text
    assert Workshop.current().phone in text
    assert "stays in use" in text


def test_sheets_speak_german(hatchback, as_loaded):
    """The language asked for reaches headings, choices and numbers."""
    text = words(as_loaded.sheet(hatchback, SheetKind.HANDOVER, language="de"))
    assert "Never a larger fuse" not in text
    assert hatchback.main_run.fuse.rating == 150
    assert "150 A" in text


def test_sheets_are_tagged_for_screen_readers(saloon, as_loaded):
    """A sheet is a tagged PDF in the language it is written in."""
    pdf = as_loaded.sheet(saloon, SheetKind.BUILD)
    root = PdfReader(io.BytesIO(pdf)).trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root


def test_decisions_and_open_stops_are_printed(van, saloon, as_loaded, browse):
    """An accepted look carries name and reason, an open stop stands on the sheet."""
    look = next(one for one in work_out(load(saloon.job)).findings if one.code == "port-noisy")
    address = reverse("decide", args=[saloon.code, look.key])
    reason = "The customer heard a sample and agreed."
    browse("designer").post(address, {"fingerprint": look.fingerprint, "reason": reason})
    accepted = words(sheets.draft(work_out(load(saloon.job)), SheetKind.BUILD, sheets.Options()))
    decision = Decision.objects.get(job=saloon.job)
    assert decision.reason == reason
    assert decision.name in accepted
    assert decision.reason in accepted
    (stop,) = (f for f in work_out(load(van.job)).findings if f.code == "airbag-procedure-missing")
    paper = words(as_loaded.sheet(van, SheetKind.HANDOVER))
    assert stop.says in paper
    assert stop.code not in paper


def test_the_same_inputs_give_the_same_bytes(saloon, monkeypatch):
    """Two prints at the same moment are alike to the last byte, of a sheet and of a whole pack."""
    moment = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
    monkeypatch.setattr("django.utils.timezone.now", lambda: moment)
    design = work_out(load(saloon.job))
    first = sheets.draft(design, SheetKind.CUSTOMER, sheets.Options())
    assert first == sheets.draft(design, SheetKind.CUSTOMER, sheets.Options())


def test_an_issued_sheet_is_frozen(saloon, cast, browse):
    """It keeps its bytes and its data when the job changes, and the next one counts up."""
    job = saloon.job
    design = work_out(load(job))
    issued = sheets.issue(design, SheetKind.PANELS, sheets.Options(), cast.manager)
    assert issued.revision == 1
    assert hashlib.sha256(bytes(issued.pdf)).hexdigest() == issued.sha256
    panel = saloon.bench
    panel.name = "Renamed afterwards"
    panel.save()
    answer = browse("installer").get(reverse("sheet-issued", args=[saloon.code, issued.pk]))
    assert answer.content == bytes(issued.pdf)
    again = sheets.issue(design, SheetKind.PANELS, sheets.Options(), cast.manager)
    assert again.revision == 2


@pytest.fixture
def quick(monkeypatch):
    """Let nothing be laid out: every kind of sheet is, in test_breaks."""
    monkeypatch.setattr(engine, "render", lambda html, **_more: b"%PDF-" + html.encode())


@pytest.mark.parametrize("kind", OF_THE_WORK)
def test_sheet_pages_answer_members_only(van, browse, kind, quick):
    """A member prints a draft, a stranger gets 404, an unknown sheet is 404."""
    address = reverse("sheet-draft", args=[van.code, kind])
    assert browse("installer").get(address)["Content-Type"] == "application/pdf"
    assert browse("stranger").get(address).status_code == 404
    assert browse("installer").post(address).status_code == 405
    assert browse("installer").get(address.replace(kind, "poster")).status_code == 404


def test_only_those_who_decide_issue(van, browse):
    """An installer prints drafts; issuing is refused (403) and nothing is frozen."""
    address = reverse("sheet-issue", args=[van.code, SheetKind.PANELS])
    assert browse("installer").post(address).status_code == 403
    assert browse("stranger").post(address).status_code == 404
    assert browse("designer").get(address).status_code == 405
    assert not IssuedSheet.objects.exists()


def test_without_pango_the_page_says_what_to_type(hatchback, browse, monkeypatch):
    """The app runs on without PDFs and its buttons say why."""
    line = "apt-get install libpango-1.0-0"
    monkeypatch.setattr("jobs.sheets.unavailable", lambda: line)
    page = browse("designer").get(reverse("sheets", args=[hatchback.code]))
    assert line in page.content.decode()
    answer = browse("designer").get(reverse("sheet-draft", args=[hatchback.code, "build"]))
    assert answer.status_code == 302


def test_command_writes_every_sheet(van, tmp_path, quick):
    """`manage.py sheets J-0123 --out DIR` writes them all; an unknown job is named."""
    call_command("sheets", van.code, "--out", str(tmp_path), "--paper", "letter")
    assert sorted(file.name for file in tmp_path.iterdir()) == sorted(
        f"{van.code}-{kind}.pdf" for kind in sheets.KINDS
    )
    with pytest.raises(CommandError, match="no job J-9999"):
        call_command("sheets", "J-9999", "--out", str(tmp_path))
