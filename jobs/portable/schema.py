"""The published JSON Schema of a job's file: every field with its words, its unit and its limits.

It is made from the models, whose limits hold for what is typed: what a form refuses, a file cannot
bring in either. `kinds` says which kind of quantity a field is: Driver -> fs -> frequency.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from django.apps import apps
from django.db import models
from django.utils.translation import override

from jobs.design.records.data import MODELS, SCHEMA, carried
from jobs.models import (
    CarAnswer,
    Fuse,
    IssuedSheet,
    Job,
    JobPart,
    Offer,
    PanelClosing,
    Part,
    Photo,
    Run,
    RunAsBuilt,
    StageRelease,
    Stretch,
)
from jobs.models.base import TypedFigures
from jobs.models.box.row_lists import ListedRow
from jobs.portable.contents import ALSO
from jobs.portable.past import KINDS as DID
from jobs.portable.past import past_fields
from jobs.portable.staying import stays
from jobs.quantities.kinds import KINDS

# 2: the history of rows goes along; what is younger than this is told so.
FORMAT, VERSION = "Undertrim job", 2
DIALECT = "https://json-schema.org/draft/2020-12/schema"
Kinds = Mapping[type[models.Model], Mapping[str, str]]
Shape = dict[str, Any]

LONGEST_TEXT = 400_000
MOST_ROWS = 20_000  # of one model
MOST_ENTRIES = 100_000  # of the history of one
FARTHEST = 1e12  # of a figure of which nothing narrower is known
_KEY: Shape = {"type": "integer", "minimum": 1, "maximum": 2**31 - 1}
_HASH: Shape = {"type": "string", "pattern": "^([0-9a-f]{64})?$"}
_SHORT: Shape = {"type": "string", "maxLength": 240}
_KEYS: Shape = {"type": "array", "items": _KEY, "maxItems": MOST_ROWS}
_CODES: Shape = {"type": "array", "items": _SHORT, "maxItems": 200}
_FIGURE: Shape = {"type": "number", "minimum": -FARTHEST, "maximum": FARTHEST}
_DATE = r"^\d{4}-\d\d-\d\d$"
_MOMENT = r"^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?(Z|[+-]\d\d:\d\d)$"
# Fields that hold a list or a table, and what goes along beside the columns of a row.
_ROUTE: Shape = {
    "type": "array",
    "maxItems": 200,
    "items": {
        "type": "array",
        "description": "panel, place in words, with the loom, past an edge",
        "prefixItems": [
            {"anyOf": [_KEY, {"type": "null"}]},
            _SHORT,
            {"type": "boolean"},
            {"enum": ["", *Stretch.Edge.values]},
        ],
        "minItems": 4,
        "maxItems": 4,
    },
}
_TYPED: Shape = {
    "type": "object",
    "title": "figures as they were written",
    "maxProperties": 200,
    "additionalProperties": _SHORT,
}
_HANGING: Shape = {
    "type": ["object", "null"],
    "title": "rows that were part of it",
    "properties": {
        "route": _ROUTE,
        "wakes": _KEYS,
        "mounts": {
            "type": ["array", "null"],
            "maxItems": 200,
            "items": {
                "type": "array",
                "prefixItems": [_KEY, _FIGURE, _FIGURE, {"type": "boolean"}],
                "minItems": 4,
            },
        },
    },
}
_SHAPES: dict[tuple[type[models.Model], str], Shape] = {
    (Run, "wakes"): _KEYS | {"title": "equipment it turns on"},
    (RunAsBuilt, "route"): _ROUTE,
    (Fuse, "curve"): {
        "type": "array",
        "maxItems": 100,
        "description": "times the rating, opens within so many seconds",
        "items": {"type": "array", "items": _FIGURE, "minItems": 2, "maxItems": 2},
    },
    (Offer, "shown"): {"type": "object", "description": "what the customer read"},
    (Offer, "photos"): _KEYS | {"title": "photos behind its link"},
    (PanelClosing, "checked"): _CODES,
    (PanelClosing, "left_open"): _CODES,
    (StageRelease, "left_open"): {
        "type": "object",
        "additionalProperties": {"type": "array", "items": {"type": "string", "maxLength": 4000}},
    },
    (Photo, "image"): {"type": "string", "pattern": r"^photos/\d{1,9}\.jpg$"},
    (Photo, "small"): {"type": "string", "pattern": r"^photos/\d{1,9}-small\.jpg$"},
    (CarAnswer, "report"): {"type": "string", "pattern": r"^(reports/\d{1,9})?$"},
    (IssuedSheet, "origin"): _KEY | {"title": "which of the origins it was issued at"},
    (IssuedSheet, "issuer_there"): {
        "type": "integer",
        "minimum": 0,
        "maximum": 2**31 - 1,
        "title": "key of whoever issued it, where it was issued: part of its chain",
    },
    (Job, "last_link"): _HASH | {"title": "hash of the sheet issued last"},
    (IssuedSheet, "link"): _HASH | {"title": "hash over this sheet and the one before"},
    (IssuedSheet, "sha256"): _HASH | {"title": "SHA-256 of the PDF"},
    (IssuedSheet, "data_sha256"): _HASH | {"title": "SHA-256 of what it was made from"},
    (IssuedSheet, "token"): {"type": "string", "pattern": "^[A-Za-z0-9_-]{22}$"},
}


def schema(kinds: Kinds) -> Shape:
    """Return the schema of job.json."""
    with override("en"):
        rows = {model.__name__: _row(model, kinds) for model in row_models()}
        past = {m.__name__: _before(m) for m in row_models() if issubclass(m, JobPart)}
    return {
        "$schema": DIALECT,
        "$id": f"urn:undertrim:job:{VERSION}",
        "title": "A bespoke in-car audio job",
        "description": (
            "Every figure is in SI: metre, kilogram, second, ampere, kelvin and what is derived "
            "from them; levels in decibels, angles in radians. null is unknown, never zero. A name "
            "that ends in _id holds the id of a row of this file."
        ),
        "type": "object",
        "required": ["format", "format_version", "job", "records", "origins"],
        "additionalProperties": False,
        "properties": {
            "$schema": {"type": "string"},
            "format": {"const": FORMAT},
            "format_version": {"enum": [*range(1, VERSION + 1)]},
            "app": _SHORT | {"title": "version of Undertrim it was written by"},
            "job": {"type": "string", "pattern": r"^J-\d{4,9}$", "title": "number there"},
            "lost": _CODES | {"maxItems": MOST_ROWS, "title": "photos whose files were lost"},
            "origins": {
                "type": "array",
                "maxItems": 100,
                "title": "keys the rows had where sheets were issued, and those of this file",
                "items": {
                    "type": "object",
                    "propertyNames": {"enum": [*sorted({*rows, "Part"})]},
                    "additionalProperties": {
                        "type": "object",
                        "propertyNames": {"pattern": r"^\d{1,10}$"},
                        "additionalProperties": _KEY,
                    },
                },
            },
            "records": {
                "type": "object",
                "required": ["schema", "lists", "rows"],
                "additionalProperties": False,
                "properties": {
                    "schema": {"const": SCHEMA},
                    "lists": {
                        "type": "object",
                        "additionalProperties": False,
                        "required": ["job", "workshop"],
                        "properties": {name: _listed(name) for name in MODELS},
                    },
                    "rows": {
                        "type": "object",
                        "additionalProperties": False,
                        "required": ["Job", "Vehicle", "Customer", "Workshop"],
                        "properties": {name: _many(name, MOST_ROWS) for name in rows},
                    },
                    "history": {
                        "type": "object",
                        "title": "what rows of the job were before, row by row",
                        "additionalProperties": False,
                        "properties": {
                            name: _many(f"{name} before", MOST_ENTRIES) for name in past
                        },
                    },
                },
            },
        },
        "$defs": rows | {f"{name} before": shape for name, shape in past.items()},
    }


def _listed(name: str) -> Shape:
    return _KEY if name in ("job", "workshop") else _KEYS


@cache
def row_models() -> tuple[type[models.Model], ...]:
    """Return the models whose rows a file may hold."""
    named = ("AmplifierRating", "Customer", "IssuedSheet", "Job", "User", "Vehicle", "Workshop")
    every = [*apps.get_app_config("jobs").get_models()]
    listed = set(MODELS.values())
    own = [m for m in every if issubclass(m, Part | ListedRow) or m.__name__ in named]
    own += [m for m in every if issubclass(m, JobPart) and m in listed]
    own += [m for m in every if m.__name__ == "Stretch"]
    return tuple(sorted(dict.fromkeys(own), key=lambda model: model.__name__))


@cache
def row_fields(model: type[models.Model]) -> tuple[str, ...]:
    """Return the names of what a row of the file may say."""
    named = [name for name in carried(model) if not stays(model, name)]
    also = [*ALSO.get(model, ())]
    also += [name for of, name in _SHAPES if of is model and name not in named]
    if issubclass(model, TypedFigures):
        also.append("as_typed")
    return tuple(dict.fromkeys([*named, *also]))


def _many(shape: str, most: int) -> Shape:
    """Return a list of what is defined under this name."""
    return {"type": "array", "maxItems": most, "items": {"$ref": f"#/$defs/{shape}"}}


def _row(model: type[models.Model], kinds: Kinds) -> Shape:
    columns = {column.attname: column for column in model._meta.concrete_fields}
    properties = {}
    for name in row_fields(model):
        if (shape := _SHAPES.get((model, name))) is not None:
            properties[name] = shape
        elif name == "as_typed":
            properties[name] = _TYPED
        else:
            kind = next((kinds[m][name] for m in model.__mro__ if name in kinds.get(m, {})), "")
            properties[name] = _field(columns[name], kind)
    return {
        "type": "object",
        "title": str(model._meta.verbose_name),
        "required": ["id"],
        "additionalProperties": False,
        "properties": properties,
    }


def _before(model: type[models.Model]) -> Shape:
    """Return what an entry of a row's history may hold.

    Limits and choices hold for what is typed now; what a row was before kept to those of its day.
    """
    columns = past_fields(model)
    return {
        "type": "object",
        "title": f"{model._meta.verbose_name}, before",
        "required": ["at", "by", "did", "why", "row", "hanging"],
        "additionalProperties": False,
        "properties": {
            "at": {"type": "string", "pattern": _MOMENT, "title": "when"},
            "by": {"anyOf": [_KEY, {"type": "null"}], "title": "who, where the job names them"},
            "did": {"enum": [*DID.values()]},
            "why": {"type": "string", "maxLength": 100},
            "row": {
                "type": "object",
                "required": ["id"],
                "additionalProperties": False,
                "properties": {name: _was(model, column) for name, column in columns.items()},
            },
            "hanging": _HANGING,
        },
    }


def _was(model: type[models.Model], column: Any) -> Shape:
    shape = _SHAPES.get((model, column.attname)) or _any(column)
    if column.primary_key or not (column.null or column.is_relation):
        return shape
    return {"anyOf": [shape, {"type": "null"}]}


def _any(column: Any) -> Shape:
    if isinstance(column, models.JSONField):
        return {}
    if isinstance(column, models.CharField):
        return {"type": "string", "maxLength": column.max_length}
    if isinstance(column, models.FloatField):
        return _FIGURE
    if isinstance(column, models.IntegerField) and not column.primary_key:
        small = isinstance(column, models.PositiveSmallIntegerField)
        return {"type": "integer", "minimum": 0, "maximum": 32767 if small else 2**31 - 1}
    return _typed(column, "")


def _field(column: Any, kind: str) -> Shape:
    """Return what a column may hold."""
    shape = _typed(column, kind)
    title = str(column.verbose_name)
    shape["title"] = title
    if kind:
        shape["unit"] = KINDS[kind].si
    if not column.null:
        return shape
    kept = {name: shape.pop(name) for name in ("title", "unit") if name in shape}
    return {"anyOf": [shape, {"type": "null"}]} | kept


def _typed(column: Any, kind: str) -> Shape:
    if column.is_relation or column.primary_key:
        return dict(_KEY)
    if column.choices:
        values = [value for value, _label in column.flatchoices]
        return {"enum": [*values, ""] if column.blank and "" not in values else values}
    if isinstance(column, models.BooleanField):
        return {"type": "boolean"}
    if isinstance(column, models.FloatField | models.IntegerField):
        return _number(column, kind)
    if isinstance(column, models.DecimalField):
        whole, places = column.max_digits - column.decimal_places, column.decimal_places
        return {"type": "string", "pattern": rf"^-?\d{{1,{whole}}}(\.\d{{1,{places}}})?$"}
    if isinstance(column, models.DateTimeField):
        return {"type": "string", "pattern": _MOMENT}
    if isinstance(column, models.DateField):
        return {"type": "string", "pattern": _DATE}
    if isinstance(column, models.CharField | models.TextField):
        most = column.max_length or getattr(column, "most", None) or LONGEST_TEXT
        return {"type": "string", "maxLength": most}
    message = f"{column} has no shape in the schema"
    raise TypeError(message)


def _number(column: Any, kind: str) -> Shape:
    whole = isinstance(column, models.IntegerField)
    lowest, largest = (0, 2**31 - 1) if whole else (-FARTHEST, FARTHEST)
    if isinstance(column, models.PositiveSmallIntegerField):
        largest = 32767
    if kind:
        bounds = KINDS[kind]
        lowest, largest = bounds.lowest, bounds.largest
    least, most = getattr(column, "least", None), getattr(column, "most", None)
    return {
        "type": "integer" if whole else "number",
        "minimum": lowest if least is None else least,
        "maximum": largest if most is None else most,
    }
