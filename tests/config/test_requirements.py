"""What is installed is what was locked: every package, indirect ones too, by its hashes."""

from __future__ import annotations

import re
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PIN = re.compile(r"^([A-Za-z0-9._-]+)(?:\[[^]]*\])?==([^\s;\\]+)", re.MULTILINE)
HASH = "--hash=sha256:"


def _plain(name: str) -> str:
    """The name of a package as all tools compare it.

    Source: Python packaging user guide, Name normalization
    """
    return re.sub(r"[-_.]+", "-", name).lower()


def _pins(file: str) -> dict[str, str]:
    return {_plain(name): number for name, number in PIN.findall((ROOT / file).read_text())}


@pytest.mark.parametrize(
    ("typed", "locked"),
    [
        ("requirements.txt", "requirements.lock"),
        ("requirements.txt", "tests/requirements.lock"),
        ("tests/requirements.txt", "tests/requirements.lock"),
    ],
)
def test_each_requirement_is_locked_as_it_is_typed(typed, locked):
    """After a requirement changed, `make lock` was run."""
    wanted = _pins(typed)
    assert len(wanted) > 15
    assert wanted.items() <= _pins(locked).items()


@pytest.mark.parametrize("file", ["requirements.lock", "tests/requirements.lock"])
def test_every_package_of_a_lock_has_its_hashes(file):
    """One without any would let in whatever an index hands out."""
    text = re.sub(r"^\s*#.*\n", "", (ROOT / file).read_text(), flags=re.MULTILINE)
    entries = [entry for entry in re.split(r"\n(?=\S)", text) if entry.strip()]
    assert len(entries) > 30
    assert [entry.split()[0] for entry in entries if HASH not in entry or "==" not in entry] == []


def test_both_locks_name_the_same_packages():
    """What is tested is what runs."""
    assert _pins("requirements.lock").items() <= _pins("tests/requirements.lock").items()


def test_what_is_installed_is_what_is_locked():
    """No package of the app is another than the one with these hashes."""
    other = {}
    for name, number in _pins("requirements.lock").items():
        try:
            here = version(name)
        except PackageNotFoundError:
            here = "not installed"
        if here != number:
            other[name] = here
    assert other == {}
