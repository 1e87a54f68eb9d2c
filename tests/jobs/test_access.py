"""One door to a job: who passes it, and that no page goes round it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from django.http import Http404
from django.test import Client
from django.urls import get_resolver

from jobs import access
from jobs.models import Role, User
from tests.jobs.access_rules import PUBLIC

OPEN_TO_ALL = {"login", "logout", "set_language", "certificate", "worker", *PUBLIC}


@pytest.mark.parametrize(
    ("role", "spec", "prices", "release", "record"),
    [
        (Role.CONSULTANT, True, True, False, True),
        (Role.DESIGNER, True, False, False, True),
        (Role.INSTALLER, False, False, False, True),
        (Role.MANAGER, True, True, True, True),
        ("", False, False, False, False),
    ],
)
def test_what_each_role_may_do(role, spec, prices, release, record):
    """The whole table of rights: spec, see prices, release a stop, write down what was done."""
    user = User(roles=[role] if role else [])
    may = (access.may_spec, access.may_see_prices, access.may_release, access.may_record)
    assert [one(user) for one in may] == [spec, prices, release, record]


def test_the_page_of_rights_is_made_of_the_code_that_enforces_them():
    """Every right of the door stands on the page, held by the roles the door lets in."""
    named = {one for name, one in vars(access).items() if name.startswith("may_")}
    assert set(access.RIGHTS) == named | {access.is_member}
    assert access.holders(access.may_release) == [Role.MANAGER]
    assert access.holders(access.may_record) == list(Role)


def test_whoever_left_opens_nothing():
    """A person who no longer works here has no rights, whatever the role was."""
    user = User(roles=[Role.MANAGER], is_active=False)
    assert not access.is_member(user)
    with pytest.raises(Http404):
        access.require_member(user)


@pytest.mark.django_db
def test_a_job_opens_by_its_number_only(van, cast):
    """The printed code opens the job; anything else is not found, as it is for a stranger."""
    assert access.open_job(cast.installer, van.code) == van.job
    right = van.code
    for code in ("J-9999", right.lower(), f"J-{van.job.number} ", "", f"{right}/../"):
        with pytest.raises(Http404):
            access.open_job(cast.manager, code)
    with pytest.raises(Http404):
        access.open_job(cast.stranger, van.code)


@pytest.mark.django_db
def test_every_address_is_closed_by_default():
    """Signed out, each address leads to the sign-in and to nothing else."""
    closed = 0
    for pattern in get_resolver("jobs.pages.urls").url_patterns:
        name = getattr(pattern, "name", None)
        if name is None or name in OPEN_TO_ALL:
            continue
        url = "/" + re.sub(r"<(int|str|slug):\w+>", "1", str(pattern.pattern))
        answer = Client().get(url)
        assert answer.status_code == 302, url
        assert answer.url.startswith("/sign-in/"), url
        closed += 1
    assert closed > 50


def test_no_page_opens_a_job_by_itself():
    """Pages ask the door for a job; none reads the table of jobs on its own."""
    pages = list(Path(access.__file__).parent.joinpath("pages").rglob("*.py"))
    assert len(pages) > 30
    for page in pages:
        text = page.read_text()
        assert not re.search(r"get_object_or_404\(\s*Job\b|\bJob\.objects\.get\(", text), page.name
