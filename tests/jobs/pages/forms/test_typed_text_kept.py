"""The server judges every field, and keeps what was typed into it."""

from __future__ import annotations

import re

import pytest
from django.utils import timezone

pytestmark = pytest.mark.django_db

CHANNEL = "/jobs/J-0001/channel/add/"
TYPED = {
    "position": "abc",
    "name": "x" * 300,
    "processor_output": "-3",
    "amplifier_channel": "1,5.2",
    "highpass_frequency": "\N{SLIGHTLY SMILING FACE}",
    "level": "12 bananas",
}


def _input(html: str, name: str) -> str:
    found = re.search(rf'<input[^>]*name="{name}"[^>]*>', html)
    assert found, name
    return found[0]


def test_every_kind_of_field_keeps_what_it_refuses(demo, browse) -> None:
    """Letters, a long text, a smiling face: each stands in its field again, its slip beside it."""
    answer = browse("designer").post(CHANNEL, TYPED)
    html = answer.content.decode()
    assert answer.status_code == 422
    for name, text in TYPED.items():
        assert f'value="{text}"' in _input(html, name)
        assert f'id="id_{name}_error"' in html


def test_no_browser_judges_first(demo, browse) -> None:
    """A browser's number field drops letters, its limit cuts what is pasted: neither is used."""
    html = browse("designer").get(CHANNEL).content.decode()
    assert re.search(r'<form [^>]*id="channel-form"[^>]* novalidate', html)
    assert 'type="number"' not in html
    assert "maxlength" not in html.split('id="channel-form"')[1]


def test_money_takes_the_readers_decimal_mark(demo, browse) -> None:
    """A German budget has a comma; one below nothing is refused."""
    client = browse("consultant")
    client.cookies["django_language"] = "de"
    html = client.post("/jobs/J-0001/brief/", {"budget": "-5,50"}).content.decode()
    assert 'value="-5,50"' in _input(html, "budget")
    assert 'id="id_budget_error"' in html
    html = client.post("/jobs/J-0001/brief/", {"budget": "2500,50"}).content.decode()
    assert 'id="id_budget_error"' not in html


def test_an_empty_choice_says_where_it_is_filled(demo, browse) -> None:
    """A choice that has nothing to offer says so; one that has, does not."""
    said = "None on the equipment list yet."
    assert said not in browse("designer").get(CHANNEL).content.decode()
    demo["J-0001"].equipmentitems.update(removed_at=timezone.now())
    assert said in browse("designer").get(CHANNEL).content.decode()


def test_a_run_of_no_kind_yet_is_not_called_sound(demo, browse):
    """Until its kind is chosen a run is not worked out: nothing is said against it, nor for it."""
    answer = browse("designer").post("/jobs/J-0001/run/preview/", {"kind": "", "length": "2 m"})
    assert "Begin with the form" in answer.content.decode()
    assert "Nothing found against it" not in answer.content.decode()
