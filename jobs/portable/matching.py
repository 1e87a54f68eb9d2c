"""What of a job's file is here already, and what would be made: looked up, nothing written.

Shared rows (parts, the car, the customer, people) are the same where everything the file says of
them is the same here. What differs in one figure is made anew beside it: neither job may change
because the other one came.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from hashlib import sha256
from typing import Any

from django.apps import apps
from django.db.models import Model

from jobs.design.records.data import carried, written
from jobs.models import (
    Amplifier,
    AmplifierRating,
    Customer,
    IssuedSheet,
    Job,
    JobPart,
    Part,
    User,
    Vehicle,
)
from jobs.portable.numbering import Row
from jobs.portable.reading import Arrival
from jobs.portable.results import differing, results_of
from jobs.portable.staying import stays
from jobs.portable.writing import RESULTS, sheet_name
from jobs.search import words_in
from jobs.sheets.chain import digest

# What of a part is no figure of it: what the workshop asks for it, and where its figures are from.
OF_THE_SHOP = {"price", "tax_class", "figures_source", "as_typed", "removed_at"}
MOST_NAMED = 8


@dataclass(frozen=True, kw_only=True)
class Shared:
    """A row that several jobs may share: what it is called, and whether it is here."""

    name: str
    key: int | None = None  # the key here, where it is the same
    # Something of that name is here, and is not the same.
    other: str = ""

    @property
    def is_here(self) -> bool:
        """Whether nothing is made for it."""
        return self.key is not None


@dataclass(frozen=True, kw_only=True)
class Plan:
    """What taking a file in would come to."""

    written_as: str  # the number it has in the file
    number: int
    number_is_taken: bool
    customer: Shared
    car: Shared
    people: Mapping[int, Shared]
    parts: Mapping[int, Shared]
    counts: Mapping[type[Model], int]  # rows of the job itself
    photos: int
    # Sheets that are not as they were issued, and results that come out otherwise here.
    damaged: list[str] = field(default_factory=list)
    different: list[str] = field(default_factory=list)
    lost: list[str] = field(default_factory=list)

    @property
    def code(self) -> str:
        """The number it gets, as it is printed."""
        return Job(number=self.number).code

    @cached_property
    def new_parts(self) -> list[Shared]:
        """Parts the catalogue does not have."""
        return [part for part in self.parts.values() if not part.is_here]

    @cached_property
    def new_people(self) -> list[Shared]:
        """People nobody here is called by the name of."""
        return [person for person in self.people.values() if not person.is_here]


def plan(arrival: Arrival) -> Plan:
    """Look everything up."""
    wanted = int(arrival.document["job"].removeprefix("J-"))
    taken = Job.with_removed.filter(number=wanted).exists()
    top = Job.with_removed.order_by("-number").values_list("number", flat=True).first() or 0
    customer = _customer(arrival.rows(Customer)[0])
    own = {model: arrival.rows(model) for model in map(_model, arrival.data["rows"])}
    return Plan(
        written_as=arrival.document["job"],
        number=top + 1 if taken else wanted,
        number_is_taken=taken,
        customer=customer,
        car=_car(arrival.rows(Vehicle)[0], customer),
        people={row["id"]: _person(row) for row in arrival.rows(User)},
        parts=_parts(arrival),
        counts={m: len(rows) for m, rows in own.items() if issubclass(m, JobPart) and rows},
        photos=len(arrival.rows(_model("Photo"))),
        damaged=_damaged(arrival),
        different=_different(arrival),
        lost=arrival.document.get("lost", []),
    )


def _model(name: str) -> type[Model]:
    return apps.get_model("jobs", name)


def says_of(model: type[Model], row: Mapping[str, Any]) -> Row:
    """Return what a row says of itself: its own figures, no keys, nothing that stays."""
    links = {f.attname for f in carried(model).values() if f.is_relation or f.primary_key}
    return {
        name: row[name]
        for name in carried(model)
        if name in row and name not in links | OF_THE_SHOP and not stays(model, name)
    }


def _same(row: Row, candidates: Iterable[Any]) -> Any:
    """Return the one of these rows that says the same."""
    for candidate in candidates:
        model = type(candidate)
        here, there = says_of(model, written(candidate)), says_of(model, row)
        if all(here[name] == value for name, value in there.items()):
            return candidate
    return None


def _customer(row: Row) -> Shared:
    named = Customer.objects.filter(name__iexact=row["name"]) if row["name"] else ()
    return _shared(row["name"], row, named)


def _car(row: Row, customer: Shared) -> Shared:
    """Find the car by its identification number or its plate."""
    alike = Vehicle.objects.filter(maker__iexact=row["maker"], model__iexact=row["model"])
    plate, vin = _bare(row.get("plate", "")), _bare(row.get("vin", ""))
    known = [
        car
        for car in alike
        if (vin and _bare(car.vin) == vin) or (plate and _bare(car.plate) == plate)
    ]
    name = " ".join(part for part in (row["maker"], row["model"], row.get("plate", "")) if part)
    shared = _shared(name, row, [c for c in known if c.customer_id == customer.key])
    if known and not shared.is_here:
        return Shared(name=name, other=f"{known[0]} {known[0].plate}".strip())
    return shared


def _bare(text: str) -> bytes:
    return b"".join(words_in(text))


def _person(row: Row) -> Shared:
    """Find a person by the name that is printed: of two of one name neither is meant for sure."""
    name = row.get("last_name", "")
    same = [user for user in User.objects.all() if user.full_name == name]
    if len(same) == 1:
        return Shared(name=name, key=same[0].pk)
    return Shared(name=name, other=name if same else "")


def _parts(arrival: Arrival) -> dict[int, Shared]:
    shared: dict[int, Shared] = {}
    kinds = [m for m in map(_model, arrival.data["rows"]) if issubclass(m, Part)]
    ratings = _ratings(arrival.rows(AmplifierRating))
    # The general half last: a part that has figures of its kind is known by these.
    for model in sorted(kinds, key=lambda model: model is Part):
        for row in arrival.rows(model):
            if row["id"] in shared:
                continue
            manager: Any = model._default_manager
            named = manager.filter(kind=row["kind"], maker=row["maker"], name=row["name"])
            gives = ratings.get(row["id"], [])
            fitting = [part for part in named.order_by("pk") if _gives(part) == gives]
            name = f"{row['maker']} {row['name']}".strip()
            shared[row["id"]] = _shared(name, row, fitting, named)
    return shared


def _ratings(rows: list[Row]) -> dict[int, list[tuple[Any, ...]]]:
    by_part: dict[int, list[tuple[Any, ...]]] = {}
    for row in rows:
        rating = (row["bridged"], row["load"], row["power"])
        by_part.setdefault(row["amplifier_id"], []).append(rating)
    return {key: sorted(ratings) for key, ratings in by_part.items()}


def _gives(part: Any) -> list[tuple[Any, ...]]:
    if not isinstance(part, Amplifier):
        return []
    return sorted((rating.bridged, rating.load, rating.power) for rating in part.ratings.all())


def _shared(
    name: str, row: Row, candidates: Iterable[Any], among: Iterable[Any] | None = None
) -> Shared:
    candidates = list(candidates)
    same = _same(row, candidates)
    if same is not None:
        return Shared(name=name, key=same.pk)
    others = list(candidates if among is None else among)
    return Shared(name=name, other=str(others[0]) if others else "")


def _damaged(arrival: Arrival) -> list[str]:
    """Name the sheets whose bytes or data are not those they were issued with."""
    damaged = []
    for row in arrival.rows(IssuedSheet):
        name = f"{row['kind']} {row['revision']}"
        if row.get("erased_at"):
            continue
        pdf = sha256(arrival.read(sheet_name(row["id"], "pdf"))).hexdigest()
        if pdf != row["sha256"] or digest(arrival.sheet_data(row["id"])) != row["data_sha256"]:
            damaged.append(name)
    return damaged


def _different(arrival: Arrival) -> list[str]:
    """Name what this code works out otherwise than the file says."""
    if RESULTS not in arrival.members:
        return []
    there = json.loads(arrival.read(RESULTS))
    names = Counter(
        path.split("/")[1] for path in differing(there, results_of(arrival.design)) if path
    )
    return [f"{name} ({count})" for name, count in sorted(names.items())]
