"""What a watcher is told: up, ready, and nothing about anybody; and the page of a lost database."""

from __future__ import annotations

import pytest
from django.db import InterfaceError, OperationalError
from django.test import Client, override_settings

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
