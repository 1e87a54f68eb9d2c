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
    require_between,
    require_not_negative,
    require_positive,
)
from wiring.findings import OUT, RETURN
from wiring.names import Name
from wiring.network.parts import Load, Source, one_of
from wiring.network.shared import SharedReturn

CONTACT_KINDS = ("switch", "charge relay", "diode")
NODE_KINDS = ("battery", "block", "breaker", "load", "ground")


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
        one_of(Name.NODE_KIND, self.kind, NODE_KINDS)
        require_positive(name=Name.STUDS, value=self.studs, unit=COUNT)


# Between a silicon diode's 0.7 V and the 1 V one page prints: what takes most from the far side.
DIODE_DROP = 0.7  # V, three of four trade pages


@dataclass(frozen=True, kw_only=True)
class Contact:
    """What joins two nodes without being a cable: a switch, a charge relay, a diode.

    Attributes:
        kind: one of CONTACT_KINDS; a charge relay is closed while the engine runs, a diode passes
            current from start to end only
        rated_current: what it may carry for ever by its maker, None if unknown [A]
        resistance: closed; of a diode, beyond its drop [Ω]
        forward_voltage: lost in a diode whatever the current [V]

    Raises:
        WiringError: if the kind is unknown
        OutOfRangeError: if a number is not possible

    Source: common practice, no source (resistance); trade pages for a diode's drop
    """

    kind: str
    rated_current: float | None = None
    resistance: float = 5e-4
    forward_voltage: float = DIODE_DROP

    def __post_init__(self) -> None:
        one_of(Name.CONTACT_KIND, self.kind, CONTACT_KINDS)
        require_positive(name=Name.CONTACT_RESISTANCE, value=self.resistance, unit="Ω")
        require_not_negative(name=Name.FORWARD_VOLTAGE, value=self.forward_voltage, unit="V")
        if self.rated_current is not None:
            require_positive(name=Name.RATED_CURRENT, value=self.rated_current, unit="A")


@dataclass(frozen=True, kw_only=True)
class Run:
    """One cable from here to there with its return, fuses and surroundings; or a contact.

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
        drop_limit: voltage it may lose as a share of 12 V, None for that of the tree [-]
        diversity: share of the makers' fuses behind it that its own is to hold, None for all [-]
        contact: set where two nodes are joined by a contact and not by a cable

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
    drop_limit: float | None = None
    diversity: float | None = None
    contact: Contact | None = None

    def __post_init__(self) -> None:
        one_of(Name.ZONE, self.zone, tuple(ZONE_AMBIENT))
        if self.start == self.end:
            raise TreeError(Name.RUN_END, Id(self.end), about=self.id, to_be="another-node")
        if self.length is not None:
            require_between(name=Name.LENGTH, value=self.length, low=1e-3, high=1e3, unit="m")
        if self.ambient is not None:
            require_between(name=Name.AMBIENT, value=self.ambient, low=-60, high=150, unit="°C")
        require_between(name=Name.BUNDLED, value=self.bundled, low=1, high=1000, unit=COUNT)
        require_not_negative(name=Name.JOINT_RESISTANCE, value=self.joints, unit="Ω")
        if self.drop_limit is not None:
            require_positive(name=Name.DROP_LIMIT, value=self.drop_limit, unit="-")
        if self.diversity is not None:
            require_between(name=Name.DIVERSITY, value=self.diversity, low=0.1, high=1, unit="-")

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
        back = None if self.return_path is None else self.return_path.conductor
        return tuple(c for c in (self.conductor, back) if c is not None)

    @property
    def unknowns(self) -> tuple[tuple[str, str], ...]:
        """What is missing before the run's resistance is known, as (finding code, which part).

        Returns:
            the missing numbers, empty when all are known
        """
        missing: list[tuple[str, str]] = []
        if self.contact is not None:
            return ()
        if self.length is None:
            missing.append(("length-unknown", OUT))
        if self.conductor is None:
            missing.append(("conductor-unknown", OUT))
        back = self.return_path
        if back is None or (isinstance(back, ChassisReturn) and back.resistance is None):
            missing.append(("return-unknown", "none" if back is None else "chassis"))
        if back is not None and (isinstance(back, CableReturn) or back.conductor is not None):
            if back.length is None:
                missing.append(("length-unknown", RETURN))
            if back.conductor is None:
                missing.append(("conductor-unknown", RETURN))
        return tuple(missing)


@dataclass(frozen=True, kw_only=True)
class Tree:
    """A whole supply: nodes, what feeds them, what joins them, what draws from them.

    Attributes:
        nodes: every place where cables meet
        sources: what feeds
        runs: what joins
        loads: what draws
        shared: ways back that several runs share

    Raises:
        TreeError: if an id occurs twice, a run has that of a node, source or load, or a node does
            not exist
    """

    nodes: tuple[Node, ...]
    sources: tuple[Source, ...]
    runs: tuple[Run, ...] = ()
    loads: tuple[Load, ...] = ()
    shared: tuple[SharedReturn, ...] = ()
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
