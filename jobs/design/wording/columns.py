"""What is wrong with a text file of measured columns, said with its line."""

from __future__ import annotations

from django.template.defaultfilters import filesizeformat
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from acoustics.columns import FEWEST_LINES, LONGEST
from acoustics.errors import SweepFileError

# As much of a line as is quoted.
QUOTED = 40

# code -> sentence. {line} is its number, {text} the line itself.
COLUMNS: dict[str, Promise] = {
    "too-long": _(
        "This holds {size}; at most {most} are read. Export the curve with fewer points."
    ),
    "binary": _(
        "Line {line} holds control characters: this is no text file. Export the curve as text."
    ),
    "empty": _("There are fewer than {fewest} lines of numbers; a curve needs at least so many."),
    "not-a-number": _("Line {line}, “{text}”: one of its columns is not a number."),
    "separator": _(
        "Line {line}, “{text}”: the commas may be decimal marks or stand between columns. "
        "Part the columns by semicolons or tabs."
    ),
    "column-count": _(
        "Line {line}, “{text}”: two or three columns are read, the same number on every line."
    ),
    "columns-swapped": _(
        "Line {line}, “{text}”: the columns look swapped. Frequency must be the first."
    ),
    "kilohertz": _(
        "Line {line}, “{text}”: frequency and its unit do not agree. If it is in kHz, write kHz "
        "in a heading above the numbers; if it is in Hz, take kHz out of it."
    ),
    "frequency-order": _(
        "Line {line}, “{text}”: frequency must be above zero and go one way from line to line."
    ),
    "not-impedance": _(
        "Line {line}, “{text}”: no loudspeaker has such an impedance. Ohms lie above zero, the "
        "phase within ±90°; frequency first."
    ),
    "not-a-gain": _(
        "Line {line}, “{text}”: a gain of more than {gain} dB cannot be. Enter what the car adds "
        "to the level in a half space, not the level itself; frequency first."
    ),
}
# Further than any cabin goes, up or down: a bound of 40 dB at 10 Hz takes a cabin of 2 m³.
LARGEST_GAIN = 60.0


def column_trouble(error: SweepFileError, text: str) -> str:
    """Say why the columns of this text cannot be read, and on which line."""
    lines = text.splitlines()
    line = lines[error.line - 1].strip() if 0 < error.line <= len(lines) else ""
    return str(COLUMNS[error.code]).format(
        line=error.line,
        text=line if len(line) <= QUOTED else line[:QUOTED] + "…",
        size=filesizeformat(len(text)),
        most=filesizeformat(LONGEST),
        fewest=FEWEST_LINES,
        gain=f"{LARGEST_GAIN:.0f}",
    )


def too_long(size: int) -> str:
    """Say that a file of this size is not read at all, or nothing when it may be."""
    if size <= LONGEST:
        return ""
    return str(COLUMNS["too-long"]).format(size=filesizeformat(size), most=filesizeformat(LONGEST))
