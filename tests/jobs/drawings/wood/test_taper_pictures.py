"""Drawings of a box whose walls all lean: plates in the section, the whole box in the round."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from shapely.geometry import Polygon

from acoustics.carcass.shape.braces import CrossBrace
from acoustics.carcass.shape.contents import Placed
from acoustics.carcass.shape.four_sided import four_sided_taper
from acoustics.carcass.shape.outline import rectangle
from jobs.drawings.wood.axonometric import axonometric
from jobs.drawings.wood.box_drawing import View
from tests.jobs.drawings.wood.boxes import DRIVER, prism

VIEW = View(key="k", title="Whole", description="The closed box.")
PLAIN = {"bottom": (0.48, 0.60), "top": (0.30, 0.44), "height": 0.38, "thickness": 0.018}


def test_a_plate_is_cut_where_it_has_a_window():
    """In the section a plate is one piece of wood, with a window two, as long as the air there."""
    plain = CrossBrace(name="brace 1", at=0.15, thickness=0.018)
    window = rectangle(0.2, 0.15, 0.4, 0.33)
    for brace, cuts in ((plain, 1), (replace(plain, windows=(window,)), 2)):
        box = replace(four_sided_taper(**PLAIN), braces=(brace,))
        pieces = [Polygon(one.outline) for one in box.seen_braces()]
        assert len(pieces) == cuts
        air = [box.air_plan(y).bounds for y in (0.15, 0.168)]
        section = 0.018 * sum(high - low for _, low, _, high in air) / 2
        assert sum(p.area for p in pieces) == pytest.approx(section - (cuts - 1) * 0.18 * 0.018)


def test_the_whole_box_says_its_five_lengths():
    """Depth and width below and above, and the height, in the workshop's words."""
    svg = str(axonometric(four_sided_taper(**PLAIN), VIEW))
    for length in ("480", "600", "300", "440", "380"):
        assert re.search(rf">{length}(\.0)?<", svg)


def test_an_upright_taper_is_drawn_as_the_prism_is():
    """Nine edges are seen and three dotted, each as long as those of the rectangular box."""
    box = four_sided_taper(bottom=(0.4, 0.5), top=(0.4, 0.5), height=0.3, thickness=0.018)
    block = prism([(0, 0), (0.4, 0), (0.4, 0.3), (0, 0.3)], width=0.5)
    lengths = []
    for svg in (str(axonometric(body, VIEW)) for body in (box, block)):
        paths = re.findall(r'<path d="(M[^"]*)"', svg.split("</g>")[0])
        lines = [re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)", d) for d in paths]
        sizes = [
            sorted(np.hypot(float(c) - float(a), float(e) - float(b)) for a, b, c, e in one)
            for one in lines[:2]
        ]
        assert [len(one) for one in sizes] == [3, 9]
        lengths.append([np.array(one) / max(sizes[1]) for one in sizes])
    for one, other in zip(*lengths, strict=True):
        assert one == pytest.approx(other, abs=2e-3)


def test_what_sits_in_a_face_is_drawn_on_it_where_it_is_seen():
    """A driver in the front adds strokes, one in the rear is hidden."""

    def strokes(*faces: str) -> int:
        contents = tuple(Placed(part=DRIVER, face=face) for face in faces)
        return str(axonometric(replace(four_sided_taper(**PLAIN), contents=contents), VIEW)).count(
            "L"
        )

    assert strokes("front") > strokes()
    assert strokes("rear") == strokes()
