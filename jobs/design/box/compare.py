"""Up to four boxes of a job held against each other, all fed as the first of them is."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from django.utils.translation import gettext as _

from acoustics.circuit.limits import CleanLevel, clean_level
from acoustics.circuit.solver import Sweep, sweep
from acoustics.errors import AcousticsError
from jobs import units
from jobs.design.box.boxes import BoxResult
from jobs.design.box.cabin import Cabin
from jobs.design.box.figures import FREQUENCIES, Figure, Floats

MOST = 4
LETTERS = "ABCD"
# What a kind of box does not have; a figure it has and nobody knows is shown as units do.
NONE = "–"
# Where levels are read off for the table: common practice, no source.
LEVELS_AT = (30.0, 40.0, 60.0)
NBSP = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True, kw_only=True)
class Candidate:
    """One box of a comparison, played by the channel they share."""

    letter: str
    result: BoxResult
    played: Sweep
    loud: CleanLevel | None
    called: str  # the box, or what it is an option of

    @property
    def name(self) -> str:
        """What its curves are called: two boxes may bear the same name."""
        return f"{self.letter} {self.called}"

    def at(self, curve: Floats, frequency: float) -> float:
        """Read one of its curves off at a frequency."""
        return float(np.interp(np.log(frequency), np.log(FREQUENCIES), curve))


@dataclass(frozen=True, kw_only=True)
class Row:
    """One line of the table: what it is, and (candidate, value) for each of them."""

    label: str
    cells: Sequence[tuple[str, str]]

    @property
    def of_all(self) -> str | None:
        """What every box has alike, said once."""
        values = {value for _name, value in self.cells}
        return values.pop() if len(values) == 1 else None


@dataclass(frozen=True, kw_only=True)
class Comparison:
    """Up to four candidates; a box that could not be worked out is named with its reason."""

    candidates: Sequence[Candidate]
    # Of the first one: its amplifier's voltage, cable and filters, for all of them.
    voltage: float
    has_filters: bool
    cabin: Cabin
    rows: Sequence[Row]
    # (name, reason) of each box that was asked for and cannot be shown
    left_out: Sequence[tuple[str, str]]

    @property
    def is_one(self) -> bool:
        """Whether there is anything to compare."""
        return len(self.candidates) > 1


def picked(results: Sequence[BoxResult], keys: Iterable[str]) -> list[BoxResult]:
    """Return the boxes whose keys were ticked, or without any ticks the first four."""
    wanted = set(keys)
    return [result for result in results if str(result.box.pk) in wanted] or list(results[:MOST])


def compare(results: Sequence[BoxResult], cabin: Cabin) -> Comparison:
    """Compare the first four of these boxes, fed as the first one is."""
    usable = [result for result in results if result.driver is not None and result.load is not None]
    left_out = [
        (result.box.name, result.trouble or _("It has no driver."))
        for result in results
        # By what it is: two options of a job may hold equal boxes.
        if not any(result is other for other in usable)
    ]
    left_out += [(result.box.name, _("Only four fit side by side.")) for result in usable[MOST:]]
    candidates = [
        _candidate(letter, result, fed_as=usable[0])
        for letter, result in zip(LETTERS, usable, strict=False)
    ]
    return Comparison(
        candidates=candidates,
        voltage=usable[0].voltage if usable else 0.0,
        has_filters=bool(usable and usable[0].feed.filters),
        cabin=cabin,
        rows=_rows(candidates),
        left_out=left_out,
    )


def _candidate(letter: str, result: BoxResult, *, fed_as: BoxResult) -> Candidate:
    assert result.driver is not None
    assert result.load is not None
    alone = sweep(
        driver=result.driver,
        box=result.load,
        frequencies=FREQUENCIES,
        voltage=fed_as.voltage,
        series_resistance=fed_as.feed.series_resistance,
    )
    own = result.feed
    try:
        loud = clean_level(alone, amplifier_voltage=own.voltage, amplifier_current=own.current)
    except AcousticsError:
        loud = None  # nothing is known that could limit it
    played = alone.at(frequencies=FREQUENCIES, filters=fed_as.feed.filters)
    return Candidate(letter=letter, result=result, played=played, loud=loud, called=result.box.name)


def _rows(candidates: Sequence[Candidate]) -> list[Row]:
    """Put what a customer asks for first, then the figures, then what limits them.

    Figures that belong together share a line: all of it has to stand on one printed page.
    """
    figures = [
        {figure.name: figure for figure in candidate.result.figures} for candidate in candidates
    ]

    def of(*names: str) -> list[str]:
        return [_together([figure[name] for name in names if name in figure]) for figure in figures]

    at = _listed(LEVELS_AT, "frequency", exact=True)
    lines: list[tuple[str, list[str]]] = [
        (_("kind"), [candidate.result.box.get_kind_display() for candidate in candidates]),
        (_("driver"), [_driver(candidate) for candidate in candidates]),
        (_("outside"), [_outside(candidate) for candidate in candidates]),
        (_("net volume, and that wanted"), [_litres(candidate.result) for candidate in candidates]),
        (_("resonance fc, or tuning fb"), of("fc", "fb")),
        (_("Qtc, losses included"), of("qtc")),
        (_("port length"), of("port_length")),
        (_("3, 6 and 10 dB down at"), of("f3", "f6", "f10")),
        (
            _("level at %(f)s") % {"f": at},
            [_levels(candidate, candidate.played.spl) for candidate in candidates],
        ),
        (
            _("largest clean level at %(f)s") % {"f": at},
            [
                _levels(candidate, candidate.loud.spl if candidate.loud else None)
                for candidate in candidates
            ],
        ),
        (
            _("largest cone travel, and Xmax"),
            [_travel(candidate.played) for candidate in candidates],
        ),
        (_("fastest air in the port"), [_air(candidate.played) for candidate in candidates]),
        (_("lowest impedance"), of("lowest_impedance")),
        (_("stops, looks"), [_said(candidate.result) for candidate in candidates]),
    ]
    names = [candidate.name for candidate in candidates]
    return [
        Row(label=label, cells=list(zip(names, values, strict=True)))
        for label, values in lines
        if set(values) != {NONE}
    ]


def _litres(result: BoxResult) -> str:
    """What the box has, and what was wanted of it where something was."""
    wanted = result.box.wanted_volume
    values = [result.net_volume] if wanted is None else [result.net_volume, wanted]
    return NONE if values == [None] else _listed(values, "volume")


def _together(figures: Sequence[Figure]) -> str:
    return _listed([figure.value for figure in figures], figures[0].kind) if figures else NONE


def _listed(
    values: Sequence[float | None], kind: str, between: str = " / ", *, exact: bool = False
) -> str:
    """Write figures of one kind in a row, their unit once where they share it."""
    shown = [units.show(value, kind, exact=exact) for value in values]
    parts = [text.rpartition(NBSP) for text in shown]
    shared = {unit for _number, gap, unit in parts if gap}
    if len(shared) != 1:
        return between.join(shown)
    numbers = [
        number if gap else text for (number, gap, _unit), text in zip(parts, shown, strict=True)
    ]
    return between.join(numbers) + NBSP + shared.pop()


def _levels(candidate: Candidate, curve: Floats | None) -> str:
    if curve is None:
        return units.UNKNOWN
    return _listed([candidate.at(curve, frequency) for frequency in LEVELS_AT], "level")


def _travel(played: Sweep) -> str:
    xmax = played.driver.xmax
    return _listed([float(played.excursion.max()), None if xmax is None else float(xmax)], "length")


def _air(played: Sweep) -> str:
    return (
        NONE if played.port_speed is None else units.show(float(played.port_speed.max()), "speed")
    )


def _driver(candidate: Candidate) -> str:
    box = candidate.result.box
    part = str(box.driver.part) if box.driver else ""
    count = f"{box.driver_count} × {part}" if box.driver_count > 1 else part
    return count + ", " + _("isobaric pair") if box.isobaric else count


def _outside(candidate: Candidate) -> str:
    """Width, height and depth of a box that has wood."""
    box = candidate.result.box
    wood, sizes = candidate.result.wood, (box.width, box.height, box.depth)
    if wood is None:
        return units.UNKNOWN
    if None in sizes:  # of a profile or a plan, which says them itself
        left, low, right, high = wood.carcass.profile.polygon.bounds
        sizes = (wood.carcass.width, high - low, right - left)
    return _listed(sizes, "length", " × ", exact=True)


def _said(result: BoxResult) -> str:
    counts = [
        sum(finding.severity == kind for finding in result.findings) for kind in ("stop", "look")
    ]
    return f"{counts[0]}, {counts[1]}"
