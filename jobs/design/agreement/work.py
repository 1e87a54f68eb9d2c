"""The work of a job by the kind of work, in minutes: planned steps first, usual minutes else."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from django.utils.translation import ngettext

from acoustics.carcass.panels.gluing import glue_order
from jobs.design.agreement.lines import Group, Line, Unit
from jobs.design.box.boxes import BoxResult
from jobs.design.records.about import about
from jobs.design.records.records import JobRecords
from jobs.design.wood.trim import TrimResult
from jobs.models import WoodStep, WorkKind, Workshop

# Which rate a step of the wood shop falls under; curing is waiting, not work.
OF_STEP = {
    WoodStep.Kind.MOCK_UP: WorkKind.WOOD,
    WoodStep.Kind.CUT: WorkKind.WOOD,
    WoodStep.Kind.GLUE: WorkKind.WOOD,
    WoodStep.Kind.SEAL: WorkKind.WOOD,
    WoodStep.Kind.WRAP: WorkKind.COVERING,
    WoodStep.Kind.FIT: WorkKind.CAR,
}


@dataclass(frozen=True, kw_only=True)
class Task:
    """One piece of work; minutes that nobody said are unknown."""

    kind: str
    key: str
    name: str
    minutes: int | None


def rates(shop: Workshop) -> dict[str, Decimal | None]:
    """What an hour of each kind of work is sold for."""
    return {kind: getattr(shop, f"rate_{kind.value}") for kind in WorkKind}


def work_lines(tasks: Sequence[Task], shop: Workshop) -> list[Line]:
    """One line for each kind of work that is known in minutes."""
    by_kind: dict[str, list[Task]] = defaultdict(list)
    for task in tasks:
        by_kind[task.kind].append(task)
    hourly = rates(shop)
    return [
        Line(
            group=Group.WORK,
            key=f"work {kind.value}",
            name=str(kind.label),
            unit=Unit.HOUR,
            minutes=minutes,
            quantity=round(Decimal(minutes) / 60, 2),
            each=hourly[kind],
            cost_each=shop.hour_cost,
            currency=shop.currency,
            details=tuple(task.name for task in by_kind[kind] if task.minutes),
        )
        for kind in WorkKind
        if (minutes := sum(task.minutes or 0 for task in by_kind[kind]))
    ]


def work_out_tasks(
    records: JobRecords, boxes: Sequence[BoxResult], trims: Sequence[TrimResult]
) -> list[Task]:
    """List all work: wood, wiring, panels of the car, channels, and what was added by hand."""
    return [
        *_wood(records, boxes, trims),
        *_counted(records),
        *_steps_in_the_car(records),
        *(
            Task(kind=line.kind, key=about(line).id, name=line.text, minutes=line.minutes)
            for line in records.price_lines
            if line.is_work
        ),
    ]


def _wood(
    records: JobRecords, boxes: Sequence[BoxResult], trims: Sequence[TrimResult]
) -> Iterator[Task]:
    """Work on what is built; a box nobody planned steps for is cut and glued all the same."""
    shop = records.workshop
    for result in boxes:
        if not result.box.chosen or result.wood is None:
            continue
        parts = sum(part.quantity for part in result.wood.parts)
        joints = len(glue_order(result.wood.carcass))
        usual = {
            WoodStep.Kind.CUT: _times(parts, shop.minutes_cut),
            WoodStep.Kind.GLUE: _times(joints, shop.minutes_glue),
        }
        steps = [step for step in records.wood_steps if step.box_id == result.box.pk]
        yield from _of_steps(result.box.name, about(result.box).id, steps, usual)
    for trim in trims:
        if trim.piece is None:
            continue
        cuts = sum(piece.quantity for piece in trim.pieces) + len(trim.props)
        usual = {WoodStep.Kind.CUT: _times(cuts, shop.minutes_cut)}
        steps = [step for step in records.wood_steps if about(trim.record).id == _panel_of(step)]
        yield from _of_steps(trim.record.name, about(trim.record).id, steps, usual)


def _panel_of(step: WoodStep) -> str:
    return f"trimpanel {step.trim_panel_id}"


def _of_steps(
    name: str, key: str, steps: Sequence[WoodStep], usual: dict[WoodStep.Kind, int | None]
) -> Iterator[Task]:
    planned = [(step.kind, step.minutes, about(step).id) for step in steps]
    kinds = {kind for kind, _minutes, _key in planned}
    # What is always done to it is counted, whether somebody planned it or not.
    planned += [(kind, None, f"{key} {kind.value}") for kind in usual if kind not in kinds]
    for kind, minutes, step_key in planned:
        if kind == WoodStep.Kind.CURE:
            continue
        step_kind = WoodStep.Kind(kind)
        yield Task(
            kind=OF_STEP[step_kind],
            key=step_key,
            name=f"{name}: {step_kind.label}",
            minutes=usual.get(step_kind) if minutes is None else minutes,
        )


def _times(count: int, minutes: int | None) -> int | None:
    return None if minutes is None else count * minutes


def _counted(records: JobRecords) -> Iterator[Task]:
    """Runs, panels and channels: each takes its usual minutes."""
    shop = records.workshop
    runs, panels, channels = len(records.runs), len(records.panels), len(records.channels)
    counted = (
        (WorkKind.WIRING, "runs", runs, shop.minutes_run,
         ngettext("%(n)d run", "%(n)d runs", runs)),
        (WorkKind.CAR, "panels", panels, shop.minutes_panel,
         ngettext("%(n)d panel off and on again", "%(n)d panels off and on again", panels)),
        (WorkKind.SET_UP, "channels", channels, shop.minutes_channel,
         ngettext("%(n)d channel set up", "%(n)d channels set up", channels)),
    )  # fmt: skip
    for kind, key, number, minutes, words in counted:
        if number:
            yield Task(
                kind=kind, key=key, name=words % {"n": number}, minutes=_times(number, minutes)
            )


def _steps_in_the_car(records: JobRecords) -> Iterator[Task]:
    """Steps behind panels that take time of their own; the others go with their panel."""
    for step in records.steps:
        if step.minutes is not None:
            yield Task(
                kind=WorkKind.CAR, key=about(step).id, name=step.text.rstrip("."),
                minutes=step.minutes,
            )  # fmt: skip


__all__ = ["Task", "rates", "work_lines", "work_out_tasks"]
