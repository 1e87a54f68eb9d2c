"""The order in which a box is glued: every panel once, onto something that is there."""

import numpy as np
import pytest

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.gluing import REASONS, glue_order
from acoustics.carcass.shape.braces import CrossBrace, Layer, Shelf
from acoustics.carcass.shape.contents import Placed, RoundPart
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.profile import Profile
from acoustics.carcass.shape.shapes import rectangle_profile, step_profile

PLAIN = Carcass(profile=rectangle_profile(0.4, 0.3), width=0.6, thickness=0.018)


def test_plain_box():
    """A cheek on the bench, bottom, rear, top and front round it, the other cheek to close."""
    steps = glue_order(PLAIN)
    assert [s.panel for s in steps] == ["left", "bottom", "rear", "top", "front", "right"]
    assert [s.reason for s in steps] == [
        "lies-on-bench",
        "stands-on-base",
        "joins-neighbour",
        "joins-neighbour",
        "closes-ring",
        "closes-box",
    ]
    assert steps[4].onto == ("left", "top", "bottom")
    assert steps[5].onto == ("bottom", "rear", "top", "front")


def test_layers_first_braces_before_the_lid():
    """Stacked layers are glued flat before anything stands; braces go in while a side is open."""
    carcass = Carcass(
        profile=rectangle_profile(0.4, 0.3),
        width=0.6,
        thickness=0.018,
        layers=(Layer(face="front", thickness=0.018), Layer(face="front", thickness=0.018)),
        braces=(
            CrossBrace(name="far", at=0.4, thickness=0.018),
            CrossBrace(name="near", at=0.2, thickness=0.018),
        ),
    )
    assert [s.panel for s in glue_order(carcass)] == [
        "front layer 1",
        "front layer 2",
        "left",
        "bottom",
        "rear",
        "top",
        "front",
        "near",
        "far",
        "right",
    ]


def test_a_cheek_with_a_hole_goes_on_last():
    """The whole cheek lies on the bench; a driver in the left one makes it the lid."""
    part = RoundPart(
        name="driver",
        cutout_diameter=0.12,
        flange_diameter=0.14,
        basket_depth=0.05,
        motor_diameter=0.08,
    )
    carcass = Carcass(
        profile=rectangle_profile(0.4, 0.3),
        width=0.6,
        thickness=0.018,
        contents=(Placed(part=part, face="left"),),
        braces=(
            CrossBrace(name="near", at=0.2, thickness=0.018),
            CrossBrace(name="far", at=0.4, thickness=0.018),
        ),
    )
    order = [s.panel for s in glue_order(carcass)]
    assert (order[0], order[-1]) == ("right", "left")
    assert order.index("far") < order.index("near")


@pytest.mark.parametrize("seed", range(3))
def test_every_panel_once_and_onto_what_is_there(seed):
    """Random boxes: the order holds every panel once, and each touches one glued before it."""
    rng = np.random.default_rng(seed)
    for _ in range(100):
        d, h = rng.uniform(0.3, 0.6, size=2)
        profile = (
            step_profile(depth=d, height=h, step_depth=d / 3, step_height=h / 3)
            if rng.random() < 0.5
            else Profile(points=((0, 0), (d, 0), (d - 0.1, h), (0.05, h + 0.05)))
        )
        layers = tuple(
            Layer(
                face=str(rng.choice(profile.names)), thickness=0.012, outside=bool(rng.integers(2))
            )
            for _ in range(rng.integers(3))
        )
        braces = [
            CrossBrace(name=f"plate {i}", at=0.1 + 0.12 * i, thickness=0.012)
            for i in range(rng.integers(3))
        ]
        if rng.random() < 0.5:
            line = ((0.1, h * 0.6), (0.2, h * 0.6))
            braces.append(Shelf(name="shelf", start=line[0], end=line[1], thickness=0.012))
        carcass = Carcass(
            profile=profile, width=0.6, thickness=0.015, layers=layers, braces=tuple(braces)
        )
        steps = glue_order(carcass)
        assert sorted(s.panel for s in steps) == sorted(p.name for p in panels(carcass))
        assert [s.number for s in steps] == list(range(1, len(steps) + 1))
        assert {s.reason for s in steps} <= set(REASONS)
        done: set[str] = set()
        for step in steps:
            if step.reason not in ("layers-flat", "lies-on-bench"):
                assert step.onto
                assert set(step.onto) <= done
            done.add(step.panel)
        assert steps == glue_order(carcass)
