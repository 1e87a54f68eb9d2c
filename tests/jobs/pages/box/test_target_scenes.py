"""What is wanted of a box is read, and refused, as was let stand."""

from __future__ import annotations

from typing import Any

import pytest
from django.http import QueryDict
from django.utils.http import urlencode

from jobs.design.box.targets import Answer
from jobs.pages.box.targets import TargetForm, _words
from tests.approval import figures, hold
from tests.told import row

ASKED: list[dict[str, Any]] = [
    {"want": "qtc", "value": "0.7"},
    {"want": "qtc", "value": ""},
    {"want": "qtc", "value": "0"},
    {"want": "qtc", "value": "-1"},
    {"want": "qtc", "value": "35 Hz"},
    {"want": "f3", "value": "35", "rise": "1.5 dB"},
    {"want": "f3", "value": "35 Hz", "rise": "3"},
    {"want": "f3", "value": "35 Hz", "rise": "3.1"},
    {"want": "f3", "value": "35 Hz", "rise": "0"},
    {"want": "f3", "value": "35 Hz", "rise": "-1"},
    {"want": "f3", "value": "35 Hz", "rise": "0.1 dB"},
    {"want": "volume", "value": "1 cu ft"},
    {"want": "volume", "value": ""},
    {"want": "fb", "value": "30 Hz"},
    {"want": "fb"},
    {"want": "butterworth", "value": "nothing", "rise": "9"},
    {"want": "chebyshev", "rise": "1"},
    {"want": "loudest", "value": "28 L", "low": "25 Hz", "high": "60 Hz"},
    {"want": "loudest", "value": "", "low": "25 Hz", "high": "60 Hz"},
    {"want": "loudest", "value": "28 L", "low": "", "high": "60 Hz", "rise": "4"},
    {"want": "band", "low": "10", "high": "500 Hz"},
    {"want": "band", "low": "9.9", "high": "501"},
    {"want": "band", "low": "60", "high": "60"},
    {"want": "band", "low": "60", "high": "59"},
    {"want": "band", "low": "60", "high": "60.1"},
    {"want": "band", "low": "a", "high": "40 kg"},
    {"want": "band", "rise": "3.5"},
    {"want": "band", "rise": "3", "low": "30", "high": "60"},
    {"want": "odd", "value": "1"},
    {"want": ""},
]


def _answered(sent: dict[str, Any]) -> str:
    form = TargetForm(QueryDict(urlencode(sent)))
    if form.is_valid():
        target = form.target()
        return row(target.want, target.value, target.rise, target.low, target.high)
    return row({name: list(wrong) for name, wrong in form.errors.items()})


def test_what_is_wanted_is_read_as_was_let_stand():
    """Figures in their units, bands with two ends, shapes, and a hair beyond each limit."""
    told = {f"{n} {row(sent)}": _answered(sent) for n, sent in enumerate(ASKED)}
    hold("targets/asked", figures(told))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"wanted_volume": 0.028}, "28.00 L"),
        ({"wanted_volume": 0.028, "wanted_tuning": 32.0}, "28.00 L, 32.0 Hz"),
        (
            {"wanted_volume": 0.028, "front_volume": 0.012, "wanted_tuning": 60.0},
            "28.00 L, 12.00 L, 60.0 Hz",
        ),
        ({"wanted_volume": 0.028, "radiator_added_mass": 0.05}, "28.00 L, 50.0 g"),
        ({"wanted_volume": 0.028, "front_volume": None, "wanted_tuning": None}, "28.00 L"),
    ],
)
def test_what_was_put_into_the_box_is_said(fields, words):
    """Litres first, then the other chamber, the mass added and the tuning."""
    answer = Answer.__new__(Answer)
    vars(answer)["fields"] = fields
    assert _words(answer).replace("\N{NO-BREAK SPACE}", " ") == words
