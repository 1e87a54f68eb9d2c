"""Every figure and finding of networks, cables, supplies and runs is what was let stand."""

from __future__ import annotations

import pytest

from tests.approval import figures, hold
from tests.wiring.scenes import cables, networks, refusals, routes

SCENES = {
    "positions": networks.positions,
    **cables.SCENES,
    **routes.SCENES,
    **refusals.SCENES,
}


@pytest.mark.parametrize("name", networks.TREES)
def test_every_figure_of_a_network_is_what_was_let_stand(name):
    """Each state, each case, each fault and all that is said of them."""
    tree = networks.TREES[name]()
    parts = (networks.states, networks.cases, networks.faults)
    hold(f"wiring/{name}", figures({part.__name__: part(tree) for part in parts}))


@pytest.mark.parametrize("name", SCENES)
def test_every_figure_of_a_scene_is_what_was_let_stand(name):
    """Cables, fuses, terminals, supplies, notes, runs, choices, and what is refused of them."""
    hold(f"wiring/{name.replace(' ', '-')}", figures(SCENES[name]()))
