"""What is about the demo itself: it starts, it is sound, it prints, and few tests know it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from django.core.management import call_command
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.design.wiring.schedule import work_out_schedule
from jobs.models import Job
from jobs.sheets.issue import printed
from tests.jobs.design.records.test_data import same
from tests.jobs.sheets.kinds import BY_THEMSELVES
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
    """Whatever is printed of a job that is shown around comes out of the printer."""
    assert demo
    for job in demo.values():
        design = work_out(load(job))
        for kind in BY_THEMSELVES:
            assert sheets.draft(design, kind, sheets.Options()).startswith(b"%PDF")


def test_every_job_of_the_demo_has_all_its_sheets(demo) -> None:
    """Every sheet of a job that is shown around has a page to print, with its name on it."""
    assert demo
    for job in demo.values():
        design = work_out(load(job))
        for kind in sheets.KINDS:
            entry = sheets.SHEETS[kind]
            html, _ = printed(design, entry, sheets.Options(), revision=0, at=timezone.now())
            assert job.code in html


def test_few_tests_know_the_demo() -> None:
    """The demo may change: tests set scenes of their own (tests/jobs/scenes)."""
    know = {
        str(path.relative_to(TESTS))
        for path in TESTS.rglob("*.py")
        if SIGNS.search(path.read_text())
    }
    assert know == KNOW_THE_DEMO
