"""What three options of a job side by side cost beyond what working them out costs."""

from __future__ import annotations

from decimal import Decimal

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.options.side_by_side import work_out_options
from jobs.design.records.data import from_data, to_data
from jobs.drawings.box.compare_pictures import comparison_charts
from jobs.drawings.wood.wood_pictures import of_options
from jobs.models import Job, PriceLine, Stage
from jobs.options import keep
from tests.bench.clock import cost

pytestmark = [pytest.mark.bench, pytest.mark.django_db]


def test_three_options_of_sixty_lines(hatchback):
    """Read, held side by side and drawn: 120 ms of CPU beyond what their calculators take.

    Called from here, not through the page: where a stack of CPython 3.11 goes on in another piece
    of memory every call takes longer, which says nothing about either.
    """
    job = hatchback.job
    Job.objects.filter(pk=job.pk).update(stage=Stage.SPEC)
    lines = [PriceLine(job=job, text=f"line {n}", each=Decimal(n)) for n in range(60)]
    PriceLine.objects.bulk_create(lines)
    options = [keep(job, f"Option {number}") for number in range(3)]
    design = work_out(load(Job.objects.get(pk=job.pk)))
    records = [from_data(to_data(design.records)) for _option in options]

    def calculators():
        for copy in records:
            worked_out = work_out(copy)
            assert worked_out.price.total
            assert worked_out.masses.net

    def page():
        side_by_side = work_out_options(options, design)
        comparison_charts(side_by_side.comparison, "half")
        of_options(side_by_side)

    spent, alone = cost(page), cost(calculators)
    print(f"\nthree options of 60 lines: {spent}; their calculators: {alone}")
    assert len(design.price.lines) > 60
    assert spent.nominal - alone.nominal < 0.120
