"""A job with everything that hangs on it, read in a fixed number of queries."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from copy import copy
from dataclasses import dataclass, fields, replace
from typing import Any, Self, TypeVar

from django.db.models import Prefetch

from jobs.design.records.as_built import parts_as_built, runs_as_built
from jobs.models import (
    Amplifier,
    AmplifierRating,
    BayNote,
    Box,
    BoxAsBuilt,
    BoxSweep,
    CabinCurve,
    CarAnswer,
    Channel,
    Conductor,
    Decision,
    DriverSweep,
    EquipmentItem,
    FactoryAsBuilt,
    FactoryPart,
    Fixing,
    Fuse,
    GateSign,
    GroundPoint,
    HandOverRelease,
    Holder,
    IssuedSheet,
    Job,
    LoomJoin,
    Measurement,
    Offcut,
    Panel,
    PanelClosing,
    PanelContent,
    PanelStep,
    Part,
    Photo,
    PowerNode,
    PriceLine,
    Record,
    Ring,
    Run,
    RunAsBuilt,
    SheetMaterial,
    TaxRate,
    Terminal,
    TrimPanel,
    WoodStep,
    Workshop,
)

B = TypeVar("B", BoxSweep, BoxAsBuilt)


@dataclass(frozen=True, kw_only=True)
class JobRecords:
    """The rows of one job, linked to each other in memory."""

    job: Job
    equipment: Sequence[EquipmentItem]
    amplifiers: dict[int, Amplifier]
    factory_parts: Sequence[FactoryPart]
    parts_as_built: Sequence[FactoryAsBuilt]
    sweeps: Sequence[DriverSweep]
    channels: Sequence[Channel]
    boxes: Sequence[Box]
    box_sweeps: Sequence[BoxSweep]
    boxes_as_built: Sequence[BoxAsBuilt]
    rings: Sequence[Ring]
    trim_panels: Sequence[TrimPanel]
    wood_steps: Sequence[WoodStep]
    # Every sheet the workshop buys: a side may be of another thickness than its box.
    sheet_materials: Sequence[SheetMaterial]
    # What the workshop keeps of earlier sheets, whichever job they were cut for.
    offcuts: Sequence[Offcut]
    price_lines: Sequence[PriceLine]
    # Of the workshop, from whichever day on.
    tax_rates: Sequence[TaxRate]
    workshop: Workshop
    nodes: Sequence[PowerNode]
    # As they lie in the car; what was designed stands with each that was built otherwise.
    runs: Sequence[Run]
    runs_as_built: Sequence[RunAsBuilt]
    grounds: Sequence[GroundPoint]
    joins: Sequence[LoomJoin]
    panels: Sequence[Panel]
    fixings: Sequence[Fixing]
    steps: Sequence[PanelStep]
    contents: Sequence[PanelContent]
    photos: Sequence[Photo]
    measurements: Sequence[Measurement]
    closings: Sequence[PanelClosing]
    gate_signs: Sequence[GateSign]
    car_answers: Sequence[CarAnswer]
    releases: Sequence[HandOverRelease]
    notes: Sequence[BayNote]
    # Of the car, newest first, from whichever job; the columns themselves are read when needed.
    cabin_curves: Sequence[CabinCurve]
    decisions: Sequence[Decision]
    issued: Sequence[IssuedSheet]

    def with_unsaved(self, row: Record) -> Self:
        """Return the job as if this row had been saved."""
        for field in fields(self):
            rows = getattr(self, field.name)
            if field.name in _LISTS and isinstance(row, _LISTS[field.name]):
                kept = [row if other.pk == row.pk else other for other in rows]
                if row.pk is None:
                    kept.append(row)
                changed: dict[str, Any] = {field.name: kept}
                if isinstance(row, PowerNode | GroundPoint) and row.pk is not None:
                    changed["runs"] = [_joined(run, row) for run in self.runs]
                if isinstance(row, RunAsBuilt):
                    panels = {panel.pk: panel for panel in self.panels}
                    built = [other for other in kept if isinstance(other, RunAsBuilt)]
                    changed["runs"] = runs_as_built(self.runs, built, panels)
                if isinstance(row, FactoryAsBuilt):
                    parts = [other for other in kept if isinstance(other, FactoryAsBuilt)]
                    changed["factory_parts"] = parts_as_built(self.factory_parts, parts)
                return replace(self, **changed)
        message = f"{type(row).__name__} is no row of a job's design"
        raise TypeError(message)


_LISTS: dict[str, type[Record]] = {
    "boxes": Box,
    "rings": Ring,
    "trim_panels": TrimPanel,
    "nodes": PowerNode,
    "runs": Run,
    "runs_as_built": RunAsBuilt,
    "parts_as_built": FactoryAsBuilt,
    "grounds": GroundPoint,
    "joins": LoomJoin,
}

_PART = (
    "part__driver",
    "part__amplifier",
    "part__processor",
    "part__holder",
)


def load(job: Job) -> JobRecords:
    """Read a job: the same number of queries however many rows it has."""
    equipment = list(job.equipmentitems.select_related(*_PART))
    by_id: dict[Any, EquipmentItem] = {item.pk: item for item in equipment}
    amplifier_ids = [item.part_id for item in equipment]
    amplifiers = {
        amplifier.pk: amplifier
        for amplifier in Amplifier.objects.filter(pk__in=amplifier_ids).prefetch_related(
            Prefetch("ratings", AmplifierRating.objects.all())
        )
    }
    changed_parts = list(job.factoryasbuilts.select_related("done_by"))
    factory = parts_as_built(job.factory_parts.all(), changed_parts)
    factory_by_id = {part.pk: part for part in factory}
    # A sweep of equipment that was removed waits for it to come back.
    sweeps = [sweep for sweep in job.driversweeps.all() if sweep.item_id in by_id]
    for sweep in sweeps:
        _link(sweep, "item", by_id)
    channels = list(job.channels.all())
    for channel in channels:
        _link(channel, "processor", by_id)
        _link(channel, "amplifier", by_id)
        _link(channel, "speaker", by_id)
        _link(channel, "factory_speaker", factory_by_id)
    channel_by_id = {channel.pk: channel for channel in channels}
    boxes = list(job.boxes.prefetch_related("corners", "obstacles", "braces", "sides"))
    for box in boxes:
        _link(box, "driver", by_id)
        _link(box, "radiator", by_id)
        _link(box, "channel", channel_by_id)
    box_by_id = {box.pk: box for box in boxes}
    box_sweeps = _of_boxes(job.boxsweeps.all(), box_by_id)
    boxes_as_built = _of_boxes(job.boxasbuilts.all(), box_by_id)
    rings = list(job.rings.all())
    for ring in rings:
        _link(ring, "driver", by_id)
    trim_panels = list(job.trim_panels.prefetch_related("cut_outs", "corners"))
    for trim in trim_panels:
        _link(trim, "box", box_by_id)
    nodes = list(job.powernodes.all())
    for node in nodes:
        _link(node, "equipment", by_id)
    node_by_id = {node.pk: node for node in nodes}
    panels = list(job.panels.select_related("empty_by", "learnt_from__consultant"))
    panel_by_id = {panel.pk: panel for panel in panels}
    grounds = list(job.groundpoints.all())
    for ground in grounds:
        _link(ground, "panel", panel_by_id)
    ground_by_id = {ground.pk: ground for ground in grounds}
    runs = list(job.runs.prefetch_related("stretches", "wakes"))
    for run in runs:
        _link_run(run, node_by_id, channel_by_id, ground_by_id, panel_by_id)
        run.typed_wakes = [by_id[item.pk] for item in run.wakes.all() if item.pk in by_id]
    changed_runs = list(job.runasbuilts.select_related("done_by"))
    _link_parts([*boxes, *rings, *trim_panels, *grounds, *runs, *changed_runs])
    runs = runs_as_built(runs, changed_runs, panel_by_id)
    joins = _joins(job, runs, panel_by_id)
    photos = list(job.photos.select_related("taken_by"))
    contents = list(job.panelcontents.all())
    _name_by_panel([*photos, *contents], panel_by_id)
    for content in contents:
        _link(content, "equipment", by_id)
        _link(content, "factory_part", factory_by_id)
        _link(content, "box", box_by_id)
    return JobRecords(
        job=job,
        equipment=equipment,
        amplifiers=amplifiers,
        factory_parts=factory,
        parts_as_built=changed_parts,
        sweeps=sweeps,
        channels=channels,
        boxes=boxes,
        box_sweeps=box_sweeps,
        boxes_as_built=boxes_as_built,
        rings=rings,
        trim_panels=trim_panels,
        wood_steps=list(job.wood_steps.select_related("done_by")),
        sheet_materials=list(SheetMaterial.objects.all()),
        offcuts=list(Offcut.objects.select_related("material")),
        price_lines=list(job.price_lines.all()),
        tax_rates=list(TaxRate.objects.all()),
        workshop=Workshop.current(),
        nodes=nodes,
        runs=runs,
        runs_as_built=changed_runs,
        grounds=grounds,
        joins=joins,
        panels=panels,
        fixings=list(job.fixings.all()),
        steps=list(job.panelsteps.select_related("done_by")),
        contents=contents,
        photos=photos,
        measurements=list(job.measurements.select_related("measured_by")),
        closings=list(job.panelclosings.select_related("closed_by", "reopened_by")),
        gate_signs=list(job.gatesigns.select_related("signed_by")),
        car_answers=list(job.caranswers.select_related("written_by")),
        releases=list(job.handoverreleases.select_related("released_by")),
        notes=list(job.baynotes.select_related("written_by", "fixing")),
        cabin_curves=list(CabinCurve.of(job.vehicle).defer("content").select_related("job")),
        decisions=list(job.decisions.select_related("decided_by")),
        issued=list(job.issued_sheets.defer("pdf", "data").select_related("issued_by")),
    )


# What a row of a job may take from the catalogue, but for equipment.
_PARTS: tuple[type[Part], ...] = (Conductor, Terminal, Fuse, Holder, SheetMaterial)

_ENDS: dict[type[Record], tuple[str, str]] = {
    PowerNode: ("start", "end"),
    GroundPoint: ("return_start", "return_end"),
}


def _joined(run: Run, node: PowerNode | GroundPoint) -> Run:
    """Return the run with what is typed at its ends; the run as read stays as it is."""
    ends = [name for name in _ENDS[type(node)] if getattr(run, f"{name}_id") == node.pk]
    joined = copy(run) if ends else run
    for name in ends:
        setattr(joined, name, node)
    return joined


def _of_boxes(rows: Iterable[B], boxes: Any) -> list[B]:
    """What was measured on a box; of one that was removed it waits for that to come back."""
    there = [row for row in rows if row.box_id in boxes]
    for row in there:
        _link(row, "box", boxes)
    return there


def _name_by_panel(rows: Sequence[Photo | PanelContent], panels: dict[int, Panel]) -> None:
    """Link what bears the name of its panel; of a removed one it waits for that to come back."""
    for row in rows:
        if row.panel_id in panels:
            row.panel = panels[row.panel_id]


def _joins(job: Job, runs: Sequence[Run], panels: Any) -> list[LoomJoin]:
    joins = list(job.loomjoins.all())
    by_id = {run.pk: run for run in runs}
    for join in joins:
        _link(join, "run", by_id)
        _link(join, "panel", panels)
    return joins


def _link_run(run: Run, nodes: Any, channels: Any, grounds: Any, panels: Any) -> None:
    _link(run, "start", nodes)
    _link(run, "end", nodes)
    _link(run, "channel", channels)
    _link(run, "return_start", grounds)
    _link(run, "return_end", grounds)
    for stretch in run.stretches.all():
        _link(stretch, "panel", panels)


def _link_parts(rows: Sequence[Record]) -> None:
    """Point rows at what they take from the catalogue, removed or not: a query per kind of part.

    Joined to each row instead, a run alone brought eighteen tables with it.
    """
    pointing: dict[type[Part], list[tuple[Record, str, int]]] = {model: [] for model in _PARTS}
    for row in rows:
        for field in row._meta.concrete_fields:
            key = getattr(row, field.attname)
            if field.related_model in pointing and key is not None:
                pointing[field.related_model].append((row, field.name, key))
    for model, places in pointing.items():
        parts = model.with_removed.in_bulk({key for _row, _name, key in places})
        for row, name, key in places:
            setattr(row, name, parts[key])


def _link(row: Any, name: str, rows: dict[Any, Any]) -> None:
    """Point a foreign key at the row already read; a removed row is nobody's."""
    setattr(row, name, rows.get(getattr(row, f"{name}_id")))
