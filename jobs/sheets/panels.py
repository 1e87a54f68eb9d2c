"""The panels sheet."""

from __future__ import annotations

from typing import Any

from jobs.design.job import JobDesign
from jobs.drawings import pictures


def context(design: JobDesign) -> dict[str, Any]:
    """Gather what the sheet prints."""
    return {"boxes": [pictures.box(one, size="paper") for one in design.boxes if one.box.chosen]}
