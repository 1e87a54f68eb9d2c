"""False floors and their hatches: what is cut, what carries, what is refused."""

import math

import numpy as np
import pytest
import trimesh

from acoustics.carcass.panels.floor import (
    Floor,
    Hatch,
    check_floor,
    check_hatches,
    cover_size,
    hole_in_lid,
    support_height,
)
from acoustics.carcass.shape.errors import CarcassError, PlacementError
from acoustics.carcass.shape.outline import Circle, Loop, rectangle
from tests.refused import refused


def hatch(**more) -> Hatch:
    """An invented hatch under carpet of 4 mm."""
    sizes = {"middle": (0.5, 0.3), "width": 0.3, "height": 0.24, "gap": 0.0015, "finish": 0.004,
             "ledge": 0.028}  # fmt: skip
    return Hatch(**(sizes | more))


def floor(*supports: Loop, outline: Loop | None = None, hatches=(), openings=()) -> Floor:
    """An invented floor of 0.9 by 0.6 m on these supports."""
    named = tuple((f"support {n}", support) for n, support in enumerate(supports, start=1))
    return Floor(
        outline=outline or rectangle(0, 0, 0.9, 0.6),
        openings=(*openings, *(opening.opening for _name, opening in hatches)),
        supports=named,
        hatches=hatches,
    )


def codes(checked: Floor) -> dict[str, float]:
    """What is found, with its figure."""
    return {finding.code: finding.value for finding in check_floor(checked)}


def test_cover_counts_on_both_edges_of_a_lid():
    """300 mm less twice (1.5 mm gap, 4 mm on the floor's edge, 4 mm on the lid's) is 281 mm."""
    lid = hatch()
    assert lid.lid == pytest.approx((0.281, 0.221))
    assert lid.bearing == pytest.approx(0.0185)
    assert lid.clear == pytest.approx((0.244, 0.184))
    assert support_height(level=0.145, thickness=0.0177, finish=0.004) == pytest.approx(0.1233)
    assert cover_size(width=0.9, height=0.6, thickness=0.018, turned=0.04) == pytest.approx(
        (1.016, 0.716)
    )


def test_the_strips_of_a_ledge_close_a_ring_without_overlap():
    """Laid as the sheet says, boxes of trimesh fill frame less clear opening to the last mm²."""
    lid, thick = hatch(), 0.018
    (long, broad), (between, _broad) = lid.ledges
    solids = [(long, broad)] * 2 + [(broad, between)] * 2
    volume = sum(trimesh.creation.box((*size, thick)).volume for size in solids)
    ring = lid.frame.area - math.prod(lid.clear)
    assert volume / thick == pytest.approx(ring, rel=1e-12)
    assert between + 2 * broad == pytest.approx(lid.height + 2 * 0.03)


def test_a_floor_tips_where_its_weight_lies_beyond_its_supports():
    """The middle of mass of a grid of 1 mm, against the hull of the supports."""
    battens = rectangle(0.05, 0.05, 0.85, 0.09), rectangle(0.05, 0.2, 0.85, 0.24)
    tilting = floor(*battens)
    u, v = np.meshgrid(np.arange(0.0005, 0.9, 0.001), np.arange(0.0005, 0.6, 0.001))
    assert codes(tilting)["floor-tips"] == pytest.approx(float(v.mean()) - 0.24, abs=1e-4)
    assert float(u.mean()) == pytest.approx(0.45, abs=1e-4)
    # A third one at the far side carries it; then only the rim is asked about.
    assert codes(floor(*battens, rectangle(0.05, 0.55, 0.85, 0.59))) == {}
    near = codes(floor(*battens, rectangle(0.05, 0.34, 0.85, 0.38)))
    assert near["floor-overhangs"] == pytest.approx(math.hypot(0.05, 0.22))


def test_a_support_stands_under_the_floor_and_beside_its_hatches():
    """One beyond the rim carries nothing there; one under a ledge keeps the lid from closing."""
    ends = rectangle(0.02, 0.02, 0.06, 0.58), rectangle(0.84, 0.02, 0.88, 0.58)
    assert codes(floor(*ends, rectangle(0.4, 0.5, 0.5, 0.62)))["support-beyond-floor"] == (
        pytest.approx(0.02)
    )
    lids = (("hatch 1", hatch()),)
    assert codes(floor(*ends, hatches=lids)) == {}
    beside = rectangle(0.3, 0.1, 0.33, 0.5)  # the ledge is glued from 0.32 m on
    assert "support-under-hatch" in codes(floor(*ends, beside, hatches=lids))


def test_a_support_under_an_opening_carries_nothing():
    """Wholly under one it is found; half under one, the other half carries."""
    ends = rectangle(0.02, 0.02, 0.06, 0.58), rectangle(0.84, 0.02, 0.88, 0.58)
    hole = (rectangle(0.4, 0.2, 0.5, 0.4),)
    under, half = rectangle(0.42, 0.25, 0.46, 0.35), rectangle(0.42, 0.25, 0.46, 0.45)
    assert "support-under-opening" in codes(floor(*ends, under, openings=hole))
    assert codes(floor(*ends, half, openings=hole)) == {}


def test_hatches_no_hand_passes_are_found():
    """A hand needs 100 mm, a lid 10 mm of ledge: common practice, no source."""
    low = hatch(ledge=0.0185)
    (little,) = check_hatches([("hatch 1", low)])
    assert (little.code, little.limit) == ("lid-hardly-lies", 0.01)
    assert little.value == pytest.approx(0.009)
    (narrow,) = check_hatches([("hatch 1", hatch(width=0.15))])
    assert (narrow.code, narrow.detail) == ("hatch-narrow", ("hatch 1",))
    assert narrow.value == pytest.approx(0.094)


def test_a_finger_hole_leaves_wood_and_is_not_closed_by_its_cover():
    """It lies in the middle, one diameter under the upper edge, all of it on bare lid."""
    lid = hatch()
    u, v = hole_in_lid(lid, diameter=0.04)
    assert (u, v) == pytest.approx((0.1405, 0.221 - 0.06))
    hole = Circle(centre=(u, v), radius=0.02)
    assert rectangle(0, 0, *lid.lid).polygon.contains(hole.polygon)
    # A small one lies behind the ledge the lid rests on, all of it.
    assert lid.bearing > 0.015
    assert hole_in_lid(lid, diameter=0.01)[1] == pytest.approx(0.221 - lid.bearing - 0.005)
    room = 0.221 - 2 * lid.bearing
    assert hole_in_lid(lid, diameter=room * (1 - 1e-9))[1] == pytest.approx(0.221 / 2)
    for wrong in (0.008, room * (1 + 1e-9)):
        with refused(CarcassError, "finger-hole-off-lid"):
            hole_in_lid(lid, diameter=wrong)


def test_impossible_floors_say_why():
    """On nothing, lower than their own board, lids that vanish or fall, ledges that close."""
    with refused(PlacementError, "floor-on-no-support"):
        floor()
    with refused(CarcassError, "floor-thicker-than-level", level=0.02, taken=0.022):
        support_height(level=0.02, thickness=0.018, finish=0.004)
    with refused(CarcassError, "floor-thicker-than-level"):  # rounding leaves 10⁻¹⁸ m of it
        support_height(level=0.02, thickness=0.015, finish=0.005)
    with refused(CarcassError, "lid-vanishes"):
        hatch(height=0.018)
    with refused(CarcassError, "lid-falls-through", wanted=0.0195):
        hatch(ledge=0.009)
    with refused(CarcassError, "ledge-closes-hatch"):
        hatch(ledge=0.12)
