"""Removed rows go for good after thirty days, unless something rests on them.

A row stays while a row that is there points at it, or an issued sheet or a decision rests on it.
What is part of a removed row, such as the steps of a panel, goes with it.
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterable, Iterator
from typing import Any

from django.apps import apps
from django.core.files.storage import default_storage
from django.db import transaction
from django.db.models import FileField, Model, QuerySet
from django.utils import timezone

from jobs.locks import held
from jobs.models import (
    Amplifier,
    AmplifierRating,
    Box,
    BoxAsBuilt,
    BoxCorner,
    BoxFill,
    BoxSection,
    BoxSweep,
    Channel,
    ChannelCurve,
    ChannelSetting,
    DampingLayer,
    Decision,
    DesignOption,
    DriverSweep,
    EquipmentItem,
    Fixing,
    InnerBrace,
    IssuedSheet,
    JobPart,
    Obstacle,
    OptionCopy,
    Panel,
    PanelContent,
    PanelStep,
    Part,
    PartPicture,
    Photo,
    PhotoMark,
    ProcessorFile,
    Run,
    ServiceVisit,
    SideThickness,
    TrimBeneath,
    TrimCorner,
    TrimHatch,
    TrimMount,
    TrimOpening,
    TrimPanel,
    TrimStation,
    TrimSupport,
    WoodStep,
)

KEPT_FOR = dt.timedelta(days=30)
# Rows that are never removed for good: why.
STAY: dict[type[Model], str] = {
    Run: "its label may still hang in the car, and its number is not given again",
    Decision: "it was printed, and says who answered for what",
}
# Rows that are part of another: how they point at it.
PARTS_OF: dict[type[Model], dict[type[Model], str]] = {
    Amplifier: {AmplifierRating: "amplifier"},
    Box: {
        **dict.fromkeys(
            (BoxCorner, Obstacle, InnerBrace, SideThickness, BoxFill, BoxSection), "box"
        ),
        BoxSweep: "box",
        BoxAsBuilt: "box",
        WoodStep: "box",
    },
    DesignOption: {OptionCopy: "option"},
    Channel: {ChannelCurve: "channel", ChannelSetting: "channel"},
    EquipmentItem: {DriverSweep: "item", ProcessorFile: "processor"},
    Panel: {
        PanelStep: "panel",
        PanelContent: "panel",
        Photo: "panel",
        Fixing: "panel",
        DampingLayer: "panel",
    },
    Photo: {PhotoMark: "photo"},
    ServiceVisit: {Photo: "visit"},
    TrimPanel: {
        TrimOpening: "trim_panel",
        TrimCorner: "trim_panel",
        TrimStation: "trim_panel",
        TrimSupport: "trim_panel",
        TrimHatch: "trim_panel",
        TrimMount: "trim_panel",
        TrimBeneath: "trim_panel",
        WoodStep: "trim_panel",
    },
}
# A record: the name of its model, and its key.
Key = tuple[str | None, int]


def clear_removed(now: dt.datetime | None = None) -> dict[str, int]:
    """Delete what was removed thirty days ago; returns how many rows of each model went."""
    limit = (now or timezone.now()) - KEPT_FOR
    gone: dict[str, int] = defaultdict(int)
    rests: dict[int | None, set[Key]] = {}
    # What points at a row may itself go: gone over until nothing more does.
    while rows := [row for row in _candidates(limit) if _may_go(row, rests)]:
        for row in rows:
            gone[str(row._meta.model_name)] += _delete(row)
    return dict(gone)


def _candidates(limit: dt.datetime) -> Iterator[Any]:
    """Rows of jobs and parts of the catalogue, each as its own kind."""
    for model in apps.get_app_config("jobs").get_models():
        if model not in STAY and issubclass(model, JobPart | Part):
            removed: QuerySet[Any] = model.with_removed.filter(removed_at__lt=limit)
            yield from removed.filter(kind=Part.Kind.OTHER) if model is Part else removed


def _with_parts(row: Model) -> Iterator[Any]:
    """A row and what is part of it."""
    yield row
    pictured: dict[type[Model], str] = {PartPicture: "part"} if isinstance(row, Part) else {}
    for model, link in (PARTS_OF.get(type(row), {}) | pictured).items():
        yield from model._base_manager.filter(**{link: row})


def _may_go(row: Any, rests: dict[int | None, set[Key]]) -> bool:
    going = list(_with_parts(row))
    keys = {_key(part) for part in going}
    job = row.job_id if isinstance(row, JobPart) else None
    if job not in rests:
        rests[job] = set(_rests_on(job))
    if keys & rests[job]:
        return False
    return not any(_key(other) not in keys for part in going for other in _pointing_at(part))


def _key(row: Model) -> Key:
    return row._meta.model_name, row.pk


def _pointing_at(row: Model) -> Iterator[Any]:
    """Every row that points at one; its history and its own general half do not count."""
    for relation in row._meta.get_fields(include_hidden=True):
        if not relation.auto_created or relation.concrete or not relation.is_relation:
            continue
        field = getattr(relation, "field", None)
        if field is None or field.many_to_many or getattr(field.remote_field, "parent_link", False):
            continue
        model: Any = relation.related_model
        if hasattr(model, "instance_type") or model is type(row):
            continue
        yield from model._base_manager.filter(**{field.name: row.pk})


def _rests_on(job: int | None) -> Iterator[Key]:
    """What issued sheets were made from and decisions are about, of a job or, of parts, of all."""
    of_job = {} if job is None else {"job": job}
    sheets = IssuedSheet.objects.filter(**of_job).values_list("data", "origin__keys")
    for data, moved in sheets.iterator():
        for name, rows in data.get("rows", {}).items():
            # Of a sheet from elsewhere: its keys are those of there. Parts share theirs.
            here = None if moved is None else moved.get(name, moved.get("Part", {}))
            keys = [row["id"] if here is None else here.get(str(row["id"])) for row in rows]
            yield from ((name.lower(), key) for key in keys if key)
    about = Decision.with_removed.filter(**of_job).values_list("about_kind", "about_key")
    yield from ((kind, int(key)) for kind, key in about if key.isdecimal())


def _delete(row: Any) -> int:
    """Delete a row with what is part of it; the files of its photos after that."""
    held_by = row.job if isinstance(row, JobPart) else row
    with held(held_by):
        # Somebody may have brought it back meanwhile.
        if not type(row).with_removed.filter(pk=row.pk, removed_at__isnull=False).exists():
            return 0
        going = list(_with_parts(row))
        files = [name for part in going for name in files_of(part)]
        for part in reversed(going):
            part.delete()
        transaction.on_commit(lambda: delete_files(files))
    return len(going)


def files_of(row: Model) -> list[str]:
    """Return the files a row names."""
    fields = [field for field in row._meta.concrete_fields if isinstance(field, FileField)]
    return [name for field in fields if (name := getattr(row, field.attname).name)]


def delete_files(names: Iterable[str]) -> None:
    """Delete files of photos; one that is gone already is gone."""
    for name in names:
        default_storage.delete(name)
