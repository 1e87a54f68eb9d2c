"""What the tests share: the invented workshop of the demo and its people, each signed in."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import pytest
from django.conf import settings
from django.test import Client, override_settings
from django.utils.translation import activate

from jobs import sheets
from jobs.demo import load_demo
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.models import Job, SheetKind, User


@dataclass(frozen=True, kw_only=True)
class Cast:
    """The people of the demo: four members with a role each, and one who may only sign in."""

    consultant: User
    designer: User
    installer: User
    manager: User
    stranger: User


@dataclass(frozen=True, kw_only=True)
class AsLoaded:
    """The demo's jobs as they were loaded, worked out and printed once for all who only read."""

    designs: dict[str, JobDesign] = field(default_factory=dict)
    _printed: dict[tuple[str, ...], bytes] = field(default_factory=dict)

    def sheet(
        self, code: str, kind: SheetKind, *, paper: str = "a4", language: str = "en"
    ) -> bytes:
        """Return a draft; the same bytes whoever asks."""
        key = (code, kind, paper, language)
        if key not in self._printed:
            options = sheets.Options(paper=paper, language=language)
            self._printed[key] = sheets.draft(self.designs[code], kind, options)
        return self._printed[key]


@pytest.fixture(scope="session")
def django_db_setup(django_db_setup, django_db_blocker):
    """Load the demo once; every test sees it and takes its own changes back."""
    with django_db_blocker.unblock():
        load_demo()


@pytest.fixture(scope="session", autouse=True)
def _own_files(tmp_path_factory):
    """Keep files that a test uploads out of the workshop's own folders."""
    folder = tmp_path_factory.mktemp("var")
    # Nothing is collected; the folder only has to be there.
    with override_settings(MEDIA_ROOT=folder / "media", STATIC_ROOT=folder):
        yield


@pytest.fixture(autouse=True)
def _own_language():
    """Start each test in the house's language: a request answered in another leaves it behind."""
    activate(settings.LANGUAGE_CODE)


@pytest.fixture
def demo(db) -> dict[str, Job]:
    """The three invented jobs by their code; loaded anew after a test that empties the tables."""
    if not Job.objects.exists():
        load_demo()
    return {job.code: job for job in Job.objects.select_related("vehicle__customer")}


@pytest.fixture(scope="session")
def _read_only() -> AsLoaded:
    return AsLoaded()


@pytest.fixture
def as_loaded(demo, _read_only) -> AsLoaded:
    """The demo for a test that changes nothing, neither in the tables nor in what is worked out."""
    for code, job in demo.items():
        if code not in _read_only.designs:
            _read_only.designs[code] = work_out(load(job))
    return _read_only


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
