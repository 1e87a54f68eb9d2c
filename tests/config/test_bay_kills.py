"""The server is killed while phones send what was done in the bay: none is lost, none doubled."""

from __future__ import annotations

import io
import json
import random
import threading
import uuid
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import Any

import pytest
from PIL import Image

from tests.served import BROKEN, Person, Served, served

pytestmark = pytest.mark.served

CODE = "J-0001"
KILLS, MANY_KILLS = 20, 200
WHOLE_EVERY = 10  # the server with all its processes
PHONES = 3
BUSY = {0, 502, 503}


def _photo() -> bytes:
    file = io.BytesIO()
    Image.effect_noise((320, 240), 60).save(file, "JPEG")
    return file.getvalue()


class Phone(threading.Thread):
    """A phone in the bay: one act after the other, each sent until it is answered."""

    def __init__(self, person: Person, author: int, number: int, site: Served) -> None:
        super().__init__(daemon=True)
        self.person, self.author, self.number = person, author, number
        found = site.rows(
            "SELECT s.id, s.panel_id FROM jobs_panelstep s JOIN jobs_panel p ON p.id = s.panel_id "
            "JOIN jobs_job j ON j.id = s.job_id WHERE j.number = 1 AND NOT s.wants_photo "
            "AND NOT p.airbag_near AND NOT p.drilled AND NOT p.glass_near "
            "ORDER BY s.id"
        )
        self.step, self.panel = found[number % len(found)]
        self.photo = _photo()
        self.answered: Counter[str] = Counter()
        self.notes: list[str] = []
        self.ticked = False
        self.sent_again = 0
        self.odd: list[tuple[int, str]] = []
        self.ended = threading.Event()

    def run(self) -> None:
        count = 0
        while not self.ended.is_set():
            count += 1
            kind = ("tick", "photo", "note")[count % 3]
            act: dict[str, Any] = {"kind": kind, "panel": self.panel}
            if kind == "tick":
                self.ticked = not self.ticked
                act |= {"step": self.step, "done": "1" if self.ticked else "0", "sure": "1"}
            if kind == "note":
                act |= {"note": "note", "text": f"phone {self.number} note {count}"}
            self._send(act, self.photo if kind == "photo" else b"")
            self.answered[kind] += 1
            if kind == "note":
                self.notes.append(act["text"])

    def _send(self, act: dict[str, Any], photo: bytes) -> None:
        """Send until it is answered: the same key each time, as bay.js does."""
        act |= {"key": str(uuid.uuid4()), "author": self.author}
        act["at"] = act["sent"] = datetime.now(UTC).isoformat()
        while True:
            try:
                status, _headers, text = self.person.ask(
                    "POST", f"/jobs/{CODE}/bay/acts/", act, photo
                )
            except BROKEN:
                status, text = 0, ""
            if status == 200:
                assert "says" in json.loads(text)
                return
            if status not in BUSY:
                self.odd.append((status, text[:200]))
                return
            self.sent_again += 1
            self.ended.wait(0.05)


def _killed(site: Served, kills: int, chance: random.Random) -> tuple[Counter[str], int]:
    """Kill at random moments while phones send; returns what was answered and sent again."""
    installer = Person(site.port).sign_in("installer")
    (author,) = site.rows("SELECT id FROM jobs_user WHERE username = 'installer'")[0]
    photos_before = site.rows("SELECT count(*) FROM jobs_photo")[0][0]
    phones = [Phone(installer.again(), author, number, site) for number in range(PHONES)]
    for phone in phones:
        phone.start()
    done = 0
    for kill in range(1, kills + 1):
        # Somebody was answered again, and then any moment will do.
        while sum(phone.answered.total() for phone in phones) <= done:
            assert any(phone.is_alive() for phone in phones)
            threading.Event().wait(0.02)
        threading.Event().wait(chance.uniform(0, 0.4))
        done = sum(phone.answered.total() for phone in phones)
        if kill % WHOLE_EVERY:
            site.kill_one()
        else:
            site.kill_all()
            assert site.is_sound()
    for phone in phones:
        phone.ended.set()
    for phone in phones:
        phone.join(timeout=120)
        assert not phone.is_alive()
    assert [phone.odd for phone in phones] == [[]] * PHONES
    answered = sum((phone.answered for phone in phones), Counter[str]())
    _hold_to_the_database(site, phones, answered, photos_before)
    return answered, sum(phone.sent_again for phone in phones)


def _hold_to_the_database(
    site: Served, phones: list[Phone], answered: Counter[str], photos_before: int
) -> None:
    """Every act that was answered is there, and once."""
    acts = site.rows("SELECT count(*), count(DISTINCT key) FROM jobs_bayact")
    assert acts == [(answered.total(), answered.total())]
    noted = [
        text for (text,) in site.rows("SELECT text FROM jobs_baynote WHERE text LIKE 'phone%'")
    ]
    assert sorted(noted) == sorted(note for phone in phones for note in phone.notes)
    photos = site.rows("SELECT count(*), count(DISTINCT image) FROM jobs_photo")[0]
    assert photos == (photos_before + answered["photo"],) * 2
    for phone in phones:
        ((at,),) = site.rows(f"SELECT done_at FROM jobs_panelstep WHERE id = {phone.step}")
        assert (at is not None) == phone.ticked
    assert site.is_sound()


@pytest.fixture(scope="module")
def site(new_demo) -> Iterator[Served]:
    """The demo, served."""
    with served(new_demo()) as there:
        yield there


def test_what_a_phone_was_answered_outlives_a_kill(site):
    """Kill -9 at random while three phones tick, photograph and note: none lost, none doubled."""
    answered, again = _killed(site, KILLS, random.Random(8))
    assert min(answered[kind] for kind in ("tick", "photo", "note")) > 0
    assert again > 0


@pytest.mark.long
def test_what_a_phone_was_answered_outlives_two_hundred_kills(new_demo, record_property):
    """The same two hundred times, on an installation of its own."""
    with served(new_demo()) as there:
        answered, again = _killed(there, MANY_KILLS, random.Random())
    record_property("answered", dict(answered))
    record_property("sent again", again)
    assert answered.total() >= MANY_KILLS
    assert again > 0
