"""The server judges every field, and keeps what was typed into it."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse
from django.utils import timezone

pytestmark = pytest.mark.django_db

TYPED = {
    "position": "abc",
    "name": "x" * 300,
    "processor_output": "-3",
    "amplifier_channel": "1,5.2",
    "highpass_frequency": "\N{SLIGHTLY SMILING FACE}",
    "level": "12 bananas",
}


def _channel(scene) -> str:
    return reverse("channel-add", args=[scene.code])


def _input(html: str, name: str) -> str:
    found = re.search(rf'<input[^>]*name="{name}"[^>]*>', html)
    assert found, name
    return found[0]


def test_every_kind_of_field_keeps_what_it_refuses(hatchback, browse) -> None:
    """Letters, a long text, a smiling face: each stands in its field again, its slip beside it."""
    answer = browse("designer").post(_channel(hatchback), TYPED)
    html = answer.content.decode()
    assert answer.status_code == 422
    for name, text in TYPED.items():
        assert f'value="{text}"' in _input(html, name)
        assert f'id="id_{name}_error"' in html


def test_no_browser_judges_first(hatchback, browse) -> None:
    """A browser's number field drops letters, its limit cuts what is pasted: neither is used."""
    html = browse("designer").get(_channel(hatchback)).content.decode()
    assert re.search(r'<form [^>]*id="channel-form"[^>]* novalidate', html)
    assert 'type="number"' not in html
    assert "maxlength" not in html.split('id="channel-form"')[1]


def test_money_takes_the_readers_decimal_mark(hatchback, browse) -> None:
    """A German budget has a comma; one below nothing is refused."""
    client = browse("consultant")
    client.cookies["django_language"] = "de"
    sent = {"version": hatchback.job.version}
    html = client.post(
        reverse("brief", args=[hatchback.code]), sent | {"budget": "-5,50"}
    ).content.decode()
    assert 'value="-5,50"' in _input(html, "budget")
    assert 'id="id_budget_error"' in html
    html = client.post(
        reverse("brief", args=[hatchback.code]), sent | {"budget": "2500,50"}
    ).content.decode()
    assert 'id="id_budget_error"' not in html


def test_an_empty_choice_says_where_it_is_filled(hatchback, browse) -> None:
    """A choice that has nothing to offer says so; one that has, does not."""
    said = "None on the equipment list yet."
    assert said not in browse("designer").get(_channel(hatchback)).content.decode()
    hatchback.job.equipmentitems.update(removed_at=timezone.now())
    assert said in browse("designer").get(_channel(hatchback)).content.decode()


def test_a_run_of_no_kind_yet_is_not_called_sound(hatchback, browse):
    """Until its kind is chosen a run is not worked out: nothing is said against it, nor for it."""
    answer = browse("designer").post(
        reverse("run-preview", args=[hatchback.code]), {"kind": "", "length": "2 m"}
    )
    assert "Begin with the form" in answer.content.decode()
    assert "Nothing found against it" not in answer.content.decode()
