"""The public address: pages for everybody answer there, and nothing else of the app."""

from __future__ import annotations

import pytest
from django.core.exceptions import ImproperlyConfigured
from django.db import transaction
from django.test import Client
from django.urls import reverse

from config.public import public_host
from jobs.panel_codes import give_codes
from tests.jobs.access_rules import APART, PUBLIC, RULES
from tests.jobs.pages.public.conftest import HOST
from tests.jobs.test_access_rules import _job, _url, job  # noqa: F401

pytestmark = pytest.mark.django_db


def test_no_page_of_the_workshop_answers_there(public, outside, job):  # noqa: F811
    """Every address that has a rule of roles is not found, whichever way it is asked."""
    for name, rule in RULES.items():
        with transaction.atomic():
            url = _url(name, rule, job, job.code)
            transaction.set_rollback(True)
        for answer in (outside.get(url), outside.post(url, rule.sent)):
            assert answer.status_code == 404, name
            assert not answer.cookies, name


def test_nothing_before_the_sign_in_answers_there_either(public, outside):
    """Neither sign-in nor language, health, certificate or anything that is no page."""
    paths = [reverse(name) for name in APART if name != "account-session-end"]
    for path in [*paths, "/health/", "/ready/", "/", "/static/none.css", "/p/", "/robots.txt"]:
        answer = outside.get(path)
        assert answer.status_code == 404, path
        assert not answer.cookies
        text = answer.content.decode().lower()
        assert "sign" not in text
        assert "board" not in text
    assert len(paths) > 4


def test_what_is_not_there_looks_the_same_everywhere(public, outside, hatchback):
    """A wrong code, an address of the app and a missing file get the same bytes and headers."""
    wrong = [f"/p/{'a' * 22}/", "/p/short/", "/sign-in/", "/static/none.css", "/p/a/1.jpg"]
    answers = [outside.get(path) for path in wrong]
    assert len({(answer.content, tuple(answer.headers.items())) for answer in answers}) == 1


def test_who_is_signed_in_is_nobody_there(public, hatchback, browse):
    """A session that is carried over opens nothing."""
    client = browse("manager")
    assert client.get(reverse("board"), headers={"host": HOST}).status_code == 404
    assert client.get(reverse("board")).status_code == 200


def test_a_public_page_answers_on_both_addresses(public, outside, hatchback):
    """Also where the workshop works; it takes nothing."""
    give_codes(hatchback.job)
    hatchback.door_left.refresh_from_db()
    url = reverse("panel-page", args=[hatchback.door_left.token])
    assert outside.get(url).status_code == Client().get(url).status_code == 200
    assert outside.post(url).status_code == 405


def test_with_another_port_or_spelling_it_is_the_same_name(public):
    """A host is a name whatever its case, its port or a dot at its end."""
    for host in (f"{HOST}:8443", HOST.upper(), f"{HOST}."):
        assert Client(headers={"host": host}).get("/sign-in/").status_code == 404


def test_every_public_page_is_listed():
    """A page that is marked public stands in the list of the access test, and no other."""
    from jobs.pages.public.host import is_public

    assert all(is_public(reverse(name, args=args)) for name, args in PUBLIC.items())
    assert not any(is_public(reverse(name)) for name in APART - {"account-session-end"})


@pytest.mark.parametrize(
    "address",
    ["http://name", "name", "https://", "https://name/path", "https://a@name", "https://name?x"],
)
def test_an_address_that_would_not_work_is_refused(address):
    """Only https://name can be printed: anything else stops the app at its start."""
    with pytest.raises(ImproperlyConfigured, match="UNDERTRIM_PUBLIC"):
        public_host(address)


def test_an_address_may_be_left_out():
    """Without one there is no public name; with one it is the name alone."""
    assert public_host("") == ""
    assert public_host("https://Panels.example:8443") == HOST
