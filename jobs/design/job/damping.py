"""The damping of a job: how much of each material, how many sheets to order, how heavy."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.records.records import JobRecords
from jobs.models import Damping, DampingLayer, EquipmentItem

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


def _sum(figures: Iterator[float | None]) -> float | None:
    known = list(figures)
    return None if None in known else sum(figure for figure in known if figure is not None)


def check_damping(records: JobRecords, orders: Sequence[DampingOrder]) -> Iterator[Finding]:
    """Say what cannot be ordered yet, and where the list has fewer sheets than the plan."""
    for order in orders:
        item = _listed(records, order)
        here = {"section": SECTION, "about": about(order.part), "name": str(order.part)}
        if order.sheets is None:
            yield Finding(code="damping-unknown", severity="look", **here)
        elif item is None:
            yield Finding(
                code="damping-not-listed", severity="look", value=float(order.sheets), **here
            )
        elif order.listed < order.sheets:
            yield Finding(
                code="damping-short", severity="look", value=float(order.listed),
                limit=float(order.sheets), **here,
            )  # fmt: skip


def _listed(records: JobRecords, order: DampingOrder) -> EquipmentItem | None:
    rows = [item for item in records.equipment if item.part_id == order.part.pk]
    return rows[0] if rows else None
