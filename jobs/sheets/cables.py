"""The cable sheet: what to order, cut and crimp, which fuse protects what, and every run."""

from __future__ import annotations

from typing import Any

from jobs.design.job.whole import JobDesign
from jobs.design.wiring.grounds import work_out_grounds
from jobs.design.wiring.schedule import work_out_schedule


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the lists that are made from the runs."""
    records = design.records
    return {
        "schedule": work_out_schedule(records, design.power, records.workshop),
        "grounds": work_out_grounds(records, design.power),
        "joins": records.joins,
    }
