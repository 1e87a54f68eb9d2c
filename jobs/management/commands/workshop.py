"""`manage.py workshop`: set this machine up for a workshop; called by `make workshop`."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from config.workshop.answers import HOST, Answers, Certificate, proposed_database
from config.workshop.install import InstallError, install, own_names


class Command(BaseCommand):
    """Ask for what only the workshop knows; everything else has its usual place."""

    help = "Set this machine up: services, TLS, nightly back-up, the first manager."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take what would be asked for otherwise."""
        parser.add_argument("--workshop", help="the workshop's name, as sheets print it")
        parser.add_argument("--host", action="append", help="a name or address of this machine")
        parser.add_argument("--data", type=Path, default=Path("/var/lib/undertrim"))
        parser.add_argument("--backups", type=Path, default=Path("/var/backups/undertrim"))
        parser.add_argument("--postgresql", action="store_true", help="on this machine, not SQLite")
        parser.add_argument("--certificate", nargs=2, type=Path, metavar=("FILE", "KEY"))
        parser.add_argument("--public", help="a name on the internet, for links to customers")
        parser.add_argument("--public-certificate", nargs=2, type=Path, metavar=("FILE", "KEY"))
        parser.add_argument("--manager", help="the name the first manager signs in with")
        parser.add_argument("--manager-name", help="the first manager's name as it is printed")
        parser.add_argument("--password-stdin", action="store_true")

    def handle(self, *args: Any, **options: Any) -> None:
        """Ask, then carry it out."""
        names = options["host"] or self._names()
        workshop = options["workshop"] or self._ask("The workshop's name, as sheets print it")
        public = options["public"] or ""
        for name in [*names, *([public] if public else [])]:
            if not HOST.fullmatch(name):
                message = f"“{name}” is no name of a machine."
                raise CommandError(message)
        if public and not options["public_certificate"]:
            message = "A public address needs its own certificate: say --public-certificate."
            raise CommandError(message)
        answers = Answers(
            code=settings.BASE_DIR,
            data=options["data"].absolute(),
            backups=options["backups"].absolute(),
            names=tuple(names),
            time_zone=_time_zone(),
            database=self._database() if options["postgresql"] else "",
            certificate=_certificate(options["certificate"]),
            public_name=public,
            public_certificate=_certificate(options["public_certificate"]),
        )
        manager = [
            *(["--username", options["manager"]] if options["manager"] else []),
            *(["--name", options["manager_name"]] if options["manager_name"] else []),
            *(["--password-stdin"] if options["password_stdin"] else []),
        ]
        try:
            install(answers, workshop, manager, self.stdout.write)
        except InstallError as error:
            raise CommandError(str(error)) from error

    def _names(self) -> list[str]:
        proposed = own_names()
        self.stdout.write("What do phones and desks type to reach this machine?")
        text = self._ask("Names and addresses", ", ".join(proposed))
        return [name for name in text.replace(",", " ").split() if name]

    def _ask(self, question: str, proposed: str = "") -> str:
        if not sys.stdin.isatty() and not proposed:
            message = "Nobody is there to be asked: see manage.py workshop --help."
            raise CommandError(message)
        hint = f" [{proposed}]" if proposed else ""
        text = input(f"{question}{hint}: ").strip() if sys.stdin.isatty() else ""
        if not (text or proposed):
            return self._ask(question)
        return text or proposed

    def _database(self) -> str:
        """Keep the address that is in use; a new one has a new password."""
        return str(_kept("DATABASE_URL") or proposed_database()[0])


def _kept(name: str) -> str:
    from config.workshop.answers import SETTINGS

    if not SETTINGS.exists():
        return ""
    lines = SETTINGS.read_text().splitlines()
    return next((line.partition("=")[2] for line in lines if line.startswith(f"{name}=")), "")


def _certificate(given: list[Path] | None) -> Certificate | None:
    return Certificate(file=given[0].absolute(), key=given[1].absolute()) if given else None


def _time_zone() -> str:
    file = Path("/etc/timezone")
    return (file.read_text().strip() if file.exists() else "") or "UTC"
