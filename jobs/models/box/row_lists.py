"""Lists that are part of a record and kept as rows: corners of an outline, braces, openings.

A record reads and takes such a list as plain values, which is what the design works with; the rows
are written when the record is saved, and what was typed and not saved yet is read the same way.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from copy import copy
from functools import cache
from typing import Any, ClassVar, Self

from django.db import models
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.compiled import compiled

# A list of a box or a panel takes no more than this.
MOST_CORNERS = 40
MOST_ENTRIES = 30


class ListedRow(models.Model):
    """A row that is part of a record: in its order, with no version and no history of its own."""

    # The name of the field that points at the record.
    of: ClassVar[str]
    position = models.PositiveSmallIntegerField(editable=False)

    class Meta:
        abstract = True
        ordering = ["position", "pk"]

    @property
    def plain(self) -> Any:
        """What the row says, as plain data."""
        raise NotImplementedError

    @classmethod
    def read(cls, value: Any) -> Self:
        """Return an unsaved row that says this."""
        raise NotImplementedError


@cache
def _rows_of(model: type[ListedRow]) -> Callable[[int], list[ListedRow]]:
    """What reads the rows that hang on a record."""
    return compiled(lambda key: model._default_manager.filter(**{model.of: key}))


class RowList(property):
    """A list of a record that is kept as rows; empty is None, as a figure nobody has entered."""

    name: str

    def __init__(
        self, related: str, *, pack: Callable[[list[Any]], Any] = list, **which: Any
    ) -> None:
        self.related, self.pack, self.which = related, pack, which
        super().__init__(self._get, self._set)

    def __set_name__(self, owner: type, name: str) -> None:
        self.name = name

    def _get(self, record: Any) -> Any:
        if self.name in (typed := typed_lists(record)):
            return typed[self.name]
        if record.pk is None:
            return None
        # Chosen here and not by the database, so that one query, or what was read along, is enough.
        rows = [row for row in self._hanging(record) if self._is_of(row)]
        return self.pack([row.plain for row in rows]) if rows else None

    def _hanging(self, record: Any) -> Any:
        """Every row of this kind that hangs on a record, read once."""
        read: dict[str, Any] = vars(record).setdefault("_prefetched_objects_cache", {})
        if self.related not in read:
            model = self._model(record)
            rows = _rows_of(model)(record.pk)
            for row in rows:
                setattr(row, model.of, record)
            # As `prefetch_related` leaves it.
            answered: Any = models.QuerySet(model)
            answered._result_cache, answered._prefetch_done = rows, True
            read[self.related] = answered
        return read[self.related]

    def _set(self, record: Any, value: Any) -> None:
        typed_lists(record)[self.name] = value or None

    def _is_of(self, row: ListedRow) -> bool:
        return all(getattr(row, name) == value for name, value in self.which.items())

    def write(self, record: Any, value: Any) -> None:
        """Replace the saved rows."""
        model = self._model(record)
        model.objects.filter(**{model.of: record}, **self.which).delete()
        model.objects.bulk_create(self.rows_of(record, value))

    def rows_of(self, record: Any, value: Any) -> list[ListedRow]:
        """Return a value as unsaved rows of the record."""
        model = self._model(record)
        rows: list[ListedRow] = []
        values = value.items() if isinstance(value, dict) else value or ()
        for position, plain in enumerate(values, start=1):
            row = model.read(plain)
            row.position = position
            for name, owner in {model.of: record, **self.which}.items():
                setattr(row, name, owner)
            rows.append(row)
        return rows

    def _model(self, record: Any) -> Any:
        return type(record)._meta.get_field(self.related).related_model


def typed_lists(record: Any) -> dict[str, Any]:
    """Return the lists that were put into a record and are not saved yet."""
    typed: dict[str, Any] = vars(record).setdefault("_typed_lists", {})
    return typed


class WithLists(models.Model):
    """A record some lists of which are kept as rows."""

    class Meta:
        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Save the record, then what was put into its lists."""
        super().save(*args, **kwargs)
        typed = typed_lists(self)
        if not typed:
            return
        for name, value in typed.items():
            self.lists()[name].write(self, value)
        self._forget_rows()
        self.note_what_hangs()  # type: ignore[attr-defined]

    @classmethod
    def lists(cls) -> dict[str, RowList]:
        """Return its lists by name."""
        return _lists_of(cls)

    def refresh_from_db(
        self,
        using: str | None = None,
        fields: Iterable[str] | None = None,
        from_queryset: Any = None,
    ) -> None:
        """Read it anew, its lists too."""
        super().refresh_from_db(using, fields, from_queryset)
        if fields is None:
            self._forget_rows()

    def share_lists(self, same: Self) -> None:
        """Take the rows of its lists from the same record read twice, whoever reads them first."""
        read = vars(same).setdefault("_prefetched_objects_cache", {})
        vars(self)["_prefetched_objects_cache"] = read

    def _forget_rows(self) -> None:
        vars(self).pop("_typed_lists", None)
        vars(self).pop("_prefetched_objects_cache", None)

    def what_hangs(self) -> dict[str, Any]:
        """Return its lists as saved."""
        saved = copy(self)
        saved._forget_rows()
        return {name: getattr(saved, name) for name in self.lists()}


@cache
def _lists_of(record: type[WithLists]) -> dict[str, RowList]:
    return {
        name: getattr(record, name)
        for base in record.__mro__
        for name, kept in vars(base).items()
        if isinstance(kept, RowList)
    }


def copied_lists(record: WithLists) -> dict[str, Any]:
    """Return every list of a record, to be put into another."""
    return {name: getattr(record, name) for name in record.lists()}


class Corner(ListedRow):
    """A corner of an outline, and how far the edge after it bows: outwards above zero."""

    x = models.FloatField(pgettext_lazy("shape", "across"))
    y = models.FloatField(pgettext_lazy("shape", "up"))
    bow = models.FloatField(_("bow of the edge after it"), default=0.0)

    class Meta(ListedRow.Meta):
        abstract = True

    @property
    def plain(self) -> list[float]:
        """Across and up, and the bow where there is one [m]."""
        return [self.x, self.y, self.bow] if self.bow else [self.x, self.y]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read two or three figures."""
        x, y, *bow = value
        return cls(x=x, y=y, bow=bow[0] if bow else 0.0)
