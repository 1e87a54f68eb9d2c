"""Options of a whole job side by side: what is heard, what it takes of the car, what it costs."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs import money, units
from jobs.design.box.boxes import BoxResult
from jobs.design.box.cabin import Cabin, cabin_of
from jobs.design.box.compare import Comparison, compare
from jobs.design.job.whole import JobDesign, work_out
from jobs.design.records.data import from_data
from jobs.models import DesignOption, FactoryPart, OptionCopy

MOST = 3
LETTERS = "ABC"
LITRE = 1e-3
# Where the largest clean level is read off: common practice, no source.
HEARD_AT = 40.0
OUT = {FactoryPart.Fate.REPLACED, FactoryPart.Fate.REMOVED}


@dataclass(frozen=True, kw_only=True)
class Side:
    """One option, worked out from what was kept of it."""

    letter: str
    option: DesignOption
    design: JobDesign

    @property
    def bass(self) -> BoxResult | None:
        """The box that plays lowest: the first that is built and could be worked out."""
        boxes = (box for box in self.design.boxes if box.box.chosen and box.load is not None)
        return next(boxes, None)

    @property
    def goes_in(self) -> str:
        """What is fitted, and where."""
        return "; ".join(str(item) for item in self.design.records.equipment)


@dataclass(frozen=True, kw_only=True)
class Options:
    """Up to three options: (label, cells) of each line, and the curves of their boxes."""

    sides: Sequence[Side]
    rows: Sequence[tuple[str, list[str]]]
    comparison: Comparison

    @property
    def goes_in(self) -> list[str]:
        """What is fitted with each of them; once where it is the same with all."""
        every = [side.goes_in for side in self.sides]
        return every[:1] if len(set(every)) == 1 else every

    @property
    def has_text(self) -> bool:
        """Whether anything was written about one of them for the customer."""
        return any(side.option.text for side in self.sides)


def work_out_options(options: Sequence[DesignOption], design: JobDesign) -> Options:
    """Work the first three of these out from their copies; nothing is looked up for it."""
    copies = {copy.option_id: copy for copy in OptionCopy.objects.filter(option__in=options[:MOST])}
    sides = [
        Side(letter=letter, option=option, design=work_out(from_data(copies[option.pk].data)))
        for letter, option in zip(LETTERS, options, strict=False)
    ]
    return Options(
        sides=sides,
        rows=[(str(label), [cell(side) for side in sides]) for label, cell in ROWS],
        comparison=_compared(sides, cabin_of(design.job.vehicle, design.records.cabin_curves)),
    )


def _compared(sides: Sequence[Side], cabin: Cabin) -> Comparison:
    """Curves bear the letters and names of their options, or none are drawn."""
    comparison = compare([side.bass for side in sides if side.bass], cabin)
    if len(comparison.candidates) < len(sides):
        return compare([], cabin)
    named = zip(comparison.candidates, sides, strict=True)
    return replace(
        comparison,
        candidates=[replace(candidate, called=side.option.name) for candidate, side in named],
    )


def _lowest(side: Side) -> str:
    figures = side.bass.figures if side.bass else ()
    lowest = next((figure for figure in figures if figure.name == "f3"), None)
    return units.show(lowest.value, lowest.kind) if lowest else _no_bass(side)


def _no_bass(side: Side) -> str:
    """What stands for a figure of the bass: a box that is built and not worked out is a box."""
    return _("not known") if any(box.box.chosen for box in side.design.boxes) else _("no box")


def _loud(side: Side) -> str:
    if side.bass is None:
        return _no_bass(side)
    compared = compare([side.bass], cabin_of(side.design.job.vehicle, ())).candidates
    loud = compared[0].loud if compared else None
    if loud is None:
        return _("not known")
    level = float(np.interp(np.log(HEARD_AT), np.log(loud.frequencies), loud.spl))
    return units.show(level, "level")


def _litres(side: Side) -> str:
    """The room the wood takes, outside; a box nobody drew takes what nobody knows."""
    built = [box for box in side.design.boxes if box.box.chosen]
    volumes = [box.wood.carcass.outer_volume for box in built if box.wood]
    if len(volumes) < len(built):
        return _("not known")
    return units.show(sum(volumes), "volume")


def _mass(side: Side) -> str:
    masses = side.design.masses
    shown = units.show(masses.net, "mass")
    return _("at least %(mass)s") % {"mass": shown} if masses.unknown else shown


def _current(side: Side) -> str:
    budget = side.design.supply.budget
    return units.show(budget.audio_average, "current") if budget else _("not known")


def _engine_off(side: Side) -> str:
    times = [reserve.time for reserve in side.design.supply.reserves if reserve.time is not None]
    return units.show(min(times), "duration") if times else _("not known")


def _drilled(side: Side) -> str:
    panels = side.design.records.panels
    names = [panel.name for panel in panels if panel.drilled]
    if not names and any(panel.drilled is None for panel in panels):
        return _("not known")
    return ", ".join(names) or _("none noted")


def _goes_back(side: Side) -> str:
    parts = [str(part) for part in side.design.records.factory_parts if part.fate in OUT]
    return ", ".join(parts) or _("nothing")


def _hours(side: Side) -> str:
    tasks = side.design.price.tasks
    hours = sum(task.minutes or 0 for task in tasks) / 60
    shown = units.show(hours * 3600, "duration")
    unknown = any(task.minutes is None for task in tasks)
    return _("at least %(hours)s") % {"hours": shown} if unknown else shown


def _price(side: Side) -> str:
    price = side.design.price
    total = money.show(price.total, price.currency)
    return _("at least %(total)s") % {"total": total} if price.missing else total


ROWS: tuple[tuple[Promise, Callable[[Side], str]], ...] = (
    (gettext_lazy("Lowest note"), _lowest),
    (gettext_lazy("Loudest clean bass, 40 Hz at 1 m"), _loud),
    (gettext_lazy("Room the boxes take"), _litres),
    (gettext_lazy("Heavier by"), _mass),
    (gettext_lazy("Current while it plays"), _current),
    (gettext_lazy("Plays with the engine off"), _engine_off),
    (gettext_lazy("Panels that are drilled"), _drilled),
    (gettext_lazy("Taken out, and can go back"), _goes_back),
    (gettext_lazy("Work"), _hours),
    (gettext_lazy("Price with tax"), _price),
)
