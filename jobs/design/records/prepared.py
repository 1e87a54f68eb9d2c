"""The rows of a job."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from functools import cache, cached_property
from typing import Any, TypeVar

from django.db.models import Model, QuerySet

from jobs.compiled import compiled
from jobs.models import IssuedSheet, Job, Offcut, Record, Run, SheetMaterial, TaxRate

R = TypeVar("R", bound=Model)


@cache
def _of_job(model: type[R], through: str) -> Callable[[int], list[R]]:
    """What reads the rows that belong to a job; `through` leads there."""
    return compiled(lambda key: model._default_manager.filter(**{through: key}))


def rows_of(model: type[R], job: Job) -> list[R]:
    """Return a job's own rows, in their order, without the removed."""
    return _of_job(model, "job")(job.pk)


@compiled
def issued_of(job: int) -> QuerySet[IssuedSheet]:
    """The issued sheets of a job, without what is large in them."""
    return IssuedSheet.objects.filter(job=job).defer("pdf", "data").select_related("issued_by")


@compiled
def woken_by(job: int) -> QuerySet[Any]:
    """Which run of a job turns on which piece of equipment."""
    return Run.wakes.through.objects.filter(run__job=job)


@compiled
def sheet_materials() -> QuerySet[SheetMaterial]:
    """Every sheet the workshop buys."""
    return SheetMaterial.objects.all()


@compiled
def offcuts() -> QuerySet[Offcut]:
    """What the workshop keeps of earlier sheets."""
    return Offcut.objects.select_related("material")


@compiled
def tax_rates() -> QuerySet[TaxRate]:
    """Taxes of the workshop, from whichever day on."""
    return TaxRate.objects.all()


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
    """Read what hangs on these rows of a job; `of` is the field that names the parent.

    What hangs on every parent of the job is asked for in one query.
    """
    if parents:
        hang_on(parents, _of_job(model, f"{of}__job")(job.pk), of=of, as_=as_)


# What tells the rows that are there from the removed, of kinds that can be.
_THERE: dict[bool, dict[str, Any]] = {True: {"removed_at": None}, False: {}}


def hang_on(parents: Iterable[Model], rows: Iterable[Model], *, of: str, as_: str) -> None:
    """Hang rows on their parents, as `prefetch_related(as_)` does."""
    by_parent: dict[Any, list[Model]] = defaultdict(list)
    for row in rows:
        by_parent[getattr(row, f"{of}_id")].append(row)
    for parent in parents:
        hanging = by_parent[parent.pk]
        for row in hanging:
            setattr(row, of, parent)
        child: Any = parent._meta.get_field(as_).related_model
        answered: Any = QuerySet(child)
        answered._result_cache, answered._prefetch_done = hanging, True
        # Whose rows they are, for whoever asks for some of them: worked out when that is asked.
        answered._deferred_filter = (False, (), {of: parent, **_THERE[issubclass(child, Record)]})
        parent._prefetched_objects_cache = {  # type: ignore[attr-defined]
            **getattr(parent, "_prefetched_objects_cache", {}),
            as_: answered,
        }
