"""What is about the demo itself: it starts, it is sound, it prints, and few tests know it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import product
from pathlib import Path
from statistics import median

import pytest
from django.core.management import call_command
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.design.wiring.schedule import work_out_schedule
from jobs.models import Job, SheetKind, Workshop
from jobs.sheets.issue import printed
from tests.approval import hold
from tests.jobs.design.records.test_data import same
from tests.jobs.sheets.fill import pages_of
from tests.jobs.sheets.imprecise import imprecise_in
from tests.jobs.sheets.kinds import BY_THEMSELVES
from tests.jobs.test_approved import results
from wiring.findings import CODES, STOP

TESTS = Path(__file__).parents[1]
# The browser tests drive `make demo`; what they look for in it stands in their server.
KNOW_THE_DEMO = {
    "conftest.py",
    "jobs/test_demo.py",
    "browser/server.py",
    "config/test_bay_kills.py",
    "config/test_server.py",
    "served.py",
}
# Their pages are drawings at full size and sheets of labels.
FULL_SIZE = {SheetKind.TEMPLATES, SheetKind.LABELS}
# Its package, its jobs, the fixture that loads it.
SIGNS = re.compile(r"jobs\.demo\b|\bJ-000[1-9]\b|def \w+\([^)]*\bdemo\b")


def test_a_second_start_keeps_what_was_entered(demo, capsys) -> None:
    """The demo is loaded into an empty installation only; how to sign in is said each time."""
    job = next(iter(demo.values()))
    job.title = "Typed by a person"
    job.save()
    call_command("demo", port="8123")
    job.refresh_from_db()
    assert (job.title, Job.objects.count()) == ("Typed by a person", len(demo))
    said = capsys.readouterr().out
    assert "http://127.0.0.1:8123/" in said
    assert "consultant" in said


@pytest.mark.parametrize("code", ["J-0001", "J-0003"])
def test_the_results_of_the_demo_are_those_let_stand(code, demo) -> None:
    """Every figure of the two jobs with the most in them is the one that was let stand."""
    hold(f"results/{code}", results(work_out(load(demo[code]))))


def test_the_demo_has_no_stop_of_the_wiring(demo) -> None:
    """Nothing is shown around in the demo that burns."""
    stops = {code for code, severity in CODES.items() if severity == STOP}
    assert demo
    for code, job in demo.items():
        found = {one.code for one in work_out(load(job)).findings}
        assert found
        assert found & stops == set(), code


def test_the_runs_of_the_demo_are_complete(demo) -> None:
    """Grounds, control and signal runs: with cable, ends, routes, sides and what they meet."""
    lacks = {
        *("signal-run-missing", "turn-on-run-missing", "route-missing", "mute-run-missing"),
        *("fuse-holder-not-chosen", "fuse-terminal-not-chosen"),
        *("return-end-unknown", "terminal-not-chosen", "stud-torque-unknown", "side-unknown"),
        *("device-without-supply", "join-kind-unknown", "control-feed-unknown", "calls-open"),
        *("ground-surface-unknown", "ground-resistance-unknown", "run-wrong-side"),
    }
    assert demo
    for code, job in demo.items():
        design = work_out(load(job))
        assert {one.code for one in design.findings} & lacks == set(), code
        lists = work_out_schedule(design.records, design.power, design.records.workshop)
        assert lists.unended == [], code
        ends = {row.run.label for row in lists.ends}
        assert ends == {run.label for run in design.records.runs}, code
        assert design.records.grounds, code


def test_the_board_of_the_demo_counts_what_its_jobs_have(demo) -> None:
    """A job loaded with the demo is counted as one that somebody saved."""
    assert demo
    for job in demo.values():
        design = work_out(load(job))
        counts = (len(design.open_stops), len(design.open_looks))
        assert (job.open_stops, job.open_looks) == counts


def test_somebody_settled_looks_in_the_demo(demo) -> None:
    """Every decision that is loaded stands on a finding its job has."""
    settled = [
        (decision.job, decision.fingerprint)
        for job in demo.values()
        for decision in job.decisions.all()
    ]
    assert settled
    for job, fingerprint in settled:
        assert fingerprint in {
            one.fingerprint for one in work_out(load(job)).findings if one.decision
        }


def test_every_job_of_the_demo_reads_back_as_it_was(demo, django_assert_num_queries) -> None:
    """Written as plain data and read back, each job comes to the same."""
    assert demo
    for job in demo.values():
        assert same(load(job), django_assert_num_queries) > 10_000


@pytest.mark.long
@pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable())
def test_every_job_of_the_demo_prints_all_its_sheets(demo) -> None:
    """Each comes out of the printer, and breaks none of the rules of PDF/UA-1 that are tried."""
    errors_in = pytest.importorskip("tests.jobs.sheets.accessible").errors_in
    assert demo
    for job in demo.values():
        design = work_out(load(job))
        for kind in BY_THEMSELVES:
            assert (kind, errors_in(sheets.draft(design, kind, sheets.Options()))) == (kind, [])


def _documents(job, language: str = "en", paper: str = "a4") -> Iterator[tuple[SheetKind, str]]:
    """Every sheet of a job as it goes to be laid out."""
    records = load(job)
    with sheets.spoken(language, "metric"):
        design = work_out(records)
    options = sheets.Options(language=language, paper=paper)
    for kind, sheet in sheets.SHEETS.items():
        yield kind, printed(design, sheet, options, revision=0, at=timezone.now())[0]


def test_every_job_of_the_demo_has_all_its_sheets(demo) -> None:
    """Each has a page to print, with its name on it, and no figure finer than it is known."""
    assert demo
    for job in demo.values():
        for kind, html in _documents(job):
            assert job.code in html
            assert (kind, imprecise_in(html)) == (kind, [])


@pytest.mark.long
def test_no_page_of_the_demo_is_wasted(demo) -> None:
    """Every sheet of every job on each paper in each language: no page under a third full but
    the last, unless what comes next does not fit; how full they are is printed.
    """
    wasted, shares = [], []
    for job in demo.values():
        for language, paper in product(sheets.LANGUAGES, Workshop.Paper.values):
            for kind, html in _documents(job, language, paper):
                if kind in FULL_SIZE:
                    continue
                pages = pages_of(html)
                shares += [page.share for page in pages if not page.is_last]
                wasted += [
                    (job.code, kind, paper, language, page) for page in pages if page.is_wasted
                ]
    print(f"\n{len(shares)} pages but the last, at the median {median(shares):.0%} full")  # noqa: T201
    assert wasted == []


def test_few_tests_know_the_demo() -> None:
    """The demo may change: tests set scenes of their own (tests/jobs/scenes)."""
    know = {
        str(path.relative_to(TESTS))
        for path in TESTS.rglob("*.py")
        if SIGNS.search(path.read_text())
    }
    assert know == KNOW_THE_DEMO
