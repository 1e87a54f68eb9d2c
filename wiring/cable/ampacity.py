"""Current a conductor may carry in its surroundings.

API: `ampacity(conductor, ambient=..., bundled=...) -> Ampacity`, `assumed`, `ambient_factor`,
`bundle_factor`, `ZONE_AMBIENT`, `TABLE_5`.
"""

from dataclasses import dataclass, replace

from wiring.cable.conductor import IACS, Conductor, awg_area
from wiring.errors import (
    COUNT,
    InsulationTooColdError,
    OutOfRangeError,
    OutsideTableError,
    UnknownDataError,
)
from wiring.names import Name
from wiring.sources import Source

REFERENCE_AMBIENT = 30.0  # °C, of Table 5

TABLE_5_CLASSES = (60, 75, 80, 90, 105, 125, 200)  # °C
# 33 CFR 183.425, Table 5: A by AWG size and insulation temperature class, in air of 30 °C.
TABLE_5: dict[str, tuple[int, ...]] = {
    "18": (10, 10, 15, 20, 20, 25, 25),
    "16": (15, 15, 20, 25, 25, 30, 35),
    "14": (20, 20, 25, 30, 35, 40, 45),
    "12": (25, 25, 35, 40, 45, 50, 55),
    "10": (40, 40, 50, 55, 60, 70, 70),
    "8": (55, 65, 70, 70, 80, 90, 100),
    "6": (80, 95, 100, 100, 120, 125, 135),
    "4": (105, 125, 130, 135, 160, 170, 180),
    "3": (120, 145, 150, 155, 180, 195, 210),
    "2": (140, 170, 175, 180, 210, 225, 240),
    "1": (165, 195, 210, 210, 245, 265, 280),
    "1/0": (195, 230, 245, 245, 285, 305, 325),
    "2/0": (225, 265, 285, 285, 330, 355, 370),
    "3/0": (260, 310, 330, 330, 385, 410, 430),
    "4/0": (300, 360, 385, 385, 445, 475, 510),
}

# Air around a cable by zone of the car, °C. Common practice, no source; enter a measured one.
ZONE_AMBIENT: dict[str, float] = {
    "engine bay": 80.0,
    "cabin": 40.0,
    "under carpet": 50.0,
    "boot": 50.0,
    "outside": 50.0,
}

# UL 1426 cable maker's table: conductors carrying current, up to and including -> factor.
_BUNDLE_FACTORS = ((2, 1.0), (3, 0.70), (6, 0.60), (24, 0.50))


@dataclass(frozen=True, kw_only=True)
class Ampacity:
    """Current a conductor may carry, with how it came about.

    Attributes:
        current: the product of all that follows [A]
        base: current of the table or the part's sheet [A]
        ambient_factor: for air hotter than the reference [-]
        bundle_factor: for conductors bundled together [-]
        metal_factor: for more resistance than the table's conductor [-]
        source: where base comes from
    """

    current: float
    base: float
    ambient_factor: float
    bundle_factor: float
    metal_factor: float
    source: str


def assumed(conductor: Conductor) -> Conductor:
    """The conductor, of the coolest published insulation class if its own is unknown.

    Args:
        conductor: the cable core

    Returns:
        a conductor with an insulation class

    Source: common practice, no source
    """
    if conductor.insulation is not None:
        return conductor
    return replace(conductor, insulation=float(TABLE_5_CLASSES[0]))


def ambient_factor(
    *, insulation: float, ambient: float, reference: float = REFERENCE_AMBIENT
) -> float:
    """Factor on ampacity for the temperature of the air around the cable.

    k = sqrt((T_max - T_a) / (T_max - T_ref)), never above 1

    Args:
        insulation: temperature class of the insulation [°C]
        ambient: temperature of the air around the cable [°C]
        reference: air temperature the base rating is stated at [°C]

    Returns:
        factor [-]

    Raises:
        InsulationTooColdError: if the insulation class is not above both air temperatures

    Valid: cooler air gives no credit, the safe side
    Source: Canadian Electrical Code, Table 5A (agrees within 0.01)
    """
    hottest = max(ambient, reference)
    if insulation <= hottest:
        raise InsulationTooColdError(Name.INSULATION_CLASS, insulation, "°C", above=hottest)
    return float(min(1.0, (insulation - ambient) / (insulation - reference)) ** 0.5)


def bundle_factor(conductors: int) -> float:
    """Factor on ampacity for current-carrying conductors bundled together.

    Args:
        conductors: how many carry current, this one included; a plus and its minus are two [-]

    Returns:
        factor [-]

    Raises:
        OutOfRangeError: if fewer than one
        OutsideTableError: if more than 24, for which no retrieved table gives a factor

    Valid: 1 to 24; applied at 12 V too (33 CFR 183.435 asks it from 50 V up, ABYC E-11 always)
    Source: UL 1426 cable maker's table; ABYC E-11, Table VI
    """
    if conductors < 1:
        raise OutOfRangeError(Name.BUNDLE, conductors, COUNT, at_least=1)
    for up_to, factor in _BUNDLE_FACTORS:
        if conductors <= up_to:
            return factor
    raise OutsideTableError(Name.BUNDLE, conductors, COUNT, at_most=_BUNDLE_FACTORS[-1][0])


def ampacity(
    conductor: Conductor, *, ambient: float = REFERENCE_AMBIENT, bundled: int = 2
) -> Ampacity:
    """Current a conductor may carry for ever in its surroundings.

    I_z = I_table · k_ambient · k_bundle · k_metal; k_metal = sqrt(r_table / r) for equal heat

    A current from the part's sheet goes before the table. A class between two columns takes the
    cooler column; a size the table does not list takes the nearest smaller area.

    Args:
        conductor: the cable core
        ambient: temperature of the air around it [°C]
        bundled: current-carrying conductors lying together, this one included [-]

    Returns:
        the ampacity with its factors

    Raises:
        UnknownDataError: if the insulation class is unknown
        InsulationTooColdError: if the insulation class is not above the air temperature
        OutsideTableError: if the size, class or bundle is outside the table

    Valid: 18 AWG to 4/0 and what has more area; classes from 60 °C
    Source: 33 CFR 183.425, Table 5
    """
    if conductor.insulation is None:
        raise UnknownDataError(Name.INSULATION_CLASS)
    bundle = bundle_factor(bundled)
    if conductor.rated_current is not None:
        heat = ambient_factor(
            insulation=conductor.insulation, ambient=ambient, reference=conductor.rated_ambient
        )
        base, metal, source = conductor.rated_current, 1.0, conductor.rated_source
    else:
        heat = ambient_factor(insulation=conductor.insulation, ambient=ambient)
        base, metal = _table_5(conductor, conductor.insulation)
        source = Source.CONDUCTOR_TABLE
    return Ampacity(
        current=base * heat * bundle * metal,
        base=base,
        ambient_factor=heat,
        bundle_factor=bundle,
        metal_factor=metal,
        source=source,
    )


def _table_5(conductor: Conductor, insulation: float) -> tuple[float, float]:
    """Base current, and the factor for more resistance than copper of the table's size."""
    classes = [i for i, listed in enumerate(TABLE_5_CLASSES) if listed <= insulation]
    if not classes:
        raise OutsideTableError(
            Name.INSULATION_CLASS, insulation, "°C", at_least=TABLE_5_CLASSES[0]
        )
    if conductor.system in ("awg", "sae") and conductor.size in TABLE_5:
        size = conductor.size
    else:
        smaller = [s for s in TABLE_5 if _TABLE_5_AREAS[s] <= conductor.area]
        if not smaller:
            raise OutsideTableError(Name.AREA, conductor.area, "m²", at_least=_TABLE_5_AREAS["18"])
        size = smaller[-1]
    # Equal heat per length: I² · r is what the table's conductor may give off.
    table_resistance = IACS / _TABLE_5_AREAS[size]
    share = min(1.0, table_resistance / conductor.resistance_20)
    return TABLE_5[size][classes[-1]], share**0.5


_TABLE_5_AREAS = {size: awg_area(size) for size in TABLE_5}
