"""`manage.py first_manager`: the first door, opened once; and Django's own, which stays shut."""

from __future__ import annotations

import io

import pytest
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from jobs.models import Job, User, Workshop

pytestmark = pytest.mark.django_db
PASSWORD = "kiln-yard-77"


@pytest.fixture
def for_real(db) -> None:
    """An installation that was set up for real: the workshop is entered, nobody is in."""
    Workshop.objects.create(name="Invented workshop")


def _first(monkeypatch, *more: str, password: str = PASSWORD, username: str = "ruth") -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(f"{password}\n"))
    call_command(
        "first_manager", "--username", username, "--name", "Ruth van Ambler", "--password-stdin",
        *more,
    )  # fmt: skip


def test_the_first_manager_lets_others_in(for_real, monkeypatch):
    """Made on the machine itself, signs in, and sees the page of people."""
    _first(monkeypatch)
    ruth = User.objects.get(username="ruth")
    assert (ruth.first_name, ruth.last_name) == ("Ruth van", "Ambler")
    client = Client()
    client.post(reverse("login"), {"username": "ruth", "password": PASSWORD})
    page = client.get(reverse("people"))
    assert page.status_code == 200
    assert "Ruth van Ambler" in page.content.decode()
    assert "on the machine itself" in client.get(reverse("account")).content.decode()


def test_a_second_first_manager_has_to_be_meant(for_real, monkeypatch):
    """Where somebody is a manager the command refuses, unless told."""
    _first(monkeypatch)
    with pytest.raises(CommandError, match="There is a manager already"):
        _first(monkeypatch, username="otto")
    _first(monkeypatch, "--another", username="otto")
    with pytest.raises(CommandError, match="Somebody has this sign-in name"):
        _first(monkeypatch, "--another", username="OTTO")
    assert len(User.managers()) == 2


@pytest.mark.parametrize(
    ("wrong", "says"),
    [
        ({"password": "short"}, "too short"),
        ({"password": "password"}, "too common"),
        ({"password": ""}, "too short"),
        ({"username": "two words"}, "valid username"),
    ],
)
def test_what_is_no_name_or_no_password_is_refused(for_real, monkeypatch, wrong, says):
    """In words, and nobody is let in."""
    with pytest.raises(CommandError, match=says):
        _first(monkeypatch, **wrong)
    assert User.managers() == []


def test_it_asks_for_what_it_was_not_told(for_real, monkeypatch, capsys):
    """Names in the clear, the password twice and unseen; what cannot be is asked for again."""
    answers = iter(["Ruth", "Ruth Ambler", "ruth"])
    passwords = iter(["short", PASSWORD, "another-one", PASSWORD, PASSWORD])
    monkeypatch.setattr("builtins.input", lambda question: next(answers))
    monkeypatch.setattr("getpass.getpass", lambda question: next(passwords))
    call_command("first_manager")
    assert User.objects.get(username="ruth").check_password(PASSWORD)
    said = capsys.readouterr().err
    for words in ("valid username", "too short", "two passwords"):
        assert words in said

    def nobody(question: str) -> str:
        raise EOFError

    monkeypatch.setattr("builtins.input", nobody)
    with pytest.raises(CommandError, match="--password-stdin"):
        call_command("first_manager", "--another")


def test_the_invented_workshop_gets_no_real_manager(db, monkeypatch):
    """Beside passwords that everybody knows no real one is of use."""
    Workshop.objects.create(name="Shown around", is_demo=True)
    with pytest.raises(CommandError, match="This is the demo"):
        _first(monkeypatch, "--another")


def test_the_demo_is_not_put_into_a_real_installation(for_real, capsys):
    """Neither jobs nor people nor printed passwords, whatever is there: a workshop is enough."""
    jobs, people = Job.objects.count(), User.objects.count()
    with pytest.raises(CommandError, match="used for real"):
        call_command("demo")
    assert (Job.objects.count(), User.objects.count()) == (jobs, people)
    assert "password" not in capsys.readouterr().out


def test_no_account_that_sees_nothing():
    """Django's own command says what to use instead."""
    with pytest.raises(CommandError, match="first_manager"):
        call_command("createsuperuser", "--username", "x", "--noinput")
