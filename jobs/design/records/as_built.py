"""Lay what was really done over what was designed: checks, pages and sheets read the car as it is.

The designed row is kept beside, as `designed`: what it says is what was planned, and no more.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from copy import copy
from dataclasses import dataclass
from typing import Any

from django.db.models import Field, Model
from django.utils.text import capfirst
from django.utils.timezone import localtime
from django.utils.translation import gettext as _

from jobs import units
from jobs.models import (
    DriverSweep,
    EquipmentItem,
    FactoryAsBuilt,
    FactoryPart,
    ItemAsBuilt,
    Panel,
    Run,
    RunAsBuilt,
    Stretch,
)

# A row of the design, and what was really done.
Built = EquipmentItem | FactoryPart | Run
AsBuilt = FactoryAsBuilt | ItemAsBuilt | RunAsBuilt
# What says how such a row really is, and the field that names the row.
SAYS: dict[type[Model], tuple[type[AsBuilt], str]] = {
    EquipmentItem: (ItemAsBuilt, "item"),
    FactoryPart: (FactoryAsBuilt, "factory_part"),
    Run: (RunAsBuilt, "run"),
}
# Which row: its kind and its key.
Key = tuple[str, Any]


def key_of(row: Model) -> Key:
    """Tell a row from every other, of other kinds too."""
    return type(row).__name__, row.pk


# How a figure of a run is shown.
SHOWN_AS = {"length": "cable_length", "fuse_distance": "span", "end_fuse_distance": "span"}


def runs_as_built(
    runs: Iterable[Run], rows: Iterable[RunAsBuilt], panels: dict[Any, Panel]
) -> list[Run]:
    """Return the runs as they lie in the car."""
    by_run = {row.run_id: row for row in rows}
    return [_run(run, by_run.get(run.pk), panels) for run in runs]


def _run(run: Run, row: RunAsBuilt | None, panels: dict[Any, Panel]) -> Run:
    if row is None:
        return run
    built: Run = _over(run.designed or run, row)
    built.typed_route = stretches(row, panels)
    return built


def stretches(row: RunAsBuilt, panels: dict[Any, Panel]) -> list[Stretch]:
    """Return the route of a run as it was laid."""
    return [
        Stretch(
            run_id=row.run_id,
            panel=panels.get(key),
            place=place,
            follows_loom=loom,
            edge=edge,
            position=position,
        )
        for position, (key, place, loom, edge) in enumerate(row.route, start=1)
        if key in panels or place
    ]


def parts_as_built(
    parts: Iterable[FactoryPart], rows: Iterable[FactoryAsBuilt]
) -> list[FactoryPart]:
    """Return the factory parts with what really became of them."""
    by_part = {row.factory_part_id: row for row in rows}
    return [
        _over(part.designed or part, by_part[part.pk]) if part.pk in by_part else part
        for part in parts
    ]


def equip_as_built(items: Iterable[EquipmentItem], rows: Iterable[ItemAsBuilt]) -> None:
    """Let equipment be what was really fitted, wherever a channel, a box or a node points at it."""
    by_item = {row.item_id: row for row in rows}
    for item in items:
        if row := by_item.get(item.pk):
            item.designed, item.as_built = item.designed or copy(item), row
            for name in row.FIELDS:
                # A row half typed has no part yet: the designed one stays.
                if name != "part" or row.part_id:
                    setattr(item, name, getattr(row, name))


def is_of_former_part(sweep: DriverSweep, item: EquipmentItem) -> bool:
    """Whether a driver was measured before another part took its place."""
    row, designed = item.as_built, item.designed
    if row is None or designed is None or row.part_id == designed.part_id:
        return False
    return sweep.measured_on < localtime(row.done_at).date()


def _over(designed: Any, row: Any) -> Any:
    built = copy(designed)
    for name in row.FIELDS:
        setattr(built, name, getattr(row, name))
    built.designed, built.as_built = designed, row
    return built


@dataclass(frozen=True, kw_only=True)
class Difference:
    """One figure that is not what it was."""

    label: str
    was: str
    now: str


def differences(built: Built) -> Sequence[Difference]:
    """Return what of a row is not as it was designed."""
    if built.designed is None or built.as_built is None:
        return ()
    return between(built.designed, built)


def between(was: Built, now: Built) -> Sequence[Difference]:
    """Return what of a row was one way and is another.

    A part is the same part, whatever has become of its page in the catalogue.
    """
    model, _of = SAYS[type(now)]
    pairs = [
        (str(_field(model, name).verbose_name), said(name, was), said(name, now))
        for name in model.FIELDS
        if _kept(was, name) != _kept(now, name)
    ]
    if isinstance(was, Run) and isinstance(now, Run):
        pairs.append((_("Route"), route_said(was.route), route_said(now.route)))
    return [
        Difference(label=capfirst(label), was=before, now=after)
        for label, before, after in pairs
        if before != after
    ]


def laid_over(designed: Built, row: AsBuilt, panels: dict[Any, Panel]) -> Built:
    """Return a designed row as another one says it really is."""
    if isinstance(designed, Run):
        assert isinstance(row, RunAsBuilt)
        return _run(designed, row, panels)
    built: Built = _over(designed, row)
    return built


def _field(model: type[Model], name: str) -> Field[Any, Any]:
    field = model._meta.get_field(name)
    assert isinstance(field, Field)
    return field


def _kept(row: Model, name: str) -> Any:
    return getattr(row, _field(type(row), name).attname)


def said(name: str, row: Any) -> str:
    """One field of a row as a person reads it."""
    value = getattr(row, name)
    if value is None or value == "":
        return "–"
    if name in SHOWN_AS:
        return units.show(value, SHOWN_AS[name])
    words = getattr(row, f"get_{name}_display", None)
    return str(words() if words else value)


def route_said(route: Iterable[Stretch]) -> str:
    """A route in one line."""
    return " → ".join(str(stretch) for stretch in route) or "–"


def built_otherwise(*lists: Iterable[Built]) -> list[tuple[Built, Sequence[Difference]]]:
    """Return every row that is not as designed, with what differs."""
    rows = [row for listed in lists for row in listed]
    return [(row, differs) for row in rows if (differs := differences(row))]
