"""Invented parts of invented makers: no such thing can be bought."""

from __future__ import annotations

from typing import Any

from jobs.demo.cable_parts import cables, terminals
from jobs.demo.wood_supplies import supplies
from jobs.models import (
    Amplifier,
    AmplifierRating,
    Cover,
    Damping,
    Driver,
    Fuse,
    Holder,
    Part,
    Processor,
    SheetMaterial,
)
from jobs.units import parse

SOURCE = "invented for the demo"
Kind = Part.Kind
Parts = dict[str, Any]


def _si(**typed: str) -> dict[str, float]:
    """Read figures typed the way a person types them; `name__kind` says what kind each is."""
    figures = {}
    for key, text in typed.items():
        name, _, kind = key.partition("__")
        figures[name] = parse(text, kind)
    return figures


def load_catalogue() -> Parts:
    """Make every part of the demo and return them by a short name."""
    wood = {**_wood(), **supplies()}
    return {**_drivers(), **_electronics(), **cables(), **terminals(), **_fuses(), **wood}


def _driver(
    maker: str, name: str, coils: int = 1, screws: int | None = None, **typed: str
) -> Driver:
    return Driver.objects.create(
        kind=Kind.DRIVER,
        maker=maker,
        name=name,
        coils=coils,
        screws=screws,
        figures_source=SOURCE,
        **_si(**typed),
    )


def _drivers() -> Parts:
    return {
        "sub": _driver(
            "Brackwater",
            "Low 30",
            coils=2,
            fs__frequency="27 Hz",
            qms__ratio="5.2",
            qes__ratio="0.46",
            vas__volume="52 L",
            sd__area="490 cm²",
            re__resistance="1.8 Ω",
            le__inductance="0.35 mH",
            xmax__length="14 mm",
            power__power="500 W",
            nominal_impedance__resistance="2 Ω",
            outer_diameter__length="315 mm",
            cutout_diameter__length="282 mm",
            bolt_circle__length="299 mm",
            screws=8,
            depth__length="146 mm",
            surround_height__length="10 mm",
            magnet_diameter__length="150 mm",
            magnet_height__length="58 mm",
            mass__mass="6.9 kg",
        ),
        "slim": _driver(
            "Brackwater",
            "Flat 25",
            fs__frequency="31 Hz",
            qms__ratio="4.4",
            qes__ratio="0.43",
            vas__volume="26 L",
            sd__area="330 cm²",
            re__resistance="3.4 Ω",
            le__inductance="0.6 mH",
            xmax__length="9 mm",
            power__power="300 W",
            nominal_impedance__resistance="4 Ω",
            outer_diameter__length="265 mm",
            cutout_diameter__length="236 mm",
            bolt_circle__length="251 mm",
            depth__length="82 mm",
            magnet_diameter__length="120 mm",
            magnet_height__length="30 mm",
            mass__mass="3.4 kg",
        ),
        "woofer": _driver(
            "Sallow",
            "Door 16",
            fs__frequency="62 Hz",
            qms__ratio="4.1",
            qes__ratio="0.62",
            vas__volume="9.5 L",
            sd__area="132 cm²",
            re__resistance="3.3 Ω",
            xmax__length="5 mm",
            power__power="90 W",
            nominal_impedance__resistance="4 Ω",
            outer_diameter__length="166 mm",
            cutout_diameter__length="142 mm",
            depth__length="63 mm",
            magnet_diameter__length="90 mm",
            magnet_height__length="22 mm",
            mass__mass="1.3 kg",
        ),
        "midrange": _driver(
            "Sallow",
            "Voice 8",
            fs__frequency="120 Hz",
            sd__area="36 cm²",
            sensitivity__level="88.5 dB",
            nominal_impedance__resistance="4 Ω",
            power__power="50 W",
            outer_diameter__length="86 mm",
            cutout_diameter__length="74 mm",
            depth__length="41 mm",
        ),
        "tweeter": _driver(
            "Sallow",
            "Air 25",
            fs__frequency="1.1 kHz",
            sensitivity__level="90 dB",
            nominal_impedance__resistance="4 Ω",
            power__power="40 W",
            outer_diameter__length="44 mm",
        ),
    }


def _amplifier(
    name: str, channels: int, ratings: list[tuple[bool, float, float]], **figures: Any
) -> Amplifier:
    amplifier = Amplifier.objects.create(
        kind=Kind.AMPLIFIER,
        maker="Tolvane",
        name=name,
        channels=channels,
        figures_source=SOURCE,
        **figures,
    )
    for bridged, load, power in ratings:
        AmplifierRating.objects.create(amplifier=amplifier, bridged=bridged, load=load, power=power)
    amplifier.note_what_hangs()
    return amplifier


def _body(length: float, breadth: float) -> dict[str, float]:
    """Size, screws and air of an amplifier: its feet stand 10 mm in from its ends."""
    return {
        "body_length": length,
        "body_width": breadth,
        "body_height": 0.058,
        "holes_along": length - 0.02,
        "holes_across": breadth - 0.03,
        "fixing_hole": 0.0035,
        "air_round": 0.04,
    }


def _electronics() -> Parts:
    return {
        "six": _amplifier(
            "Six",
            6,
            [(False, 4, 75), (False, 2, 120), (True, 4, 240)],
            lowest_load=2,
            lowest_load_bridged=4,
            efficiency=0.82,
            minimum_voltage=9.5,
            highest_voltage=16.0,
            fuse_rating=60,
            mass=3.8,
            quiescent_current=0.9,
            turn_on_current=0.01,
            **_body(0.31, 0.205),
        ),
        "mono": _amplifier(
            "Mono",
            1,
            [(False, 4, 320), (False, 2, 560)],
            lowest_load=2,
            efficiency=0.84,
            minimum_voltage=9.5,
            highest_voltage=16.0,
            fuse_rating=60,
            mass=3.1,
            quiescent_current=0.7,
            turn_on_current=0.01,
            **_body(0.24, 0.205),
        ),
        "processor": Processor.objects.create(
            kind=Kind.PROCESSOR,
            maker="Ostrell & Pike",
            name="Eight",
            inputs=6,
            sample_rate=48_000,
            bands=10,
            most_boost=6.0,
            most_cut=15.0,
            lowest_q=0.5,
            highest_q=10.0,
            outputs=8,
            current=0.8,
            turn_on_limit=0.3,
            highest_input=4.0,
            minimum_voltage=8.0,
            highest_voltage=16.0,
            fuse_rating=5,
            mass=0.6,
            figures_source=SOURCE,
        ),
        "converter": Processor.objects.create(
            kind=Kind.PROCESSOR,
            device=Processor.Device.CONVERTER,
            maker="Ostrell & Pike",
            name="Two high, two line",
            inputs=2,
            outputs=2,
            current=0.15,
            turn_on_limit=0.2,
            highest_input=20.0,
            wakes_itself=True,
            minimum_voltage=9.0,
            highest_voltage=16.0,
            fuse_rating=5,
            mass=0.3,
            figures_source=SOURCE,
        ),
        "interface": Processor.objects.create(
            kind=Kind.PROCESSOR,
            device=Processor.Device.INTERFACE,
            maker="Ostrell & Pike",
            name="Bus to line",
            outputs=2,
            current=0.25,
            turn_on_limit=0.2,
            wakes_itself=True,
            minimum_voltage=9.0,
            highest_voltage=16.0,
            fuse_rating=5,
            mass=0.2,
            figures_source=SOURCE,
        ),
        "battery": Part.objects.create(
            kind=Kind.OTHER, maker="Quennor", name="Leisure 95 battery", mass=26.4
        ),
        "charger": Part.objects.create(
            kind=Kind.OTHER, maker="Quennor", name="Charger 30", mass=1.4
        ),
        "block": Holder.objects.create(
            kind=Kind.HOLDER,
            maker="Quennor",
            name="Fused block, four ways",
            ways=4,
            rated_current=200,
            largest_cable=35e-6,
            figures_source=SOURCE,
        ),
        "lead holder": _holder(
            "Holder on leads, for one cartridge", Fuse.Type.CARTRIDGE, 15, 2.5e-6
        ),
        "strip holder": _holder("Holder for one strip fuse", Fuse.Type.SF51, 200, 50e-6, "M8"),
        "short holder": _holder(
            "Holder for one short strip fuse", Fuse.Type.SF30, 100, 35e-6, "M8"
        ),
    }


def _holder(name: str, takes: str, rating: float, largest: float, stud: str = "") -> Holder:
    return Holder.objects.create(
        kind=Kind.HOLDER,
        maker="Ferrow",
        name=name,
        ways=1,
        takes=takes,
        rated_current=rating,
        largest_cable=largest,
        stud=stud,
        figures_source=SOURCE,
    )


def _fuse(kind: str, rating: float, breaking: float | None, multiple: float, time: float) -> Fuse:
    """Make a fuse with three points of its curve."""
    return Fuse.objects.create(
        kind=Kind.FUSE,
        maker="Ferrow",
        name=f"{Fuse.Type(kind).label} {rating:g} A",
        type=kind,
        rating=rating,
        voltage=32,
        breaking_capacity=breaking,
        curve=[[2, 60 * time], [multiple, time], [2 * multiple, time / 5]],
        figures_source=SOURCE,
    )


def _fuses() -> Parts:
    strip, small = Fuse.Type.SF51, Fuse.Type.SF30
    return {
        "F150": _fuse(strip, 150, 6000, 6, 0.4),
        "F125": _fuse(strip, 125, 6000, 6, 0.4),
        "F100": _fuse(strip, 100, 6000, 6, 0.4),
        "F80": _fuse(small, 80, 5000, 6, 0.2),
        "F60": _fuse(small, 60, 5000, 6, 0.2),
        "F50": _fuse(small, 50, 5000, 6, 0.2),
        "F40": _fuse(small, 40, 5000, 6, 0.15),
        "F1": _fuse(Fuse.Type.CARTRIDGE, 1, 10000, 6, 0.02),
        "F5": _fuse(Fuse.Type.CARTRIDGE, 5, 10000, 6, 0.02),
        # Its sheet gives no breaking capacity: a finding on every run it is put in.
        "F40 unknown": _fuse(Fuse.Type.MAXI, 40, None, 6, 0.2),
    }


def _wood() -> Parts:
    return {
        "birch": SheetMaterial.objects.create(
            kind=Kind.SHEET_MATERIAL,
            maker="Velmorrick",
            name="Birch plywood 18",
            thickness=0.0177,
            sheet_length=2.44,
            sheet_width=1.22,
            density=685,
            stiffness=9e9,
            strength=3.6e7,
            grained=True,
            figures_source="measured on the sheet in the shop (invented)",
        ),
        "fibreboard": SheetMaterial.objects.create(
            kind=Kind.SHEET_MATERIAL,
            maker="Velmorrick",
            name="Fibreboard 16",
            thickness=0.0161,
            sheet_length=2.8,
            sheet_width=2.07,
            density=750,
            stiffness=3e9,
            strength=2.2e7,
            figures_source="measured on the sheet in the shop (invented)",
        ),
        "carpet": Cover.objects.create(
            kind=Kind.COVER,
            maker="Velmorrick",
            name="Loop carpet, charcoal",
            thickness=0.004,
            roll_width=1.5,
            area_mass=0.65,
            directed=True,
            figures_source="measured glued down, in the shop (invented)",
        ),
        "damping": Damping.objects.create(
            kind=Kind.DAMPING,
            maker="Velmorrick",
            name="Butyl sheet with foil",
            thickness=0.002,
            effect=Damping.Effect.LAYER,
            area_mass=3.4,
            sheet_area=0.25,
            figures_source=SOURCE,
        ),
    }
