"""Two machines behind one address: one PostgreSQL and one bucket, and only one of them prints."""

from __future__ import annotations

import hashlib
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest

from jobs import sheets
from tests.browser.server import crowded
from tests.bucket import NAME
from tests.bucket import running as bucket
from tests.jobs.test_photos import _jpeg as picture
from tests.postgres.__main__ import HASTY
from tests.postgres.server import MISSING, is_installed, running
from tests.served import JOB, PASSWORD, ROOT, Person, Served

pytestmark = [
    pytest.mark.served,
    pytest.mark.long,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
]
# The job of the file that is taken in, which has no box and little to print.
KINDS = ("cables", "labels", "build", "workings", "glovebox")


@pytest.fixture(scope="module")
def machines(tmp_path_factory) -> Iterator[tuple[Served, Served]]:
    """The one that only answers, and the one that prints too; nothing on a disk is shared."""
    if not is_installed():
        pytest.skip(MISSING)
    with running(HASTY) as cluster, bucket() as address:
        shared = {
            "DJANGO_SETTINGS_MODULE": "config.settings",
            "UNDERTRIM_SECRET_KEY": "invented for two machines",
            "UNDERTRIM_S3_BUCKET": NAME,
            "UNDERTRIM_S3_ENDPOINT": address,
            "UNDERTRIM_S3_REGION": "us-east-1",
            "UNDERTRIM_S3_KEY": NAME,
            "UNDERTRIM_S3_SECRET": NAME,
        }
        folders = [tmp_path_factory.mktemp(name) for name in ("answers", "prints")]
        answers = Served(folders[0], cluster, how=("serve",), **shared, UNDERTRIM_PRINTS="0")
        prints = Served(folders[1], cluster, how=("serve",), **shared)
        _begin(prints)
        for machine in (answers, prints):
            machine.start()
        try:
            yield answers, prints
        finally:
            for machine in (answers, prints):
                machine.stop()


def _begin(machine: Served) -> None:
    """Make the tables, let a manager in, and take in a job: much less than the demo."""
    who = ("--username", "manager", "--name", "Max Ende", "--workshop", "Invented")
    for command in (
        ("manage.py", "migrate", "--verbosity", "0"),
        ("manage.py", "first_manager", *who, "--password-stdin"),
        ("manage.py", "job", "import", str(ROOT / "tests/jobs/portable/version-1.zip")),
    ):
        subprocess.run(
            [sys.executable, *command], cwd=ROOT, env=machine.environment,
            check=True, input=f"{PASSWORD}\n", text=True, stdout=subprocess.DEVNULL,
        )  # fmt: skip


@pytest.fixture(scope="module")
def people(machines) -> tuple[Person, Person]:
    """One person at both: who signed in at the first is known at the second."""
    first = Person(machines[0].port).sign_in("manager")
    second = Person(machines[1].port)
    second.cookies = first.cookies
    assert second.get("/")[0] == 200
    return first, second


def _wait(until: Callable[[], bool]) -> None:
    """Wait for something another process does."""
    end = time.monotonic() + 180 * max(crowded(), 1)
    while not until():
        assert time.monotonic() < end, "waited too long"
        time.sleep(0.2)


def _all_printed(machine: Served) -> bool:
    states = {state for (state,) in machine.rows("SELECT state FROM jobs_printorder")}
    assert "failed" not in states
    return states == {"printed"}


def _printing(machine: Served) -> int:
    """How many processes print."""
    ((count,),) = machine.rows("SELECT count(*) FROM jobs_printworker")
    return int(count)


def test_a_sheet_asked_for_at_one_machine_is_printed_by_the_other(machines, people):
    """The first has no process that prints; the draft is read there all the same."""
    answers, prints = machines
    assert (len(answers.processes), len(prints.processes)) == (2, 3)
    _wait(lambda: _printing(prints) == 1)
    page = f"/jobs/{JOB}/sheets/labels/?paper=a4&language=en"
    assert people[0].get(page)[0] == 202
    _wait(lambda: _all_printed(answers))
    for person in people:
        status, headers, text = person.get(page)
        assert (status, headers["Content-Type"], text[:5]) == (200, "application/pdf", "%PDF-")


def test_a_photo_sent_to_one_machine_shows_on_the_other(machines, people):
    """It lies in the bucket, and on no machine's disk."""
    answers, prints = machines
    number = int(JOB[2:])
    ((panel,),) = prints.rows(
        "SELECT min(p.id) FROM jobs_panel p JOIN jobs_job j ON j.id = p.job_id "
        f"WHERE j.number = {number}"
    )
    sent = people[1].ask("POST", f"/jobs/{JOB}/panel/{panel}/photos/", {}, photo=picture())
    assert sent[0] == 302
    ((photo,),) = answers.rows("SELECT max(id) FROM jobs_photo")
    status, headers, text = people[0].get(f"/jobs/{JOB}/photo/{photo}/")
    assert (status, headers["Content-Type"], len(text) > 500) == (200, "image/jpeg", True)
    for machine in machines:
        kept = machine.folder / "media"
        assert [file for file in kept.rglob("*") if file.is_file()] == []


def test_ten_sheets_issued_at_once_keep_one_chain(machines, people):
    """Asked for at both, printed by a process on each: a revision each, every byte, one chain."""
    answers, prints = machines
    beside = subprocess.Popen(
        [sys.executable, "manage.py", "print_worker"],
        cwd=ROOT, env=answers.environment, stderr=subprocess.DEVNULL,
    )  # fmt: skip

    def issue(number: int) -> int:
        person = people[number % 2].again()
        sent = {"paper": "a4", "language": "en", "sure": "1", "reason": f"the {number}th"}
        return person.post(f"/jobs/{JOB}/sheets/{KINDS[number // 2]}/issue/", sent)[0]

    try:
        _wait(lambda: _printing(prints) == 2)
        with ThreadPoolExecutor(10) as at_once:
            assert set(at_once.map(issue, range(10))) == {302}
        _wait(lambda: _all_printed(answers))
    finally:
        beside.terminate()
        assert beside.wait(timeout=60) == 0
    issued = prints.rows(
        "SELECT s.id, s.kind, s.revision, s.sha256, length(s.pdf) FROM jobs_issuedsheet s "
        f"JOIN jobs_job j ON j.id = s.job_id WHERE j.number = {int(JOB[2:])} ORDER BY s.id"
    )
    assert sorted((kind, revision) for _pk, kind, revision, *_rest in issued) == sorted(
        (kind, revision) for kind in KINDS for revision in (1, 2)
    )
    for number, (pk, _kind, _revision, sha256, in_the_row) in enumerate(issued):
        pdf = people[number % 2].read(f"/jobs/{JOB}/sheets/issued/{pk}/")
        assert (hashlib.sha256(pdf).hexdigest(), in_the_row) == (sha256, 0)
    workers = prints.rows("SELECT count(DISTINCT worker) FROM jobs_printorder WHERE to_issue")
    assert workers == [(2,)]
    verified = subprocess.run(
        [sys.executable, "manage.py", "verify"], cwd=ROOT, env=answers.environment,
        capture_output=True, text=True,
    )  # fmt: skip
    assert verified.returncode == 0, verified.stdout
    assert [
        line for line in answers.log.read_text().splitlines() if '"level": "error"' in line
    ] == []
