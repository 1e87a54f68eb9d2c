"""The set-up sheet: what to start from in the driver's seat, with room to write what it became."""

from __future__ import annotations

from typing import Any

from jobs.design.job.whole import JobDesign
from jobs.design.setup.played import rattle_table
from jobs.design.setup.starting import TEST_LEVEL
from jobs.drawings.setup.setup_pictures import sum_charts


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the starting values and the drawn sums."""
    return {
        "setup": design.setup,
        "written": [each for each in design.as_set if each.now is not None],
        "charts": sum_charts(design.setup, "half"),
        "test_level": TEST_LEVEL,
        "rattle": rattle_table(),
    }
