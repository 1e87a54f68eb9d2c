"""The rows of a job, by queries whose text is built once.

Building the text took three times as long as having it answered, fifty times a page.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Sequence
from functools import cache, cached_property
from typing import Any, TypeVar

from django.db.models import Model

from jobs.models import Job, Record

R = TypeVar("R", bound=Model)


@cache
def _text(model: type[Model], through: str) -> str:
    """The query for what belongs to a job; `through` leads there. The job is all it asks for."""
    manager: Any = model._default_manager
    text, asked = manager.filter(**{through: 0}).query.sql_with_params()
    assert asked == (0,), f"{model.__name__} asks for more than its job: {asked}"
    return str(text)


def rows_of(model: type[R], job: Job) -> list[R]:
    """Return a job's own rows, in their order, without the removed."""
    return list(model._default_manager.raw(_text(model, "job"), [job.pk]))


class Later(Sequence[R]):
    """Rows that are read when somebody first looks at them: most pages of a job never do."""

    def __init__(self, read: Callable[[], Sequence[R]]) -> None:
        self._read = read

    @cached_property
    def _rows(self) -> Sequence[R]:
        return self._read()

    def __getitem__(self, at: Any) -> Any:
        return self._rows[at]

    def __len__(self) -> int:
        return len(self._rows)


def hang(model: type[Model], parents: Sequence[Record], job: Job, *, of: str, as_: str) -> None:
    """Read what hangs on these rows of a job, as `prefetch_related(as_)` does.

    `of` is the field that names the parent; every parent of the job is asked for in one query.
    """
    if not parents:
        return
    by_parent: dict[Any, list[Model]] = defaultdict(list)
    for row in model._default_manager.raw(_text(model, f"{of}__job"), [job.pk]):
        by_parent[getattr(row, f"{of}_id")].append(row)
    for parent in parents:
        rows = by_parent[parent.pk]
        for row in rows:
            setattr(row, of, parent)
        answered: Any = getattr(parent, as_).all()
        answered._result_cache, answered._prefetch_done = rows, True
        parent._prefetched_objects_cache = {  # type: ignore[attr-defined]
            **getattr(parent, "_prefetched_objects_cache", {}),
            as_: answered,
        }
