"""What the last back-up left behind, so that whoever looks after the house sees its age."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import asdict, dataclass
from pathlib import Path

from django.conf import settings
from django.utils import timezone

NAME = "last-backup.json"


@dataclass(frozen=True, kw_only=True)
class Mark:
    """When a back-up was made, under which name, and how large it was."""

    at: dt.datetime
    file: str
    size: int  # bytes

    @property
    def age(self) -> dt.timedelta:
        """How long ago that was; a clock that went back makes none from the future."""
        return max(timezone.now() - self.at, dt.timedelta(0))


def leave(file: Path) -> None:
    """Note that this back-up was made: in a file beside the database, which a restore leaves."""
    mark = Mark(at=timezone.now(), file=str(file.absolute()), size=file.stat().st_size)
    written = _place().with_suffix(".new")
    written.write_text(json.dumps(asdict(mark) | {"at": mark.at.isoformat()}))
    written.chmod(0o600)
    written.replace(_place())


def read() -> Mark | None:
    """Return the mark of the last back-up; none where there never was one, or it is unreadable."""
    try:
        plain = json.loads(_place().read_text())
        at = dt.datetime.fromisoformat(plain["at"])
        return Mark(at=at, file=str(plain["file"]), size=int(plain["size"]))
    except (OSError, ValueError, KeyError, TypeError):
        return None


def _place() -> Path:
    return Path(settings.VAR_DIR) / NAME
