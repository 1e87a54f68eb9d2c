"""`manage.py demo`: load the demo jobs into an empty installation and say how to sign in."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError
from django.db import connections

from config.server import serve
from jobs.demo import load_demo
from jobs.demo.people import PASSWORD, PEOPLE
from jobs.models import Job, User, Workshop

FOR_REAL = (
    "This installation is used for real; the demo is not put into it. To look at the demo, set "
    "UNDERTRIM_VAR to an empty folder."
)


class Command(BaseCommand):
    """Load the demo once; whatever was entered since stays."""

    help = "Load three invented jobs into an empty installation and print the sign-ins."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take the port of the address printed, and whether to answer on it."""
        parser.add_argument("--port", default="8000")
        parser.add_argument("--serve", action="store_true", help="answer there until Ctrl-C")

    def handle(self, *args: Any, **options: Any) -> None:
        """Bring the tables up to date, load, then print where to look and as whom."""
        call_command("migrate", verbosity=0)
        if not Workshop.current().is_demo:
            if any(table.exists() for table in (Job.with_removed, User.objects, Workshop.objects)):
                raise CommandError(FOR_REAL)
            load_demo()
        self.stdout.write(f"Undertrim is at http://127.0.0.1:{options['port']}/")
        self.stdout.write(f"Sign in as any of these, password {PASSWORD}:")
        for name, (first, last, role) in PEOPLE.items():
            words = role.label if role else "no role: sees nothing"
            self.stdout.write(f"  {name:<11} {first} {last}, {words}")
        self.stdout.write("Stop with Ctrl-C; what you enter stays in var/.")
        if options["serve"]:
            # A process takes no open connection of its parent along.
            connections.close_all()
            serve("127.0.0.1", int(options["port"]))
