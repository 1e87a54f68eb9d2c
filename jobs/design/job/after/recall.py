"""Every car a part is in, for the day a part maker calls it back.

What was fitted instead of what was planned counts, and what was planned and not fitted does not. A
number nobody wrote down may be any: such a car stays on the list and says so.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache
from typing import Any

from django.apps import apps

from jobs.models import (
    CableLot,
    EquipmentItem,
    ItemAsBuilt,
    Job,
    JobPart,
    PanelContent,
    Part,
    Run,
    RunAsBuilt,
    Stage,
    TrimMount,
)

# From here on a part may be in the car; before, it is only planned.
IN_THE_CAR = (Stage.BAY, Stage.SET_UP, Stage.HANDED_OVER, Stage.AFTERCARE)
LEFT = (Stage.HANDED_OVER, Stage.AFTERCARE)
_DIGITS = re.compile(r"(\d+)")


@dataclass(frozen=True, kw_only=True)
class Use:
    """One place of a job where the part is named."""

    what: str
    numbers: tuple[str, ...] = ()
    # Whether pieces of it bear a number at all: a cable or a sheet of wood has none.
    numbered: bool = False


@dataclass(frozen=True, kw_only=True)
class CarWithPart:
    """A job whose car the part is in, or is to go into."""

    job: Job
    uses: list[Use] = field(default_factory=list)

    @property
    def is_in_the_car(self) -> bool:
        """Whether the work has begun; before, the part lies on a shelf at most."""
        return self.job.stage in IN_THE_CAR

    @property
    def has_left(self) -> bool:
        """Whether somebody drives about with it."""
        return self.job.stage in LEFT

    @property
    def numbers(self) -> str:
        """The numbers that were written down."""
        return ", ".join(number for use in self.uses for number in use.numbers)

    @property
    def number_unknown(self) -> bool:
        """Whether a piece of it bears a number that nobody wrote down."""
        return any(use.numbered and not use.numbers for use in self.uses)


def cars_with(part: Part, first: str = "", last: str = "") -> list[CarWithPart]:
    """Return the jobs a part is used in, the newest first.

    With numbers, those from the first to the last; without a last, those that begin as the first.
    """
    by_job: dict[int, CarWithPart] = {}
    for row, use in _uses(part):
        kept = _within(use, first, last)
        if kept is not None:
            by_job.setdefault(row.job_id, CarWithPart(job=row.job)).uses.append(kept)
    return sorted(by_job.values(), key=lambda car: -car.job.number)


def _within(use: Use, first: str, last: str) -> Use | None:
    """Return a use with the numbers asked for; None where every number of it is another."""
    if not first or not use.numbers:
        return use
    kept = tuple(number for number in use.numbers if is_within(number, first, last))
    return Use(what=use.what, numbers=kept, numbered=True) if kept else None


def is_within(number: str, first: str, last: str = "") -> bool:
    """Whether a number lies between two, their figures taken as figures.

    >>> is_within("AX-0120", "AX-99", "AX-300"), is_within("AX-0120", "AX-2", "AX-99")
    (True, False)
    """
    if not last:
        return number.casefold().replace(" ", "").startswith(first.casefold().replace(" ", ""))
    low, middle, high = _parts(first), _parts(number), _parts(last)
    return low <= middle <= high


def _parts(number: str) -> list[tuple[int, int, str]]:
    """Letters and figures by turns, each comparable with any other."""
    pieces = _DIGITS.split(number.casefold().replace(" ", ""))
    return [(1, int(p), "") if p.isdecimal() else (0, 0, p) for p in pieces]


@cache
def _naming() -> list[tuple[type[JobPart], Any]]:
    """Every field of a job's rows that names a part."""
    models = [m for m in apps.get_app_config("jobs").get_models() if issubclass(m, JobPart)]
    apart = (CableLot, EquipmentItem, ItemAsBuilt, Run, RunAsBuilt)
    return [
        (model, column)
        for model in models
        if model not in apart
        for column in model._meta.concrete_fields
        if _is_part(column)
    ]


def _is_part(column: Any) -> bool:
    of = column.related_model
    return isinstance(of, type) and issubclass(of, Part)


def _uses(part: Part) -> Iterator[tuple[Any, Use]]:
    yield from _equipment(part)
    yield from _runs(part)
    for model, column in _naming():
        rows: Any = model.objects.filter(**{column.name: part.pk})
        for row in _of_jobs(rows):
            yield row, Use(what=f"{row}: {column.verbose_name}")
    mounts = TrimMount.objects.filter(part=part.pk, trim_panel__removed_at=None)
    for mount in mounts.select_related("trim_panel__job__vehicle__customer"):
        if mount.trim_panel.job.removed_at is None:
            yield mount.trim_panel, Use(what=str(mount.trim_panel))


def _of_jobs(rows: Any) -> Iterable[Any]:
    return list(rows.filter(job__removed_at=None).select_related("job__vehicle__customer"))


def _equipment(part: Part) -> Iterator[tuple[Any, Use]]:
    """Yield what is fitted, with the numbers of its pieces."""
    changed = ItemAsBuilt.objects.all()
    planned = EquipmentItem.objects.filter(part=part.pk).exclude(pk__in=changed.values("item"))
    fitted = changed.filter(part=part.pk, item__removed_at=None)
    items: list[tuple[EquipmentItem, Any]] = [(item, item) for item in _of_jobs(planned)]
    items += [(row.item, row) for row in _of_jobs(fitted.select_related("item"))]
    pieces: dict[int, list[str]] = {}
    contents = PanelContent.objects.filter(equipment__in=[item.pk for item, _row in items])
    for key, serial in contents.exclude(serial="").values_list("equipment", "serial"):
        pieces.setdefault(key, []).append(serial)
    for item, row in items:
        numbers = tuple(dict.fromkeys([*filter(None, [row.serial]), *pieces.get(item.pk, ())]))
        yield row, Use(what=f"{item.quantity} × {row.place}", numbers=numbers, numbered=True)


def _runs(part: Part) -> Iterator[tuple[Any, Use]]:
    """Yield the cables it is part of, as they were laid, a cable with its lots."""
    laid = RunAsBuilt.objects.all()
    lots: dict[tuple[int, int | None], list[str]] = {}
    for row in CableLot.objects.filter(conductor=part.pk):
        lots.setdefault((row.job_id, row.run_id), []).append(row.number)
    for column in Run._meta.concrete_fields:
        if not _is_part(column):
            continue
        rows = Run.objects.filter(**{column.name: part.pk})
        if column.name in RunAsBuilt.FIELDS:
            rows = rows.exclude(pk__in=laid.values("run"))
            others = laid.filter(**{column.name: part.pk}, run__removed_at=None)
            for row in _of_jobs(others.select_related("run")):
                yield row, _of_run(row.run, column, lots)
        for run in _of_jobs(rows):
            yield run, _of_run(run, column, lots)


def _of_run(run: Run, column: Any, lots: dict[tuple[int, int | None], list[str]]) -> Use:
    """Say what a part is to a run; of its cable the lot that is noted for it, or for the car."""
    what = f"{run.label}: {column.verbose_name}"
    if column.name != "conductor":
        return Use(what=what)
    numbers = lots.get((run.job_id, run.pk)) or lots.get((run.job_id, None)) or []
    return Use(what=what, numbers=tuple(numbers), numbered=True)
