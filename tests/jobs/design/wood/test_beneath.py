"""What lies under a false floor and has to be reached."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.models import TrimPanel

pytestmark = pytest.mark.django_db
CODES = ("unknown", "not-listed", "place-unknown", "without-hatch")


@pytest.fixture
def floor(hatchback, shelf):
    """A floor 0.8 x 0.6 m on two battens; a hatch of 0.3 x 0.2 m whose ledge leaves 0.24 x 0.14."""
    floor = TrimPanel(
        job=hatchback.job, name="Floor", kind="floor", material=shelf["birch"], width=0.8
    )
    floor.height, floor.level = 0.6, 0.12
    floor.supports = [["batten", 0.4, 0.05, 0.8, 0.04], ["batten", 0.4, 0.55, 0.8, 0.04]]
    floor.hatches = [[0.4, 0.3, 0.3, 0.2, 0.0015, 0.03, 0.03, "magnets", ""]]
    return floor


def _codes(floor):
    findings = work_out(load(floor.job).with_unsaved(floor)).findings
    return [f.code.removeprefix("beneath-") for f in findings if f.code.startswith("beneath-")]


def test_a_fuse_under_a_floor_needs_a_hatch_over_it(hatchback, floor):
    """By hand: 0.12 m beside the middle a hand passes, 0.13 m lies under the ledge."""
    main = f"F-{hatchback.main_run.label}"
    assert _codes(floor) == ["unknown"]
    floor.beneath_listed = True
    assert _codes(floor) == []
    floor.beneath = [[main, 0.4 + 0.12, 0.3], [hatchback.block.name, 0.4, 0.3 - 0.07]]
    assert _codes(floor) == []
    floor.beneath = [[main, 0.4 + 0.13, 0.3], ["F-P99", 0.4, 0.3], [main, None, 0.3]]
    assert _codes(floor) == ["without-hatch", "not-listed", "place-unknown"]
    floor.hatches = None
    floor.beneath = [[main, 0.4, 0.3]]
    assert _codes(floor) == ["without-hatch"]


def test_the_place_counts_from_the_outline_as_typed(hatchback, floor):
    """In a space 2 mm are left all round: hatch and fuse move by the same."""
    floor.measured = TrimPanel.Measured.SPACE
    floor.beneath_listed = True
    for across, up in ((0.12, 0.0), (-0.12, 0.0), (0.0, 0.07), (0.0, -0.07)):
        floor.beneath = [[hatchback.block.name, 0.4 + across, 0.3 + up]]
        assert _codes(floor) == []


def test_a_floor_that_cannot_be_cut_says_nothing_of_its_hatches(hatchback, floor):
    """Without a material there is no hatch to hold against; whether all is listed is asked."""
    floor.material = None
    floor.beneath = [[hatchback.block.name, 0.0, 0.0]]
    assert _codes(floor) == ["unknown"]
