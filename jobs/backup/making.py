"""Make a back-up while the app runs."""

from __future__ import annotations

import datetime as dt
import tempfile
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

from jobs import version
from jobs.backup import archive, database
from jobs.backup.database import Counts, Database
from jobs.backup.installation import Installation
from jobs.backup.refusal import BackupError


@dataclass(frozen=True, kw_only=True)
class Made:
    """What went into a back-up."""

    counts: Counts
    missing: list[str]  # photos the database names and nobody has


def back_up(installation: Installation, file: Path, *, replace: bool = False) -> Made:
    """Write the whole installation as it is at this moment into one file, or nothing at all."""
    _refuse(installation, file, replace=replace)
    # Beside the file: there is room to be there, and a rename is one step.
    with tempfile.TemporaryDirectory(prefix=f".{file.name}-", dir=file.parent) as name:
        copied, packed = Path(name) / installation.database.member, Path(name) / "packed"
        # The database first: a photo is stored before its row is, so every row finds its photo.
        with installation.database.copied(copied) as copy:
            if wrong := copy.fault():
                message = f"The database is damaged ({wrong}): keep the last back-up."
                raise BackupError(message)
            counts, been_through = database.counts(copy), database.migrations(copy)
            named = {f"{archive.MEDIA}/{name}" for name in database.named_files(copy)}
        manifest = archive.pack(
            packed,
            _sources(installation, copied),
            app=version.number(),
            made=dt.datetime.now(dt.UTC).isoformat(timespec="seconds"),
            schema=database.newest_names(been_through),
            counts=asdict(counts) | {"newest": counts.newest and counts.newest.isoformat()},
        )
        packed.replace(file)
    archive.settle(file.parent)
    return Made(counts=counts, missing=sorted(named - set(manifest.members)))


def _refuse(installation: Installation, file: Path, *, replace: bool) -> None:
    message = ""
    if file.is_dir() or not file.parent.is_dir():
        message = f"{file} cannot be a file: give a name in a folder that is there."
    elif file.exists() and not replace:
        message = f"{file} is there already: give another name, or say --replace."
    elif installation.media.resolve() in file.resolve().parents:
        message = f"{installation.media} is itself backed up: keep back-ups elsewhere."
    elif not _holds_tables(installation.database):
        message = f"There is nothing to back up in {installation.folder}."
    if message:
        raise BackupError(message)


def _holds_tables(there: Database) -> bool:
    if there.is_empty():
        return False
    with there.reading() as reading:
        return bool(database.migrations(reading))


def _sources(installation: Installation, copied: Path) -> Iterator[tuple[str, Path]]:
    yield copied.name, copied
    if installation.key.exists():
        yield archive.KEY, installation.key
    for photo in installation.photos():
        yield f"{archive.MEDIA}/{photo.relative_to(installation.media).as_posix()}", photo
