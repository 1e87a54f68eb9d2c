"""How far the bay is: steps ticked and figures measured, counted together."""

from __future__ import annotations

import pytest
from django.utils import timezone

from jobs.design.job.stages import state_of, still_open
from jobs.design.job.whole import load, work_out

pytestmark = pytest.mark.django_db


def test_the_bay_counts_ticks_and_measured_figures_together(hatchback):
    """Two steps and one figure are three of all; with every one the signatures are still asked."""
    design = work_out(load(hatchback.job))
    steps, figures = design.records.steps, design.records.measurements

    def bay():
        return state_of("bay", design, still_open(design))

    assert len(steps) >= 2
    assert len(figures) >= 1
    every = len(steps) + len(figures)
    for place, step in enumerate(steps):
        step.done_at = timezone.now() if place < 2 else None
    for place, figure in enumerate(figures):
        figure.value = 1.0 if place < 1 else None
    assert bay().says == f"3 of {every}"
    for step in steps:
        step.done_at = timezone.now()
    assert bay().says == f"{len(steps) + 1} of {every}"
    for figure in figures:
        figure.value = 1.0
    assert (bay().state, bay().says) == ("missing", "open: 4")
