"""What a job, a choice and the sheets cost, measured in one run and printed."""

from __future__ import annotations

import pytest

from jobs import sheets, units
from jobs.design.job.whole import load, work_out
from jobs.design.wiring.choose import choose_parts
from jobs.models import Conductor, Fuse, SheetKind
from tests.bench.clock import cost

pytestmark = [pytest.mark.bench, pytest.mark.django_db]


def test_a_whole_job_is_worked_out_quickly(hatchback, van, saloon) -> None:
    """Boxes, channels, power tree and findings of a job take less than 50 ms of CPU."""
    for job in (hatchback.job, van.job, saloon.job):
        records = load(job)
        spent = cost(lambda records=records: work_out(records))
        print(f"\n{job} worked out: {spent}")
        assert spent.nominal < 0.05


def test_choosing_answers_while_ticks_change(hatchback, van, saloon) -> None:
    """Cables and fuses of a job are chosen in less than 200 ms of CPU, from a hundred cables."""
    for n in range(90):
        Conductor.objects.create(
            kind="conductor",
            name=f"invented {n}",
            size=f"{2 + n * 0.4:.1f} mm²",
            insulation_temperature=units.kelvin(105),
        )
    cables, fuses = list(Conductor.objects.all()), list(Fuse.objects.all())
    for job in (hatchback.job, van.job, saloon.job):
        power = work_out(load(job)).power
        spent = cost(lambda power=power: choose_parts(power, cables, fuses))
        print(f"\n{job}, parts chosen: {spent}")
        assert spent.nominal < 0.2


def test_three_sheets_print_in_three_seconds(hatchback) -> None:
    """The build sheet, the panel record and the hand-over of a job take 3 s together."""
    if reason := sheets.unavailable():
        pytest.skip(reason)
    design = work_out(load(hatchback.job))

    def print_all() -> None:
        for kind in (SheetKind.BUILD, SheetKind.PANELS, SheetKind.HANDOVER):
            sheets.draft(design, kind, sheets.Options())

    spent = cost(print_all, times=3)
    print(f"\nthree sheets: {spent}")
    assert spent.nominal < 3.0
