"""What cannot be built is said at the field that would cure it, with what would do."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from jobs.models import Box, EquipmentItem, TrimPanel
from jobs.pages.box.box_form import BoxForm
from jobs.pages.forms.at_field import _MOVED_BY, _fields
from jobs.pages.wood.rings_and_trim import TrimPanelForm
from tests.jobs.pages.kinds import typed as typed_form

pytestmark = pytest.mark.django_db

SLOT = {"kind": "vented", "port_shape": "slot", "wanted_tuning": "33 Hz"}
BENT = {
    "kind": "vented", "port_diameter": "100 mm", "port_count": "1", "wanted_tuning": "33 Hz",
    "port_bend": "+v", "port_straight": "2000 mm", "port_length": "232 mm",
}  # fmt: skip
# The magnet would stand in the rear panel.
DIVIDED = {
    "kind": "band_pass_4", "shape": "rectangle", "width": "400 mm", "height": "400 mm",
    "depth": "420 mm", "divider": "upright", "divider_at": "360 mm", "port_diameter": "100 mm",
    "port_count": "1", "wanted_tuning": "60 Hz", "front_volume": "25 L",
}  # fmt: skip

FORMS = {"box": BoxForm, "trim-panel": TrimPanelForm}


def said(client, scene, slug, row, **typed):
    """The sentence of each field, as the live answer puts it there."""
    fields = typed_form(FORMS[slug](instance=row)) | {"row": row.pk}
    answer = client.post(f"/jobs/{scene.code}/{slug}/preview/", fields | typed)
    assert answer.status_code == 200
    form = answer.context["form"]
    page = answer.content.decode()
    sentences = {name: vars(f)["said"] for name, f in form.fields.items() if "said" in vars(f)}
    for sentence in sentences.values():
        assert 'class="field-said"' in page
        assert sentence.split()[0] in page
    return sentences


@pytest.mark.parametrize(
    ("typed", "field", "words"),
    [
        (BENT, "port_straight", "straight piece"),
        (SLOT | {"port_lies": "bottom", "port_height": "900 mm"}, "port_height", "flatter"),
        (SLOT | {"port_lies": "bottom", "port_height": "30 mm", "port_width": "4 m"}, "port_width",
         "narrower"),
        ({"driver_recess": "30 mm"}, "driver_recess", "recess"),
        ({"held_by": "brackets", "held_into": ""}, "held_into", "metal"),
        ({"held_by": "loose"}, "held_by", "crash"),
        (DIVIDED, "divider_at", "the divider it sits in"),
    ],
)  # fmt: skip
def test_each_bad_figure_of_a_box_has_its_sentence_at_its_field(
    browse, hatchback, typed, field, words
):
    """Not only in the list of findings: where the hand is."""
    client = browse("designer")
    sentences = said(client, hatchback, "box", hatchback.box, **typed)
    assert words in sentences.get(field, ""), sentences


def test_a_shelf_through_a_magnet_is_said_at_the_shelves(browse, hatchback):
    """What meets what, and to move one; a depth that nobody worked out is not printed as 0.0 mm."""
    client = browse("designer")
    half = hatchback.box.height / 2
    box = Box.objects.get(pk=hatchback.box.pk)
    box.inner_braces = [{"kind": "shelf", "at": [half], "open": 0.5}]
    box.save()
    page = client.get(f"/jobs/{hatchback.code}/box/{box.pk}/")
    field = page.context["form"].fields["inner_braces"]
    assert "shelf 1" in vars(field)["said"]
    assert "Move one of the two" in vars(field)["said"]
    assert "0.0 mm" not in vars(field)["said"]


def test_a_cover_thicker_than_the_gap_is_said_at_the_cover(browse, hatchback):
    """3 mm of carpet round both edges leave nothing of a gap of 3 mm; 2 mm do."""
    client = browse("designer")
    TrimPanel.objects.filter(pk=hatchback.cover.pk).update(reveal=0.003)
    cover = TrimPanel.objects.get(pk=hatchback.cover.pk)
    thick = said(client, hatchback, "trim-panel", cover, finish="3 mm")
    assert "at least" in thick["finish"]
    assert "finish" not in said(client, hatchback, "trim-panel", cover, finish="2 mm")


def test_a_record_without_an_instrument_says_it_too(browse, hatchback):
    """An amplifier that stands loose is said at the field where that is changed."""
    client = browse("designer")
    EquipmentItem.objects.filter(pk=hatchback.mono.pk).update(held_by="loose")
    page = client.get(f"/jobs/{hatchback.code}/item/{hatchback.mono.pk}/").content.decode()
    assert "field-said" in page


@pytest.mark.parametrize(
    ("name", "field"),
    [
        ("", "inner_braces"),
        ("shelf 1", "inner_braces"),
        *((f"{kind} 2", field) for kind, field in _MOVED_BY.items()),
    ],
)
def test_a_brace_outside_is_said_at_what_moves_it(name, field):
    """By the first word of its name; what nothing else moves stands in the list of braces."""
    refused = SimpleNamespace(code="brace-outside", given={"name": name})
    finding = SimpleNamespace(code="refused", refused=refused, about=SimpleNamespace(detail=""))
    assert _fields(finding) == (field,)
