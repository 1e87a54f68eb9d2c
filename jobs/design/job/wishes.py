"""The plan held against what was asked for: litres, millimetres, kilograms, amperes, holes, parts.

Budget and time with the engine off have checks of their own; what was answered in words is asked
about when the job is agreed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from jobs.design.box.boxes import BoxResult
from jobs.design.job.masses import Masses
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.design.wiring.supply import SupplyResult
from jobs.models import FactoryPart, Job


def check_wishes(
    records: JobRecords, boxes: Sequence[BoxResult], masses: Masses, supply: SupplyResult
) -> Iterator[Finding]:
    """Say where the plan breaks a limit of the brief, or where nobody can tell."""
    job = records.job
    built = [result for result in boxes if result.box.chosen]
    yield from _room(job, built)
    yield from _height(job, built)
    yield from _mass(job, masses)
    yield from _current(job, records, supply)
    if job.undrilled:
        for panel in records.panels:
            if panel.drilled:
                yield Finding(
                    code="drilled-against-wish", severity="look", section="panels",
                    about=about(panel), name=panel.name,
                )  # fmt: skip
    for part in records.factory_parts:
        if part.untouched and part.fate not in ("", FactoryPart.Fate.IN_USE):
            yield Finding(
                code="touched-against-wish", severity="look", section="car", about=about(part),
                name=str(part), value=part.fate, value_said=part.get_fate_display(),
            )  # fmt: skip


def _finding(job: Job, code: str, section: str, value: float, limit: float, unit: str) -> Finding:
    return Finding(
        code=code, severity="look", section=section, about=about(job), name=job.code,
        value=value, limit=limit, unit=unit,
    )  # fmt: skip


def _unknown(job: Job, code: str, section: str, things: Sequence[tuple[str, str]]) -> Finding:
    """A limit that cannot be judged; it rests on the keys of what is not known."""
    return Finding(
        code=code, severity="look", section=section, about=about(job), name=job.code,
        value=", ".join(key for key, _name in things) or None,
        value_said=", ".join(name for _key, name in things) or None,
    )  # fmt: skip


def _room(job: Job, built: Sequence[BoxResult]) -> Iterator[Finding]:
    """The room the wood takes, outside; what is known of it may be too much already."""
    if job.room_at_most is None:
        return
    volumes = [result.wood.carcass.outer_volume for result in built if result.wood]
    if sum(volumes) > job.room_at_most:
        yield _finding(job, "room-above-wish", "boxes", sum(volumes), job.room_at_most, "m³")
    elif undrawn := [(about(row.box).id, row.box.name) for row in built if not row.wood]:
        yield _unknown(job, "room-unknown", "boxes", undrawn)


def _height(job: Job, built: Sequence[BoxResult]) -> Iterator[Finding]:
    """Each box as it stands by its side view, wood included."""
    for result in built:
        if job.height_at_most is None or result.wood is None:
            continue
        heights = [y for _x, y in result.wood.carcass.profile.points]
        height = max(heights) - min(heights)
        if height > job.height_at_most:
            yield Finding(
                code="height-above-wish", severity="look", section="boxes",
                about=about(result.box), name=result.box.name,
                value=height, limit=job.height_at_most, unit="m",
            )  # fmt: skip


def _mass(job: Job, masses: Masses) -> Iterator[Finding]:
    if job.heavier_at_most is None:
        return
    if masses.net > job.heavier_at_most:
        yield _finding(job, "mass-above-wish", "equipment", masses.net, job.heavier_at_most, "kg")
    elif masses.unknown:
        unknown = [(row.key, row.name) for row in masses.rows if row.mass is None]
        yield _unknown(job, "mass-against-wish-unknown", "equipment", unknown)


def _current(job: Job, records: JobRecords, supply: SupplyResult) -> Iterator[Finding]:
    if job.current_at_most is None:
        return
    if supply.budget is None:
        if records.amplifiers:
            yield _unknown(job, "current-against-wish-unknown", "power", ())
    elif supply.budget.audio_average > job.current_at_most:
        drawn, limit = supply.budget.audio_average, job.current_at_most
        yield _finding(job, "current-above-wish", "power", drawn, limit, "A")
