"""What the cables of a job weigh: their metal, which is known from size and length."""

from __future__ import annotations

from dataclasses import dataclass

from jobs.design.records.records import JobRecords
from jobs.design.wiring.schedule import LaidRuns


@dataclass(frozen=True, kw_only=True)
class CableMass:
    """The metal of the runs [kg], and the labels of those that lack a cable or a length."""

    metal: float
    unknown: tuple[str, ...]


def work_out_cable_mass(records: JobRecords, laid: LaidRuns) -> CableMass:
    """Return what the conductors weigh; insulation and screens come on top and are not known."""
    runs = laid.by_label
    metal, unknown = 0.0, [run.label for run in records.runs if run.label not in runs]
    for run in runs.values():
        if run.length is None or any(core.open_length for core in run.cores):
            unknown.append(run.label)
            continue
        metal += sum(core.conductor.mass * (core.length or run.length) for core in run.cores)
    return CableMass(metal=metal, unknown=tuple(unknown))
