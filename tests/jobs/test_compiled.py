"""Queries whose text is built once answer as those that are built each time."""

from __future__ import annotations

import pytest
from django.db.models.sql.compiler import SQLCompiler

from jobs.compiled import compiled
from jobs.models import EquipmentItem, Part
from tests.jobs import factories

pytestmark = pytest.mark.django_db


@compiled
def with_keys(keys):
    """Parts, whatever their names."""
    return Part.objects.filter(pk__in=keys)


@compiled
def of_job(job, least):
    """Equipment with its part, and more of it than so much."""
    return EquipmentItem.objects.filter(job=job, quantity__gt=least).select_related("part")


def test_any_number_of_keys_is_answered(shelf):
    """None, one, three and all of them, in whatever order and however often."""
    keys = [part.pk for part in Part.objects.all()]
    assert len(keys) > 4
    for some in ([], keys[:1], keys[:3], keys[:3], keys[::-1], [keys[0], keys[0], -1]):
        assert with_keys(some) == [*Part.objects.filter(pk__in=some)]


def test_rows_are_read_as_they_stand_now(shelf, django_assert_num_queries):
    """Two keys, a row added in between, what is joined read along: one query each time."""
    job, other = factories.make_job(), factories.make_job()
    item = factories.make_item(job, shelf["woofer"], "invented", quantity=2)
    assert of_job(job.pk, 1) == [item]
    assert of_job(job.pk, 2) == of_job(other.pk, 1) == []
    later = factories.make_item(job, shelf["woofer"], "invented", quantity=3)
    with django_assert_num_queries(1):
        assert [row.part.name for row in of_job(job.pk, 1)] == [shelf["woofer"].name] * 2
    assert of_job(job.pk, 2) == [later]


def test_the_text_is_built_once(shelf, monkeypatch):
    """After the first time nobody is asked for it again."""
    job = factories.make_job()
    of_job(job.pk, 0)

    def never(*_args, **_named):
        raise AssertionError

    monkeypatch.setattr(SQLCompiler, "as_sql", never)
    assert of_job(job.pk, 0) == []
