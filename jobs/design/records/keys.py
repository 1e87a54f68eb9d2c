"""Every key in the plain data of a job, put in another's place: in links, lists, words and routes.

The same rows under other keys say the same: what is worked out from them differs in no figure.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any

from django.apps import apps
from django.db.models import Field, Model

from jobs.design.records.data import MODELS
from jobs.design.records.findings import Finding
from jobs.models import (
    Box,
    Decision,
    EquipmentItem,
    FactoryPart,
    GateSign,
    IssuedSheet,
    Job,
    JobPart,
    Measurement,
    Offer,
    Panel,
    PanelStep,
    Part,
    Photo,
    Run,
    RunAsBuilt,
    StageRelease,
    TrimPanel,
    User,
    Vehicle,
)

# The key that takes another's place, of rows that share their keys; None where there is none.
KeyOf = Callable[[type[Model], int], int | None]
# A finding's fingerprint -> that of the same finding under the other keys.
Prints = Mapping[str, str]
# How a word begins that says what a stage was let go on with (`jobs/design/job/*_gate*.py`).
_LEFT_OPEN: dict[str, type[Model]] = {
    "step": PanelStep,
    "value": Measurement,
    "panel": Panel,
    "part": EquipmentItem,
    "offer": Offer,
    "unpaid": Offer,
}
_PLACED: dict[str, type[Model]] = {
    "equipment": EquipmentItem,
    "factory_part": FactoryPart,
    "box": Box,
}
_NAMED = re.compile(r"\b([a-z]+) (\d+)\b")


def space(model: type[Model]) -> type[Model]:
    """Return the model whose keys a model has: every kind of part has those of the catalogue."""
    return Part if issubclass(model, Part) else model


@cache
def _pointing(model: type[Model]) -> dict[str, type[Model]]:
    """The fields of a row that hold a key, and of what: its own, and those it points at."""
    fields: list[Field[Any, Any]] = list(model._meta.concrete_fields)
    return {
        field.attname: space(field.related_model if field.is_relation else model)  # type: ignore[arg-type]
        for field in fields
        if field.is_relation or field.primary_key
    }


@cache
def _by_name() -> dict[str, type[Model]]:
    """The models a finding may be about, as it names them."""
    models = [*apps.get_app_config("jobs").get_models()]
    about = [model for model in models if issubclass(model, JobPart | Part | Job | Vehicle)]
    return {str(model._meta.model_name): space(model) for model in about}


def rekeyed(data: Mapping[str, Any], key_of: KeyOf, prints: Prints) -> dict[str, Any]:
    """Return what `to_data` wrote with other keys in it."""
    rows = {}
    for name, plain in data["rows"].items():
        model = apps.get_model("jobs", name)
        rows[name] = [_row(model, row, key_of, prints) for row in plain]
    lists = {name: _keys(keys, space(MODELS[name]), key_of) for name, keys in data["lists"].items()}
    told = {"history": rekeyed_past(data["history"], key_of, prints)} if "history" in data else {}
    return {**data, "lists": lists, "rows": rows, **told}


def rekeyed_past(past: Mapping[str, Any], key_of: KeyOf, prints: Prints) -> dict[str, Any]:
    """Return the entries of the history of rows under other keys."""
    return {
        name: [_entry(apps.get_model("jobs", name), entry, key_of, prints) for entry in entries]
        for name, entries in past.items()
    }


def _entry(
    model: type[Model], entry: Mapping[str, Any], key_of: KeyOf, prints: Prints
) -> dict[str, Any]:
    """An entry of the history: what it says of its row, by whom, and what hung on the row then."""
    return {
        **entry,
        "row": _row(model, entry["row"], key_of, prints),
        "by": _keys(entry["by"], User, key_of),
        "hanging": _hanging(model, entry["hanging"], key_of),
    }


def _hanging(model: type[Model], hanging: Any, key_of: KeyOf) -> Any:
    """Put other keys into what hung on a row; what is gone by now is named no more."""
    if model is Run and hanging:
        route = [[_keys(key, Panel, key_of), *rest] for key, *rest in hanging.get("route", ())]
        woken = [key for key in _keys(hanging.get("wakes", []), EquipmentItem, key_of) if key]
        return {**hanging, "route": route, "wakes": woken}
    if model is TrimPanel and hanging and hanging.get("mounts"):
        mounts = [[key_of(Part, key), *rest] for key, *rest in hanging["mounts"]]
        return {**hanging, "mounts": [mount for mount in mounts if mount[0]]}
    return hanging


def at_home(sheet: IssuedSheet) -> dict[str, Any]:
    """Return what a sheet was made from under the keys its job has here, wherever it was issued."""
    data: dict[str, Any] = sheet.data
    origin = sheet.origin
    if origin is None or "rows" not in data:
        return data

    def key_of(model: type[Model], key: int) -> int:
        here: int = origin.keys.get(model.__name__, {}).get(str(key), -key)
        return here  # below zero: a row that was gone before the job left

    return rekeyed(data, key_of, {})


def _keys(keys: Any, model: type[Model], key_of: KeyOf) -> Any:
    if isinstance(keys, list):
        return [key_of(model, key) for key in keys]
    return None if keys is None else key_of(model, keys)


def _row(
    model: type[Model], row: Mapping[str, Any], key_of: KeyOf, prints: Prints
) -> dict[str, Any]:
    new = dict(row)
    for name, of in _pointing(model).items():
        if new.get(name) is not None:
            new[name] = key_of(of, new[name])
    for name, value in _in_words(model, row, key_of, prints):
        new[name] = value
    return new


def _in_words(
    model: type[Model], row: Mapping[str, Any], key_of: KeyOf, prints: Prints
) -> Iterator[tuple[str, Any]]:
    """Yield what holds keys in a list or within a text."""
    if model is Run and "wakes" in row:
        yield "wakes", _keys(row["wakes"], EquipmentItem, key_of)
    elif model is Offer and "photos" in row:
        yield "photos", _keys(row["photos"], Photo, key_of)
    elif model is RunAsBuilt and "route" in row:
        panels = [(_keys(key, Panel, key_of), rest) for key, *rest in row["route"]]
        yield "route", [[key, *rest] for key, rest in panels]
    elif model is GateSign:
        yield "subject", _named(row["subject"], key_of)
    elif model is StageRelease and "left_open" in row:
        kept = row["left_open"]
        keys = [_left_open(key, key_of, prints) for key in kept.get("keys", ())]
        yield "left_open", {**kept, "keys": keys} if kept else kept
    elif model is Decision:
        about = _by_name().get(row["about_kind"])
        if about is not None and row["about_key"].isdecimal():
            key = key_of(about, int(row["about_key"]))
            yield "about_key", row["about_key"] if key is None else str(key)
        yield "about_detail", _named(row["about_detail"], key_of)
        if "fingerprint" in row:
            yield "fingerprint", prints.get(row["fingerprint"], row["fingerprint"])


def _named(text: str, key_of: KeyOf) -> str:
    """Put another key behind each name of a model in a text."""

    def put(match: re.Match[str]) -> str:
        model = _by_name().get(match[1])
        key = key_of(model, int(match[2])) if model else None
        return match[0] if key is None else f"{match[1]} {key}"

    return _NAMED.sub(put, text)


def _left_open(text: str, key_of: KeyOf, prints: Prints) -> str:
    kind, _space, rest = text.partition(" ")
    if kind in ("stop", "look"):
        return f"{kind} {prints.get(rest, rest)}"
    head, _space, number = text.rpartition(" ")
    model = _LEFT_OPEN.get(kind)
    if kind == "place":  # of which kind of thing, then its key
        model = _PLACED.get(head.removeprefix("place "))
    if model is None or not number.isdecimal():
        return _named(text, key_of)
    key = key_of(model, int(number))
    return text if key is None else f"{head} {key}"


def prints_between(before: tuple[Finding, ...], after: tuple[Finding, ...], of: KeyOf) -> Prints:
    """Pair what was found of the same rows under two sets of keys, by what each is about.

    What cannot be paired for sure keeps its fingerprint, and a decision on it asks again.
    """
    there: dict[tuple[str, ...], list[Finding]] = {}
    for finding in after:
        about = finding.about
        there.setdefault((finding.code, about.kind, about.key, about.detail), []).append(finding)
    prints = {}
    for finding in before:
        about = finding.about
        model = _by_name().get(about.kind)
        key = of(model, int(about.key)) if model and about.key.isdecimal() else None
        place = (finding.code, about.kind, about.key if key is None else str(key))
        details = dict.fromkeys((_named(about.detail, of), about.detail))
        same = [other for detail in details for other in there.get((*place, detail), ())]
        if len(same) == 1:
            prints[finding.fingerprint] = same[0].fingerprint
    return prints
