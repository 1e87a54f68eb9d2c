"""Conductor sizes are told apart by system and survive being shown and typed again."""

import pytest
from django.utils.translation import override
from hypothesis import given, settings
from hypothesis import strategies as st

from jobs.units import ConductorSize, UnreadableQuantity, parse_conductor, show_conductor

LANGUAGES = st.sampled_from(["en", "de"])


@pytest.mark.parametrize(
    ("typed", "system", "size"),
    [
        ("4 AWG", "awg", "4"),
        ("4awg", "awg", "4"),
        ("AWG 4", "awg", "4"),
        ("#4 AWG", "awg", "4"),
        ("1/0 AWG", "awg", "1/0"),
        ("0 AWG", "awg", "1/0"),
        ("0000 AWG", "awg", "4/0"),
        ("4/0 awg", "awg", "4/0"),
        ("4 SAE", "sae", "4"),
        ("25 mm²", "mm2", "25"),
        ("25 mm2", "mm2", "25"),
        ("25 mm^2", "mm2", "25"),
        ("25 sqmm", "mm2", "25"),
        ("25 sq. mm", "mm2", "25"),
        ("2.5 mm²", "mm2", "2.5"),
        ("2,50 mm²", "mm2", "2.5"),
    ],
)
def test_conductor_sizes_are_read(typed, system, size):
    """The three systems cables are sold in are told apart and written one way."""
    assert parse_conductor(typed) == ConductorSize(system=system, size=size)


@pytest.mark.parametrize(
    ("typed", "code"),
    [
        ("", "empty"),
        ("bananas", "no-number"),
        ("4", "ambiguous"),
        ("4 ga", "ambiguous"),
        ("1/0 gauge", "ambiguous"),
        ("41 AWG", "range"),
        ("5/0 AWG", "range"),
        ("0/0 AWG", "unit"),
        ("10/0 AWG", "unit"),
        ("4 AWG SAE", "unit"),
        ("-4 AWG", "unit"),
        ("25 m²", "unit"),
        ("0 mm²", "range"),
        ("1e9 mm²", "unit"),
        ("5000 mm²", "range"),
        ("1.2.3 mm²", "number"),
        ("9" * 40 + " mm²", "too-long"),
    ],
)
def test_bad_conductor_sizes_are_refused(typed, code):
    """A gauge without its system, or a size nobody sells, is refused with examples."""
    with override("en"), pytest.raises(UnreadableQuantity, match="4 SAE") as caught:
        parse_conductor(typed)
    assert caught.value.code == code


SIZES = st.one_of(
    st.sampled_from(["4/0", "3/0", "2/0", "1/0", *map(str, range(1, 25))]).flatmap(
        lambda size: st.sampled_from(["awg", "sae"]).map(
            lambda system: ConductorSize(system=system, size=size)
        )
    ),
    st.integers(1, 99_999).map(
        lambda hundredths: ConductorSize(system="mm2", size=f"{hundredths / 100:g}")
    ),
)


@settings(deadline=None)
@given(SIZES, LANGUAGES)
def test_a_shown_conductor_size_reads_back(size, language):
    """Every size survives being shown and typed again, in both languages."""
    with override(language):
        assert parse_conductor(show_conductor(size)) == size


@settings(deadline=None, max_examples=200)
@given(st.text(max_size=70) | st.text(alphabet="0123456789/AWGSEamq²2#., ", max_size=20))
def test_any_text_is_a_conductor_size_or_a_refusal(typed):
    """Nothing typed can raise anything else."""
    try:
        size = parse_conductor(typed)
    except UnreadableQuantity:
        return
    assert parse_conductor(show_conductor(size)) == size
