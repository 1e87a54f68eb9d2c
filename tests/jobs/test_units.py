"""What people type becomes SI exactly, what they see reads back, and nothing else gets through.

Where no other source is named, an expected number follows from exact definitions: 1 in = 25.4 mm,
1 ft = 12 in, 1 lb = 0.45359237 kg (NIST SP 811, 2008, Appendix B.8, the factors marked exact)
and the decimal prefixes of the SI.
"""

import math
from fractions import Fraction

import pint
import pytest
import scipy.constants
from django.utils.translation import override
from hypothesis import given, settings
from hypothesis import strategies as st

from jobs.quantities.words import UNITS
from jobs.units import (
    KINDS,
    UnreadableQuantity,
    parse,
)

NBSP = "\N{NO-BREAK SPACE}"


@pytest.mark.parametrize(
    ("typed", "kind", "si"),
    [
        ("0.75 cu ft", "volume", 0.75 * 0.028316846592),
        ("0.75 ft³", "volume", 0.75 * 0.028316846592),
        ("0,75 cubic feet", "volume", 0.75 * 0.028316846592),
        ("21 L", "volume", 0.021),
        ("21l", "volume", 0.021),
        ("21 litres", "volume", 0.021),
        ("21.000,5 L", "volume", 21.0005),
        ("850 cc", "volume", 0.00085),
        ("8 in", "length", 0.2032),
        ('8"', "length", 0.2032),
        ("8″", "length", 0.2032),
        ("8''", "length", 0.2032),
        ("12' 6\"", "length", 3.81),
        ("2'6\"", "length", 0.762),
        ("2’6”", "length", 0.762),
        ("2'6", "length", 0.762),
        ("2 ft 6 in", "length", 0.762),
        ("2ft6in", "length", 0.762),
        ("-2' 6\"", "length", -0.762),
        ("6 1/2 in", "length", 0.1651),
        ("6-1/2 in", "length", 0.1651),
        ("6½ in", "length", 0.1651),
        ("6¹⁄₂ in", "length", 0.1651),
        ("½ in", "length", 0.0127),
        ("12' 6 1/4\"", "length", 3.81635),
        ("165 mm", "length", 0.165),
        ("165MM", "length", 0.165),
        ("16,5 cm", "length", 0.165),
        ("1.200,5 mm", "length", 1.2005),
        ("1,200.5 mm", "length", 1.2005),
        ("1 200 mm", "length", 1.2),
        ("1\u202f200\u00a0mm", "length", 1.2),
        ("5\u200b mm", "length", 0.005),
        ("1,000,000 mm", "length", None),
        (".5 mm", "length", 0.0005),
        ("0,750 m", "length", 0.75),
        ("\N{FULLWIDTH DIGIT SIX} mm", "length", 0.006),
        ("+3 mm", "length", 0.003),
        ("−3 mm", "length", -0.003),
        ("1.5e-2 m", "length", 0.015),
        ("4 ohm", "resistance", 4.0),
        ("4 Ω", "resistance", 4.0),
        ("4 \N{OHM SIGN}", "resistance", 4.0),
        ("4R", "resistance", 4.0),
        ("5 mΩ", "resistance", 0.005),
        ("0.5 mH", "inductance", 0.0005),
        ("330 uH", "inductance", 0.00033),
        ("100 uF", "capacitance", 0.0001),
        ("100 µF", "capacitance", 0.0001),
        ("100 μF", "capacitance", 0.0001),
        ("1 F", "capacitance", 1.0),
        ("1.5 kW", "power", 1500.0),
        ("1.5 KW", "power", 1500.0),
        ("500 mW", "power", 0.5),
        ("12,6 V", "voltage", 12.6),
        ("20 mA", "current", 0.02),
        ("95 Ah", "charge", 342_000.0),
        ("1.2 kWh", "energy", 4_320_000.0),
        ("20 °C", "temperature", 293.15),
        ("68 F", "temperature", 293.15),
        ("293.15 K", "temperature", 293.15),
        ("-40", "temperature", 233.15),
        ("30 K", "temperature_rise", 30.0),
        ("54 °F", "temperature_rise", 30.0),
        ("3 dB", "level", 3.0),
        ("-6 dB", "level", -6.0),
        ("10 %", "percent", 0.1),
        ("0.7", "ratio", 0.7),
        ("45°", "angle", math.pi / 4),
        ("2.5 kHz", "frequency", 2500.0),
        ("80hz", "frequency", 80.0),
        ("1 h 30 min", "duration", 5400.0),
        ("2.5 ms", "time", 0.0025),
        ("36 km/h", "speed", 10.0),
        ("11.5 N/A", "force_factor", 11.5),
        ("11.5 T·m", "force_factor", 11.5),
        ("11.5 Tm", "force_factor", 11.5),
        ("420 µm/N", "compliance", 0.00042),
        ("2.4 N*s/m", "mechanical_resistance", 2.4),
        ("680 kg/m^3", "density", 680.0),
        ("3.3 Ω/km", "resistance_per_length", 0.0033),
        ("9.5 GPa", "stress", 9.5e9),
        ("900 g/m²", "area_density", 0.9),
        ("95 g", "moving_mass", 0.095),
        ("25 mm²", "cross_section", 25e-6),
        ("1000 l/s", "flow", 1.0),
        ("5000 Pa·s/m²", "flow_resistivity", 5000.0),
    ],
)
def test_typed_text_becomes_si(typed, kind, si):
    """What people are used to typing is read to the last bit of its exact value."""
    if si is None:
        with pytest.raises(UnreadableQuantity, match="cannot be right"):
            parse(typed, kind)
    else:
        assert parse(typed, kind) == pytest.approx(si, rel=1e-15)


def test_no_rounding_creeps_in():
    """An exact factor gives the nearest float, not one a product of floats happened to reach."""
    for thousandths in range(1, 2000, 7):
        typed = f"{thousandths / 1000} in"
        exact = Fraction(str(thousandths / 1000)) * Fraction(254, 10_000)
        assert parse(typed, "length") == float(exact)


# NIST SP 811 (2008), Appendix B.8, printed to seven figures; typed from memory.
SP_811 = [
    ("inch", "meter", 2.54e-2),
    ("foot", "meter", 3.048e-1),
    ("inch**2", "meter**2", 6.4516e-4),
    ("foot**2", "meter**2", 9.290304e-2),
    ("inch**3", "meter**3", 1.638706e-5),
    ("foot**3", "meter**3", 2.831685e-2),
    ("liter", "meter**3", 1.0e-3),
    ("ounce", "kilogram", 2.834952e-2),
    ("pound", "kilogram", 4.535924e-1),
    ("pound/foot**2", "kilogram/meter**2", 4.882428),
    ("pound/foot**3", "kilogram/meter**3", 1.601846e1),
    ("pound_force*inch", "newton*meter", 1.129848e-1),
    ("pound_force*foot", "newton*meter", 1.355818),
    ("foot/second", "meter/second", 3.048e-1),
    ("mile/hour", "meter/second", 4.4704e-1),
    ("kilometer/hour", "meter/second", 2.777778e-1),
    ("foot**3/minute", "meter**3/second", 4.719474e-4),
    ("degree", "radian", 1.745329e-2),
    ("watt_hour", "joule", 3.6e3),
    ("ampere_hour", "coulomb", 3.6e3),
]

SCIPY = [
    ("inch", "meter", scipy.constants.inch),
    ("foot", "meter", scipy.constants.foot),
    ("pound", "kilogram", scipy.constants.lb),
    ("ounce", "kilogram", scipy.constants.oz),
    ("liter", "meter**3", scipy.constants.liter),
    ("mile/hour", "meter/second", scipy.constants.mph),
    ("kilometer/hour", "meter/second", scipy.constants.kmh),
    ("degree", "radian", scipy.constants.degree),
    ("pound_force*foot", "newton*meter", scipy.constants.lbf * scipy.constants.foot),
    ("foot**3/minute", "meter**3/second", scipy.constants.foot**3 / scipy.constants.minute),
]


def _one(unit, si):
    """Return one of a unit in SI, through the door people use."""
    kind = next(key for key, found in KINDS.items() if found.si == si and unit in found.units)
    return parse(f"1 {UNITS[unit].partition(',')[0]}", kind)


def test_no_bound_is_told_that_is_none_here():
    """Where a figure must be more than zero, no length below zero is called possible."""
    with pytest.raises(UnreadableQuantity, match=r"up to 4000\smm is possible"):
        parse("200 m", "length", above_zero=True)
    with pytest.raises(UnreadableQuantity, match=r"-4000\smm to 4000\smm is possible"):
        parse("200 m", "length")


@pytest.mark.parametrize(("unit", "si", "factor"), SP_811)
def test_factors_match_the_published_table(unit, si, factor):
    """Each customary unit has the factor of NIST SP 811, to its seven printed figures."""
    assert _one(unit, si) == pytest.approx(factor, rel=5e-7)


@pytest.mark.parametrize(("unit", "si", "factor"), SCIPY)
def test_factors_match_a_second_library(unit, si, factor):
    """scipy.constants, which shares no code with pint, gives the same factors."""
    assert _one(unit, si) == pytest.approx(factor, rel=1e-14)


def test_temperatures_match_a_second_library():
    """scipy.constants.convert_temperature agrees on both scales, cold and hot."""
    for degrees in (-40, 0, 20.5, 105):
        for word, scale in (("°C", "Celsius"), ("°F", "Fahrenheit")):
            kelvin = scipy.constants.convert_temperature(degrees, scale, "Kelvin")
            assert parse(f"{degrees} {word}", "temperature") == pytest.approx(kelvin, rel=1e-14)


def test_every_unit_of_a_kind_measures_that_kind():
    """No unit stands in a kind whose dimension it does not have (pint, by dimension)."""
    registry = pint.UnitRegistry()
    for kind in KINDS.values():
        dimension = registry.get_dimensionality(registry.parse_units(kind.si))
        for unit in kind.units:
            assert registry.get_dimensionality(registry.parse_units(unit)) == dimension, unit


def test_every_unit_listed_is_used_and_every_unit_used_is_listed():
    """The words and the kinds know the same units."""
    assert {unit for kind in KINDS.values() for unit in kind.units} == set(UNITS)


def test_one_word_never_means_two_units_of_a_kind():
    """Within a kind each word, as written, belongs to one unit."""
    for name, kind in KINDS.items():
        words = [word for unit in kind.units for word in UNITS[unit].split(", ")]
        assert len(words) == len(set(words)), name


def test_every_word_can_be_typed():
    """Each listed word is understood after a number, in the kinds that list it."""
    for name, kind in KINDS.items():
        for unit in kind.units:
            for word in UNITS[unit].split(", "):
                # Zero, for some units are listed so that a slip is noticed: 1 MW is no car.
                parse(f"0 {word}", name)


def test_every_example_in_a_message_can_be_typed():
    """What a message suggests is accepted when it is typed as shown, in both languages."""
    for name, kind in KINDS.items():
        for example in kind.example.split(", "):
            with override("de"):
                german = parse(example, name)
            with override("en"):
                assert parse(example, name) == german


def test_capitals_never_turn_milli_into_mega():
    """A capital M is mega, and so far outside a car that it is refused."""
    assert parse("5 mW", "power") == 0.005
    for typed, kind in [("5 MW", "power"), ("5 MV", "voltage"), ("5 MΩ", "resistance")]:
        with pytest.raises(UnreadableQuantity, match="cannot be right"):
            parse(typed, kind)


# --- comma and point ---------------------------------------------------------------------------


def test_an_ambiguous_mark_is_refused_with_both_readings():
    """Where a comma could be a decimal mark or group thousands, nobody guesses."""
    with override("en"), pytest.raises(UnreadableQuantity, match=r"1\.2 or as 1200") as caught:
        parse("1,200 mm", "length")
    assert caught.value.code == "ambiguous"
    with override("de"), pytest.raises(UnreadableQuantity, match="1,2 oder 1200"):
        parse("1.200 mm", "length")


def test_the_readers_decimal_mark_decides_where_it_can():
    """The mark of the reader's language is always the decimal mark when it stands alone."""
    with override("en"):
        assert parse("1.200 m", "length") == 1.2
    with override("de"):
        assert parse("1,200 m", "length") == 1.2


@settings(deadline=None, max_examples=200)
@given(st.integers(0, 9_999_999), st.sampled_from(["en", "de"]))
def test_grouped_thousands_with_decimals_are_plain_in_any_language(hundredths, language):
    """`1,234.56` and `1.234,56` are the same number for every reader."""
    english = f"{hundredths / 100:,.2f}"
    german = english.translate(str.maketrans(",.", ".,"))
    with override(language):
        assert parse(f"{english} L", "volume") == parse(f"{german} L", "volume")
        assert parse(f"{english} L", "volume") == float(Fraction(hundredths, 100_000))


# --- refusals ----------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "kind", "code", "says"),
    [
        ("12 bananas", "length", "unit", "“bananas” is not a unit of length"),
        ("", "length", "empty", "Nothing was typed"),
        ("   ", "length", "empty", "Nothing was typed"),
        ("1" * 40, "length", "too-long", "more than 20 digits"),
        ("x" * 100_000, "length", "too-long", "is too long"),
        ("nan", "length", "no-number", "no number in “nan”"),
        ("inf", "length", "no-number", "no number in “inf”"),
        ("mm", "length", "no-number", "no number in “mm”"),
        ("1e400", "length", "range", "far outside"),
        ("1e-400", "length", "range", "far outside"),
        ("--5", "length", "number", "Cannot read “-5”"),
        ("5-3 mm", "length", "number", "Cannot read"),
        ("3 kg", "length", "dimension", "“kg” is a unit of mass, not of length"),
        ("5 mm²", "length", "dimension", "is a unit of area, not of length"),
        ("-3 L", "volume", "range", "0 L to"),
        ("-300 °C", "temperature", "range", "-273.15 °C to"),
        ("2 km", "length", "unit", "“km” is not a unit of length"),
        ("200 m", "length", "range", "to 4000 mm is possible"),
        ("1/0 in", "length", "number", "divides by zero"),
        ("1.2.3 mm", "length", "number", "not a number"),
        ("1,00,000 mm", "length", "number", "not a number"),
        ("1.200,5,5 mm", "length", "number", "not a number"),
        ("5' 14\"", "length", "parts", "do not add up"),
        ("1.5' 2\"", "length", "parts", "do not add up"),
        ("2\" 3'", "length", "parts", "do not add up"),
        ("20 °C 5 °F", "temperature", "parts", "do not add up"),
        ("2 m 3", "length", "unit", "“3” has no unit"),
        ("165 x 3 mm", "length", "unit", "“x” is not a unit"),
        ("5*3 mm", "length", "unit", "is not a unit"),
        ("2**9999999", "length", "unit", "is not a unit"),
        ("__import__('os').system('ls')", "length", "no-number", "no number"),
        ("(1).__class__ mm", "length", "number", "Cannot read"),
        ("4 gal", "volume", "unit", "is not a unit of volume"),
        ("<b>5</b> mm", "length", "number", "Cannot read"),
    ],
)
def test_bad_text_is_refused_in_its_own_words(typed, kind, code, says):
    """Each kind of slip has its own answer, with what was expected and an example."""
    with override("en"), pytest.raises(UnreadableQuantity) as caught:
        parse(typed, kind)
    assert caught.value.code == code
    assert says in caught.value.message.replace(NBSP, " ")
    assert f"Expected: {KINDS[kind].label}, for example" in caught.value.message
    assert len(caught.value.message) < 250


ODD_TEXT = st.text(max_size=70) | st.text(
    alphabet="0123456789.,'\"/-+ eE½²³µΩ°%^*mftincuLkg", max_size=70
)


@settings(deadline=None, max_examples=400)
@given(ODD_TEXT, st.sampled_from(sorted(KINDS)), st.sampled_from(["en", "de"]))
def test_any_text_is_a_number_in_bounds_or_a_refusal(typed, kind, language):
    """Nothing typed can raise anything else or bring in a number that is not one."""
    with override(language):
        try:
            value = parse(typed, kind)
        except UnreadableQuantity:
            return
    assert KINDS[kind].lowest <= value <= KINDS[kind].largest
