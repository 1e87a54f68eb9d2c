"""A chart as a page takes it: drawn, and the same in figures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.safestring import SafeString

from jobs.drawings.pencil.chart import Chart, chart, data_table
from jobs.quantities.numbers import localized

TABLE_AT = (20, 25, 31.5, 40, 50, 63, 80, 100, 160, 250, 400)


@dataclass(frozen=True, kw_only=True)
class ChartPicture:
    """A drawn chart with the same in figures."""

    title: str
    drawing: SafeString
    head: Sequence[str]
    rows: Sequence[Sequence[str]]


def picture(spec: Chart, at: Sequence[float] = TABLE_AT) -> ChartPicture:
    """Draw a chart, with the same in figures at some places of it."""
    head, rows = data_table(spec, at)
    return ChartPicture(
        title=spec.title,
        drawing=chart(spec),
        head=head,
        rows=[["–" if v is None else localized(f"{v:.4g}") for v in row] for row in rows],
    )
