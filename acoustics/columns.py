"""Text files of measured columns: frequency, a level or magnitude, and sometimes a phase."""

import re
from dataclasses import dataclass

import numpy as np

from acoustics.errors import SweepFileError
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
        reason = "empty"
        raise SweepFileError(0, reason, "the file holds no line of numbers")
    table = np.array(_numbers(rows))
    lines = [number for number, _ in rows]
    if len(table) < FEWEST_LINES:
        reason = "empty"
        detail = f"only {len(table)} lines of numbers; at least {FEWEST_LINES} are needed"
        raise SweepFileError(lines[-1], reason, detail)
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


def _decode(content: bytes | str) -> str:
    """Text of the file, or the reason why it is none."""
    if len(content) > LONGEST:
        reason = "too-long"
        detail = f"the file has {len(content)} bytes; at most {LONGEST} are read"
        raise SweepFileError(0, reason, detail)
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
            reason = "binary"
            raise SweepFileError(number, reason, "this is not text: it holds control characters")
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
                reason = "not-a-number"
                raise SweepFileError(number, reason, f"“{field[:40]}” is not a number")
            values.append(float(field))
        if not np.isfinite(values).all():
            reason = "not-a-number"
            raise SweepFileError(number, reason, "a number is too large to be one")
        if len(values) not in (2, 3) or (table and len(values) != len(table[0])):
            reason = "column-count"
            expected = f"{len(table[0])} as above" if table else "2 or 3"
            detail = f"{len(values)} columns found, not {expected}"
            raise SweepFileError(number, reason, detail)
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
        reason = "separator"
        detail = "commas may be decimal or between columns here; part the columns by semicolons"
        raise SweepFileError(number, reason, detail)
    return fields


def _named_order(headings: list[str], table: Floats) -> Floats:
    """Put the frequency first when a heading names one column each and says so."""
    for heading in reversed(headings):
        names = [name for name in re.split(r"[;\t,]|\s{2,}", heading) if name.strip()]
        if len(names) != table.shape[1]:
            names = heading.split()
        if len(names) != table.shape[1]:
            continue
        found = [i for i, name in enumerate(names) if _FREQUENCY.search(name.strip())]
        if len(found) == 1 and found[0] > 0:
            order = [found[0], *(i for i in range(len(names)) if i != found[0])]
            return table[:, order]
    return table


def _hertz_per_unit(headings: list[str], highest: float, line: int) -> float:
    """1000 when a heading says kHz and never Hz alone; doubtful files are refused."""
    reason = "kilohertz"
    if any(_KILOHERTZ.search(text) and not _HERTZ.search(text) for text in headings):
        if highest > HIGHEST_KILOHERTZ:
            detail = f"a heading says kHz but the frequency goes up to {highest:g}"
            raise SweepFileError(line, reason, detail)
        return 1000.0
    if highest < LOWEST_TOP:
        detail = (
            f"the highest frequency reads {highest:g} Hz; if the file is in kHz, "
            "write kHz in a heading above the numbers"
        )
        raise SweepFileError(line, reason, detail)
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
        reason = "columns-swapped"
        detail = (
            f"the first column turns back at {table[row, 0]:g} while another one goes one way; "
            "frequency must be the first column"
        )
        raise SweepFileError(lines[row], reason, detail)
    reason = "frequency-order"
    if row == 0:
        detail = f"frequency {table[0, 0]:g} Hz must be above 0"
    else:
        detail = f"frequency {table[row, 0]:g} Hz does not rise above {table[row - 1, 0]:g} Hz"
    raise SweepFileError(lines[row], reason, detail)
