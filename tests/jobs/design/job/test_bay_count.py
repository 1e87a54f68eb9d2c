"""How far the bay is: steps ticked and figures measured, counted together."""

from __future__ import annotations

import pytest
from django.utils import timezone

from jobs.design.job.whole import load, work_out

pytestmark = pytest.mark.django_db


def test_the_bay_counts_ticks_and_measured_figures_together(hatchback):
    """With two steps done and one figure measured it is three of all; with every one it is done."""
    design = work_out(load(hatchback.job))
    steps, figures = design.records.steps, design.records.measurements
    assert len(steps) >= 2
    assert len(figures) >= 1
    every = len(steps) + len(figures)
    for place, step in enumerate(steps):
        step.done_at = timezone.now() if place < 2 else None
    for place, figure in enumerate(figures):
        figure.value = 1.0 if place < 1 else None
    assert design.state_of("bay").says == f"3 of {every}"
    for step in steps:
        step.done_at = timezone.now()
    assert design.state_of("bay").says == f"{len(steps) + 1} of {every}"
    for figure in figures:
        figure.value = 1.0
    assert design.state_of("bay").state != "missing"
