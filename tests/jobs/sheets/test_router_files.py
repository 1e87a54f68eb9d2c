"""Router files a person can trust: pockets with depth and face, mirrored; open stops written in."""

from __future__ import annotations

import io
import math

import ezdxf
import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.design.wood.pieces import Loop, Piece, Pocket
from jobs.sheets import dxf
from jobs.sheets.router import Router, reliefs, tabs

pytestmark = pytest.mark.django_db


def read(saloon, **fields):
    """The saloon's cutting and router files after some fields were changed."""
    records = load(saloon.job)
    for name, value in fields.items():
        setattr(records.boxes[0], name, value)
    design = work_out(records)
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    files = dxf.drawings(cutting, dxf._stops(design, cutting))
    return cutting, {name: ezdxf.read(io.StringIO(text)) for name, text in files.items()}


def test_a_rebate_is_a_closed_pocket_on_a_layer_that_names_face_and_depth(saloon):
    """Nothing of it is scratched; the part lies with its inner face up, its hole mirrored."""
    sides = {"cheek_joint": "rebate", "rebate_depth": 0.006}
    cutting, files = read(saloon, **sides, terminal_face="left", terminal_diameter=0.057,
                          terminal_u=0.06)  # fmt: skip
    (piece,) = [p for p in cutting.pieces if "left" in p.panels]
    (document,) = [d for n, d in files.items() if n.startswith(f"parts/{piece.label}-")]
    assert document.audit().errors == []
    space = document.modelspace()
    pockets = space.query("LWPOLYLINE[layer=='POCKET_INSIDE_6.0']")
    assert len(pockets) == len(piece.pockets) == 4
    assert all(pocket.closed for pocket in pockets)
    assert not space.query("*[layer=='ENGRAVE']")
    (hole,) = space.query("CIRCLE[layer=='CUT']")
    (own,) = piece.holes
    assert hole.dxf.center.x == pytest.approx((piece.size[0] - own.centre[0]) * 1000)
    notes = " ".join(text.dxf.text for text in space.query("TEXT"))
    assert "inner face up, mirrored" in notes
    assert "pocket 6.0" in notes.replace("\N{NO-BREAK SPACE}", " ")
    sheet = next(d for n, d in files.items() if n.startswith("sheets/"))
    assert len(sheet.modelspace().query("LWPOLYLINE[layer=='POCKET_INSIDE_6.0']")) >= 8


def test_an_open_stop_is_written_in_every_file_of_its_box(saloon):
    """A driver over the edge of its panel: parts and sheets say not to cut it so."""
    _cutting, files = read(saloon, driver_face="top")
    assert len(files) > 5
    for name, document in files.items():
        words = [text.dxf.text for text in document.modelspace().query("TEXT[layer=='NOTES']")]
        assert any("OPEN STOP" in text for text in words), name
        assert any("265" in text for text in words), name
    _cutting, clean = read(saloon)
    for document in clean.values():
        words = [text.dxf.text for text in document.modelspace().query("TEXT[layer=='NOTES']")]
        assert words
        assert not any("OPEN STOP" in text for text in words)


@pytest.mark.parametrize(
    ("kind", "record", "fields"),
    [
        # Screws 6 mm from the rim: less wood than they must have.
        ("rings", "ring", {"outer_diameter": 0.2, "inner_diameter": 0.1, "bolt_circle": 0.188}),
        ("trim_panels", "cover", {"width": 9.0}),
    ],
)
def test_an_open_stop_of_a_ring_or_a_trim_panel_is_written_in_its_file(
    hatchback, kind, record, fields
):
    """Too little wood at its screws, larger than any sheet: its own file says it, no other does."""
    records = load(hatchback.job)
    (changed,) = [row for row in getattr(records, kind) if row == getattr(hatchback, record)]
    for name, value in fields.items():
        setattr(changed, name, value)
    design = work_out(records)
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    files = dxf.drawings(cutting, dxf._stops(design, cutting))
    (piece,) = [trim.piece for trim in cutting.trims if trim.record == changed]
    warned = {name for name, text in files.items() if "OPEN STOP" in text and "parts/" in name}
    assert [name.split("-")[0] for name in warned] == [f"parts/{piece.label}"]


def square(*, hole=None, pocket=None, outline=None):
    """A piece of 400 × 300 mm, or of another outline, with one opening or one pocket."""
    rim = outline or ((0.0, 0.0), (0.4, 0.0), (0.4, 0.3), (0.0, 0.3))
    cut = Pocket(figure=Loop(points=pocket), depth=0.006, face="outside") if pocket else None
    return Piece(
        label="A1", name="part", quantity=1, thickness=0.018, outline=Loop(points=rim),
        holes=(Loop(points=hole),) if hole else (),
        pockets=(cut,) if cut else (),
    )  # fmt: skip


TOOL = Router(tool=0.006, relief=True, tab=0.008, tabs=4)
WINDOW = ((0.1, 0.1), (0.3, 0.1), (0.3, 0.2), (0.1, 0.2))


def test_each_corner_of_an_opening_is_drilled_out_so_far_that_it_is_reached():
    """By hand: a hole of the tool's size touches the corner, its middle 3 mm off along 45°."""
    corners = list(reliefs(square(hole=WINDOW).holes[0], TOOL, cut_inside=True, piece=square()))
    assert len(corners) == 4
    for corner in corners:
        nearest = min(WINDOW, key=lambda point: math.dist(point, corner.centre))
        assert math.dist(nearest, corner.centre) == pytest.approx(corner.radius) == 0.003
        off = [abs(a - b) for a, b in zip(nearest, corner.centre, strict=True)]
        assert off == pytest.approx([0.003 / math.sqrt(2)] * 2)
        assert 0.1 < corner.centre[0] < 0.3
        assert 0.1 < corner.centre[1] < 0.2


def test_round_an_outline_only_the_corner_that_leads_in_is_drilled_out():
    """An L has one; a rectangle none; a pocket that runs out over the rim only those inside."""
    bent = ((0.0, 0.0), (0.4, 0.0), (0.4, 0.1), (0.1, 0.1), (0.1, 0.3), (0.0, 0.3))
    piece = square(outline=bent)
    (corner,) = reliefs(piece.outline, TOOL, cut_inside=False, piece=piece)
    assert math.dist(corner.centre, (0.1, 0.1)) == pytest.approx(0.003)
    assert min(corner.centre) > 0.1  # outside the wood
    plain = square()
    assert not list(reliefs(plain.outline, TOOL, cut_inside=False, piece=plain))
    rebate = ((0.0, 0.1), (0.05, 0.1), (0.05, 0.2), (0.0, 0.2))
    milled = square(pocket=rebate)
    inner = list(reliefs(milled.pockets[0].figure, TOOL, cut_inside=True, piece=milled))
    assert len(inner) == 2


def test_tabs_hold_a_part_in_the_middle_of_its_longest_edges():
    """Four of 8 mm on a rectangle, each on the rim; none on an edge too short for one."""
    piece = square()
    lines = tabs(piece, TOOL)
    assert [math.dist(line.start, line.end) for line in lines] == pytest.approx([0.008] * 4)
    middles = {
        (round((tab.start[0] + tab.end[0]) / 2, 6), round((tab.start[1] + tab.end[1]) / 2, 6))
        for tab in lines
    }
    assert middles == {(0.2, 0.0), (0.4, 0.15), (0.2, 0.3), (0.0, 0.15)}
    tiny = square(outline=((0.0, 0.0), (0.1, 0.0), (0.1, 0.015), (0.0, 0.015)))
    assert len(tabs(tiny, TOOL)) == 2
    assert tabs(piece, Router(tool=0.006)) == []


def test_the_files_carry_them_and_free_a_part_last(saloon):
    """Audited by ezdxf: reliefs and tabs on layers of their own, the outline after all else."""
    records = load(saloon.job)
    records.boxes[0].cheek_joint, records.boxes[0].rebate_depth = "rebate", 0.006
    design = work_out(records)
    cutting = work_out_cutting(design.records, design.boxes, design.trims)
    kinds = set()
    for name, text in dxf.drawings(cutting, {}, TOOL).items():
        document = ezdxf.read(io.StringIO(text))
        audit = document.audit()
        assert (audit.errors, audit.fixes) == ([], [])
        drawn = [e.dxf.layer for e in document.modelspace() if e.dxf.layer != "NOTES"]
        kinds |= set(drawn)
        milled = [n for n, layer in enumerate(drawn) if layer.startswith(("POCKET", "DRILL"))]
        cut = [n for n, layer in enumerate(drawn) if layer == "CUT"]
        assert max(milled, default=-1) < min(cut), name
        words = " ".join(t.dxf.text for t in document.modelspace().query("TEXT"))
        assert "tool 6.0" in words.replace("\N{NO-BREAK SPACE}", " ")
    assert {"TABS", "POCKET_INSIDE_6.0", "CUT"} <= kinds
    plain = dxf.drawings(cutting, {})
    assert not any("TABS" in e.dxf.layer for t in plain.values()
                   for e in ezdxf.read(io.StringIO(t)).modelspace())  # fmt: skip
