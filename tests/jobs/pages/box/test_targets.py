"""The targets page: asked by members, put into the box by those who decide, and taken out again."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from jobs.models import Box
from jobs.pages.box import targets
from tests.jobs.pages.kinds import BANANAS, says_beside

pytestmark = pytest.mark.django_db
ASKED = {"want": "qtc", "value": "0.8", "rise": ""}


@pytest.fixture
def box(hatchback) -> Box:
    return hatchback.box


def _url(box: Box, code: str = "") -> str:
    return reverse("targets", args=[code or box.job.code, box.pk])


def _version(box: Box) -> dict[str, str]:
    return {"version": str(Box.objects.get(pk=box.pk).version)}


def test_a_member_asks_and_nothing_is_written(browse, box):
    """Everybody of the workshop sees answer and cost; asking changes nothing."""
    answer = browse("installer").get(_url(box), ASKED)
    assert answer.status_code == 200
    html = answer.content.decode()
    assert "What it costs" in html
    assert "0.800" in html
    assert "Put this into the box" not in html
    assert "Put this into the box" in browse("designer").get(_url(box), ASKED).content.decode()
    assert Box.objects.get(pk=box.pk).version == box.version


def test_only_those_who_decide_put_it_in(van, browse, box):
    """An installer is refused, a stranger finds nothing, the signed-out are asked to sign in."""
    sent = ASKED | _version(box)
    assert browse("installer").post(_url(box), sent).status_code == 403
    assert browse("stranger").post(_url(box), sent).status_code == 404
    assert browse("stranger").get(_url(box)).status_code == 404
    assert Client().get(_url(box)).status_code == 302
    assert browse("designer").post(_url(box, van.code), sent).status_code == 404
    assert browse("designer").put(_url(box)).status_code == 405
    undo = reverse("targets-undo", args=[box.job.code, box.pk, 1])
    assert browse("designer").get(undo).status_code == 405
    assert browse("installer").post(undo).status_code == 403
    assert browse("stranger").post(undo).status_code == 404


def test_one_press_puts_it_in_and_one_takes_it_out(browse, box):
    """The litres are saved as an ordinary new version; undo brings back what stood there."""
    client = browse("designer")
    answer = client.post(_url(box), ASKED | _version(box), follow=True)
    saved = Box.objects.get(pk=box.pk)
    assert saved.version == box.version + 1
    assert saved.wanted_volume != box.wanted_volume
    assert saved.history.count() == box.history.count()
    html = answer.content.decode()
    undo = reverse("targets-undo", args=[box.job.code, box.pk, saved.version])
    assert f'action="{undo}"' in html
    assert client.post(undo).status_code == 302
    back = Box.objects.get(pk=box.pk)
    assert (back.wanted_volume, back.version) == (box.wanted_volume, saved.version + 1)
    # Pressed again, or after somebody changed the box, it takes nothing back.
    late = client.post(undo, follow=True)
    assert "nothing was taken back" in late.content.decode()
    assert Box.objects.get(pk=box.pk).version == back.version


def test_the_second_of_two_is_told(browse, box, monkeypatch):
    """An answer to an older box is not put in; it is worked out anew and may then be put in."""
    client, sent = browse("designer"), ASKED | _version(box)
    box.wanted_volume = 0.035
    box.version += 1
    box.save()
    answer = client.post(_url(box), sent)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert "Somebody else saved this box" in html
    assert f'name="version" value="{box.version}"' in html
    assert Box.objects.get(pk=box.pk).wanted_volume == 0.035
    # Saved between the answer and the hand that puts it in: told the same.
    with monkeypatch.context() as meanwhile:
        meanwhile.setattr(targets, "_put", lambda box, solution: None)
        answer = client.post(_url(box), ASKED | _version(box))
    assert answer.status_code == 422
    assert "Somebody else saved this box" in answer.content.decode()
    assert Box.objects.get(pk=box.pk).wanted_volume == 0.035
    assert client.post(_url(box), ASKED | _version(box)).status_code == 302


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"value": BANANAS}, "value"),
        ({"value": ""}, "value"),
        ({"value": "-0.7"}, "value"),
        ({"value": "nan"}, "value"),
        ({"value": "9" * 60}, "value"),
        ({"want": "f3", "value": "40 L"}, "value"),
        ({"want": "volume", "value": "0 L"}, "value"),
        ({"rise": BANANAS}, "rise"),
        ({"rise": "-1 dB"}, "rise"),
        ({"rise": "0 dB"}, "rise"),
        ({"want": "f3", "value": "30 Hz", "rise": "4 dB"}, "rise"),
    ],
)
def test_nonsense_stays_as_typed_with_its_reason(browse, box, changed, field):
    """Whatever cannot be read stays in its field, and the reason stands beside it."""
    sent = ASKED | changed
    answer = browse("designer").get(_url(box), sent)
    assert answer.status_code == 422
    html = answer.content.decode().replace("id_target_", "id_").replace("target_", "id_")
    assert says_beside(html, field, sent[field])
    assert "What it costs" not in html
    assert browse("designer").post(_url(box), sent | _version(box)).status_code == 422


def test_a_target_nobody_offers(browse, box):
    """A want that is not in the list is refused, not guessed."""
    assert browse("designer").get(_url(box), ASKED | {"want": "loud"}).status_code == 422


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({"want": "qtc", "value": "0.2"}, "A box only ever raises the Q"),
        ({"want": "f3", "value": "9 Hz"}, "No box takes this driver down to"),
        ({"want": "sub-chebyshev", "value": ""}, "of the fourth order"),
    ],
)
def test_out_of_reach_says_why_and_cannot_be_put_in(browse, box, sent, says):
    """A target that cannot be met is answered with its reason; pressing anyway saves nothing."""
    client = browse("designer")
    answer = client.get(_url(box), sent)
    assert answer.status_code == 200
    assert says in answer.content.decode()
    assert client.post(_url(box), sent | _version(box)).status_code == 422
    assert Box.objects.get(pk=box.pk).version == box.version


def test_the_box_page_loads_it_late_and_keeps_what_was_typed(browse, box):
    """The box page names the address and keeps the part while the box is typed in."""
    client = browse("designer")
    page = client.get(reverse("box-edit", args=[box.job.code, box.pk])).content.decode()
    assert f'hx-get="{_url(box)}"' in page
    live = client.post(reverse("box-preview", args=[box.job.code]), {"row": box.pk, "name": "x"})
    assert "hx-preserve" in live.content.decode()
    part = client.get(_url(box), headers={"HX-Request": "true"})
    assert "<main" not in part.content.decode()
    assert "HX-Request" in part.headers["Vary"]
    assert "/targets/" not in client.get(reverse("box-add", args=[box.job.code])).content.decode()


@pytest.mark.parametrize(
    ("band", "says"),
    [
        ({"low": "", "high": "60 Hz"}, "both its ends"),
        ({"low": "60 Hz", "high": "30 Hz"}, "above the lower end"),
        ({"low": "2 Hz", "high": "60 Hz"}, "A band lies between"),
    ],
    ids=["one-end", "upside-down", "too-low"],
)
def test_a_band_that_is_none_is_said_beside_its_field(browse, box, band, says):
    """Most level needs a band with two ends in their order; what was typed stays."""
    asked = {"want": "loudest", "value": "30 L", "rise": ""} | band
    answer = browse("designer").get(_url(box), asked)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert says in html
    assert "30 L" in html


def test_most_level_is_answered_with_litres_against_level(browse, box):
    """The answer names what sets the limit and draws the trade-off, and can be put in."""
    asked = {"want": "loudest", "value": "30 L", "low": "30 Hz", "high": "70 Hz", "rise": ""}
    html = browse("designer").get(_url(box), asked).content.decode()
    assert "sets the limit" in html
    assert "against net litres" in html
    put = browse("designer").post(_url(box), asked | _version(box))
    assert put.status_code == 302
    assert Box.objects.get(pk=box.pk).wanted_volume == pytest.approx(0.03)
