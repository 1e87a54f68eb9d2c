"""A photo as data that the PDF holds, so that a sheet needs no file beside it."""

from __future__ import annotations

import base64

from jobs.models import IntakeMark, Photo
from jobs.photos import on_paper


def data_uri(photo: Photo | IntakeMark) -> str:
    """Return the small form of a photo; OSError where its file is lost."""
    with photo.small.open("rb") as file:
        return "data:image/jpeg;base64," + base64.b64encode(on_paper(file.read())).decode()
