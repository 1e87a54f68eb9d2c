"""The file that is carried away: a zip whose manifest knows the hash of everything in it."""

from __future__ import annotations

import hashlib
import json
import os
import struct
import zipfile
import zlib
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from pathlib import Path, PurePosixPath
from typing import IO, Any

from jobs.backup.refusal import BackupError

KEY, MEDIA, MANIFEST = "secret_key", "media", "manifest.json"
SQLITE, POSTGRES = "undertrim.sqlite3", "undertrim.pgdump"
DATABASES = {SQLITE: "SQLite", POSTGRES: "PostgreSQL"}
FORMAT = "Undertrim back-up"
VERSION = 1  # of the format; a later one is refused
PIECE = 1024 * 1024  # bytes read at a time

# What the reader of zip files raises over bytes that are none.
BROKEN = (
    zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, RuntimeError, ValueError,
    OverflowError, LookupError, struct.error,
)  # fmt: skip
NO_BACKUP = "This file is no back-up of Undertrim."
DAMAGED = "This back-up is damaged (%s): take another one."
NEWER = "This back-up is of a newer Undertrim (%s): bring this one up to date first."


@dataclass(frozen=True, kw_only=True)
class Member:
    """One file in it."""

    sha256: str
    size: int


@dataclass(frozen=True, kw_only=True)
class Manifest:
    """What a back-up says of itself, in plain JSON."""

    app: str  # version of Undertrim
    made: str  # when, ISO 8601
    schema: list[str]  # the newest migration of each part
    counts: dict[str, Any]
    members: dict[str, Member]

    def written(self) -> bytes:
        """Return it as it stands in the file."""
        plain = {"format": FORMAT, "format_version": VERSION} | asdict(self)
        return json.dumps(plain, indent=1, ensure_ascii=False).encode()


def pack(file: Path, sources: Iterable[tuple[str, Path]], **about: Any) -> Manifest:
    """Write a back-up; a source that has gone meanwhile was removed by a person and is left out."""
    members: dict[str, Member] = {}
    with open(file, "xb", opener=_private) as written:
        with zipfile.ZipFile(written, "w") as packed:
            for name, source in sources:
                try:
                    with source.open("rb") as read:
                        members[name] = pack_one(packed, _entry(name), read)
                except FileNotFoundError:
                    continue
            manifest = Manifest(members=members, **about)
            packed.writestr(_entry(MANIFEST), manifest.written())
        written.flush()
        os.fsync(written.fileno())
    return manifest


def _private(file: str, flags: int) -> int:
    """Open a file only its owner reads, from its first byte on; some disks know no `chmod`."""
    return os.open(file, flags, 0o600)


def _entry(name: str) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name)
    entry.external_attr = 0o600 << 16
    # Photos are packed already, and so is a dump.
    entry.compress_type = zipfile.ZIP_DEFLATED if name == SQLITE else zipfile.ZIP_STORED
    return entry


def pack_one(packed: zipfile.ZipFile, entry: zipfile.ZipInfo, source: IO[bytes]) -> Member:
    """Put one file in, and return what its manifest says of it."""
    digest, size = hashlib.sha256(), 0
    with packed.open(entry, "w", force_zip64=True) as member:
        while piece := source.read(PIECE):
            digest.update(piece)
            size += len(piece)
            member.write(piece)
    return Member(sha256=digest.hexdigest(), size=size)


def unpack(file: Path, folder: Path) -> Manifest:
    """Unpack a back-up into an empty folder, every byte held to its hash."""
    try:
        with zipfile.ZipFile(file) as packed:
            manifest = _manifest(packed)
            names = [entry.filename for entry in packed.infolist()]
            if sorted(names) != sorted([*manifest.members, MANIFEST]):
                raise BackupError(DAMAGED % "what is in it is not what it lists")
            for name, member in manifest.members.items():
                _unpack_one(packed, name, member, folder)
        for path in (folder, *folder.rglob("*")):
            if path.is_dir():
                settle(path)
    except BROKEN as error:
        is_zip = zipfile.is_zipfile(file)
        raise BackupError(DAMAGED % _said(error) if is_zip else NO_BACKUP) from error
    return manifest


def settle(folder: Path) -> None:
    """See to it that the names in a folder outlive a power cut, as what was written does."""
    door = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(door)
    finally:
        os.close(door)


def _said(error: Exception) -> str:
    return str(error).splitlines()[0] if str(error) else type(error).__name__


def _manifest(packed: zipfile.ZipFile) -> Manifest:
    """Read what a back-up says of itself."""
    if MANIFEST not in packed.namelist():
        raise BackupError(NO_BACKUP)
    try:
        plain = json.loads(packed.read(MANIFEST))
        if plain.pop("format") != FORMAT:
            raise BackupError(NO_BACKUP)
        if plain.pop("format_version") != VERSION:
            raise BackupError(NEWER % plain.get("app"))
        members = {name: Member(**member) for name, member in plain.pop("members").items()}
        return Manifest(members=members, **plain)
    except (AttributeError, KeyError, TypeError, ValueError) as error:
        raise BackupError(NO_BACKUP) from error


def _unpack_one(packed: zipfile.ZipFile, name: str, member: Member, folder: Path) -> None:
    path = PurePosixPath(name)
    if not (name in (*DATABASES, KEY) or path.parts[0] == MEDIA) or ".." in path.parts:
        raise BackupError(DAMAGED % f"{name} has no place here")
    target = folder.joinpath(path)
    for parent in reversed(path.parents):  # each closed to others, as the app makes them
        (folder / parent).mkdir(mode=0o700, exist_ok=True)
    digest, size = hashlib.sha256(), 0
    with packed.open(name) as source, open(target, "xb", opener=_private) as written:
        while piece := source.read(PIECE):
            digest.update(piece)
            size += len(piece)
            written.write(piece)
        written.flush()
        os.fsync(written.fileno())
    if (digest.hexdigest(), size) != (member.sha256, member.size):
        raise BackupError(DAMAGED % f"{name} is not what was packed")
