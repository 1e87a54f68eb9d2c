"""Shelves, uprights, plates and struts typed on the box page, and where they then turn up."""

from __future__ import annotations

import io
import zipfile

import pytest
from django.urls import reverse

from acoustics.carcass.panels.panel_modes import check_fields
from acoustics.carcass.shape.errors import PlacementError
from acoustics.carcass.shape.plate import Board
from jobs.design.carcass.carcass import wood
from jobs.models import Box
from jobs.pages.box.box_form import BoxForm
from jobs.pages.forms.shape_fields import BracesField
from tests.jobs.pages.kinds import listed, says_beside, typed
from tests.refused import refused

pytestmark = pytest.mark.django_db

EVERY = (
    "shelf,150,,,50; upright,250; plate,300,,,40; strut across,100,250,40; "
    "strut along,80,200,30; strut up,150,500,30"
)
BRACES = BracesField()


def rows(text: str) -> list[list[str]]:
    """Cells between commas, rows between semicolons."""
    return [row.strip().split(",") for row in text.split(";") if row.strip()]


def box_with(hatchback, text: str) -> Box:
    """A plain box, 800 × 400 × 500 mm of 18 mm, with braces typed into it."""
    box = hatchback.box
    box.shape, box.width, box.height, box.depth = Box.Shape.RECTANGLE, 0.8, 0.4, 0.5
    box.material.thickness, box.brace_count = 0.018, 0
    box.thicknesses, box.driver, box.radiator, box.baffle_layers = None, None, None, 1
    box.terminal_face, box.terminal_diameter = "", None
    box.inner_braces = BRACES.clean([(*row, *[""] * (5 - len(row))) for row in rows(text)])
    return box


def posted(box: Box, **changed) -> dict[str, object]:
    """What the page of a box sends, with changes."""
    sent = typed(BoxForm(instance=box)) | changed
    return {name: "" if value is None else value for name, value in sent.items()}


def test_what_cannot_be_read_is_kept(hatchback, browse):
    """The page answers 422, beside the field, with what was typed still in it."""
    box = hatchback.box
    answer = browse("designer").post(
        reverse("box-edit", args=[hatchback.code, box.pk]),
        posted(box, **listed(BRACES, "inner_braces", ["shelf", "150"], ["bar", "100 bananas"])),
    )
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "inner_braces", "100 bananas")


def test_the_wood_is_taken_off_by_hand_reckoning(hatchback):
    """By hand, inside 764 × 364 × 464 mm: each brace alone takes what its sides multiply to."""
    t, width, height, depth = 0.018, 0.764, 0.364, 0.464
    for text, volume in {
        "shelf,150": width * depth * t,
        "shelf,150,,,50": width * depth * t * 0.5,
        "upright,250,,,25": width * height * t * 0.75,
        "plate,300": depth * height * t,
        "plate,300,,,40": depth * height * t * 0.6,
        "strut across,100,250,40": width * 0.04 * t,
        "strut along,80,200,30": depth * 0.03 * t,
        "strut up,150,500,30": height * 0.03 * t,
    }.items():
        made = wood(box_with(hatchback, text), port_length=None)
        assert made.carcass.volumes.braces == pytest.approx(volume), text
        (part,) = (p for p in made.parts if p.panels[0].name[-1].isdigit())
        assert part.panels[0].thickness == t


def test_places_count_from_the_box_not_from_its_cavity(hatchback):
    """A profile that stands somewhere in a cavity carries the same braces in the same places."""
    plain = wood(box_with(hatchback, EVERY), port_length=None).carcass
    box = box_with(hatchback, EVERY)
    box.shape = Box.Shape.PROFILE
    box.profile = [[0.3 + x, 0.2 + y] for x, y in plain.profile.points]
    moved = wood(box, port_length=None).carcass
    assert moved.volumes.braces == pytest.approx(plain.volumes.braces)


def test_a_place_outside_is_said(hatchback):
    """A shelf in the lid, a strut beyond the side panel, a window that leaves no rim."""
    for text, (code, name) in {
        "shelf,395": ("brace-outside", "shelf 1"),
        "strut along,80,790,40": ("brace-beyond-width", "strut 1"),
        "plate,20": ("brace-beyond-width", "plate 1"),
        "shelf,150,,,90": ("window-rim-too-thin", "shelf 1"),
    }.items():
        with refused(PlacementError, code, name):
            wood(box_with(hatchback, text), port_length=None)


def test_braces_reach_the_page_the_sheet_and_the_router(hatchback, browse):
    """What is typed stands in the live cut list at once; saved, it has its own file to cut."""
    box = hatchback.box
    designer = browse("designer")
    sent = posted(box, **listed(BRACES, "inner_braces", ["strut across", "250", "45", "40"])) | {
        "row": box.pk
    }
    page = designer.post(reverse("box-preview", args=[hatchback.code]), sent).content.decode()
    assert "box-cannot-be" not in page
    assert "strut 1" in page
    answer = designer.post(reverse("box-edit", args=[hatchback.code, box.pk]), sent)
    assert answer.status_code == 302
    box.refresh_from_db()
    assert box.inner_braces == [{"kind": "strut across", "at": [0.25, 0.045, 0.04], "open": 0.0}]
    files = designer.get(reverse("dxf", args=[hatchback.code])).content
    names = zipfile.ZipFile(io.BytesIO(files)).namelist()
    assert any(name.endswith("-strut-1.dxf") for name in names)


def test_what_the_check_proposes_can_be_entered(hatchback):
    """A rear wall that rings for want of a shelf no longer does once the shelf is entered."""
    board = Board(modulus=3.0e9, density=700.0)

    def worst(text: str) -> dict[str, float]:
        made = wood(box_with(hatchback, text), port_length=None)
        found, _advice = check_fields(made.carcass, board=board, band_top=1e4)
        return {one.detail[0]: one.value for one in found}

    plain, shelved = worst(""), worst("shelf,190")
    for panel in ("front", "rear", "left", "right"):
        assert shelved[panel] > plain[panel] * 1.2
    upright = worst("upright,240")
    for panel in ("bottom", "top", "left", "right"):
        assert upright[panel] > plain[panel] * 1.2
