"""Cover that is to come for many jobs: of each material and state, how many metres of its roll."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from jobs.design.box.boxes import wood_of
from jobs.design.records.covered import Covered, load_covered
from jobs.design.wood.trim import TrimResult, panel_result, rolls_of
from jobs.models import Cover, EquipmentItem, Job, TrimPanel

State = EquipmentItem.State


@dataclass(frozen=True, kw_only=True)
class CoverOrder:
    """One cover material of a job: the panels it is for, and its metres, None while not known."""

    job: Job
    cover: Cover
    state: State
    panels: tuple[TrimPanel, ...]
    metres: Decimal | None

    @property
    def key(self) -> str:
        """What its tick sends."""
        return f"{self.job.pk}-{self.cover.pk}-{self.state}"

    @property
    def says(self) -> str:
        """How far it has got, as people call it."""
        return str(self.state.label)


def cover_orders(jobs: Iterable[Job], states: Collection[str]) -> list[CoverOrder]:
    """Return what covers the panels of these jobs, as far as it is in one of these states."""
    orders = (order for covered in load_covered(jobs) for order in _of_job(covered))
    return [order for order in orders if order.state in states]


def _of_job(covered: Covered) -> Iterator[CoverOrder]:
    boxes = {box.pk: wood_of(box) for box in covered.boxes}
    sorted_out: dict[tuple[Cover, str], list[TrimResult]] = defaultdict(list)
    for number, panel in enumerate(covered.panels, start=1):
        assert panel.cover is not None  # or it would not have been read
        result = panel_result(panel, f"T{number}", boxes, covered.equipment)
        sorted_out[panel.cover, panel.cover_state].append(result)
    for (cover, state), trims in sorted_out.items():
        panels = tuple(trim.record for trim in trims if isinstance(trim.record, TrimPanel))
        yield CoverOrder(
            job=covered.job, cover=cover, state=State(state), panels=panels, metres=_metres(trims)
        )


def _metres(trims: Sequence[TrimResult]) -> Decimal | None:
    """What they take of one roll together; None where one cannot be cut or is wider than it."""
    orders = rolls_of(trims) if all(trim.cover for trim in trims) else []
    lengths = [None if o.left_out or o.roll is None else o.roll.order for o in orders]
    if not lengths or None in lengths:
        return None
    return Decimal(round(sum(length or 0.0 for length in lengths) * 10)) / 10
