"""`manage.py first_manager`: let in the person who lets everybody else in."""

from __future__ import annotations

import getpass
import sys
from argparse import ArgumentParser
from collections.abc import Callable
from functools import partial
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
NO_NAME = "A name is printed on what is signed."
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
        name = self._asked(options["name"], "Name, as it is printed: ", _name)
        username = self._asked(options["username"], "Name to sign in with: ", _username)
        first, _space, last = name.rpartition(" ")
        person = User(
            username=username, first_name=first or last, last_name=last if first else "",
            roles=[Role.MANAGER],
        )  # fmt: skip
        person.set_password(self._password(person, from_stdin=options["password_stdin"]))
        with transaction.atomic():
            self._refuse(another=options["another"])
            _said(_username, username)
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

    def _asked(self, given: str | None, question: str, check: Callable[[str], None]) -> str:
        """What was given, or asked for until it can be."""
        if given:
            _said(check, given)
            return given
        while True:
            answer = self._ask(question)
            try:
                check(answer)
            except ValidationError as error:
                self.stderr.write(" ".join(error.messages))
            else:
                return answer

    def _password(self, person: User, *, from_stdin: bool) -> str:
        check = partial(validate_password, user=person)
        if from_stdin:
            password = sys.stdin.readline().rstrip("\n")
            _said(check, password)
            return password
        while True:
            password = getpass.getpass("Password: ")
            try:
                check(password)
            except ValidationError as error:
                self.stderr.write(" ".join(error.messages))
                continue
            if getpass.getpass("Once more: ") == password:
                return password
            self.stderr.write(TWO_PASSWORDS)


def _said(check: Callable[[str], None], value: str) -> None:
    """Refuse in words what nobody is there to be asked about again."""
    try:
        check(value)
    except ValidationError as error:
        raise CommandError(" ".join(error.messages)) from error


def _name(name: str) -> None:
    if not name:
        raise ValidationError(NO_NAME)
    for part in ("first_name", "last_name"):
        field: Any = User._meta.get_field(part)
        field.clean(name, None)


def _username(username: str) -> None:
    User._meta.get_field("username").clean(username, None)
    if User.objects.filter(username__iexact=username).exists():
        raise ValidationError(TAKEN)
