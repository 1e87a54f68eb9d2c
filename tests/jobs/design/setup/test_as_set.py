"""What moved since the time before, as a person reads it."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest

from jobs import units
from jobs.design.setup.as_set import AsSet, check_as_set
from jobs.models import Channel, ChannelSetting


def _moved(**changed: tuple[Any, Any]) -> list[tuple[str, str]]:
    """Then and now of what is another value."""
    before, now = (
        ChannelSetting(**{name: values[n] for name, values in changed.items()}) for n in (0, 1)
    )
    start: Any = SimpleNamespace(channel=None)
    return [
        (then, later) for _what, then, later in AsSet(start=start, now=now, before=before).moved
    ]


def test_each_value_is_read_in_its_unit_its_words_or_as_a_dash():
    """A shape by its name, polarity in words, a frequency with its unit, nothing as a dash."""
    assert _moved(highpass_frequency=(80.0, 90.0)) == [
        (units.show(80.0, "frequency"), units.show(90.0, "frequency"))
    ]
    shape = dict(ChannelSetting._meta.get_field("highpass_shape").flatchoices)["lr24"]
    assert _moved(highpass_shape=("", "lr24")) == [("–", str(shape))]
    assert _moved(inverted=(False, True)) == [("as it is", "inverted")]
    assert _moved(note=("", "softer")) == [("–", "softer")]
    assert _moved(note=("softer", "softer")) == []


@pytest.mark.parametrize(
    ("volts", "code"),
    [
        (10.0, None),
        (10.9, None),
        (11.1, ("gain-above-start", "look")),
        (9.1, None),
        (8.9, ("gain-below-start", "note")),
        (None, None),
    ],
)
def test_a_gain_a_tenth_off_is_said(volts, code):
    """Above it is a look, below it a note; within a tenth, or not measured, nothing is said."""
    start: Any = SimpleNamespace(
        channel=Channel(pk=1, name="bass"), gain=SimpleNamespace(reading=10.0)
    )
    findings = list(check_as_set([AsSet(start=start, now=ChannelSetting(gain_voltage=volts))]))
    assert [(f.code, f.severity) for f in findings] == ([code] if code else [])
    assert [(f.value, f.limit) for f in findings] == ([(volts, 10.0)] if code else [])
