"""A part is found by words of its name and kind, and by the figures it is known by."""

from __future__ import annotations

import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse
from PIL import Image

from jobs.models import Part
from jobs.pages.workshop.key_figures import find, in_short
from jobs.photos import STAMP
from tests.jobs.factories import make_amplifier, make_driver
from tests.jobs.test_photos import _jpeg

pytestmark = pytest.mark.django_db


@pytest.fixture
def three(db):
    """Return two woofers of 165 mm and another of 200, none of a real maker."""
    common = {"power": 80.0, "fs": 60.0}
    make_driver("Kettle 165", outer_diameter=0.166, nominal_impedance=4.0, **common)
    make_driver("Kettle 165 two", outer_diameter=0.166, nominal_impedance=2.0, **common)
    make_driver("Ladle", outer_diameter=0.200, nominal_impedance=4.0, **common)
    return Part.objects.all()


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("165 mm 4 Ω", ["Kettle 165"]),
        ("165mm 4ohm", ["Kettle 165"]),
        ("6.5 in 4 ohm", ["Kettle 165"]),
        ("kettle 2 Ω", ["Kettle 165 two"]),
        ("driver 200 mm", ["Ladle"]),
        ("kettle", ["Kettle 165", "Kettle 165 two"]),
        ("165", ["Kettle 165", "Kettle 165 two"]),
        ("4 Ω driver", ["Kettle 165", "Ladle"]),
        ("4 kg", []),
        ("spoon", []),
    ],
)
def test_by_name_kind_and_figure(three, text, names):
    """Every word and every figure has to be borne out, in whichever unit it is typed."""
    assert [part.name for part in find(three, text)] == names


def test_the_reader_is_told_what_tells_parts_apart(three):
    """Size, load, power and resonance of a driver stand in one line."""
    assert in_short(find(three, "ladle")[0]) == "200 mm · 4 Ω · 80 W · 60 Hz"
    amplifier = make_amplifier("Pan", channels=4, ratings=[(False, 4.0, 100.0)])
    assert in_short(find(three, "pan")[0]).startswith("4 × 100 W · 4 Ω")
    assert amplifier.kind == Part.Kind.AMPLIFIER


def test_the_catalogue_is_searched_by_figure(three, browse):
    """The list shows the key figures and where a part lies, and finds by them."""
    Part.objects.filter(name="Kettle 165").update(shelf="rack 2, lower board")
    page = browse("installer").get(reverse("catalogue"), {"q": "165 mm 4 Ω"}).content.decode()
    assert "Kettle 165" in page
    assert "rack 2, lower board" in page
    assert "166 mm · 4 Ω" in page
    assert "Ladle" not in page


def test_prices_are_for_those_who_see_prices(three, browse):
    """What a list is picked from says prices to those who see them elsewhere."""
    Part.objects.filter(name="Ladle").update(price="89.00")
    url, key = reverse("part-figures"), str(Part.objects.get(name="Ladle").pk)
    assert browse("consultant").get(url).json()[key]["price"] == "89.00"
    assert browse("installer").get(url).json()[key]["price"] == ""
    assert browse("stranger").get(url).status_code == 404
    assert browse("consultant").post(url).status_code == 405


def test_as_many_queries_for_one_part_as_for_many(three, django_assert_num_queries):
    """What a part is known by is read with it."""
    for more, parts in ((1, 4), (19, 23)):
        for n in range(more):
            make_amplifier(f"Pan {more} {n}", channels=4, ratings=[(False, 4.0, 100.0)])
        with django_assert_num_queries(2):
            assert len([in_short(part) for part in find(Part.objects.all(), "")]) == parts


def test_the_list_of_a_job_is_picked_from_by_typing(hatchback, browse):
    """The choice of a part says where its figures are asked for, and leads to its page."""
    page = browse("designer").get(reverse("item-edit", args=[hatchback.code, hatchback.sub.pk]))
    field = page.context["form"].fields["part"]
    assert field.widget.attrs["data-pick"] == reverse("part-figures")
    assert reverse("part-edit", args=[hatchback.sub.part_id]) in page.content.decode()


def test_a_part_is_picked_by_its_picture(shelf, browse):
    """It is kept small, shown in the catalogue and where parts are picked; another takes its place.

    What is no photo is told and changes nothing.
    """
    part, client = shelf["sub"], browse("designer")
    url = reverse("part-picture", args=[part.pk])
    assert browse("installer").get(url).status_code == 404
    large = SimpleUploadedFile("sub.jpg", _jpeg(), "image/jpeg")
    assert browse("installer").post(url, {"picture": large}).status_code == 403
    large.seek(0)
    client.post(url, {"picture": large})
    kept = browse("installer").get(url)
    assert max(Image.open(io.BytesIO(kept.content)).size) <= STAMP
    known = client.get(reverse("part-figures")).json()[str(part.pk)]["picture"]
    assert known.startswith(url)
    assert known in client.get(reverse("catalogue"), {"q": part.name}).content.decode()
    wrong = SimpleUploadedFile("sheet.jpg", b"%PDF-1.7", "image/jpeg")
    page = client.post(url, {"picture": wrong}, follow=True).content.decode()
    assert "sheet.jpg: This file is no photo" in page
    assert known in page
    client.post(url, {"remove": "1"})
    assert client.get(url).status_code == 404
