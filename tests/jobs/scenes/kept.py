"""A scene is set once for each process; in every module after that its rows are laid in.

To set one takes as long as several tests do, and half of the modules ask for the same.
"""

from __future__ import annotations

import pickle
from collections.abc import Callable
from functools import cache

from django.db import connection

Rows = list[tuple[object, ...]]
Make = Callable[..., object]


@cache
def _columns() -> dict[str, list[str]]:
    """The columns of every table."""
    names = connection.introspection.table_names()
    ask = "SELECT name FROM pragma_table_info(?)"
    rows = connection.connection.execute
    return {table: [f'"{name}"' for (name,) in rows(ask, [table])] for table in names}


def _read(table: str) -> Rows:
    """Every row as it is stored: of an expression nothing is converted."""
    values = ", ".join(f"+{name}" for name in _columns()[table])
    rows: Rows = connection.connection.execute(f'SELECT {values} FROM "{table}"').fetchall()
    return rows


def _lay(table: str, rows: Rows) -> None:
    """Let a table hold these rows and no others."""
    connection.connection.execute(f'DELETE FROM "{table}"')
    names = _columns()[table]
    into = f'INSERT INTO "{table}" ({", ".join(names)}) VALUES ({", ".join("?" * len(names))})'
    connection.connection.executemany(into, rows)


class Kept:
    """For scenes that were set in this order: the tables the last changed, and its rows by name."""

    def __init__(self, scenes: set[Make]) -> None:
        self._scenes = scenes
        self._set: dict[tuple[Make, ...], tuple[dict[str, Rows], bytes]] = {}

    def build(self, order: tuple[Make, ...], *given: object) -> object:
        """Do the last of these, or lay in what came of it when nothing else was done before."""
        make = order[-1]
        if connection.vendor != "sqlite" or not self._scenes.issuperset(order):
            return make(*given)
        if order in self._set:
            changed, kept = self._set[order]
            for table, rows in changed.items():
                _lay(table, rows)
            return pickle.loads(kept)
        before = {table: _read(table) for table in _columns()}
        scene = make(*given)
        after = {table: _read(table) for table in _columns()}
        changed = {table: rows for table, rows in after.items() if rows != before[table]}
        self._set[order] = changed, pickle.dumps(scene)
        return scene
