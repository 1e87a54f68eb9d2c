"""Letters to everybody whose car a part is in: what the workshop wrote, and nothing besides."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.template.loader import render_to_string

from jobs.design.job.after.recall import CarWithPart
from jobs.models import Part, User, Workshop
from jobs.sheets import engine


def letters(
    part: Part, cars: Sequence[CarWithPart], text: str, *, by: User, on: date, language: str
) -> bytes:
    """Return one letter for each car, as one PDF."""
    workshop = Workshop.current()
    context = {
        "part": part, "cars": cars, "text": text, "by": by, "on": on, "language": language,
        "workshop": workshop, "paper": workshop.paper,
    }  # fmt: skip
    return engine.render(render_to_string("sheets/recall.html", context))
