"""Files of a fault-code tester: text, PDF or a picture of its screen, known by their bytes."""

from __future__ import annotations

from pathlib import PurePath

from django.core.files.base import ContentFile
from django.core.files.uploadedfile import UploadedFile
from django.utils.translation import gettext as _

from jobs import photos

LARGEST = 10 * 1024 * 1024  # bytes
LONGEST_NAME = 80
PDF = b"%PDF-"


class UnusableFileError(ValueError):
    """The file cannot be kept; the message is for the person who sent it."""


def prepared(upload: UploadedFile[bytes]) -> ContentFile[bytes]:
    """Return a file as it is kept, its name with it; a picture loses the camera's notes."""
    if (upload.size or 0) > LARGEST:
        message = _("This file is %(size)d MB; at most %(limit)d MB can be kept.")
        words = {"size": (upload.size or 0) / 1024**2, "limit": LARGEST / 1024**2}
        raise UnusableFileError(message % words)
    raw = upload.read()
    stem = PurePath(upload.name or "").stem[:LONGEST_NAME] or "tester"
    if not raw:
        raise UnusableFileError(_("This file is empty."))
    if raw.startswith(PDF):
        return ContentFile(raw, f"{stem}.pdf")
    if _is_text(raw):
        return ContentFile(raw, f"{stem}.txt")
    try:
        picture = photos.prepare(raw).image
    except photos.UnusablePhotoError as error:
        message = _("This file is neither text nor PDF nor a picture that can be read.")
        raise UnusableFileError(message) from error
    return ContentFile(picture.read(), f"{stem}.jpg")


def _is_text(raw: bytes) -> bool:
    """Whether it is text: testers write UTF-8, UTF-16 with its mark, or a code page of Windows."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return True
    controls = set(range(32)) - {9, 10, 12, 13, 27}
    return not controls.intersection(raw)
