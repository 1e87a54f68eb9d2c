"""Which version of the code this is."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

from django.conf import settings

# Folders that decide what a sheet says and looks like.
PRINTED_BY = ("acoustics", "wiring", "jobs", "templates")
SHORT = 10


@cache
def number() -> str:
    """The version as it was given."""
    project = tomllib.loads((_home() / "pyproject.toml").read_text())
    return str(project["project"]["version"])


@cache
def commit() -> str:
    """The commit of the code, empty where it was installed without its history."""
    git = _home() / ".git"
    try:
        head = (git / "HEAD").read_text().strip()
        _ref, _space, name = head.partition("ref: ")
        if not name:
            return head[:SHORT]
        if (git / name).exists():
            return (git / name).read_text().strip()[:SHORT]
        packed = (line.split(" ") for line in (git / "packed-refs").read_text().splitlines())
        return next((line[0][:SHORT] for line in packed if line[-1] == name), "")
    except OSError:
        return ""


@cache
def stamp() -> str:
    """Another one whenever a file that prints is another: kept drafts are then printed anew."""
    files = [
        file.stat()
        for folder in PRINTED_BY
        for file in (_home() / folder).rglob("*.*")
        if file.suffix != ".pyc" and file.is_file()
    ]
    return f"{len(files)} {max(file.st_mtime_ns for file in files)}"


def _home() -> Path:
    return Path(settings.BASE_DIR)
