"""What every scene is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, fields, replace
from functools import cache
from typing import Any, Self

from django.db.models import Model

from jobs.compiled import compiled
from jobs.models import Job, Terminal
from tests.jobs.shelf import Shelf


@dataclass(frozen=True, kw_only=True)
class Scene:
    """A job and those of its rows that have a name."""

    job: Job

    @property
    def code(self) -> str:
        """The number of the job as it is printed."""
        return self.job.code

    def again(self) -> Self:
        """The same scene read from the tables, so that no test sees what another typed into it."""
        return replace(self, **read_again({f.name: getattr(self, f.name) for f in fields(self)}))


def read_again(rows: Mapping[str, Any]) -> dict[str, Any]:
    """Read rows once more, those of a kind in one query."""
    read: dict[type[Model], dict[int, Model]] = {}
    for model in {type(row) for row in rows.values()}:
        keys = [row.pk for row in rows.values() if type(row) is model]
        read[model] = {row.pk: row for row in _with_keys(model)(keys)}
    return {name: read[type(row)][row.pk] for name, row in rows.items()}


@cache
def _with_keys(model: type[Model]) -> Callable[[Iterable[int]], list[Any]]:
    wanted = model._base_manager.all()
    if model is Job:
        wanted = wanted.select_related("vehicle__customer")
    return compiled(lambda keys: wanted.filter(pk__in=keys))


def ends(shelf: Shelf, start: str, end: str = "") -> dict[str, Terminal]:
    """The terminals of a run: the same at both ends, or another at its end."""
    return {"start_terminal": shelf[start], "end_terminal": shelf[end or start]}
