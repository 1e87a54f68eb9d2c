"""The glove box page: what whoever helps the car on the road must know, on one page."""

from __future__ import annotations

from typing import Any

from jobs.design.job.whole import JobDesign
from jobs.sheets.customer.handover import on_the_road


def context(design: JobDesign) -> dict[str, Any]:
    """Gather what is to be isolated, and the fuses."""
    records = design.records
    sources = [node for node in records.nodes if node.is_source]
    return {"sources": sources, **on_the_road(records)}
