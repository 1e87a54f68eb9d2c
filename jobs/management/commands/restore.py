"""`manage.py restore FILE`: put a back-up in place, after all of it was looked over."""

from __future__ import annotations

import io
import sqlite3
from argparse import ArgumentParser
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.db import Error, connection, transaction

from jobs.backup import archive, database
from jobs.backup.installation import Installation
from jobs.backup.refusal import BackupError
from jobs.backup.restoring import Unpacked, put_in_place, unpacked
from jobs.keeping import erased_list
from jobs.keeping.erase import replay
from jobs.keeping.erased_list import Erased


class Command(BaseCommand):
    """Restore into an empty installation, or in the place of one that is kept beside."""

    help = "Put a back-up in place; nothing is touched before all of it was found sound."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take the file, and whether it may take the place of what is there."""
        parser.add_argument("file", type=Path, help="a file that `manage.py backup` wrote")
        parser.add_argument(
            "--replace",
            action="store_true",
            help="in the place of an installation, sound or damaged, which is kept beside it",
        )
        parser.add_argument(
            "--try",
            action="store_true",
            dest="drill",
            help="all of it, in a place beside that is cleared away again; the app may go on",
        )

    def handle(self, *args: Any, **options: Any) -> None:
        """Restore and say what there is now, or refuse in one line and change nothing."""
        try:
            if options["drill"]:
                self._drill(options["file"])
            else:
                self._restore(options["file"], replace=options["replace"])
        except BackupError as error:
            raise CommandError(str(error)) from error
        except (OSError, sqlite3.Error, Error, erased_list.UnreadableListError) as error:
            message = f"Nothing was restored: {error}."
            raise CommandError(message) from error

    def _restore(self, file: Path, *, replace: bool) -> None:
        here = Installation.here()
        here.refuse_to_overwrite(replace=replace)
        with unpacked(file, here) as contents:
            erased, again, gone = _brought_up(contents, file)
            for name in gone:
                (contents.folder / archive.MEDIA / name).unlink(missing_ok=True)
            kept = put_in_place(contents, here, replace=replace)
        if erased:
            erased_list.write(erased_list.list_here(), erased)
        with here.database.reading() as reading:
            self.stdout.write(f"Restored into {here.folder}: {database.counts(reading)}")
        if again:
            self.stdout.write(f"Erased again, as they were since this back-up: {again}")
        self._tell_missing(contents)
        if kept:
            places = dict.fromkeys([str(kept), here.database.kept_in(kept)])
            self.stdout.write(f"What was there before is kept in {' and '.join(places)}")

    def _drill(self, file: Path) -> None:
        """Do all that a restore does but the last step."""
        with unpacked(file, Installation.here()) as contents:
            _brought_up(contents, file)
            with contents.database.reading() as reading:
                self.stdout.write(f"It can be restored: {database.counts(reading)}")
            self._tell_missing(contents)
        self.stdout.write("Nothing was changed here.")

    def _tell_missing(self, contents: Unpacked) -> None:
        if missing := contents.missing:
            self.stderr.write(
                f"The database names {len(missing)} files that were not in the back-up, "
                f"such as {missing[0]}."
            )


def _brought_up(contents: Unpacked, file: Path) -> tuple[list[Erased], int, list[str]]:
    """Bring a back-up to this version, and erase whoever was erased since.

    Returns who that is, how many were in it, and the files that go with them.
    """
    with _connected_to(contents.database.name):
        if contents.is_older:
            call_command("migrate", verbosity=0)
        call_command("check", databases=["default"], stdout=io.StringIO())
        erased = erased_list.read(erased_list.list_here(), file.with_name(erased_list.NAME))
        with transaction.atomic():
            return erased, *replay(erased)


@contextmanager
def _connected_to(name: str) -> Iterator[None]:
    """Let Django work on this database for a while, as its test runner does."""
    before = connection.settings_dict["NAME"]
    connection.close()
    connection.settings_dict["NAME"] = name
    try:
        yield
    finally:
        connection.close()  # SQLite writes into its file what it keeps beside it
        connection.settings_dict["NAME"] = before
