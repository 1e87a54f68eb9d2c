"""A van with a second battery: a cable with a source at each end."""

from __future__ import annotations

from dataclasses import dataclass

from jobs.models import EquipmentItem, Job, PowerNode, Run, Stage
from tests.jobs.factories import (
    HOUR,
    make_amplifier_node,
    make_battery,
    make_car,
    make_channel,
    make_ground,
    make_item,
    make_job,
    make_panel,
    make_power_run,
    make_run,
    make_speaker_run,
    place_all,
)
from tests.jobs.scenes.scene import Scene, ends
from tests.jobs.shelf import Shelf


@dataclass(frozen=True, kw_only=True)
class Van(Scene):
    """A second battery on a cable with a fuse at each end; no wood, no procedure for airbags."""

    six: EquipmentItem
    starter: PowerNode
    leisure: PowerNode
    amplifier: PowerNode
    link: Run  # starter battery to leisure battery
    branch: Run  # leisure battery to amplifier
    speaker_run: Run


def set_van(shelf: Shelf) -> Van:
    """Build the scene."""
    job = make_job(
        make_car(
            maker="Vanmaker", model="High", driver_side="right", battery_charge=92 * HOUR,
            charging_current=180.0, charging_current_idle=80.0, charging_hot_share=0.8,
            vehicle_current=35.0, recovery_current=40.0, airbag_procedure="",
        ),
        number=528, stage=Stage.SPEC, programme=Job.Programme.QUIET, reserve_wanted=6 * HOUR,
    )  # fmt: skip
    six = make_item(job, shelf["six"], "wardrobe", ventilated=False)
    woofers = make_item(job, shelf["woofer"], "cupboards", quantity=2)
    second = make_item(job, shelf["battery"], "bench seat")
    channels = [
        make_channel(
            job, f"Room {side}", source="tablet", amplifier=six, amplifier_channel=number,
            speaker=woofers, highpass_frequency=60.0, highpass_shape="bw12",
        )
        for number, side in enumerate(("left", "right"), start=1)
    ]  # fmt: skip
    seat, bench = (
        make_panel(job, "Base of the seat", airbag_near=True),
        make_panel(job, "Bench"),
    )
    starter = make_battery(
        job, "Starter", place="under the seat", internal_resistance=0.0045, cca=760.0,
        charge=92 * HOUR, peukert=1.18, flat_voltage=12.1,
    )  # fmt: skip
    leisure = make_battery(
        job, "Leisure", place="bench seat", voltage=12.8, internal_resistance=0.005, cca=None,
        charge=95 * HOUR, usable_share=0.5, flat_voltage=12.1, equipment=second,
    )  # fmt: skip
    amplifier = make_amplifier_node(job, "Amplifier", six, standby_current=0.0012)
    posts = [
        make_ground(job, f"Minus post, {name}", kind="post", stud="M8", torque=9.0)
        for name in ("starter", "leisure")
    ]
    link = make_power_run(
        starter, leisure, shelf["35 mm²"], 4.2, fuse=shelf["150 A"], fuse_distance=0.15,
        end_fuse=shelf["150 A"], end_fuse_distance=0.15, zone=Run.Zone.UNDER_CARPET,
        route=[(seat, "grommet"), "floor channel", bench], start_contact="30",
        end_contact="30a", return_start=posts[0], return_end=posts[1],
        fuse_holder=shelf["holder"], end_fuse_holder=shelf["holder"],
        fuse_terminal=shelf["ring 35 mm²"], end_fuse_terminal=shelf["ring 35 mm²"],
        **ends(shelf, "ring 35 mm²"),
    )  # fmt: skip
    branch = make_power_run(
        leisure, amplifier, shelf["16 mm²"], 2.2, fuse=shelf["60 A"], fuse_distance=0.12,
        zone=Run.Zone.CABIN, route=[bench, ("wardrobe, back", "soft")], start_contact="30a",
        return_start=posts[1], fuse_holder=shelf["holder"],
        fuse_terminal=shelf["ring 16 mm²"],
        **ends(shelf, "ring 16 mm²", "end 16 mm²"),
    )  # fmt: skip
    speakers = [
        make_speaker_run(
            channel, shelf["1.5 mm² pair"], 3.5, from_text="Six", route=[bench],
            **ends(shelf, "end 1.5 mm²"),
        )
        for channel in channels
    ]  # fmt: skip
    make_run(
        job, "L", shelf["0.5 mm² screened"], 3.0, from_text="tablet", end=amplifier, colour="GY",
        source_resistance=100.0, beside_power=0.0, route=[bench], **ends(shelf, "plug"),
    )  # fmt: skip
    make_run(
        job,
        "C",
        shelf["0.5 mm²"],
        3.0,
        from_text="switch at the bench",
        end=amplifier,
        fed_by="supply",
        fuse=shelf["1 A"],
        fuse_distance=0.1,
        fuse_holder=shelf["lead holder"],
        fuse_terminal=shelf["end 0.5 mm²"],
        colour="BU",
        route=[bench],
        **ends(shelf, "end 0.5 mm²"),
    ).wakes.set([six])
    place_all(job)
    return Van(
        job=job, six=six, starter=starter, leisure=leisure, amplifier=amplifier, link=link,
        branch=branch, speaker_run=speakers[0],
    )  # fmt: skip
