"""The migration that renamed a column PostgreSQL keeps for itself: no figure is lost."""

from __future__ import annotations

import sqlite3
from contextlib import closing

from tests.jobs.test_people_migration import _insert, _migrate

BEFORE, AFTER = "0014", "0015"


def test_linear_travel_is_kept_where_its_column_had_another_name(tmp_path):
    """Tables made by the first migration of before have `xmax`; those made since do not."""
    _migrate(tmp_path, BEFORE)
    with closing(sqlite3.connect(tmp_path / "undertrim.sqlite3")) as tables, tables:
        for table in ("jobs_driver", "jobs_historicaldriver"):
            tables.execute(f"ALTER TABLE {table} RENAME COLUMN linear_travel TO xmax")
        _insert(tables, "jobs_part", name="sub")
        _insert(tables, "jobs_driver", part_ptr_id="1", xmax="0.0125")
    _migrate(tmp_path, AFTER)
    with closing(sqlite3.connect(tmp_path / "undertrim.sqlite3")) as tables, tables:
        assert tables.execute("SELECT linear_travel FROM jobs_driver").fetchall() == [(0.0125,)]
        assert tables.execute("SELECT linear_travel FROM jobs_historicaldriver").fetchall() == []
