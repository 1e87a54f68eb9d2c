"""Text files of measured columns: frequency, a level or magnitude, and sometimes a phase."""

import re
from dataclasses import dataclass

import numpy as np

from acoustics.errors import COUNT, Quantity, SweepFileError
from acoustics.values import Floats

LONGEST = 2_000_000  # bytes: far more than any sweep of one curve needs
FEWEST_LINES = 8
LOWEST_TOP = 30.0  # a sweep that ends below this frequency was not written in Hz [Hz]
HIGHEST_KILOHERTZ = 200.0  # no sound card measures above it [kHz]

_COMMENT = re.compile(r"\s*(#|\*|%|!|//|\"|'|$)")
_CONTROL = re.compile("[\x00-\x08\x0e-\x19\x1b\x7f-\x84\x86-\x9f\ufffd]")
_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?")
_FREQUENCY = re.compile(r"freq|hz|^f$", re.IGNORECASE)
_KILOHERTZ = re.compile(r"\bkHz\b", re.IGNORECASE)
_HERTZ = re.compile(r"\bHz\b", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class Columns:
    """Measured columns, rising in frequency.

    Attributes:
        frequency: frequency [Hz]
        value: second column, as the file gives it [as given]
        phase: third column, or None when the file has two [°]
        lines: number of the line each row came from, counted from 1 [-]
    """

    frequency: Floats
    value: Floats
    phase: Floats | None
    lines: tuple[int, ...]


def parse_columns(content: bytes | str) -> Columns:
    """Read two or three columns of numbers from a text file.

    Columns stand apart by tabs, semicolons, spaces, or commas; a comma inside a column is a
    decimal comma. Lines that start with # * % ! // or a quote are comments; lines of words before
    the first number are headings. A heading may say kHz, and may name the columns in any order
    when it has one name per column. What stays doubtful is refused, never guessed.

    Args:
        content: the file, as bytes or already as text

    Returns: the columns

    Raises:
        SweepFileError: with line and reason: too-long, binary, empty, not-a-number, separator,
            column-count, columns-swapped, kilohertz, frequency-order.

    Valid: at most 2 MB, at least eight lines of numbers.

    Source: definition.
    """
    headings, rows = _sort_lines(_decode(content))
    if not rows:
        raise _too_few(0, 0)
    table = np.array(_numbers(rows))
    lines = [number for number, _ in rows]
    if len(table) < FEWEST_LINES:
        raise _too_few(lines[-1], len(table))
    table = _named_order(headings, table)
    if np.all(np.diff(table[:, 0]) < 0.0):  # a sweep from high to low
        table, lines = table[::-1], lines[::-1]
    _check_frequency(table, lines)
    return Columns(
        frequency=table[:, 0] * _hertz_per_unit(headings, table[-1, 0], lines[-1]),
        value=table[:, 1].copy(),
        phase=table[:, 2].copy() if table.shape[1] > 2 else None,
        lines=tuple(lines),
    )


def _too_few(line: int, lines: int) -> SweepFileError:
    value, limit = Quantity(lines, COUNT), Quantity(FEWEST_LINES, COUNT)
    return SweepFileError(code="empty", line=line, value=value, limit=limit)


def _decode(content: bytes | str) -> str:
    """Text of the file, or the reason why it is none."""
    if len(content) > LONGEST:
        value, limit = Quantity(len(content), COUNT), Quantity(LONGEST, COUNT)
        raise SweepFileError(code="too-long", line=0, value=value, limit=limit)
    if isinstance(content, str):
        text = content
    elif content.startswith((b"\xff\xfe", b"\xfe\xff")):
        text = content.decode("utf-16", errors="replace")
    else:
        try:
            text = content.decode("utf-8-sig")
        except UnicodeDecodeError:
            text = content.decode("latin-1")
    for number, line in enumerate(text.splitlines(), start=1):
        if _CONTROL.search(line):
            raise SweepFileError(code="binary", line=number)
    return text.lstrip("\ufeff")


def _sort_lines(text: str) -> tuple[list[str], list[tuple[int, str]]]:
    """Heading and comment lines above the numbers, and the numbered lines of numbers."""
    headings: list[str] = []
    rows: list[tuple[int, str]] = []
    for number, line in enumerate(text.splitlines(), start=1):
        plain = line.strip(" \t\x1a\ufeff")
        if _COMMENT.match(plain) or (
            not rows and not plain[0].isdigit() and plain[0] not in "+-.,"
        ):
            if not rows:
                headings.append(plain.lstrip("#*%!/\"' \t"))
            continue
        rows.append((number, plain))
    return headings, rows


def _numbers(rows: list[tuple[int, str]]) -> list[list[float]]:
    """Numbers of every line; all lines must have the same two or three columns."""
    points = any("." in line for _, line in rows)
    table: list[list[float]] = []
    for number, line in rows:
        fields = _split(number, line, points=points)
        values = []
        for field in fields:
            if not _NUMBER.fullmatch(field):
                raise SweepFileError(code="not-a-number", line=number)
            values.append(float(field))
        if not np.isfinite(values).all():
            raise SweepFileError(code="not-a-number", line=number)
        if len(values) not in (2, 3) or (table and len(values) != len(table[0])):
            raise SweepFileError(
                code="column-count", line=number, value=Quantity(len(values), COUNT)
            )
        table.append(values)
    return table


def _split(number: int, line: str, *, points: bool) -> list[str]:
    """Columns of one line with decimal points, whatever separates them."""
    if ";" in line or "\t" in line:
        fields = [field.strip() for field in re.split(r"[;\t]", line.rstrip(";\t "))]
        return [field.replace(",", ".") for field in fields]
    if re.search(r",\s|\s,", line):  # a comma with a space: it stands between columns
        return [field.strip() for field in line.rstrip(", ").split(",")]
    fields = line.split()
    if len(fields) > 1:
        return [field.replace(",", ".") for field in fields]
    fields = line.rstrip(",").split(",")
    if len(fields) > 2 and not points:
        raise SweepFileError(code="separator", line=number)
    return fields


def _named_order(headings: list[str], table: Floats) -> Floats:
    """Put the frequency first when a heading names one column each and says so."""
    for heading in reversed(headings):
        names = [name for name in re.split(r"[;\t,]|\s{2,}", heading) if name.strip()]
        if len(names) != table.shape[1]:
            names = heading.split()
        if len(names) != table.shape[1]:
            continue
        matches = [i for i, name in enumerate(names) if _FREQUENCY.search(name.strip())]
        if len(matches) == 1 and matches[0] > 0:
            order = [matches[0], *(i for i in range(len(names)) if i != matches[0])]
            return table[:, order]
    return table


def _hertz_per_unit(headings: list[str], highest: float, line: int) -> float:
    """1000 when a heading says kHz and never Hz alone; doubtful files are refused."""
    if any(_KILOHERTZ.search(text) and not _HERTZ.search(text) for text in headings):
        if highest > HIGHEST_KILOHERTZ:
            raise SweepFileError(code="kilohertz", line=line, value=Quantity(highest * 1e3, "Hz"))
        return 1000.0
    if highest < LOWEST_TOP:
        raise SweepFileError(code="kilohertz", line=line, value=Quantity(highest, "Hz"))
    return 1.0


def _check_frequency(table: Floats, lines: list[int]) -> None:
    """Frequencies must be above zero and rise all the way."""
    steps = np.diff(table[:, 0])
    if table[0, 0] > 0.0 and np.all(steps > 0.0):
        return
    row = int(np.argmax(steps <= 0.0)) + 1 if np.any(steps <= 0.0) else 0
    others = np.diff(table[:, 1:], axis=0)
    one_way = np.all(others > 0.0, axis=0) | np.all(others < 0.0, axis=0)
    if np.any(one_way & (table[:, 1:].min(axis=0) > 0.0)):
        raise SweepFileError(code="columns-swapped", line=lines[row])
    raise SweepFileError(
        code="frequency-order", line=lines[row], value=Quantity(table[row, 0], "Hz")
    )
