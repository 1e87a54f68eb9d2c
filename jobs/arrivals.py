"""A file that was sent and is kept nowhere yet, until somebody says what becomes of it."""

from __future__ import annotations

import datetime as dt
import re

from django.core.files import File
from django.core.files.storage import default_storage
from django.utils import timezone

from jobs.models.base import new_token

FOLDER = "arriving"
KEPT = dt.timedelta(days=2)
_NAMED = re.compile(r"[A-Za-z0-9_-]{22}")


def keep(upload: File[bytes]) -> str:
    """Keep a file for two days; returns the name it is asked for by."""
    clear()
    name = new_token()
    default_storage.save(_path(name), upload)
    return name


def opened(name: str) -> File[bytes] | None:
    """Open a file that was sent; None where it is there no more."""
    if not _NAMED.fullmatch(name) or not default_storage.exists(_path(name)):
        return None
    return default_storage.open(_path(name))


def drop(name: str) -> None:
    """Let go of a file that was taken in or refused."""
    default_storage.delete(_path(name))


def clear() -> None:
    """Let go of what nobody took in: it says everything of a customer and their car."""
    try:
        names = default_storage.listdir(FOLDER)[1]
    except FileNotFoundError:  # nothing was ever sent; a bucket has no folders to ask for
        return
    for name in names:
        path = f"{FOLDER}/{name}"
        if default_storage.get_modified_time(path) < timezone.now() - KEPT:
            default_storage.delete(path)


def _path(name: str) -> str:
    return f"{FOLDER}/{name}"
