"""Text files of measured columns: what is read, and what is refused with line and reason."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from acoustics.columns import LONGEST, parse_columns
from acoustics.errors import SweepFileError
from tests.refused import refused

FREQUENCY = np.round(np.geomspace(10.0, 1000.0, 12), 2)
VALUE = np.round(6.0 + 20.0 / (1.0 + (FREQUENCY - 40.0) ** 2 / 100.0), 3)
PHASE = np.round(np.linspace(40.0, -35.5, 12), 1)


def text(separator: str = "\t", decimal: str = ".", phase: bool = True, scale: float = 1.0) -> str:
    """The invented sweep, written the way some device would."""
    rows = zip(FREQUENCY * scale, VALUE, PHASE, strict=True)
    lines = [separator.join(f"{x:.6g}" for x in row[: 3 if phase else 2]) for row in rows]
    return "\n".join(lines).replace(".", decimal) + "\n"


@pytest.mark.parametrize("phase", [True, False])
@pytest.mark.parametrize("decimal", [".", ","])
@pytest.mark.parametrize("separator", ["\t", ";", " ", "   ", " ; "])
@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_separators_and_decimal_commas(
    separator: str, decimal: str, phase: bool, newline: str
) -> None:
    """Tabs, semicolons and spaces part columns; points and commas are both decimal."""
    content = text(separator, decimal, phase).replace("\n", newline)
    columns = parse_columns(content.encode())
    assert columns.frequency == pytest.approx(FREQUENCY)
    assert columns.value == pytest.approx(VALUE)
    assert (columns.phase is not None) == phase
    assert columns.lines == tuple(range(1, 13))


@pytest.mark.parametrize("separator", [",", ", "])
def test_commas_part_columns_when_points_are_decimal(separator: str) -> None:
    """The usual comma-separated file reads as three columns."""
    columns = parse_columns(text(separator))
    assert columns.value == pytest.approx(VALUE)
    assert columns.phase == pytest.approx(PHASE)


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "latin-1"])
def test_headings_comments_and_encodings(encoding: str) -> None:
    """Headings, comments above, between and below, and empty lines are passed over."""
    lines = text().splitlines()
    lines[5:5] = ["", "# door opened", "* again"]
    content = "* sweep\nfreq (Hz)\tmag (ohm)\tphase (°)\n" + "\n".join([*lines, "", "# end"])
    columns = parse_columns(content.encode(encoding))
    assert columns.value == pytest.approx(VALUE)
    assert columns.lines[0] == 3
    assert columns.lines[5] == 11


def test_kilohertz_by_heading() -> None:
    """A heading that says kHz makes the numbers kHz."""
    columns = parse_columns("f [kHz]; Z [ohm]; phase\n" + text(";", scale=1e-3))
    assert columns.frequency == pytest.approx(FREQUENCY, rel=1e-4)


def test_a_remark_about_kilohertz_is_not_a_unit() -> None:
    """A comment that speaks of Hz and kHz leaves Hz alone."""
    columns = parse_columns("# swept 10 Hz to 1 kHz\n" + text())
    assert columns.frequency == pytest.approx(FREQUENCY)


def test_falling_frequencies_are_turned_round() -> None:
    """A sweep from high to low reads as one from low to high, with its own line numbers."""
    columns = parse_columns("\n".join(reversed(text().splitlines())))
    assert columns.frequency == pytest.approx(FREQUENCY)
    assert columns.value == pytest.approx(VALUE)
    assert columns.lines == tuple(range(12, 0, -1))


def test_a_heading_with_one_name_per_column_orders_them() -> None:
    """Where the heading says which column is the frequency, it is believed."""
    rows = [f"{z};{f};{p}" for f, z, p in zip(FREQUENCY, VALUE, PHASE, strict=True)]
    columns = parse_columns("Z (ohm);freq (Hz);phase (deg)\n" + "\n".join(rows))
    assert columns.frequency == pytest.approx(FREQUENCY)
    assert columns.value == pytest.approx(VALUE)
    assert columns.phase == pytest.approx(PHASE)


def replaced(line: int, by: str) -> str:
    """The sweep with one line (counted from 1) written otherwise."""
    lines = text().splitlines()
    lines[line - 1] = by
    return "\n".join(lines)


SWAPPED = "\n".join(f"{z}\t{f}" for f, z in zip(FREQUENCY, VALUE, strict=True))
TURN = int(np.argmax(np.diff(VALUE) < 0)) + 2  # line on which the swapped column turns back
# The first column turns back, and the other falls all the way: it can be a frequency only if it
# stays above nothing.
LEVELS = (30, 40, 35, 50, 60, 70, 80, 90)
FALLING = "\n".join(f"{z}\t{90 - 10 * n}" for n, z in enumerate(LEVELS))
PHASES = "\n".join(f"{z}\t{-10 - 10 * n}" for n, z in enumerate(LEVELS))
TO_ZERO = "\n".join(f"{z}\t{70 - 10 * n}" for n, z in enumerate(LEVELS))

BAD: list[tuple[str, bytes | str, int, str]] = [
    ("empty", b"", 0, "empty"),
    ("only words", "hello\nworld\n", 0, "empty"),
    ("three lines", "20\t8\n30\t9\n40\t8\n", 3, "empty"),
    ("10 MB", b"20\t8.000000\n" * 1_000_000, 0, "too-long"),
    ("picture", b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" * 9, 1, "binary"),
    ("zeros", b"20\t8\n" * 9 + b"\x00\x00\x00", 10, "binary"),
    ("word", replaced(7, "hundred\t8"), 7, "not-a-number"),
    ("nan", replaced(7, "100\tnan"), 7, "not-a-number"),
    ("huge", replaced(7, "1e999\t8\t0"), 7, "not-a-number"),
    ("both marks", replaced(7, "1.234,5\t8\t0"), 7, "not-a-number"),
    ("one column", replaced(7, "100"), 7, "column-count"),
    ("four columns", "1\t2\t3\t4\n" * 9, 1, "column-count"),
    ("swapped", SWAPPED, TURN, "columns-swapped"),
    ("swapped and falling", FALLING, 3, "columns-swapped"),
    ("phase falls below zero", PHASES, 3, "frequency-order"),
    ("phase falls to zero", TO_ZERO, 3, "frequency-order"),
    ("kHz unsaid", text(scale=1e-3), 12, "kilohertz"),
    ("kHz untrue", "f (kHz)\tZ\n" + text(phase=False), 13, "kilohertz"),
    ("back step", replaced(7, "50\t8\t0"), 7, "frequency-order"),
    ("twice", replaced(7, f"{FREQUENCY[5]}\t8\t0"), 7, "frequency-order"),
    ("zero hertz", replaced(1, "0\t8\t0"), 1, "frequency-order"),
    ("all commas", text(",", ","), 1, "separator"),
]


@pytest.mark.parametrize(("content", "line", "code"), [b[1:] for b in BAD], ids=[b[0] for b in BAD])
def test_bad_files_name_line_and_reason(content: bytes | str, line: int, code: str) -> None:
    """Whatever cannot be read for certain is refused with its line and its reason."""
    with refused(SweepFileError, code, line=line):
        parse_columns(content)


def test_the_longest_file_is_read() -> None:
    """Just below the limit a file is still read, one byte above it is not."""
    content = "#" + "x" * (LONGEST - len(text()) - 2) + "\n" + text()
    assert len(parse_columns(content).frequency) == 12
    with refused(SweepFileError, "too-long"):
        parse_columns("#" + content)


def read(content: bytes | str) -> bool:
    """Whether the content reads as columns that rise and are finite; anything else is a refusal."""
    try:
        columns = parse_columns(content)
    except SweepFileError:
        return False
    return bool(np.all(np.diff(columns.frequency) > 0) and np.isfinite(columns.value).all())


@given(st.binary(max_size=400))
@settings(deadline=None, max_examples=200)
def test_any_bytes_are_refused_by_name(content: bytes) -> None:
    """No file crashes the reader, and stray bytes are never a sweep."""
    assert not read(content)


@given(st.text(alphabet="0123456789.,;\t\n -+eEkHz#", max_size=300), st.integers(0, 12))
@settings(deadline=None, max_examples=200)
def test_rubbish_inside_a_sweep_is_refused_by_name(content: str, at: int) -> None:
    """Digits and separators thrown into a good sweep never crash the reader."""
    lines = text().splitlines()
    whole = "\n".join([*lines[:at], content, *lines[at:]])
    if read(whole):
        columns = parse_columns(whole)
        assert set(FREQUENCY) <= set(columns.frequency) or "kHz" in content


def test_a_sweep_may_begin_below_one_hertz() -> None:
    """Any frequency above zero is one; at zero itself there is none."""
    low = [f"{f} {v}" for f, v in zip((0.5, *FREQUENCY[1:]), VALUE, strict=True)]
    assert parse_columns("\n".join(low)).frequency[0] == 0.5
    with refused(SweepFileError, "frequency-order"):
        parse_columns("\n".join(["0.0 6.0", *low[1:]]))
