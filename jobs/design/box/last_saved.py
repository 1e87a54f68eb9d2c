"""A box as it was saved last, worked out once: it stands beside every key somebody strikes.

It is known again by every figure it is worked out from, so that a figure changed anywhere, in the
catalogue or on the channel plan too, works it out anew.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from dataclasses import dataclass, field
from functools import lru_cache

from django.db.models import Model
from django.utils.translation import get_language

from jobs.design.box.boxes import BoxResult, work_out_box
from jobs.design.box.channel_feed import Feed
from jobs.design.box.drivers import Measured
from jobs.models import Box, Channel, EquipmentItem

# As many people as type at once, and some more.
REMEMBERED = 16


@dataclass(frozen=True, kw_only=True)
class _Saved:
    """A box with what it is worked out from; equal when every figure of both is."""

    figures: Hashable
    box: Box = field(compare=False)
    feed: Feed
    measured: Measured = field(compare=False)
    proposed: Channel | None = field(compare=False)


def work_out_saved(
    box: Box, feed: Feed, measured: Measured, *, proposed: Channel | None
) -> BoxResult:
    """Work a saved box out, or remember what it came to."""
    figures = (
        tuple(_figures(box, proposed)),
        tuple(sorted(measured.items())),
        get_language(),
    )
    saved = _Saved(figures=figures, box=box, feed=feed, measured=measured, proposed=proposed)
    return _worked_out(saved)


@lru_cache(maxsize=REMEMBERED)
def _worked_out(saved: _Saved) -> BoxResult:
    return work_out_box(saved.box, saved.feed, saved.measured, proposed=saved.proposed)


def _figures(box: Box, proposed: Channel | None) -> Iterator[Hashable]:
    """Every figure and every word of the rows a box is worked out from."""
    rows = (box, box.channel, proposed, box.material, *_fitted(box.driver), *_fitted(box.radiator))
    for row in rows:
        yield None if row is None else _values(row)
    for name in box.lists():
        # Lists in lists: their text is as good as they are.
        yield repr(getattr(box, name))


def _fitted(item: EquipmentItem | None) -> tuple[Model | None, ...]:
    """A piece of equipment and what it is by the catalogue."""
    return (item, getattr(item.part, "driver", None) if item else None)


def _values(row: Model) -> Hashable:
    return tuple(
        value if isinstance(value, Hashable) else repr(value)
        for kept in row._meta.concrete_fields
        for value in (getattr(row, kept.attname),)
    )
