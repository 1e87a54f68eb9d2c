"""The damping of a job: how much of each material, how many sheets to order, how heavy."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.models import Damping, DampingLayer

SECTION = "panels"
# A figure that is a whole number of sheets stays one, whatever the last digit of a product is.
ROUNDING = 1e-9


@dataclass(frozen=True, kw_only=True)
class DampingOrder:
    """One material: every layer of it, and what is on the equipment list."""

    part: Damping
    layers: Sequence[DampingLayer]
    listed: int

    @property
    def area(self) -> float | None:
        """How much of it is fitted [m²]; None while one layer of it is not measured."""
        return _sum(layer.fitted for layer in self.layers)

    @property
    def mass(self) -> float | None:
        """How heavy that is [kg]."""
        return _sum(layer.mass for layer in self.layers)

    @property
    def sheets(self) -> int | None:
        """Whole sheets to order; what is cut away is not counted."""
        if self.area is None or not self.part.sheet_area:
            return None
        return math.ceil(self.area / self.part.sheet_area - ROUNDING)


def work_out_damping(records: JobRecords) -> list[DampingOrder]:
    """Gather the layers of all panels by their material."""
    there = {panel.pk for panel in records.panels}
    layers = [layer for layer in records.damping if layer.panel_id in there]
    return [
        DampingOrder(
            part=part,
            layers=[layer for layer in layers if layer.part_id == part.pk],
            listed=sum(item.quantity for item in records.equipment if item.part_id == part.pk),
        )
        for part in {layer.part_id: layer.part for layer in layers}.values()
    ]


def _sum(figures: Iterable[float | None]) -> float | None:
    known = list(figures)
    return None if None in known else sum(figure for figure in known if figure is not None)


def check_damping(orders: Sequence[DampingOrder]) -> Iterator[Finding]:
    """Say what cannot be ordered yet, and where the list has fewer sheets than the plan."""
    for order in orders:
        if order.sheets is None:
            yield _finding("damping-unknown", order)
        elif not order.listed:
            yield _finding("damping-not-listed", order, float(order.sheets))
        elif order.listed < order.sheets:
            yield _finding("damping-short", order, float(order.listed), float(order.sheets))


def _finding(
    code: str, order: DampingOrder, value: float | None = None, limit: float | None = None
) -> Finding:
    return Finding(
        code=code,
        severity="look",
        section=SECTION,
        about=about(order.part),
        name=str(order.part),
        value=value,
        limit=limit,
    )
