"""`manage.py backup` and `manage.py restore`, as a person types them."""

from __future__ import annotations

import datetime as dt
import subprocess
import sys

import pytest
from django.core.management import CommandError, call_command
from django.db.migrations.loader import MigrationLoader

from jobs.backup.installation import Installation
from jobs.keeping.erased_list import NAME, Erased, read, write
from tests.jobs.backup.tools import (
    ROOT,
    at,
    environment,
    files,
    is_postgres,
    make_postgres,
    manage,
    rows,
    run_sql,
)

pytestmark = pytest.mark.served

# A table and the migration that makes it, of a library: small, so that it is soon made again.
TABLE, MIGRATION = "axes_accessattemptexpiration", ("axes", "0010_accessattemptexpiration")


def test_a_backup_is_made_and_restored_from_the_terminal(installed, tmp_path):
    """An older one is brought up to date; what is there now is said in words a person knows."""
    run_sql(installed, f"DROP TABLE {TABLE}")
    assert run_sql(installed, f"DELETE FROM django_migrations WHERE (app, name) = {MIGRATION}") == 1
    away, new = tmp_path / "away.zip", at(tmp_path / "new")
    made = manage(installed, "backup", away)
    assert (made.returncode, made.stderr) == (0, "")
    assert "jobs 1, photos 3, issued sheets 1, newest change 20" in made.stdout
    restored = manage(new, "restore", away)
    assert (restored.returncode, restored.stderr) == (0, "")
    assert "jobs 1, photos 3, issued sheets 1, newest change 20" in restored.stdout
    now, before = rows(new.database), rows(installed.database)
    assert set(now) - set(before) == {TABLE}
    own = {"sqlite_sequence"}  # SQLite counts in a table of its own
    changed = {name for name in before if before[name] != now[name]}
    assert changed - own == {"django_migrations"}
    assert files(new.media) == files(installed.media)


def test_a_drill_goes_all_the_way_and_changes_nothing(installed, backup):
    """Tried while the app may go on: what it holds is said, nothing is left behind or moved."""
    before, content = files(installed.folder), rows(installed.database)
    tried = manage(installed, "restore", backup, "--try")
    assert (tried.returncode, tried.stderr) == (0, "")
    said, nothing = tried.stdout.splitlines()
    assert said.startswith(
        "It can be restored: jobs 1, photos 3, issued sheets 1, newest change 20"
    )
    assert nothing == "Nothing was changed here."
    assert rows(installed.database) == content
    beside = ("-wal", "-shm")  # SQLite's own, while it is read
    assert {name: file for name, file in files(installed.folder).items()
            if not name.endswith(beside)} == {
        name: file for name, file in before.items() if not name.endswith(beside)
    }  # fmt: skip
    backup.write_bytes(backup.read_bytes()[:-2000])
    refused = manage(installed, "restore", backup, "--try")
    assert refused.returncode == 1
    assert len(refused.stderr.splitlines()) == 1


def _person(there: Installation) -> tuple[int, str, str]:
    """Key, first entry and name of the customer of an installation."""
    with there.database.reading() as reading:
        ((pk, name),) = reading.rows("SELECT id, name FROM jobs_customer")
        first = f"SELECT min(history_date) FROM jobs_historicalcustomer WHERE id = {pk}"
        ((began,),) = reading.rows(first)
    if isinstance(began, str):  # SQLite keeps moments as text, in UTC
        began = dt.datetime.fromisoformat(began).replace(tzinfo=dt.UTC)
    return pk, began.astimezone(dt.UTC).isoformat(), name


@pytest.mark.parametrize("beside", [False, True])
def test_who_was_erased_since_stays_erased(installed, backup, tmp_path, beside):
    """The list of the installation that is replaced counts, and so does one beside the file."""
    pk, began, name = _person(installed)
    assert name == "Hanna Lind"
    one = Erased(customer=pk, began=began, at="2026-11-28T12:00:00+00:00", plates=False)
    there = at(tmp_path / "new") if beside else installed
    if beside and is_postgres():
        make_postgres(there)
    list_of_it = backup.with_name(NAME) if beside else there.folder / NAME
    write(list_of_it, [one])
    restored = manage(there, "restore", backup, *([] if beside else ["--replace"]))
    assert (restored.returncode, restored.stderr) == (0, "")
    assert "Erased again, as they were since this back-up: 1" in restored.stdout
    texts = [str(value) for of_table in rows(there.database).values() for row in of_table
             for value in row]  # fmt: skip
    assert texts
    assert not [text for text in texts if "Hanna" in text or "lind.invalid" in text]
    assert read(there.folder / NAME) == [one]
    away = tmp_path / "again.zip"
    assert manage(there, "backup", away).returncode == 0
    assert read(away.with_name(NAME)) == [one]


def test_a_refusal_is_one_line(installed, backup, monkeypatch):
    """Nothing is changed; Django ends with 1 and prints the line."""
    monkeypatch.setattr(Installation, "here", lambda: installed)
    raw = backup.read_bytes()
    before = files(installed.folder)
    backup.write_bytes(raw[: len(raw) // 2])
    for file in (backup, backup.with_name("nowhere.zip"), backup.parent):
        with pytest.raises(CommandError) as refusal:
            call_command("restore", file, "--replace")
        assert refusal.value.returncode == 1
        assert len(str(refusal.value).splitlines()) == 1
    assert files(installed.folder) == before


# Where the last migrations are one, a database of before them has gone there one by one.
ONE_BY_ONE = """
import django
django.setup()
from django.db import connection
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader
executor = MigrationExecutor(connection)
executor.loader = MigrationLoader(connection, replace_migrations=False)
executor.migrate([("jobs", "{name}")])
"""


@pytest.mark.long
def test_a_backup_from_before_the_last_migration_is_brought_up_to_date(tmp_path):
    """Made for real at the last migration but one."""
    graph = MigrationLoader(None, replace_migrations=False).graph
    last = max(key for key in graph.leaf_nodes("jobs") if not graph.nodes[key].replaces)
    (earlier,) = [node.key[1] for node in graph.node_map[last].parents if node.key[0] == "jobs"]
    old, new, away = at(tmp_path / "old"), at(tmp_path / "new"), tmp_path / "away.zip"
    if is_postgres():
        make_postgres(old)
    go = [sys.executable, "-c", ONE_BY_ONE.format(name=earlier)]
    subprocess.run(go, env=environment(old), cwd=ROOT, check=True)
    assert manage(old, "backup", away).returncode == 0
    assert manage(new, "restore", away).returncode == 0
    shown = subprocess.run(
        [sys.executable, "manage.py", "migrate", "--check"], env=environment(new), cwd=ROOT
    )
    assert shown.returncode == 0
