"""What decides between windows: the aim first, and among equals a little of the wood."""

import numpy as np
import pytest
from shapely.geometry import box

from acoustics.carcass.cavity.fit_bases import Task
from acoustics.carcass.cavity.fit_search import Grid, Measured, keys
from acoustics.carcass.room.arrange import Load
from acoustics.carcass.room.clearance import USUAL

SIDES = np.array([0.0]), np.array([1.0]), np.array([0.0])
TASK = Task(
    volume=0.03,
    thickness=0.018,
    baffle=0.018,
    load=Load(driver=None),
    on_side=False,
    upward=False,
    clearances=USUAL,
    opening=None,
    whole=box(0, 0, 1, 1),
)


def two(*, depth: tuple[float, float], wood: tuple[float, float], high: float) -> np.ndarray:
    """Measure two windows up to a height, both large enough, which differ in depth and wood."""
    shape = (1, 1, 1, 2)

    def both(value: object) -> np.ndarray:
        return np.broadcast_to(np.array(value, dtype=float), shape)

    measured = Measured(
        ok=np.ones(shape, dtype=bool), least=both(0.01), most=both(0.05), narrow=both(0.1),
        cap=both(1.0), depth=both(depth), wood=both(wood), width=both(0.5),
    )  # fmt: skip
    grid: Grid = (*SIDES, np.array([high, high]))
    return np.stack(
        [keys(grid, measured, TASK, aim).ravel() for aim in ("shallowest", "least-wood", "space")]
    )


@pytest.mark.parametrize("less", [0, 1])
def test_among_equals_less_wood_is_better(less: int) -> None:
    """Of two windows as deep, and of two that take as much of the boot, the lighter one is best."""
    wood = (0.010, 0.012) if less == 0 else (0.012, 0.010)
    for key in two(depth=(0.3, 0.3), wood=wood, high=0.4):
        assert int(np.argmin(key)) == less


def test_wood_never_outweighs_a_millimetre_of_depth() -> None:
    """A box that is a millimetre shallower stays the shallowest, at ten litres more of wood."""
    shallowest, least_wood, _ = two(depth=(0.300, 0.301), wood=(0.020, 0.010), high=0.4)
    assert int(np.argmin(shallowest)) == 0
    assert int(np.argmin(least_wood)) == 1
