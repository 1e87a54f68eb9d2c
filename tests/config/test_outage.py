"""The app or its database ends in the middle of something: nothing acknowledged is lost."""

from __future__ import annotations

import threading
import uuid
from collections.abc import Iterator

import pytest
from django.db import connection

from tests.served import BROKEN, JOB, Person, Served, served

pytestmark = pytest.mark.served

KILLS, MANY_KILLS = 20, 200
WHOLE_EVERY = 10  # the server, and the database's server with it
WRITERS = 4
of_a_server = pytest.mark.skipif(
    connection.vendor != "postgresql", reason="needs PostgreSQL: python -m tests.postgres pytest"
)


@pytest.fixture(scope="module")
def site(new_demo) -> Iterator[Served]:
    """The demo, served."""
    with served(new_demo()) as there:
        yield there


class Writer(threading.Thread):
    """Somebody who enters one part after the other, and sends again what was not answered."""

    def __init__(self, person: Person, number: int) -> None:
        super().__init__(daemon=True)
        self.person, self.number = person, number
        self.saved: list[str] = []
        self.sent_again = 0
        self.odd: list[int] = []
        self.ended = threading.Event()

    def run(self) -> None:
        count = 0
        while not self.ended.is_set():
            count += 1
            name = f"writer {self.number} part {count}"
            sent = {"name": name, "tax_class": "standard", "entry_token": str(uuid.uuid4())}
            if self._send(sent):
                self.saved.append(name)

    def _send(self, sent: dict[str, str]) -> bool:
        """Send until it is acknowledged, the same entry each time; false where it is refused."""
        while True:
            try:
                status, _where = self.person.post("/catalogue/add/other/", sent)
            except BROKEN:
                status = 0
            if status == 302:
                return True
            if status not in (0, 503):
                self.odd.append(status)
                self.ended.set()
                return False
            self.sent_again += 1
            self.ended.wait(0.05)


def _killed(site: Served, kills: int) -> tuple[int, int]:
    """Kill again and again while others write; returns how much was saved and sent again."""
    manager = Person(site.port).sign_in("manager")
    writers = [Writer(manager.again(), number) for number in range(WRITERS)]
    for writer in writers:
        writer.start()
    done = 0
    for kill in range(1, kills + 1):
        # Somebody is at work again before the next blow falls.
        while sum(len(writer.saved) for writer in writers) <= done:
            assert any(writer.is_alive() for writer in writers), [one.odd for one in writers]
            threading.Event().wait(0.02)
        done = sum(len(writer.saved) for writer in writers)
        if kill % WHOLE_EVERY:
            site.kill_one()
        else:
            site.kill_all()
            assert site.is_sound()
    for writer in writers:
        writer.ended.set()
    for writer in writers:
        writer.join(timeout=120)
        assert not writer.is_alive()
    assert [writer.odd for writer in writers] == [[]] * WRITERS
    stored = [name for (name,) in site.rows("SELECT name FROM jobs_part WHERE name LIKE 'writer%'")]
    saved = {name for writer in writers for name in writer.saved}
    assert saved - set(stored) == set()  # none is missing
    assert len(stored) == len(set(stored))  # none is there twice
    histories = site.rows("SELECT count(*) FROM jobs_historicalpart WHERE name LIKE 'writer%'")
    assert histories == [(len(stored),)]  # each with its history, none half
    assert site.is_sound()
    return len(saved), sum(writer.sent_again for writer in writers)


def test_what_was_acknowledged_outlives_a_kill(site):
    """Kill -9 of its processes, and of all at once, while four write: none lost, none doubled."""
    saved, again = _killed(site, KILLS)
    assert saved >= KILLS
    assert again > 0


@pytest.mark.long
def test_what_was_acknowledged_outlives_two_hundred_kills(new_demo, record_property):
    """The same two hundred times, on an installation of its own."""
    with served(new_demo()) as there:
        saved, again = _killed(there, MANY_KILLS)
    record_property("saved", saved)
    record_property("sent again", again)
    assert saved >= MANY_KILLS
    assert again > 0


@of_a_server
def test_a_database_that_is_away_is_said_calmly(site):
    """503 in the reader's language, to be tried again; up, not ready; then all is as before."""
    assert site.cluster is not None
    manager = Person(site.port).sign_in("manager")
    brief = manager.form(f"/jobs/{JOB}/brief/", "version")
    title = "typed while the database was away"
    site.cluster.stop()
    try:
        for _worker in range(4):
            status, headers, text = manager.get("/", **{"Accept-Language": "de"})
            assert status == 503
            assert int(headers["Retry-After"]) > 0
            assert headers["Cache-Control"] == "private, no-store"
            assert 'lang="de"' in text
            assert 'href="/"' in text
        status, _headers, text = manager.ask(
            "POST", f"/jobs/{JOB}/brief/", brief | {"title": title}
        )
        assert status == 503
        assert 'class="button"' not in text  # a link would not send it again
        assert manager.get("/health/")[0] == 200
        assert manager.get("/ready/")[0] == 503
        assert manager.get("/static/jobs/css/page.css")[0] == 200
    finally:
        site.cluster.start()
    assert manager.get("/ready/")[0] == 200
    for _worker in range(4):
        assert manager.get("/")[0] == 200
    assert manager.post(f"/jobs/{JOB}/brief/", brief | {"title": title})[0] == 302
    assert site.rows(f"SELECT count(*) FROM jobs_job WHERE title = '{title}'") == [(1,)]
