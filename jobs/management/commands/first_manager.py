"""`manage.py first_manager`: let in the person who lets everybody else in."""

from __future__ import annotations

import getpass
import sys
from argparse import ArgumentParser
from typing import Any

from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError
from django.db import DatabaseError, transaction

from jobs.models import AccountEvent, Role, User, Workshop

IS_DEMO = (
    "This is the demo, whose passwords everybody knows. Begin in an empty folder: set "
    "UNDERTRIM_VAR to one, then migrate, then this."
)
HAS_MANAGER = (
    "There is a manager already, who lets people in on the page People. If nobody can sign in as "
    "one any more, say --another."
)
TAKEN = "Somebody has this sign-in name."
TWO_PASSWORDS = "These were two passwords."


class Command(BaseCommand):
    """Make the first manager: asked for, or taken from the command line."""

    help = "Let in the first workshop manager; there is no default name and no default password."

    def add_arguments(self, parser: ArgumentParser) -> None:
        """Take what would be asked for otherwise."""
        parser.add_argument("--username", help="the name to sign in with")
        parser.add_argument("--name", help="the name as it is printed, first name first")
        parser.add_argument(
            "--password-stdin", action="store_true", help="read the password from standard input"
        )
        parser.add_argument(
            "--another", action="store_true", help="although there is a manager already"
        )
        parser.add_argument(
            "--once", action="store_true", help="content where there is a manager already"
        )
        parser.add_argument("--workshop", help="the workshop's name, where none was entered yet")

    def handle(self, *args: Any, **options: Any) -> None:
        """Refuse where it would open a door nobody asked for; else make the account."""
        try:
            if options["once"] and not Workshop.current().is_demo and self._has_manager():
                return
            self._refuse(another=options["another"])
        except DatabaseError as error:
            message = "The tables are missing: run `manage.py migrate` first."
            raise CommandError(message) from error
        name = options["name"] or self._ask("Name, as it is printed: ")
        username = options["username"] or self._ask("Name to sign in with: ")
        first, _space, last = name.rpartition(" ")
        person = User(
            username=username, first_name=first or last, last_name=last if first else "",
            roles=[Role.MANAGER],
        )  # fmt: skip
        password = self._password(person, from_stdin=options["password_stdin"])
        person.set_password(password)
        with transaction.atomic():
            self._refuse(another=options["another"])
            try:
                if User.objects.filter(username__iexact=username).exists():
                    raise ValidationError(TAKEN)
                person.full_clean()
            except ValidationError as error:
                raise CommandError(" ".join(error.messages)) from error
            person.save()
            if options["workshop"] and not Workshop.objects.exists():
                Workshop.objects.create(name=options["workshop"])
            AccountEvent.objects.create(
                person=person, did=AccountEvent.Did.ADDED, roles=person.roles
            )
        self.stdout.write(f"{person.full_name} signs in as {person.username}.")
        self.stdout.write("Let everybody else in on the page People.")

    def _refuse(self, *, another: bool) -> None:
        if Workshop.current().is_demo:
            raise CommandError(IS_DEMO)
        if self._has_manager() and not another:
            raise CommandError(HAS_MANAGER)

    def _has_manager(self) -> bool:
        with transaction.atomic():
            return bool(User.managers())

    def _ask(self, question: str) -> str:
        try:
            return input(question).strip()
        except EOFError as error:
            message = "Nobody is there to be asked: say --username, --name and --password-stdin."
            raise CommandError(message) from error

    def _password(self, person: User, *, from_stdin: bool) -> str:
        if from_stdin:
            password = sys.stdin.readline().rstrip("\n")
        else:
            password = getpass.getpass("Password: ")
            if getpass.getpass("Once more: ") != password:
                raise CommandError(TWO_PASSWORDS)
        try:
            validate_password(password, person)
        except ValidationError as error:
            raise CommandError(" ".join(error.messages)) from error
        return password
