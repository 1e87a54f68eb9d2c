"""What is chosen from, where fuses are to sit, what was asked of them, and what was taken.

API: `Catalogue`, `Seat`, `FuseAsked`, `Pick`, `Choice`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Self

from wiring.cable.conductor import Conductor
from wiring.cable.fuse import FittedFuse, Fuse
from wiring.errors import COUNT, UnknownDataError, WiringError
from wiring.findings import Finding
from wiring.names import Name
from wiring.network.tree import Run, Tree
from wiring.protection.makers_fuses import Asked


@dataclass(frozen=True, kw_only=True)
class Catalogue:
    """What the workshop has to choose from.

    Attributes:
        conductors: cable cores, each with its insulation class
        fuses: fuses and breakers

    Raises:
        WiringError: if there is no conductor or no fuse, or a class is unknown
    """

    conductors: tuple[Conductor, ...]
    fuses: tuple[Fuse, ...]

    def __post_init__(self) -> None:
        for name, parts in (
            (Name.CONDUCTORS_OFFERED, self.conductors),
            (Name.FUSES_OFFERED, self.fuses),
        ):
            if not parts:
                raise WiringError(name, 0, COUNT, at_least=1)
        for conductor in self.conductors:
            if conductor.insulation is None:
                raise UnknownDataError(Name.INSULATION_CLASS, about=conductor.label)


@dataclass(frozen=True, kw_only=True)
class Pick:
    """What was taken for one run.

    Attributes:
        run: id
        conductor: cable core, None if nothing fits
        fuse_start: fuse at the start, None if none is needed
        fuse_end: fuse at the end, None if none is needed
        bound: finding code that the next smaller cable would bring, "smallest" or "kept"
    """

    run: str
    conductor: Conductor | None
    fuse_start: FittedFuse | None
    fuse_end: FittedFuse | None
    bound: str


@dataclass(frozen=True, kw_only=True)
class Seat:
    """Where a person wants the fuse of one end of a run.

    Attributes:
        distance: cable from that end to the fuse, None if not said [m]
        sheathed: whether that cable is in a sheath all the way
    """

    distance: float | None
    sheathed: bool = False


Seats = Mapping[tuple[str, str], Seat]


@dataclass(frozen=True, kw_only=True)
class Choice:
    """The outcome of choosing.

    Attributes:
        tree: the tree with parts filled in, None if a stop remains
        picks: what was taken for each run, in the order of the tree
        findings: what remains to be said about the tree, or what stood in the way
    """

    tree: Tree | None
    picks: tuple[Pick, ...]
    findings: tuple[Finding, ...]


@dataclass(frozen=True)
class FuseAsked:
    """What the makers of the loads behind a run ask of its fuse.

    Attributes:
        at_least: sum of their fuses times the diversity stated, 0 for nothing asked [A]
        at_most: the figure of the one load at its end, None for none [A]
    """

    at_least: float = 0.0
    at_most: float | None = None

    @classmethod
    def of(cls, asked: Asked, run: Run) -> Self:
        """What is asked of one run.

        Args:
            asked: what is asked of the runs of its tree
            run: the run

        Returns:
            the figures

        Source: part makers' sheets
        """
        figure = asked.figure(run)
        return cls(at_least=asked.total(run)) if figure is None else cls(at_most=figure)
