"""The job as it was handed over: what the record of that day was made from.

An issued record keeps every row it was made from, so that what came later is held against the car
as it left, whatever has become of the plan and of the catalogue since.
"""

from __future__ import annotations

from dataclasses import dataclass

from django.utils import timezone

from jobs.design.records.data import SCHEMA, from_data
from jobs.design.records.keys import at_home
from jobs.design.records.records import JobRecords
from jobs.models import Fuse, IssuedSheet, SheetKind

# What tells whoever opens it what is in the car.
_TELLING = (SheetKind.HANDOVER, SheetKind.PANELS, SheetKind.CUSTOMER)


@dataclass(frozen=True, kw_only=True)
class HandedOver:
    """A job as it left, and the record that says so."""

    sheet: IssuedSheet
    records: JobRecords

    def as_fitted(self, fuse: Fuse) -> Fuse:
        """Return a fuse with the figures it had then: the one in the car does not follow a list."""
        rows = [fuse for run in self.records.runs for fuse in (run.fuse, run.end_fuse) if fuse]
        return next((then for then in rows if then.pk == fuse.pk), fuse)


def handed_over(records: JobRecords) -> HandedOver | None:
    """Return the job as it left; None where no record that was issued by then can be read."""
    left = records.job.left_on
    issued = [
        sheet
        for sheet in records.issued
        if sheet.kind in _TELLING
        and sheet.erased_at is None
        and left is not None
        and timezone.localdate(sheet.issued_at) <= left
    ]
    newest = max((sheet.pk for sheet in issued), default=0)
    kept = IssuedSheet.objects.select_related("origin").defer("pdf").filter(pk=newest).first()
    if kept is None or kept.data.get("schema") != SCHEMA:
        return None
    return HandedOver(sheet=kept, records=from_data(at_home(kept)))
