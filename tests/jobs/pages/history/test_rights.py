"""The page that says who may do what is drawn from the code that decides it."""

from __future__ import annotations

import pytest

from jobs import access
from jobs.models import Role
from jobs.pages.history import rights
from tests.jobs.factories import make_person

pytestmark = pytest.mark.django_db


def test_each_role_is_said_to_hold_what_it_holds():
    """A person of one role is asked for every right; the table says the same, and not all alike."""
    people = {role: make_person(f"p-{role}", "P", "One", role) for role in Role}
    (_heading, general), *_others = rights.lines()
    asked = [{role: right(person) for role, person in people.items()} for right in access.RIGHTS]
    assert [dict(held) for _says, held in general] == asked
    assert {held for answers in asked for held in answers.values()} == {True, False}
