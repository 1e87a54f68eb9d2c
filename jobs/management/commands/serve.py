"""`manage.py serve`: answer for real, behind a front that speaks TLS."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError
from django.db import DatabaseError, connections

from config.server import serve
from jobs.models import Workshop

IS_DEMO = (
    "This is the demo, whose passwords everybody knows: it is shown with `make demo`, on this "
    "machine alone."
)


class Command(BaseCommand):
    """Never the demo: its passwords are printed."""

    help = "Answer at this address until told to stop."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take where to answer."""
        parser.add_argument("--host", default="127.0.0.1")
        parser.add_argument("--port", type=int, default=8100)

    def handle(self, *args: Any, **options: Any) -> None:
        """Answer, once the tables are there."""
        try:
            is_demo = Workshop.current().is_demo
        except DatabaseError as error:
            message = "The database does not answer, or its tables are missing (`migrate`)."
            raise CommandError(message) from error
        if is_demo:
            raise CommandError(IS_DEMO)
        # A process takes no open connection of its parent along.
        connections.close_all()
        serve(options["host"], options["port"])
