"""A box whose walls all lean on its page: typed live, drawn, saved, refused in both languages."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from jobs.models import Box
from jobs.pages.box.box_form import BoxForm
from tests.jobs.pages.kinds import says_beside, typed

pytestmark = pytest.mark.django_db
MEASURES = {
    "shape": "taper", "width": "600 mm", "depth": "480 mm", "height": "380 mm",
    "top_depth": "300 mm", "top_width": "440 mm", "cavity_profile-x": [], "kind": "sealed",
    "port_face": "",
}  # fmt: skip

BRACE = {
    "inner_braces-at": ["150"], "inner_braces-second": [""], "inner_braces-breadth": [""],
    "inner_braces-open": [""],
}  # fmt: skip


def preview(browse, box: Box, language: str = "en", **changed) -> str:
    """What the page shows while the box is typed."""
    sent = typed(BoxForm(instance=box)) | {"row": box.pk} | MEASURES | changed
    sent = {name: "" if value is None else value for name, value in sent.items()}
    address = reverse("box-preview", args=[box.job.code])
    answer = browse("designer").post(address, sent, headers={"accept-language": language})
    return answer.content.decode().replace("\N{NO-BREAK SPACE}", " ")


def test_a_taper_is_drawn_and_cut_while_it_is_typed(hatchback, browse):
    """Section, face, round view, litres and a cut list with tilt and gauge stand there at once."""
    box = hatchback.box
    html = preview(browse, box)
    for caption in ("Cut through from the side", "From the front, counted", "In the round"):
        assert caption in html
    assert re.search(r"gauge\s+\d+\.\d°", html)
    # Front and rear lean by tan = 90 / 380, the sides by 80 / 380.
    assert "13.3°" in html
    assert "11.9°" in html
    moved = preview(browse, box, top_to_rear="90 mm")
    # Now the rear stands upright and the front leans by 180 / 380.
    assert "25.3°" in moved
    assert "13.3°" not in moved


def test_a_driver_in_a_leaning_side_is_drawn_from_there(hatchback, browse):
    """The panel with the driver is the one chosen."""
    html = preview(browse, hatchback.box, driver_face="right")
    assert "Panel with the driver: right" in html


@pytest.mark.parametrize(
    ("changed", "says", "german"),
    [
        ({"height": "30 mm"}, "nothing is left inside", "innen bleibt nichts übrig"),
        ({"corner_joint": "rebate"}, "cannot be joined", "lassen sich so nicht verbinden"),
        ({"terminal_face": "riser", "terminal_diameter": "50 mm"}, "has no side", "passt nicht"),
        ({"inner_braces-kind": ["shelf"], **BRACE}, "only level braces", "passt nicht"),
        (
            {"thicknesses-face": ["lower rear"], "thicknesses-thickness": ["12"]},
            "lower rear",
            "passt nicht",
        ),
    ],
)
def test_each_impossible_taper_has_an_answer_of_its_own(hatchback, browse, changed, says, german):
    """No inside, a rebate, a face that is not there: said in both languages."""
    box = hatchback.box
    assert says in preview(browse, box, **changed)
    assert german in preview(browse, box, language="de", **changed)


def test_walls_that_meet_are_told_from_wood_that_fills_the_box(hatchback, browse):
    """A top 10 mm deep leaves the walls nowhere to end; the page says which, in its own words."""
    html = preview(browse, hatchback.box, top_depth="10 mm")
    assert "the walls meet before they reach the bottom or the top" in html
    assert "nothing is left inside" not in html


def test_a_driver_larger_than_the_leaning_face_is_said(hatchback, browse):
    """A top 320 mm wide leaves a 315 mm driver no wood."""
    html = preview(browse, hatchback.box, width="360 mm", top_width="250 mm")
    assert "part-larger-than-face" in html


@pytest.mark.parametrize("name", ["top_width", "top_to_rear", "top_to_right"])
def test_what_cannot_be_read_stays_beside_its_field(hatchback, browse, name):
    """`12 bananas` is refused beside the field and kept; nothing is saved."""
    box = hatchback.box
    sent = typed(BoxForm(instance=box)) | MEASURES | {name: "12 bananas"}
    answer = browse("designer").post(
        reverse("box-edit", args=[hatchback.code, box.pk]),
        {key: "" if value is None else value for key, value in sent.items()},
    )
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), name, "12 bananas")
    box.refresh_from_db()
    assert box.shape != Box.Shape.TAPER


def test_a_saved_taper_comes_back_as_typed(hatchback, browse):
    """All measures are stored in metres and shown as written, a move to the front negative."""
    box = hatchback.box
    sent = typed(BoxForm(instance=box)) | MEASURES | {"top_to_rear": "-2 cm", "top_to_right": "0"}
    client = browse("designer")
    address = reverse("box-edit", args=[hatchback.code, box.pk])
    sent = {key: "" if value is None else value for key, value in sent.items()}
    assert client.post(address, sent).status_code == 302
    box.refresh_from_db()
    assert (box.shape, box.top_width, box.top_to_rear) == ("taper", 0.44, -0.02)
    html = client.get(address).content.decode()
    assert re.search(r'name="top_to_rear"[^>]*value="[-−]2\s?cm"', html)


def test_groups_that_mean_nothing_for_a_shape_step_aside(hatchback, browse):
    """The measures of the top are for tapers alone, rebates for shapes whose sides stand square."""
    url = reverse("box-add", args=[hatchback.code])
    page = browse("designer").get(url).content.decode()
    groups = re.findall('<fieldset data-only="([^"]+)"', page)
    assert "taper" in groups
    shapes = [set(group.split()) for group in groups if "rectangle" in group]
    panels = set(Box.Shape.values) - {"moulded"}
    assert panels - {"taper", "plan"} in shapes
    assert all(group <= panels for group in shapes)
    lean = page[: page.index('for="id_rear_slope"')].rpartition("<div")[2]
    assert 'data-only="sloped"' in lean


def test_each_shape_of_port_shows_its_own_size(hatchback, browse):
    """A round port has a diameter, a slot two sides, but one along a side no width of its own."""
    page = browse("designer").get(reverse("box-add", args=[hatchback.code])).content.decode()
    for name, shape in {"diameter": "round", "width": "wide", "height": "slot"}.items():
        field = page[: page.index(f'for="id_port_{name}"')].rpartition("<div")[2]
        assert f'data-only="{shape}"' in field


def test_what_a_slot_of_the_boxs_own_panels_does_not_read_steps_aside(hatchback):
    """No wall, count or place of such a port; the wall stays where there is a rear port too."""
    only = {
        name: field.only.split()
        for name, field in BoxForm(instance=hatchback.box).fields.items()
        if hasattr(field, "only")
    }
    assert only["port_count"] == ["round", "free"]
    for name in ("port_u", "port_v"):
        assert only[name] == ["placed"]
    assert only["port_straight"] == ["bent"]
    # Filling counts where the driver looks into a closed chamber, and nowhere else.
    assert only["fill"] == [Box.Kind.SEALED, Box.Kind.BAND_PASS_4]
    assert only["slot_walls"] == ["free"]
    assert only["port_wall"] == ["round", "free", Box.Kind.BAND_PASS_6, "second"]
    assert only["isobaric_gap"] == ["isobaric"]
    assert only["second_port_length"] == ["second"]
    for name in ("face", "u", "v"):
        assert only[f"second_port_{name}"] == ["second-placed"]
