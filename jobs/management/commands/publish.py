"""`manage.py publish DIR`: write the panel pages as plain files for any web space."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from jobs.pages.public.published import RefusedError, publish


class Command(BaseCommand):
    """Write the page of every panel that has a code, whatever stage its job is in."""

    help = "Write the page behind each panel's code into a folder, in every language."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take the folder."""
        parser.add_argument("folder", type=Path, help="empty, or written by this command before")

    def handle(self, *args: Any, **options: Any) -> None:
        """Write the files and say what was written."""
        folder: Path = options["folder"]
        try:
            outcome = publish(folder)
        except (RefusedError, OSError) as error:
            raise CommandError(str(error)) from error
        if not outcome.changed:
            self.stdout.write(f"Nothing has changed: {outcome.pages} pages in {folder}.")
        else:
            self.stdout.write(f"{outcome.pages} pages, {outcome.photos} photos in {folder}.")
        if outcome.removed:
            self.stdout.write(f"{outcome.removed} folders of withdrawn codes are gone.")
        if outcome.lost:
            self.stdout.write(f"{outcome.lost} photos are missing from the store.")
        self.stdout.write(
            f"The codes lead to {settings.PUBLIC}/p/: put the folder there. Only panels with a "
            "code are in it; issuing a panel record gives a job's panels theirs."
        )
