"""Plain ways to make the rows of tests. Every figure is invented and chosen so that nothing
special trips: what a test is about, it says itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from django.utils import timezone

from jobs import models
from jobs.design.job.held import may_be_loose
from jobs.design.job.whereabouts import work_out_whereabouts
from jobs.design.records.records import load
from jobs.models import (
    Amplifier,
    AmplifierRating,
    Box,
    Channel,
    Conductor,
    Customer,
    Driver,
    EquipmentItem,
    FactoryAsBuilt,
    FactoryPart,
    Fixing,
    Fuse,
    GroundPoint,
    ItemAsBuilt,
    Job,
    Measurement,
    Panel,
    PanelContent,
    PanelStep,
    Part,
    PowerNode,
    Processor,
    Run,
    RunAsBuilt,
    SheetMaterial,
    Stretch,
    Terminal,
    User,
    Vehicle,
)
from jobs.units import kelvin

Kind = Part.Kind
HOUR = 3600.0
# A panel, a place in words, or either with the edge that is passed there.
Stop = Panel | str | tuple[Panel | str, str]


# People and cars ------------------------------------------------------------------------------


def make_person(username: str, first: str, last: str, role: str = "") -> User:
    """Return somebody who signs in without a password, as `browse` does."""
    return User.objects.create(
        username=username,
        first_name=first,
        last_name=last,
        roles=[role] if role else [],
    )


def make_car(**figures: Any) -> Vehicle:
    """Return a petrol car of which every electrical figure has been read."""
    customer = figures.pop("customer", None) or Customer.objects.create(name="A. Customer")
    plain = {
        "maker": "Maker",
        "model": "Model",
        "driver_side": "left",
        "energy": "combustion",
        "battery_place": "engine bay",
        "battery_chemistry": "agm",
        "battery_charge": 80 * HOUR,
        "battery_cca": 800.0,
        "charging_source": "alternator",
        "charging_current": 150.0,
        "charging_current_idle": 85.0,
        "charging_hot_share": 0.85,
        "vehicle_current": 45.0,
        "recovery_current": 12.0,
        "sleep_current": 0.022,
        "start_stop": False,
        "smart_charging": False,
        "airbag_procedure": "As the manual of this car says.",
    }
    return Vehicle.objects.create(customer=customer, **(plain | figures))


def make_job(car: Vehicle | None = None, **figures: Any) -> Job:
    """Return a job without rows, with the next number."""
    plain = {
        "number": Job.next_number(),
        "title": "invented",
        "vehicle": car or make_car(),
        "calls_heard": False,
    }
    return Job.objects.create(**(plain | figures))


# The catalogue --------------------------------------------------------------------------------


def make_part(name: str, kind: str = Kind.OTHER, **figures: Any) -> Part:
    """Return a part of which nothing but its name matters."""
    if kind == Kind.DAMPING:
        return models.Damping.objects.create(kind=kind, name=name, **figures)
    return Part.objects.create(kind=kind, name=name, **figures)


def make_driver(name: str, **figures: Any) -> Driver:
    """Return a driver with these figures and no others."""
    return Driver.objects.create(kind=Kind.DRIVER, name=name, **figures)


def make_amplifier(
    name: str, *, channels: int, ratings: Sequence[tuple[bool, float, float]], **figures: Any
) -> Amplifier:
    """Return an amplifier; a rating is (bridged, load, power)."""
    plain = {"minimum_voltage": 10.0, "fuse_rating": 60.0, "turn_on_current": 0.01}
    amplifier = Amplifier.objects.create(
        kind=Kind.AMPLIFIER, name=name, channels=channels, **(plain | figures)
    )
    for bridged, ohms, power in ratings:
        AmplifierRating.objects.create(amplifier=amplifier, bridged=bridged, load=ohms, power=power)
    amplifier.note_what_hangs()
    return amplifier


def make_processor(name: str, **figures: Any) -> Processor:
    """Return a processor."""
    return Processor.objects.create(kind=Kind.PROCESSOR, name=name, **figures)


def make_conductor(
    size: str, *, degrees: float = 105.0, diameter: float = 0.005, **figures: Any
) -> Conductor:
    """Return copper cable of this size, its class in °C."""
    return Conductor.objects.create(
        kind=Kind.CONDUCTOR,
        size=size,
        insulation_temperature=kelvin(degrees),
        outer_diameter=diameter,
        **({"name": size, "colour": "RD"} | figures),
    )


def make_terminal(name: str, **figures: Any) -> Terminal:
    """Return a terminal for copper."""
    plain = {"metals": Terminal.Metals.COPPER}
    return Terminal.objects.create(kind=Kind.TERMINAL, name=name, **(plain | figures))


def make_fuse(rating: float, type: str, *, breaking: float | None, time: float) -> Fuse:
    """Return a fuse for 32 V that opens at six times its rating after this time."""
    return Fuse.objects.create(
        kind=Kind.FUSE,
        name=f"{type} {rating:g} A",
        type=type,
        rating=rating,
        voltage=32.0,
        breaking_capacity=breaking,
        curve=[[2, 60 * time], [6, time], [12, time / 5]],
    )


def make_sheet_material(name: str, *, size: tuple[float, float], **figures: Any) -> SheetMaterial:
    """Return wood by the sheet."""
    length, width = size
    return SheetMaterial.objects.create(
        kind=Kind.SHEET_MATERIAL, name=name, sheet_length=length, sheet_width=width, **figures
    )


# Rows of a job --------------------------------------------------------------------------------


def make_item(job: Job, part: Part, place: str, **figures: Any) -> EquipmentItem:
    """Put a part on the equipment list, held by what its vehicle maker provides."""
    plain = Part.objects.get(pk=part.pk)
    held = {"held_by": EquipmentItem.Held.MAKERS} if may_be_loose(plain) else {}
    return EquipmentItem.objects.create(job=job, part=plain, place=place, **(held | figures))


def make_factory_part(job: Job, place: str, **figures: Any) -> FactoryPart:
    """Note a factory speaker that stays in use."""
    plain = {"kind": "speaker", "fate": "in_use"}
    return FactoryPart.objects.create(job=job, place=place, **(plain | figures))


def make_channel(job: Job, name: str, **figures: Any) -> Channel:
    """Add a channel after those there are."""
    plain = {
        "source": "factory head unit",
        "position": job.channels.count() + 1,
        "side": Channel.Side.BOTH,
    }
    return Channel.objects.create(job=job, name=name, **(plain | figures))


def make_box(job: Job, driver: EquipmentItem | None, **figures: Any) -> Box:
    """Add a sealed box without wood."""
    plain = {"name": "invented", "kind": Box.Kind.SEALED, "held_by": Box.Held.MAKERS}
    return Box.objects.create(job=job, driver=driver, **(plain | figures))


def make_panel(job: Job, name: str, **figures: Any) -> Panel:
    """Add a panel after those there are, where somebody looked for what can hurt."""
    plain: dict[str, Any] = dict.fromkeys(Panel.DANGERS, False)
    plain |= {"removal": "As its sheet says.", "side": "middle"}
    plain["position"] = job.panels.count() + 1
    return Panel.objects.create(job=job, name=name, **(plain | figures))


def make_step(panel: Panel, text: str, **figures: Any) -> PanelStep:
    """Add a step behind a panel."""
    plain = {"position": panel.steps.count() + 1, "text": text}
    return PanelStep.objects.create(job=panel.job, panel=panel, **(plain | figures))


def make_content(panel: Panel, **figures: Any) -> PanelContent:
    """Note what is behind a panel."""
    return PanelContent.objects.create(job=panel.job, panel=panel, **figures)


def make_fixing(panel: Panel, name: str, **figures: Any) -> Fixing:
    """Note what holds a panel."""
    return Fixing.objects.create(job=panel.job, panel=panel, name=name, **figures)


def make_run_as_built(run: Run, by: User, **figures: Any) -> RunAsBuilt:
    """Say that a run lies as designed, but for these figures."""
    plain = {name: getattr(run, name) for name in RunAsBuilt.FIELDS}
    route = run.what_hangs()["route"]
    return RunAsBuilt.objects.create(
        job=run.job, run=run, done_by=by, done_at=timezone.now(),
        **({"reason": "A bracket was in the way.", "route": route} | plain | figures),
    )  # fmt: skip


def make_part_as_built(part: FactoryPart, by: User, **figures: Any) -> FactoryAsBuilt:
    """Say that what became of a factory part is as decided, but for this."""
    plain = {name: getattr(part, name) for name in FactoryAsBuilt.FIELDS}
    return FactoryAsBuilt.objects.create(
        job=part.job, factory_part=part, done_by=by, done_at=timezone.now(),
        **({"reason": "It would not come out whole."} | plain | figures),
    )  # fmt: skip


def make_item_as_built(item: EquipmentItem, by: User, **figures: Any) -> ItemAsBuilt:
    """Say that a piece of equipment is as planned, but for this."""
    plain = {name: getattr(item, name) for name in ItemAsBuilt.FIELDS}
    return ItemAsBuilt.objects.create(
        job=item.job, item=item, done_by=by, done_at=timezone.now(),
        **({"reason": "The first one was dead."} | plain | figures),
    )  # fmt: skip


def place_all(job: Job) -> None:
    """Say of everything nobody has placed yet that it is where it was planned."""
    for thing in work_out_whereabouts(load(job)):
        if thing.missing:
            PanelContent.objects.create(
                job=job,
                elsewhere=thing.planned or "in the dashboard",
                pieces=thing.missing,
                **{thing.asked_as: thing.thing},
            )


def make_measurement(job: Job, name: str, kind: str, **figures: Any) -> Measurement:
    """Plan a value to be measured."""
    plain = {"position": job.measurements.count() + 1}
    return Measurement.objects.create(job=job, name=name, kind=kind, **(plain | figures))


def make_battery(job: Job, name: str, **figures: Any) -> PowerNode:
    """Add a battery of which everything has been read."""
    plain = {
        "voltage": 12.6,
        "internal_resistance": 0.004,
        "cca": 800.0,
        "charge": 80 * HOUR,
        "rated_time": 20 * HOUR,
        "peukert": 1.12,
        "side": "middle",
    }
    return PowerNode.objects.create(
        job=job, kind=PowerNode.Kind.BATTERY, name=name, **(plain | figures)
    )


def make_block(job: Job, name: str, **figures: Any) -> PowerNode:
    """Add a distribution block."""
    return PowerNode.objects.create(
        job=job, kind=PowerNode.Kind.BLOCK, name=name, **({"side": "middle"} | figures)
    )


def make_amplifier_node(job: Job, name: str, item: EquipmentItem, **figures: Any) -> PowerNode:
    """Put an amplifier of the equipment list into the power tree."""
    plain = {"place": item.place, "standby_current": 0.001, "side": "middle"}
    return PowerNode.objects.create(
        job=job, kind=PowerNode.Kind.AMPLIFIER, name=name, equipment=item, **(plain | figures)
    )


def make_ground(job: Job, name: str, **figures: Any) -> GroundPoint:
    """Add a ground point on bare metal."""
    return GroundPoint.objects.create(job=job, name=name, **({"surface": "bare"} | figures))


def make_run(job: Job, kind: str, conductor: Conductor, length: float, **figures: Any) -> Run:
    """Add a run with the next number of its kind; `route` is a list of stops."""
    route: Iterable[Stop] = figures.pop("route", ())
    number = Run.with_removed.filter(job=job, kind=kind).count() + 1
    plain = {"number": number, "zone": Run.Zone.CABIN}
    run = Run.objects.create(
        job=job, kind=kind, conductor=conductor, length=length, **(plain | figures)
    )
    for position, stop in enumerate(route, start=1):
        where, edge = stop if isinstance(stop, tuple) else (stop, "")
        panel = where if isinstance(where, Panel) else None
        # Power keeps away from the factory loom.
        Stretch.objects.create(
            run=run, position=position, panel=panel, place="" if panel else where, edge=edge,
            follows_loom=kind != Run.Kind.POWER,
        )  # fmt: skip
    run.note_what_hangs()
    return run


def make_power_run(
    start: PowerNode, end: PowerNode, conductor: Conductor, length: float, **figures: Any
) -> Run:
    """Add a power run in the boot whose way back is a cable of its own, as long as itself."""
    plain = {
        "zone": Run.Zone.BOOT,
        "return_kind": Run.Return.CABLE,
        "return_length": length,
        "fuse_distance": 0.0,
        "colour": "RD",
        "return_colour": "BK",
    }
    return make_run(
        start.job, Run.Kind.POWER, conductor, length, start=start, end=end, **(plain | figures)
    )


def make_speaker_run(channel: Channel, conductor: Conductor, length: float, **figures: Any) -> Run:
    """Add the speaker run of a channel."""
    plain = {"colour": "WH", "return_colour": "BK", "to_text": channel.name}
    return make_run(
        channel.job, Run.Kind.SPEAKER, conductor, length, channel=channel, **(plain | figures)
    )


def make_rows(job: Job, count: int) -> None:
    """Add this many of every kind of row, linked to each other as in a real job."""
    driver, amplifier, processor = (
        Part.objects.filter(kind=kind).first()
        for kind in (Kind.DRIVER, Kind.AMPLIFIER, Kind.PROCESSOR)
    )
    sheet, conductor = SheetMaterial.objects.first(), Conductor.objects.first()
    fuse = Fuse.objects.first()
    for n in range(count):
        speaker = make_item(job, driver, f"door {n}")
        power = make_item(job, amplifier, f"boot {n}")
        brain = make_item(job, processor, f"seat {n}")
        factory = make_factory_part(job, f"door {n}", fate="")
        channel = make_channel(
            job, f"way {n}", processor=brain, amplifier=power, speaker=speaker, amplifier_channel=1
        )
        box = make_box(
            job, speaker, name=f"box {n}", channel=channel, wanted_volume=0.02, width=0.4,
            height=0.35, depth=0.3, material=sheet,
        )  # fmt: skip
        models.Ring.objects.create(
            job=job, name=f"ring {n}", driver=speaker, material=sheet, outer_diameter=0.2,
            bolt_circle=0.17, inner_diameter=0.14,
        )  # fmt: skip
        models.TrimPanel.objects.create(
            job=job, name=f"cover {n}", box=box, material=sheet, width=0.6, height=0.5
        )
        battery = make_battery(job, f"battery {n}")
        load = make_amplifier_node(job, f"amplifier {n}", power)
        panel = make_panel(job, f"panel {n}")
        make_power_run(battery, load, conductor, 1.0, fuse=fuse, route=[panel])
        make_step(panel, "look")
        make_content(panel, equipment=power)
        make_content(panel, factory_part=factory)
        make_measurement(job, f"volts {n}", "voltage")
