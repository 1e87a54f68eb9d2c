"""What feeds and what draws in a power tree: sources and loads.

API: `Source`, `Load`; kinds and cases as constants.
"""

import math
from dataclasses import dataclass

from wiring.errors import (
    UnknownDataError,
    WiringError,
    require_between,
    require_not_negative,
    require_positive,
)
from wiring.names import Name

SOURCE_KINDS = ("starter battery", "second battery", "dc-dc", "alternator", "capacitor")
ONE_WAY = ("dc-dc", "alternator")  # give current up to a limit, take none
LOAD_KINDS = ("amplifier", "power", "current", "resistance")
# Share of its full-output input power an amplifier draws: sqrt(p) of the ideal class B stage at
# p = 1, 1/3 and 1/8 of full output; other classes draw no more at the same efficiency.
CASES: dict[str, float] = {
    "worst": 1.0,
    "loud": (1 / 3) ** 0.5,
    "music": (1 / 8) ** 0.5,
    "idle": 0.0,  # nothing played: what charges then has the cables to itself
}
FLAT = 10.5  # V, end of the reserve capacity test of a 12 V lead-acid battery
# ISO 16750-2:2012, supply code A: a 12 V system may reach 16 V. Others in proportion.
STEP = 16.0


@dataclass(frozen=True, kw_only=True)
class Source:
    """A battery, converter, alternator or capacitor bank at a node.

    A battery is its open-circuit voltage behind a resistance and takes charge as well as gives.
    A DC-DC converter or alternator gives up to its limit and takes nothing. A capacitor bank
    gives nothing lasting, but feeds a short circuit. What a converter draws on its input side is
    a load of its own there.

    Attributes:
        id: what it is known by; findings hand it back
        node: id of the node it sits at
        kind: one of SOURCE_KINDS
        emf: open-circuit voltage [V]
        resistance: inner resistance warm and charged, None if unknown [Ω]
        cold_resistance: inner resistance in deep cold, None if unknown [Ω]
        cold_cranking: cold-cranking amperes, None if unknown or none [A]
        short_circuit_current: the maker's own figure, None if unknown [A]
        current_limit: most it gives, for converter and alternator, None if unknown [A]
        idle_limit: most an alternator gives hot at idle beyond the car's own need, None where it
            makes no difference [A]
        commanded: whether the car may let its voltage fall until it gives nothing
        flat_voltage: open-circuit voltage of a battery when flat, None for the usual one [V]
        starting_current: what the engine's starter takes at its node, None if it starts none [A]
        input_load: id of the load on the input side of a converter

    Raises:
        WiringError: if the kind is unknown
        OutOfRangeError: if a number is not possible

    Valid: up to 60 V
    """

    id: str
    node: str
    kind: str
    emf: float
    resistance: float | None = None
    cold_resistance: float | None = None
    cold_cranking: float | None = None
    short_circuit_current: float | None = None
    current_limit: float | None = None
    idle_limit: float | None = None
    commanded: bool = False
    flat_voltage: float | None = None
    starting_current: float | None = None
    input_load: str = ""

    def __post_init__(self) -> None:
        one_of(Name.SOURCE_KIND, self.kind, SOURCE_KINDS)
        require_between(name=Name.OPEN_CIRCUIT_VOLTAGE, value=self.emf, low=1, high=60, unit="V")
        for name, unit in _SOURCE_NUMBERS:
            value = getattr(self, name)
            if value is not None:
                require_positive(name=Name(name.replace("_", "-")), value=value, unit=unit)

    @property
    def is_battery(self) -> bool:
        """Whether it takes charge as well as gives.

        Returns:
            true for a battery
        """
        return self.kind not in (*ONE_WAY, "capacitor")

    @property
    def flat(self) -> float:
        """Open-circuit voltage of a battery when flat: entered, or 10.5 V for each 12 V.

        Returns:
            voltage [V]

        Source: end of the reserve capacity test (vehicle makers' texts); 24 and 48 V in proportion
        """
        return FLAT * blocks_of_12(self.emf) if self.flat_voltage is None else self.flat_voltage


_SOURCE_NUMBERS = (
    ("resistance", "Ω"),
    ("cold_resistance", "Ω"),
    ("cold_cranking", "A"),
    ("short_circuit_current", "A"),
    ("current_limit", "A"),
    ("idle_limit", "A"),
    ("flat_voltage", "V"),
    ("starting_current", "A"),
)


@dataclass(frozen=True, kw_only=True)
class Load:
    """Something that draws current at a node.

    Attributes:
        id: what it is known by; findings hand it back
        node: id of the node it sits at
        kind: one of LOAD_KINDS; an amplifier is constant power that follows the music
        value: audio output, power, current or resistance, None if unknown [W, W, A or Ω]
        efficiency: of an amplifier at full output, None if unknown [-]
        music_power: input power on average music, None for the sqrt(1/8) rule [W]
        minimum_voltage: least supply voltage by its maker, None if not stated [V]
        highest_voltage: highest supply voltage by its maker, None if not stated [V]
        fuse_rating: supply fuse its maker asks for, None if not stated [A]
        standby: what it takes with the key off, None if unknown [A]
        connected_ohms: lowest load its speakers present, None if none [Ω]
        lowest_ohms: lowest load its maker allows in that mode, None if unknown [Ω]

    Raises:
        WiringError: if the kind is unknown
        OutOfRangeError: if a number is not possible, such as a negative current
    """

    id: str
    node: str
    kind: str
    value: float | None
    efficiency: float | None = None
    music_power: float | None = None
    minimum_voltage: float | None = None
    highest_voltage: float | None = None
    fuse_rating: float | None = None
    standby: float | None = None
    connected_ohms: float | None = None
    lowest_ohms: float | None = None

    def __post_init__(self) -> None:
        one_of(Name.LOAD_KIND, self.kind, LOAD_KINDS)
        unit = {"current": "A", "resistance": "Ω"}.get(self.kind, "W")
        if self.value is not None:
            if self.kind == "resistance":
                require_positive(name=Name.LOAD_RESISTANCE, value=self.value, unit=unit)
            else:
                require_not_negative(name=Name(f"load-{self.kind}"), value=self.value, unit=unit)
        if self.efficiency is not None:
            require_between(name=Name.EFFICIENCY, value=self.efficiency, low=0.01, high=1, unit="-")
        for name, number_unit in _LOAD_NUMBERS:
            value = getattr(self, name)
            if value is not None:
                require_positive(name=Name(name.replace("_", "-")), value=value, unit=number_unit)

    @property
    def is_known(self) -> bool:
        """Whether its draw can be computed.

        Returns:
            true if value, and for an amplifier efficiency, are entered
        """
        return self.value is not None and (self.kind != "amplifier" or self.efficiency is not None)

    def draw(self, case: str) -> float:
        """What it draws in a case: power, current or resistance after its kind.

        P = P_out/η · sqrt(p) for an amplifier

        Args:
            case: key of CASES

        Returns:
            the draw [W, A or Ω]

        Raises:
            WiringError: if the case is unknown, or the draw is

        Valid: class B law, above that of a class D stage of the same efficiency
        Source: ideal class B stage, input ∝ sqrt(output)
        """
        one_of(Name.CASE, case, tuple(CASES))
        if self.value is None or not self.is_known:
            raise UnknownDataError(Name.DRAW, about=self.id)
        if self.kind != "amplifier":
            return self.value
        if case == "music" and self.music_power is not None:
            return self.music_power
        assert self.efficiency is not None
        return self.value / self.efficiency * CASES[case]


_LOAD_NUMBERS = (
    ("music_power", "W"),
    ("minimum_voltage", "V"),
    ("highest_voltage", "V"),
    ("fuse_rating", "A"),
    ("connected_ohms", "Ω"),
    ("lowest_ohms", "Ω"),
)


def one_of(name: Name, value: str, allowed: tuple[str, ...]) -> None:
    """Refuse a word that is none of those allowed.

    Args:
        name: name of the value
        value: the word
        allowed: the words there are

    Raises:
        WiringError: if the word is none of them

    Source: definition
    """
    if value not in allowed:
        raise WiringError(name, value, one_of=allowed)


def blocks_of_12(emf: float) -> int:
    """Number of 12 V networks a voltage stands for: 1, 2 or, above 32 V, 4.

    n = ⌈E / 16 V⌉, 3 counts as 4

    Args:
        emf: open-circuit voltage [V]

    Returns:
        number [-]

    Raises:
        OutOfRangeError: if the voltage is not above zero

    Valid: 12, 24 and 48 V vehicle networks; rounds up
    Source: ISO 16750-2:2012, supply code A, 16 V; 24 and 48 V in proportion, common practice
    """
    require_positive(name=Name.OPEN_CIRCUIT_VOLTAGE, value=emf, unit="V")
    steps = math.ceil(emf / STEP)
    return 4 if steps == 3 else steps
