"""Areas of windows on an outline, against shapely, which cuts them out."""

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon, box

from acoustics.carcass.cavity.windows import area_within, edges_of

pytestmark = pytest.mark.second_method


@pytest.mark.parametrize("seed", range(20))
def test_a_window_holds_what_shapely_cuts_out(seed):
    """Leaning, upright and level edges, several pieces and holes: the same area."""
    rng = np.random.default_rng(seed)
    blot = Polygon(rng.uniform(-1, 1, size=(7, 2))).buffer(0)
    shape = box(-0.8, -0.6, 0.8, 0.6) - blot if seed % 2 else blot
    left, low = rng.uniform(-1.2, 0.4, size=(2, 5))
    right, high = left.max() + rng.uniform(0, 1.2, size=(2, 4))
    high = np.maximum(high, low.max())
    found = area_within(edges_of(shape), (left, right), (low, high))
    a, b, c, d = (grid.ravel() for grid in np.meshgrid(left, right, low, high, indexing="ij"))
    cut = shapely.area(shapely.intersection(shape, shapely.box(a, c, b, d)))
    assert found.ravel() == pytest.approx(cut, abs=1e-12)
