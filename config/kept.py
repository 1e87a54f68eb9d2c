"""Files that people sent, beside the database."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from django.core.files.base import File
from django.core.files.storage import FileSystemStorage


class Beside(FileSystemStorage):
    """Leaves no half a file behind where the disk was full."""

    def _save(self, name: str, content: File[Any]) -> str:
        try:
            return str(super()._save(name, content))  # type: ignore[misc]
        except OSError:
            Path(self.path(name)).unlink(missing_ok=True)
            raise
