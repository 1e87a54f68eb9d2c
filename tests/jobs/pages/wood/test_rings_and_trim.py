"""The wood of a job on its pages: joints and places typed live, rings, trim panels, files."""

from __future__ import annotations

import io
import math
import re
import zipfile

import pytest
from django.urls import reverse

from jobs.models import Box, TrimPanel, Workshop
from jobs.pages.box.box_form import BoxForm
from jobs.pages.wood.panel_fields import MountsField, _PartColumn
from tests.jobs.factories import make_part
from tests.jobs.pages.kinds import says_beside, typed

pytestmark = pytest.mark.django_db


def preview(browse, slug: str, row, **changed) -> str:
    """What the page shows while a row is typed."""
    form = {"box": BoxForm}.get(slug)
    if form is None:
        from jobs.pages.wood.rings_and_trim import RingForm, TrimPanelForm

        form = {"ring": RingForm, "trim-panel": TrimPanelForm}[slug]
    sent = typed(form(instance=row)) | {"row": row.pk} | changed
    sent = {name: "" if value is None else value for name, value in sent.items()}
    address = reverse(f"{slug}-preview", args=[row.job.code])
    return browse("designer").post(address, sent).content.decode()


def test_joints_are_live(hatchback, browse):
    """A mitre typed on the box page shows 45° in the cut list at once."""
    box = hatchback.box
    assert "45.0°" not in preview(browse, "box", box, shape="rectangle")
    html = preview(browse, "box", box, shape="rectangle", corner_joint="mitre")
    assert "45.0°" in html


def test_an_own_thickness_is_live_and_stays(hatchback, browse):
    """A front of 30 mm changes the litres."""
    box = hatchback.box
    before = preview(browse, "box", box)
    after = preview(
        browse, "box", box, **{"thicknesses-face": ["front"], "thicknesses-thickness": ["30 mm"]}
    )
    assert "31.94" in before
    assert "saved 31.94" in after.replace("\N{NO-BREAK SPACE}", " ")


def test_a_driver_moved_off_its_face_is_said(hatchback, browse):
    """A driver typed 60 mm from the left cuts into the side panel; the page says so."""
    box = hatchback.box
    assert "cut-out-breaks-edge" in preview(browse, "box", box, driver_u="60 mm")


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        (
            {
                "shape": "profile",
                "profile-x": ["0", "300", "300", "0"],
                "profile-y": ["0", "400", "0", "400"],
            },
            "crosses",
        ),
        (
            {
                "thicknesses-face": ["front", "rear"],
                "thicknesses-thickness": ["200 mm", "200 mm"],
            },
            "leave no inside at",
        ),
        ({"driver_face": "top", "height": "200 mm"}, "part-larger-than-face"),
        ({"top_depth": "", "rear_slope": "95°"}, "lean from upright is 95°"),
        ({"width": "2600 mm"}, "part-larger-than-sheet"),
        ({"cheek_joint": "mitre"}, "every corner"),
    ],
)
def test_bad_wood_has_an_answer_of_its_own(hatchback, browse, changed, says):
    """Self-crossing, no inside, driver too large, slope beyond upright, sheet too small."""
    box = hatchback.box
    assert says in preview(browse, "box", box, **changed)


def test_sides_that_are_none_are_refused_beside_the_field(hatchback, browse):
    """A side without its thickness is refused; what was typed stays."""
    box = hatchback.box
    sent = typed(BoxForm(instance=box)) | {
        "thicknesses-face": ["front"],
        "thicknesses-thickness": ["12 bananas"],
    }
    answer = browse("designer").post(
        reverse("box-edit", args=[hatchback.code, box.pk]),
        {name: "" if value is None else value for name, value in sent.items()},
    )
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "thicknesses", "12 bananas")


def test_rings_and_trim_panels_are_live(hatchback, browse):
    """The drawing follows what is typed, and what is impossible is said instead of drawn."""
    ring, panel = hatchback.ring, hatchback.cover
    assert "186.0" in preview(browse, "ring", ring)
    assert "200.0" in preview(browse, "ring", ring, outer_diameter="200 mm")
    assert "box-cannot-be" in preview(browse, "ring", ring, bolt_circle="250 mm")
    assert "Ø 321.0" in preview(browse, "trim-panel", panel)
    assert "Ø 335.0" in preview(browse, "trim-panel", panel, reveal="10 mm")
    assert "rim" in preview(browse, "trim-panel", panel, width="300 mm")


def test_the_box_page_lists_rings_and_offers_the_files(hatchback, browse):
    """Each is listed with its number and size; an installer sees them and may not change them."""
    page = browse("designer").get(reverse("boxes", args=[hatchback.code])).content.decode()
    names = (hatchback.ring.name, hatchback.cover.name)
    for words in (*names, "R1", "T1", reverse("dxf", args=[hatchback.code])):
        assert words in page
    page = browse("installer").get(reverse("boxes", args=[hatchback.code])).content.decode()
    assert hatchback.ring.name in page
    assert reverse("ring-add", args=[hatchback.code]) not in page


def test_dxf_files_are_handed_to_members_only(hatchback, browse):
    """A member gets a packed archive, a stranger 404, a post 405, and no job 404."""
    address = reverse("dxf", args=[hatchback.code])
    answer = browse("installer").get(address)
    assert answer["Content-Type"] == "application/zip"
    assert "attachment" in answer["Content-Disposition"]
    names = zipfile.ZipFile(io.BytesIO(answer.content)).namelist()
    assert "parts/A3-front.dxf" in names
    assert any(name.startswith("sheets/") for name in names)
    assert browse("stranger").get(address).status_code == 404
    assert browse("installer").post(address).status_code == 405
    assert browse("installer").get(reverse("dxf", args=["J-9999"])).status_code == 404


def test_dxf_of_a_job_without_wood_is_an_empty_archive(van, browse):
    """Nothing to cut is an archive with nothing in it, not an error."""
    answer = browse("installer").get(reverse("dxf", args=[van.code]))
    assert zipfile.ZipFile(io.BytesIO(answer.content)).namelist() == []


def test_the_saw_is_set_once_for_the_workshop(browse):
    """Kerf, trim and tilt are typed with units; a saw does not tilt beyond level."""
    client, address = browse("manager"), reverse("workshop")
    form = client.get(address).context["form"]
    sent = {k: v for k, v in typed(form).items() if v is not None}
    assert client.post(address, sent | {"kerf": "4 mm", "saw_tilt": "48°"}).status_code == 302
    shop = Workshop.current()
    assert shop.kerf == pytest.approx(0.004)
    assert shop.saw_tilt == pytest.approx(math.radians(48))
    answer = client.post(address, sent | {"saw_tilt": "100°"})
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "saw_tilt", "100°")


def test_every_shape_can_be_chosen(saloon, browse):
    """Each shape of the list draws a box once its measures are typed."""
    box = saloon.box
    measures = {
        "width": "700 mm", "height": "450 mm", "depth": "400 mm", "top_depth": "300 mm",
        "top_width": "600 mm", "cut_depth": "120 mm", "cut_height": "120 mm",
        "profile-x": ["0", "400", "350", "0"], "profile-y": ["0", "0", "450", "450"],
        "plan-x": ["0", "400", "300", "0"], "plan-y": ["0", "0", "350", "400"],
        "plan-lean": ["", "", "5", ""], "port_face": "", "kind": "sealed",
        "fills-volume": ["31 L", "31.2 L", "30.9 L"],
    }  # fmt: skip
    for shape in Box.Shape.values:
        if shape == "moulded":
            continue  # it has no walls to draw
        html = preview(browse, "box", box, **measures, shape=shape)
        assert "box-cannot-be" not in html, shape
        assert "Cut list" in html, shape
        assert html.count("<svg") >= 4, shape
    moulded = preview(browse, "box", box, **measures, shape="moulded")
    assert "sure within" in moulded
    assert "box-cannot-be" not in moulded


def test_what_is_found_of_a_ring_shows_without_a_box(hatchback, browse):
    """The box page of a job that has no box shows every finding its step counts."""
    hatchback.job.boxes.get().remove()
    ring = hatchback.job.rings.get()
    ring.outer_diameter = None
    ring.save()
    page = browse("designer").get(reverse("boxes", args=[hatchback.code]))
    (finding,) = page.context["findings"]
    assert finding.about.kind == "ring"
    assert "No box yet" in page.content.decode()
    assert finding.says in page.content.decode()


EMPTY_FOLD = re.compile(r"</h2>\s*<span class=\"fine\">nothing yet<")


def test_what_a_panel_begins_with_is_not_called_filled_in(hatchback, browse):
    """A group folded away spells what somebody said, not what a new panel has by itself."""
    client = browse("designer")
    new = client.get(reverse("trim-panel-add", args=[hatchback.code])).content.decode()
    assert new.count('<details class="fold"') == len(EMPTY_FOLD.findall(new)) == 6
    panel = TrimPanel.objects.create(job=hatchback.job, name="lid", width=0.5, height=0.4)
    address = reverse("trim-panel-edit", args=[hatchback.code, panel.pk])
    TrimPanel.objects.filter(pk=panel.pk).update(beside=0.002, measured="space")
    read = client.get(address).content.decode()
    [spelled] = [text for text in re.findall(r'"fine">([^<]*)<', read) if "2 mm" in text]
    assert len(spelled.split(" · ")) == 2
    assert len(EMPTY_FOLD.findall(read)) == 5


def test_a_part_on_a_board_is_read_by_its_name():
    """A removed one too; one that was never there is a dash."""
    part = make_part("Distribution block")
    column = next(c for c in MountsField().columns if isinstance(c, _PartColumn))
    assert column.say(part.pk) == str(part)
    part.remove()
    assert column.say(part.pk) == str(part)
    assert column.say(0) == "–"
