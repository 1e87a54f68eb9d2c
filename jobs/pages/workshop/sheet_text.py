"""Figures read out of a pasted data sheet: named, with their units, for a person to confirm.

A line names a figure and gives it, in a sentence or in the cells of a table. Nothing is guessed:
a figure without a unit says so, one that cannot be read is shown as it stands.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.translation import gettext as _

from jobs.models import Part
from jobs.pages.forms.fields import ConductorField, QuantityField
from jobs.pages.workshop.sheet_words import patterns
from jobs.quantities.numbers import plain
from jobs.units import UnreadableQuantity

LONGEST_SHEET = 20_000
MOST_LINES = 400
# Two readings of one figure, such as 165 mm (6.5 in), are rounded apart by no more than this.
SAME = 0.03

# A number with what follows it, as far as that may be a unit.
_NUMBER = r"[0-9][0-9.,]*(?:[ ][0-9]+/[0-9]+|/[0-9]+)?"
_UNIT = r"(?:[ ]?[^\W\d_°%\"'][\w²³/·*.^]*(?:[ ](?:ft|in|cm|mm|m|N|s)\b[²³]?)?|[ ]?[°%\"'][CF]?)"
_FIGURE = re.compile(rf"(?<![\w.,])({_NUMBER})({_UNIT})?")
_UNIT_IN_BRACKETS = re.compile(r"[ ,]*[(\[/][ ]?([^()\[\]0-9][^()\[\]]{0,11}?)[ ]?[)\]]")
_BOTH_WAYS = re.compile(
    r"p[- ]?(?:to[- ]?)?p\b|pk[- ]?pk|peak[- ]to[- ]peak|spitze[- ]spitze", re.I
)
_AT_MOST = re.compile(r"\b(?:max|maximum|peak|music|musik|maximal)\b", re.IGNORECASE)
_TWICE = re.compile(
    r"(?:\b2 ?[x×*] ?|\bdual ?)(?=[0-9])|(?P<each>[0-9.,]+) ?(?:Ω|ohms?)? ?\+ ?(?P=each)", re.I
)
_RANGE = re.compile(r"([0-9.,]*[0-9]) ?(?:-|to|bis|\.\.+|…) ?([0-9.,]*[0-9]) ?([A-Za-zΩ]+)\b")
_RANGE_SAID = re.compile(r"[0-9] ?[A-Za-zΩ]+ - [0-9]")
_TIMES = re.compile(r"(?<![\w.,])([2-9]) ?[x×*] ?(?=[0-9])")
_RATING = re.compile(
    r"[0-9][0-9.,]* ?W(?: RMS)? ?(?:@|at|into|an|bei) ?[0-9.,]+ ?(?:Ω|ohms?)", re.I
)
_AT_ONE_WATT = re.compile(r"(?<![0-9.,])1 ?W\b", re.IGNORECASE)
_OF_ONE_COIL = ("nominal_impedance", "re")
_CELLS = re.compile(r"\t|[ ]*[|;][ ]*|[ ]{3,}")


@dataclass(frozen=True, kw_only=True)
class Reading:
    """One figure of a sheet: where it stood, and what would be typed for it."""

    field: str
    line: str
    # As it would be typed into the field; empty where a figure is named and cannot be read.
    text: str = ""
    value: Any = None
    # What somebody has to look at before it is taken.
    doubt: str = ""


def read_sheet(text: str, kind: str, fields: Mapping[str, forms.Field]) -> list[Reading]:
    """Return each figure of this kind of part that the text names, in the order of the form."""
    names = {name: words for name, words in patterns(kind).items() if name in fields}
    readings: dict[str, Reading] = {}
    for line, shown in _lines(text[:LONGEST_SHEET]):
        for name, rest in _named(line, names):
            reading = _read(name, fields[name], shown, rest)
            held = readings.get(name)
            if held is None or not held.text:
                readings[name] = reading
            elif reading.text and _apart(held.value, reading.value):
                doubt = _("The sheet says it twice: also %(other)s.") % {"other": reading.text}
                readings[name] = Reading(**{**vars(held), "doubt": doubt})
    _count_coils(fields, readings)
    _both_ends(fields, readings)
    return [readings[name] for name in fields if name in readings]


def other_kind(text: str, kind: str) -> str | None:
    """Return the kind of part this text names clearly more figures of, if there is one."""
    counts = {
        other: sum(1 for words in patterns(other).values() if words.search(plain(text)))
        for other in (Part.Kind.DRIVER, Part.Kind.AMPLIFIER, Part.Kind.PROCESSOR, Part.Kind.FUSE)
    }
    likeliest = max(counts, key=lambda other: counts[other])
    return likeliest if counts[likeliest] > counts.get(kind, 0) + 2 else None  # type: ignore[call-overload]


def ratings_named(text: str) -> list[str]:
    """Return the powers into a load a text names, as they stand there: they are a list of rows."""
    return list(dict.fromkeys(match[0] for match in _RATING.finditer(_tidy(text[:LONGEST_SHEET]))))


def _lines(text: str) -> Iterator[tuple[str, str]]:
    """Yield each line as it is read and as it stands; a table across is turned on its side."""
    rows = [line for line in text.splitlines() if line.strip()][:MOST_LINES]
    while rows:
        row, *rows = rows
        heads = [cell for cell in _CELLS.split(row.strip()) if cell]
        below = [cell for cell in _CELLS.split(rows[0].strip()) if cell] if rows else []
        if len(heads) >= 3 and len(heads) == len(below) and not re.search(r"\d", "".join(heads)):
            for head, cell in zip(heads, below, strict=True):
                yield _tidy(f"{head}: {cell}"), f"{head}: {cell}"
            rows = rows[1:]
        else:
            yield _tidy(row), " · ".join(filter(None, _CELLS.split(row.strip())))


def _tidy(line: str) -> str:
    """Return a line in plain letters; a range says its unit with both its ends."""
    bare = " ".join(plain(line).replace("±", " ").replace("+/-", " ").split())
    return _RANGE.sub(r"\1 \3 - \2 \3", bare)


def _named(line: str, names: Mapping[str, re.Pattern[str]]) -> Iterator[tuple[str, str]]:
    """Yield each field that is named, and what follows its name up to the next."""
    hits = [(match, name) for name, words in names.items() for match in words.finditer(line)]
    hits.sort(key=lambda hit: (hit[0].start(), -hit[0].end()))
    kept: list[tuple[re.Match[str], str]] = []
    for match, name in hits:
        if not kept or match.start() >= kept[-1][0].end():
            kept.append((match, name))
    for place, (match, name) in enumerate(kept):
        end = kept[place + 1][0].start() if place + 1 < len(kept) else len(line)
        if name == "power" and _AT_MOST.search(line[: match.end()]):
            continue
        if name == "rms" and re.search(r"\bW(?:atts?)?\b", line):
            continue  # "300 W RMS" is a power
        yield name, line[match.end() : end]


def _read(name: str, field: forms.Field, line: str, rest: str) -> Reading:
    """Return the first figure of the right kind that follows a name."""
    in_head = _UNIT_IN_BRACKETS.match(rest)
    unit = in_head[1].strip() if in_head else ""
    readings = list(_figures(field, rest[in_head.end() :] if in_head else rest, unit))
    if not readings:
        return Reading(field=name, line=line, doubt=_unread(rest))
    text, value, doubt = readings[0]
    others = [other for other, what, _doubt in readings[1:] if _apart(value, what)]
    if name == "xmax" and _BOTH_WAYS.search(line):
        assert isinstance(field, QuantityField)
        value = value / 2
        text, doubt = field.write(value), _("Given peak to peak: half of it is one way.")
    elif name == "sensitivity" and _AT_ONE_WATT.search(line):
        doubt = _("Given for 1 W, asked for 2.83 V: these are the same at 8 Ω only.")
    elif not doubt and (times := _TIMES.search(rest)) and name not in _OF_ONE_COIL:
        doubt = _("It says so many of them: %(times)s ×.") % {"times": times[1]}
    elif not doubt and others and not _is_range(name, rest):
        doubt = _("Also %(others)s stands there.") % {"others": ", ".join(others)}
    return Reading(field=name, line=line, text=text, value=value, doubt=doubt)


def _is_range(name: str, rest: str) -> bool:
    """Whether the second figure is the other end, which is a field of its own."""
    return name == "minimum_voltage" and _RANGE_SAID.search(rest) is not None


def _unread(rest: str) -> str:
    """Say why nothing was taken from behind a name."""
    if not re.search(r"\d", rest):
        return _("It is named, but no figure stands with it.")
    return _("No figure in a unit of this could be read here.")


def _figures(field: forms.Field, rest: str, unit: str) -> Iterator[tuple[str, Any, str]]:
    """Yield (as it would be typed, its value, what is doubtful) of each figure that fits."""
    matches = list(_FIGURE.finditer(rest))
    for place, match in enumerate(matches):
        number, own = match[1].rstrip(".,"), (match[2] or "").strip()
        if isinstance(field, QuantityField):
            both = _falling(field, rest, matches[place : place + 2])
            yield from both or _quantity(field, number, own, unit)
            if both:
                return
        elif isinstance(field, ConductorField):
            yield from _tried(field, f"{number} {own or unit}".strip())
        elif isinstance(field, forms.IntegerField) and number.isdecimal():
            yield number, int(number), ""


def _falling(
    field: QuantityField, rest: str, pair: list[re.Match[str]]
) -> list[tuple[str, Any, str]]:
    """Return two figures that add up, such as 12 lb 4 oz, as the one they are."""
    if len(pair) < 2 or not pair[0][2] or not pair[1][2]:
        return []
    if rest[pair[0].end() : pair[1].start()].strip():
        return []
    return list(_tried(field, rest[pair[0].start() : pair[1].end()].strip()))


def _quantity(
    field: QuantityField, number: str, own: str, unit: str
) -> Iterator[tuple[str, Any, str]]:
    plain_unit = field.plain_unit
    if own == "Q" and field.kind == "resistance":  # what a camera makes of Ω
        own = "Ω"
    for word in dict.fromkeys((own, own.partition(" ")[0], own.rstrip("."), unit)):
        if word:
            readings = list(_tried(field, f"{number} {_printed(word)}"))
            if readings:
                yield from readings
                return
    if own and plain_unit and own.casefold() in _UNITS_OF_OTHERS:
        return
    if not plain_unit:
        yield from _tried(field, number)
    elif not own or own.isalpha():
        doubt = _("No unit stands there: read in %(unit)s.") % {"unit": plain_unit}
        for text, value, _doubt in _tried(field, f"{number} {plain_unit}"):
            yield text, value, doubt


def _printed(unit: str) -> str:
    """Return a unit as it is printed: plain letters make 2 of ² and * of ·."""
    return re.sub(r"(?<=[A-Za-z])([23])$", lambda power: "²³"[int(power[1]) - 2], unit).replace(
        "*", "·"
    )


# A figure with one of these is not another quantity that lost its unit.
_UNITS_OF_OTHERS = {
    *("hz", "khz", "mm", "cm", "m", "in", "inch", "ft", "v", "mv", "w", "kw", "ω", "ohm", "ohms"),
    *("a", "ma", "g", "kg", "oz", "lb", "lbs", "l", "mh", "db", "x"),
}


def _tried(field: QuantityField | ConductorField, text: str) -> Iterator[tuple[str, Any, str]]:
    try:
        value = field.read(text)
    except UnreadableQuantity:
        return
    doubt = ""
    try:
        field.validate(value)  # type: ignore[arg-type]  # each reads what it validates
    except forms.ValidationError as wrong:
        doubt = " ".join(wrong.messages)
    yield text, value, doubt


def _apart(value: Any, other: Any) -> bool:
    """Whether two readings are more than rounded apart."""
    if not isinstance(value, int | float) or not isinstance(other, int | float):
        return bool(value != other)
    return abs(value - other) > SAME * max(abs(value), abs(other))


def _both_ends(fields: Mapping[str, forms.Field], readings: dict[str, Reading]) -> None:
    """Take the second end of a range of supply voltages for the highest."""
    held = readings.get("minimum_voltage")
    if held is None or "highest_voltage" not in fields or "highest_voltage" in readings:
        return
    figures = list(_figures(fields["highest_voltage"], _tidy(held.line), ""))
    if _RANGE_SAID.search(_tidy(held.line)) and len(figures) > 1:
        text, value, doubt = figures[1]
        readings["highest_voltage"] = Reading(
            field="highest_voltage", line=held.line, text=text, value=value, doubt=doubt
        )


def _count_coils(fields: Mapping[str, forms.Field], readings: dict[str, Reading]) -> None:
    """Take "dual 4 Ω" and "2 x 4 Ω" for two coils of four."""
    held = readings.get("nominal_impedance")
    if held is None or "coils" not in fields or not _TWICE.search(held.line):
        return
    each = _TWICE.sub(lambda match: match["each"] or "", held.line)
    words = patterns(Part.Kind.DRIVER)["nominal_impedance"].search(each)
    behind = each[words.end() :] if words else each
    again = _read("nominal_impedance", fields["nominal_impedance"], held.line, behind)
    readings["nominal_impedance"] = again if again.text else held
    readings["coils"] = Reading(field="coils", line=held.line, text="2", value=2)
