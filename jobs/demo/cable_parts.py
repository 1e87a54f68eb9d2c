"""Invented cable by the metre, and what is crimped on it."""

from __future__ import annotations

from typing import Any

from jobs.models import Conductor, Part, Terminal
from jobs.units import kelvin

SOURCE = "invented for the demo"
Metal, Metals = Conductor.Metal, Terminal.Metals


def cables() -> dict[str, Any]:
    """Make every cable: over the insulation in mm, its class in °C."""
    return {
        "35 mm²": _cable("35 mm²", 105, "RD", 11.5),
        "16 mm²": _cable("16 mm²", 105, "RD", 8.2),
        "10 mm²": _cable("10 mm²", 105, "RD", 6.8),
        "4 AWG": _cable("4 AWG", 105, "RD", 9.2),
        "8 AWG CCA": _cable("8 AWG", 105, "RD", 6.0, metal=Metal.CCA_15),
        "4 mm²": _cable("4 mm²", 105, "RD", 4.4),
        "2.5 mm²": _cable("2.5 mm²", 105, "RD", 3.6),
        "2.5 mm² pair": _cable("2.5 mm²", 90, "WH", 7.6, name="pair", cores=2),
        "1.5 mm² pair": _cable("1.5 mm²", 90, "WH", 6.4, name="pair", cores=2),
        "0.5 mm²": _cable("0.5 mm²", 90, "BU", 2.0),
        "0.5 mm² twisted": _cable("0.5 mm²", 90, "WH", 4.2, name="twisted pair", cores=2),
        "0.5 mm² screened": _cable(
            "0.5 mm²", 90, "GY", 4.0, name="screened", screened=True, capacitance=95e-12
        ),
    }


def _cable(
    size: str,
    degrees: float,
    colour: str,
    diameter: float,
    *,
    name: str = "",
    metal: str = Metal.COPPER,
    **more: Any,
) -> Conductor:
    return Conductor.objects.create(
        kind=Part.Kind.CONDUCTOR,
        maker="Ferrow",
        name=" ".join(part for part in (size, name or colour) if part),
        size=size,
        metal=metal,
        insulation_temperature=kelvin(degrees),
        colour=colour,
        outer_diameter=diameter / 1000,
        figures_source=SOURCE,
        **more,
    )


def terminals() -> dict[str, Any]:
    """Make a ring for every stud, a ferrule for every clamp, a sleeve for every blade."""
    rings = {
        "35 mm²": ("M8", 11.0),
        "16 mm²": ("M8", 11.0),
        "10 mm²": ("M8", 11.0),
        "2.5 mm²": ("M5", 4.0),
    }
    ferrules = ("35 mm²", "16 mm²", "10 mm²")
    sleeves = ("2.5 mm²", "1.5 mm²", "0.5 mm²")
    return {
        **{
            f"ring {size}": _terminal(f"Ring {size}, {stud}", size, stud, force)
            for size, (stud, force) in rings.items()
        },
        # What is thin and goes on a thick stud: a turn-on lead, the minus of a processor.
        "ring 0.5 mm², M8": _terminal("Ring 0.5 mm², M8", "0.5 mm²", "M8", 11.0),
        "ring 2.5 mm², M8": _terminal("Ring 2.5 mm², M8", "2.5 mm²", "M8", 11.0),
        "splice": _terminal("Splice 0.5 mm²", "0.5 mm²"),
        "splice 2.5 mm²": _terminal("Splice 2.5 mm²", "2.5 mm²"),
        "phono plug": _terminal("Phono plug, on its lead", "0.5 mm²", plug=True),
        "adapter plug": _terminal("Adapter plug of the factory loom", "0.5 mm²", plug=True),
        **{f"end {size}": _terminal(f"Ferrule {size}", size) for size in ferrules},
        **{f"end {size}": _terminal(f"Blade sleeve {size}", size) for size in sleeves},
    }


def _terminal(
    name: str, size: str, stud: str = "", torque: float | None = None, *, plug: bool = False
) -> Terminal:
    area = float(size.split()[0]) * 1e-6
    return Terminal.objects.create(
        kind=Part.Kind.TERMINAL,
        maker="Ferrow",
        name=name,
        metals=Metals.COPPER,
        stud=stud,
        torque=torque,
        smallest_cable=area,
        largest_cable=area,
        plug=plug,
        figures_source=SOURCE,
    )
