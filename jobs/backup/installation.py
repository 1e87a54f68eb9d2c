"""Where this installation keeps things, and whether they may be touched."""

from __future__ import annotations

import fcntl
import os
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

from jobs.backup.refusal import BackupError

# SQLite locks these bytes of its file for as long as somebody has it open in WAL mode
# (sqlite.org/fileformat2.html, "The Lock-Byte Page"; os_unix.c).
LOCK_BYTES = (0x4000_0000, 512)
BESIDE = ("", "-wal", "-shm", "-journal")  # what SQLite writes beside its file


@dataclass(frozen=True, kw_only=True)
class Installation:
    """The folder of an installation, and in it what a back-up holds."""

    folder: Path
    database: Path
    media: Path
    key: Path

    @classmethod
    def here(cls) -> Installation:
        """Return the one these settings are for."""
        default = settings.DATABASES["default"]
        if not default["ENGINE"].endswith("sqlite3"):
            message = (
                "Back-up and restore are for SQLite. Of this database make one with its own tools "
                f"first, then copy {settings.MEDIA_ROOT} and the secret key."
            )
            raise BackupError(message)
        folder = Path(settings.VAR_DIR)
        return cls(
            folder=folder,
            database=Path(default["NAME"]),
            media=Path(settings.MEDIA_ROOT),
            key=folder / "secret_key",
        )

    @property
    def database_files(self) -> list[Path]:
        """The database and what SQLite keeps beside it."""
        return [self.database.with_name(self.database.name + end) for end in BESIDE]

    def photos(self) -> list[Path]:
        """Return every file a person sent."""
        return sorted(path for path in self.media.rglob("*") if path.is_file())

    @property
    def is_empty(self) -> bool:
        """Whether nothing was ever kept here: settings make an empty file on the first start."""
        return not self.photos() and not any(
            file.exists() and file.stat().st_size for file in self.database_files
        )

    def refuse_to_overwrite(self, *, replace: bool) -> None:
        """Refuse while it holds something nobody said to replace, or while it runs."""
        if not self.is_empty and not replace:
            message = (
                f"{self.folder} holds an installation. To put the back-up in its place, say "
                "--replace; what is there now is kept beside it."
            )
            raise BackupError(message)
        if self._is_open():
            message = "Undertrim is running on this database: stop it first."
            raise BackupError(message)

    def _is_open(self) -> bool:
        """Whether another process has the database open; a damaged one can be asked too."""
        if not self.database.exists():
            return False
        start, length = LOCK_BYTES
        with self.database.open("r+b") as file:
            try:
                fcntl.lockf(file, fcntl.LOCK_EX | fcntl.LOCK_NB, length, start, os.SEEK_SET)
            except BlockingIOError:
                return True
        return False
