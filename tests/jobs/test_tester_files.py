"""A fault-code tester's file is known by its bytes; what it is not is told."""

from __future__ import annotations

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from PIL import Image

from jobs.tester_files import LARGEST, UnusableFileError, prepared


def _picture(kind: str = "PNG", **more) -> bytes:
    file = io.BytesIO()
    Image.new("RGB", (40, 20), "grey").save(file, kind, **more)
    return file.getvalue()


@pytest.mark.parametrize(
    ("name", "raw", "kept"),
    [
        ("read-out.log", b"B1342 stored\r\nU0121 pending\r\n", "read-out.txt"),
        ("utf16", "B1342 gespeichert".encode("utf-16"), "utf16.txt"),
        ("windows.csv", "Lüftung;B1342".encode("cp1252"), "windows.txt"),
        ("renamed.txt", b"%PDF-1.7\n\x00\x01", "renamed.pdf"),
        ("screen.pdf", _picture(), "screen.jpg"),
        ("/tmp/../x.txt", b"B1342", "x.txt"),
    ],
)
def test_a_file_is_what_its_bytes_say(name, raw, kept):
    """Its ending follows from that, and no path is in its name."""
    assert prepared(SimpleUploadedFile(name, raw)).name == kept


def test_a_picture_loses_the_cameras_notes():
    """Where it was taken is in none of the bytes that are kept."""
    notes = Image.Exif()
    notes[0x010F] = "a maker of cameras"  # Exif 2.3, table 4: Make
    raw = prepared(SimpleUploadedFile("x.jpg", _picture("JPEG", exif=notes))).read()
    assert raw.startswith(b"\xff\xd8")
    assert b"a maker of cameras" not in raw


@pytest.mark.parametrize("raw", [b"", b"\x7fELF\x02\x01\x00\x00", b"PK\x03\x04\x00\x00"])
def test_anything_else_is_told(raw):
    """An empty file, a programme, a packed folder."""
    with pytest.raises(UnusableFileError):
        prepared(SimpleUploadedFile("codes.txt", raw))


def test_a_large_file_is_told_before_it_is_read():
    """Its size is enough."""
    file = SimpleUploadedFile("codes.txt", b"B1342")
    file.size = LARGEST + 1
    with pytest.raises(UnusableFileError, match="at most 10 MB"):
        prepared(file)
