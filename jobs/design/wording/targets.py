"""Why a target of a box has no answer: not defined for its kind, or out of reach."""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy

from acoustics.enclosure.alignments import Shape
from acoustics.errors import NoSolutionError, Quantity
from jobs import units
from jobs.models import Box
from jobs.models.box.box_kinds import BOX_KINDS, FOURTH_ORDER, SECOND_ORDER

Kind = Box.Kind
_CHAMBERS = gettext_lazy(
    "A band-pass plays between two chambers and is judged by its whole band: it has no Qtc, no "
    "classical shape and no one answer to a frequency or to litres. Ask it for a band."
)
_NO_BOX = gettext_lazy(
    "An infinite baffle has no litres to choose: the driver plays with its own Qts and fs."
)
_NO_QTC: dict[str, Promise] = {
    Kind.VENTED: gettext_lazy(
        "Qtc belongs to a sealed box. A vented box is of the fourth order: choose a shape, a "
        "frequency or litres."
    ),
    Kind.PASSIVE_RADIATOR: gettext_lazy(
        "Qtc belongs to a sealed box. A box with a passive radiator can be asked for litres."
    ),
    Kind.DOOR: gettext_lazy(
        "Qtc belongs to a sealed box, and a door leaks. It can be asked what other litres give."
    ),
}
_NO_ONE_BOX: dict[str, Promise] = {
    Kind.PASSIVE_RADIATOR: gettext_lazy(
        "Litres, mass and compliance of the passive radiator can stand in for each other: there "
        "is no one box for this. Ask for litres, change the mass, and watch the curve."
    ),
    Kind.DOOR: gettext_lazy(
        "The leak of a door decides, and nobody chooses it: there is no one answer to this. Ask "
        "for litres, and try the three ways with the factory hole."
    ),
}
_FOURTH_ORDER = gettext_lazy(
    "This shape is of the fourth order; a sealed box is of the second. Choose Butterworth, "
    "Bessel, Chebyshev or double-pole, or make the box vented."
)
# Shapes of the second order.
_SEALED_SHAPES = {Shape.BUTTERWORTH, Shape.BESSEL, Shape.CHEBYSHEV, Shape.DOUBLE_POLE}


_ONLY_FOR: dict[str, Promise] = {
    "band": gettext_lazy(
        "Only a band-pass is asked for a band. Make the box one, or ask this one for the most "
        "level in a band."
    ),
    "fb": gettext_lazy(
        "Only a passive radiator is tuned by the mass added to it. The tuning of a port is typed "
        "into the box."
    ),
    "loudest": gettext_lazy(
        "The most level in a band is looked for among sealed and vented boxes. Of this kind, watch "
        "the curve of the largest clean level."
    ),
}


def undefined(kind: str, want: str) -> str:
    """Say why a target means nothing for a kind of box, or nothing when it does."""
    row = BOX_KINDS[kind]
    if _target(want) in row.targets:
        return ""
    if not row.targets and not row.front_chamber:
        return str(_NO_BOX)
    if want in _ONLY_FOR:
        return str(_ONLY_FOR[want])
    if row.front_chamber:
        return str(_CHAMBERS)
    if want == "qtc":
        return str(_NO_QTC[kind])
    return str(_FOURTH_ORDER if SECOND_ORDER in row.targets else _NO_ONE_BOX[kind])


def _target(want: str) -> str:
    """A figure by its name, a shape by its order."""
    if want not in set(Shape):
        return want
    return SECOND_ORDER if want in _SEALED_SHAPES else FOURTH_ORDER


# Which target is out of reach, and how far one can go.
_OUT_OF_REACH: dict[str, Promise] = {
    "port-does-not-tune": gettext_lazy(
        "This opening cannot be tuned to %(value)s: its two ends alone hold too much air. "
        "Without any length it reaches %(limit)s. Take a larger opening."
    ),
    "port-beside-tunes-higher": gettext_lazy(
        "This box cannot be tuned to %(value)s: its second port alone tunes it to %(limit)s. Make "
        "that port longer or narrower."
    ),
    "qtc-out-of-reach": gettext_lazy(
        "No sealed box gives this driver a Qtc of %(value)s. A box only ever raises the Q the "
        "driver has by itself, and losses lower it; the nearest is %(limit)s."
    ),
    "vented-f3-out-of-reach": gettext_lazy(
        "No box takes this driver down to %(value)s without rising or sagging more than is "
        "accepted, however large; the lowest is %(limit)s."
    ),
    "f3-out-of-reach": gettext_lazy(
        "No box takes this driver down to %(value)s, however large; the lowest is %(limit)s."
    ),
    "ripple-out-of-reach": gettext_lazy(
        "In these litres every tuning rises or sags by more than %(value)s; the least is "
        "%(limit)s. Accept more, or take other litres."
    ),
    "no-even-box": gettext_lazy(
        "Whatever its litres and its tuning, a vented box with this driver rises or sags by more "
        "than %(limit)s. Accept more, or take another driver."
    ),
    "band-below-driver": gettext_lazy(
        "The middle of the band, %(value)s, is not above the driver's own resonance, %(limit)s. A "
        "rear chamber only ever raises it: ask for a higher band, or take another driver."
    ),
    "band-out-of-reach": gettext_lazy(
        "No two chambers bring the band of this driver to end at %(value)s and %(limit)s. Ask for "
        "a wider or a higher band."
    ),
    "sixth-band-out-of-reach": gettext_lazy(
        "No two vented chambers, the rear one tuned between half the lower end and the middle of "
        "the band, bring it to end at %(value)s and %(limit)s. Ask for another band, or take a "
        "band-pass of the fourth order."
    ),
    "band-uneven": gettext_lazy(
        "Whatever their litres, two vented chambers with this band leave the level uneven inside "
        "it by more than %(value)s; the least is %(limit)s. Accept more, or ask for another band."
    ),
    "lightest-tunes-lower": gettext_lazy(
        "The passive radiator is too heavy for %(value)s: without any added mass it tunes these "
        "litres to %(limit)s. Take fewer litres, a lighter one, or more of them."
    ),
    "never-falls": gettext_lazy(
        "The level of such a box never falls by half its power: there is no f3 to name."
    ),
    "shape-out-of-reach": gettext_lazy(
        "This shape is not to be had with a Qts of %(value)s; the nearest Qts that gives it is "
        "%(limit)s."
    ),
    "shape-of-fourth-order": _FOURTH_ORDER,
    "leaks-too-much": gettext_lazy(
        "With this leakage there is no such box. A box that leaks less may give it."
    ),
}
_KINDS = {"Hz": "frequency", "dB": "level", "-": "ratio"}


def no_solution(error: NoSolutionError) -> str:
    """Say which target is out of reach, and how far one can go."""
    wanted, reached = error.given.get("value"), error.given.get("limit")
    words = str(_OUT_OF_REACH[error.code])
    if not isinstance(wanted, Quantity) or not isinstance(reached, Quantity):
        return words
    if wanted.unit != reached.unit:
        return words % {
            "value": units.show(wanted.value, _KINDS[wanted.unit]),
            "limit": units.show(reached.value, _KINDS[reached.unit]),
        }
    return words % _shown(wanted, reached)


def _shown(wanted: Quantity, reached: Quantity) -> dict[str, str]:
    """Show both figures, the limit with more digits where rounding would make them one."""
    kind = _KINDS[wanted.unit]
    value, limit = units.show(wanted.value, kind), units.show(reached.value, kind)
    if value == limit:
        limit = units.show(float(f"{reached.value:.5g}"), kind, exact=True)
    return {"value": value, "limit": limit}
