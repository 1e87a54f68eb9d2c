"""The migration that gave people several roles: nobody loses theirs, forwards and back."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

ROOT = Path(__file__).parents[2]
BEFORE, AFTER = "0013", "0014"


def _migrate(var: Path, to: str) -> None:
    environment = {**os.environ, "UNDERTRIM_VAR": str(var)}
    environment.pop("DATABASE_URL", None)
    command = [sys.executable, "manage.py", "migrate", "jobs", to, "-v0"]
    subprocess.run(command, cwd=ROOT, env=environment, check=True)


def _value(kind: str) -> object:
    """Something that goes into a column of this kind."""
    if kind.startswith(("varchar", "text")):
        return ""
    return "2026-01-01" if kind == "datetime" else 1


def _insert(tables: sqlite3.Connection, table: str, **values: str) -> None:
    """Put a row in; what is not given is anything that fits."""
    columns = tables.execute(f"SELECT name, type FROM pragma_table_info('{table}')").fetchall()
    row = {name: values.get(name, _value(kind)) for name, kind in columns if name != "id"}
    marks = ", ".join("?" * len(row))
    tables.execute(f"INSERT INTO {table} ({', '.join(row)}) VALUES ({marks})", [*row.values()])


def test_one_role_becomes_the_first_of_several(tmp_path):
    """Roles are kept, whoever had none has none, and the demo is known by its people."""
    file = tmp_path / "undertrim.sqlite3"
    people = {"consultant": "consultant", "designer": "designer", "installer": "installer"}
    people |= {"manager": "manager", "stranger": ""}
    _migrate(tmp_path, BEFORE)
    with closing(sqlite3.connect(file)) as tables, tables:
        for name, role in people.items():
            _insert(tables, "jobs_user", username=name, role=role)
        _insert(tables, "jobs_workshop")
    _migrate(tmp_path, AFTER)
    with closing(sqlite3.connect(file)) as tables, tables:
        assert tables.execute("SELECT is_demo FROM jobs_workshop").fetchall() == [(1,)]
        roles = dict(tables.execute("SELECT username, roles FROM jobs_user"))
        assert roles == {name: f'["{role}"]' if role else "[]" for name, role in people.items()}
        several = '["installer", "manager"]'
        tables.execute("UPDATE jobs_user SET roles = ? WHERE username = 'designer'", [several])
    _migrate(tmp_path, BEFORE)
    with closing(sqlite3.connect(file)) as tables:
        roles = dict(tables.execute("SELECT username, role FROM jobs_user"))
        assert roles == people | {"designer": "manager"}
