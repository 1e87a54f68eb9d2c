"""A whole job worked out: boxes, channels, power, panels, findings, and how far it has got."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any

from django.utils.translation import gettext as _

from jobs import money
from jobs.design.agreement.price import JobPrice, work_out_price
from jobs.design.box.box_as_built import BuiltBox, check_built, work_out_built
from jobs.design.box.boxes import BoxResult, wood_of, work_out_box
from jobs.design.box.channel_feed import NOTHING, feed_of
from jobs.design.box.coil import check_channel_coils
from jobs.design.box.finished_box import FinishedBox, work_out_finished
from jobs.design.box.last_saved import work_out_saved
from jobs.design.box.measured_driver import SweepResult, in_use, work_out_sweep
from jobs.design.job.damping import DampingOrder, check_damping, work_out_damping
from jobs.design.job.gates import Open
from jobs.design.job.held import check_held
from jobs.design.job.masses import Masses, check_masses, work_out_masses
from jobs.design.job.measurements import (
    Known,
    Measured,
    check_measurements,
    work_out_measurements,
)
from jobs.design.job.panel_page import HIGH_VOLTAGE
from jobs.design.job.panels import PanelResult, work_out_panels
from jobs.design.job.stages import State, state_of, still_open
from jobs.design.job.whereabouts import check_whereabouts
from jobs.design.job.wishes import check_wishes
from jobs.design.records.basis import rest_on_records
from jobs.design.records.findings import Finding, decided
from jobs.design.records.for_box import load_for_box
from jobs.design.records.linking import link
from jobs.design.records.pieces import with_numbers
from jobs.design.records.record_checks import check_records
from jobs.design.records.records import JobRecords, load
from jobs.design.setup.as_set import AsSet, as_set, check_as_set
from jobs.design.setup.plan import check_plan
from jobs.design.setup.starting import SetUp, work_out_setup
from jobs.design.setup.visits import check_heard, check_visits
from jobs.design.wiring.channels import ChannelResult, work_out_channels
from jobs.design.wiring.grounds import check_returns
from jobs.design.wiring.holders import check_holders
from jobs.design.wiring.power import PowerResult
from jobs.design.wiring.schedule import LaidRuns, check_runs, lay_runs
from jobs.design.wiring.sides import check_sides
from jobs.design.wiring.signals import work_out_signals
from jobs.design.wiring.supply import SupplyResult
from jobs.design.wood.cutting import check_machines
from jobs.design.wood.needed import check_needs
from jobs.design.wood.trim import TrimResult, work_out_trim
from jobs.models import Box, EquipmentItem, Job

__all__ = [
    "JobDesign",
    "State",
    "findings_at",
    "load",
    "load_for_box",
    "typed_beside_saved",
    "typed_box",
    "typed_price",
    "work_out",
]


@dataclass(frozen=True, kw_only=True)
class JobDesign:
    """Everything a page or a sheet may say about a job."""

    records: JobRecords
    sweeps: Sequence[SweepResult]
    boxes: Sequence[BoxResult]
    finished: Sequence[FinishedBox]
    built: Sequence[BuiltBox]
    trims: Sequence[TrimResult]
    channels: Sequence[ChannelResult]
    setup: SetUp
    as_set: Sequence[AsSet]
    power: PowerResult
    supply: SupplyResult
    laid: LaidRuns
    panels: Sequence[PanelResult]
    masses: Masses
    damping: Sequence[DampingOrder]
    measured: Sequence[Measured]
    findings: tuple[Finding, ...]

    @property
    def job(self) -> Job:
        """The job itself."""
        return self.records.job

    @cached_property
    def open_stops(self) -> list[Finding]:
        """What must not be fitted so."""
        return [
            finding for finding in self.findings if finding.severity == "stop" and finding.is_open
        ]

    @cached_property
    def open_looks(self) -> list[Finding]:
        """What a person still has to decide."""
        return [
            finding for finding in self.findings if finding.severity == "look" and finding.is_open
        ]

    @property
    def chosen_boxes(self) -> list[BoxResult]:
        """The boxes that are built."""
        return [box for box in self.boxes if box.box.chosen]

    def saved_box(self, pk: int) -> BoxResult | None:
        """The result of the box with this key."""
        return next((box for box in self.boxes if box.box.pk == pk), None)

    def findings_of(self, section: str) -> list[Finding]:
        """Findings that are cured on one page."""
        return [finding for finding in self.findings if finding.section == section]

    @cached_property
    def price(self) -> JobPrice:
        """What it costs; worked out for those who ask, since not everybody may see it."""
        return work_out_price(self.records, self.boxes, self.trims, self.laid)

    @property
    def numbered(self) -> list[tuple[EquipmentItem, str]]:
        """What goes in, with the serial numbers of its pieces."""
        return with_numbers(self.records)

    @property
    def cautions(self) -> list[str]:
        """What a person in the bay must know before the first panel comes off."""
        return cautions(self)

    @cached_property
    def still_open(self) -> list[Open]:
        """What every gate between the stages lacks."""
        return still_open(self)

    def state_of(self, step: str) -> State:
        """How one step of the strip stands."""
        if step == "price":
            return _state_of_price(self.price)
        return state_of(step, self, self.still_open)


def _state_of_price(price: JobPrice) -> State:
    """The total is said whatever it lacks; with the budget beside it on the page."""
    total = money.show(price.total, price.currency)
    if price.missing:
        return State(state="missing", says=_("at least %(total)s") % {"total": total})
    return State(state="done" if price.over_budget is None else "look", says=total)


def work_out(records: JobRecords) -> JobDesign:
    """Work a job out from its records; nothing here touches the database."""
    known = Known.of(records)
    channels, power, supply = known.channels, known.power, known.supply
    sweeps = [work_out_sweep(record) for record in records.sweeps]
    boxes = _boxes(records.boxes, channels, sweeps)
    by_box = {result.box.pk: result for result in boxes}
    finished = [
        work_out_finished(record, by_box[record.box_id])
        for record in records.box_sweeps
        if record.box_id in by_box
    ]
    built = work_out_built(
        records.boxes_as_built, boxes, lambda box: _boxes([box], channels, sweeps)[0]
    )
    trims = work_out_trim(records, boxes)
    boxed = {box.channel_id for box in records.boxes if box.channel_id}
    setup = work_out_setup(records, channels)
    settings = as_set(setup, records.channel_settings)
    panels = work_out_panels(records)
    laid = lay_runs(records)
    damping = work_out_damping(records)
    masses = work_out_masses(records, boxes, trims, laid, damping)
    measured = work_out_measurements(known)
    findings = [
        *check_records(records),
        *check_whereabouts(records, panels),
        *check_damping(damping),
        *(finding for sweep in sweeps for finding in sweep.findings),
        *(finding for box in boxes if box.box.chosen for finding in box.findings),
        *(finding for box in finished for finding in box.findings),
        *check_built(built),
        *(finding for channel in channels for finding in channel.findings),
        *check_channel_coils(channels, boxed),
        *check_plan(records, channels, boxed),
        *setup.findings,
        *check_as_set(settings),
        *check_visits(records.channel_curves),
        *check_heard(records.channel_curves),
        *check_machines(records, boxes, trims),
        *check_needs(records, boxes, trims),
        *check_held(records),
        *check_masses(records, masses),
        *check_wishes(records, boxes, masses, supply),
        *power.findings,
        *supply.findings,
        *check_runs(records, laid),
        *check_returns(records, power),
        *check_holders(records, power),
        *check_sides(records),
        *check_measurements(measured),
        *work_out_signals(records, power).findings,
    ]
    return JobDesign(
        records=records,
        sweeps=sweeps,
        boxes=boxes,
        finished=finished,
        built=built,
        trims=trims,
        channels=channels,
        setup=setup,
        as_set=settings,
        power=power,
        supply=supply,
        laid=laid,
        panels=panels,
        masses=masses,
        damping=damping,
        measured=measured,
        findings=decided(rest_on_records(findings, records), records.decisions),
    )


def typed_box(records: JobRecords, box: Box) -> BoxResult:
    """Work out one box of a job: whoever types it does not wait for the rest."""
    return typed_beside_saved(records, box, None)[0]


def typed_beside_saved(
    records: JobRecords, box: Box, saved: Box | None
) -> tuple[BoxResult, BoxResult | None]:
    """Work out one box of a job, and remember what it came to as it was saved.

    What it names is looked up among the job's own rows: they know what was fitted instead.
    """
    items: dict[Any, EquipmentItem] = {item.pk: item for item in records.equipment}
    link(box, "driver", items)
    link(box, "radiator", items)
    link(box, "channel", {channel.pk: channel for channel in records.channels})
    sweeps = [work_out_sweep(record) for record in records.sweeps]
    channels = work_out_channels(_feeding(records, [box, saved] if saved else [box]))
    (result,) = _boxes([box], channels, sweeps)
    if saved is None:
        return result, None
    return result, _boxes([saved], channels, sweeps, work_out=work_out_saved)[0]


def _feeding(records: JobRecords, boxes: Sequence[Box]) -> JobRecords:
    """Leave of the channel plan what feeds these boxes, or plays their drivers."""
    feeding, played = (
        {getattr(box, name) for box in boxes} for name in ("channel_id", "driver_id")
    )
    channels = [
        channel
        for channel in records.channels
        if channel.pk in feeding or (channel.speaker_id and channel.speaker_id in played)
    ]
    return replace(records, channels=channels)


def typed_price(records: JobRecords) -> JobPrice:
    """Add a job up with a row that is being typed: of its boxes the wood counts, not the sound."""
    boxes = [wood_of(box) for box in records.boxes if box.chosen]
    trims = work_out_trim(records, boxes)
    return work_out_price(records, boxes, trims, lay_runs(records))


def findings_at(records: JobRecords, result: BoxResult, *, sure: bool = True) -> list[Finding]:
    """Findings about one box, a candidate's too; unless sure, without what takes longest to find.

    That is what the spread of builds and the standing waves say.
    """
    mine = result.findings if sure else result.checked
    findings = [*mine, *check_machines(records, [result], ())]
    return list(decided(rest_on_records(findings, records), records.decisions))


def _boxes(
    boxes: Sequence[Box],
    channels: Sequence[ChannelResult],
    sweeps: Sequence[SweepResult],
    *,
    work_out: Callable[..., BoxResult] = work_out_box,
) -> list[BoxResult]:
    feeds = {channel.channel.pk: feed_of(channel) for channel in channels}
    plays = {
        channel.channel.speaker_id: channel.channel
        for channel in reversed(channels)
        if channel.channel.speaker_id
    }
    measured = in_use(sweeps)
    return [
        work_out(
            box,
            feeds.get(box.channel_id or 0, NOTHING),
            measured,
            proposed=plays.get(box.driver_id or 0),
        )
        for box in boxes
    ]


def cautions(design: JobDesign) -> list[str]:
    """List the cautions of a job, the most dangerous first; they defer, they do not instruct."""
    vehicle = design.job.vehicle
    sentences = []
    if vehicle.has_high_voltage:
        sentences.append(str(HIGH_VOLTAGE))
    if any(panel.panel.airbag_near for panel in design.panels):
        procedure = vehicle.airbag_procedure.strip()
        sentences.append(
            _("Airbags: follow the vehicle maker's procedure and waiting time: %(text)s")
            % {"text": procedure or _("NOT ENTERED. Do not open these panels.")}
        )
    sentences += [
        _(
            "Battery: disconnect the negative lead first, reconnect it last, after the vehicle "
            "maker's manual. Keep every other source of the power tree isolated too."
        ),
        _("Before drilling: look at both sides for fuel, brake, airbag and high-voltage lines."),
        _("Fuses: never fit a larger one. A second blow means a fault to be found."),
    ]
    if design.boxes:
        sentences.append(
            _(
                "Wood dust harms lungs: extraction and a mask when sawing. Limits are set by local "
                "law (EU: 2 mg/m³ hardwood dust, Directive 2004/37/EC as amended by 2017/2398)."
            )
        )
    return sentences
