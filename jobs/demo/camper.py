"""J-0002: a camper van with a second battery; a cable with a source at each end."""

from __future__ import annotations

from decimal import Decimal

from jobs.demo.catalogue import Parts
from jobs.demo.rows import Rows, Stop
from jobs.demo.wood import load_cheek
from jobs.models import Customer, Job, Stage, User, Vehicle


def load_camper(parts: Parts, people: dict[str, User]) -> Job:
    """Make the job with everything that hangs on it."""
    vehicle = Vehicle.objects.create(
        customer=Customer.objects.create(
            name="Jonas and Petra Vik", phone="000 555 0121", language="de"
        ),
        maker="Hollin",
        model="Ambrel",
        body="camper van, high roof",
        year=2019,
        plate="VK 88 W",
        driver_side="left",
        energy="combustion",
        battery_place="under the driver's seat",
        battery_chemistry="efb",
        battery_charge=92 * 3600,
        battery_cca=760,
        charging_source="alternator",
        charging_current=180,
        charging_current_idle=80,
        charging_hot_share=0.8,
        vehicle_current=35,
        recovery_current=40,
        sleep_current=0.018,
        start_stop=False,
        smart_charging=False,
        cabin_volume=9.0,
        cabin_length=4.1,
    )
    job = Job.objects.create(
        number=2,
        vehicle=vehicle,
        stage=Stage.SPEC,
        title="Music while parked, without a flat starter battery",
        consultant=people["consultant"],
        wishes="“We cook, we read, we listen. In the morning the van must start.”",
        listening="Quiet, for hours, engine off",
        programme=Job.Programme.QUIET,
        reserve_wanted=6 * 3600,
        looks="discreet",
        budget=Decimal(1900),
    )
    rows = Rows(job, parts)
    rows.item("six", "wardrobe, bottom", 1, ventilated=False)
    rows.item("woofer", "living-room cupboards", 2)
    rows.item("battery", "bench seat", 1)
    rows.item("charger", "bench seat", 1)
    for number, side in enumerate(("left", "right"), start=1):
        rows.channel(
            f"Living room {side}",
            "tablet, by cable",
            amplifier="six",
            amplifier_channel=number,
            speaker="woofer",
            side=side,
            highpass_frequency=60.0,
            highpass_shape="bw12",
        )
    rows.panel(
        "Driver's seat base", side="left", removal="Four bolts, see the manual.", airbag_near=True
    )
    rows.panel("Bench seat", side="middle", removal="Cushion lifts off.", airbag_near=False)
    rows.node(
        "Starter battery",
        "battery",
        "under the driver's seat",
        side="left",
        voltage=12.6,
        internal_resistance=0.0045,
        cca=760,
        charge=92 * 3600,
        rated_time=20 * 3600,
        peukert=1.18,
    )
    rows.node(
        "Leisure battery",
        "battery",
        "bench seat",
        side="middle",
        voltage=12.8,
        internal_resistance=0.005,
        charge=95 * 3600,
        rated_time=20 * 3600,
        peukert=1.12,
        usable_share=0.5,
        equipment="battery",
    )
    # Off with the engine, so that the starter battery never plays music.
    rows.node(
        "Charger",
        "dc_dc",
        "bench seat",
        side="middle",
        equipment="charger",
        voltage=14.2,
        internal_resistance=0.01,
        current_limit=30.0,
        standby_current=0.0005,
    )
    rows.node(
        "Amplifier",
        "amplifier",
        "wardrobe, bottom",
        side="left",
        equipment="six",
        standby_current=0.0012,
    )
    rows.ground("Starter minus", "post", "under the driver's seat", torque=6.0)
    rows.ground("Leisure minus", "post", "bench seat", torque=6.0)
    rows.power(
        "Starter battery",
        "Charger",
        "16 mm²",
        4.2,
        fuse="F80",
        fuse_distance=0.15,
        zone="under carpet",
        # It regulates, so the book's 10 % are enough for what leads to it.
        drop_limit=0.1,
        panels=[("Driver's seat base", "grommet"), "floor channel, left", "Bench seat"],
        start_contact="30",
        minus=("Starter minus", ""),
    )
    rows.power(
        "Charger",
        "Leisure battery",
        "10 mm²",
        0.6,
        fuse="F50",
        fuse_distance=0.1,
        end_fuse="F50",
        end_fuse_distance=0.1,
        zone="cabin",
        panels=["Bench seat"],
        end_contact="30a",
        minus=("", "Leisure minus"),
    )
    rows.power(
        "Leisure battery",
        "Amplifier",
        "16 mm²",
        2.2,
        fuse="F60",
        fuse_distance=0.12,
        zone="cabin",
        panels=["Bench seat", ("wardrobe, back wall", "soft")],
        start_contact="30a",
        minus=("Leisure minus", ""),
    )
    cupboard: list[Stop] = ["Bench seat", ("wardrobe, back wall", "soft")]
    rows.line(
        "tablet, by cable", "Amplifier", 2.4, cupboard, source_resistance=100.0, beside_power=0.4
    )
    rows.control(
        "Leisure battery",
        "Amplifier",
        2.6,
        cupboard,
        wakes=["six"],
        fuse=parts["F1"],
        fuse_distance=0.1,
        start_terminal=parts["ring 0.5 mm², M8"],
        fuse_holder=parts["lead holder"],
        fuse_terminal=parts["splice"],
    )
    for side in ("left", "right"):
        rows.speaker(f"Living room {side}", "1.5 mm²", 3.5, ["Bench seat"])
    load_cheek(job, parts)
    return job
