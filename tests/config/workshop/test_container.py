"""The container file, held to the project it is made of."""

from __future__ import annotations

import re
from pathlib import Path

from django.core.management import get_commands

from config.workshop.install import PACKAGES

ROOT = Path(__file__).resolve().parents[3]
TEXT = (ROOT / "config/workshop/Containerfile").read_text()


def test_an_image_holds_what_a_machine_is_given():
    """The libraries that `make workshop` installs, and commands the app has."""
    assert {name for name in PACKAGES if name.startswith("lib")} <= set(re.findall(r"\S+", TEXT))
    assert set(re.findall(r"manage\.py (\w+)", TEXT)) <= set(get_commands())


def test_what_is_kept_lies_on_its_volumes():
    """The app writes its data and its back-ups nowhere else."""
    folders = set(re.findall(r"UNDERTRIM_\w+=(/var/\S+)", TEXT))
    assert len(folders) == 2
    assert folders == set(re.search(r"^VOLUME (.+)$", TEXT, re.MULTILINE)[1].split())


def test_only_the_app_goes_into_an_image():
    """All it is made of, and neither the data nor the packages of whoever builds it."""
    lines = (ROOT / ".dockerignore").read_text().splitlines()
    taken = {line[1:] for line in lines if line.startswith("!")}
    assert "*" in lines
    assert all((ROOT / name).exists() for name in taken)
    rooms = {file.parent.name for file in ROOT.glob("*/__init__.py")} - {"tests"}
    copied = set(re.search(r"^COPY (\S+) (\S+) \./$", TEXT, re.MULTILINE).groups())
    assert taken >= rooms | copied | {"templates", "manage.py", "pyproject.toml"}
    assert not taken & {".venv", "var", ".git"}
