"""Every figure and finding of a box of wood, of its pieces and its cavity is what was let stand."""

from __future__ import annotations

import pytest

from tests.acoustics.carcass.scenes import (
    at_limits,
    body_figures,
    cavities,
    cutting,
    pieces,
    refusals,
)
from tests.acoustics.carcass.scenes.bodies import BODIES
from tests.approval import figures, hold

SCENES = {
    **pieces.SCENES,
    **cutting.SCENES,
    **cavities.SCENES,
    **refusals.SCENES,
    **at_limits.SCENES,
}


@pytest.mark.parametrize("name", BODIES)
def test_every_figure_of_a_body_is_what_was_let_stand(name):
    """Faces, litres, panels, cuts, order of gluing, modes and room: nothing of them moves alone."""
    body = BODIES[name]()
    if name in body_figures.FOR_THEIR_INSIDE:
        parts = (body_figures.inside,)
    else:
        parts = (body_figures.shape, body_figures.wood, body_figures.room)
    hold(f"carcass/{name}", figures({part.__name__: part(body) for part in parts}))


@pytest.mark.parametrize("name", SCENES)
def test_every_figure_of_a_scene_is_what_was_let_stand(name):
    """Floors, rings, nests, fits and refusals, with every figure given with them."""
    hold(f"carcass/{name.replace(' ', '-')}", figures(SCENES[name]()))
