"""Short circuits: how much current flows, and whether the insulation survives it.

API: `prospective_current`, `cold_resistance_by_cca`, `adiabatic_constant`, `withstand_time`,
`withstand_energy`.
"""

import math

from wiring.cable.conductor import IACS, METALS, Conductor
from wiring.errors import OutOfRangeError, UnknownDataError, require_not_negative, require_positive
from wiring.names import Name

ADIABATIC_TIME = 5.0  # s, longest for which no heat leaves the conductor
CRANKING_VOLTAGE = 7.2  # V at the end of the cold-cranking test
OPEN_VOLTAGE = 12.6  # V, charged lead-acid at rest
PVC_FAULT_TEMPERATURE = 160.0  # °C
CROSSLINKED_FAULT_TEMPERATURE = 250.0  # °C


def prospective_current(*, emf: float, source_resistance: float, path_resistance: float) -> float:
    """Current into a dead short at the end of a path.

    I_k = E / (R_source + R_path)

    Args:
        emf: open-circuit voltage [V]
        source_resistance: inner resistance of the source [Ω]
        path_resistance: cables and chassis to the fault and back [Ω]

    Returns:
        current [A]

    Raises:
        OutOfRangeError: if a number is not possible

    Valid: low source resistance (warm) to judge breaking, high (cold) to judge opening
    Source: Ohm's law
    """
    require_positive(name=Name.OPEN_CIRCUIT_VOLTAGE, value=emf, unit="V")
    require_positive(name=Name.SOURCE_RESISTANCE, value=source_resistance, unit="Ω")
    require_not_negative(name=Name.PATH_RESISTANCE, value=path_resistance, unit="Ω")
    return emf / (source_resistance + path_resistance)


def cold_resistance_by_cca(cold_cranking: float) -> float:
    """Inner resistance of a lead-acid battery in deep cold, from its cold-cranking rating.

    R = (12.6 - 7.2) / CCA

    Args:
        cold_cranking: cold-cranking amperes at -18 °C [A]

    Returns:
        resistance [Ω]

    Raises:
        OutOfRangeError: if the rating is not above zero

    Valid: 12 V lead-acid at -18 °C; a warm battery has a half to a third of it
    Source: cold-cranking test, 30 s at -18 °C to 7.2 V (battery makers' text)
    """
    require_positive(name=Name.COLD_CRANKING, value=cold_cranking, unit="A")
    return (OPEN_VOLTAGE - CRANKING_VOLTAGE) / cold_cranking


def adiabatic_constant(*, metal: str, start: float, final: float) -> float:
    """Constant k of the adiabatic equation for a metal and its insulation.

    k = sqrt(Q_c · (β + 20) / ρ20 · ln((θ_f + β) / (θ_i + β)))

    Args:
        metal: key of METALS
        start: conductor temperature when the fault begins [°C]
        final: highest temperature the insulation stands in a fault [°C]

    Returns:
        k [A·√s/m²]

    Raises:
        OutOfRangeError: if the final temperature is not above the start

    Valid: faults up to 5 s
    Source: IEC 60364-5-54:2011, Annex A
    """
    if not final > start:
        raise OutOfRangeError(Name.FAULT_TEMPERATURE, final, "°C", above=start)
    # Copper-clad aluminium is computed as plain aluminium: k comes out smaller, the safe side.
    part = METALS[metal]
    resistivity = IACS if metal == "copper" else METALS["aluminium"].resistivity
    heat = part.heat_capacity * (part.beta + 20) / resistivity
    return math.sqrt(heat * math.log((final + part.beta) / (start + part.beta)))


def withstand_energy(conductor: Conductor) -> float:
    """Let-through energy a conductor's insulation survives, starting at its class temperature.

    I²t = k² · S²; up to class 105 the insulation is taken as PVC (160 °C), above as
    cross-linked (250 °C), unless the sheet gives a fault temperature.

    Args:
        conductor: the cable core

    Returns:
        energy [A²·s]

    Raises:
        UnknownDataError: if the insulation class is unknown
        OutOfRangeError: if the class is not below the fault temperature

    Valid: faults up to 5 s
    Source: IEC 60364-5-54:2011, Annex A; final temperatures of PVC and XLPE
    """
    if conductor.insulation is None:
        raise UnknownDataError(Name.INSULATION_CLASS)
    final = conductor.fault_temperature
    if final is None:
        pvc = conductor.insulation <= 105
        final = PVC_FAULT_TEMPERATURE if pvc else CROSSLINKED_FAULT_TEMPERATURE
    k = adiabatic_constant(metal=conductor.metal, start=conductor.insulation, final=final)
    return (k * conductor.area) ** 2


def withstand_time(conductor: Conductor, current: float) -> float:
    """How long a conductor's insulation survives a fault current.

    t = k² · S² / I²

    Args:
        conductor: the cable core
        current: fault current [A]

    Returns:
        time [s]

    Raises:
        UnknownDataError: if the insulation class is unknown
        OutOfRangeError: if the current is not above zero

    Valid: results above 5 s are on the short side, since heat leaves the conductor by then
    Source: IEC 60364-5-54:2011, Annex A
    """
    require_positive(name=Name.FAULT_CURRENT, value=current, unit="A")
    return withstand_energy(conductor) / current**2
