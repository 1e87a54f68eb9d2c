"""What a watcher is told: up, ready, nothing about anybody; a lost database, a full disk."""

from __future__ import annotations

import errno
import sqlite3
from contextlib import closing

import psycopg
import pytest
from django.contrib.sessions.backends.base import UpdateError
from django.contrib.sessions.backends.db import SessionStore as TableStore
from django.db import InterfaceError, OperationalError
from django.test import Client, override_settings

from jobs import sessions
from jobs.pages import health

WATCHED = (health.HEALTH, health.READY)


@pytest.mark.parametrize("path", WATCHED)
def test_a_watcher_needs_no_account_and_no_tls(db, path):
    """Both answer a machine that knows nothing but the address, and are kept by nobody."""
    with override_settings(SECURE_SSL_REDIRECT=True):
        answer = Client().get(path)
    assert (answer.status_code, answer.json()) == (200, {"ok": True})
    assert "no-store" in answer.headers["Cache-Control"]
    assert not answer.cookies
    assert Client().post(path).status_code == 405


def test_health_asks_no_database(client):
    """A test without a database may ask for it; it would be told otherwise."""
    assert client.get(health.HEALTH).status_code == 200


@pytest.mark.parametrize("error", [OperationalError, InterfaceError])
def test_not_ready_while_the_database_is_away(db, monkeypatch, error):
    """Said in a word, with a status a balancer understands."""

    def gone(_connection):
        raise error("host 10.0.0.1 refused user max")

    monkeypatch.setattr(health, "MigrationExecutor", gone)
    answer = Client().get(health.READY)
    assert (answer.status_code, answer.json()) == (503, {"ok": False, "trouble": "database"})
    assert Client().get(health.HEALTH).status_code == 200


def test_not_ready_before_every_migration_is_in(db):
    """The tables of a test come from the models: by the migrations on the disk none is applied."""
    with override_settings(MIGRATION_MODULES={}):
        answer = Client().get(health.READY)
    assert (answer.status_code, answer.json()["trouble"]) == (503, "migrations")


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_lost_database_is_said_in_the_readers_language(db, monkeypatch, language):
    """503 and when to try again; what was asked for by its address can be asked for again."""
    client = Client(raise_request_exception=False)

    def gone():
        raise OperationalError("FATAL: the database system is shutting down")

    monkeypatch.setattr("jobs.pages.middleware.Workshop.read", gone)
    answer = client.get("/sign-in/?next=/x", headers={"Accept-Language": language})
    text = answer.content.decode()
    assert answer.status_code == 503
    assert int(answer.headers["Retry-After"]) > 0
    assert f'lang="{language}"' in text
    assert 'href="/sign-in/?next=/x"' in text
    assert "FATAL" not in text
    sent = client.post("/sign-in/", {"username": "max"}, headers={"Accept-Language": language})
    assert sent.status_code == 503
    assert "<a " not in sent.content.decode()


def test_a_fault_of_ours_stays_a_fault(db, monkeypatch):
    """Only a database that does not answer is asked for again; anything else is a 500."""

    def wrong():
        raise ValueError("a bug")

    monkeypatch.setattr("jobs.pages.middleware.Workshop.read", wrong)
    client = Client(raise_request_exception=False)
    answer = client.get("/sign-in/", headers={"Accept-Language": "de"})
    assert answer.status_code == 500
    assert "Retry-After" not in answer.headers
    assert 'lang="de"' in answer.content.decode()


@pytest.mark.parametrize("language", ["en", "de"])
def test_what_is_too_much_is_said_in_the_readers_language(db, settings, language):
    """A form that is not taken whole is not saved, and its page keeps what was typed in the tab."""
    settings.DATA_UPLOAD_MAX_NUMBER_FIELDS = 1
    client = Client()
    answer = client.post("/sign-in/", {"a": "1", "b": "2"}, headers={"Accept-Language": language})
    assert answer.status_code == 400
    assert f'lang="{language}"' in answer.content.decode()
    assert "js/unsaved" in answer.content.decode()


def _full_sqlite() -> Exception:
    """What SQLite says when it has no room: one of three pages, which it may not exceed."""
    with closing(sqlite3.connect(":memory:")) as small:
        small.execute("PRAGMA max_page_count = 3")
        try:
            small.execute("CREATE TABLE large AS SELECT zeroblob(100000)")
        except sqlite3.OperationalError as error:
            return error
    raise AssertionError("there was room")


def _by_django(cause: Exception) -> OperationalError:
    error = OperationalError(*cause.args)
    error.__cause__ = cause
    return error


@pytest.mark.parametrize(
    ("error", "status"),
    [
        (_by_django(_full_sqlite()), 507),
        (_by_django(psycopg.errors.DiskFull("could not extend file")), 507),
        (OSError(errno.ENOSPC, "No space left on device", "a photo"), 507),
        (_by_django(psycopg.errors.AdminShutdown("terminating connection")), 503),
        (OSError(errno.EACCES, "Permission denied"), 500),
    ],
)
def test_a_full_disk_is_told_from_what_passes_by_itself(db, monkeypatch, error, status):
    """RFC 4918, 11.5: somebody has to make room; in words, whatever ran out of it."""

    def full():
        raise error

    monkeypatch.setattr("jobs.pages.middleware.Workshop.read", full)
    answer = Client(raise_request_exception=False).get("/sign-in/")
    assert answer.status_code == status
    assert ("The disk is full" in answer.content.decode()) is (status == 507)


def test_a_page_is_read_although_nothing_can_be_noted_of_it(hatchback, browse, monkeypatch):
    """On a full disk the note that somebody is there is left out; another fault is told."""
    client = browse("manager")
    session = client.session
    session[sessions.SEEN] = 0  # so long ago that each page notes it anew
    session.save()

    def failing(error):
        def save(self, must_create=False):
            try:
                raise error
            except OperationalError:
                raise UpdateError from None

        return save

    monkeypatch.setattr(TableStore, "save", failing(_by_django(_full_sqlite())))
    assert client.get("/").status_code == 200
    client.raise_request_exception = False
    gone = _by_django(psycopg.errors.AdminShutdown("terminating connection"))
    monkeypatch.setattr(TableStore, "save", failing(gone))
    assert client.get("/").status_code == 503
