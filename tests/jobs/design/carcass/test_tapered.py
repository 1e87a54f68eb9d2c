"""A box record whose walls all lean: litres, cut list, findings, pieces, and what it refuses."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
import trimesh

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.shape.errors import JointError, NoInsideError, PlacementError, WallsMeetError
from jobs.design.box.box_in_car import look
from jobs.design.box.boxes import work_out_box
from jobs.design.carcass.carcass import build, wood
from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.design.wood.pieces import pieces_of
from jobs.models import Box, SheetMaterial
from tests.acoustics.carcass.second_method import solid_of
from tests.refused import refused

pytestmark = pytest.mark.django_db
SHEET = 0.018


def a_taper(**more) -> Box:
    """An unsaved box of plain 18 mm sheet; every figure is invented."""
    plain = {
        "shape": Box.Shape.TAPER,
        "width": 0.6,
        "depth": 0.48,
        "height": 0.38,
        "top_depth": 0.30,
        "top_width": 0.44,
        "top_to_rear": 0.02,
        "top_to_right": -0.03,
    }
    plain["material"] = SheetMaterial(
        name="plain",
        thickness=SHEET,
        sheet_length=2.5,
        sheet_width=1.25,
        grained=True,
        density=680.0,
        stiffness=3.5e9,
    )
    return Box(name="box", **(plain | more))


@pytest.mark.second_method
def test_litres_of_the_record_against_a_hull():
    """Gross litres are those of the hull of eight corners moved in by hand (trimesh, 0.01 %)."""
    box = a_taper()
    # Half the outer depth and width shrink evenly; a wall leaning t hides its thickness / cos t.
    x0, z0 = 0.24, 0.3

    def inner(y: float) -> list[tuple[float, float, float]]:
        share = y / 0.38
        ends = []
        for start, stop in (
            (-0.24, -0.15 + 0.02), (0.24, 0.15 + 0.02), (-0.3, -0.22 - 0.03), (0.3, 0.22 - 0.03),
        ):  # fmt: skip
            lean = math.atan2(start - stop, 0.38)
            wood = SHEET / math.cos(lean)
            ends.append(start + share * (stop - start) + (wood if start < 0 else -wood))
        a, b, c, d = ends
        return [(x0 + x, y, z0 + z) for x in (a, b) for z in (c, d)]

    hull = trimesh.convex.convex_hull(np.array(inner(SHEET) + inner(0.38 - SHEET)))
    assert build(box, port_length=None).gross_volume == pytest.approx(hull.volume, rel=1e-4)


def test_nothing_is_built_while_a_measure_is_missing():
    """Without the width at the top there is no wood yet, and no error."""
    for name in ("depth", "width", "height", "top_depth", "top_width", "material"):
        assert wood(a_taper(**{name: None}), port_length=None) is None


@pytest.mark.parametrize(
    ("changed", "error", "code"),
    [
        ({"top_depth": 0.01}, WallsMeetError, "walls-meet"),
        ({"top_width": 0.001}, WallsMeetError, "walls-meet"),
        ({"height": 0.03}, NoInsideError, "ends-leave-no-inside"),
        ({"thicknesses": {"lid": 0.02}}, PlacementError, "thickness-of-no-side"),
        ({"driver_face": "side 1", "baffle_layers": 2}, PlacementError, "no-such-face"),
        ({"terminal_face": "riser", "terminal_diameter": 0.05}, PlacementError, "no-such-face"),
        ({"corner_joint": Box.Corner.REBATE}, JointError, "rebate-where-walls-lean"),
        (
            {"inner_braces": [{"kind": "shelf", "at": [0.1], "open": 0.0}]},
            PlacementError,
            "braces-where-walls-lean",
        ),
    ],
)
def test_impossible_tapers_are_refused_by_name(changed, error, code):
    """Each impossible figure gets its own answer."""
    with refused(error, code):
        wood(a_taper(**changed), port_length=None)


def test_plates_that_stand_in_each_other_are_told():
    """Twenty plates of 18 mm are more than 344 mm of height hold."""
    made = wood(a_taper(brace_count=20), port_length=None)
    assert "braces-cross" in {one.code for one in made.findings}


def test_joints_follow_the_record():
    """A mitre halves the angle between walls; who runs through is chosen as for other boxes."""
    mitred = wood(a_taper(corner_joint=Box.Corner.MITRE), port_length=None).carcass
    assert mitred.corner == "mitre"
    lying, standing = (
        {
            panel.name: {cut.mate for cut in panel.cuts if cut.runs_through}
            for panel in panels(build(a_taper(runs_through=way), port_length=None))
        }
        for way in Box.Through
    )
    assert {"front", "rear"} <= lying["left"]
    assert {"left", "right"} <= standing["front"]
    assert not {"front", "rear"} & standing["left"]


def test_own_thickness_and_layers():
    """A 24 mm front, twice, and a 12 mm bottom are cut as such and take their litres."""
    box = a_taper(thicknesses={"front": 0.024, "bottom": 0.012}, baffle_layers=2)
    made = wood(box, port_length=None)
    thick = {p.name: p.thickness for part in made.parts for p in part.panels}
    assert (thick["front"], thick["front layer 1"], thick["bottom"]) == (0.024, 0.024, 0.012)
    (layer,) = (p for p in panels(made.carcass) if p.name == "front layer 1")
    assert made.carcass.volumes.layers == pytest.approx(solid_of(layer).volume, rel=1e-6)


@pytest.mark.second_method
@pytest.mark.parametrize("corner", ["", "mitre"])
def test_a_piece_is_all_of_its_panel_seen_square_on(corner):
    """Its outline is the hull of both faces: no corner of the wood lies outside (shapely)."""
    made = wood(a_taper(corner_joint=corner, brace_count=1), port_length=None)
    assert len(made.parts) >= 6
    for piece, line in zip(pieces_of(made.parts, made.carcass, "A"), made.parts, strict=True):
        hull = shapely.MultiPoint([*line.panel.outside, *line.panel.inside]).convex_hull
        assert piece.outline.area == pytest.approx(hull.area, rel=1e-9)
        assert piece.size == pytest.approx(line.size)


def test_ports_find_their_place_in_a_leaning_face():
    """Two ports without a place stand inside the air behind the face, apart."""
    box = a_taper(
        kind=Box.Kind.VENTED, port_count=2, port_diameter=0.06, port_length=0.15, port_wall=0.003
    )
    made = wood(box, port_length=0.15)
    assert len(made.carcass.contents) == 2
    assert not {"cut-out-breaks-edge", "parts-collide"} & {one.code for one in made.findings}


def test_a_tapered_box_is_worked_out_with_everything(hatchback):
    """Litres, mass, waves and findings stand where those of any other box stand."""
    job = hatchback.job
    box = job.boxes.select_related("driver__part__driver", "channel", "material").first()
    for name in ("width", "depth", "height", "top_depth", "top_width", "top_to_rear"):
        setattr(box, name, getattr(a_taper(), name))
    box.shape, box.cavity_profile, box.brace_count = Box.Shape.TAPER, None, 2
    result = work_out_box(box)
    assert result.refused is None
    named = {figure.name: figure.value for figure in result.figures}
    assert named["net_volume"] == pytest.approx(result.wood.carcass.net_volume)
    assert named["mass"] > 5.0
    assert result.modes.modes.frequencies[0] > 100.0
    codes = {one.code for one in result.findings}
    assert codes & {"standing-waves-above-band", "standing-wave-in-band"}
    assert "parts-collide" in codes  # the motor meets a level plate


def test_a_wall_that_rings_is_cured_by_level_plates():
    """The cure counts level braces; with so many entered the finding is gone."""
    box = a_taper(kind=Box.Kind.SEALED, height=0.6, top_width=0.5)
    box.material.thickness = 0.006

    def said() -> dict[str, list]:
        found: dict[str, list] = {}
        for one in look(box, wood(box, port_length=None)).findings:
            found.setdefault(one.code, []).append(one)
        return found

    first = said()
    walls = [
        one for one in first["panel-mode-in-band"] if one.about.detail not in ("top", "bottom")
    ]
    assert walls
    assert "level" in first["braces-level-cure"][0].says
    box.brace_count = max(int(one.value) for one in first["braces-level-cure"]) + 1
    left = said().get("panel-mode-in-band", [])
    assert all(one.about.detail in ("top", "bottom") for one in left)


def test_the_cutting_of_a_saved_taper(hatchback):
    """Pieces, glue steps and mass of a saved box are of one numbering."""
    job = hatchback.job
    box = hatchback.box
    for name in ("shape", "width", "depth", "height", "top_depth", "top_width"):
        setattr(box, name, getattr(a_taper(), name))
    box.cavity_profile = None
    box.save()
    design = work_out(load(job))
    made = work_out_cutting(design.records, design.boxes, design.trims).boxes[0]
    assert len(made.steps) == 6
    assert any("bevel of its foot" in step for step in made.steps)
    assert made.mass.wood == pytest.approx(
        sum(panel.mass for part in design.boxes[0].wood.parts for panel in part.panels)
    )
