"""The hand-over: what the customer keeps in the glove box."""

from __future__ import annotations

from typing import Any

from jobs.design.job.whole import JobDesign
from jobs.drawings.wiring import wiring_pictures


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the one picture the sheet begins with."""
    return {"signal": wiring_pictures.signal(design)}
