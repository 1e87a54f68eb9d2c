"""Restore a back-up: all of it looked over first, then put in place in a few renames."""

from __future__ import annotations

import datetime as dt
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from jobs.backup import archive, database
from jobs.backup.archive import Manifest
from jobs.backup.database import Database
from jobs.backup.installation import Installation
from jobs.backup.refusal import BackupError

OTHER_KIND = (
    "This back-up is of a database of the kind %s, and here one of the kind %s is set: restore it "
    "where DATABASE_URL names one of the first kind."
)


@dataclass(frozen=True, kw_only=True)
class Unpacked:
    """A sound back-up, unpacked beside the installation it is for."""

    folder: Path
    manifest: Manifest
    database: Database
    is_older: bool  # its tables must be brought up to date
    missing: list[str]  # photos its database names and it does not have


@contextmanager
def unpacked(file: Path, installation: Installation) -> Iterator[Unpacked]:
    """Unpack a back-up and look it over; what is not put in place is cleared away."""
    with tempfile.TemporaryDirectory(prefix="restoring-", dir=installation.folder) as name:
        folder = Path(name)
        manifest = archive.unpack(file, folder)
        _refuse_other_kind(manifest, installation.database)
        with installation.database.unpacked(folder / installation.database.member) as new:
            yield _looked_over(new, manifest, folder)


def _refuse_other_kind(manifest: Manifest, here: Database) -> None:
    if here.member in manifest.members:
        return
    for other, kind in archive.DATABASES.items():
        if other in manifest.members:
            raise BackupError(OTHER_KIND % (kind, archive.DATABASES[here.member]))
    raise BackupError(archive.DAMAGED % "there is no database in it")


def _looked_over(new: Database, manifest: Manifest, folder: Path) -> Unpacked:
    with new.reading() as reading:
        if wrong := reading.fault():
            raise BackupError(archive.DAMAGED % wrong)
        been_through = database.migrations(reading)
        if newer := database.unknown_here(been_through):
            names = f"{manifest.app}, with {'.'.join(newer[-1])}"
            raise BackupError(archive.NEWER % names)
        named = {f"{archive.MEDIA}/{name}" for name in database.named_files(reading)}
    return Unpacked(
        folder=folder,
        manifest=manifest,
        database=new,
        is_older=database.is_behind(been_through),
        missing=sorted(named - set(manifest.members)),
    )


def put_in_place(contents: Unpacked, installation: Installation, *, replace: bool) -> Path | None:
    """Put it where the app looks; returns where what was there is kept, if anything was."""
    installation.refuse_to_overwrite(replace=replace)
    was_empty = installation.is_empty()
    stamp = f"{dt.datetime.now(dt.UTC):%Y-%m-%d-%H%M%S}"
    kept = installation.folder / f"before-restore-{stamp}"
    kept.mkdir(mode=0o700)
    with ExitStack() as undo:  # undone backwards, should a step fail
        undo.callback(kept.rmdir)

        def move(source: Path, target: Path) -> None:
            if source.exists():
                shutil.move(source, target)
                undo.callback(shutil.move, target, source)

        installation.database.set_aside(kept, undo)
        move(installation.media, kept / archive.MEDIA)
        move(contents.folder / archive.MEDIA, installation.media)
        if (contents.folder / archive.KEY).exists():
            move(installation.key, kept / archive.KEY)
            move(contents.folder / archive.KEY, installation.key)
        # Last: without it nothing starts.
        contents.database.take_place(installation.database, undo)
        undo.pop_all()
    for folder in (kept, installation.folder):
        archive.settle(folder)
    if was_empty:
        installation.database.forget(kept)
        shutil.rmtree(kept)  # the empty file and the key of a first start
        return None
    return kept
