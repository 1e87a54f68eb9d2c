"""A catalogue cable or fuse and the air around a run, as the wiring package knows them."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from jobs import units
from jobs.models import Conductor, Fuse, Run, Terminal
from wiring.cable import conductor as make
from wiring.cable.ampacity import ZONE_AMBIENT
from wiring.cable.conductor import METALS
from wiring.cable.conductor import Conductor as Core
from wiring.cable.fuse import FittedFuse
from wiring.cable.fuse import Fuse as FusePart
from wiring.cable.markings import colour_names
from wiring.cable.terminals import CrimpTerminal
from wiring.errors import OutsideTableError


def core(part: Conductor) -> Core:
    """Return the cable core: size as marked, metal, insulation class, the maker's rating."""
    insulation = part.insulation_temperature
    return _core(
        part.size,
        part.metal,
        None if insulation is None else units.celsius(insulation),
        part.ampacity,
        "" if part.ampacity is None else part.figures_source or f"sheet of {part}",
        part.outer_diameter,
    )


@lru_cache(maxsize=256)  # a job lays the same few cables many times
def _core(
    marked: str,
    metal: str,
    insulation: float | None,
    ampacity: float | None,
    source: str,
    diameter: float | None,
) -> Core:
    size = units.parse_conductor(marked)
    figures: dict[str, Any] = {
        "metal": metal,
        "insulation": insulation,
        "rated_current": ampacity,
        "rated_source": source,
        "outer_diameter": diameter,
    }
    if size.system == "awg":
        return make.awg(size.size, **figures)
    if size.system == "sae":
        return make.sae(size.size, **figures)
    area = units.parse(f"{size.size} mm²", "cross_section")
    return make.metric(area, **figures)


# What the wiring package calls each of the catalogue's fuse types.
FUSE_KINDS = {
    Fuse.Type.MINI: "blade type F",
    Fuse.Type.BLADE: "blade type C",
    Fuse.Type.MAXI: "blade type E",
    Fuse.Type.SF30: "strip SF30",
    Fuse.Type.SF51: "strip SF51",
    Fuse.Type.CARTRIDGE: "cartridge",
    Fuse.Type.BREAKER: "circuit breaker",
}


def fitted(part: Fuse | None, *, distance: float | None, sheathed: bool) -> FittedFuse | None:
    """Return a fuse where it sits, or None where there is none."""
    if part is None:
        return None
    fuse = FusePart(
        kind=FUSE_KINDS[Fuse.Type(part.type)],
        rating=part.rating,
        breaking_capacity=part.breaking_capacity,
        voltage=part.voltage,
        rerating=part.rerating,
        opening=tuple((multiple, time) for multiple, time in part.curve),
    )
    return FittedFuse(fuse=fuse, distance=distance, sheathed=sheathed)


_ALUMINIUM = frozenset(METALS) - {"copper"}
_METALS: dict[str, frozenset[str] | None] = {
    "": None,
    Terminal.Metals.COPPER: frozenset({"copper"}),
    Terminal.Metals.ALUMINIUM: _ALUMINIUM,
    Terminal.Metals.BOTH: frozenset(METALS),
}


def terminal(part: Terminal | None) -> CrimpTerminal | None:
    """Return a crimp terminal, or None where none is chosen."""
    if part is None:
        return None
    return CrimpTerminal(
        name=str(part),
        metals=_METALS[part.metals],
        torque=part.torque,
        on_stud=bool(part.stud),
        stud=part.stud,
        smallest=part.smallest_cable,
        largest=part.largest_cable,
        crimped=not part.plug,
    )


def air_round(run: Run) -> float:
    """The air round a run [°C]: measured, or of its zone; the hottest while nobody said where."""
    if run.ambient is not None:
        return units.celsius(run.ambient)
    return ZONE_AMBIENT.get(run.zone, max(ZONE_AMBIENT.values()))


def for_aluminium(parts: Sequence[Terminal | None]) -> bool | None:
    """Whether every one of these terminals is made for aluminium; None where nobody knows."""
    made_for = [_METALS[part.metals] if part else None for part in parts]
    if any(metals is not None and not metals >= _ALUMINIUM for metals in made_for):
        return False
    return None if None in made_for else True


def is_colour(letters: str) -> bool:
    """Whether these are colour letters of IEC 60757."""
    try:
        colour_names(letters)
    except OutsideTableError:
        return False
    return True
