"""Who was erased, by key alone: a list beside the database, replayed when an older one comes back.

It says nothing of anybody. A key alone would one day name somebody else, after an older back-up
was restored and new customers took the next keys: the moment a row began tells them apart.
"""

from __future__ import annotations

import datetime as dt
import json
import os
from dataclasses import asdict, dataclass
from pathlib import Path

from django.conf import settings
from django.db.models import Min

from jobs.models import Customer

NAME = "erased.json"


class UnreadableListError(ValueError):
    """One line for the person at the terminal: without the list nobody would stay erased."""


@dataclass(frozen=True, kw_only=True)
class Erased:
    """One person who was erased."""

    customer: int
    began: str  # when the row was first written, ISO 8601; empty where no history tells
    at: str
    plates: bool  # number plates went too


def list_here() -> Path:
    """Where this installation keeps its list."""
    return Path(settings.VAR_DIR) / NAME


def began(customer: Customer) -> str:
    """Return when a customer's row was first written."""
    first = Customer.history.filter(id=customer.pk).aggregate(at=Min("history_date"))["at"]
    return first.astimezone(dt.UTC).isoformat() if first else ""


def read(*files: Path) -> list[Erased]:
    """Read lists and put them together, each person once; what is not there holds nobody."""
    people: dict[tuple[int, str], Erased] = {}
    for file in files:
        if file.is_file():
            for person in _read(file):
                people[person.customer, person.began] = person
    return sorted(people.values(), key=lambda person: person.at)


def _read(file: Path) -> list[Erased]:
    try:
        return [Erased(**plain) for plain in json.loads(file.read_text())]
    except (TypeError, ValueError) as error:
        message = f"{file} is no list of erased people; put the right one in its place"
        raise UnreadableListError(message) from error


def write(file: Path, erased: list[Erased]) -> None:
    """Write a list whole or not at all; only its owner reads it."""
    beside = file.with_name(f".{file.name}-{os.getpid()}")
    with open(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "w") as written:
        json.dump([asdict(person) for person in erased], written, indent=1)
        written.flush()
        os.fsync(written.fileno())
    beside.replace(file)


def add(erased: Erased) -> None:
    """Add a person to the list of this installation."""
    write(list_here(), [*(person for person in read(list_here()) if person != erased), erased])
