"""The one place where typed text becomes SI, and SI becomes text.

People type what they are used to (`0.75 cu ft`, `21 L`, `12' 6"`, `6½ in`, `16,5 cm`); the
app stores SI floats and shows them in the workshop's own system and the reader's language.

A plain number is read in the unit the same kind of quantity is shown in, the first one in its
row of KINDS: a workshop that sees inches means inches, one that sees millimetres means those.

Comma and point both work as the decimal mark. A mark followed by exactly three digits may also
group thousands; then the reader's language decides where it can (in German `1,200` is 1.2),
and what could still be a factor of a thousand wrong is refused with both readings.

Text is matched against lists of words, never evaluated; factors come from pint, kept as exact
fractions, so `8 in` is 0.2032 to the last bit.
"""

import math
import re
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import Any, Literal

from django.utils.translation import gettext as _

from .quantities.kinds import FIGURES, KINDS, READ_FINER
from .quantities.numbers import (
    UnreadableQuantity,
    checked,
    common_fraction,
    decimal,
    localized,
    plain,
    quoted,
)
from .quantities.words import UNITS

__all__ = [
    "KINDS",
    "UNKNOWN",
    "ConductorSize",
    "System",
    "UnreadableQuantity",
    "celsius",
    "current_system",
    "drawn_in",
    "kelvin",
    "on_paper",
    "parse",
    "parse_conductor",
    "plain_unit",
    "show",
    "show_conductor",
    "using_system",
]

System = Literal["metric", "imperial"]

UNKNOWN = "—"
ZERO_CELSIUS = 273.15  # K, by definition of the degree Celsius

_system: ContextVar[System] = ContextVar("unit_system", default="metric")
_on_paper: ContextVar[bool] = ContextVar("on_paper", default=False)


@dataclass(frozen=True, kw_only=True)
class ConductorSize:
    """A conductor as it is sold: AWG, SAE or mm²; `size` is canonical ("1/0", "4", "2.5").

    AWG and SAE never convert to each other: an SAE cable of the same number holds less metal.
    """

    system: Literal["awg", "sae", "mm2"]
    size: str


# --- which system the reader sees --------------------------------------------------------------


def current_system() -> System:
    """Return the unit system in force for this request or sheet."""
    return _system.get()


def system_named(name: str) -> System:
    """Return the system a record names; anything that is not imperial is metric."""
    return "imperial" if name == "imperial" else "metric"


@contextmanager
def using_system(system: System) -> Iterator[None]:
    """Show and read plain numbers in `system` inside the block; middleware wraps each request."""
    token = _system.set(system)
    try:
        yield
    finally:
        _system.reset(token)


@contextmanager
def on_paper(*, short: bool = True) -> Iterator[None]:
    """Show figures inside the block as a sheet or a sentence does: 150.0 A claims a tenth."""
    token = _on_paper.set(short)
    try:
        yield
    finally:
        _on_paper.reset(token)


def _shown_units(kind: str, system: System | None) -> tuple[tuple[str, int], ...]:
    return KINDS[kind].shown(system or current_system())


def plain_unit(kind: str, *, system: System | None = None) -> str:
    """Return the unit a plain number is read in, as printed beside a field."""
    return _printed(_shown_units(kind, system)[0][0])


def units_of(kind: str) -> list[str]:
    """Return the units a figure of this kind is shown in, the plain one first."""
    return [_printed(unit) for unit, _places in _shown_units(kind, None)]


# --- factors and words -------------------------------------------------------------------------


@cache
def _registry() -> Any:
    # Imported when first needed: pint costs most of a second and most commands never convert.
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


@cache
def _factor(unit: str, si: str) -> tuple[Fraction, Fraction]:
    """Return (scale, offset) with si = scale · value + offset, exactly."""
    quantity = _registry().Quantity
    offset = quantity(Fraction(0), unit).to(si).magnitude
    return quantity(Fraction(1), unit).to(si).magnitude - offset, offset


def _key(word: str) -> str:
    return re.sub(r"[ .^*-]", "", plain(word))


def _printed(unit: str) -> str:
    return UNITS[unit].partition(",")[0]


@cache
def _words(kind: str) -> tuple[dict[str, str], dict[str, str]]:
    """Return the kind's words for its units: as written, and regardless of capitals."""
    exact = {_key(word): unit for unit in KINDS[kind].units for word in UNITS[unit].split(",")}
    folded: dict[str, str] = {}
    for word, unit in exact.items():
        folded.setdefault(word.casefold(), unit)
    return exact, folded


# --- reading -----------------------------------------------------------------------------------

_TERM = re.compile(
    r"""[ ]?
    (?: (?: (?P<whole>[0-9]+)[ -] )? (?P<top>[0-9]+)[ ]?/[ ]?(?P<bottom>[0-9]+)
      | (?P<number>[0-9.,]*[0-9][0-9.,]*(?:[eE][+-]?[0-9]+)?) )
    [ ]?
    (?P<unit> ['"] | (?: [^\W\d_] | [°%/*^ ] | \.(?![0-9])
        | (?<=[^\W\d_])-(?=[^\W\d_])
        | (?<=[^\W\d_])[23](?![\w.,]) | (?<=\^)[23] )* )
    """,
    re.VERBOSE,
)


def parse(text: str, kind: str, *, system: System | None = None, above_zero: bool = False) -> float:
    """Return what was typed, in SI, or raise UnreadableQuantity saying what is wrong with it.

    `kind` is a key of KINDS. Feet and inches, and other falling units (`1 h 30 min`), add up.
    Whoever refuses less than zero (`above_zero`) is told no such bound.
    """
    quantity = KINDS[kind]
    try:
        value = _read(checked(text), kind, system)
        if not quantity.lowest <= value <= quantity.largest:
            reason = _("%(text)s cannot be right: %(lowest)s to %(largest)s is possible here.")
            if above_zero and value > 0:
                reason = _("%(text)s cannot be right: up to %(largest)s is possible here.")
            lowest = show(quantity.lowest, kind, system=system, exact=True)
            largest = show(quantity.largest, kind, system=system, exact=True)
            words = {"text": quoted(text), "lowest": lowest, "largest": largest}
            raise UnreadableQuantity(reason % words, "range")
    except UnreadableQuantity as refusal:
        expected = _("Expected: %(kind)s, for example %(example)s.")
        hint = expected % {"kind": quantity.label, "example": quantity.example}
        message = f"{refusal.message} {hint}"
        raise UnreadableQuantity(message, refusal.code) from None
    return float(value)


def _read(tidy: str, kind: str, system: System | None) -> Fraction:
    """Return the exact SI value of text in plain form."""
    sign = -1 if tidy[0] == "-" else 1
    body = tidy[1:] if tidy[0] in "+-" else tidy
    terms = _terms(body, kind, system)
    if len(terms) == 1:
        number, (scale, offset) = terms[0]
        return sign * number * scale + offset
    for (number, (scale, _offset)), (smaller, (next_scale, offset)) in pairwise(terms):
        if number.denominator != 1 or offset or smaller * next_scale >= scale:
            reason = _("The parts of %(text)s do not add up.") % {"text": quoted(tidy)}
            raise UnreadableQuantity(reason, "parts")
    return sign * sum((number * scale for number, (scale, _offset) in terms), Fraction(0))


def _terms(
    body: str, kind: str, system: System | None
) -> list[tuple[Fraction, tuple[Fraction, Fraction]]]:
    """Return each number with its unit's factor, left to right."""
    terms: list[tuple[Fraction, tuple[Fraction, Fraction]]] = []
    unit, position = "", 0
    while position < len(body):
        match = _TERM.match(body, position)
        if match is None:
            reason = _("Cannot read %(part)s.") % {"part": quoted(body[position:])}
            raise UnreadableQuantity(reason, "number")
        position = match.end()
        if match["top"]:
            number = common_fraction(match["whole"], match["top"], match["bottom"])
        else:
            number = decimal(match["number"])
        typed = match["unit"].strip()
        if typed:
            unit = _unit_of(typed, kind)
        elif unit == "foot":
            unit = "inch"
        elif unit:
            reason = _("%(part)s has no unit.") % {"part": quoted(match[0].strip())}
            raise UnreadableQuantity(reason, "unit")
        else:
            unit = _shown_units(kind, system)[0][0]
        terms.append((number, _factor(unit, KINDS[kind].si)))
    return terms


def _unit_of(typed: str, kind: str) -> str:
    """Return the unit a word means for this kind of quantity."""
    word = _key(typed)
    exact, folded = _words(kind)
    unit = word and (exact.get(word) or folded.get(word.casefold()))
    if unit:
        return unit
    words = {"unit": quoted(typed), "kind": KINDS[kind].label}
    other = next((key for key in KINDS if word and word in _words(key)[0]), None)
    if other:
        reason = _("%(unit)s is a unit of %(other)s, not of %(kind)s.")
        raise UnreadableQuantity(reason % {**words, "other": KINDS[other].label}, "dimension")
    raise UnreadableQuantity(_("%(unit)s is not a unit of %(kind)s.") % words, "unit")


# --- showing -----------------------------------------------------------------------------------


def show(
    value: float | None, kind: str, *, system: System | None = None, exact: bool = False
) -> str:
    """Return an SI value as people read it; an unknown value (None) is a dash, never a zero.

    Each unit has its fixed number of decimals so that columns line up; a value too small for
    them gets up to three more, enough for two figures. `exact` gives seven figures without
    trailing zeros, for a field that will be read back.
    """
    if value is None:
        return UNKNOWN
    if not math.isfinite(value):
        message = f"{kind} of {value} cannot be shown; a calculation must not end so"
        raise ValueError(message)
    units = _shown_units(kind, system)
    si = KINDS[kind].si
    shown, unit, usual = _scaled(float(value), units, si)
    shorter = exact or _on_paper.get()
    digits = f"{shown:.{_decimals(shown, kind, usual, exact)}f}"
    if shorter and "." in digits:
        digits = digits.rstrip("0").rstrip(".")
    if not digits.strip("-0."):
        digits = "0" if shorter else f"{0:.{usual}f}"
    label = _printed(unit)
    gap = "" if label in ("", "°") else "\u00a0"
    return f"{localized(digits)}{gap}{label}"


def _decimals(shown: float, kind: str, usual: int, exact: bool) -> int:
    """Return how many decimals a figure gets before zeros at its end are left out."""
    magnitude = _magnitude(shown)
    if exact:
        return min(max(6 - magnitude, 0), 12)
    decimals = max(usual, min(1 - magnitude, usual + 3))
    if _on_paper.get() and kind not in READ_FINER:
        return max(min(decimals, FIGURES - 1 - magnitude), 0)
    return decimals


def _scaled(value: float, units: tuple[tuple[str, int], ...], si: str) -> tuple[float, str, int]:
    """Return the value in the plain unit, or beyond 0.1 to 1000 in one that reads better."""
    choices = []
    for unit, decimals in units:
        scale, offset = _factor(unit, si)
        choices.append(((value - float(offset)) / float(scale), unit, decimals))
    if len(choices) == 1 or value == 0 or 0.1 <= abs(choices[0][0]) < 1000:
        return choices[0]
    readable = [choice for choice in choices if abs(choice[0]) >= 1]
    return min(readable, default=max(choices, key=_size), key=_size)


def _size(choice: tuple[float, str, int]) -> float:
    return abs(choice[0])


def _magnitude(number: float) -> int:
    """Return the power of ten of a number; zero counts as one."""
    return math.floor(math.log10(abs(number))) if number else 0


def drawn_in(kind: str) -> tuple[float, str]:
    """Return what SI values are multiplied by on an axis, and the unit written on it."""
    unit, _decimals = _shown_units(kind, None)[0]
    scale, offset = _factor(unit, KINDS[kind].si)
    if offset:
        message = f"{kind} has a zero of its own and cannot be drawn by a factor"
        raise ValueError(message)
    return float(1 / scale), _printed(unit)


def celsius(kelvin: float) -> float:
    """Return a temperature in degrees Celsius, as the cable standards write them."""
    return kelvin - ZERO_CELSIUS


def kelvin(celsius: float) -> float:
    """Return a temperature in kelvin from degrees Celsius."""
    return celsius + ZERO_CELSIUS


# --- conductor sizes ---------------------------------------------------------------------------

_NUMBERED_SIZE = re.compile(r"(AWG|SAE)? ?#?([1-9]/0|0{1,4}|[1-9][0-9]?) ?(AWG|SAE)?", re.I)
_METRIC_SIZE = re.compile(r"([0-9][0-9.,]*) ?(?:mm ?\^?2|sq\.? ?mm|qmm)", re.I)
_GAUGE = re.compile(r"#?[0-9]{1,2}(?:/0)? ?(?:ga|gauge|g)?\.?", re.I)


def parse_conductor(text: str) -> ConductorSize:
    """Return the conductor size typed; "4 gauge" is refused, for AWG and SAE are not the same."""
    try:
        return _read_conductor(checked(text))
    except UnreadableQuantity as refusal:
        hint = _("Expected: conductor size, for example 4 AWG, 1/0 AWG, 4 SAE, 25 mm².")
        message = f"{refusal.message} {hint}"
        raise UnreadableQuantity(message, refusal.code) from None


def _read_conductor(tidy: str) -> ConductorSize:
    if metric := _METRIC_SIZE.fullmatch(tidy):
        area = decimal(metric[1])
        if not Fraction(1, 100) <= area <= 1000:
            reason = _("%(text)s is outside 0.01 to 1000 mm².") % {"text": quoted(tidy)}
            raise UnreadableQuantity(reason, "range")
        return ConductorSize(system="mm2", size=f"{float(area):.6g}")
    numbered = _NUMBERED_SIZE.fullmatch(tidy)
    systems = {(word or "").upper() for word in numbered.group(1, 3)} - {""} if numbered else set()
    if numbered and len(systems) == 1:
        size = numbered[2]
        zeros = len(size) if not size.strip("0") else 0
        return _numbered(f"{zeros}/0" if zeros else size, systems.pop(), tidy)
    if _GAUGE.fullmatch(tidy):
        reason = _("%(text)s could be AWG or SAE, which differ, or mm²: type which.")
        raise UnreadableQuantity(reason % {"text": quoted(tidy)}, "ambiguous")
    reason = _("%(text)s is not a conductor size.")
    raise UnreadableQuantity(reason % {"text": quoted(tidy)}, "unit")


def _numbered(size: str, system: str, tidy: str) -> ConductorSize:
    number = 1 - int(size[0]) if size.endswith("/0") else int(size)
    thinnest = 40 if system == "AWG" else 24
    if not -3 <= number <= thinnest:
        reason = _("%(text)s does not exist: sizes run from 4/0 to %(thinnest)d.")
        raise UnreadableQuantity(reason % {"text": quoted(tidy), "thinnest": thinnest}, "range")
    return ConductorSize(system="awg" if system == "AWG" else "sae", size=size)


def show_conductor(size: ConductorSize | None) -> str:
    """Return a conductor size as people read it, with the reader's decimal mark."""
    if size is None:
        return UNKNOWN
    label = "mm²" if size.system == "mm2" else size.system.upper()
    return f"{localized(size.size)}\u00a0{label}"
