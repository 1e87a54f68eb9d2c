"""Voltage lost along a run, out and back.

API: `voltage_drop`, `ChassisReturn`, `CableReturn`.
"""

from dataclasses import dataclass

from wiring.cable.conductor import Conductor
from wiring.errors import UnknownDataError, known, require_not_negative, require_positive
from wiring.names import Name

NOMINAL_VOLTAGE = 12.0  # V, base of every percentage unless said otherwise: the strictest
DROP_LIMIT = 0.03  # share of the base


@dataclass(frozen=True, kw_only=True)
class CableReturn:
    """Return to the source through a cable.

    Attributes:
        conductor: the cable core, None if not chosen yet
        length: its length, None if unknown [m]
        settled: whether a person chose it apart from the way out

    Raises:
        OutOfRangeError: if the length is not above zero
    """

    conductor: Conductor | None
    length: float | None
    settled: bool = False

    def __post_init__(self) -> None:
        if self.length is not None:
            require_positive(name=Name.RETURN_LENGTH, value=self.length, unit="m")


@dataclass(frozen=True, kw_only=True)
class ChassisReturn:
    """Return through the body of the car, with ground strap, bonds and a lead to the body.

    Attributes:
        resistance: as measured on this car, None if not measured yet [Ω]
        conductor: core of the lead from the part to the body, None if not entered
        length: length of that lead, None if unknown [m]
        settled: whether a person chose the lead apart from the way out

    Raises:
        OutOfRangeError: if the resistance is not above zero; no body has zero ohms

    Source: common practice, no source (no published figure per vehicle was found)
    """

    resistance: float | None
    conductor: Conductor | None = None
    length: float | None = None
    settled: bool = False

    def __post_init__(self) -> None:
        if self.resistance is not None:
            require_positive(name=Name.CHASSIS_RESISTANCE, value=self.resistance, unit="Ω")
        if self.length is not None:
            require_positive(name=Name.RETURN_LENGTH, value=self.length, unit="m")


def voltage_drop(
    *,
    current: float,
    length: float,
    conductor: Conductor,
    return_path: CableReturn | ChassisReturn | None = None,
    temperature: float = 20.0,
    joints: float = 0.0,
) -> float:
    """Voltage lost on the way out and back.

    V = I · (L · r(T) + R_return + R_joints)

    Args:
        current: current through the run [A]
        length: one way [m]
        conductor: the cable core on the way out
        return_path: the way back; None for a second cable just like the first
        temperature: of the conductors [°C]
        joints: lugs, fuse holders and studs together [Ω]

    Returns:
        voltage lost [V]

    Raises:
        OutOfRangeError: if a number is not possible
        UnknownDataError: if the return is unknown

    Valid: direct current
    Source: Ohm's law; ABYC E-11 counts the length source to load and back
    """
    require_not_negative(name=Name.CURRENT, value=current, unit="A")
    require_positive(name=Name.LENGTH, value=length, unit="m")
    require_not_negative(name=Name.JOINT_RESISTANCE, value=joints, unit="Ω")
    out = length * conductor.resistance(temperature)
    back = out if return_path is None else return_resistance(return_path, temperature)
    return current * (out + back + joints)


def return_resistance(return_path: CableReturn | ChassisReturn, temperature: float) -> float:
    """Resistance of the way back.

    Args:
        return_path: cable or chassis
        temperature: of the conductor; a measured chassis value is taken as it is [°C]

    Returns:
        resistance [Ω]

    Raises:
        UnknownDataError: if length, conductor or chassis resistance is unknown

    Source: definition
    """
    body = 0.0
    if isinstance(return_path, ChassisReturn):
        body = known(name=Name.CHASSIS_RESISTANCE, value=return_path.resistance)
        if return_path.conductor is None:
            return body
    length = known(name=Name.RETURN_LENGTH, value=return_path.length)
    if return_path.conductor is None:
        raise UnknownDataError(Name.RETURN_CONDUCTOR)
    return body + length * return_path.conductor.resistance(temperature)
