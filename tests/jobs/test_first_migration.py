"""The migration of an empty database: it makes what all those before it make one by one."""

from __future__ import annotations

import pytest
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader

FIRST, LAST = ("jobs", "0001_squashed_0221"), ("jobs", "0221_rounding_and_bends")


def _tables(database) -> dict[tuple[str, str], object]:
    """Every table with its columns and rules in any order, every index by what it is on."""
    with database.cursor() as cursor:
        cursor.execute("SELECT type, name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite%'")
        made = cursor.fetchall()
    return {
        (kind, name) if kind == "table" else (kind, sql.split(" ON ")[1]): sorted(
            sql.partition("(")[2].replace(")", ",").split(",")
        )
        for kind, name, sql in made
        if name != "django_migrations"
    }


def _migrate(database, one_by_one: bool) -> dict[tuple[str, str], object]:
    executor = MigrationExecutor(database)
    executor.loader = MigrationLoader(database, replace_migrations=not one_by_one)
    executor.migrate([LAST if one_by_one else FIRST])
    tables = _tables(database)
    with database.cursor() as cursor:
        for kind, name in tables:
            if kind == "table":
                cursor.execute(f'DROP TABLE "{name}"')
        cursor.execute("DROP TABLE django_migrations")
    return tables


@pytest.mark.long
def test_at_once_is_what_one_by_one_makes(apart):
    """Tables, columns, rules and indexes are the same."""
    apart.disable_constraint_checking()
    at_once = _migrate(apart, one_by_one=False)
    assert len(at_once) > 500
    assert at_once == _migrate(apart, one_by_one=True)
