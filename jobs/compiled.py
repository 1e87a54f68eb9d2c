"""Queries whose text is built once.

Building the text of a query takes three times as long as having it answered, thirty times a page.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from typing import Any, TypeVar

from django.db import connections
from django.db.models import Model, QuerySet
from django.db.models.sql import Query

M = TypeVar("M", bound=Model)

# Stands for a key while the text is built: no row has it.
_NO_KEY = 2_000_000_000


class _Built(Query):
    """A query that is not built again."""

    compiler_: Any

    def get_compiler(self, *_args: Any, **_named: Any) -> Any:
        return self.compiler_


@dataclass(frozen=True, kw_only=True)
class _Text:
    """What is asked of the database, and how its answer is read."""

    compiler: Any
    says: str
    asks: Sequence[Any]
    converters: Mapping[int, Any]

    @classmethod
    def of(cls, queryset: QuerySet[Any]) -> _Text:
        compiler = queryset.query.get_compiler(using=queryset.db)
        says, asks = compiler.as_sql()
        columns = [column for column, *_ in compiler.select[: compiler.col_count]]
        converters = compiler.get_converters(columns)
        return cls(compiler=compiler, says=says, asks=asks, converters=converters)

    def asking(self, keys: list[int]) -> Any:
        """A compiler of this thread that has no text left to build."""
        ready = copy(self.compiler)
        ready.connection = connections[self.compiler.using]
        values = [_value(each, keys) for each in self.asks]
        ready.as_sql = lambda: (self.says, values)
        ready.get_converters = lambda _columns: self.converters
        return ready


def compiled(build: Callable[..., QuerySet[M]]) -> Callable[..., list[M]]:
    """Return a function that reads the rows of the queryset which `build` makes of some keys.

    A key is a number, or a tuple of them to choose among. What is asked of the database besides
    is asked the same way every time.
    """
    known: dict[tuple[int | None, ...], _Text] = {}

    def rows(*keys: int | Iterable[int]) -> list[M]:
        given = [key if isinstance(key, int) else _padded(key) for key in keys]
        if () in given:
            return []
        shape = tuple(None if isinstance(key, int) else len(key) for key in given)
        if shape not in known:
            known[shape] = _Text.of(build(*_places(shape)))
        flat = [each for key in given for each in ((key,) if isinstance(key, int) else key)]
        query = _Built(known[shape].compiler.query.model)
        query.compiler_ = known[shape].asking(flat)
        return list(QuerySet(query.model, query=query))

    return rows


def _padded(keys: Iterable[int]) -> tuple[int, ...]:
    """As many keys as the next power of two, so that few texts serve any number."""
    some = tuple(keys)
    return some + some[-1:] * ((1 << (len(some) - 1).bit_length()) - len(some)) if some else ()


def _places(shape: tuple[int | None, ...]) -> list[int | list[int]]:
    """A number of its own in the place of every key."""
    numbers = iter(range(_NO_KEY, 2**31))
    return [next(numbers) if n is None else [next(numbers) for _ in range(n)] for n in shape]


def _value(asked: Any, keys: list[int]) -> Any:
    """The key in whose place this number stands, or what is asked every time."""
    place = asked - _NO_KEY if isinstance(asked, int) else -1
    return keys[place] if 0 <= place < len(keys) else asked
