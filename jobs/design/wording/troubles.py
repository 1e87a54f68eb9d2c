"""What the acoustics refused, said in the reader's language."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from django.utils.functional import Promise
from django.utils.text import capfirst
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from acoustics.carcass.shape.errors import (
    CarcassError,
    CavityError,
    JointError,
    NoInsideError,
    PlacementError,
    ProfileError,
    SheetError,
    WallsMeetError,
)
from acoustics.errors import (
    AcousticsError,
    ContradictionError,
    FitError,
    MissingError,
    NoSolutionError,
    OutOfRangeError,
    PortFitError,
)
from jobs.design.wording.carcass import wood_says
from jobs.design.wording.figures import figure_name

Show = Callable[[float | str | None, str], str]

LIMITS: dict[str, Promise] = {
    "above 0": _("more than zero"),
    "above 0 and finite": _("more than zero"),
    "a whole number": _("a whole number"),
    "even": _("an even number"),
    "at least 1": _("at least 1"),
    "at least 3": _("at least 3"),
    "1 to 8": _("1 to 8"),
    "2, 4, 6 or 8": _("2, 4, 6 or 8"),
    "0 or above": _("zero or more"),
    "finite": _("a number"),
    "measured": _("measured"),
    "single, series, parallel": _("single, in series or in parallel"),
    "free or flanged": _("free or in a wall"),
    "a simple polygon with an area": _("an outline that does not cross itself"),
    "finite (x, y) pairs": _("pairs of numbers"),
    "equal columns that rise": _("columns of equal length, rising in frequency"),
    "at least 2 in columns of equal length": _("at least two lines, columns of equal length"),
    "rising and finite": _("numbers that rise from line to line"),
    "a box that leaks less": _("a box that leaks less"),
}
BETWEEN = re.compile(r"between (?P<low>\S+) and (?P<high>\S+?)(, the measured range)?")
BELOW = re.compile(r"a value below (?:\w+ )?(?P<high>\S+)")
AT_LEAST = re.compile(r"at least (?:\w+ )?(?P<low>\S+)")

# Why a sweep does not tell what is asked of it.
FITS: dict[str, Promise] = {
    "too-few-points": _("{value} points are too few to fit {limit} figures; measure more of them"),
    "uncertain": _(
        "the sweep leaves {value} uncertain by more than a fifth; use finer steps around the "
        "resonance"
    ),
    "no-peak": _(
        "there is no resonance peak inside the sweep; start lower, end higher, or use finer steps"
    ),
    "coarse": _(
        "there are not enough points across the resonance near {value}; use finer steps there"
    ),
    "undetermined": _("the sweep does not tell the figures apart; widen it or use finer steps"),
    "mass-did-not-lower": _(
        "the added mass must lower the resonance, but {limit} became {value}; is the second sweep "
        "the right one, and did the mass hold?"
    ),
    "box-did-not-raise": _(
        "the closed box must raise the resonance, but {limit} became {value}; is the second sweep "
        "the right one, and is the box tight?"
    ),
}
# The wood says where; the sentence says what kind of trouble it is.
CARCASS: tuple[tuple[type[CarcassError], Promise], ...] = (
    (ProfileError, _("the side profile cannot be built")),
    (WallsMeetError, _("the walls meet before they reach the bottom or the top")),
    (NoInsideError, _("nothing is left inside the walls")),
    (JointError, _("the panels cannot be joined so")),
    (PlacementError, _("something does not fit where it is put")),
    (SheetError, _("a piece cannot be cut from the sheet")),
    (CavityError, _("the cavity cannot be used so")),
    (CarcassError, _("the carcass cannot be built")),
)


def trouble(error: AcousticsError, show: Show) -> str:
    """Return the reason without a full stop; `show` puts a figure in the reader's units."""
    if isinstance(error, MissingError):
        return gettext("not known: %(names)s") % {"names": names(error.missing)}
    if isinstance(error, FitError):
        given = show(_plain(error.value), error.unit)
        if error.reason == "uncertain":
            given = names(given.split(", "))
        return str(FITS[error.reason]).format(
            value=given, limit=show(_plain(error.limit), error.unit)
        )
    if isinstance(error, CarcassError):
        words = next(words for kind, words in CARCASS if isinstance(error, kind))
        return f"{words}: {wood_says(error, show) or error}"
    if isinstance(error, OutOfRangeError | ContradictionError | NoSolutionError):
        return str(_SENTENCES[_kind(error)]) % {
            "name": figure_name(error.name),
            "value": show(_plain(error.value), error.unit),
            "limit": _limit(error.limit, error.unit, show),
        }
    return str(error)


def names(missing: Sequence[str]) -> str:
    """Say the names of figures one after the other."""
    return ", ".join(figure_name(one) for one in missing)


def sentence(words: str) -> str:
    """Make a sentence of a reason."""
    return f"{capfirst(words)}."


_SENTENCES: dict[str, Promise] = {
    "out-of-range": _("%(name)s: %(value)s; asked for: %(limit)s"),
    "contradiction": _("%(name)s is given as %(value)s, but the other figures ask for %(limit)s"),
    "no-solution": _("%(name)s: %(value)s is out of reach; the nearest is %(limit)s"),
    "port-does-not-tune": _(
        "this opening cannot be tuned to %(value)s: without any length it reaches %(limit)s; take "
        "a larger opening or more litres"
    ),
}


def _kind(error: AcousticsError) -> str:
    if isinstance(error, PortFitError):
        return "port-does-not-tune"
    if isinstance(error, NoSolutionError):
        return "no-solution"
    return "contradiction" if isinstance(error, ContradictionError) else "out-of-range"


def _plain(value: object) -> float | str | None:
    if value is None or isinstance(value, str):
        return value
    try:
        return float(value)  # type: ignore[arg-type]
    except (TypeError, ValueError):
        return str(value)


def _limit(limit: object, unit: str, show: Show) -> str:
    if not isinstance(limit, str):
        return show(_plain(limit), unit)
    if limit in LIMITS:
        return str(LIMITS[limit])
    if found := BETWEEN.fullmatch(limit):
        low, high = show(float(found["low"]), unit), show(float(found["high"]), unit)
        return gettext("%(low)s to %(high)s") % {"low": low, "high": high}
    if found := BELOW.fullmatch(limit):
        return gettext("less than %(limit)s") % {"limit": show(float(found["high"]), unit)}
    if found := AT_LEAST.fullmatch(limit):
        return gettext("at least %(limit)s") % {"limit": show(float(found["low"]), unit)}
    return limit
