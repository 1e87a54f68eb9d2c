"""Where this installation keeps things, and whether they may be touched."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

from jobs.backup.database import Database
from jobs.backup.postgres import PostgresDatabase
from jobs.backup.refusal import BackupError
from jobs.backup.sqlite import SqliteFile


@dataclass(frozen=True, kw_only=True)
class Installation:
    """The folder of an installation, and in it what a back-up holds."""

    folder: Path
    database: Database
    media: Path
    key: Path

    @classmethod
    def here(cls) -> Installation:
        """Return the one these settings are for."""
        default = settings.DATABASES["default"]
        database: Database = (
            SqliteFile(Path(default["NAME"]))
            if default["ENGINE"].endswith("sqlite3")
            else PostgresDatabase.of(default)
        )
        folder = Path(settings.VAR_DIR)
        return cls(
            folder=folder,
            database=database,
            media=Path(settings.MEDIA_ROOT),
            key=folder / "secret_key",
        )

    def photos(self) -> list[Path]:
        """Return every file a person sent."""
        return sorted(path for path in self.media.rglob("*") if path.is_file())

    def is_empty(self) -> bool:
        """Whether nothing was ever kept here."""
        return not self.photos() and self.database.is_empty()

    def refuse_to_overwrite(self, *, replace: bool) -> None:
        """Refuse while it holds something nobody said to replace, or while it runs."""
        if not self.is_empty() and not replace:
            message = (
                f"{self.folder} holds an installation. To put the back-up in its place, say "
                "--replace; what is there now is kept beside it."
            )
            raise BackupError(message)
        if self.database.is_open():
            message = "Undertrim is running on this database: stop it first."
            raise BackupError(message)
