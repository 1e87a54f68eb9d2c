"""A box's record as wood: shapes, joints, thicknesses, places, and what the machines cannot do."""

from __future__ import annotations

import math

import pytest
from shapely import affinity
from shapely.geometry import Polygon
from shapely.ops import unary_union

from acoustics.errors import AcousticsError
from jobs.design.carcass.carcass import build, wood
from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.design.wood.pieces import pieces_of
from jobs.models import Box, SheetMaterial
from tests.refused import refused

pytestmark = pytest.mark.django_db
SHEET = 0.018


def a_box(**more) -> Box:
    """An unsaved box of plain 18 mm sheet; every figure is invented."""
    plain = {"width": 0.6, "height": 0.4, "depth": 0.35}
    material = SheetMaterial(
        name="plain", thickness=SHEET, sheet_length=2.5, sheet_width=1.25, grained=True
    )
    return Box(name="box", material=material, **{**plain, **more})


# Outlines written down by hand, x to the rear and y up, for the box of the same fields.
OUTLINES = {
    "rectangle": ({}, [(0, 0), (0.35, 0), (0.35, 0.4), (0, 0.4)]),
    "sloped": ({"top_depth": 0.2}, [(0, 0), (0.35, 0), (0.2, 0.4), (0, 0.4)]),
    "wedge": ({}, [(0, 0), (0.35, 0), (0, 0.4)]),
    "knee": (
        {"top_depth": 0.15, "cut_depth": 0.3, "cut_height": 0.2},
        [(0, 0), (0.35, 0), (0.3, 0.2), (0.15, 0.4), (0, 0.4)],
    ),
    "step": (
        {"cut_depth": 0.1, "cut_height": 0.12},
        [(0, 0), (0.25, 0), (0.25, 0.12), (0.35, 0.12), (0.35, 0.4), (0, 0.4)],
    ),
    "toe": (
        {"cut_depth": 0.12, "cut_height": 0.15},
        [(0, 0), (0.35, 0), (0.35, 0.4), (0.12, 0.4), (0.12, 0.15), (0, 0.15)],
    ),
    "corner": (
        {"cut_depth": 0.1, "cut_height": 0.12},
        [(0, 0), (0.25, 0), (0.35, 0.12), (0.35, 0.4), (0, 0.4)],
    ),
    "profile": (
        {"profile": [[0, 0], [0.35, 0], [0.3, 0.4], [0.05, 0.4]]},
        [(0, 0), (0.35, 0), (0.3, 0.4), (0.05, 0.4)],
    ),
}


@pytest.mark.second_method
@pytest.mark.parametrize("shape", OUTLINES)
def test_litres_of_every_shape_against_shapely(shape):
    """The bare inside is the outline moved in by the sheet (shapely buffer) times the width."""
    fields, outline = OUTLINES[shape]
    carcass = build(a_box(shape=shape, **fields), port_length=None)
    inside = Polygon(outline).buffer(-SHEET, join_style="mitre", mitre_limit=50).area
    assert carcass.gross_volume == pytest.approx(inside * (0.6 - 2 * SHEET), rel=1e-6)


@pytest.mark.second_method
@pytest.mark.parametrize("shape", ["sloped", "wedge", "knee", "corner", "profile"])
@pytest.mark.parametrize("entered", [False, True], ids=["by count", "by hand"])
def test_the_window_of_a_plate_is_the_section_drawn_smaller(shape, entered):
    """Laid on the section of the air, both about their centres, it is the same way up (shapely)."""
    fields, outline = OUTLINES[shape]
    plate = [{"kind": "plate", "at": [0.25], "open": 0.49}]
    braces = {"inner_braces": plate} if entered else {"brace_count": 2, "brace_opening": 0.49}
    carcass = build(a_box(shape=shape, **fields, **braces), port_length=None)
    inside = Polygon(outline).buffer(-SHEET, join_style="mitre", mitre_limit=50)
    smaller = affinity.scale(inside, 0.7, 0.7, origin=(inside.centroid.x, inside.centroid.y))
    assert len(carcass.braces) == (1 if entered else 2)
    for brace in carcass.braces:
        (loop,) = brace.windows
        window = Polygon(loop.points)
        assert inside.contains(window)
        off = (smaller.centroid.x - window.centroid.x, smaller.centroid.y - window.centroid.y)
        moved = affinity.translate(window, *off)
        assert moved.symmetric_difference(smaller).area < 1e-9


@pytest.mark.parametrize("kind", ["shelf", "upright"])
def test_the_window_of_a_shelf_lies_in_its_middle(kind):
    """A quarter open: half as wide and half as deep as the air, the same rim on both sides."""
    brace = {"kind": kind, "at": [0.17], "open": 0.25}
    carcass = build(a_box(inner_braces=[brace]), port_length=None)
    (shelf,) = carcass.braces
    (window,) = shelf.windows
    across, along = 0.6 - 2 * SHEET, (0.35 if kind == "shelf" else 0.4) - 2 * SHEET
    left, low, right, high = Polygon(window.points).bounds
    assert (left, right) == pytest.approx((across / 4, across * 3 / 4))
    assert (low, high) == pytest.approx((along / 4, along * 3 / 4))


@pytest.mark.parametrize(("share", "narrow"), [(0.8, False), (0.9, True)])
def test_the_window_of_a_shelf_keeps_its_rim_across_too(share, narrow):
    """In a deep, narrow box the rim beside the window binds: 264 · (1 − √share)/2 mm, wanted 18.

    With 80 % it is 13.9 mm in a box of 300 mm and 29.7 mm in one of 600 mm.
    """
    shelf = [{"kind": "shelf", "at": [0.2], "open": share}]
    deep = {"depth": 0.9, "inner_braces": shelf}
    with pytest.raises(AcousticsError):
        build(a_box(width=0.3, **deep), port_length=None)
    rim = (0.6 - 2 * SHEET) * (1 - math.sqrt(share)) / 2
    assert (rim < SHEET) is narrow
    if not narrow:
        assert build(a_box(width=0.6, **deep), port_length=None) is not None


def test_a_well_is_a_polygon_that_goes_into_it():
    """Corners of a round well lie on its circle; its width is the well's depth."""
    carcass = build(a_box(shape="well", width=0.2, depth=0.5, height=None), port_length=None)
    assert all(math.hypot(x, y) == pytest.approx(0.25) for x, y in carcass.profile.points)
    assert carcass.width == 0.2
    # Area of a regular polygon of n corners: n/2 r² sin(2π/n).
    assert carcass.profile.area == pytest.approx(6 * 0.25**2 * math.sin(math.tau / 12))


def test_a_lean_may_be_given_as_an_angle():
    """tan 20° over the height is taken off the depth at the top."""
    carcass = build(a_box(shape="sloped", rear_slope=math.radians(20)), port_length=None)
    assert max(x for x, y in carcass.profile.points if y > 0.3) == pytest.approx(
        0.35 - 0.4 * math.tan(math.radians(20))
    )


def test_own_thickness_of_a_side():
    """A 30 mm front and 12 mm sides leave the inside they leave."""
    box = a_box(thicknesses={"front": 0.03, "left": 0.012, "right": 0.012})
    carcass = build(box, port_length=None)
    inside = (0.35 - 0.03 - SHEET) * (0.4 - 2 * SHEET) * (0.6 - 2 * 0.012)
    assert carcass.gross_volume == pytest.approx(inside)
    assert {round(p.panel.thickness, 4) for p in wood(box, port_length=None).parts} == {
        0.03,
        0.018,
        0.012,
    }


def sizes(box: Box) -> dict[str, tuple[float, float]]:
    """Finished sizes by panel in mm."""
    return {
        panel.name: tuple(round(1000 * v, 3) for v in panel.size)
        for part in wood(box, port_length=None).parts
        for panel in part.panels
    }


def test_who_runs_through_is_chosen():
    """Through panels keep the outer size, the others are shorter by two sheets (18 mm each)."""
    lying = sizes(a_box(corner_joint="butt", runs_through="lying"))
    standing = sizes(a_box(corner_joint="butt", runs_through="standing"))
    assert lying["bottom"] == (564, 350)
    assert lying["front"] == (564, 364)
    assert standing["bottom"] == (564, 314)
    assert standing["front"] == (564, 400)


def test_cheeks_over_between_and_let_in():
    """Side panels cover, stand between, or take the walls 6 mm deep."""
    assert sizes(a_box(cheek_joint="cover"))["left"] == (350, 400)
    assert sizes(a_box(cheek_joint="between"))["left"] == (314, 364)
    rebated = sizes(a_box(cheek_joint="rebate", rebate_depth=0.006))
    assert rebated["left"] == (350, 400)
    assert rebated["bottom"][0] == 600 - 2 * (18 - 6)


def test_mitres_all_round():
    """Every edge of every wall is cut at 45° and every panel keeps its outer size."""
    made = wood(a_box(corner_joint="mitre", cheek_joint="mitre"), port_length=None)
    for part in made.parts:
        assert all(math.degrees(cut.bevel) == pytest.approx(45) for cut in part.cuts)
    assert sizes(a_box(corner_joint="mitre", cheek_joint="mitre"))["front"] == (600, 400)


def test_the_pocket_of_a_rebate_lies_along_its_edge_inside_the_piece():
    """Each is a sheet's thickness wide from an edge, as long as the edge, within the piece."""
    made = wood(a_box(cheek_joint="rebate", rebate_depth=0.006), port_length=None)
    cheeks = [p for p in pieces_of(made.parts, made.carcass, "A") if p.pockets]
    pockets = [(piece, pocket) for piece in cheeks for pocket in piece.pockets]
    assert len(pockets) == 4 * len(cheeks) > 0
    for piece, pocket in pockets:
        assert (pocket.face, pocket.depth) == ("inside", 0.006)
        outline = piece.outline.polygon
        assert outline.buffer(1e-9).covers(pocket.figure.polygon)
        left, low, right, high = pocket.figure.polygon.bounds
        sides = sorted((right - left, high - low))
        assert sides[0] == pytest.approx(SHEET)
        assert sides[1] in (pytest.approx(piece.size[0]), pytest.approx(piece.size[1]))
        shared = outline.exterior.intersection(pocket.figure.polygon.exterior).length
        assert shared == pytest.approx(sides[1] + 2 * SHEET)


def test_a_piece_turned_over_is_its_mirror_image():
    """Its size stays, corners run counter-clockwise, a hole at the left comes to the right."""
    made = wood(a_box(shape="sloped", top_depth=0.2, terminal_face="left", terminal_diameter=0.06,
                      terminal_u=0.1), port_length=None)  # fmt: skip
    (piece,) = [p for p in pieces_of(made.parts, made.carcass, "A") if "left" in p.panels]
    over = piece.turned_over()
    assert over.size == pytest.approx(piece.size)
    assert Polygon(over.outline.points).exterior.is_ccw
    (hole,), (other,) = piece.holes, over.holes
    assert hole.centre[0] + other.centre[0] == pytest.approx(piece.size[0])
    assert over.turned_over().holes[0].centre == pytest.approx(hole.centre)


def test_rebates_are_half_a_sheet_unless_said():
    """An empty depth is half the thinnest panel (the form says so)."""
    made = wood(a_box(corner_joint="rebate"), port_length=None)
    depths = {
        cut.rebate.depth for part in made.parts for cut in part.cuts if cut.rebate is not None
    }
    assert depths == {SHEET / 2}


def test_joints_do_not_change_the_litres():
    """However panels meet, the inside is the same."""
    volumes = [
        build(a_box(corner_joint=corner, cheek_joint=cheek), port_length=None).gross_volume
        for corner, cheek in (("butt", "cover"), ("rebate", "between"), ("mitre", "mitre"))
    ]
    assert volumes == pytest.approx([volumes[0]] * 3)


def test_everything_sits_where_it_was_put():
    """Port and terminal plate lie on the faces and places given; a bent port keeps its length."""
    box = a_box(
        kind=Box.Kind.VENTED,
        port_diameter=0.06,
        port_face="rear",
        port_u=0.15,
        port_v=0.3,
        port_bend="-v",
        port_straight=0.1,
        terminal_face="left",
        terminal_diameter=0.07,
        terminal_v=0.1,
    )
    carcass = build(box, port_length=0.22)
    port, plate = carcass.contents
    assert (port.face, port.u, port.v) == ("rear", 0.15, 0.3)
    assert [leg.heading for leg in port.part.legs] == ["in", "-v"]
    assert port.part.length == pytest.approx(0.22)
    assert (plate.face, plate.v) == ("left", 0.1)


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        (
            {"shape": "profile", "profile": [[0, 0], [0.3, 0.4], [0.3, 0], [0, 0.4]]},
            "outline-crosses-itself",
        ),
        ({"thicknesses": {"front": 0.2, "rear": 0.2}}, "edge-has-no-inside"),
        ({"shape": "sloped", "rear_slope": math.radians(95)}, "slope-too-steep"),
        ({"shape": "sloped", "rear_slope": math.radians(60)}, "slope-meets-front"),
        ({"shape": "step", "cut_depth": 0.5, "cut_height": 0.1}, "measure-too-large"),
        ({"thicknesses": {"side 1": 0.02}}, "thickness-of-no-side"),
        ({"cheek_joint": "mitre"}, "mitred-cheeks-need-mitres"),
        ({"corner_joint": "rebate", "rebate_depth": 0.02}, "rebate-through-panel"),
        ({"terminal_face": "riser", "terminal_diameter": 0.07}, "no-such-face"),
        ({"kind": "vented", "port_diameter": 0.06, "port_bend": "+v"}, "missing"),
        (
            {"kind": "vented", "port_diameter": 0.06, "port_bend": "+v", "port_straight": 0.4},
            "port-shorter-than-bend",
        ),
    ],
)
def test_what_cannot_be_is_named(fields, code):
    """Each impossible box has an answer of its own."""
    with refused(AcousticsError, code):
        wood(a_box(**fields), port_length=0.2)


def the_box(saloon, **fields):
    """The saloon's job with its box changed, worked out without saving."""
    records = load(saloon.job)
    box = records.boxes[0]
    for name, value in fields.items():
        setattr(box, name, value)
    return records, box


def found(saloon, **fields) -> dict[str, str]:
    """Codes found on the box page, and what each says."""
    records, _box = the_box(saloon, **fields)
    return {one.code: one.says for one in work_out(records).findings if one.section == "boxes"}


def test_a_driver_larger_than_its_face_is_a_stop(saloon):
    """A flange of 265 mm in a panel 260 mm high is named with both figures."""
    says = found(saloon, driver_face="top")["part-larger-than-face"]
    assert "265" in says


def test_a_sheet_smaller_than_a_part_is_a_stop(saloon):
    """A panel of 868 mm does not come out of a sheet of 800 mm; nothing is laid out."""
    records, box = the_box(saloon)
    box.material.sheet_length, box.material.sheet_width = 0.8, 0.6
    design = work_out(records)
    says = [one.says for one in design.findings if one.code == "part-larger-than-sheet"]
    assert any("867.8" in one and "780" in one for one in says)
    [plan] = work_out_cutting(records, design.boxes, design.trims).plans
    assert plan.nest is None
    assert "is larger" in plan.trouble


def test_a_bevel_beyond_the_saw_is_a_look(saloon):
    """A 9.2° bevel is too much for a saw that tilts 5°; at 45° nothing is said."""
    records, _box = the_box(saloon)
    assert "bevel-beyond-saw" not in {one.code for one in work_out(records).findings}
    records.workshop.saw_tilt = math.radians(5)
    says = [one.says for one in work_out(records).findings if one.code == "bevel-beyond-saw"]
    assert says
    assert "9.2" in says[0]


def test_a_thickness_nobody_sells_is_not_laid_out(saloon):
    """A side of 25 mm finds no sheet in the catalogue: listed, not nested."""
    records, _box = the_box(saloon, thicknesses={"front": 0.025})
    design = work_out(records)
    plans = work_out_cutting(records, design.boxes, design.trims).plans
    [lost] = [plan for plan in plans if plan.nest is None]
    assert lost.material is None
    assert [piece.name for piece in lost.pieces] == ["front"]


def test_a_side_of_another_sheet_comes_from_that_sheet(saloon, shelf):
    """A front of 17.7 mm is cut from the birch that is so thick."""
    records, _box = the_box(saloon, thicknesses={"front": 0.0177})
    design = work_out(records)
    plans = work_out_cutting(records, design.boxes, design.trims).plans
    by_name = {str(plan.material): [p.name for p in plan.pieces] for plan in plans}
    assert by_name[str(shelf["birch"])] == ["front"]


@pytest.mark.parametrize("cutting", ["panel saw", "router"])
def test_true_outlines_keep_the_kerf_and_the_trim(hatchback, cutting):
    """Laid pieces are the width of the cut apart and inside the trimmed sheet (shapely)."""
    records = load(hatchback.job)
    records.workshop.cutting = cutting
    design = work_out(records)
    shop = records.workshop
    laid = 0
    for plan in work_out_cutting(records, design.boxes, design.trims).plans:
        for sheet in plan.nest.sheets:
            shapes = [piece.outline.polygon for piece in plan.laid(sheet)]
            laid += len(shapes)
            for i, one in enumerate(shapes):
                for other in shapes[i + 1 :]:
                    assert one.distance(other) >= shop.kerf - 2e-6
            left, low, right, high = unary_union(shapes).bounds
            assert min(left, low) >= shop.sheet_trim - 1e-6
            assert right <= sheet.sheet.length - shop.sheet_trim + 1e-6
            assert high <= sheet.sheet.width - shop.sheet_trim + 1e-6
    assert laid > 6


def test_pieces_keep_their_shape_when_laid(hatchback):
    """Turning moves a piece and never mirrors it: its corners run the same way round."""
    records = load(hatchback.job)
    design = work_out(records)
    pieces = work_out_cutting(records, design.boxes, design.trims).pieces
    assert len(pieces) >= 6
    for piece in pieces:
        for turned in (False, True):
            laid = piece.laid(1.0, 2.0, turned=turned)
            assert laid.outline.area == pytest.approx(piece.outline.area)
            assert laid.outline.polygon.bounds[:2] == pytest.approx((1.0, 2.0), abs=1e-9)
            if hasattr(piece.outline, "points"):
                assert Polygon(laid.outline.points).exterior.is_ccw
            areas = [hole.area for hole in piece.holes]
            assert [hole.area for hole in laid.holes] == pytest.approx(areas)


def test_grain_lies_along_the_sheet(hatchback):
    """With grain up, a front stands on the sheet with its height along it."""
    records = load(hatchback.job)
    records.boxes[0].grain = "up"
    design = work_out(records)
    plan = work_out_cutting(records, design.boxes, design.trims).plans[0]
    grains = [{piece.grain for piece in plan.laid(sheet)} for sheet in plan.nest.sheets]
    assert "x" in set().union(*grains)
    assert all(grain <= {"x", ""} for grain in grains)
