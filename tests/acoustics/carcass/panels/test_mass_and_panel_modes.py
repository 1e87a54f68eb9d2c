"""What a box weighs, and which field of its wood rings first."""

import math

import pytest

from acoustics.carcass.panels.mass import box_mass, check_mass
from acoustics.carcass.panels.panel_modes import check_fields, wood_fields
from acoustics.carcass.shape.braces import CrossBrace, Layer, Shelf
from acoustics.carcass.shape.contents import Placed, PortBody, RoundPart
from acoustics.carcass.shape.plate import Board, first_mode
from acoustics.carcass.shape.prism import Carcass
from acoustics.carcass.shape.shapes import (
    l_profile,
    rectangle_profile,
    sloped_rear_profile,
)
from tests.acoustics.carcass.second_method import solid_of

# Invented moduli and densities.
BOARD = Board(modulus=3e9, density=750)
T = 0.018


def driver(mass: float | None = 4.2) -> RoundPart:
    """An invented driver that weighs 4.2 kg."""
    return RoundPart(
        name="driver",
        cutout_diameter=0.235,
        flange_diameter=0.275,
        basket_depth=0.07,
        motor_diameter=0.156,
        motor_depth=0.05,
        mass=mass,
    )


def test_mass_by_hand():
    """Outline less inside, less the hole, times the density, and the driver."""
    carcass = Carcass(
        profile=rectangle_profile(0.4, 0.36),
        width=0.6,
        thickness=T,
        density=700,
        contents=(Placed(part=driver(), face="front"),),
    )
    wood = 0.4 * 0.36 * 0.6 - 0.364 * 0.324 * 0.564 - math.pi * 0.1175**2 * T
    mass = box_mass(carcass)
    assert mass.wood == pytest.approx(700 * wood, rel=1e-9)
    assert mass.known == pytest.approx(700 * wood + 4.2, rel=1e-9)
    assert mass.unknown == ()
    assert check_mass(mass) == ()


def test_mass_of_a_sloped_box_by_its_mesh():
    """The panels meshed by trimesh weigh the same (0.01 %)."""
    from acoustics.carcass.panels.assembly import panels

    carcass = Carcass(
        profile=sloped_rear_profile(0.4, 0.25, 0.36), width=0.6, thickness=T, density=700
    )
    meshed = sum(solid_of(p).volume for p in panels(carcass)) * 700
    assert box_mass(carcass).known == pytest.approx(meshed, rel=1e-4)


def test_what_is_not_known_is_named_and_not_zero():
    """Without density, driver's or port's mass the rest is told, and each of them."""
    carcass = Carcass(
        profile=rectangle_profile(0.5, 0.36),
        width=0.7,
        thickness=T,
        contents=(
            Placed(part=driver(None), face="front", u=0.25),
            Placed(
                part=PortBody.straight("port", width=0.08, length=0.2, wall=0.003),
                face="front",
                u=0.6,
            ),
        ),
    )
    mass = box_mass(carcass)
    assert mass.wood is None
    assert mass.unknown == ("wood", "driver", "port")
    assert [(f.code, f.detail, f.severity) for f in check_mass(mass)] == [
        ("mass-unknown", ("wood",), "note"),
        ("mass-unknown", ("driver",), "note"),
        ("mass-unknown", ("port",), "note"),
    ]


def test_fields_between_walls_plates_and_shelves():
    """A plate halves the walls, a shelf the cheeks and the walls it meets, by hand."""
    plain = Carcass(profile=rectangle_profile(0.4, 0.36), width=0.636, thickness=T)
    by_name = {f.panel: f for f in wood_fields(plain)}
    assert (by_name["front"].span, by_name["front"].height) == pytest.approx((0.6, 0.324))
    assert (by_name["bottom"].span, by_name["bottom"].height) == pytest.approx((0.6, 0.364))
    assert (by_name["left"].span, by_name["left"].height) == pytest.approx((0.364, 0.324))
    braced = Carcass(
        profile=rectangle_profile(0.4, 0.36),
        width=0.636,
        thickness=T,
        braces=(
            CrossBrace(name="plate", at=0.218, thickness=T),
            Shelf(name="shelf", start=(0.1, 0.118), end=(0.2, 0.118), thickness=T),
        ),
    )
    spans = sorted({round(f.span, 6) for f in wood_fields(braced) if f.panel == "front"})
    assert spans == pytest.approx([0.2, 0.382])
    heights = sorted({round(f.height, 6) for f in wood_fields(braced) if f.panel == "front"})
    # The shelf lies from 109 to 127 mm; the inside runs from 18 to 342.
    assert heights == pytest.approx([0.091, 0.215])
    bottoms = {round(f.height, 6) for f in wood_fields(braced) if f.panel == "bottom"}
    assert bottoms == {0.364}
    cheeks = sorted(round(f.height, 5) for f in wood_fields(braced) if f.panel == "left")
    assert cheeks == pytest.approx([0.091, 0.215], abs=1e-5)


def test_a_layer_makes_its_panel_stiffer():
    """A doubled front rings at twice the frequency of a single one (f grows with thickness)."""
    plain = Carcass(profile=rectangle_profile(0.5, 0.36), width=0.6, thickness=T)
    doubled = Carcass(
        profile=rectangle_profile(0.5, 0.36),
        width=0.6,
        thickness=T,
        layers=(Layer(face="front", thickness=T, outside=True),),
    )
    one, two = (
        next(f.mode(BOARD) for f in wood_fields(c) if f.panel == "front") for c in (plain, doubled)
    )
    assert two == pytest.approx(2 * one)


def test_the_brace_that_is_named_cures_it():
    """Put in as advised, equal bays ring above the band; without it the panel is found."""
    carcass = Carcass(profile=rectangle_profile(0.4, 0.36), width=1.0, thickness=T)
    band = 170.0
    found, advice = check_fields(carcass, board=BOARD, band_top=band)
    # By the plate formula: 147 Hz for 0.964 × 0.364 m, 181 Hz for 0.964 × 0.324 m.
    assert {f.detail for f in found} == {(a.panel,) for a in advice} == {("bottom",), ("top",)}
    assert all(f.code == "panel-mode-in-band" and f.value <= band for f in found)
    worst = max(advice, key=lambda a: a.braces)
    assert worst.way == "across"
    free = 1.0 - 2 * T
    pitch = free / (worst.braces + 1)
    braced = Carcass(
        profile=rectangle_profile(0.4, 0.36),
        width=1.0,
        thickness=T,
        braces=tuple(
            CrossBrace(name=f"brace {i}", at=T + pitch * (i + 1) - T / 2, thickness=T)
            for i in range(worst.braces)
        ),
    )
    assert check_fields(braced, board=BOARD, band_top=band) == ((), ())


def test_no_brace_is_named_where_none_is_needed():
    """A small stiff box has no finding; its highest field agrees with the plate formula."""
    carcass = Carcass(profile=rectangle_profile(0.25, 0.25), width=0.3, thickness=T)
    assert check_fields(carcass, board=BOARD, band_top=120.0) == ((), ())
    cheek = next(f for f in wood_fields(carcass) if f.panel == "left")
    assert cheek.mode(BOARD) == pytest.approx(first_mode(0.214, 0.214, thickness=T, board=BOARD))


@pytest.mark.parametrize("level", [0.166, 0.174, 0.182])
def test_a_shelf_into_which_a_corner_points_holds_the_walls_on_both_sides_of_it(level):
    """A toe's corner points into the end of a shelf: its top stays free, the riser stands on it."""
    profile = l_profile(depth=0.42, height=0.41, toe_depth=0.16, toe_height=0.19)
    wide = Shelf(name="shelf", start=(0.2, level), end=(0.35, level), thickness=0.02)
    box = Carcass(profile=profile, width=0.55, thickness=0.016, braces=(wide,))
    heights = {name: [] for name in profile.names}
    for field in wood_fields(box):
        if field.panel in heights:
            heights[field.panel].append(field.height)
    # Inside, the toe is 160 mm deep and its top 174 mm high; the riser ends at 394 mm.
    assert heights["toe top"] == pytest.approx([0.16])
    assert heights["riser"] == pytest.approx([0.394 - level - 0.01])
