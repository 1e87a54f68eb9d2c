"""What whoever opens a panel may know without an account: nothing of a person, nothing private.

Read by the page behind a panel's code, by its copy on a web space, and by the code on paper. It
names what it takes from the records field by field: what a record gains later is not shown until
somebody has thought about it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.design.job.panels import PanelResult, work_out_panels
from jobs.design.records.records import JobRecords
from jobs.models import Channel, EquipmentItem, Fuse, Panel, PanelContent, Photo, PowerNode, Run

HIGH_VOLTAGE = gettext_lazy(
    "High-voltage car: orange cables are never cut, tapped, bundled with or drilled "
    "near. Work at or near them is for people qualified for it."
)


@dataclass(frozen=True, kw_only=True)
class FuseThere:
    """A fuse, whose it is and where it sits."""

    run: str
    fuse: Fuse
    place: str
    distance: float | None
    at_source: bool


@dataclass(frozen=True, kw_only=True)
class RunThere:
    """A run behind the panel: its label, what it carries, what it looks like, how it is fused."""

    run: Run
    way: str
    follows_loom: bool
    fuses: Sequence[FuseThere]

    @property
    def colours(self) -> str:
        """The colours of its cores."""
        return " / ".join(c for c in (self.run.colour, self.run.return_colour) if c)

    @property
    def wants_fuse(self) -> bool:
        """Whether what it carries comes from a battery: of others none is missed."""
        return self.run.kind in {Run.Kind.POWER, Run.Kind.CONTROL}


@dataclass(frozen=True, kw_only=True)
class ThingThere:
    """Equipment, a factory part or something in words, and how it is fixed."""

    what: str
    fixing: str
    fate: str = ""


@dataclass(frozen=True, kw_only=True)
class PanelPage:
    """One panel."""

    panel: Panel
    car: str
    job: str  # what to name on the telephone
    high_voltage: bool | None
    airbag_procedure: str
    sources: Sequence[str]
    main_fuses: Sequence[FuseThere]  # where current can come from
    things: Sequence[ThingThere]
    factory: Sequence[ThingThere]
    hides_more: bool
    runs: Sequence[RunThere]
    photos: Sequence[Photo]
    damping: Sequence[str]

    @property
    def high_voltage_words(self) -> str:
        """What is said first of a car with orange cables."""
        return str(HIGH_VOLTAGE)

    def with_photos(self, photos: Sequence[Photo]) -> PanelPage:
        """Return the page with these photos only."""
        return replace(self, photos=photos)


def work_out_panel_pages(records: JobRecords) -> list[PanelPage]:
    """Return every panel of a job as anybody may see it."""
    fuses = [fuse for run in records.runs for fuse in _fuses(run)]
    return [_page(records, result, fuses) for result in work_out_panels(records)]


def _page(records: JobRecords, result: PanelResult, fuses: Sequence[FuseThere]) -> PanelPage:
    vehicle = records.job.vehicle
    shown = [row for row in result.contents if not _hidden(row.equipment, row.private)]
    return PanelPage(
        panel=result.panel,
        car=f"{vehicle.maker} {vehicle.model}",
        job=records.job.code,
        high_voltage=vehicle.has_high_voltage if vehicle.energy else None,
        airbag_procedure=vehicle.airbag_procedure.strip(),
        sources=[_source(node) for node in records.nodes if node.is_source],
        main_fuses=[fuse for fuse in fuses if fuse.at_source],
        things=[ThingThere(what=row.what, fixing=row.fixing) for row in shown if not _fate(row)],
        factory=[
            ThingThere(what=row.what, fixing=row.fixing, fate=_fate(row))
            for row in shown
            if _fate(row)
        ],
        hides_more=len(shown) < len(result.contents),
        runs=_runs(result, fuses),
        photos=[photo for photo in result.photos if photo.is_for_everybody],
        damping=[str(layer) for layer in result.damping],
    )


def _fate(row: PanelContent) -> str:
    """What became of a factory part, empty for what is not of the factory."""
    if row.equipment is not None or row.factory_part is None:
        return ""
    return row.factory_part.get_fate_display() or _("not decided")


def _hidden(item: EquipmentItem | None, private: bool = False) -> bool:
    return private or (item is not None and item.private)


def _ask() -> str:
    return _("ask the workshop")


def _source(node: PowerNode) -> str:
    """It has to be isolated, so it is named; what is private is a source all the same."""
    if _hidden(node.equipment):
        return _("a further source: ask the workshop")
    return f"{node.name} ({node.place})" if node.place else node.name


def _fuses(run: Run) -> list[FuseThere]:
    ends = (
        (run.fuse, run.start, run.fuse_distance),
        (run.end_fuse, run.end, run.end_fuse_distance),
    )
    return [
        FuseThere(
            run=run.label,
            fuse=fuse,
            place=_place(node),
            distance=distance,
            at_source=node is not None and node.is_source,
        )
        for fuse, node, distance in ends
        if fuse is not None
    ]


def _place(node: PowerNode | None) -> str:
    if node is None:
        return _("place not recorded")
    if _hidden(node.equipment):
        return _ask()
    return f"{node.name}, {node.place}" if node.place else node.name


def _runs(result: PanelResult, fuses: Sequence[FuseThere]) -> list[RunThere]:
    return [
        RunThere(
            run=passing.run,
            way=_way(passing.run),
            follows_loom=passing.stretch.follows_loom,
            fuses=[fuse for fuse in fuses if fuse.run == passing.run.label],
        )
        for passing in result.runs
    ]


def _way(run: Run) -> str:
    """Where a run leads; of one that serves something private neither end is told."""
    nodes = [node.equipment for node in (run.start, run.end) if node is not None]
    if any(_hidden(item) for item in (*nodes, *run.woken, *_of_channel(run.channel))):
        return _ask()
    unknown = _("not recorded")
    return f"{run.goes_from or unknown} → {run.goes_to or unknown}"


def _of_channel(channel: Channel | None) -> list[EquipmentItem | None]:
    return [channel.processor, channel.amplifier, channel.speaker] if channel is not None else []
