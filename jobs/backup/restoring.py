"""Restore a back-up: all of it looked over first, then put in place in a few renames."""

from __future__ import annotations

import datetime as dt
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from jobs.backup import archive, database
from jobs.backup.archive import Manifest
from jobs.backup.installation import Installation
from jobs.backup.refusal import BackupError


@dataclass(frozen=True, kw_only=True)
class Unpacked:
    """A sound back-up, unpacked beside the installation it is for."""

    folder: Path
    manifest: Manifest

    @property
    def database(self) -> Path:
        """Its database."""
        return self.folder / archive.DATABASE

    def is_older(self) -> bool:
        """Whether its tables must be brought up to date."""
        return database.is_behind(database.migrations(self.database))

    def missing(self) -> list[str]:
        """Return the photos its database names and it does not have."""
        named = {f"{archive.MEDIA}/{name}" for name in database.named_files(self.database)}
        return sorted(named - set(self.manifest.members))


@contextmanager
def unpacked(file: Path, installation: Installation) -> Iterator[Unpacked]:
    """Unpack a back-up and look it over; what is not put in place is cleared away."""
    with tempfile.TemporaryDirectory(prefix="restoring-", dir=installation.folder) as name:
        folder = Path(name)
        manifest = archive.unpack(file, folder)
        found = Unpacked(folder=folder, manifest=manifest)
        if not found.database.exists():
            raise BackupError(archive.DAMAGED % "there is no database in it")
        if wrong := database.fault(found.database):
            raise BackupError(archive.DAMAGED % wrong)
        if newer := database.unknown_here(database.migrations(found.database)):
            names = f"{manifest.app}, with {'.'.join(newer[-1])}"
            raise BackupError(archive.NEWER % names)
        yield found


def put_in_place(found: Unpacked, installation: Installation, *, replace: bool) -> Path | None:
    """Put it where the app looks; returns where what was there before is kept, if anything was.

    What SQLite left beside the old database goes with it: it would be written into the new one.
    """
    installation.refuse_to_overwrite(replace=replace)
    was_empty = installation.is_empty
    stamp = f"{dt.datetime.now(dt.UTC):%Y-%m-%d-%H%M%S}"
    kept = installation.folder / f"before-restore-{stamp}"
    kept.mkdir(mode=0o700)
    moved: list[tuple[Path, Path]] = []

    def move(source: Path, target: Path) -> None:
        if source.exists():
            shutil.move(source, target)
            moved.append((source, target))

    try:
        for file in installation.database_files:
            move(file, kept / file.name)
        move(installation.media, kept / archive.MEDIA)
        move(found.folder / archive.MEDIA, installation.media)
        if (found.folder / archive.KEY).exists():
            move(installation.key, kept / archive.KEY)
            move(found.folder / archive.KEY, installation.key)
        move(found.database, installation.database)  # last: without it nothing starts
    except BaseException:
        for source, target in reversed(moved):
            shutil.move(target, source)
        kept.rmdir()
        raise
    for folder in {kept, installation.folder, installation.database.parent}:
        archive.settle(folder)
    if was_empty:
        shutil.rmtree(kept)  # the empty file and the key of a first start
        return None
    return kept
