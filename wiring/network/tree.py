"""The power tree as nouns: sources, nodes, runs, loads.

API: `Tree(nodes=, sources=, runs=, loads=)` of `Node`, `Source`, `Run`, `Load`; return paths are
`drop.CableReturn` or `drop.ChassisReturn`; fuses are `fuse.FittedFuse` at `Run.fuse_start` and
`Run.fuse_end`. `wiring.solve.solve(tree)` gives voltages and currents, `wiring.checks.check(tree)`
the findings. A run carries its own return, so a node's voltage is between plus and local minus.
"""

from collections import Counter
from dataclasses import dataclass, field

from wiring.cable.ampacity import ZONE_AMBIENT
from wiring.cable.conductor import Conductor
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.cable.fuse import FittedFuse
from wiring.errors import (
    COUNT,
    Id,
    TreeError,
    UnknownDataError,
    WiringError,
    require_between,
    require_not_negative,
    require_positive,
)
from wiring.findings import OUT, RETURN
from wiring.names import Name

NODE_KINDS = ("battery", "block", "breaker", "load", "ground")
SOURCE_KINDS = ("starter battery", "second battery", "dc-dc", "alternator", "capacitor")
ONE_WAY = ("dc-dc", "alternator")  # give current up to a limit, take none
LOAD_KINDS = ("amplifier", "power", "current", "resistance")
# Share of its full-output input power an amplifier draws: sqrt(p) of the ideal class B stage at
# p = 1, 1/3 and 1/8 of full output; other classes draw no more at the same efficiency.
CASES: dict[str, float] = {"worst": 1.0, "loud": (1 / 3) ** 0.5, "music": (1 / 8) ** 0.5}


@dataclass(frozen=True, kw_only=True)
class Node:
    """A place where cables meet.

    Attributes:
        id: what it is known by; findings hand it back
        kind: one of NODE_KINDS
        studs: cable lugs a battery node takes, one main each [-]

    Raises:
        WiringError: if the kind is unknown
        OutOfRangeError: if there is no stud
    """

    id: str
    kind: str = "block"
    studs: int = 1

    def __post_init__(self) -> None:
        _one_of(Name.NODE_KIND, self.kind, NODE_KINDS)
        require_positive(name=Name.STUDS, value=self.studs, unit=COUNT)


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

    def __post_init__(self) -> None:
        _one_of(Name.SOURCE_KIND, self.kind, SOURCE_KINDS)
        require_between(name=Name.OPEN_CIRCUIT_VOLTAGE, value=self.emf, low=1, high=60, unit="V")
        for name, unit in _SOURCE_NUMBERS:
            value = getattr(self, name)
            if value is not None:
                require_positive(name=Name(name.replace("_", "-")), value=value, unit=unit)


_SOURCE_NUMBERS = (
    ("resistance", "Ω"),
    ("cold_resistance", "Ω"),
    ("cold_cranking", "A"),
    ("short_circuit_current", "A"),
    ("current_limit", "A"),
)


@dataclass(frozen=True, kw_only=True)
class Run:
    """One cable from here to there with its return, fuses and surroundings.

    Attributes:
        id: what it is known by; findings hand it back. No node, source or load may share it
        start: id of the node it leaves
        end: id of the node it reaches
        conductor: core of the way out, None if not chosen yet
        length: one way, None if unknown [m]
        return_path: the way back, None if unknown
        fuse_start: fuse at the start, None if there is none
        fuse_end: fuse at the end, None if there is none
        zone: part of the car it lies in, key of ZONE_AMBIENT, the hottest it passes
        ambient: air temperature around it, None for that of the zone [°C]
        bundled: current-carrying conductors lying together, a plus and its minus are two [-]
        joints: resistance of lugs, holders and studs together [Ω]
        aluminium_terminals: whether its lugs are rated for aluminium, None if unknown

    Raises:
        WiringError: if the zone is unknown
        OutOfRangeError: if a number is not possible, such as a length of zero
        TreeError: if the run ends where it starts
    """

    id: str
    start: str
    end: str
    conductor: Conductor | None
    length: float | None
    return_path: CableReturn | ChassisReturn | None
    fuse_start: FittedFuse | None = None
    fuse_end: FittedFuse | None = None
    zone: str = "cabin"
    ambient: float | None = None
    bundled: int = 2
    joints: float = 0.0
    aluminium_terminals: bool | None = None

    def __post_init__(self) -> None:
        _one_of(Name.ZONE, self.zone, tuple(ZONE_AMBIENT))
        if self.start == self.end:
            raise TreeError(Name.RUN_END, Id(self.end), about=self.id, to_be="another-node")
        if self.length is not None:
            require_between(name=Name.LENGTH, value=self.length, low=1e-3, high=1e3, unit="m")
        if self.ambient is not None:
            require_between(name=Name.AMBIENT, value=self.ambient, low=-60, high=150, unit="°C")
        require_between(name=Name.BUNDLED, value=self.bundled, low=1, high=1000, unit=COUNT)
        require_not_negative(name=Name.JOINT_RESISTANCE, value=self.joints, unit="Ω")

    @property
    def air(self) -> float:
        """Air temperature around the run: its own, or that of its zone.

        Returns:
            temperature [°C]
        """
        return ZONE_AMBIENT[self.zone] if self.ambient is None else self.ambient

    @property
    def conductors(self) -> tuple[Conductor, ...]:
        """Cable cores of the run that are known: the way out and a cable on the way back.

        Returns:
            the cores
        """
        back = self.return_path.conductor if isinstance(self.return_path, CableReturn) else None
        return tuple(c for c in (self.conductor, back) if c is not None)

    @property
    def unknowns(self) -> tuple[tuple[str, str], ...]:
        """What is missing before the run's resistance is known, as (finding code, which part).

        Returns:
            the missing numbers, empty when all are known
        """
        missing = []
        if self.length is None:
            missing.append(("length-unknown", OUT))
        if self.conductor is None:
            missing.append(("conductor-unknown", OUT))
        back = self.return_path
        if back is None or (isinstance(back, ChassisReturn) and back.resistance is None):
            missing.append(("return-unknown", "none" if back is None else "chassis"))
        if isinstance(back, CableReturn):
            if back.length is None:
                missing.append(("length-unknown", RETURN))
            if back.conductor is None:
                missing.append(("conductor-unknown", RETURN))
        return tuple(missing)


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
    connected_ohms: float | None = None
    lowest_ohms: float | None = None

    def __post_init__(self) -> None:
        _one_of(Name.LOAD_KIND, self.kind, LOAD_KINDS)
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
        _one_of(Name.CASE, case, tuple(CASES))
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
    ("connected_ohms", "Ω"),
    ("lowest_ohms", "Ω"),
)


@dataclass(frozen=True, kw_only=True)
class Tree:
    """A whole supply: nodes, what feeds them, what joins them, what draws from them.

    Attributes:
        nodes: every place where cables meet
        sources: what feeds
        runs: what joins
        loads: what draws

    Raises:
        TreeError: if an id occurs twice, a run has that of a node, source or load, or a node does
            not exist
    """

    nodes: tuple[Node, ...]
    sources: tuple[Source, ...]
    runs: tuple[Run, ...] = ()
    loads: tuple[Load, ...] = ()
    neighbours: dict[str, tuple[tuple[Run, str], ...]] = field(
        init=False, repr=False, compare=False
    )

    def __post_init__(self) -> None:
        runs = [r.id for r in self.runs]
        for kind, ids in (
            (Name.RUN_LABEL, runs),
            # A finding's id has to tell a run from everything else.
            (Name.NODE_LABEL, [*runs, *(n.id for n in self.nodes)]),
            (Name.SOURCE_LABEL, [*runs, *(s.id for s in self.sources)]),
            (Name.LOAD_LABEL, [*runs, *(x.id for x in self.loads)]),
        ):
            twice = [name for name, count in Counter(ids).items() if count > 1]
            if twice:
                raise TreeError(kind, Id(twice[0]), to_be="used-once")
        joined: dict[str, list[tuple[Run, str]]] = {n.id: [] for n in self.nodes}
        places = [(s.id, s.node) for s in self.sources] + [(x.id, x.node) for x in self.loads]
        places += [(r.id, node) for r in self.runs for node in (r.start, r.end)]
        for label, node in places:
            if node not in joined:
                raise TreeError(Name.NODE, Id(node), about=label, to_be="known-node")
        for run in self.runs:
            joined[run.start].append((run, run.end))
            joined[run.end].append((run, run.start))
        neighbours = {name: tuple(ends) for name, ends in joined.items()}
        object.__setattr__(self, "neighbours", neighbours)

    def reach(self, start: str, *, without: Run | None = None) -> set[str]:
        """Nodes that can be reached along runs.

        Args:
            start: id of the node to begin at
            without: a run not to use

        Returns:
            ids of the nodes reached, the first one included
        """
        reached, frontier = {start}, [start]
        while frontier:
            for run, other in self.neighbours[frontier.pop()]:
                if other not in reached and run is not without:
                    reached.add(other)
                    frontier.append(other)
        return reached


def _one_of(name: Name, value: str, allowed: tuple[str, ...]) -> None:
    if value not in allowed:
        raise WiringError(name, value, one_of=allowed)
