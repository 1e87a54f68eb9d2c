"""Linking the rows of a job to each other in memory, and to what jobs share."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from functools import cache
from itertools import chain
from typing import Any, TypeVar

from django.db.models import Model

from jobs.compiled import compiled
from jobs.models import (
    BoxAsBuilt,
    BoxSweep,
    ChannelCurve,
    ChannelSetting,
    Conductor,
    Cover,
    Damping,
    Fixing,
    Fuse,
    Holder,
    Panel,
    PanelContent,
    Part,
    Photo,
    Record,
    Run,
    SheetMaterial,
    Terminal,
    User,
)

B = TypeVar("B", BoxSweep, BoxAsBuilt)
C = TypeVar("C", ChannelCurve, ChannelSetting)

# What the rows of many jobs share: parts of the catalogue, but for equipment, and people. A clip is
# named by the notes about it even when it was removed.
_SHARED: tuple[Any, ...] = (
    *(Conductor, Terminal, Fuse, Holder, SheetMaterial, Cover, Damping, Fixing, User),
)


def link(row: Any, name: str, rows: dict[Any, Any]) -> None:
    """Point a foreign key at the row already read; a removed row is nobody's."""
    setattr(row, name, rows.get(getattr(row, f"{name}_id")))


def name_by_panel(rows: Sequence[Photo | PanelContent], panels: dict[int, Panel]) -> None:
    """Link what bears the name of its panel; of a removed one it waits for that to come back."""
    for row in rows:
        if row.panel_id in panels:
            row.panel = panels[row.panel_id]


def of_channels(rows: Iterable[C], channels: Any) -> list[C]:
    """What was measured or set; of a channel that was removed it waits for that to come back."""
    there = [row for row in rows if row.channel_id is None or row.channel_id in channels]
    for row in there:
        link(row, "channel", channels)
    return there


def of_boxes(rows: Iterable[B], boxes: Any) -> list[B]:
    """What was measured on a box; of one that was removed it waits for that to come back."""
    there = [row for row in rows if row.box_id in boxes]
    for row in there:
        link(row, "box", boxes)
    return there


def link_run(run: Run, nodes: Any, channels: Any, grounds: Any, panels: Any) -> None:
    """Link a run to its ends, its channel and the panels it passes."""
    link(run, "start", nodes)
    link(run, "end", nodes)
    link(run, "channel", channels)
    link(run, "return_start", grounds)
    link(run, "return_end", grounds)
    for stretch in run.stretches.all():
        link(stretch, "panel", panels)


def link_shared(
    *lists: Sequence[Record], kinds: Sequence[Any] = _SHARED, at_hand: Sequence[Part] = ()
) -> None:
    """Point rows at the parts they take, removed or not, and at people: a query for each kind.

    Joined to each row instead, a run alone brought eighteen tables with it. Parts that were read
    already are not read again; of other `kinds` a part is read when it is asked for.
    """
    read: dict[Any, dict[Any, Any]] = defaultdict(dict)
    for part in at_hand:
        read[type(part)][part.pk] = part
    pointing: dict[Any, list[tuple[Record, str, int]]] = {model: [] for model in kinds}
    for row in chain.from_iterable(lists):
        for model, name, attname in _points_at(type(row)):
            if model in pointing and (key := getattr(row, attname)) is not None:
                pointing[model].append((row, name, key))
    for model, places in pointing.items():
        lacking = {key for _row, _name, key in places} - read[model].keys()
        shared = read[model] | {row.pk: row for row in _with_keys(model)(lacking)}
        for row, name, key in places:
            setattr(row, name, shared[key])


@cache
def _with_keys(model: type[Model]) -> Callable[[Iterable[int]], list[Any]]:
    """What reads the rows that have these keys, removed or not."""
    return compiled(lambda keys: model._base_manager.filter(pk__in=keys))


@cache
def _points_at(model: type[Record]) -> list[tuple[Any, str, str]]:
    """The fields of a model that lead to what jobs share: what they lead to, and their names."""
    fields_ = model._meta.concrete_fields
    return [(f.related_model, f.name, f.attname) for f in fields_ if f.related_model in _SHARED]
