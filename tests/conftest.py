"""What the tests share: the invented workshop of the demo and its people, each signed in."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import pytest
from django.test import Client

from jobs.demo import load_demo
from jobs.models import Job, User


@dataclass(frozen=True, kw_only=True)
class Cast:
    """The people of the demo: four members with a role each, and one who may only sign in."""

    consultant: User
    designer: User
    installer: User
    manager: User
    stranger: User


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup, django_db_blocker):
    """Load the demo once; every test sees it and takes its own changes back."""
    with django_db_blocker.unblock():
        load_demo()


@pytest.fixture(autouse=True)
def _own_files(settings, tmp_path):
    """Keep files that a test uploads out of the workshop's own folders."""
    settings.MEDIA_ROOT = tmp_path / "media"
    settings.STATIC_ROOT = tmp_path  # nothing is collected; it only has to be there


@pytest.fixture
def demo(db) -> dict[str, Job]:
    """The three invented jobs by their code; loaded anew after a test that empties the tables."""
    if not Job.objects.exists():
        load_demo()
    return {job.code: job for job in Job.objects.select_related("vehicle__customer")}


@pytest.fixture
def cast(demo) -> Cast:
    """Everybody who can sign in."""
    people = {user.username: user for user in User.objects.all()}
    return Cast(**{name: people[name] for name in Cast.__dataclass_fields__})


@pytest.fixture
def browse(cast) -> Callable[[str], Client]:
    """Return a browser in which this person is signed in."""

    def signed_in(name: str) -> Client:
        client = Client()
        client.force_login(getattr(cast, name), "django.contrib.auth.backends.ModelBackend")
        return client

    return signed_in
