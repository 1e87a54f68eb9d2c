"""J-0003: a pick-up; a slim vented box behind the rear bench, one look accepted, one open."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from jobs.demo.catalogue import Parts
from jobs.demo.rows import Rows
from jobs.models import Box, Channel, Customer, Job, Stage, User, Vehicle


def load_pickup(parts: Parts, people: dict[str, User]) -> Job:
    """Make the job with everything that hangs on it."""
    vehicle = Vehicle.objects.create(
        customer=Customer.objects.create(
            name="Bram Oyelaran", phone="000 555 0190", email="bram@oyelaran.invalid"
        ),
        maker="Kesterley",
        model="Hodwain",
        body="pick-up, double cab",
        year=2018,
        plate="BO 5 HWN",
        driver_side="right",
        energy="combustion",
        battery_place="engine bay, left",
        battery_chemistry="flooded",
        battery_charge=70 * 3600,
        battery_cca=680,
        charging_source="alternator",
        charging_current=120,
        cabin_volume=2.6,
        cabin_length=1.9,
        charging_hot_share=0.8,
        vehicle_current=30,
        recovery_current=15,
        start_stop=False,
        smart_charging=False,
    )
    job = Job.objects.create(
        number=3,
        vehicle=vehicle,
        stage=Stage.AGREED,
        title="Bass behind the rear bench, seat stays where it is",
        consultant=people["consultant"],
        wishes="“It has to go behind the bench and the bench has to fold.”",
        listening="Dub, loud, both front seats",
        programme=Job.Programme.COMPRESSED,
        calls_heard=False,
        looks="hidden",
        space_to_keep="The bench folds",
        must_stay_factory="Everything in the doors",
        budget=Decimal(1300),
    )
    rows = Rows(job, parts)
    rows.item("slim", "box behind the rear bench", 1, state="ordered")
    rows.item("mono", "under the rear bench", 1, state="ordered", ventilated=False)
    rows.item("converter", "under the rear bench", 1, state="ordered")
    rows.item("block", "under the rear bench", 1)
    rows.factory("all doors", "speaker", "in_use")
    rows.channel(
        "Bass",
        "factory head unit, high level",
        amplifier="mono",
        amplifier_channel=1,
        speaker="slim",
        side=Channel.Side.BOTH,
        highpass_frequency=28.0,
        highpass_shape="bw24",
        lowpass_frequency=80.0,
        lowpass_shape="lr24",
    )
    carcass: dict[str, Any] = {
        "place": "between rear bench and cab wall",
        "driver": "slim",
        "test_voltage": 12.0,
        "shape": Box.Shape.SLOPED,
        "width": 0.9,
        "height": 0.37,
        "depth": 0.185,
        "top_depth": 0.125,
        "material": "fibreboard",
    }
    rows.box(
        name="Behind the bench",
        kind=Box.Kind.VENTED,
        wanted_volume=0.034,
        ql=7.0,
        port_shape=Box.PortShape.ROUND,
        port_diameter=0.068,
        port_wall=0.003,
        wanted_tuning=36.0,
        port_face="right",
        **carcass,
    )
    # Shown to the customer beside it: the same wood without a port.
    rows.box(name="The same, sealed", kind=Box.Kind.SEALED, ql=20.0, chosen=False, **carcass)
    # Two more ways, under the bench: a slot of its own panels, and two chambers with a divider.
    under: dict[str, Any] = carcass | {
        "place": "under the rear bench",
        "shape": Box.Shape.RECTANGLE,
        "width": 0.62,
        "top_depth": None,
        "chosen": False,
    }
    rows.box(
        name="Slot of its own panels",
        kind=Box.Kind.VENTED,
        ql=7.0,
        port_shape=Box.PortShape.SLOT,
        port_lies=Box.Lies.BOTTOM_LEFT,
        port_width=0.2,
        port_height=0.03,
        wanted_tuning=30.0,
        driver_v=0.235,
        **under | {"height": 0.4, "depth": 0.32},
    )
    rows.box(
        name="Two chambers",
        kind=Box.Kind.BAND_PASS_4,
        ql=20.0,
        divider=Box.Divider.UPRIGHT,
        front_volume=0.02,
        port_diameter=0.08,
        port_length=0.09,
        port_u=0.12,
        **under | {"height": 0.36, "depth": 0.42},
    )
    rows.panel(
        "Rear bench back", side="middle", removal="Two bolts at the foot.", airbag_near=False
    )
    rows.node(
        "Battery",
        "battery",
        "engine bay, left",
        side="left",
        voltage=12.5,
        internal_resistance=0.0055,
        cca=680,
        charge=70 * 3600,
        rated_time=20 * 3600,
        peukert=1.25,
    )
    rows.node(
        "Amplifier Mono",
        "amplifier",
        "under the rear bench",
        side="middle",
        equipment="mono",
        standby_current=0.001,
    )
    rows.ground("Battery minus", "post", "engine bay, left", torque=6.0)
    rows.power(
        "Battery",
        "Amplifier Mono",
        "35 mm²",
        4.6,
        fuse="F60",
        fuse_distance=0.16,
        zone="engine bay",
        panels=[("bulkhead, left", "open"), "under the cab carpet", "Rear bench back"],
        minus=("Battery minus", ""),
    )
    _signal(rows)
    rows.speaker("Bass", "2.5 mm²", 1.6, ["Rear bench back"])
    return job


def _signal(rows: Rows) -> None:
    """From the speaker wires of the factory to the amplifier, by way of a line converter."""
    bench = ["Rear bench back"]
    rows.node(
        "Line converter",
        "load",
        "under the rear bench",
        side="middle",
        equipment="converter",
        current=0.15,
        standby_current=0.001,
    )
    rows.power(
        "Battery",
        "Line converter",
        "2.5 mm²",
        4.4,
        fuse="F5",
        fuse_distance=0.16,
        zone="engine bay",
        panels=[("bulkhead, left", "open"), "under the cab carpet", "Rear bench back"],
        minus=("Battery minus", ""),
    )
    high = rows.line(
        "rear speaker wires of the factory",
        "Line converter",
        1.2,
        bench,
        plugs=("splice", "adapter plug"),
        source_resistance=4.0,
        beside_power=0.0,
    )
    rows.line(
        "Line converter", "Amplifier Mono", 0.5, bench, source_resistance=100.0, beside_power=0.0
    )
    rows.control("Line converter", "Amplifier Mono", 0.5, bench, wakes=["mono"])
    rows.join(
        "Rear door plug, right",
        "3, 4",
        high,
        how="crimp",
        colour="BN, BNBK",
        carries="high",
        signal="rear right, both wires",
        level=7.5,
    )
