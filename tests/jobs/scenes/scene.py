"""What every scene is."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Self

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
        rows = {}
        for field in fields(self):
            row = getattr(self, field.name)
            found = type(row)._base_manager.filter(pk=row.pk)
            if isinstance(row, Job):
                found = found.select_related("vehicle__customer")
            rows[field.name] = found.get()
        return replace(self, **rows)


def ends(shelf: Shelf, start: str, end: str = "") -> dict[str, Terminal]:
    """The terminals of a run: the same at both ends, or another at its end."""
    return {"start_terminal": shelf[start], "end_terminal": shelf[end or start]}
