"""Many years of jobs in the tables: one job copied by SQL alone, its rows among themselves."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from django.apps import apps
from django.db import connection, models

from jobs.models import Job, Word

# Above every key there is, so that a copy's keys are those of the first plus a multiple; entries of
# the history are counted in four bytes.
APART = 100_000
# A number nobody has, as each database makes one.
CHANCE = {"postgresql": "gen_random_uuid()", "sqlite": "lower(hex(randomblob(16)))"}


class Years:
    """Copies of a job with all that hangs on it, its history and its words."""

    def __init__(self, job: Job) -> None:
        self.job = job
        self._keys: dict[type[models.Model], list[Any]] = {Job: []}
        while self._gathered():
            pass

    @property
    def rows(self) -> int:
        """How many rows one copy is, its job and the job's words left out."""
        words = sum(self._words_of(kind).count() for kind in self._keys)
        return words + sum(len(keys) for keys in self._keys.values())

    def write(self, first: int, times: int, step: int) -> None:
        """Write so many copies, each to a job of its own: every `step`-th key from the first on."""
        self._first, self._times, self._step = first, times, step
        with connection.cursor() as cursor:
            for kind, keys in self._keys.items():
                if keys:
                    columns = {f.column: self._written(kind, f) for f in kind._meta.local_fields}
                    self._copy(cursor, kind, columns, kind._meta.pk.column, keys)  # type: ignore[union-attr]
                if words := list(self._words_of(kind).values_list("pk", flat=True)):
                    plain = {name: f"t.{name}" for name in ("shelf", "word", "kind")}
                    apart = {"key": f"t.key + s.n * {APART}"}
                    self._copy(cursor, Word, plain | apart, "id", words)

    def _gathered(self) -> bool:
        """Look for rows of one more table that hang on those known; whether there were any."""
        for kind in apps.get_app_config("jobs").get_models():
            if kind in self._keys:
                continue
            for field in _pointing(kind):
                whole = [self.job.pk] if field.related_model is Job else None
                on = whole or self._keys.get(field.related_model, [])
                keys = kind._default_manager.filter(**{f"{field.name}__in": on}) if on else []
                if keys:
                    self._keys[kind] = [row.pk for row in keys]
                    return True
        return False

    def _words_of(self, kind: type[models.Model]) -> models.QuerySet[Word]:
        return Word.objects.filter(kind=kind._meta.model_name, key__in=self._keys[kind])

    def _written(self, kind: type[models.Model], field: models.Field[Any, Any]) -> str:
        """What stands in one column of a copy."""
        column, apart = f't."{field.column}"', f"s.n * {APART}"
        to = field.related_model if isinstance(field, models.ForeignKey) else None
        if to is Job:
            its_own = f"{self._first} + (s.n - 1) * {self._step}"
            return f"CASE WHEN {column} = {self.job.pk} THEN {its_own} ELSE {column} END"
        is_key = field.primary_key or (field.column == "id" and hasattr(kind, "instance_type"))
        if is_key or self._keys.get(to):
            return f"{column} + {apart}"
        if field.unique and field.null:
            return "NULL"
        if isinstance(field, models.UUIDField) and field.unique:
            return CHANCE[connection.vendor]
        if field.unique:
            return f"CAST(t.id + {apart} AS text)"
        return column

    def _copy(
        self,
        cursor: Any,
        kind: type[models.Model],
        columns: dict[str, str],
        key: str,
        keys: Iterable[int],
    ) -> None:
        names = ", ".join(f'"{name}"' for name in columns)
        cursor.execute(
            f'INSERT INTO "{kind._meta.db_table}" ({names}) '
            "WITH RECURSIVE s(n) AS "
            f"(SELECT 1 UNION ALL SELECT n + 1 FROM s WHERE n < {self._times}) "
            f'SELECT {", ".join(columns.values())} FROM "{kind._meta.db_table}" t, s '
            f'WHERE t."{key}" IN ({", ".join(map(str, keys))})'
        )


def _pointing(kind: type[models.Model]) -> Iterator[Any]:
    """Fields of a kind of row that name the row it belongs to."""
    for field in kind._meta.local_fields:
        if isinstance(field, models.ForeignKey):
            yield field
