"""Short ways to write the rows of a demo job down, each by the names people use."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.utils import timezone

from jobs.demo.catalogue import Parts
from jobs.design.job.held import may_be_loose
from jobs.models import (
    Box,
    Channel,
    DampingLayer,
    EquipmentItem,
    FactoryAsBuilt,
    FactoryPart,
    Fixing,
    GroundPoint,
    ItemAsBuilt,
    Job,
    LoomJoin,
    Measurement,
    Panel,
    PanelContent,
    PanelStep,
    PowerNode,
    Run,
    RunAsBuilt,
    Stretch,
    User,
)

# What an invented box is held with.
HELD_INTO = "4 × M8 with washers, existing threaded points of the floor cross member"
CARRIED_BY = "4 × M5 into the amplifier board"
# The name of a panel or place, alone or with the edge that is passed there.
Stop = str | tuple[str, str]


class Rows:
    """Makes rows of one job and remembers them by name."""

    def __init__(self, job: Job, parts: Parts) -> None:
        self.job, self.parts = job, parts
        self.items: dict[str, EquipmentItem] = {}
        self.channels: dict[str, Channel] = {}
        self.nodes: dict[str, PowerNode] = {}
        self.panels: dict[str, Panel] = {}
        self.grounds: dict[str, GroundPoint] = {}

    def item(self, part: str, place: str, quantity: int = 1, **more: Any) -> None:
        """Put a catalogue part on the equipment list, what is heavy on a board bolted down."""
        plain = self.parts[part]
        if may_be_loose(plain):
            carried = {"held_by": EquipmentItem.Held.CARRIED, "held_into": CARRIED_BY}
            more = carried | more
        self.items[part] = EquipmentItem.objects.create(
            job=self.job,
            part=plain.part_ptr if hasattr(plain, "part_ptr") else plain,
            place=place,
            quantity=quantity,
            **more,
        )

    def factory(self, place: str, kind: str, fate: str, kept_where: str = "") -> None:
        """Note a factory part and its fate."""
        FactoryPart.objects.create(
            job=self.job, place=place, kind=kind, fate=fate, kept_where=kept_where
        )

    def channel(self, name: str, source: str, **more: Any) -> None:
        """Add a channel; equipment is named by its short name."""
        for key in ("processor", "amplifier", "speaker"):
            if key in more:
                more[key] = self.items[more[key]]
        self.channels[name] = Channel.objects.create(
            job=self.job, name=name, source=source, position=len(self.channels) + 1, **more
        )

    def box(self, *, driver: str, material: str, channel: str = "", **more: Any) -> None:
        """Add a box."""
        Box.objects.create(
            job=self.job,
            driver=self.items[driver],
            material=self.parts[material],
            channel=self.channels.get(channel),
            **{"held_by": Box.Held.BRACKETS, "held_into": HELD_INTO} | more,
        )

    def panel(self, name: str, **more: Any) -> None:
        """Add a panel in the order it comes off."""
        known = {"drilled": False, "glass_near": False} | more
        self.panels[name] = Panel.objects.create(
            job=self.job, name=name, position=len(self.panels) + 1, **known
        )

    def behind(
        self, panel: str, *, equipment: str = "", factory: str = "", box: str = "", **more: Any
    ) -> None:
        """Note what is behind a panel, or elsewhere where it is none of the job's."""
        known = self.panels.get(panel)
        PanelContent.objects.create(
            job=self.job,
            panel=known,
            elsewhere="" if known else panel,
            equipment=self.items.get(equipment),
            box=Box.objects.filter(job=self.job, name=box).first() if box else None,
            factory_part=FactoryPart.objects.filter(job=self.job, place=factory).first(),
            **more,
        )

    def fixing(self, panel: str, name: str, quantity: int, **more: Any) -> None:
        """Note what holds a panel."""
        Fixing.objects.create(
            job=self.job, panel=self.panels[panel], name=name, quantity=quantity, **more
        )

    def step(self, panel: str, text: str, **more: Any) -> None:
        """Add a step behind a panel."""
        place = self.panels[panel]
        PanelStep.objects.create(
            job=self.job, panel=place, position=place.steps.count() + 1, text=text, **more
        )

    def measure(
        self,
        name: str,
        kind: str,
        limits: tuple[float | None, float | None],
        value: float | None = None,
        by: User | None = None,
    ) -> None:
        """Plan a value to be measured, perhaps with what was read."""
        Measurement.objects.create(
            job=self.job,
            position=self.job.measurements.count() + 1,
            name=name,
            kind=kind,
            low=limits[0],
            high=limits[1],
            value=value,
            measured_by=by,
            measured_at=timezone.now() if by else None,
        )

    def differently(self, label: str, by: User, reason: str, **changed: Any) -> None:
        """Say that a run lies otherwise than designed."""
        run = self.job.runs.get(kind=label[0], number=int(label[1:]))
        RunAsBuilt.objects.create(
            job=self.job,
            run=run,
            reason=reason,
            done_by=by,
            done_at=timezone.now(),
            route=run.what_hangs()["route"],
            **({name: getattr(run, name) for name in RunAsBuilt.FIELDS} | changed),
        )

    def damping(self, panel: str, where: str, **figures: Any) -> None:
        """Plan damping on a panel, of the one material of the list."""
        DampingLayer.objects.create(
            job=self.job, panel=self.panels[panel], where=where,
            part=self.parts["damping"], **figures,
        )  # fmt: skip

    def exchanged(self, item: str, by: User, reason: str, **changed: Any) -> None:
        """Say that another unit was fitted than was planned."""
        row = self.items[item]
        planned = {name: getattr(row, name) for name in ItemAsBuilt.FIELDS}
        ItemAsBuilt.objects.create(
            job=self.job, item=row, reason=reason, done_by=by, done_at=timezone.now(),
            **(planned | changed),
        )  # fmt: skip

    def kept_elsewhere(self, place: str, by: User, reason: str, where: str) -> None:
        """Say that something else became of a factory part."""
        part = FactoryPart.objects.get(job=self.job, place=place)
        FactoryAsBuilt.objects.create(
            job=self.job,
            factory_part=part,
            reason=reason,
            done_by=by,
            done_at=timezone.now(),
            fate=part.fate,
            kept_where=where,
        )

    def node(self, name: str, kind: str, place: str, equipment: str = "", **more: Any) -> None:
        """Add a node of the power tree."""
        self.nodes[name] = PowerNode.objects.create(
            job=self.job,
            name=name,
            kind=kind,
            place=place,
            equipment=self.items.get(equipment),
            **more,
        )

    def ground(self, name: str, kind: str, place: str = "", **more: Any) -> None:
        """Add a ground point; a stud on the body is bare unless said otherwise."""
        surface = {"surface": "bare"} if kind == "body" else {}
        self.grounds[name] = GroundPoint.objects.create(
            job=self.job, name=name, kind=kind, place=place, stud="M8", **(surface | more)
        )

    def join(self, connector: str, pin: str, run: Run, **more: Any) -> None:
        """Note where a run meets the factory loom."""
        LoomJoin.objects.create(job=self.job, connector=connector, pin=pin, run=run, **more)

    def power(
        self,
        start: str,
        end: str,
        cable: str,
        length: float,
        *,
        fuse: str = "",
        end_fuse: str = "",
        panels: Sequence[Stop] = (),
        zone: str = "boot",
        fuse_distance: float = 0.0,
        end_fuse_distance: float | None = None,
        minus: tuple[str, str] = ("", ""),
        **more: Any,
    ) -> None:
        """Add a power run with a cable of its own for the way back, and where its minus ends."""
        for name, point in zip(("return_start", "return_end"), minus, strict=True):
            more[name] = self.grounds.get(point)
        thick, thin = self.parts["ring 2.5 mm², M8"], cable == "2.5 mm²"
        on_battery = self.nodes[start].kind == PowerNode.Kind.BATTERY
        if minus[0] and thin:
            more["return_start_terminal"] = thick
        self._run(
            "P",
            cable,
            length,
            panels,
            start=self.nodes[start],
            end=self.nodes[end],
            zone=zone,
            return_kind="cable",
            return_length=length,
            colour="RD",
            return_colour="BK",
            start_terminal=thick if thin and on_battery else self.parts[f"ring {cable}"],
            end_terminal=self._end(end, cable),
            fuse=self.parts.get(fuse),
            fuse_distance=fuse_distance,
            fuse_holder=self._holder(fuse) if fuse and fuse_distance else None,
            fuse_terminal=self._at_fuse(cable) if fuse and fuse_distance else None,
            end_fuse=self.parts.get(end_fuse),
            end_fuse_distance=end_fuse_distance,
            end_fuse_holder=self._holder(end_fuse) if end_fuse_distance else None,
            end_fuse_terminal=self._at_fuse(cable) if end_fuse_distance else None,
            **more,
        )

    def _holder(self, fuse: str) -> Any:
        holders = {"cartridge": "lead holder", "sf51": "strip holder", "sf30": "short holder"}
        return self.parts[holders[self.parts[fuse].type]]

    def _at_fuse(self, cable: str) -> Any:
        """Rings go on the bolts of a strip's holder; one for a blade comes with leads."""
        return self.parts[f"{'splice' if cable == '2.5 mm²' else 'ring'} {cable}"]

    def _end(self, node: str, cable: str) -> Any:
        """Rings go on batteries and blocks, ferrules into what has clamps."""
        on_stud = self.nodes[node].kind in (PowerNode.Kind.BATTERY, PowerNode.Kind.BLOCK)
        return self.parts[f"{'ring' if on_stud else 'end'} {cable}"]

    def speaker(
        self,
        channel: str,
        cable: str,
        length: float,
        panels: Sequence[Stop],
    ) -> None:
        """Add the speaker run of a channel."""
        played = self.channels[channel]
        terminal = self.parts[f"end {cable}"]
        self._run(
            "S",
            f"{cable} pair",
            length,
            panels,
            channel=played,
            colour="WH",
            return_colour="BK",
            start_terminal=terminal,
            end_terminal=terminal,
            zone="cabin",
        )

    def line(
        self,
        start: str,
        end: str,
        length: float,
        panels: Sequence[Stop],
        cable: str = "0.5 mm² screened",
        plugs: tuple[str, str] = ("phono plug", "phono plug"),
        **more: Any,
    ) -> Run:
        """Add a line-level run; an end that is a node of the tree is one."""
        start_plug, end_plug = (self.parts[plug] for plug in plugs)
        return self._run(
            "L",
            cable,
            length,
            panels,
            **self._ends(start, end),
            **{"colour": "GY", "start_terminal": start_plug, "end_terminal": end_plug} | more,
        )

    def _ends(self, start: str, end: str) -> dict[str, Any]:
        ends: dict[str, Any] = {}
        for side, text, name in (("start", "from_text", start), ("end", "to_text", end)):
            key, value = (side, self.nodes[name]) if name in self.nodes else (text, name)
            ends[key] = value
        return ends

    def control(
        self,
        start: str,
        end: str,
        length: float,
        panels: Sequence[Stop],
        wakes: Sequence[str] = (),
        **more: Any,
    ) -> Run:
        """Add a control run, and what it turns on."""
        ends = dict.fromkeys(("start_terminal", "end_terminal"), self.parts["end 0.5 mm²"])
        run = self._run(
            "C",
            "0.5 mm²",
            length,
            panels,
            **self._ends(start, end),
            colour="BU",
            zone="cabin",
            **ends | more,
        )
        run.wakes.set(self.items[name] for name in wakes)
        run.note_what_hangs()
        return run

    def _run(
        self, kind: str, cable: str, length: float, panels: Sequence[Stop], **more: Any
    ) -> Run:
        number = Run.objects.filter(job=self.job, kind=kind).count() + 1
        run = Run.objects.create(
            job=self.job,
            kind=kind,
            number=number,
            conductor=self.parts[cable],
            length=length,
            **more,
        )
        Stretch.objects.bulk_create(
            self._stretch(run, number, stop) for number, stop in enumerate(panels, start=1)
        )
        run.note_what_hangs()
        return run

    def _stretch(self, run: Run, number: int, stop: Stop) -> Stretch:
        """A panel or another place; power keeps away from the factory loom."""
        name, edge = (stop, "") if isinstance(stop, str) else stop
        panel = self.panels.get(name)
        return Stretch(
            run=run,
            panel=panel,
            place="" if panel else name,
            position=number,
            follows_loom=run.kind != Run.Kind.POWER,
            edge=edge,
        )
