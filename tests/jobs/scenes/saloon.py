"""A saloon with a vented box on one run, at an early stage."""

from __future__ import annotations

from dataclasses import dataclass

from jobs.models import Box, Channel, EquipmentItem, Job, Panel, PowerNode, Run, Stage
from tests.jobs.factories import (
    HOUR,
    make_amplifier_node,
    make_battery,
    make_box,
    make_car,
    make_channel,
    make_item,
    make_job,
    make_panel,
    make_power_run,
    make_speaker_run,
    place_all,
)
from tests.jobs.scenes.scene import Scene
from tests.jobs.shelf import Shelf


@dataclass(frozen=True, kw_only=True)
class Saloon(Scene):
    """A vented box, a sealed one shown beside it, one amplifier on one run; much still open.

    Nobody looked at the bulkhead, nothing is crimped yet, the amplifier is closed in, and the
    alternator's current at idle and the key-off current are not known.
    """

    box: Box  # vented, the one that is built
    sealed: Box  # the same wood without a port
    flat: EquipmentItem
    mono: EquipmentItem
    bass: Channel
    bench: Panel
    battery: PowerNode
    amplifier: PowerNode
    main_run: Run


def set_saloon(shelf: Shelf) -> Saloon:
    """Build the scene."""
    job = make_job(
        make_car(
            maker="Saloonmaker", model="Four", battery_chemistry="flooded",
            battery_charge=70 * HOUR, charging_current=120.0, charging_current_idle=None,
            charging_hot_share=0.8, vehicle_current=30.0, recovery_current=15.0,
            sleep_current=None, cabin_volume=2.6, cabin_length=1.9, airbag_procedure="",
        ),
        number=639, stage=Stage.AGREED, programme=Job.Programme.COMPRESSED,
    )  # fmt: skip
    flat = make_item(job, shelf["flat"], "box behind the bench")
    mono = make_item(job, shelf["mono"], "under the bench", ventilated=False)
    bass = make_channel(
        job, "Bass", amplifier=mono, amplifier_channel=1, speaker=flat, highpass_frequency=28.0,
        highpass_shape="bw24", lowpass_frequency=80.0, lowpass_shape="lr24",
    )  # fmt: skip
    # The rear wall leans by 9.2 degrees; the port is narrow, so that it is noisy at 12 V.
    wood = {
        "test_voltage": 12.0, "shape": Box.Shape.SLOPED, "width": 0.9, "height": 0.37,
        "depth": 0.185, "top_depth": 0.125, "material": shelf["fibreboard"],
    }  # fmt: skip
    box = make_box(
        job, flat, name="Bench box", kind=Box.Kind.VENTED, wanted_volume=0.032, ql=7.0,
        port_diameter=0.068, port_wall=0.003, wanted_tuning=36.0, port_face="right", **wood,
    )  # fmt: skip
    sealed = make_box(job, flat, name="Without a port", ql=20.0, chosen=False, **wood)
    bench = make_panel(job, "Back of the bench")
    battery = make_battery(
        job, "Car battery", voltage=12.5, internal_resistance=0.0055, cca=680.0,
        charge=70 * HOUR, peukert=1.25,
    )  # fmt: skip
    amplifier = make_amplifier_node(job, "Bass amplifier", mono)
    main = make_power_run(
        battery, amplifier, shelf["35 mm²"], 4.6, fuse=shelf["60 A"], fuse_distance=0.16,
        zone=Run.Zone.ENGINE_BAY, route=[("bulkhead", "open"), "under the carpet", bench],
    )  # fmt: skip
    make_speaker_run(bass, shelf["2.5 mm² pair"], 1.6, from_text="Mono", route=[bench])
    place_all(job)
    return Saloon(
        job=job, box=box, sealed=sealed, flat=flat, mono=mono, bass=bass, bench=bench,
        battery=battery, amplifier=amplifier, main_run=main,
    )  # fmt: skip
