"""A box whose walls all lean on every sheet: one set of numbers, files a router takes."""

from __future__ import annotations

import io
import zipfile

import ezdxf
import pytest

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.models import Box, SheetKind
from jobs.sheets import dxf
from tests.jobs.sheets.kinds import on_paper
from tests.jobs.sheets.test_sheets import words
from tests.jobs.sheets.test_wood_sheets import area

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
]


@pytest.fixture
def design(hatchback):
    """The hatchback with its box made a taper; the figures are invented."""
    box = hatchback.box
    measures = {
        "shape": Box.Shape.TAPER, "width": 0.60, "depth": 0.48, "height": 0.38,
        "top_depth": 0.30, "top_width": 0.44, "top_to_rear": 0.02, "brace_count": 1,
        "baffle_layers": 2, "terminal_face": "left", "terminal_diameter": 0.06,
        "cavity_profile": None,
    }  # fmt: skip
    for name, value in measures.items():
        setattr(box, name, value)
    box.save()
    return work_out(load(hatchback.job))


def test_the_cut_sheet_says_every_tilt(design):
    """Litres, every size, every tilt and every gauge angle of walls that lean."""
    box = design.boxes[0]
    text = words(sheets.draft(design, SheetKind.CUT, sheets.Options()))
    assert on_paper(box.net_volume, "volume") in text
    for part in box.wood.parts:
        for size in part.size:
            assert on_paper(size) in text
        for cut in part.cuts:
            assert on_paper(cut.bevel, "angle") in text
            assert not cut.slant or f"gauge {on_paper(cut.slant, 'angle')}" in text
    assert "the bevel of its foot gives its lean" in text
    assert "A gauge angle is set on the mitre gauge" in text


def test_templates_hold_every_slanting_part(design):
    """A wall that grows narrower is more than a pencil and a square can mark."""
    made = work_out_cutting(design.records, design.boxes, design.trims)
    text = words(sheets.draft(design, SheetKind.TEMPLATES, sheets.Options()))
    walls = [one for one in made.pieces if one.name in ("front", "rear", "left", "right")]
    assert len(walls) == 4
    for piece in walls:
        assert piece.needs_template
        assert f"{piece.label} {piece.name}" in text


def test_router_files_are_whole_and_as_large_as_the_cut_list(design):
    """No DXF needs mending; outline less holes is the piece's area, tilts stand as notes."""
    packed = zipfile.ZipFile(io.BytesIO(dxf.archive(design)))
    read = {name: ezdxf.read(io.StringIO(packed.read(name).decode())) for name in packed.namelist()}
    for name, document in read.items():
        audit = document.audit()
        assert (audit.errors, audit.fixes) == ([], []), name
    made = work_out_cutting(design.records, design.boxes, design.trims)
    parts = {part.number: part for part in design.boxes[0].wood.parts}
    assert len(made.boxes[0].pieces) >= 6
    for piece in made.boxes[0].pieces:
        document = next(d for n, d in read.items() if n.startswith(f"parts/{piece.label}-"))
        wanted = piece.outline.area - sum(hole.area for hole in piece.holes)
        assert area(document) / 1e6 == pytest.approx(wanted, rel=1e-9)
        bevelled = [cut for cut in parts[int(piece.label[1:])].cuts if cut.bevel]
        space = document.modelspace()
        assert len(space.query("LINE[layer=='BEVEL']")) == len(bevelled) == 4
        notes = " ".join(one.dxf.text for one in space.query("TEXT")).replace(
            "\N{NO-BREAK SPACE}", " "
        )
        assert all(on_paper(cut.bevel, "angle") in notes for cut in bevelled)
