"""What a calculator refused, said in the reader's language: its code becomes a sentence."""

from __future__ import annotations

import math
from collections.abc import Callable
from enum import StrEnum

from django.utils.formats import number_format
from django.utils.functional import Promise
from django.utils.text import capfirst, get_text_list
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

import acoustics.errors
import wiring.errors
from acoustics.carcass.shape.errors import CarcassError
from acoustics.errors import COUNT, AcousticsError, SweepFileError
from jobs.design.wording.carcass import CARCASS, kind_of
from jobs.design.wording.choices import CHOICES
from jobs.design.wording.names import figure_name
from jobs.design.wording.terms import term
from wiring.errors import WiringError

Refused = AcousticsError | WiringError
Given = acoustics.errors.Given | wiring.errors.Given
# Puts a figure into the reader's units.
Show = Callable[[float | str | None, str], str]

# Code of a figure outside its limit -> what was asked for.
ASKED: dict[str, Promise | str] = {
    "above": _("more than {limit}"),
    "below": _("less than {limit}"),
    "at-least": _("at least {limit}"),
    "at-most": _("at most {limit}"),
    "between": _("{low} to {high}"),
    "one-of": "{choices}",
    "made-of": _("pairs out of {choices}"),
    "whole-number": _("a whole number"),
    "even": _("an even number"),
    "finite": _("a number"),
    "measured": _("measured"),
    "entered": _("an entry"),
    "sourced": _("with the source it is from"),
    # -- shares
    "share": _("0 to 1"),
    "share-above-zero": _("more than 0 and at most 1"),
    "ideal-class-b": _("at most 0.785, the ideal class B stage"),
    # -- outlines and columns
    "eight-corners": _("eight corners"),
    "number-pairs": _("pairs of numbers"),
    "simple-outline": _("an outline that does not cross itself"),
    "rising": _("numbers that rise from line to line"),
    "equal-rising-columns": _("columns of equal length, rising in frequency"),
    "two-equal-columns": _("at least two lines, columns of equal length"),
    "opens-sooner": _("more current never opens later"),
    # -- filters
    "stable": _("a stable filter"),
    "less-steep": _("less steep for this gain"),
    # -- labels, nodes and tables
    "another-node": _("another end than its start"),
    "known-node": _("one of the nodes"),
    "known-run": _("one of the runs"),
    "known-fuse": _("one of the fuses"),
    "used-once": _("a label used once"),
    "run-label": _("P, S, L or C and two digits or more"),
}
# The same where the limit is nothing.
ZERO: dict[str, Promise] = {"above": _("more than zero"), "at-least": _("zero or more")}
OUT_OF_RANGE = _("{name}: {value}; asked for: {asked}")
UNREADABLE = _("line {line} of the text cannot be read")

# Every other code -> the whole sentence.
SENTENCES: dict[str, Promise] = {
    "missing": _("not known: {names}"),
    "contradicts-below": _(
        "{name} is given as {value}, but the other figures ask for less than {limit}"
    ),
    "contradicts-at-least": _(
        "{name} is given as {value}, but the other figures ask for at least {limit}"
    ),
    "flares-longer-than-port": _(
        "the two flares take {value} of a port that is {limit} long; make them smaller, or the "
        "port longer with a larger opening"
    ),
    # -- targets
    "port-does-not-tune": _(
        "this opening cannot be tuned to {value}: without any length it reaches {limit}; take "
        "a larger opening or more litres"
    ),
    "port-beside-tunes-higher": _(
        "this box cannot be tuned to {value}: its second port alone tunes it to {limit}; make that "
        "port longer or narrower"
    ),
    "qtc-out-of-reach": _("Qtc: {value} is out of reach; the nearest is {limit}"),
    "f3-out-of-reach": _("f3: {value} is out of reach; the nearest is {limit}"),
    "vented-f3-out-of-reach": _("f3: {value} is out of reach; the nearest is {limit}"),
    "ripple-out-of-reach": _(
        "evenness of the response: {value} is out of reach; the nearest is {limit}"
    ),
    "no-even-box": _("f3: no box that reaches {value} is even within {limit}"),
    "shape-out-of-reach": _(
        "this shape is not to be had with a Qts of {value}; the nearest Qts is {limit}"
    ),
    "shape-of-fourth-order": _("this shape is of the fourth order; a sealed box is of the second"),
    "leaks-too-much": _("with a QL of {value} there is no such box; take a box that leaks less"),
    "band-below-driver": _(
        "the middle of the band, {value}, is not above the driver's own resonance, {limit}: a rear "
        "chamber only raises it"
    ),
    "band-out-of-reach": _(
        "no two chambers bring the band of this driver to end at {value} and {limit}"
    ),
    "sixth-band-out-of-reach": _(
        "no two vented chambers bring the band of this driver to end at {value} and {limit}"
    ),
    "band-uneven": _(
        "inside this band the level of two vented chambers is uneven by more than {value}; the "
        "least is {limit}"
    ),
    "lightest-tunes-lower": _(
        "the passive radiator is too heavy for {value}: without any added mass it tunes this box "
        "to {limit}"
    ),
    "never-falls": _("the level does not fall by {drop} before {limit}"),
    # -- why a sweep does not tell what is asked of it
    "too-few-points": _("{value} points are too few to fit {limit} figures; measure more of them"),
    "uncertain": _(
        "the sweep leaves {names} uncertain by more than a fifth; use finer steps around the "
        "resonance"
    ),
    "no-peak": _(
        "there is no resonance peak inside the sweep; start lower, end higher, or use finer steps"
    ),
    "coarse": _(
        "there are not enough points across the resonance near {value}; use finer steps there"
    ),
    "undetermined": _("the sweep does not tell the figures apart; widen it or use finer steps"),
    "two-peaks": _(
        "the sweep has two peaks, at {value} and {limit}: that is a driver in a vented box or two "
        "drivers; measure one driver in free air"
    ),
    "fits-no-driver": _(
        "no single driver has such an impedance: the nearest is {value} off, {limit} at most is "
        "usable; are these ohms and not decibels, one driver, and no amplifier connected?"
    ),
    "phase-in-radians": _("the phase never exceeds {value}: it looks like radians; export degrees"),
    "not-in-hertz-and-ohms": _(
        "{name} comes out as {value}, outside {low} to {high}: are the columns hertz and ohms, "
        "not kilohertz, milliohms or kilohms?"
    ),
    "amplifier-connected": _(
        "the impedance never exceeds {value}, less than any coil has ({limit}): is the amplifier "
        "still connected? Take its cable off and measure again"
    ),
    "looks-like-decibels": _(
        "read as decibels of an ohm these figures fit a driver far better than read as ohms: "
        "export the magnitude in ohms"
    ),
    # -- why a sweep of a finished box tells nothing of it
    "box-not-worked-out": _("the box as drawn is not worked out; complete it first"),
    "no-box-to-prove": _("an infinite baffle has no air of its own that a sweep could prove"),
    "other-coil": _(
        "the lowest impedance is {value}, the coils of this box as they are wired have {limit}: "
        "is it this box, wired as planned, measured at its own terminals?"
    ),
    "box-lacks-peak": _(
        "the curve has {value} of the {limit} peaks of such a box: is it this box, is its port "
        "open, and does the sweep begin low enough?"
    ),
    "box-peak-too-many": _(
        "the curve has peaks from {value} to {limit}, more than such a box has: is it this box, "
        "and has it no opening that is not drawn?"
    ),
    "peak-below-driver": _(
        "the peak lies at {value}, below the driver's own resonance ({limit}): no closed box does "
        "that; is it this box, and are the driver's figures those of this driver?"
    ),
    "fits-no-box": _(
        "no box of this kind has such an impedance: the nearest is {value} off, {limit} at most is "
        "usable; is it this box, and does nothing rattle or hang loose?"
    ),
    # -- a recording that tells nothing
    "recording-short": _(
        "the recording ends after {value}; what was played takes {limit}. Start it before the "
        "sweep and let it run until the second mark has died away"
    ),
    "recording-silent": _(
        "nothing is heard in the recording: is it the right microphone, and is its level up?"
    ),
    "recording-clipped": _(
        "the recording reaches full scale at {value}: turn down the level and record again"
    ),
    "marks-not-found": _(
        "the two marks of the sweep are not in the recording: play the sweep with a time mark, "
        "lead the right input to a speaker, and let nothing change the sample rate"
    ),
    "recording-not-wav": _("this is no WAV file of whole numbers (PCM, 16 to 32 bit)"),
    "recording-slow": _(
        "it was recorded at {value}, and treble needs {limit} or more: a wireless microphone or "
        "headset records like a telephone. Choose another"
    ),
    "recording-other-rate": _(
        "the file says {value}, but it was recorded at {limit}: something on the way changed the "
        "sample rate without changing the sound. Record again at one rate throughout"
    ),
    "recording-lost-samples": _(
        "its marks lie further apart or nearer than two clocks explain: samples were lost on the "
        "way. Close other programs, take a cable, and record again"
    ),
    "recording-long": _(
        "the recording lasts {value}; {limit} at most are read. Record one sweep at a time"
    ),
    "mass-did-not-lower": _(
        "the added mass must lower the resonance, but {limit} became {value}; is the second sweep "
        "the right one, and did the mass hold?"
    ),
    "box-did-not-raise": _(
        "the closed box must raise the resonance, but {limit} became {value}; is the second sweep "
        "the right one, and is the box tight?"
    ),
}


def refusal(error: Refused, show: Show) -> str:
    """Return why, without a full stop; `show` puts a figure into the reader's units."""
    shown = {key: _said(value, show) for key, value in error.given.items()}
    if isinstance(choices := error.given.get("choices"), tuple):
        words = dict.fromkeys(_said(choice, show) for choice in choices)
        shown["choices"] = get_text_list(list(words))
    match error:
        case CarcassError():
            return f"{kind_of(error)}: {str(CARCASS[error.code]).format(**shown)}"
        case SweepFileError():  # its sentence quotes the line: `columns.column_trouble`
            return str(UNREADABLE).format(**shown)
        case WiringError() if error.about:
            shown["name"] = f"{shown['name']}, {term(error.about)}"
    if error.code in SENTENCES:
        return str(SENTENCES[error.code]).format(**shown)
    is_zero = getattr(error.given.get("limit"), "value", None) == 0
    asked = ZERO[error.code] if is_zero and error.code in ZERO else ASKED[error.code]
    return str(OUT_OF_RANGE).format(**shown, asked=str(asked).format(**shown))


def sentence(words: str) -> str:
    """Make a sentence of a reason."""
    return f"{capfirst(words)}."


def _said(given: Given, show: Show) -> str:
    match given:
        case None:
            return gettext("unknown")
        case acoustics.errors.Quantity() | wiring.errors.Quantity():
            return _figure(given.value, given.unit, show)
        case acoustics.errors.Id() | wiring.errors.Id():
            return term(given)
        case StrEnum():
            return figure_name(given)
        case tuple():
            return ", ".join(_said(part, show) for part in given)
    return str(CHOICES[given]) if given in CHOICES else term(given)


def _figure(value: float, unit: str, show: Show) -> str:
    """A figure in the reader's units, or how many there are as the reader writes numbers."""
    if not math.isfinite(value):
        return gettext("not a number") if math.isnan(value) else "∞"
    if unit == COUNT:
        return number_format(int(value) if value == int(value) else value)
    return show(float(value), unit)
