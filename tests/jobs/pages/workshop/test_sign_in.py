"""The door: wrong passwords, proxies and forged headers, and the language of the sign-in page."""

from __future__ import annotations

import datetime as dt
import time
from ipaddress import ip_network

import pytest
from axes.models import AccessAttempt
from django.conf import settings
from django.test import Client, override_settings
from django.urls import reverse
from django.utils import timezone

from jobs.models import User
from tests.jobs.pages.workshop.door import PASSWORD

pytestmark = pytest.mark.django_db
SIGN_IN = reverse("login")
GUESSES = 100  # 1000 are answered alike and take ten times as long
PROXY = "10.9.8.7"
believing = override_settings(PROXIES=[ip_network(PROXY), ip_network("fd00::/8")])


@pytest.fixture
def manager(passwords, cast) -> User:
    """The manager, who can sign in."""
    return cast.manager


def _try(password: str, *, peer: str = "10.0.0.7", who: str = "max", told: str = ""):
    headers = {"x-forwarded-for": told} if told else {}
    sent = {"username": who, "password": password}
    return Client().post(SIGN_IN, sent, REMOTE_ADDR=peer, headers=headers)


def _lock(**where: str) -> None:
    for _guess in range(settings.AXES_FAILURE_LIMIT):
        _try("wrong", **where)


def test_wrong_passwords_are_answered_calmly(manager):
    """A page says how long it lasts; the manager comes in from anywhere else meanwhile."""
    statuses = [_try("wrong").status_code for _guess in range(GUESSES)]
    assert statuses == [200] * 9 + [429] * (GUESSES - 9)
    page = _try(PASSWORD)
    assert page.status_code == 429
    assert "15 minutes at the latest" in page.content.decode()
    assert _try(PASSWORD, peer="10.0.0.8").status_code == 302
    assert _try("wrong", who="dan").status_code == 200
    assert AccessAttempt.objects.count() <= 2


def test_the_pause_is_told_in_the_readers_language(manager):
    """As the rest of the app is."""
    _lock()
    page = Client().post(
        SIGN_IN,
        {"username": "max", "password": PASSWORD},
        REMOTE_ADDR="10.0.0.7",
        headers={"accept-language": "de"},
    )
    assert page.status_code == 429
    assert 'lang="de"' in page.content.decode()


def test_guesses_do_not_make_the_pause_longer(manager):
    """Whoever tries once a minute keeps nobody out for longer than a quarter of an hour."""
    _lock()
    nearly = timezone.now() - dt.timedelta(minutes=13, seconds=30)
    AccessAttempt.objects.update(attempt_time=nearly)
    page = _try("wrong")
    assert "2 minutes at the latest" in page.content.decode()
    AccessAttempt.objects.update(attempt_time=nearly - dt.timedelta(minutes=2))
    assert _try(PASSWORD).status_code == 302
    assert not AccessAttempt.objects.exists()


@believing
def test_behind_a_proxy_each_visitor_counts_alone(manager):
    """One visitor behind the proxy locks themself out and nobody else behind it."""
    _lock(peer=PROXY, told="192.0.2.1")
    assert _try(PASSWORD, peer=PROXY, told="192.0.2.1").status_code == 429
    assert _try(PASSWORD, peer=PROXY, told="192.0.2.2").status_code == 302
    assert _try(PASSWORD, peer=PROXY).status_code == 302


@believing
def test_a_forged_header_changes_nothing(manager):
    """A stranger who says to be somebody else counts as who they are, and so does one behind."""
    for n in range(settings.AXES_FAILURE_LIMIT):
        _try("wrong", told=f"192.0.2.{n}")
    assert _try(PASSWORD, told="192.0.2.99").status_code == 429
    for n in range(settings.AXES_FAILURE_LIMIT):
        _try("wrong", peer=PROXY, told=f"203.0.113.{n}, 192.0.2.50")
    assert _try(PASSWORD, peer=PROXY, told="203.0.113.99, 192.0.2.50").status_code == 429
    assert _try(PASSWORD, peer=PROXY, told="192.0.2.51, fd00::1").status_code == 302
    for told in ("nonsense", "1.2.3.4, ", "-" * 5000, "\u00e4"):
        assert _try(PASSWORD, peer=PROXY, told=told).status_code == 302


TLS = {
    "SECURE_SSL_REDIRECT": True,
    "SECURE_HSTS_SECONDS": 31_536_000,
    "SECURE_PROXY_SSL_HEADER": ("HTTP_X_FORWARDED_PROTO", "https"),
}


@override_settings(PROXIES=[ip_network(PROXY)], **TLS)
def test_only_a_named_proxy_says_that_a_line_is_safe(db):
    """Of a stranger the word https is not believed; of the proxy it is, and HSTS is sent."""
    forged = Client().get(SIGN_IN, headers={"x-forwarded-proto": "https"})
    assert (forged.status_code, forged.url) == (301, "https://testserver/sign-in/")
    safe = Client().get(SIGN_IN, headers={"x-forwarded-proto": "https"}, REMOTE_ADDR=PROXY)
    assert safe.status_code == 200
    assert safe["Strict-Transport-Security"] == "max-age=31536000"


def test_who_left_and_who_never_was_are_told_the_same(passwords, cast):
    """The sign-in page does not say which names exist."""
    cast.designer.is_active = False
    cast.designer.save()
    pages = []
    for who in ("dan", "nobody-at-all"):
        html = _try(PASSWORD, who=who).content.decode().replace(who, "")
        pages.append(html.partition("<main")[2].partition("csrfmiddlewaretoken")[0])
    assert pages[0] == pages[1]


def test_a_pause_costs_no_work(manager):
    """A guess during the pause compares no password."""
    _lock()
    with override_settings(PASSWORD_HASHERS=["django.contrib.auth.hashers.PBKDF2PasswordHasher"]):
        before = time.process_time()
        assert _try("wrong").status_code == 429
        assert time.process_time() - before < 0.5
