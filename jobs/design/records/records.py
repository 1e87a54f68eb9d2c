"""A job with everything that hangs on it, read in a fixed number of queries."""

from __future__ import annotations

from collections.abc import Sequence
from copy import copy
from dataclasses import dataclass, fields, replace
from typing import Any

from django.db.models import Model, prefetch_related_objects

from jobs.design.records.as_built import (
    Built,
    Difference,
    built_otherwise,
    parts_as_built,
    runs_as_built,
)
from jobs.design.records.decisions import decisions_of
from jobs.design.records.linking import (
    link,
    link_run,
    link_shared,
    name_by_panel,
    of_boxes,
    of_channels,
)
from jobs.design.records.prepared import (
    Later,
    hang,
    issued_of,
    offcuts,
    rows_of,
    sheet_materials,
    tax_rates,
    woken_by,
)
from jobs.design.records.reading import (
    amplifiers_of,
    boxes_of,
    channels_of,
    equipment_of,
    processor_files_of,
    sweeps_of,
)
from jobs.models import (
    Amplifier,
    BayNote,
    Box,
    BoxAsBuilt,
    BoxSweep,
    CabinCurve,
    CableLot,
    CarAnswer,
    Channel,
    ChannelCurve,
    ChannelSetting,
    DampingLayer,
    Decision,
    DriverSweep,
    EquipmentItem,
    FactoryAsBuilt,
    FactoryPart,
    Fixing,
    GateSign,
    GroundPoint,
    Intake,
    IntakeMark,
    IssuedSheet,
    ItemAsBuilt,
    Job,
    LoomJoin,
    Measurement,
    Offcut,
    Offer,
    Panel,
    PanelClosing,
    PanelContent,
    PanelStep,
    Payment,
    Photo,
    PhotoMark,
    PowerNode,
    PriceLine,
    ProcessorFile,
    Record,
    Ring,
    Run,
    RunAsBuilt,
    ServiceVisit,
    SheetMaterial,
    StageRelease,
    Stretch,
    TargetCurve,
    TaxRate,
    TrimBeneath,
    TrimCorner,
    TrimHatch,
    TrimMount,
    TrimOpening,
    TrimPanel,
    TrimStation,
    TrimSupport,
    WoodStep,
    Workshop,
    WorkTime,
)


@dataclass(frozen=True, kw_only=True)
class JobRecords:
    """The rows of one job, linked to each other in memory."""

    job: Job
    equipment: Sequence[EquipmentItem]
    amplifiers: dict[int, Amplifier]
    factory_parts: Sequence[FactoryPart]
    parts_as_built: Sequence[FactoryAsBuilt]
    items_as_built: Sequence[ItemAsBuilt]
    sweeps: Sequence[DriverSweep]
    channels: Sequence[Channel]
    channel_curves: Sequence[ChannelCurve]
    channel_settings: Sequence[ChannelSetting]
    target_curves: Sequence[TargetCurve]
    processor_files: Sequence[ProcessorFile]
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
    damping: Sequence[DampingLayer]
    steps: Sequence[PanelStep]
    contents: Sequence[PanelContent]
    photos: Sequence[Photo]
    measurements: Sequence[Measurement]
    closings: Sequence[PanelClosing]
    gate_signs: Sequence[GateSign]
    car_answers: Sequence[CarAnswer]
    releases: Sequence[StageRelease]
    notes: Sequence[BayNote]
    # Of the car, newest first, from whichever job; the columns themselves are read when needed.
    cabin_curves: Sequence[CabinCurve]
    decisions: Sequence[Decision]
    issued: Sequence[IssuedSheet]
    # Frozen for the customer, the newest last.
    offers: Sequence[Offer]
    payments: Sequence[Payment]
    work_times: Sequence[WorkTime]
    # At most one, and what was marked on the car.
    intakes: Sequence[Intake]
    intake_marks: Sequence[IntakeMark]
    # After it has left, the newest first; and which lots its cables came from.
    visits: Sequence[ServiceVisit]
    cable_lots: Sequence[CableLot]

    def with_unsaved(self, row: Record) -> JobRecords:
        """Return the job as if this row had been saved."""
        if isinstance(row, ItemAsBuilt):
            return load(self.job, fitted=row)
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


def load(job: Job, *, fitted: ItemAsBuilt | None = None) -> JobRecords:
    """Read a job: the same number of queries however many rows it has.

    `fitted` says of one piece of equipment what was fitted, in place of what is saved.
    """
    equipment, changed_items = equipment_of(job, fitted)
    by_id: dict[Any, EquipmentItem] = {item.pk: item for item in equipment}
    changed_parts = rows_of(FactoryAsBuilt, job)
    factory = parts_as_built(rows_of(FactoryPart, job), changed_parts)
    factory_by_id = {part.pk: part for part in factory}
    channels = channels_of(job, by_id, factory_by_id)
    channel_by_id = {channel.pk: channel for channel in channels}
    boxes = boxes_of(job, by_id, channel_by_id)
    box_by_id = {box.pk: box for box in boxes}
    box_sweeps = of_boxes(rows_of(BoxSweep, job), box_by_id)
    boxes_as_built = of_boxes(rows_of(BoxAsBuilt, job), box_by_id)
    rings = rows_of(Ring, job)
    for ring in rings:
        link(ring, "driver", by_id)
        link(ring, "box", box_by_id)
    trim_panels = rows_of(TrimPanel, job)
    for model, name in ON_TRIM:
        hang(model, trim_panels, job, of="trim_panel", as_=name)
    for trim in trim_panels:
        link(trim, "box", box_by_id)
    nodes = rows_of(PowerNode, job)
    for node in nodes:
        link(node, "equipment", by_id)
    node_by_id = {node.pk: node for node in nodes}
    panels = rows_of(Panel, job)
    panel_by_id = {panel.pk: panel for panel in panels}
    grounds = rows_of(GroundPoint, job)
    for ground in grounds:
        link(ground, "panel", panel_by_id)
    ground_by_id = {ground.pk: ground for ground in grounds}
    runs = rows_of(Run, job)
    hang(Stretch, runs, job, of="run", as_="stretches")
    woken = {(row.run_id, row.equipmentitem_id) for row in woken_by(job.pk)}
    for run in runs:
        link_run(run, node_by_id, channel_by_id, ground_by_id, panel_by_id)
        run.typed_wakes = [item for item in equipment if (run.pk, item.pk) in woken]
    changed_runs = rows_of(RunAsBuilt, job)
    wood_steps, steps = rows_of(WoodStep, job), rows_of(PanelStep, job)
    measurements, closings = rows_of(Measurement, job), rows_of(PanelClosing, job)
    signs, answers = rows_of(GateSign, job), rows_of(CarAnswer, job)
    releases, decisions = rows_of(StageRelease, job), decisions_of(job)
    notes = rows_of(BayNote, job)
    photos, damping = rows_of(Photo, job), rows_of(DampingLayer, job)
    hang(PhotoMark, photos, job, of="photo", as_="drawn")
    materials = sheet_materials()
    link_shared(
        *(boxes, rings, trim_panels, grounds, runs, changed_runs, changed_parts, panels, photos),
        *(
            damping,
            wood_steps,
            steps,
            measurements,
            closings,
            signs,
            answers,
            releases,
            notes,
            decisions,
        ),
        at_hand=materials,
    )
    taught = [panel for panel in panels if panel.learnt_from_id]
    prefetch_related_objects(taught, "learnt_from__consultant")
    runs = runs_as_built(runs, changed_runs, panel_by_id)
    joins = _joins(job, runs, panel_by_id)
    contents = rows_of(PanelContent, job)
    name_by_panel([*photos, *contents], panel_by_id)
    for content in contents:
        link(content, "equipment", by_id)
        link(content, "factory_part", factory_by_id)
        link(content, "box", box_by_id)
    issued = issued_of(job.pk)
    return JobRecords(
        job=job,
        equipment=equipment,
        amplifiers=amplifiers_of(equipment),
        factory_parts=factory,
        parts_as_built=changed_parts,
        items_as_built=changed_items,
        sweeps=sweeps_of(job, by_id),
        channels=channels,
        channel_curves=of_channels(rows_of(ChannelCurve, job), channel_by_id),
        channel_settings=of_channels(rows_of(ChannelSetting, job), channel_by_id),
        target_curves=Later(lambda: rows_of(TargetCurve, job)),
        processor_files=Later(lambda: processor_files_of(job, by_id)),
        boxes=boxes,
        box_sweeps=box_sweeps,
        boxes_as_built=boxes_as_built,
        rings=rings,
        trim_panels=trim_panels,
        wood_steps=wood_steps,
        sheet_materials=materials,
        # Money, hours, offcuts and the cabin say nothing on most pages.
        offcuts=Later(offcuts),
        price_lines=Later(lambda: rows_of(PriceLine, job)),
        tax_rates=Later(tax_rates),
        workshop=Workshop.current(),
        nodes=nodes,
        runs=runs,
        runs_as_built=changed_runs,
        grounds=grounds,
        joins=joins,
        panels=panels,
        fixings=rows_of(Fixing, job),
        damping=damping,
        steps=steps,
        contents=contents,
        photos=photos,
        measurements=measurements,
        closings=closings,
        gate_signs=signs,
        car_answers=answers,
        releases=releases,
        notes=notes,
        cabin_curves=Later(
            lambda: list(CabinCurve.of(job.vehicle).defer("content").select_related("job"))
        ),
        decisions=decisions,
        issued=issued,
        offers=_offers(job, issued),
        payments=rows_of(Payment, job),
        work_times=Later(lambda: rows_of(WorkTime, job)),
        intakes=Later(lambda: rows_of(Intake, job)),
        intake_marks=Later(lambda: rows_of(IntakeMark, job)),
        visits=Later(lambda: rows_of(ServiceVisit, job)),
        cable_lots=Later(lambda: rows_of(CableLot, job)),
    )


def otherwise(records: JobRecords) -> list[tuple[Built, Sequence[Difference]]]:
    """Return everything of a job that is not as it was designed, with what differs."""
    return built_otherwise(records.equipment, records.runs, records.factory_parts)


# What hangs on a trim panel, in rows of their own.
ON_TRIM: list[tuple[type[Model], str]] = [
    (TrimOpening, "cut_outs"),
    (TrimCorner, "corners"),
    (TrimStation, "offsets"),
    (TrimSupport, "props"),
    (TrimHatch, "lids"),
    (TrimMount, "mounted"),
    (TrimBeneath, "lying_under"),
]

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


def _joins(job: Job, runs: Sequence[Run], panels: Any) -> list[LoomJoin]:
    joins = rows_of(LoomJoin, job)
    by_id = {run.pk: run for run in runs}
    for join in joins:
        link(join, "run", by_id)
        link(join, "panel", panels)
    return joins


def _offers(job: Job, issued: Sequence[IssuedSheet]) -> list[Offer]:
    """What was frozen for the customer, each with its sheet."""
    offers = rows_of(Offer, job)
    by_id = {sheet.pk: sheet for sheet in issued}
    for offer in offers:
        offer.job = job
        link(offer, "sheet", by_id)
    return offers
