"""What was built otherwise since a car left: each row step by step, from what to what, by whom.

The first state is the car as it was handed over, or the plan where no record tells; the last is the
car as it is. What lies between, the history of what was written down as built tells.
"""

from __future__ import annotations

import datetime as dt
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from django.utils import timezone

from jobs.design.job.after.handed_over import HandedOver
from jobs.design.records.as_built import (
    SAYS,
    AsBuilt,
    Built,
    Difference,
    Key,
    between,
    key_of,
    laid_over,
)
from jobs.design.records.linking import link_shared
from jobs.design.records.records import JobRecords
from jobs.models import ItemAsBuilt, Part

# What was written down about a row, and the row as that says it is.
_State = tuple[AsBuilt | None, Built]


@dataclass(frozen=True, kw_only=True)
class Altered:
    """One row that became otherwise: what of it, and what was written down about it then."""

    row: Built
    differences: Sequence[Difference] = ()
    signed: AsBuilt | None = None
    came: Literal["", "new", "gone"] = ""

    @property
    def day(self) -> dt.date | None:
        """When it was done; None where nobody wrote it down as done."""
        return timezone.localdate(self.signed.done_at) if self.signed else None

    @property
    def key(self) -> Key:
        """Which row."""
        return key_of(self.row)


def altered(records: JobRecords, then: HandedOver | None) -> list[Altered]:
    """Return every step from the car as it left to the car as it is, row by row."""
    now, between_them = _rows(records), _states(records, then)
    # Without a record the plan is where it began, and what was done by that day left with the car.
    before = _rows(then.records) if then else {key: row.designed or row for key, row in now.items()}
    steps = [
        step
        for key, row in now.items()
        if key in before
        for step in _steps([(None, before[key]), *between_them[key], (row.as_built, row)])
    ]
    steps += [Altered(row=row, came="new") for key, row in now.items() if key not in before]
    steps += [Altered(row=row, came="gone") for key, row in before.items() if key not in now]
    left = records.job.left_on
    return [step for step in steps if then or (step.day and left and step.day > left)]


def _rows(records: JobRecords) -> dict[Key, Built]:
    rows: list[Built] = [*records.equipment, *records.runs, *records.factory_parts]
    return {key_of(row): row for row in rows}


def _steps(states: Sequence[_State]) -> Iterator[Altered]:
    for (_signed, was), (signed, became) in pairwise(states):
        if differs := between(was, became):
            yield Altered(row=became, differences=differs, signed=signed)


def _states(records: JobRecords, then: HandedOver | None) -> dict[Key, list[_State]]:
    """Return each row as it was said to be since: of one day what was said last."""
    panels = {panel.pk: panel for panel in records.panels}
    now = _rows(records)
    states: dict[Key, list[_State]] = defaultdict(list)
    for key, row in _entries(records, then):
        if (built := now.get(key)) is not None:
            states[key].append((row, laid_over(built.designed or built, row, panels)))
    return states


def _entries(records: JobRecords, then: HandedOver | None) -> Iterator[tuple[Key, AsBuilt]]:
    """Read what was written down as built, in its order, up to what these records hold."""
    read: dict[tuple[Key, dt.date], AsBuilt] = {}
    held = (*records.items_as_built, *records.runs_as_built, *records.parts_as_built)
    for built, (model, of) in SAYS.items():
        newest = {row.pk: row.version for row in held if isinstance(row, model)}
        entries = model.history.filter(id__in=newest, removed_at=None).order_by("history_id")
        if then:
            entries = entries.filter(history_date__gt=then.sheet.issued_at)
        for entry in entries:
            if entry.version <= newest[entry.id]:
                row = entry.instance
                key = (built.__name__, getattr(row, f"{of}_id"))
                read[key, timezone.localdate(row.done_at)] = row
    link_shared(list(read.values()))
    fitted = [row for row in read.values() if isinstance(row, ItemAsBuilt)]
    parts = Part.objects.in_bulk({row.part_id for row in fitted})
    for row in fitted:
        row.part = parts[row.part_id]
    for (key, _day), row in read.items():
        yield key, row
