"""Replaces Django's command, whose accounts have no role and so would see nothing."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError


class Command(BaseCommand):
    """Say what to use instead."""

    help = "Not used here: see `manage.py first_manager`."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take whatever Django's own would take, so that the answer below is given."""
        parser.add_argument("--username")
        parser.add_argument("--email")
        parser.add_argument("--noinput", "--no-input", action="store_true")

    def handle(self, *args: Any, **options: Any) -> None:
        """Refuse."""
        message = (
            "There are no superusers here; such an account would see nothing. The first person is "
            "let in with `manage.py first_manager`, everybody else on the page People."
        )
        raise CommandError(message)
