"""The catalogue of the test workshop by short names: every part and figure is invented.

Tests may read a figure here and work from it by hand, so a figure is changed only together with
the scene it was chosen for.
"""

from __future__ import annotations

from typing import Any

from jobs.models import Conductor, Damping, Fuse, Holder, Part
from tests.jobs.factories import (
    make_amplifier,
    make_conductor,
    make_driver,
    make_fuse,
    make_part,
    make_processor,
    make_sheet_material,
    make_terminal,
)

Shelf = dict[str, Any]


def stock_shelf() -> Shelf:
    """Make every part."""
    return {**_drivers(), **_electronics(), **_cables(), **_terminals(), **_fuses(), **_wood()}


def _drivers() -> Shelf:
    return {
        # Two coils: its channel decides between 4 Ω and 1 Ω.
        "sub": make_driver(
            "Sub 30", coils=2, fs=27.0, qms=5.2, qes=0.46, vas=0.052, sd=0.049, re=1.8,
            le=0.35e-3, xmax=0.014, power=500.0, nominal_impedance=2.0, outer_diameter=0.315,
            cutout_diameter=0.282, bolt_circle=0.299, depth=0.146, magnet_diameter=0.150,
            magnet_height=0.058, mass=6.9,
        ),
        # Flat, for a box between a bench and a wall.
        "flat": make_driver(
            "Flat 25", fs=31.0, qms=4.4, qes=0.43, vas=0.026, sd=0.033, re=3.4, le=0.6e-3,
            xmax=0.009, power=300.0, nominal_impedance=4.0, outer_diameter=0.265,
            cutout_diameter=0.236, bolt_circle=0.251, depth=0.082, magnet_diameter=0.120,
            magnet_height=0.030, mass=3.4,
        ),
        "woofer": make_driver(
            "Woofer 16", fs=62.0, qms=4.1, qes=0.62, vas=0.0095, sd=0.0132, re=3.3, xmax=0.005,
            power=90.0, nominal_impedance=4.0, outer_diameter=0.166, cutout_diameter=0.142,
            depth=0.063, magnet_diameter=0.090, magnet_height=0.022, mass=1.3,
        ),
        # Of these two only the load is known: they stand in no box.
        "midrange": make_driver(
            "Midrange 8", nominal_impedance=4.0, power=50.0, outer_diameter=0.086,
            cutout_diameter=0.074, depth=0.041,
        ),
        "tweeter": make_driver(
            "Tweeter 25", nominal_impedance=4.0, power=40.0, outer_diameter=0.044
        ),
    }  # fmt: skip


def _electronics() -> Shelf:
    return {
        "six": make_amplifier(
            "Six", channels=6, ratings=[(False, 4, 75), (False, 2, 120), (True, 4, 240)],
            lowest_load=2.0, lowest_load_bridged=4.0, efficiency=0.82, quiescent_current=0.9,
        ),
        "mono": make_amplifier(
            "Mono", channels=1, ratings=[(False, 4, 320), (False, 2, 560)],
            lowest_load=2.0, efficiency=0.84, quiescent_current=0.7,
        ),
        # Its turn-on output switches both amplifiers (2 × 10 mA) with room to spare.
        "processor": make_processor("Processor", inputs=6, outputs=8, current=0.8,
                                    turn_on_limit=0.3),
        "battery": make_part("Battery 95"),
        "block": make_part("Fused block"),
        "damping": Damping.objects.create(
            kind=Part.Kind.DAMPING, name="Damping sheet", effect="layer", area_mass=3.0,
            sheet_area=0.2,
        ),
    }  # fmt: skip


def _cables() -> Shelf:
    return {
        "35 mm²": make_conductor("35 mm²", diameter=0.0115),
        "16 mm²": make_conductor("16 mm²", diameter=0.0082),
        "10 mm²": make_conductor("10 mm²", diameter=0.0068),
        "4 AWG": make_conductor("4 AWG", diameter=0.0092),
        # The one cable that is not copper.
        "clad": make_conductor("8 AWG", diameter=0.0060, metal=Conductor.Metal.CCA_15),
        "4 mm²": make_conductor("4 mm²", diameter=0.0044),
        "2.5 mm²": make_conductor("2.5 mm²", diameter=0.0036),
        "2.5 mm² pair": _pair("2.5 mm²", 0.0076),
        "1.5 mm² pair": _pair("1.5 mm²", 0.0064),
        "0.5 mm²": make_conductor("0.5 mm²", degrees=90, diameter=0.0020, colour="BU"),
        "0.5 mm² screened": make_conductor(
            "0.5 mm²", degrees=90, diameter=0.0040, colour="GY", screened=True, capacitance=95e-12
        ),
    }  # fmt: skip


def _pair(size: str, diameter: float) -> Conductor:
    return make_conductor(
        size, degrees=90, diameter=diameter, name=f"{size} pair", cores=2, colour="WH"
    )


def _terminals() -> Shelf:
    """A ring for every stud, a ferrule for every clamp, a sleeve for every blade."""
    rings = {"35 mm²": ("M8", 11.0), "16 mm²": ("M8", 11.0), "2.5 mm²": ("M5", 4.0)}
    return {
        **{
            f"ring {size}": make_terminal(
                f"Ring {size}", stud=stud, torque=torque, **_made_for(size)
            )
            for size, (stud, torque) in rings.items()
        },
        "plug": make_terminal("Plug on its lead", plug=True, **_made_for("0.5 mm²")),
        # For the thin minus on the studs of a ground bar.
        "ring 2.5 mm², M8": make_terminal(
            "Ring 2.5 mm², M8", stud="M8", torque=11.0, **_made_for("2.5 mm²")
        ),
        **{
            f"end {size}": make_terminal(f"End {size}", **_made_for(size))
            for size in ("35 mm²", "16 mm²", "2.5 mm²", "1.5 mm²", "0.5 mm²")
        },
    }


def _made_for(size: str) -> dict[str, float]:
    """A terminal for one size of cable alone."""
    area = float(size.split()[0]) * 1e-6
    return {"smallest_cable": area, "largest_cable": area}


def _fuses() -> Shelf:
    """Every rating with a breaking capacity well above what a battery of 4 mΩ can give (3 kA)."""
    strip, small = Fuse.Type.SF51, Fuse.Type.SF30
    one: Shelf = {"kind": Part.Kind.HOLDER, "ways": 1}
    return {
        "150 A": make_fuse(150, strip, breaking=6000, time=0.4),
        "125 A": make_fuse(125, strip, breaking=6000, time=0.4),
        "100 A": make_fuse(100, strip, breaking=6000, time=0.4),
        "80 A": make_fuse(80, small, breaking=5000, time=0.2),
        "60 A": make_fuse(60, small, breaking=5000, time=0.2),
        "50 A": make_fuse(50, small, breaking=5000, time=0.2),
        "40 A": make_fuse(40, small, breaking=5000, time=0.15),
        "1 A": make_fuse(1, Fuse.Type.CARTRIDGE, breaking=10000, time=0.02),
        "5 A": make_fuse(5, Fuse.Type.CARTRIDGE, breaking=10000, time=0.02),
        # Nobody read its breaking capacity: a finding on every run it is put in.
        "40 A unread": make_fuse(40, Fuse.Type.MAXI, breaking=None, time=0.2),
        "holder": Holder.objects.create(
            name="Strip holder", **one, stud="M8", rated_current=200.0, largest_cable=50e-6
        ),
        "lead holder": Holder.objects.create(
            name="Lead holder", **one, rated_current=15.0, largest_cable=2.5e-6
        ),
    }


def _wood() -> Shelf:
    return {
        "birch": make_sheet_material(
            "Birch 18", thickness=0.0177, size=(2.44, 1.22), density=685.0, stiffness=9e9,
            strength=3.6e7,
            grained=True,
        ),
        "fibreboard": make_sheet_material(
            "Fibreboard 16", thickness=0.0161, size=(2.8, 2.07), density=750.0, stiffness=3e9
        ),
    }  # fmt: skip
