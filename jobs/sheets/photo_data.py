"""Photos on paper: the document names them, and the engine reads each when it lays it out.

Within the document a hundred of them would be kept as text, several times over.
"""

from __future__ import annotations

from urllib.parse import quote

from django.core.files.storage import default_storage

from jobs.models import IntakeMark, Photo
from jobs.photos import on_paper

BEGINS = "/photo/"


def address(photo: Photo | IntakeMark) -> str:
    """Return where a document finds the small form of a photo; OSError where its file is lost."""
    name = photo.small.name or ""
    content(name)
    return f"{BEGINS}{quote(name)}"


def content(name: str) -> bytes:
    """Return a photo as a sheet holds it, by its name in the store."""
    with default_storage.open(name) as file:
        return on_paper(file.read())
