"""`manage.py nightly`: back everything up, let go of old back-ups and of what was removed."""

from __future__ import annotations

import datetime as dt
import re
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.utils import timezone

from jobs import arrivals

NIGHTS = 14
MONTHS = 12
_NAMED = re.compile(r"undertrim-(\d{4}-\d{2}-\d{2})\.zip")


class Command(BaseCommand):
    """What a timer calls at night."""

    help = (
        "Back up into the folder of back-ups; fourteen nights and the firsts of twelve months "
        "stay. What was removed thirty days ago goes for good."
    )

    def handle(self, *args: Any, **options: Any) -> None:
        """Back up first: nothing is let go of before the new one is whole."""
        if settings.BACKUPS is None:
            message = "Set UNDERTRIM_BACKUPS to a folder, best on another disk."
            raise CommandError(message)
        folder = Path(settings.BACKUPS)
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        today = timezone.localdate()
        call_command("backup", folder / f"undertrim-{today}.zip", replace=True)
        for file in superseded(folder, today):
            file.unlink()
        call_command("clear_removed", stdout=self.stdout)
        arrivals.clear()


def superseded(folder: Path, today: dt.date) -> list[Path]:
    """Return the back-ups that are older than fourteen nights and no first of a month of a year.

    The newest of a month is never let go of before the next month has one, and the newest fourteen
    never: by a clock that is years ahead for a night they would all be old.
    """
    nights = {
        dt.date.fromisoformat(match[1]): file
        for file in folder.iterdir()
        if (match := _NAMED.fullmatch(file.name))
    }
    firsts: dict[tuple[int, int], dt.date] = {}
    for night in sorted(nights):
        firsts.setdefault((night.year, night.month), night)
    kept = {night for night in nights if (today - night).days < NIGHTS}
    kept |= set(sorted(nights)[-NIGHTS:]) | set(sorted(firsts.values())[-MONTHS:])
    return [file for night, file in sorted(nights.items()) if night not in kept]
