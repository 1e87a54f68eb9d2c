"""The keys of a file: they count from one, and the same job has the same whatever table it is in.

A row of the job is counted by when it was made, a shared one (a part, a person, the car) by when
it is first pointed at, what is part of another row by that row.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from django.apps import apps
from django.db.models import Model

from jobs.design.records.data import CHILDREN, MODELS
from jobs.design.records.keys import KeyOf, space
from jobs.models import AmplifierRating, IssuedSheet, JobPart, Part

Row = dict[str, Any]
# Of each model, or of the catalogue: a key in the tables -> the key in the file.
Numbers = dict[type[Model], dict[Any, int]]
PART_OF: dict[type[Model], tuple[type[Model], str]] = {
    child: (space(parent), back) for parent, lists in CHILDREN.items() for _, child, back in lists
}


def numbered(data: Mapping[str, Any]) -> Numbers:
    """Give every row a key of the file."""
    rows = {apps.get_model("jobs", name): plain for name, plain in data["rows"].items()}
    own: list[type[Model]] = [
        m for m in rows if issubclass(m, JobPart | IssuedSheet) and m not in PART_OF
    ]
    numbers: Numbers = {}
    first: list[tuple[type[Model], Row]] = []
    for own_model in sorted(own, key=lambda model: model.__name__):
        of_it = sorted(rows[own_model], key=lambda row: row["id"])
        numbers[own_model] = {row["id"]: number for number, row in enumerate(of_it, start=1)}
        first += [(own_model, row) for row in of_it]
    for model, key in _mentioned(data, rows, first):
        of_model = numbers.setdefault(model, {})
        of_model.setdefault(key, len(of_model) + 1)
    for model, (parent, back) in PART_OF.items():
        owners = numbers.get(parent, {})
        of_it = [row for row in rows.get(model, ()) if row[back] in owners]
        says = _says if model is AmplifierRating else lambda row: row["id"]
        of_it.sort(key=lambda row: (owners[row[back]], says(row)))
        numbers[model] = {row["id"]: number for number, row in enumerate(of_it, start=1)}
    return numbers


def key_of(numbers: Numbers) -> KeyOf:
    """Return what looks a key up."""
    return lambda model, key: numbers.get(model, {}).get(key)


def _mentioned(
    data: Mapping[str, Any],
    rows: Mapping[type[Model], list[Row]],
    first: list[tuple[type[Model], Row]],
) -> Iterator[tuple[type[Model], Any]]:
    """Yield every shared row once it is pointed at, from the rows of the job on."""
    shared: dict[tuple[type[Model], Any], list[tuple[type[Model], Row]]] = {}
    for model, plain in rows.items():
        for row in plain if model not in PART_OF else ():
            shared.setdefault((space(model), row["id"]), []).append((model, row))
    for model, row in first:
        shared.pop((space(model), row["id"]), None)
    lists = [(space(MODELS[name]), keys) for name, keys in data["lists"].items()]
    waiting = [target for model, row in first for target in _pointed(model, row)]
    for model, keys in lists:
        waiting += [(model, key) for key in (keys if isinstance(keys, list) else [keys])]
    for name, entries in data.get("history", {}).items():
        waiting += [(Part, key) for key in parts_in(apps.get_model("jobs", name), entries)]
    while waiting:
        target = waiting.pop(0)
        if target in shared:
            yield target
            waiting += [
                further for model, row in shared.pop(target) for further in _pointed(model, row)
            ]


def parts_in(model: type[Model], entries: Iterable[Row]) -> Iterator[int]:
    """Yield the parts that entries of a row's history name, on a board too."""
    for entry in entries:
        yield from (key for of, key in _pointed(model, entry["row"]) if of is Part)
        yield from (mount[0] for mount in (entry["hanging"] or {}).get("mounts") or ())


def _pointed(model: type[Model], row: Row) -> Iterator[tuple[type[Model], Any]]:
    for column in model._meta.concrete_fields:
        related = column.related_model
        if isinstance(related, type) and row.get(column.attname) is not None:
            yield space(related), row[column.attname]


def _says(rating: Row) -> Any:
    """What tells the ratings of an amplifier apart: here they may be in another order."""
    return rating["bridged"], rating["load"], rating["power"]
