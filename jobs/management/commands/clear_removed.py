"""`manage.py clear_removed`: what was removed thirty days ago goes for good; once a night."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand

from jobs.keeping.absences import clear_absences
from jobs.keeping.removed import clear_removed


class Command(BaseCommand):
    """Delete removed rows whose time has come, the files of their photos, absences of long ago."""

    help = "Delete for good what was removed thirty days ago and nothing rests on."

    def handle(self, *args: Any, **options: Any) -> None:
        """Delete, and say how many."""
        gone = clear_removed() | {"absence": clear_absences()}
        counted = ", ".join(f"{name} {n}" for name, n in sorted(gone.items()) if n)
        self.stdout.write(f"Gone for good: {counted or 'nothing'}.")
