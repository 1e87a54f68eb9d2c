"""A hatchback: an active front and a sealed box, one row of every kind at least."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import product
from typing import Any

from django.utils import timezone

from jobs.models import (
    Booking,
    Box,
    BoxAsBuilt,
    BoxSweep,
    CabinCurve,
    CarTemplate,
    CautionRead,
    Channel,
    Conversation,
    Customer,
    DampingLayer,
    DriverSweep,
    EquipmentItem,
    FactoryPart,
    GroundPoint,
    Job,
    LoomJoin,
    Measurement,
    Offcut,
    Panel,
    Payment,
    PowerNode,
    PriceLine,
    Ring,
    Run,
    Stage,
    TrimPanel,
    User,
    WoodStep,
    WorkTime,
)
from tests.jobs.factories import (
    HOUR,
    make_amplifier_node,
    make_battery,
    make_block,
    make_box,
    make_car,
    make_channel,
    make_content,
    make_factory_part,
    make_fixing,
    make_ground,
    make_item,
    make_item_as_built,
    make_job,
    make_measurement,
    make_panel,
    make_part_as_built,
    make_power_run,
    make_run,
    make_run_as_built,
    make_speaker_run,
    make_step,
    place_all,
)
from tests.jobs.scenes.aftercare import make_visit
from tests.jobs.scenes.scene import Scene, ends
from tests.jobs.scenes.seat import make_seat
from tests.jobs.shelf import Shelf
from tests.jobs.sweeps import BOXED_SUB, THIS_SUB, sweep_text

FRONT = ("tweeter", "midrange", "woofer")


@dataclass(frozen=True, kw_only=True)
class Hatchback(Scene):
    """An active front and a sealed box in the boot, fed through a block; every kind of row once.

    Nothing is unsafe: no stop, and every figure that can be known is entered.
    """

    box: Box
    sub: EquipmentItem
    six: EquipmentItem  # amplifier of the front
    mono: EquipmentItem  # amplifier of the bass
    bass: Channel
    tweeter_left: Channel
    sweep: DriverSweep  # of the sub, not in use
    box_sweep: BoxSweep  # of the boot box, as drawn
    cabin_curve: CabinCurve
    ring: Ring  # of the woofers
    cover: TrimPanel  # over the box
    boot_floor: Panel
    side_trim: Panel
    sill: Panel
    door_left: Panel
    unplugged: FactoryPart
    battery: PowerNode
    block: PowerNode
    six_node: PowerNode
    mono_node: PowerNode
    processor_node: PowerNode
    main_run: Run  # battery to block
    six_run: Run
    mono_run: Run
    processor_run: Run
    tweeter_run: Run  # the first speaker run
    bass_run: Run
    line_run: Run
    turn_on_run: Run  # wakes both amplifiers
    sensor: GroundPoint  # what the main's minus ends at
    ground_bar: GroundPoint  # what the branches' minuses start from
    join: LoomJoin  # where the line run meets the factory loom
    key_off: Measurement  # still to be read


def set_hatchback(shelf: Shelf, consultant: User, installer: User) -> Hatchback:
    """Build the scene."""
    job = make_job(
        make_car(
            customer=Customer.objects.create(
                name="Hanna Lind", phone="000 555 0100", email="hanna@lind.invalid"
            ),
            maker="Hatchmaker",
            model="Five",
            year=2020,
            # The engine stops by itself and commands its voltage: two looks of the supply.
            start_stop=True,
            smart_charging=True,
            cabin_volume=3.2,
            cabin_length=2.6,
        ),
        number=417,
        stage=Stage.BAY,
        consultant=consultant,
        programme=Job.Programme.MUSIC,
        reserve_wanted=0.5 * HOUR,
        budget=4321,
    )
    pocket = "boot, side pocket"
    items = {
        "sub": make_item(job, shelf["sub"], "box in the boot", serial="SUB-417"),
        **{part: make_item(job, shelf[part], "front doors", quantity=2) for part in FRONT},
        "six": make_item(job, shelf["six"], pocket, ventilated=True),
        "mono": make_item(job, shelf["mono"], pocket, ventilated=True),
        "processor": make_item(job, shelf["processor"], pocket),
    }
    make_item(job, shelf["damping"], "front doors", quantity=4)
    rear = make_factory_part(job, "rear doors")
    unplugged = make_factory_part(job, "boot, right side", kind="connector", fate="unplugged")
    front = _front(job, items)
    bass = make_channel(
        job, "Bass", processor=items["processor"], processor_output=7, amplifier=items["mono"],
        amplifier_channel=1, speaker=items["sub"], coil_connection=Channel.Connection.SERIES,
        highpass_frequency=22.0, highpass_shape="bw12", lowpass_frequency=70.0,
        lowpass_shape="lr24",
    )  # fmt: skip
    make_channel(job, "Rear doors", source="factory amplifier", factory_speaker=rear)
    # 30.8 L net: three sides square, the rear wall leans by 17 degrees, as its cavity does.
    box = make_box(
        job, items["sub"], name="Boot box", channel=bass, wanted_volume=0.032, ql=20.0,
        shape=Box.Shape.SLOPED, width=0.48, height=0.36, depth=0.335, top_depth=0.225,
        material=shelf["birch"], cavity_width=0.52,
        cavity_profile=[[-0.02, -0.01], [0.37, -0.01], [0.25, 0.385], [-0.02, 0.385]],
    )  # fmt: skip
    # Too small for any part: nothing of it changes what is cut.
    Offcut.objects.create(material=shelf["birch"], length=0.12, width=0.11)
    BoxAsBuilt.objects.create(job=job, box=box, width=0.481, thickness=0.0178,
                              measured_on=date(2026, 11, 20), measured_by="somebody")  # fmt: skip
    PriceLine.objects.create(job=job, text="Delivery", each=40)
    Payment.objects.create(job=job, amount=100, received_on=date(2026, 11, 20))
    CarTemplate.objects.create(job=job, name="Five, all years", takes=["car", "panels", "cavities"])
    WorkTime.objects.create(job=job, minutes=30, worked_on=date(2026, 11, 20))
    Conversation.objects.create(job=job, held_on=date(2026, 11, 20), text="Asked for the day.")
    Booking.objects.create(job=job, first_day=date(2099, 3, 2), minutes=120)
    make_seat(job)
    WoodStep.objects.create(job=job, box=box, kind="cut", minutes=90, done_by=installer,
                            done_at=job.created_at)  # fmt: skip
    panels = _panels(job, items, unplugged)
    nodes, runs = _tree(job, shelf, items, panels, front)
    DampingLayer.objects.create(
        job=job, panel=panels["door_left"], part=shelf["damping"], where="outer skin", area=0.25,
        coverage=0.8,
    )  # fmt: skip
    make_fixing(panels["side_trim"], "push clip", quantity=4, part_number="51-47", breaks=True)
    place_all(job)
    make_run_as_built(job.runs.filter(kind="S")[1], installer, length=4.98)
    make_item_as_built(items["mono"], installer, serial="M-0093")
    make_part_as_built(unplugged, installer, kept_where="taped to the loom")
    # Today, and by an act of three hours ago, which may have been yesterday.
    for place, ago in product(("door_left", "side_trim"), (0, 1)):
        read_on = timezone.localdate() - timedelta(days=ago)
        CautionRead.objects.create(job=job, panel=panels[place], read_by=installer, read_on=read_on)
    step = make_step(panels["boot_floor"], "Set the box.", done_by=installer)
    step.done_at = job.created_at
    step.save()
    make_step(panels["door_left"], "Ring, then woofer.")
    make_measurement(job, "Battery, everything off", "voltage", expected="12.4 to 12.8 V")
    make_visit(job, runs["main_run"], lot="L-2290")
    return Hatchback(
        job=job, box=box, sub=items["sub"], six=items["six"], mono=items["mono"], bass=bass,
        tweeter_left=front[0], unplugged=unplugged, **panels, **nodes, **runs,
        **_measured(job, items["sub"], box), **_covers(job, shelf, items["woofer"], box),
        bass_run=make_speaker_run(
            bass, shelf["2.5 mm² pair"], 1.2, from_text="Mono",
            route=[panels["boot_floor"], panels["side_trim"]], **ends(shelf, "end 2.5 mm²"),
        ),
        **_signals(job, shelf, nodes, panels),
        turn_on_run=_turn_on(job, shelf, items, nodes, panels),
        key_off=make_measurement(job, "Key-off current", "current", expected="at most 50 mA"),
    )  # fmt: skip


def _front(job: Job, items: dict[str, EquipmentItem]) -> list[Channel]:
    """Three ways on each side, one channel of the six each."""
    crossovers = {"tweeter": (3200.0, None), "midrange": (380.0, 3200.0), "woofer": (70.0, 380.0)}
    ways = [(side, part) for side in ("left", "right") for part in FRONT]
    return [
        make_channel(
            job,
            f"{part.capitalize()} {side}",
            processor=items["processor"],
            processor_output=number,
            amplifier=items["six"],
            amplifier_channel=number,
            speaker=items[part],
            highpass_frequency=crossovers[part][0],
            highpass_shape="lr24",
            lowpass_frequency=crossovers[part][1],
            lowpass_shape="lr24" if crossovers[part][1] else "",
        )
        for number, (side, part) in enumerate(ways, start=1)
    ]


def _panels(job: Job, items: dict[str, EquipmentItem], unplugged: FactoryPart) -> dict[str, Panel]:
    panels = {
        "boot_floor": make_panel(job, "Floor of the boot", fixings="four nuts"),
        "side_trim": make_panel(job, "Trim of the boot", airbag_near=True),
        "sill": make_panel(job, "Trim of the sill"),
        "door_left": make_panel(job, "Card of the left door", airbag_near=True),
    }
    make_content(panels["boot_floor"], equipment=items["sub"], fixing="two bolts")
    make_content(panels["boot_floor"], factory_part=unplugged, fixing="where it was")
    make_content(panels["side_trim"], equipment=items["six"], fixing="four rubber feet")
    return panels


def _tree(
    job: Job,
    shelf: Shelf,
    items: dict[str, EquipmentItem],
    panels: dict[str, Panel],
    front: list[Channel],
) -> tuple[dict[str, Any], dict[str, Run]]:
    """Battery, block and three branches; every cable crimped, fused and with its way back."""
    battery = make_battery(job, "Car battery", place="boot floor, right")
    block = make_block(job, "Branch block", place="boot, beside the battery")
    six = make_amplifier_node(job, "Front amplifier", items["six"], standby_current=0.0012)
    mono = make_amplifier_node(job, "Bass amplifier", items["mono"])
    processor = PowerNode.objects.create(
        job=job, kind="load", name="Processor", equipment=items["processor"], current=0.8,
        standby_current=0.0015, place=items["processor"].place,
        side="middle",
    )  # fmt: skip
    boot = [panels["boot_floor"], panels["side_trim"]]
    sensor = make_ground(job, "Body side of the sensor", kind="sensor", stud="M8", torque=10.0)
    bar = make_ground(
        job, "Ground bar", kind="block", stud="M8", torque=9.0, panel=panels["boot_floor"]
    )
    main = make_power_run(
        battery, block, shelf["35 mm²"], 0.6, fuse=shelf["150 A"], fuse_distance=0.15,
        route=boot[:1], start_contact="30", return_start=sensor, return_end=bar,
        fuse_holder=shelf["holder"], fuse_terminal=shelf["ring 35 mm²"],
        **ends(shelf, "ring 35 mm²"),
    )  # fmt: skip
    branch = ends(shelf, "ring 16 mm²", "end 16 mm²") | {"return_start": bar}
    six_run = make_power_run(
        block, six, shelf["16 mm²"], 1.4, fuse=shelf["60 A"], route=boot, **branch
    )
    mono_run = make_power_run(
        block, mono, shelf["16 mm²"], 1.5, fuse=shelf["60 A"], route=boot, **branch
    )
    processor_run = make_power_run(
        block, processor, shelf["2.5 mm²"], 1.4, fuse=shelf["5 A"], route=boot,
        return_start=bar, return_start_terminal=shelf["ring 2.5 mm², M8"],
        **ends(shelf, "ring 2.5 mm²", "end 2.5 mm²"),
    )  # fmt: skip
    speakers = [
        make_speaker_run(
            channel, shelf["1.5 mm² pair"], length, from_text="Six",
            route=[panels["side_trim"], panels["sill"], ("door hinge", "soft"),
                   panels["door_left"]],
            **ends(shelf, "end 1.5 mm²"),
        )
        for channel, length in zip(front, (5.2, 5.0, 4.8) * 2, strict=True)
    ]  # fmt: skip
    nodes = {
        "battery": battery, "block": block, "six_node": six, "mono_node": mono,
        "processor_node": processor, "sensor": sensor, "ground_bar": bar,
    }  # fmt: skip
    runs = {
        "main_run": main, "six_run": six_run, "mono_run": mono_run,
        "processor_run": processor_run, "tweeter_run": speakers[0],
    }  # fmt: skip
    return nodes, runs


def _signals(
    job: Job, shelf: Shelf, nodes: dict[str, Any], panels: dict[str, Panel]
) -> dict[str, object]:
    """From the factory head unit to the processor, and from there to each amplifier."""
    screened = shelf["0.5 mm² screened"]
    line = make_run(
        job, "L", screened, 5.5, from_text="factory head unit", end=nodes["processor_node"],
        colour="GY", source_resistance=120.0, beside_power=0.3,
        route=["behind the dashboard", panels["sill"], panels["side_trim"]],
        **ends(shelf, "plug"),
    )  # fmt: skip
    for end in ("six_node", "mono_node"):
        make_run(
            job, "L", screened, 0.5, start=nodes["processor_node"], end=nodes[end], colour="GY",
            source_resistance=100.0, beside_power=0.0, route=[panels["side_trim"]],
            **ends(shelf, "plug"),
        )  # fmt: skip
    join = LoomJoin.objects.create(
        job=job, connector="Block C", pin="7", colour="VT", how="plug", carries="line",
        signal="line out, left", level=0.0, run=line,
    )  # fmt: skip
    return {"line_run": line, "join": join}


def _turn_on(
    job: Job,
    shelf: Shelf,
    items: dict[str, EquipmentItem],
    nodes: dict[str, Any],
    panels: dict[str, Panel],
) -> Run:
    run = make_run(
        job, "C", shelf["0.5 mm²"], 0.6, start=nodes["processor_node"], to_text="both amplifiers",
        colour="BU", route=[panels["side_trim"]], **ends(shelf, "end 0.5 mm²"),
    )  # fmt: skip
    run.wakes.set([items["six"], items["mono"]])
    run.note_what_hangs()
    from_head = make_run(
        job, "C", shelf["0.5 mm²"], 5.0, from_text="factory head unit, remote output",
        end=nodes["processor_node"], fed_by="output", source_limit=0.3, current=0.02, colour="BU",
        route=["behind the dashboard", panels["sill"], panels["side_trim"]],
        **ends(shelf, "end 0.5 mm²"),
    )  # fmt: skip
    from_head.wakes.set([items["processor"]])
    from_head.note_what_hangs()
    return run


def _measured(job: Job, sub: EquipmentItem, box: Box) -> dict[str, object]:
    """The sub on the bench with 60 g on its cone, its finished box, and a test box in the boot."""
    by = {"job": job, "measured_by": "Somebody", "measured_on": date(2026, 11, 12)}
    gains = {
        16: 16.5, 20: 15.0, 25: 13.5, 31.5: 11.5, 40: 8.5, 50: 5.5, 63: 3.0, 80: -1.5,
        100: 1.5, 125: -3.0, 160: 0.5, 200: -2.0, 250: 1.0, 315: -1.0, 400: 0.5,
    }  # fmt: skip
    return {
        "sweep": DriverSweep.objects.create(
            item=sub, specimen="417", coils=DriverSweep.Coils.SERIES,
            content=sweep_text(THIS_SUB, 1), method=DriverSweep.Method.MASS, added_mass=0.06,
            second=sweep_text(THIS_SUB.loaded(0.06), 2), **by,
        ),
        "box_sweep": BoxSweep.objects.create(
            box=box, content=sweep_text(BOXED_SUB, 4), **by,
        ),
        "cabin_curve": CabinCurve.objects.create(
            place="test box in the boot",
            content="\n".join(f"{hertz}\t{gain}" for hertz, gain in gains.items()), **by,
        ),
    }  # fmt: skip


def _covers(
    job: Job, shelf: Shelf, woofers: EquipmentItem, box: Box
) -> dict[str, Ring | TrimPanel]:
    """Two tilted rings, and a cover with a slot beside what shows of the box."""
    return {
        "ring": Ring.objects.create(
            job=job, name="Rings of the doors", quantity=2, driver=woofers,
            material=shelf["birch"], outer_diameter=0.186, bolt_circle=0.158, tilt=math.radians(4),
        ),
        "cover": TrimPanel.objects.create(
            job=job, name="Cover of the boot", material=shelf["fibreboard"], width=0.62,
            height=0.45, box=box, box_u=-0.04, openings=[[0.55, 0.1, 0.09, 0.05]],
        ),
    }  # fmt: skip
