"""`manage.py backup FILE`: everything of this installation in one file, while it runs."""

from __future__ import annotations

import signal
import sqlite3
import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from jobs.backup import mark
from jobs.backup.installation import Installation
from jobs.backup.making import back_up
from jobs.backup.refusal import BackupError
from jobs.keeping import erased_list


class Command(BaseCommand):
    """Write the file whole or not at all."""

    help = "Write database, photos and secret key into one file, while the app runs."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take where to write it."""
        parser.add_argument("file", type=Path, help="the file to write, such as undertrim.zip")
        parser.add_argument("--replace", action="store_true", help="although the file is there")

    def handle(self, *args: Any, **options: Any) -> None:
        """Write it and say what is in it."""
        # Told to stop, it clears up what it began.
        signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))
        file: Path = options["file"]
        try:
            written = back_up(Installation.here(), file, replace=options["replace"])
            mark.leave(file)
        except BackupError as error:
            raise CommandError(str(error)) from error
        except (OSError, sqlite3.Error) as error:
            message = f"No back-up was made: {error}."
            raise CommandError(message) from error
        self._list_erased(file)
        self.stdout.write(f"{file}: {written.counts}")
        if settings.BUCKET:
            self.stdout.write(
                f"Photos and issued sheets lie in the bucket {settings.BUCKET} and are not in this "
                "file: keep versions of them there."
            )
        elif written.missing:
            self.stderr.write(
                f"The database names {len(written.missing)} files that are not on the disk, "
                f"such as {written.missing[0]}."
            )

    def _list_erased(self, file: Path) -> None:
        """Keep beside all back-ups who was erased: an older one that is restored minds it."""
        beside = file.with_name(erased_list.NAME)
        if erased := erased_list.read(erased_list.list_here(), beside):
            erased_list.write(beside, erased)
