"""Cut sheet, paper templates and DXF files: the page's numbers, full size, fit for a machine."""

from __future__ import annotations

import io
import math
import shutil
import subprocess
import zipfile

import ezdxf
import numpy as np
import pytest
from django.template.loader import render_to_string
from PIL import Image
from pypdf import PdfReader
from shapely.geometry import Polygon

from acoustics.carcass.panels.assembly import panels
from acoustics.carcass.panels.cut_list import cut_list
from acoustics.carcass.shape import shapes
from acoustics.carcass.shape.joints import Joint
from acoustics.carcass.shape.prism import Carcass
from jobs import sheets
from jobs.design.wood.cutting import work_out_cutting
from jobs.design.wood.pieces import pieces_of
from jobs.models import SheetKind
from jobs.sheets import dxf
from tests.jobs.sheets.kinds import on_paper
from tests.jobs.sheets.test_sheets import words

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
]
DOTS = 300  # per inch


def cutting(as_loaded, scene):
    """All wood of a job."""
    design = as_loaded.design(scene)
    return design, work_out_cutting(design.records, design.boxes, design.trims)


def test_cut_sheet_prints_the_numbers_of_the_page(hatchback, as_loaded):
    """Litres, numbers, sizes, bevels, offcuts and the lower bound are those worked out."""
    design, made = cutting(as_loaded, hatchback)
    text = words(as_loaded.sheet(hatchback, SheetKind.CUT))
    assert on_paper(design.boxes[0].net_volume, "volume") in text
    for piece in made.pieces:
        assert f"{piece.label} " in text
    for part in design.boxes[0].wood.parts:
        assert on_paper(part.size[0]) in text
        assert on_paper(part.size[1]) in text
        assert all(on_paper(cut.bevel, "angle") in text for cut in part.cuts if cut.bevel)
    for plan in made.plans:
        assert f"fewer than {plan.nest.lower_bound} cannot do" in text
        for _number, offcut in plan.offcuts:
            assert on_paper(offcut.length) in text


def test_cut_sheet_warns_of_dust_with_its_source(saloon, as_loaded):
    """The caution stands on the sheet with the directive the limit comes from."""
    text = words(as_loaded.sheet(saloon, SheetKind.CUT))
    assert "Wood dust" in text
    assert "2004/37/EC" in text


def test_a_job_without_wood_prints_a_cut_sheet_that_says_so(van, as_loaded):
    """Nothing to cut is said, not left blank; templates likewise."""
    cut, templates = (
        words(as_loaded.sheet(van, kind)) for kind in (SheetKind.CUT, SheetKind.TEMPLATES)
    )
    assert "has its sizes and its material yet" in cut
    assert "plain rectangle" in templates


@pytest.mark.skipif(not shutil.which("pdftoppm"), reason="pdftoppm is not installed")
@pytest.mark.parametrize("paper", ["a4", "a3", "letter"])
def test_check_bar_measures_100_mm(hatchback, as_loaded, tmp_path, paper):
    """The bar of every page is 100.0 ± 0.2 mm long when the page is rasterised at 300 dpi."""
    pdf = tmp_path / "templates.pdf"
    pdf.write_bytes(as_loaded.sheet(hatchback, SheetKind.TEMPLATES, paper=paper))
    subprocess.run(
        ["pdftoppm", "-r", str(DOTS), "-f", "2", "-l", "3", "-gray", pdf, tmp_path / "page"],
        check=True,
    )
    pages = sorted(tmp_path.glob("page*.pgm"))
    assert pages
    for page in pages:
        assert longest_bar(np.asarray(Image.open(page))) == pytest.approx(100.0, abs=0.2)


def longest_bar(grey: np.ndarray) -> float:
    """Length in mm of the one stroke that is thick (2.4 mm): its edges are where grey is half."""
    thick = round(2.0 / 25.4 * DOTS)
    dark = 1.0 - grey / 255.0
    # Only the bar keeps ink when every column is eroded by nearly its thickness.
    inked = np.lib.stride_tricks.sliding_window_view(dark > 0.5, thick, axis=0).all(axis=-1)
    lengths = {row: int(inked[row].sum()) for row in np.flatnonzero(inked.any(axis=1))}
    row = max(lengths, key=lengths.__getitem__)
    columns = np.flatnonzero(inked[row])
    # The longest run without a gap, its ends to a part of a dot by the grey beside them.
    runs = np.split(columns, np.flatnonzero(np.diff(columns) > 1) + 1)
    run = max(runs, key=len)
    middle = row + thick // 2
    ends = dark[middle, run[0] - 1] + dark[middle, run[-1] + 1]
    return float((len(run) + ends) * 25.4 / DOTS)


def test_templates_show_every_part_that_needs_one_on_the_paper_asked_for(hatchback, as_loaded):
    """A3 pages are A3, and fronts, slanting parts, rings and trim panels are all listed."""
    _design, made = cutting(as_loaded, hatchback)
    wanted = [piece for piece in made.pieces if piece.needs_template]
    names = {"front", "left, right", hatchback.ring.name, hatchback.cover.name}
    assert names <= {p.name for p in wanted}
    pdf = as_loaded.sheet(hatchback, SheetKind.TEMPLATES, paper="a3")
    pages = PdfReader(io.BytesIO(pdf)).pages
    assert {tuple(round(float(v)) for v in page.mediabox[2:]) for page in pages} == {(842, 1191)}
    for piece in wanted:
        assert f"{piece.label} " in words(pdf)


@pytest.fixture(params=["hatchback", "saloon"])
def files(request, hatchback, saloon, as_loaded):
    """Every DXF file of a job, read back, and what was to be drawn."""
    scene = {"hatchback": hatchback, "saloon": saloon}[request.param]
    design, made = cutting(as_loaded, scene)
    packed = zipfile.ZipFile(io.BytesIO(dxf.archive(design)))
    read = {name: ezdxf.read(io.StringIO(packed.read(name).decode())) for name in packed.namelist()}
    return made, read


def test_the_archive_is_packed(as_loaded, hatchback):
    """A drawing is text that repeats itself: the archive takes less than half of it."""
    design, _made = cutting(as_loaded, hatchback)
    entries = zipfile.ZipFile(io.BytesIO(dxf.archive(design))).infolist()
    assert entries
    assert all(2 * entry.compress_size < entry.file_size for entry in entries)


def test_dxf_opens_without_audit_errors(files):
    """Each file is whole, in millimetres, and nothing of it had to be mended."""
    _made, read = files
    assert len(read) > 6
    for name, document in read.items():
        audit = document.audit()
        assert (audit.errors, audit.fixes) == ([], []), name
        assert document.header["$INSUNITS"] == 4
        assert {"CUT", "BEVEL", "ENGRAVE", "NOTES"} <= {layer.dxf.name for layer in document.layers}


def test_dxf_keeps_words_off_the_cut(files):
    """The cut layer holds closed outlines and true circles, words stand on the notes alone."""
    _made, read = files
    met = set()
    for document in read.values():
        for entity in document.modelspace():
            kind, layer = entity.dxftype(), entity.dxf.layer
            met.add(layer)
            if kind == "TEXT":
                assert layer == "NOTES"
            if layer == "CUT":
                assert kind == "CIRCLE" or (kind == "LWPOLYLINE" and entity.closed)
    assert {"CUT", "NOTES"} <= met


def area(document) -> float:
    """Area left between the outline and its openings, by shapely [mm²]."""
    areas = [math.pi * e.dxf.radius**2 for e in document.modelspace().query("CIRCLE[layer=='CUT']")]
    areas += [
        Polygon(list(e.get_points("xy"))).area
        for e in document.modelspace().query("LWPOLYLINE[layer=='CUT']")
    ]
    return 2 * max(areas) - sum(areas)


def test_dxf_of_a_part_has_its_area(files):
    """Read back, the outline less its holes is as large as the piece (shapely, second method)."""
    made, read = files
    assert len(made.pieces) >= 6
    for piece in made.pieces:
        name = next(name for name in read if name.startswith(f"parts/{piece.label}-"))
        wanted = piece.outline.area - sum(hole.area for hole in piece.holes)
        assert area(read[name]) / 1e6 == pytest.approx(wanted, rel=1e-9)


def test_dxf_of_a_sheet_holds_every_piece_inside_its_rim(files):
    """All pieces together are on the sheets, each within the rim, which is no cut."""
    made, read = files
    for plan in made.plans:
        cuts = 0
        for number, sheet in enumerate(plan.nest.sheets, start=1):
            name = next(n for n in read if n.startswith("sheets/") and n.endswith(f"-{number}.dxf")
                        and dxf._slug(str(plan.material)) in n)  # fmt: skip
            space = read[name].modelspace()
            for entity in space.query("LWPOLYLINE[layer=='CUT']"):
                points = [(x / 1000, y / 1000) for x, y in entity.get_points("xy")]
                assert all(0 <= x <= sheet.sheet.length for x, _ in points)
                assert all(0 <= y <= sheet.sheet.width for _, y in points)
            cuts += len(space.query("LWPOLYLINE CIRCLE").query("*[layer=='CUT']"))
        assert cuts == sum(p.quantity * (1 + len(p.holes)) for p in plan.pieces)


@pytest.mark.parametrize(
    ("kind", "length"),
    # 480 mm over all less two sheets of 17.7 mm; its half, where the front has its opening.
    [(SheetKind.CUT, "444,6 mm"), (SheetKind.TEMPLATES, "222,3 mm")],
)
def test_wood_sheets_speak_german(hatchback, as_loaded, kind, length):
    """Headings and figures follow the language asked for."""
    assert length in words(as_loaded.sheet(hatchback, kind, language="de"))


def test_a_bevel_and_a_rebate_of_one_edge_are_told_apart():
    """Where a leaning wall is rebated into another, tilt and rebate stand side by side."""
    profile = shapes.sloped_rear_profile(0.5, 0.3, 0.4)
    joints = (Joint(kind="rebate", through="before", depth=0.009),) * 4
    carcass = Carcass(profile=profile, width=0.6, thickness=0.018, joints=joints)
    parts = cut_list(panels(carcass))
    assert any(cut.bevel and cut.rebate for part in parts for cut in part.cuts)
    rows = list(zip(pieces_of(parts, carcass, "A"), parts, strict=True))
    text = " ".join(render_to_string("sheets/cut_table.html", {"rows": rows}).split())
    assert "inside; rebate 20.1 mm wide, 9.0 mm deep" in text
