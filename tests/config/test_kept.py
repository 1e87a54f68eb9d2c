"""What stays of a file that did not fit."""

from __future__ import annotations

import pytest
from django.core.files.base import ContentFile

from config.kept import Beside
from tests.jobs.backup.tools import disk_with


def test_of_a_file_that_did_not_fit_nothing_stays(tmp_path):
    """Nobody's half photo lies about, which no row names and nobody would ever remove."""
    kept = Beside(location=tmp_path)
    kept.save("a/small.jpg", ContentFile(b"x" * 100))
    with disk_with(room=50_000), pytest.raises(OSError):  # noqa: PT011 - whichever it is
        kept.save("a/large.jpg", ContentFile(b"x" * 200_000))
    assert [file.name for file in tmp_path.rglob("*.jpg")] == ["small.jpg"]
