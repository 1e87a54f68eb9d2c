"""The page that fits a box to a cavity: three boxes to pick from, one saved, what binds if none."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.urls import reverse

from jobs.design.job.whole import load, work_out
from jobs.models import Box, Driver
from jobs.pages.wood.fit import KINDS, _initial
from tests.jobs.factories import make_driver, make_job

pytestmark = pytest.mark.django_db


@pytest.fixture
def typed(shelf) -> dict[str, Any]:
    """Everything a person types for an invented cavity behind a seat back."""
    return {
        "cavity_profile-x": ["0", "500", "380", "0"],
        "cavity_profile-y": ["0", "0", "400", "400"],
        "cavity_profile-bow": [""] * 4,
        "cavity_width": "900 mm",
        "cavity_gap": "10 mm",
        "opening_width": "1 m",
        "opening_height": "600",
        "name": "Seat-back box",
        "kind": "sealed",
        "wanted_volume": "30 L",
        "driver": f"part-{shelf['flat'].pk}",
        "driver_count": "1",
        "facing": "front",
        "material": str(shelf["birch"].pk),
        "baffle_layers": "1",
        "port_count": "1",
        "entry_token": "6f0b8f9e-0d58-4b1c-9f5f-3d0f3d0f3d0f",
    }


def picks(html: str) -> list[str]:
    """The keys of the boxes offered."""
    return re.findall(r'name="pick" value="([^"]+)"', html)


def test_from_an_empty_job_to_a_box(browse, typed):
    """Cavity, driver and litres give three drawn boxes; the one picked is the job's box."""
    job = make_job()
    url, client = reverse("fit", args=[job.code]), browse("designer")
    assert client.get(url).status_code == 200
    html = client.post(url, typed).content.decode()
    offered = picks(html)
    assert len(offered) >= 3
    assert html.count("<svg") >= 2 * len(offered)
    assert not job.boxes.exists()
    answer = client.post(url, {**typed, "pick": offered[0]})
    box = job.boxes.get()
    assert answer["Location"] == reverse("box-edit", args=[job.code, box.pk])
    result = work_out(load(job)).saved_box(box.pk)
    assert result.net_volume == pytest.approx(0.030, rel=1e-6)
    assert not [
        f for f in result.findings if f.code in ("box-too-near", "box-does-not-pass-opening")
    ]
    assert job.equipmentitems.get().part_id == int(typed["driver"].split("-")[1])
    assert box.cavity_width == pytest.approx(0.9)


@pytest.mark.parametrize(
    ("facing", "vented"),
    [
        ("front", False),
        ("top", True),
        ("side", True),
        *(
            pytest.param(facing, vented, marks=pytest.mark.long)
            for facing in ("front", "rear", "top", "side")
            for vented in (False, True)
            if (facing, vented) not in {("front", False), ("top", True), ("side", True)}
        ),
    ],
)
def test_what_is_saved_is_what_was_shown(hatchback, browse, typed, facing, vented):
    """Every answer, saved, has its litres, stands in its cavity and keeps every distance."""
    url, client = reverse("fit", args=[hatchback.code]), browse("designer")
    asked = {**typed, "facing": facing}
    if vented:
        asked |= {
            "kind": "vented", "wanted_volume": "45 L", "wanted_tuning": "40 Hz",
            "port_diameter": "70 mm", "port_face": "right" if facing == "side" else "",
        }  # fmt: skip
        if facing == "side":
            asked["port_face"] = ""
    offered = picks(client.post(url, asked).content.decode())
    for number, key in enumerate(offered):
        token = f"6f0b8f9e-0d58-4b1c-9f5f-3d0f3d0f3d{number:02d}"
        client.post(url, {**asked, "pick": key, "entry_token": token})
        box = Box.objects.get(entry_token=token)
        result = work_out(load(hatchback.job)).saved_box(box.pk)
        assert result.net_volume == pytest.approx(box.wanted_volume, rel=1e-4)
        bad = {
            "box-too-near", "box-does-not-pass-opening", "driver-deeper-than-box", "parts-collide",
            "driver-near-back", "port-does-not-fit", "port-mouth-near-wall", "cut-out-near-edge",
        }  # fmt: skip
        assert not bad & {f.code for f in result.findings}
    assert offered


def test_an_existing_box_is_changed_and_changed_back(hatchback, browse, typed):
    """Picked for a box that is there, the shape goes in, and undo brings the old one back."""
    box = hatchback.box
    url, client = reverse("fit-box", args=[hatchback.code, box.pk]), browse("designer")
    html = client.get(url).content.decode()
    assert "370" in html  # its own cavity is offered
    asked = {**typed, "version": str(box.version), "driver": f"item-{box.driver_id}"}
    offered = picks(client.post(url, asked).content.decode())
    client.post(url, {**asked, "pick": offered[-1]})
    changed = Box.objects.get(pk=box.pk)
    assert changed.width != box.width
    assert changed.version == box.version + 1
    client.post(reverse("fit-undo", args=[hatchback.code, box.pk, changed.version]))
    back = Box.objects.get(pk=box.pk)
    assert (back.shape, back.width, back.cavity_profile, back.name) == (
        box.shape, box.width, box.cavity_profile, box.name,
    )  # fmt: skip


def test_somebody_else_saved_meanwhile(hatchback, browse, typed):
    """With an old version nothing is written, and the boxes are shown again."""
    box = hatchback.box
    url, client = reverse("fit-box", args=[hatchback.code, box.pk]), browse("designer")
    asked = {**typed, "version": str(box.version), "driver": f"item-{box.driver_id}"}
    offered = picks(client.post(url, asked).content.decode())
    answer = client.post(url, {**asked, "pick": offered[0], "version": str(box.version - 1)})
    assert answer.status_code == 422
    assert Box.objects.get(pk=box.pk).width == box.width
    assert client.post(url, {**asked, "pick": "1-2-3-4"}).status_code == 422


def test_sent_twice_is_made_once(hatchback, browse, typed):
    """The same form sent twice makes one box and one line on the equipment list."""
    url, client = reverse("fit", args=[hatchback.code]), browse("designer")
    offered = picks(client.post(url, typed).content.decode())
    before = hatchback.job.boxes.count(), hatchback.job.equipmentitems.count()
    for _ in range(2):
        client.post(url, {**typed, "pick": offered[0]})
    assert (hatchback.job.boxes.count(), hatchback.job.equipmentitems.count()) == (
        before[0] + 1,
        before[1] + 1,
    )


def test_nothing_fits_and_why(hatchback, browse, typed):
    """Too many litres, a small opening and a long port each say what binds."""
    url, client = reverse("fit", args=[hatchback.code]), browse("designer")
    html = client.post(url, {**typed, "wanted_volume": "200 L"}).content.decode()
    assert "cavity itself is too small" in html
    assert "The largest box that goes has" in html
    small = {**typed, "opening_width": "330", "opening_height": "340", "wanted_volume": "80 L"}
    assert "Without the opening it must pass a box of" in client.post(url, small).content.decode()
    vented = {**typed, "kind": "vented", "wanted_tuning": "22 Hz", "port_diameter": "100"}
    html = client.post(url, vented).content.decode()
    assert "Without the port and the room it needs" in html


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"cavity_profile-y": ["0", "400", "0", "400"]}, "cross"),
        ({"cavity_width": "12 bananas"}, "bananas"),
        (
            {
                f"cavity_obstacles-{column}": ["hinge" if column == "name" else ""]
                for column in ("name", "x", "y", "depth", "height", "start", "end")
            },
            "This is missing",
        ),
        ({"opening_height": ""}, "An opening has both"),
        ({"kind": "vented"}, "A vented box needs this"),
        ({"cavity_gap": "500"}, "no room"),
        ({"driver_count": "2", "facing": "side"}, "one driver goes into a side panel"),
    ],
)
def test_bad_input_is_answered(hatchback, browse, typed, change, says):
    """What cannot be is said, and what was typed stays."""
    html = browse("designer").post(reverse("fit", args=[hatchback.code]), {**typed, **change})
    assert says in html.content.decode()
    assert "900 mm" in html.content.decode() or "bananas" in html.content.decode()


def test_a_driver_without_its_size_is_refused(hatchback, browse, typed):
    """Nothing can be fitted round a driver nobody has measured."""
    part = make_driver("invented, no size")
    asked = {**typed, "driver": f"part-{part.pk}"}
    html = browse("designer").post(reverse("fit", args=[hatchback.code]), asked).content.decode()
    assert "Enter them in the catalogue first" in html


def test_who_may(hatchback, van, browse, typed):
    """A stranger finds nothing, an installer looks and may not pick, no job opens another's box."""
    url = reverse("fit", args=[hatchback.code])
    assert browse("stranger").get(url).status_code == 404
    installer = browse("installer")
    html = installer.post(url, typed).content.decode()
    assert not picks(html)
    assert installer.post(url, {**typed, "pick": "1-2-3-4"}).status_code == 403
    box = hatchback.box
    assert browse("manager").get(reverse("fit-box", args=[van.code, box.pk])).status_code == 404
    undo = reverse("fit-undo", args=[hatchback.code, box.pk, box.version])
    assert installer.post(undo).status_code == 403
    assert browse("manager").get(undo).status_code == 405


@pytest.mark.parametrize("wrong", [{"outer_diameter": 0.002}, {"magnet_height": 0.9}])
def test_a_driver_that_cannot_be_is_said(hatchback, browse, shelf, typed, wrong):
    """A flange narrower than its hole, or a motor deeper than the driver, is said."""
    Driver.objects.filter(pk=shelf["flat"].pk).update(**wrong)
    url = reverse("fit", args=[hatchback.code])
    answer = browse("designer").post(url, typed)
    assert answer.status_code == 200
    assert answer.context["fitting"].trouble


def test_where_nothing_fits_the_page_offers_to_turn_the_box(browse, typed):
    """Under a floor no driver that looks forward goes; one button lets it look up instead."""
    flat = {
        "cavity_profile-x": ["0", "600", "600", "0"],
        "cavity_profile-y": ["0", "0", "155", "155"],
        "wanted_volume": "14 L",
        "opening_width": "",
        "opening_height": "",
    }
    job = make_job()
    url, client = reverse("fit", args=[job.code]), browse("designer")
    html = client.post(url, typed | flat).content.decode()
    assert not picks(html)
    ways = re.findall(r'form="fit-form" name="facing" value="([^"]+)"', html)
    assert ways == ["top"]
    # A browser sends the button after the field of the same name: the last one counts.
    html = client.post(url, typed | flat | {"facing": ["front", ways[0]]}).content.decode()
    assert picks(html)


def test_a_box_of_a_kind_no_cavity_is_filled_with_begins_as_the_first_that_is():
    """What is no choice of the form is not chosen in it; what is one stays."""
    kept = {str(kind): _initial(Box(kind=kind))["kind"] for kind in Box.Kind}
    assert {kind for kind in kept if kept[kind] != kind} == set(kept) - set(KINDS)
    assert {kept[kind] for kind in set(kept) - set(KINDS)} == {KINDS[0]}
