"""A job's records as plain data, and back: what an issued sheet keeps of what it was made from.

Every row is written field by field, whichever list or link it was reached by: the parts of the
catalogue with all their figures, the workshop's settings, the people who signed. A field that a
model gains goes along by itself; what stays behind is listed here with its reason.
"""

from __future__ import annotations

import hashlib
from collections import defaultdict, deque
from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from functools import cache
from typing import Any, get_args, get_type_hints

from django.apps import apps
from django.db import router
from django.db.models import Field, Model
from django.db.models.fields.files import FieldFile

from jobs.design.records.as_built import equip_as_built, parts_as_built, runs_as_built
from jobs.design.records.records import JobRecords
from jobs.models import (
    Amplifier,
    AmplifierRating,
    Box,
    BoxCorner,
    BoxFill,
    BoxSection,
    EquipmentItem,
    InnerBrace,
    Obstacle,
    Part,
    Photo,
    PhotoMark,
    Run,
    SideThickness,
    Stretch,
    TrimBeneath,
    TrimCorner,
    TrimHatch,
    TrimMount,
    TrimOpening,
    TrimPanel,
    TrimStation,
    TrimSupport,
)

# The first scheme kept a choice of rows, and neither parts nor settings: it cannot be read back.
SCHEMA = 2

_ACCOUNT = "of the account, not of who signed"
_CHAIN = "holds the issued sheets together, not the job"
LEFT_OUT = {
    "*.as_typed": "how somebody wrote a figure, not what it is",
    "*.entry_token": "keeps a form that was sent twice from making two records",
    "IssuedSheet.data": "every sheet would hold all that were issued before it",
    "IssuedSheet.pdf": "every sheet would hold all that were issued before it",
    "IssuedSheet.file": "is where its bytes lie here",
    "IssuedSheet.data_sha256": _CHAIN,
    "IssuedSheet.link": _CHAIN,
    "IssuedSheet.token": "is printed on it alone",
    "IssuedSheet.origin": _CHAIN,
    "IssuedSheet.issuer_there": _CHAIN,
    "Job.last_link": _CHAIN,
    "Offer.token": "opens it to whoever holds it",
    "Offer.shown": "is what its own sheet prints",
    "Offer.signature": "of whoever signed, and stands with the offer alone",
    "Offer.photos": "stand behind its link and on no sheet",
    "Offer.accepted_name": "of whoever signed, and stands with the offer alone",
    "Panel.learnt_from": "another job, of another customer",
    "Run.panels": "follow from its stretches",
    "User.password": _ACCOUNT,
    "User.last_login": _ACCOUNT,
    "User.is_superuser": _ACCOUNT,
    "User.is_staff": _ACCOUNT,
    "User.is_active": _ACCOUNT,
    "User.date_joined": _ACCOUNT,
    "User.email": _ACCOUNT,
    "User.groups": _ACCOUNT,
    "User.user_permissions": _ACCOUNT,
    "User.language": _ACCOUNT,
    "User.must_change_password": _ACCOUNT,
    "User.version": _ACCOUNT,
    "User.calendar_token": _ACCOUNT,
    "Customer.erased_by": "of the erasure, not of who was erased",
    "Customer.erased_why": "of the erasure, not of who was erased",
}
# Rows that are part of another: the name under which it finds them, and how they point back.
CHILDREN: dict[type[Model], tuple[tuple[str, type[Model], str], ...]] = {
    Amplifier: (("ratings", AmplifierRating, "amplifier_id"),),
    Box: (
        ("corners", BoxCorner, "box_id"),
        ("obstacles", Obstacle, "box_id"),
        ("braces", InnerBrace, "box_id"),
        ("sides", SideThickness, "box_id"),
        ("fillings", BoxFill, "box_id"),
        ("level_cuts", BoxSection, "box_id"),
    ),
    Photo: (("drawn", PhotoMark, "photo_id"),),
    Run: (("stretches", Stretch, "run_id"),),
    TrimPanel: (
        ("cut_outs", TrimOpening, "trim_panel_id"),
        ("corners", TrimCorner, "trim_panel_id"),
        ("offsets", TrimStation, "trim_panel_id"),
        ("props", TrimSupport, "trim_panel_id"),
        ("lids", TrimHatch, "trim_panel_id"),
        ("mounted", TrimMount, "trim_panel_id"),
        ("lying_under", TrimBeneath, "trim_panel_id"),
    ),
}

Rows = dict[type[Model], dict[Any, Model]]


def _model_of(hint: Any) -> type[Model]:
    model: type[Model] = get_args(hint)[-1] if get_args(hint) else hint
    return model


# The model of each list of a job, as its type says.
MODELS = {name: _model_of(hint) for name, hint in get_type_hints(JobRecords).items()}


@cache
def carried(model: type[Model]) -> dict[str, Field[Any, Any]]:
    """Return the fields of a model that are written, by the name of their value."""
    return {
        field.attname: field
        for field in model._meta.concrete_fields
        if not LEFT_OUT.keys() & {f"{model.__name__}.{field.name}", f"*.{field.name}"}
    }


@cache
def _links(model: type[Model]) -> list[Any]:
    """The fields that point at another row, not at the general half of the same one."""
    links: list[Any] = [field for field in carried(model).values() if field.is_relation]
    return [field for field in links if not field.remote_field.parent_link]


def to_data(records: JobRecords) -> dict[str, Any]:
    """Write a job as plain data; what hangs on its rows and was not read yet is read here."""
    return {
        "schema": SCHEMA,
        "lists": {name: _keys(getattr(records, name)) for name in MODELS},
        "rows": {
            model.__name__: [written(row) for row in of_it.values()]
            for model, of_it in gathered(records).items()
        },
    }


def photo_hashes(photos: Iterable[Photo]) -> dict[str, dict[str, str]]:
    """Return the hash of each photo as it is shown and printed, empty where its file is lost."""
    return {
        str(photo.pk): {name: _hash(getattr(photo, name)) for name in ("image", "small")}
        for photo in photos
    }


def _hash(file: FieldFile) -> str:
    try:
        with file.open("rb") as opened:
            return hashlib.sha256(opened.read()).hexdigest()
    except (OSError, ValueError):
        return ""


def _listed(value: Any) -> list[Any]:
    if isinstance(value, Model):
        return [value]
    return list(value.values() if isinstance(value, dict) else value)


def _keys(value: Any) -> Any:
    return value.pk if isinstance(value, Model) else [row.pk for row in _listed(value)]


def gathered(records: JobRecords) -> Rows:
    """Return every row of a job and every row these point at, each once."""
    rows: Rows = defaultdict(dict)
    # The lists come first: their rows know more than the same row reached by a link.
    waiting = deque(row for name in MODELS for row in _listed(getattr(records, name)))
    while waiting:
        missing: dict[type[Model], set[Any]] = defaultdict(set)
        while waiting:
            row = _as_designed(waiting.popleft())
            model: type[Model] = type(row)
            if row.pk in rows[model]:
                continue
            if carried(model).keys() - vars(row).keys():  # read without some of its fields
                missing[model].add(row.pk)
                continue
            rows[model][row.pk] = row
            waiting += _hanging_on(row, missing)
        for model, keys in missing.items():
            waiting += model._base_manager.in_bulk(keys - rows[model].keys()).values()
    return rows


def _as_designed(row: Model) -> Model:
    """What lies over a designed row is a row of its own, and is laid over it again when read."""
    return getattr(row, "designed", None) or row


def _hanging_on(row: Model, missing: dict[type[Model], set[Any]]) -> list[Any]:
    """Return what a row points at as far as it was read; note what was not."""
    read: list[Any] = []
    for field in _links(type(row)):
        if field.is_cached(row):
            read += [linked] if (linked := field.get_cached_value(row)) else []
        elif (key := getattr(row, field.attname)) is not None:
            missing[field.related_model].add(key)
    if type(row) is Part:
        read += [linked for kind in _kinds_of_part() if (linked := _kind_of(row, kind))]
    for name, _child, _back in CHILDREN.get(type(row), ()):
        read += getattr(row, name).all()
    return read


@cache
def _kinds_of_part() -> list[Any]:
    return [
        relation
        for relation in Part._meta.related_objects
        if relation.one_to_one and relation.parent_link
    ]


def _kind_of(part: Model, kind: Any) -> Model | None:
    cached: Model | None = kind.get_cached_value(part, default=None)
    return cached


def written(row: Model) -> dict[str, Any]:
    """Return a row as plain data."""
    values = vars(row)
    data = {name: plain_value(values[name]) for name in carried(type(row))}
    if isinstance(row, Run):
        data["wakes"] = [item.pk for item in row.woken]
    return data


def plain_value(value: Any) -> Any:
    """Return a value of a row as plain data."""
    if value is None or isinstance(value, str | int | float | list):
        return value
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, date):
        return value.isoformat()
    return value.name if isinstance(value, FieldFile) else value


def with_rows(plain: dict[str, Any]) -> dict[str, Any]:
    """Return written rows with every list in rows of its own; older copies hold some as values."""
    gained: dict[str, list[dict[str, Any]]] = defaultdict(list)
    for model in (Box, TrimPanel):
        for stored in plain.get(model.__name__, ()):
            for name, kept in model.lists().items():
                if name in stored:
                    for row in kept.rows_of(model(pk=stored["id"]), stored[name]):
                        # Below zero: keys no database gives.
                        row.pk = -1 - len(gained[type(row).__name__])
                        gained[type(row).__name__].append(written(row))
    return {**plain, **gained}


def read_rows(data: dict[str, Any]) -> Rows:
    """Read every row back, linked to those it points at; nothing is looked up in the tables."""
    rows: Rows = {
        (model := apps.get_model("jobs", name)): {
            row.pk: row for row in (_read(model, stored) for stored in plain)
        }
        for name, plain in with_rows(data["rows"]).items()
    }
    for of_it in rows.values():
        for row in of_it.values():
            _point(row, rows)
    for parent, lists in CHILDREN.items():
        for name, child, back in lists:
            _gather_children(rows, parent, name, child, back)
    for stored in data["rows"].get("Run", ()):
        run: Any = rows[Run][stored["id"]]
        run.typed_wakes = [rows[EquipmentItem][key] for key in stored["wakes"]]
    return rows


def from_data(data: dict[str, Any]) -> JobRecords:
    """Read a job back from what `to_data` wrote, as if it had just been loaded."""
    if data["schema"] != SCHEMA:
        message = f"records of scheme {data['schema']} cannot be read back"
        raise ValueError(message)
    rows = read_rows(data)
    lists: dict[str, Any] = {}
    for name, model in MODELS.items():
        keys = data["lists"].get(name, [])  # a list that is younger than the data is empty
        of_it = rows.get(model, {})
        lists[name] = [of_it[key] for key in keys] if isinstance(keys, list) else of_it[keys]
    lists["amplifiers"] = {row.pk: row for row in lists["amplifiers"]}
    panels = {panel.pk: panel for panel in lists["panels"]}
    equip_as_built(lists["equipment"], lists["items_as_built"])
    lists["runs"] = runs_as_built(lists["runs"], lists["runs_as_built"], panels)
    lists["factory_parts"] = parts_as_built(lists["factory_parts"], lists["parts_as_built"])
    return JobRecords(**lists)


def _read(model: type[Model], plain: dict[str, Any]) -> Model:
    values = [
        # A field that is younger than the data has its usual value.
        field.to_python(plain[name]) if name in plain else field.get_default()
        for name, field in carried(model).items()
    ]
    return model.from_db(router.db_for_read(model), list(carried(model)), values)


def _point(row: Model, rows: Rows) -> None:
    """Link a row to those it points at: nothing of it is looked up again."""
    for field in _links(type(row)):
        if (key := getattr(row, field.attname)) is not None:
            field.set_cached_value(row, rows[field.related_model][key])
    if type(row) is Part:
        for kind in _kinds_of_part():
            kind.set_cached_value(row, rows.get(kind.related_model, {}).get(row.pk))


def _gather_children(
    rows: Rows, parent: type[Model], name: str, child: type[Model], back: str
) -> None:
    """Let each row find its children as it would after a prefetch."""
    children: dict[Any, list[Model]] = defaultdict(list)
    for child_row in rows.get(child, {}).values():
        children[getattr(child_row, back)].append(child_row)
    row: Any
    for key, row in rows.get(parent, {}).items():
        kept: Any = child._base_manager.all()
        kept._result_cache = children[key]
        kept._prefetch_done = True
        vars(row).setdefault("_prefetched_objects_cache", {})[name] = kept
