"""A job as plain data: written and read back it is worked out to the same last digit."""

from __future__ import annotations

import json
import random
from dataclasses import fields, is_dataclass
from typing import Any

import numpy as np
import pytest
from django.db import models

from jobs.design.job.whole import load, work_out
from jobs.design.records.data import (
    CHILDREN,
    LEFT_OUT,
    MODELS,
    SCHEMA,
    carried,
    from_data,
    gathered,
    to_data,
    with_rows,
)
from jobs.design.records.records import JobRecords
from jobs.models import DriverSweep, Job, Part, Stretch
from tests.jobs.factories import make_job, make_rows

pytestmark = pytest.mark.django_db

# Rows that point at a carried row and do not belong to this job's data.
ELSEWHERE = {
    "Origin": "keys of where a job came from",
    "Message": "what was sent to the customer, not what is in the car",
    "CustomerPage": "what was issued, written as a page",
    "PartPicture": "what a part looks like where it is picked",
    "Damping": "a kind of part that no calculator asks for",
    "AccessLog": "sign-ins",
    "LogEntry": "sign-ins",
    "Session": "sign-ins",
    "PartList": "of the catalogue, until it is written",
    "PrintOrder": "what waits to be printed, for a day",
    "AccountEvent": "sign-ins",
    "TOTPDevice": "sign-ins",
    "StaticDevice": "sign-ins",
    "WithdrawnCode": "opens nothing and is on no sheet",
    "Absence": "who is away is of the workshop, not of a job",
    "Booking": "when it is worked on is the workshop's plan, not what is built",
    "Conversation": "what was said with the customer, not what is in the car",
    "CarTemplate": "a name under which the next car of the model begins",
    "DesignOption": "another way to do the job, kept whole by itself",
}


def everything(value: Any, seen: frozenset[int] = frozenset()) -> Any:
    """Take a result apart down to plain values, so that two of them can be compared whole."""
    if isinstance(value, models.Model):
        return (
            type(value).__name__,
            {n: everything(getattr(value, n)) for n in carried(type(value))},
        )
    if isinstance(value, np.ndarray):
        return value.tolist()
    if id(value) in seen:
        return "again"
    inside = seen | {id(value)}
    if is_dataclass(value):
        return (
            type(value).__name__,
            {one.name: everything(getattr(value, one.name), inside) for one in fields(value)},
        )
    if isinstance(value, dict):
        return {str(key): everything(one, inside) for key, one in value.items()}
    if isinstance(value, list | tuple):
        return [everything(one, inside) for one in value]
    if isinstance(value, set | frozenset):
        return sorted(map(str, value))
    if isinstance(value, BaseException):
        return (type(value).__name__, [str(one) for one in value.args])
    return str(value) if callable(value) or type(value).__module__ != "builtins" else value


def _in_order(data: dict[str, Any]) -> dict[str, Any]:
    """Rows are written in the order they are come by, which says nothing."""
    rows = {name: sorted(of_it, key=str) for name, of_it in data["rows"].items()}
    return data | {"rows": rows}


def same(records: JobRecords, queries: Any) -> int:
    """Hold a job against itself written and read back; return how many plain values were held."""
    data = to_data(records)
    text = json.dumps(data, allow_nan=False)
    with queries(0):
        back = from_data(json.loads(text))
        again = work_out(back)
        cautions = again.cautions
    first = work_out(records)
    assert _in_order(to_data(back)) == _in_order(data)
    assert cautions == first.cautions
    for name in ("boxes", "trims", "channels", "power", "supply", "panels", "findings", "sweeps"):
        assert repr(everything(getattr(again, name))) == repr(everything(getattr(first, name))), (
            name
        )
    return len(repr(everything(first)))


def test_a_job_reads_back_as_it_was(hatchback, van, saloon, django_assert_num_queries):
    """Each result of each scene is the same, and reading back asks no table."""
    for scene in (hatchback, van, saloon):
        assert same(load(scene.job), django_assert_num_queries) > 10_000


def _shake(records: JobRecords, by: random.Random) -> None:
    """Change figures of all rows at will: to another size, or to unknown where that may be."""
    for model, rows in gathered(records).items():
        for key, row in rows.items():
            figures: dict[str, float | None] = {}
            for field in model._meta.concrete_fields:
                was = field.value_from_object(row)
                if isinstance(field, models.FloatField) and was is not None:
                    unknown = field.null and by.random() < 0.1
                    figures[field.name] = None if unknown else was * by.uniform(0.7, 1.4)
            if figures and key is not None:
                model._base_manager.filter(pk=key).update(**figures)


@pytest.mark.parametrize("seed", range(8))
def test_random_jobs_read_back_as_they_were(
    hatchback, van, saloon, django_assert_num_queries, seed
):
    """Whatever the figures are, and whatever of them is unknown."""
    scene = (hatchback, van, saloon)[seed % 3]
    _shake(load(scene.job), random.Random(seed))
    job = Job.objects.select_related("vehicle__customer", "consultant").get(pk=scene.job.pk)
    assert same(load(job), django_assert_num_queries) > 10_000


def test_a_job_with_many_rows_reads_back(shelf, django_assert_num_queries):
    """Every kind of row, linked to each other, and a run that wakes what it is told to."""
    job = make_job()
    make_rows(job, 3)
    run = job.runs.first()
    run.wakes.set(job.equipmentitems.all()[:2])
    panel = job.panels.first()
    panel.remove()  # what was behind it points at a removed row
    records = load(Job.objects.select_related("vehicle__customer").get(pk=job.pk))
    assert len(records.runs[0].woken) == 2
    assert any(one.panel_id == panel.pk for one in records.contents)
    same(records, django_assert_num_queries)


def test_only_its_own_scheme_is_read_back(saloon):
    """What was written before records could be read back is refused, not guessed at."""
    data = to_data(load(saloon.job))
    assert data["schema"] == SCHEMA == 2
    with pytest.raises(ValueError, match="scheme 1"):
        from_data(data | {"schema": 1})


def _carried_models() -> set[type[models.Model]]:
    """Every model a job's lists reach by their links, with its children and kinds of part."""
    found: set[type[models.Model]] = set()
    waiting = [
        *MODELS.values(),
        *(child for lists in CHILDREN.values() for _name, child, _back in lists),
    ]
    while waiting:
        model = waiting.pop()
        if model in found:
            continue
        found.add(model)
        waiting += [one.related_model for one in model._meta.fields if one.is_relation]
        waiting += [
            one.related_model
            for one in model._meta.related_objects
            if one.one_to_one and issubclass(one.related_model, Part)
        ]
    return found


def test_nothing_that_hangs_on_a_job_is_forgotten():
    """A new field, list or kind of row is carried, or its reason to stay behind is written down."""
    carried_models = _carried_models()
    assert {DriverSweep, Stretch, Part} <= carried_models
    assert len(carried_models) > 25
    names = {f"{model.__name__}.{f.name}" for model in carried_models for f in model._meta.fields}
    many = {
        f"{model.__name__}.{f.name}" for model in carried_models for f in model._meta.many_to_many
    }
    for model in carried_models:
        for field in model._meta.concrete_fields:
            left = {f"{model.__name__}.{field.name}", f"*.{field.name}"} & LEFT_OUT.keys()
            assert (field.attname in carried(model)) != bool(left), field
        for back in model._meta.related_objects:
            other = back.related_model
            is_known = other in carried_models or issubclass(other, tuple(carried_models))
            history = other.__name__.startswith("Historical")
            assert is_known or history or other.__name__ in ELSEWHERE, (model, other)
    assert many - LEFT_OUT.keys() == {"Run.wakes"}
    stale = {one for one in LEFT_OUT if not one.startswith("*")} - names - many
    assert stale == set()
    assert all(reason for reason in (*LEFT_OUT.values(), *ELSEWHERE.values()))


def test_lists_of_a_job_are_all_carried():
    """Each list the records hold is written under its own name."""
    assert set(MODELS) == {one.name for one in fields(JobRecords)}
    assert all(issubclass(one, models.Model) for one in MODELS.values())


def test_lists_an_older_copy_holds_as_values_get_keys_of_their_own():
    """No two rows of one kind share a key, over all records, and none has one of the database."""
    older = {
        "Box": [{"id": 5, "fills": [0.02, 0.021]}, {"id": 7, "fills": [0.03]}],
        "TrimPanel": [{"id": 5, "hatches": None}],
    }
    rows = with_rows(older)
    assert [(row["id"], row["box_id"], row["volume"]) for row in rows["BoxFill"]] == [
        (-1, 5, 0.02), (-2, 5, 0.021), (-3, 7, 0.03),
    ]  # fmt: skip
    assert rows["Box"] == older["Box"]
    assert set(rows) == {"Box", "TrimPanel", "BoxFill"}
