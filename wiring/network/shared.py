"""Ways back that several runs share: what one sends through is lost to all of them.

API: `SharedReturn`, `couple(shared, run_ids) -> Coupling`, `Coupling.currents(across, own)`,
`Coupling.conductances(own)`, `together(shared, currents)`.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from wiring.errors import require_not_negative
from wiring.names import Name

Vector = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class SharedReturn:
    """A stud and the body behind it, or the one cable that leads on from a ground block.

    Attributes:
        id: what it is known by; findings hand it back
        resistance: from where the returns meet to the battery's minus; each run counts it in its
            own way back already [Ω]
        arriving: ids of the runs whose return current comes in here
        leaving: ids of the runs whose source takes its return current from here

    Raises:
        OutOfRangeError: if the resistance is below zero
    """

    id: str
    resistance: float
    arriving: tuple[str, ...]
    leaving: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        require_not_negative(name=Name.JOINT_RESISTANCE, value=self.resistance, unit="Ω")

    @property
    def signs(self) -> dict[str, float]:
        """Which way each run's current passes here.

        Returns:
            1 for a run that arrives, -1 for one that leaves, by its id [-]
        """
        return dict.fromkeys(self.arriving, 1.0) | dict.fromkeys(self.leaving, -1.0)


def together(shared: SharedReturn, currents: Mapping[str, float]) -> float:
    """What all runs send through a shared way back.

    I = Σ ±I_run

    Args:
        shared: the way back
        currents: of each run from its start to its end, by id [A]

    Returns:
        current [A]

    Source: Kirchhoff's laws
    """
    return sum(sign * currents.get(run, 0.0) for run, sign in shared.signs.items())


@dataclass(frozen=True)
class Coupling:
    """Runs whose currents lean on each other, by place in a list of runs.

    v_start - v_end = R·I + Σ_shared σ·s·(Σ σ·I of the others)

    Attributes:
        places: which runs take part, by their place in the list [-]
        mutual: what the current of each takes from each other, nothing from itself [Ω]

    Source: Kirchhoff's laws
    """

    places: NDArray[np.intp]
    mutual: Vector

    def conductances(self, own: Vector) -> Vector:
        """Conductances between the runs that take part.

        Args:
            own: resistance of every run in the list, with its share of what is shared [Ω]

        Returns:
            matrix in the order of the places [S]

        Source: Kirchhoff's laws
        """
        matrix = np.linalg.inv(np.diag(own[self.places]) + self.mutual)
        return np.asarray(matrix, dtype=np.float64)

    def currents(self, across: Vector, own: Vector) -> Vector:
        """Current of every run in the list.

        Args:
            across: voltage from start to end of each [V]
            own: resistance of each, with its share of what is shared [Ω]

        Returns:
            currents from start to end [A]

        Source: Kirchhoff's laws
        """
        current: Vector = np.asarray(across / own, dtype=np.float64)
        if self.places.size:
            current[self.places] = self.conductances(own) @ across[self.places]
        return current


def couple(shared: Sequence[SharedReturn], run_ids: Sequence[str]) -> Coupling:
    """What shared ways back do between the runs of a list.

    Args:
        shared: the ways back
        run_ids: the runs

    Returns:
        the coupling, of no place where none shares anything

    Source: Kirchhoff's laws
    """
    sharing = {run for way in shared if len(way.signs) > 1 for run in way.signs}
    places = [i for i, run in enumerate(run_ids) if run in sharing]
    mutual = np.zeros((len(places), len(places)))
    for way in shared:
        signs = np.array([way.signs.get(run_ids[i], 0.0) for i in places])
        mutual += way.resistance * np.outer(signs, signs)
    np.fill_diagonal(mutual, 0.0)
    return Coupling(np.array(places, dtype=np.intp), mutual)
