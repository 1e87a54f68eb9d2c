"""`manage.py files bucket|disk`: photos and issued sheets, moved from the disk into the bucket
that is set, or back.
"""

from __future__ import annotations

import signal
import sys
from argparse import ArgumentParser
from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import chain
from typing import Any

from django.conf import settings
from django.core.files.storage import Storage, storages
from django.core.management.base import BaseCommand, CommandError
from django.template.defaultfilters import filesizeformat

from jobs import arrivals
from jobs.keeping import moving
from jobs.keeping.moving import Step
from jobs.room import is_out_of_room

BUCKET, DISK = "bucket", "disk"
EVERY = 100  # files, before it is said how far it has got
TROUBLES = {
    "missing": "is named by the database and lies neither on the disk nor in the bucket",
    "another": "another file bears this name there; both were left",
    "changed": "is not as it was issued, and was left",
    "unread": "was not read back as it was written, and was left",
}


class Command(BaseCommand):
    """Move every file; each old one goes when its copy was read back."""

    help = "Move photos, recordings and issued sheets into the bucket that is set, or back."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take where to."""
        parser.add_argument("to", choices=[BUCKET, DISK], help="where the files are to lie")
        parser.add_argument("--dry-run", action="store_true", help="say what would be moved")

    def handle(self, *args: Any, **options: Any) -> None:
        """Move them; the exit is not zero where one was left."""
        if not settings.BUCKET:
            message = "No bucket is set: UNDERTRIM_S3_BUCKET and what belongs to it."
            raise CommandError(message)
        signal.signal(signal.SIGTERM, lambda *_: sys.exit(1))
        dry = options["dry_run"]
        try:
            troubles = self._say(_steps(options["to"], dry=dry), dry=dry)
        except KeyboardInterrupt:
            message = "Stopped; nothing is lost. The same command goes on from here."
            raise CommandError(message) from None
        except Exception as error:
            if not (type(error).__module__.startswith("botocore.") or is_out_of_room(error)):
                raise
            where = "The disk is full" if is_out_of_room(error) else "The bucket does not answer"
            message = f"{where}: {error}. Nothing is lost; the same command goes on from here."
            raise CommandError(message) from error
        if troubles:
            message = f"{troubles} files were not moved."
            raise CommandError(message)

    def _say(self, steps: Iterable[Step], *, dry: bool) -> int:
        """Say how far it has got, and what was left; returns how many were."""
        count: Counter[str] = Counter()
        size = 0
        for number, step in enumerate(steps, start=1):
            count[step.outcome] += 1
            if step.outcome in TROUBLES:
                self.stderr.write(f"{step.name}: {TROUBLES[step.outcome]}.")
            else:
                size += step.size
            if number % EVERY == 0:
                self.stdout.write(f"{number} files, {filesizeformat(size)}")
        done = "would move" if dry else "moved"
        self.stdout.write(f"{count['moved']} files, {filesizeformat(size)}: {done}.")
        if count["there"]:
            self.stdout.write(f"{count['there']} lay there already.")
        return sum(count[outcome] for outcome in TROUBLES)


def _steps(to: str, *, dry: bool) -> Iterator[Step]:
    bucket, disk = storages["default"], _disk()
    if to == BUCKET:
        names = moving.named() | set(moving.lying_in(disk))
        files = moving.move(names, disk, bucket, dry=dry)
        return chain(files, moving.sheets_into_the_bucket(dry=dry))
    # A bucket may hold what is not ours: what no row names stays there.
    names = moving.named() - moving.of_sheets()
    names |= set(moving.lying_in(bucket, arrivals.FOLDER))
    files = moving.move(names, bucket, disk, dry=dry)
    return chain(files, moving.sheets_into_the_rows(dry=dry))


def _disk() -> Storage:
    """The store beside the database, whether or not it is the one in use."""
    return storages.create_storage(settings.BESIDE)
