"""Every figure of drivers, boxes, filters and set-ups is what was let stand."""

from __future__ import annotations

import pytest

from tests.acoustics.scenes import at_limits, enclosures, measurements, setting_up
from tests.approval import figures, hold

SCENES = {
    **enclosures.SCENES,
    **measurements.SCENES,
    **setting_up.SCENES,
    **at_limits.SCENES,
}


@pytest.mark.parametrize("name", SCENES)
def test_every_figure_of_a_scene_is_what_was_let_stand(name):
    """Curves by their mean, size and some members; refusals with what is given."""
    hold(f"acoustics/{name.replace(' ', '-')}", figures(SCENES[name]()))
