"""J-0001: an estate car in the bay; sealed box in the boot-floor cavity, active front."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from django.utils import timezone

from jobs.demo.catalogue import Parts
from jobs.demo.estate_wiring import SEAT, add_wiring
from jobs.demo.rows import Rows
from jobs.demo.seat import load_seat, load_set
from jobs.demo.sweeps import Specimen, sweep_text
from jobs.models import (
    Box,
    CabinCurve,
    CarTemplate,
    Channel,
    Customer,
    FactoryPart,
    Job,
    PanelStep,
    Stage,
    User,
    Vehicle,
)
from jobs.models.curves import BoxSweep, DriverSweep


def load_estate(parts: Parts, people: dict[str, User]) -> Job:
    """Make the job with everything that hangs on it."""
    vehicle = Vehicle.objects.create(
        customer=Customer.objects.create(
            name="Leonie Marsh", phone="000 555 0177", email="leonie@marsh.invalid"
        ),
        maker="Norvane",
        model="Tarn",
        body="estate, five doors",
        year=2021,
        plate="OX 417 T",
        colour="slate grey",
        driver_side="left",
        energy="combustion",
        battery_place="boot floor, right",
        battery_chemistry="agm",
        battery_charge=80 * 3600,
        battery_cca=800,
        charging_source="alternator",
        charging_current=150,
        charging_current_idle=85,
        charging_hot_share=0.85,
        vehicle_current=45,
        recovery_current=12,
        sleep_current=0.022,
        start_stop=True,
        smart_charging=True,
        cabin_volume=3.2,
        cabin_length=2.6,
        airbag_procedure="Workshop manual of the car, section “Airbag, before you begin”: isolate "
        "as written there and keep the waiting time printed there.",
    )
    job = Job.objects.create(
        number=1,
        vehicle=vehicle,
        stage=Stage.BAY,
        title="Hidden bass and an active front, boot floor stays flat",
        consultant=people["consultant"],
        promised_on=date(2026, 12, 4),
        wishes="“I want to hear the double bass on the motorway, and nobody should see a thing. "
        "The boot must stay a boot.”",
        listening="Jazz and singer-songwriters, driver's seat, moderate level",
        programme=Job.Programme.MUSIC,
        calls_heard=True,
        reserve_wanted=1800,
        looks="hidden",
        heavier_at_most=45,
        undrilled=True,
        space_to_keep="Boot floor flat; the tools stay within reach",
        must_stay_factory="Head unit, rear doors, steering-wheel buttons",
        budget=Decimal(4200),
        why_this="One large, slow woofer in a sealed box reaches the double bass without a sound "
        "of its own, and under the floor it costs no height. Each speaker at the front has an "
        "amplifier channel of its own, so that the voice stands where the dashboard is. The rear "
        "doors stay as the car came: passengers hear what they always heard.",
        how_to_use="The volume is set where it always was, on the steering wheel. In a call the "
        "music fades and the voice comes from the front. Memory 1 is for the driver, memory 2 for "
        "everybody; the small button beside the boot lamp changes between them.",
        care_notes="Wipe the boot floor dry after wet loads. Let the battery rest charged.",
    )
    rows = Rows(job, parts)
    _equipment(rows)
    _measured(rows, people["installer"])
    _factory(rows)
    _channels(rows)
    _box(rows)
    _cabin(rows)
    _panels(rows)
    add_wiring(rows)
    _bay(rows, people["installer"])
    load_seat(job)
    load_set(job)
    return job


def _equipment(rows: Rows) -> None:
    rows.item("sub", "boot-floor box", 1, state="in", serial="L30-00417")
    rows.item("woofer", "front doors, bottom", 2, state="fitted")
    rows.item("midrange", "front doors, top", 2, state="fitted")
    rows.item("tweeter", "mirror corners", 2, state="fitted")
    rows.item("six", "boot, left side pocket", 1, state="in", ventilated=True, serial="S6-1182")
    rows.item("mono", "boot, left side pocket", 1, state="in", ventilated=True, serial="M1-0340")
    rows.item("processor", "boot, left side pocket", 1, state="in", serial="8-02977")
    rows.item(
        "interface",
        SEAT,
        1,
        state="in",
        serial="B2-0119",
        held_into="2 × M5, threaded points of the factory amplifier's bracket",
    )
    rows.item("block", "boot, beside the battery", 1, state="in")
    rows.item("damping", "front doors, outer skins", 4, state="fitted")


def _measured(rows: Rows, installer: User) -> None:
    """The sub on the bench before the box is cut: stiffer and more damped than its sheet says."""
    specimen, mass = Specimen(), 0.06
    DriverSweep.objects.create(
        job=rows.job,
        item=rows.items["sub"],
        specimen="L30-00417",
        measured_on=date(2026, 11, 18),
        measured_by=installer.full_name,
        coils=DriverSweep.Coils.SERIES,
        content=sweep_text(specimen, 1),
        method=DriverSweep.Method.MASS,
        added_mass=mass,
        second=sweep_text(specimen.loaded(mass), 2),
    )


def _factory(rows: Rows) -> None:
    for place in ("front door left", "front door right"):
        rows.factory(f"{place}", "speaker", "replaced", "boxed and given to the customer")
    for place in ("rear door left", "rear door right"):
        rows.factory(place, "speaker", "in_use")
    rows.factory("dashboard", "head_unit", "in_use")
    rows.factory(SEAT, "amplifier", "in_use", "feeds the rear doors")
    rows.factory(
        "boot, right side", "connector", "unplugged", "sleeved and tied to the loom where it was"
    )


def _channels(rows: Rows) -> None:
    head = "factory head unit"
    ways = [
        ("tweeter", "Tweeter", 3200.0, None),
        ("midrange", "Midrange", 380.0, 3200.0),
        ("woofer", "Woofer", 70.0, 380.0),
    ]
    number = 1
    # From each cone to the driver's head, by the tape: car driven on the left.
    tape = {"left": (0.88, 0.97, 1.12), "right": (1.31, 1.42, 1.58)}
    for side, near in (("left", 0.0021), ("right", 0.0)):
        for (part, name, high, low), distance in zip(ways, tape[side], strict=True):
            rows.channel(
                f"{name} {side}",
                head,
                side=side,
                distance=distance,
                processor="processor",
                processor_output=number,
                amplifier="six",
                amplifier_channel=number,
                speaker=part,
                highpass_frequency=high,
                highpass_shape="lr24",
                lowpass_frequency=low,
                lowpass_shape="lr24" if low else "",
                delay=near,
            )
            number += 1
    rows.channel(
        "Bass",
        head,
        side=Channel.Side.BOTH,
        distance=2.05,
        processor="processor",
        processor_output=7,
        amplifier="mono",
        amplifier_channel=1,
        speaker="sub",
        coil_connection=Channel.Connection.SERIES,
        highpass_frequency=22.0,
        highpass_shape="bw12",
        lowpass_frequency=70.0,
        lowpass_shape="lr24",
        level=-3.0,
    )
    for side in ("left", "right"):
        speaker = FactoryPart.objects.get(job=rows.job, place=f"rear door {side}")
        rows.channel(f"Rear door {side}", "factory amplifier", factory_speaker=speaker, side=side)


def _box(rows: Rows) -> None:
    rows.box(
        name="Boot-floor box",
        kind=Box.Kind.SEALED,
        place="cavity under the boot floor, right of the spare wheel",
        driver="sub",
        channel="Bass",
        wanted_volume=0.032,
        ql=20.0,
        fill=1.0,
        shape=Box.Shape.SLOPED,
        width=0.48,
        height=0.36,
        depth=0.335,
        top_depth=0.225,
        material="birch",
        brace_count=0,
        cavity_profile=[[-0.02, -0.01], [0.37, -0.01], [0.25, 0.385], [-0.02, 0.385]],
        cavity_width=0.52,
    )


def _cabin(rows: Rows) -> None:
    """What the boot of this car did to a test box; made up, as everything here."""
    gains = {
        16: 16.5, 20: 15.0, 25: 13.5, 31.5: 11.5, 40: 8.5, 50: 5.5, 63: 3.0, 80: -1.5,
        100: 1.5, 125: -3.0, 160: 0.5, 200: -2.0, 250: 1.0, 315: -1.0, 400: 0.5,
    }  # fmt: skip
    lines = [f"{frequency}\t{gain}" for frequency, gain in gains.items()]
    CabinCurve.objects.create(
        job=rows.job,
        place="test box in the boot, microphone at the driver's head, windows shut",
        measured_on=date(2026, 11, 12),
        measured_by="Mika Orsay",
        content="\n".join(["Hz\tdB", *lines]),
    )


def _panels(rows: Rows) -> None:
    rows.panel(
        "Boot floor",
        side="middle",
        removal="Lift out, unhook the two straps.",
        fixings="two straps, four plastic nuts",
        airbag_near=False,
    )
    rows.panel(
        "Boot side trim, left",
        side="left",
        removal="Three clips, then pull inwards; the lamp unplugs.",
        fixings="three clips, one screw behind the lamp",
        tools="clip fork, cross-head screwdriver",
        airbag_near=True,
    )
    rows.panel(
        "Sill trim, left",
        side="left",
        removal="Pull straight up, front clip first.",
        fixings="six clips",
        airbag_near=False,
    )
    for side in ("left", "right"):
        rows.panel(
            f"Front door card, {side}",
            side=side,
            removal="Two screws behind the grip, one in the corner, then eight clips round.",
            fixings="three screws, eight clips",
            tools="cross-head screwdriver, broad plastic lever",
            airbag_near=True,
            glass_near=True,
            rattle_note="felt tape between card and inner skin, rods of the lock wrapped",
        )
    brackets = "two M6 into the floor brackets"
    rows.behind("Boot floor", box="Boot-floor box", fixing=brackets)
    rows.behind("Boot floor", equipment="sub", serial="L30-00417", fixing="in its box")
    rows.behind("Boot floor", equipment="block", fixing="beside the battery, two screws")
    rows.behind("Boot floor", factory="boot, right side", fixing="where it was")
    board = "board on four rubber feet"
    for item, serial in (("six", "S6-1182"), ("mono", "M1-0340"), ("processor", "8-02977")):
        rows.behind("Boot side trim, left", equipment=item, serial=serial, fixing=board)
    for side, number in (("left", "1"), ("right", "2")):
        door, ring = f"Front door card, {side}", "plywood ring, six screws"
        rows.behind(door, equipment="woofer", serial=f"W16-77{number}", fixing=ring)
        rows.behind(door, equipment="midrange", serial=f"M8-30{number}", fixing="factory holes")
        rows.behind(door, equipment="damping", pieces=2, fixing="outer skin, rolled on")
        rows.damping(door, "outer skin", area=0.6, coverage=0.8)
        corner = f"mirror corner, {side}"
        rows.behind(corner, equipment="tweeter", serial=f"T2-14{number}", fixing="two clips")
        rows.fixing(door, "push clip, white", 8, part_number="ND-4410", breaks=True, spares=2)
    rows.behind(
        SEAT, equipment="interface", serial="B2-0119", fixing="beside the factory amplifier, two M5"
    )
    rows.fixing("Sill trim, left", "metal spring clip", 6, part_number="ND-3307")


def _bay(rows: Rows, installer: User) -> None:
    now = timezone.now()
    steps = {
        "Boot floor": ["Battery off: negative lead first.", "Set the box, two M6.", "Fit P01."],
        "Boot side trim, left": ["Mount the board.", "Connect P02, P03, P04.", "Photograph."],
        "Front door card, left": ["Damp the outer skin.", "Ring, woofer, S03.", "Photograph."],
        "Front door card, right": ["Damp the outer skin.", "Ring, woofer, S06.", "Photograph."],
    }
    for panel, texts in steps.items():
        for text in texts:
            done = panel == "Boot floor"
            rows.step(
                panel,
                text,
                wants_photo=text == "Photograph.",
                done_by=installer if done else None,
                done_at=now if done else None,
            )
    off, on = PanelStep.Phase.REMOVAL, PanelStep.Phase.REFIT
    for side in ("left", "right"):
        door = f"Front door card, {side}"
        rows.step(door, "Window all the way up.", phase=off)
        rows.step(door, "Water film back on, sealed all round.", phase=on, wants_photo=True)
        rows.step(door, "Window, lock and handle tried, then press it on.", phase=on)
    rows.step("Boot floor", "Spare wheel and jack back and held.", phase=on)
    CarTemplate.objects.create(
        job=rows.job, name="Norvane Tarn, estate", takes=["car", "factory", "panels", "cavities"]
    )
    # The box in its place, measured before the amplifier is connected: hardly off its drawing.
    BoxSweep.objects.create(
        job=rows.job,
        box=rows.job.boxes.get(),
        measured_on=date(2026, 11, 26),
        measured_by=installer.full_name,
        content=sweep_text(Specimen(fs=45.0, re=3.62, qms=6.6, qes=0.77, le=0.0014, lossy=0.0), 4),
    )
    rows.measure("Battery, everything off", "voltage", (12.4, 12.8), 12.62, installer)
    rows.measure("Block to battery minus, 40 A flowing", "voltage", (None, 0.1))
    rows.measure("Bass speaker at the amplifier's plug", "resistance", (3.5, 3.9))
    rows.measure("Key-off current after sleep", "current", (None, 0.05))
    rows.differently("L01", installer, "The duct beside the handbrake was full.", length=4.2)
    rows.exchanged("processor", installer, "The first one did not wake up.", serial="8-03110")
    rows.kept_elsewhere(
        "boot, right side", installer, "Its holder is under the box now.", "taped to the loom"
    )
