"""Router files a person can trust: pockets with depth and face, mirrored; open stops written in."""

from __future__ import annotations

import io

import ezdxf
import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.sheets import dxf

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
