"""Many people at once, through the real server: nobody's work is lost and nobody is turned away."""

from __future__ import annotations

import uuid
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier
from typing import TypeVar

import pytest
from django.db import connection

from tests.served import JOB, Person, Served, numbers, served

pytestmark = pytest.mark.served

T = TypeVar("T")
# SQLite lets one write after the other, PostgreSQL several; neither loses one.
EDITORS = 40 if connection.vendor == "postgresql" else 8
PAIRS, MANY_PAIRS = 4, 40
AT_ONCE = 12


@pytest.fixture(scope="module")
def site(new_demo) -> Iterator[Served]:
    """The demo, served."""
    with served(new_demo()) as there:
        yield there


@pytest.fixture(scope="module")
def manager(site) -> Person:
    """Somebody who may do everything."""
    return Person(site.port).sign_in("manager")


@pytest.fixture(scope="module")
def designer(site) -> Person:
    """Somebody else."""
    return Person(site.port).sign_in("designer")


def _together(count: int, do: Callable[[int], T]) -> list[T]:
    """Do something several times at the same moment."""
    line = Barrier(count)

    def waited(number: int) -> T:
        line.wait()
        return do(number)

    with ThreadPoolExecutor(count) as people:
        return list(people.map(waited, range(count)))


def _edited(site: Served, people: list[Person], path: str, field: str, table: str) -> None:
    """All open one record, all save: the first is done, every other one is told."""
    forms = [person.form(path, "version") for person in people]
    assert len({form["version"] for form in forms}) == 1
    mark = uuid.uuid4().hex[:8]

    def save(number: int) -> tuple[int, str]:
        return people[number].post(path, forms[number] | {field: f"{mark} {number}"})

    answers = [status for status, _where in _together(len(people), save)]
    assert sorted(answers) == [302] + [422] * (len(people) - 1)
    stored = site.rows(f"SELECT {field}, version FROM {table} WHERE {field} LIKE '{mark}%'")
    assert stored == [(f"{mark} {answers.index(302)}", int(forms[0]["version"]) + 1)]


def test_of_many_who_edit_one_record_each_but_the_first_is_told(site, manager):
    """40 at once on PostgreSQL, 8 on SQLite: one is saved, the others are shown it."""
    people = [manager.again() for _ in range(EDITORS)]
    _edited(site, people, f"/catalogue/{site.part()}/", "name", "jobs_part")


def test_of_two_who_edit_one_row_of_a_job_the_second_is_told(site, manager, designer):
    """A few times over, a row of a job and what a job is about."""
    jobs = f"SELECT id FROM jobs_job WHERE number = {int(JOB[2:])}"
    ((panel,),) = site.rows(f"SELECT min(id) FROM jobs_panel WHERE job_id IN ({jobs})")
    for _round in range(PAIRS // 2):
        two = [manager.again(), designer.again()]
        _edited(site, two, f"/jobs/{JOB}/panel/{panel}/", "name", "jobs_panel")
        _edited(site, two, f"/jobs/{JOB}/brief/", "title", "jobs_job")


@pytest.mark.long
def test_forty_of_forty_are_told(site, manager, designer):
    """Forty pairs, one after the other."""
    for _round in range(MANY_PAIRS):
        two = [manager.again(), designer.again()]
        _edited(site, two, f"/jobs/{JOB}/brief/", "title", "jobs_job")


def _new_job(person: Person) -> dict[str, str]:
    form = person.form("/jobs/new/", "entry_token")
    car = {"maker": "M", "model": "N", "driver_side": "left", "energy": "combustion"}
    return form | car | {"new_customer": "Invented", "title": "at once"}


def test_new_jobs_at_once_have_a_number_each(site, manager):
    """Twelve start a job at the same moment: all are started, no number is given twice."""
    sent = [_new_job(manager) for _ in range(AT_ONCE)]
    answers = _together(AT_ONCE, lambda n: manager.again().post("/jobs/new/", sent[n]))
    assert [status for status, _where in answers] == [302] * AT_ONCE
    assert len(set(numbers([where for _status, where in answers]))) == AT_ONCE
    given = [number for (number,) in site.rows("SELECT number FROM jobs_job ORDER BY number")]
    assert given == list(range(1, len(given) + 1))  # none twice, none left out


def test_a_job_sent_several_times_at_once_is_started_once(site, manager):
    """A hand that shakes starts one job for one customer."""
    sent = _new_job(manager) | {"title": "shaken", "new_customer": "Shaken"}
    answers = _together(6, lambda _n: manager.again().post("/jobs/new/", sent))
    assert {status for status, _where in answers} == {302}
    assert len(set(numbers([where for _status, where in answers]))) == 1
    assert site.rows("SELECT count(*) FROM jobs_job WHERE title = 'shaken'") == [(1,)]
    assert site.rows("SELECT count(*) FROM jobs_customer WHERE name = 'Shaken'") == [(1,)]


def test_new_runs_at_once_have_a_label_each(site, manager):
    """Twelve enter a cable of one job at the same moment: all are kept, no label is given twice."""
    path = f"/jobs/{JOB}/run/add/"
    empty = [manager.form(path, "entry_token") for _ in range(AT_ONCE)]
    sent = [form | {"kind": "C", "from_text": "a", "to_text": "at once"} for form in empty]
    answers = _together(AT_ONCE, lambda n: manager.again().post(path, sent[n]))
    assert [status for status, _where in answers] == [302] * AT_ONCE
    labels = site.rows("SELECT number FROM jobs_run WHERE to_text = 'at once'")
    assert len(set(labels)) == len(labels) == AT_ONCE


def test_a_row_sent_several_times_at_once_is_made_once(site, manager):
    """Of one entry all are answered as saved, and one is there."""
    path = f"/jobs/{JOB}/panel/add/"
    sent = manager.form(path, "entry_token") | {"name": "shaken panel"}
    answers = _together(6, lambda _n: manager.again().post(path, sent))
    assert [status for status, _where in answers] == [302] * 6
    assert site.rows("SELECT count(*) FROM jobs_panel WHERE name = 'shaken panel'") == [(1,)]


def test_of_several_who_agree_at_once_one_wins(site):
    """Six with one link at the same moment: one yes is taken, each other reads whose it was."""
    ((key, token),) = site.rows("SELECT id, token FROM jobs_offer WHERE accepted_at IS NULL")
    drawn = {"agree": "on", "signature": "[[100, 200, 300, 100, 500, 300]]"}
    asked = ("space_to_keep", "must_stay_factory", "looks")
    _status, _headers, text = Person(site.port).get(f"/o/{token}/")
    ticked = {"asked": [name for name in asked if f'id="asked-{name}"' in text]}

    def agree(number: int) -> tuple[int, str]:
        person = Person(site.port)
        sent = drawn | ticked | {"name": f"Customer {number}"}
        status, _headers, page = person.ask("POST", f"/o/{token}/", sent)
        return status, page

    answers = _together(6, agree)
    assert sorted(status for status, _page in answers) == [200] + [409] * 5
    winner = f"Customer {[status for status, _page in answers].index(200)}"
    assert all(f"agreed already, by {winner}" in page for status, page in answers if status == 409)
    assert site.rows(f"SELECT accepted_name FROM jobs_offer WHERE id = {key}") == [(winner,)]


def test_wrong_passwords_at_once_are_counted(site):
    """Eight at the same moment: each is answered in words, none breaks the page."""
    people = [Person(site.port) for _ in range(8)]
    for person in people:
        person.get("/sign-in/")
    wrong = {"username": "nobody", "password": "wrong"}
    answers = _together(8, lambda n: people[n].post("/sign-in/", wrong))
    assert {status for status, _where in answers} <= {200, 429}


def test_nothing_was_said_to_be_locked(site):
    """After all of this the log holds no error; it is the last test of this module."""
    assert [line for line in site.log.read_text().splitlines() if '"level": "error"' in line] == []
