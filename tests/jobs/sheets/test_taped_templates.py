"""Paper templates taped as the sheet says: page on page by their crosses, then measured."""

from __future__ import annotations

import io
import re
import shutil
import subprocess

import numpy as np
import pytest
from PIL import Image
from pypdf import PdfReader
from scipy.signal import fftconvolve

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import SheetKind
from jobs.sheets import templates
from tests.jobs.sheets.test_sheets import NBSP

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable()),
    pytest.mark.skipif(not shutil.which("pdftoppm"), reason="pdftoppm is not installed"),
]
DOTS = 120  # per inch
MM = DOTS / 25.4
# A ring of this outer diameter [mm]; invented.
WANTED = 280.0
NAME = re.compile(r"\b(\d)-(\d)\b")


@pytest.fixture
def design(hatchback):
    """The hatchback with rings larger than a page."""
    records = load(hatchback.job)
    ring = records.rings[0]
    ring.outer_diameter, ring.inner_diameter, ring.bolt_circle = WANTED / 1000, 0.2, 0.24
    return work_out(records)


def taped(pdf: bytes, folder) -> tuple[np.ndarray, np.ndarray]:
    """The pages composed by their crosses: ink from 0 to 1, and where the crosses lie."""
    (folder / "t.pdf").write_bytes(pdf)
    subprocess.run(["pdftoppm", "-r", str(DOTS), "-gray", "t.pdf", "p"], cwd=folder, check=True)
    pages = {}
    files = sorted(folder.glob("p*.pgm"))
    for page, file in zip(PdfReader(io.BytesIO(pdf)).pages, files, strict=True):
        text = words_of(page)
        if "must measure 100 mm" not in text:
            continue
        ink = 1.0 - np.asarray(Image.open(file)) / 255.0
        pages[own_name(text)] = (ink, crosses(ink))
    assert len(pages) > 1
    return compose(pages)


def words_of(page) -> str:
    """The text of a page on one line."""
    return " ".join(page.extract_text().replace(NBSP, " ").split())


def own_name(text: str) -> tuple[int, int]:
    """A page's own name is the one that no sentence about a neighbour holds."""
    others = re.sub(r"(lay on \d-\d|\d-\d lies up)", "", text)
    (name,) = set(NAME.findall(others))
    return int(name[0]), int(name[1])


def crosses(ink: np.ndarray) -> np.ndarray:
    """The middles (x, y) of the register crosses: a diamond of 4 mm, arms of 6 mm."""
    half = round(6 * MM)
    y, x = np.mgrid[-half : half + 1, -half : half + 1]
    lines = [np.abs(np.abs(x) + np.abs(y) - 4 * MM) / 1.414, np.abs(x), np.abs(y)]
    mark = np.max([np.clip(1.2 - off, 0, 1) for off in lines], axis=0)
    blank = (np.hypot(x, y) < 5 * MM) & (mark == 0)
    score = fftconvolve(ink, (mark / mark.sum() - blank / blank.sum())[::-1, ::-1], mode="same")
    middles = []
    while score.max() > 0.45:
        row, column = np.unravel_index(score.argmax(), score.shape)
        near = score[row - 2 : row + 3, column - 2 : column + 3].clip(min=0) ** 4
        dy, dx = np.mgrid[-2:3, -2:3]
        middles.append(
            (column + (near * dx).sum() / near.sum(), row + (near * dy).sum() / near.sum())
        )
        score[row - half : row + half, column - half : column + half] = 0
    return np.array(middles)


def pair(marks: np.ndarray, axis: int, *, last: bool) -> np.ndarray:
    """The two crosses on the line nearest to one edge of a page, in their order."""
    order = np.argsort(marks[:, axis])
    two = marks[order[-2:] if last else order[:2]]
    assert abs(two[0, axis] - two[1, axis]) < 1.5  # on one line
    return two[np.argsort(two[:, 1 - axis])]


def compose(pages) -> tuple[np.ndarray, np.ndarray]:
    """Cut each page along its line to the left and above, and lay it on its neighbour's."""
    places = {min(pages): np.zeros(2)}
    for name in sorted(pages):
        row, column = name
        for other, axis in (((row, column - 1), 0), ((row - 1, column), 1)):
            if other not in places or name == min(pages):
                continue
            theirs = pair(pages[other][1], axis, last=True)
            ours = pair(pages[name][1], axis, last=False)
            # Both crosses meet at once, or the pages were not printed alike.
            assert np.abs((theirs - theirs[0]) - (ours - ours[0])).max() < 0.3 * MM
            place = places[other] + (theirs - ours).mean(axis=0)
            assert np.abs(places.get(name, place) - place).max() < 0.3 * MM
            places[name] = place
    assert set(places) == set(pages)
    size = np.ceil(max(p.max() for p in places.values())).astype(int)
    tall, wide = pages[min(pages)][0].shape
    whole, marks = np.zeros((tall + size, wide + size)), []
    for name in sorted(pages):
        ink, own = pages[name]
        left = pair(own, 0, last=False)[0, 0] if (name[0], name[1] - 1) in pages else 0
        top = pair(own, 1, last=False)[0, 1] if (name[0] - 1, name[1]) in pages else 0
        cut = ink[round(top) :, round(left) :]
        x, y = np.round(places[name] + (round(left), round(top))).astype(int)
        whole[y : y + cut.shape[0], x : x + cut.shape[1]] = cut
        marks.append(own + places[name])
    return whole, np.concatenate(marks)


@pytest.mark.parametrize(
    "paper",
    [
        "a4",
        pytest.param("letter", marks=pytest.mark.long),
        pytest.param("a3", marks=pytest.mark.long),
    ],
)
def test_a_ring_taped_by_the_printed_instruction_is_as_large_as_it_is_cut(design, tmp_path, paper):
    """Ø 280 is 280 ± 0.5 mm across in every direction, over every joint."""
    options = sheets.Options(paper=paper, parts=("R1",))
    whole, marks = taped(sheets.draft(design, SheetKind.TEMPLATES, options), tmp_path)
    y, x = np.nonzero(whole > 0.4)
    centre = marks.mean(axis=0)
    for _ in range(20):  # a circle through the ink that lies where the rim must
        off = np.hypot(x - centre[0], y - centre[1])
        rim = np.abs(off - WANTED / 2 * MM) < 4 * MM
        a = np.column_stack([x[rim], y[rim], np.ones(rim.sum())])
        fit = np.linalg.lstsq(a, x[rim] ** 2.0 + y[rim] ** 2.0, rcond=None)[0]
        centre = fit[:2] / 2
    off, turn = np.hypot(x - centre[0], y - centre[1]), np.arctan2(y - centre[1], x - centre[0])
    rim = np.abs(off - WANTED / 2 * MM) < 2 * MM
    bins = np.floor((turn[rim] + np.pi) / (2 * np.pi) * 120).astype(int) % 120
    radius = np.array(
        [np.median(off[rim][bins == k]) if (bins == k).any() else np.nan for k in range(120)]
    )
    across = (radius[:60] + radius[60:]) / MM
    assert np.isfinite(across).sum() >= 58
    assert np.nanmax(np.abs(across - WANTED)) < 0.5


def test_the_parts_are_picked(design):
    """Only the part that was asked for is printed; where none was, every part that needs one."""
    every = {p.piece.label for p in templates.context(design, "a4", ())["templates"]}
    assert {"A3", "R1"} <= every
    assert {p.piece.label for p in templates.context(design, "a4", ("R1",))["templates"]} == {"R1"}


def test_a_rectangle_with_one_hole_prints_its_hole(design):
    """The front with a hole of 234 mm takes four pages of A4 at most, with its place."""
    printed = templates.context(design, "a4", ())["templates"]
    (front,) = [p for p in printed if "front" in p.piece.panels]
    assert front.piece.rectangular
    assert len(front.pages) <= 4
    assert front.places == tuple(hole.centre for hole in front.piece.holes)
    assert all("Cross at" in page.drawing for page in front.pages)
