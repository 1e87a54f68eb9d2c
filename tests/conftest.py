"""What the tests share: an empty workshop, the people in it, and scenes to set in it."""

from __future__ import annotations

import fcntl
import gc
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from django.conf import settings
from django.db import connection, transaction
from django.test import Client, override_settings
from django.test.client import ClientHandler
from django.utils.translation import activate
from hypothesis import is_hypothesis_test
from hypothesis import settings as tries

from jobs import sheets
from jobs.demo import load_demo
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.models import Job, Role, SheetKind, User, Workshop
from tests.jobs.factories import make_person
from tests.jobs.scenes import (
    Hatchback,
    Saloon,
    Scene,
    Van,
    read_again,
    set_hatchback,
    set_saloon,
    set_van,
)
from tests.jobs.scenes.kept import Kept
from tests.jobs.shelf import Shelf, stock_shelf

ROOT = Path(__file__).resolve().parents[1]

Printed = dict[tuple[str, ...], bytes]

# `make test` tries the same examples every time, so that a red run comes back; `make long` draws
# new ones, ten times as many (--hypothesis-profile=long). Time is the bench's matter.
MORE = 10
tries.register_profile("ci", derandomize=True, deadline=None)
tries.register_profile("long", max_examples=100 * MORE, deadline=None, print_blob=True)
tries.load_profile("ci")


def pytest_collection_finish() -> None:
    """Look for no garbage in what is loaded by now: that took an eighth of all the time."""
    gc.collect()
    gc.freeze()
    gc.set_threshold(50_000)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Multiply the examples of tests that set a number of their own, where more are asked for."""
    if tries.get_current_profile_name() != "long":
        return
    for test in {getattr(item, "obj", None) for item in items}:
        if test is not None and is_hypothesis_test(test):
            own = test._hypothesis_internal_use_settings
            if own.max_examples < 100 * MORE:
                test._hypothesis_internal_use_settings = tries(
                    own, max_examples=own.max_examples * MORE
                )


@dataclass(frozen=True, kw_only=True)
class Cast:
    """Four members with a role each, and one who may only sign in; `browse` knows them so."""

    consultant: User
    designer: User
    installer: User
    manager: User
    stranger: User


@dataclass(frozen=True, kw_only=True)
class AsLoaded:
    """Jobs nobody changes, worked out once for a module; what is printed serves every module."""

    printed: Printed
    _designs: dict[str, JobDesign] = field(default_factory=dict)

    def design(self, of: Scene) -> JobDesign:
        """Return what a scene comes to."""
        if of.code not in self._designs:
            self._designs[of.code] = work_out(load(of.job))
        return self._designs[of.code]

    def sheet(
        self, of: Scene, kind: SheetKind, *, paper: str = "a4", language: str = "en"
    ) -> bytes:
        """Return a draft; the same bytes whoever asks."""
        key = (of.code, kind, paper, language)
        if key not in self.printed:
            options = sheets.Options(paper=paper, language=language)
            self.printed[key] = sheets.draft(self.design(of), kind, options)
        return self.printed[key]


class NoMigrations:
    """Says of every app that it has none."""

    def __contains__(self, app: object) -> bool:
        return True

    def __getitem__(self, app: str) -> None:
        return None


@pytest.fixture(scope="session", autouse=True)
def _own_files(tmp_path_factory):
    """Keep files that a test uploads out of the workshop's own folders; print within a request."""
    folder = tmp_path_factory.mktemp("var")
    # Nothing is collected; the folder only has to be there.
    plain = {"BACKEND": "django.contrib.staticfiles.storage.StaticFilesStorage"}
    storages = settings.STORAGES | {"staticfiles": plain}
    own = {
        # Tables come from the models. pytest-django sets this with the first table that is asked
        # for: within settings of a test of its own it would be taken back with them.
        "MIGRATION_MODULES": NoMigrations(),
        "STORAGES": storages,
        "MEDIA_ROOT": folder / "media",
        "STATIC_ROOT": folder,
        "PRINT_IN_REQUEST": True,
    }
    with override_settings(**own):
        yield


@pytest.fixture(scope="session")
def new_demo(tmp_path_factory) -> Callable[[], Path]:
    """Make folders for a server of the demo, with what it keeps on SQLite already in them.

    It is loaded once for all processes of a run, which takes as long as many tests do.
    """
    if connection.vendor != "sqlite":
        return lambda: Path(tmp_path_factory.mktemp("demo"))
    base = tmp_path_factory.getbasetemp()
    shared = base.parent if "PYTEST_XDIST_WORKER" in os.environ else base
    kept, begun = shared / "loaded-demo", shared / "loaded-demo-begun"
    with (shared / "loaded-demo.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not kept.exists():
            begun.mkdir()
            database = f"sqlite:///{begun / 'undertrim.sqlite3'}"
            environment = {**os.environ, "UNDERTRIM_VAR": str(begun), "DATABASE_URL": database}
            command = [sys.executable, "manage.py", "demo"]
            subprocess.run(command, cwd=ROOT, env=environment, check=True, capture_output=True)
            begun.rename(kept)

    def copy() -> Path:
        folder = Path(tmp_path_factory.mktemp("demo"))
        return Path(shutil.copytree(kept, folder, dirs_exist_ok=True))

    return copy


@pytest.fixture(autouse=True)
def _own_language():
    """Start each test in the house's language: a request answered in another leaves it behind."""
    activate(settings.LANGUAGE_CODE)


@pytest.fixture(scope="session")
def _kept() -> Kept:
    return Kept({hire, stock_shelf, set_hatchback, set_van, set_saloon, sign_in})


@pytest.fixture(scope="module")
def _building(django_db_setup, django_db_blocker, _kept) -> Iterator[Callable[..., object]]:
    """Let a module build rows once: each test takes its own changes back, the module the rest.

    Only while something is built may the tables be touched, so that a test that does not ask for
    them is still told.
    """
    order: list[Callable[..., object]] = []

    def build(make: Callable[..., object], *given: object) -> object:
        order.append(make)
        with django_db_blocker.unblock():
            return _kept.build(tuple(order), *given)

    whole = transaction.atomic()
    with django_db_blocker.unblock():
        whole.__enter__()
        if connection.vendor == "sqlite":
            # Keys count from one, whatever was written and flushed before.
            connection.cursor().execute("DELETE FROM sqlite_sequence")
    yield build
    with django_db_blocker.unblock():
        transaction.set_rollback(True)
        whole.__exit__(None, None, None)


def hire() -> Cast:
    """Make the workshop and everybody who works in it."""
    Workshop.objects.create(
        name="Invented workshop", phone="000 555 0111", web_address="http://workshop.invalid"
    )
    return Cast(
        consultant=make_person("cora", "Cora", "Sell", Role.CONSULTANT),
        designer=make_person("dan", "Dan", "Draw", Role.DESIGNER),
        installer=make_person("ina", "Ina", "Fit", Role.INSTALLER),
        manager=make_person("max", "Max", "Lead", Role.MANAGER),
        stranger=make_person("sam", "Sam", "Nobody"),
    )


@pytest.fixture(scope="module")
def _people(_building) -> Cast:
    return _building(hire)


@pytest.fixture(scope="module")
def _shelf(_building) -> Shelf:
    return _building(stock_shelf)


@pytest.fixture(scope="module")
def _hatchback(_building, _shelf, _people) -> Hatchback:
    return _building(set_hatchback, _shelf, _people.consultant, _people.installer)


@pytest.fixture(scope="module")
def _van(_building, _shelf, _people) -> Van:
    return _building(set_van, _shelf)


@pytest.fixture(scope="module")
def _saloon(_building, _shelf, _people) -> Saloon:
    return _building(set_saloon, _shelf)


@pytest.fixture
def shelf(db, _shelf) -> Shelf:
    """The catalogue by short names."""
    return read_again(_shelf)


@pytest.fixture
def hatchback(db, _hatchback) -> Hatchback:
    """An active front and a sealed box; a row of every kind, nothing unsafe."""
    return _hatchback.again()


@pytest.fixture
def van(db, _van) -> Van:
    """A second battery, its cable with a fuse at each end; no wood."""
    return _van.again()


@pytest.fixture
def saloon(db, _saloon) -> Saloon:
    """A vented box on one run, much still open."""
    return _saloon.again()


@pytest.fixture
def cast(db, _people) -> Cast:
    """Everybody who can sign in."""
    return Cast(**read_again(vars(_people)))


def sign_in(people: Cast) -> dict[str, str]:
    """Sign everybody in and return the key of each one's session."""
    keys = {}
    for name, person in vars(people).items():
        client = Client()
        client.force_login(person, "django.contrib.auth.backends.ModelBackend")
        keys[name] = client.cookies[settings.SESSION_COOKIE_NAME].value
    return keys


@pytest.fixture(scope="module")
def _signed_in(_building, _people) -> dict[str, str]:
    return _building(sign_in, _people)


@pytest.fixture(scope="module")
def _answering() -> ClientHandler:
    """What answers all browsers of a module: it takes as long to begin as to answer a page."""
    return ClientHandler(enforce_csrf_checks=False)


@pytest.fixture
def browse(db, _signed_in, _answering) -> Callable[[str], Client]:
    """Return a browser in which this person is signed in, since before the module's first test."""

    def signed_in(name: str) -> Client:
        client = Client()
        client.handler = _answering
        client.cookies[settings.SESSION_COOKIE_NAME] = _signed_in[name]
        return client

    return signed_in


@pytest.fixture(scope="session")
def _printed() -> Printed:
    return {}


@pytest.fixture(scope="module")
def _as_loaded(_printed) -> AsLoaded:
    return AsLoaded(printed=_printed)


@pytest.fixture
def as_loaded(db, _as_loaded) -> AsLoaded:
    """For a test that changes nothing, neither in the tables nor in what is worked out."""
    return _as_loaded


@pytest.fixture(scope="module")
def _demo(_building) -> None:
    _building(load_demo)


@pytest.fixture
def demo(db, _demo) -> dict[str, Job]:
    """The demo's jobs by their code: for the few files that are about the demo, and no others."""
    return {job.code: job for job in Job.objects.select_related("vehicle__customer")}
