"""Passwords for those who come in by the door."""

from __future__ import annotations

import pytest

from tests.conftest import Cast
from tests.jobs.pages.workshop.door import PASSWORD


@pytest.fixture(autouse=True)
def _quick(settings) -> None:
    """Many passwords are compared here, and how long that takes is not what is tested."""
    settings.PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]


@pytest.fixture
def passwords(_quick, cast) -> Cast:
    """Everybody can sign in with a password."""
    for name in Cast.__dataclass_fields__:
        person = getattr(cast, name)
        person.set_password(PASSWORD)
        person.save()
    return cast
