"""`manage.py workshop`: set this machine up for a workshop; called by `make workshop`."""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from collections.abc import Iterable
from dataclasses import replace
from pathlib import Path
from typing import Any
from zoneinfo import available_timezones

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from config.workshop.answers import HOST, KEPT, Answers, Certificate, new_database
from config.workshop.install import InstallError, install, own_names
from jobs.backup.archive import SQLITE

LOCAL_TIME = Path("/etc/localtime")
ANOTHER_DATABASE = (
    "This workshop's jobs lie in SQLite, and PostgreSQL would begin empty beside them. A workshop "
    "that begins may choose it; this one goes on as it is without --postgresql."
)


class Command(BaseCommand):
    """Ask for what only the workshop knows; everything else has its usual place."""

    help = "Set this machine up: services, TLS, nightly back-up, the first manager."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take what would be asked for otherwise."""
        parser.add_argument("--workshop", help="the workshop's name, as sheets print it")
        parser.add_argument("--host", action="append", help="a name or address of this machine")
        parser.add_argument("--data", type=Path, help="instead of /var/lib/undertrim")
        parser.add_argument("--backups", type=Path, help="instead of /var/backups/undertrim")
        parser.add_argument("--postgresql", action="store_true", help="on this machine, not SQLite")
        parser.add_argument("--certificate", nargs=2, type=Path, metavar=("FILE", "KEY"))
        parser.add_argument("--public", help="a name on the internet, for links to customers")
        parser.add_argument("--public-certificate", nargs=2, type=Path, metavar=("FILE", "KEY"))
        parser.add_argument("--manager", help="the name the first manager signs in with")
        parser.add_argument("--manager-name", help="the first manager's name as it is printed")
        parser.add_argument("--password-stdin", action="store_true")

    def handle(self, *args: Any, **options: Any) -> None:
        """Ask, then carry it out."""
        before = Answers.read(KEPT.read_text()) if KEPT.exists() else None
        names = options["host"] or self._names(before.names if before else own_names())
        # A workshop that is there has its name; only a new one is asked for it.
        workshop = options["workshop"] or (
            "" if before else self._ask("The workshop's name, as sheets print it")
        )
        fresh = Answers(
            code=settings.BASE_DIR,
            data=Path("/var/lib/undertrim"),
            backups=Path("/var/backups/undertrim"),
            names=(),
        )
        told = {
            "data": options["data"] and options["data"].absolute(),
            "backups": options["backups"] and options["backups"].absolute(),
            "certificate": _certificate(options["certificate"]),
            "public_name": options["public"],
            "public_certificate": _certificate(options["public_certificate"]),
        }
        answers = replace(
            before or fresh,
            code=settings.BASE_DIR,
            names=tuple(names),
            time_zone=_time_zone(),
            **{name: value for name, value in told.items() if value},
        )
        if options["postgresql"] and not answers.database:
            if (answers.data / SQLITE).exists():
                raise CommandError(ANOTHER_DATABASE)
            answers = replace(answers, database=new_database())
        for name in filter(None, [*answers.names, answers.public_name]):
            if not HOST.fullmatch(name):
                message = f"“{name}” is no name of a machine."
                raise CommandError(message)
        if answers.public_name and not answers.public_certificate:
            message = "A public address needs its own certificate: say --public-certificate."
            raise CommandError(message)
        manager = [
            *(["--username", options["manager"]] if options["manager"] else []),
            *(["--name", options["manager_name"]] if options["manager_name"] else []),
            *(["--password-stdin"] if options["password_stdin"] else []),
        ]
        try:
            install(answers, workshop, manager, self.stdout.write)
        except InstallError as error:
            raise CommandError(str(error)) from error

    def _names(self, proposed: Iterable[str]) -> list[str]:
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


def _certificate(given: list[Path] | None) -> Certificate | None:
    return Certificate(file=given[0].absolute(), key=given[1].absolute()) if given else None


def _time_zone() -> str:
    """Return the machine's: Debian 13 keeps it as a link alone, older ones as a line too."""
    name = LOCAL_TIME.resolve().as_posix().partition("/zoneinfo/")[2]
    return name if name in available_timezones() else "UTC"
