"""What is shown reads well in either system and language, and reads back."""

import math
import re

import pytest
from django.utils.translation import override
from hypothesis import given, settings
from hypothesis import strategies as st

from jobs.units import (
    KINDS,
    UNKNOWN,
    celsius,
    current_system,
    drawn_in,
    kelvin,
    parse,
    plain_unit,
    show,
    using_system,
)

NBSP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("value", "kind", "metric", "imperial"),
    [
        (0.021, "volume", "21.00 L", "0.742 ft³"),
        (0.0213, "volume", "21.30 L", "0.752 ft³"),
        (0.165, "length", "165.0 mm", "6.50 in"),
        (0.00004, "length", "0.040 mm", "0.0016 in"),
        (0.96, "surface", "9600 cm²", "10.3 ft²"),
        (1.2, "surface", "1.20 m²", "12.9 ft²"),
        (3.81, "cable_length", "3.81 m", "12.5 ft"),
        (293.15, "temperature", "20.0 °C", "68.0 °F"),
        (30.0, "temperature_rise", "30.0 K", "54.0 °F"),
        (1500.0, "power", "1500 W", "1500 W"),
        (2500.0, "frequency", "2.50 kHz", "2.50 kHz"),
        (0.004, "resistance", "4.00 mΩ", "4.00 mΩ"),
        (0.5, "resistance", "0.50 Ω", "0.50 Ω"),
        (0.0005, "inductance", "0.50 mH", "0.50 mH"),
        (0.095, "mass", "95.0 g", "0.21 lb"),
        (1.0, "capacitance", "1.00 F", "1.00 F"),
        (342_000.0, "charge", "95 Ah", "95 Ah"),
        (math.pi / 4, "angle", "45.0°", "45.0°"),
        (0.7071, "ratio", "0.707", "0.707"),
        (0.1, "percent", "10.0 %", "10.0 %"),
        (-6.0, "level", "-6.0 dB", "-6.0 dB"),
        (0.0, "volume", "0.00 L", "0.000 ft³"),
    ],
)
def test_a_value_is_shown_in_either_system(value, kind, metric, imperial):
    """Each kind has its unit and its decimals, the same on page and sheet."""
    with override("en"):
        assert show(value, kind, system="metric") == metric.replace(" ", NBSP)
        assert show(value, kind, system="imperial") == imperial.replace(" ", NBSP)


def test_an_unknown_value_is_a_dash():
    """Unknown is shown as unknown, never as a zero."""
    assert show(None, "length") == UNKNOWN == "—"


def test_zero_has_no_sign():
    """A rounded-off negative is zero, without a minus."""
    for value in (-0.0, -1e-15):
        assert show(value, "level") == f"0.0{NBSP}dB"
        assert show(value, "level", exact=True) == f"0{NBSP}dB"


def test_a_failed_calculation_is_never_shown_as_a_number():
    """NaN and infinity are mistakes of a program and are raised as such."""
    for value in (math.nan, math.inf):
        with pytest.raises(ValueError, match="cannot be shown"):
            show(value, "length")


def test_the_decimal_mark_follows_the_reader():
    """A German reader sees a comma, and thousands are never grouped."""
    with override("de"):
        assert show(1.2005, "length") == f"1200,5{NBSP}mm"
        assert show(0.0212, "volume", exact=True) == f"21,2{NBSP}L"


def test_the_system_holds_for_the_block_only():
    """A request or a sheet sets its system, and leaves none behind."""
    assert current_system() == "metric"
    with using_system("imperial"):
        assert current_system() == "imperial"
        assert show(0.2032, "length") == f"8.00{NBSP}in"
        assert parse("8", "length") == 0.2032
        assert plain_unit("length") == "in"
    assert parse("8", "length") == 0.008
    assert plain_unit("length") == "mm"


def test_an_axis_is_drawn_in_the_unit_a_plain_number_is_read_in():
    """A curve times its factor stands in the printed unit, and only where a factor is enough."""
    for name, kind in KINDS.items():
        if name == "temperature":
            with pytest.raises(ValueError, match="zero of its own"):
                drawn_in(name)
            continue
        factor, unit = drawn_in(name)
        assert unit == plain_unit(name)
        value = kind.largest / 1000
        assert parse(f"{value * factor:.12f}", name) == pytest.approx(value, rel=1e-9)


def test_cable_temperatures_go_both_ways():
    """Degrees Celsius for the cable standards agree with what a person types."""
    assert kelvin(105.0) == parse("105 °C", "temperature")
    assert celsius(kelvin(105.0)) == pytest.approx(105.0)


def _bounded(kind):
    low, high = KINDS[kind].lowest * 0.99, KINDS[kind].largest * 0.99
    if kind == "temperature":
        low = 1.0  # absolute zero, rounded, would print as less than nothing
    tiny = st.floats(-9, 0).map(lambda power: high * 10**power)
    return st.floats(low, high) | tiny.filter(lambda value: value >= low)


KIND_AND_VALUE = st.sampled_from(sorted(KINDS)).flatmap(
    lambda kind: st.tuples(st.just(kind), _bounded(kind))
)
SYSTEMS = st.sampled_from(["metric", "imperial"])
LANGUAGES = st.sampled_from(["en", "de"])


def _printed_unit(text, kind):
    """Return one of the unit that a shown text ends with, in SI."""
    unit = text.lstrip("-0123456789.,")
    return parse(f"1 {unit}", kind) - parse(f"0 {unit}", kind)


@settings(deadline=None, max_examples=400)
@given(KIND_AND_VALUE, SYSTEMS, LANGUAGES)
def test_what_is_shown_reads_back_within_its_printed_digits(pair, system, language):
    """A printed value typed again is off by no more than half its last digit."""
    kind, value = pair
    with override(language):
        text = show(value, kind, system=system)
        back = parse(text, kind, system=system)
        decimals = len(re.search("[0-9]+[.,]?([0-9]*)", text)[1])
        step = 10**-decimals * _printed_unit(text, kind)
    assert abs(back - value) <= 0.5 * step + 1e-12 * abs(value)


@settings(deadline=None, max_examples=400)
@given(KIND_AND_VALUE, SYSTEMS, LANGUAGES)
def test_what_a_field_shows_reads_back_to_a_millionth(pair, system, language):
    """The exact form keeps seven figures, whatever the unit and the language."""
    kind, value = pair
    with override(language):
        text = show(value, kind, system=system, exact=True)
        back = parse(text, kind, system=system)
        unit = _printed_unit(text, kind)
    # Twelve decimals at most; and figures count from the zero of °C, not from absolute zero.
    offset = 300.0 if kind == "temperature" else 0.0
    assert abs(back - value) <= 1e-6 * (abs(value) + offset) + 1e-12 * unit
