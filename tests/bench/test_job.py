"""What a page, the board and the sheets cost, measured in one run and printed."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest
from django.urls import reverse

from jobs import sheets, units
from jobs.design.job.whole import load, work_out
from jobs.design.wiring.choose import choose_parts
from jobs.models import Conductor, Fuse, Job, SheetKind, Word
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


def test_the_board_does_not_mind_ten_thousand_jobs(hatchback, browse) -> None:
    """The board of 10 000 jobs takes less than 100 ms of CPU."""
    Job.objects.bulk_create(
        Job(
            number=number,
            vehicle=hatchback.job.vehicle,
            title=f"Job {number}",
            open_stops=0,
            open_looks=1,
        )
        for number in range(1_000, 11_000)
    )
    client = browse("manager")
    spent = cost(lambda: client.get("/"))
    print(f"\nboard of 10 000 jobs: {spent}")
    assert spent.nominal < 0.1


# A word of one job, one of half of them, beginnings, and several together.
LOOKED_FOR = ["1001", "boot", "ka", "k", "boot ka", "door l t"]
# Letters make every beginning common: 20 syllables give each of them a twentieth of the words.
SYLLABLES = [a + b for a in "klmnt" for b in "aeio"]


def _titles(number: int) -> Iterator[bytes]:
    draw = random.Random(number)
    for _ in range(6):
        yield "".join(draw.choice(SYLLABLES) for _ in range(3)).encode()
    yield draw.choice([b"boot", b"door"])
    yield b"%d" % number


@pytest.mark.parametrize("jobs", [5_000, pytest.param(50_000, marks=pytest.mark.long)])
def test_a_search_does_not_mind_how_many_jobs_there_are(hatchback, browse, jobs) -> None:
    """Board, search and job of 50 000 jobs, a few hundred thousand words: 60 ms of CPU each."""
    vehicle = hatchback.job.vehicle
    made = Job.objects.bulk_create(
        (
            Job(number=number, vehicle=vehicle, title="Bass", open_stops=0, open_looks=1)
            for number in range(1_000, 1_000 + jobs)
        ),
        batch_size=5_000,
    )
    shelf = Word.Shelf.JOB
    Word.objects.bulk_create(
        (
            Word(shelf=shelf, kind="job", key=job.pk, word=word)
            for job in made
            for word in set(_titles(job.number))
        ),
        batch_size=5_000,
    )
    client = browse("manager")
    job_page = reverse("job", args=[f"J-{999 + jobs}"])
    for page in ["/", job_page, *(f"{reverse('search')}?q={q}" for q in LOOKED_FOR)]:
        spent = cost(lambda page=page: client.get(page))
        print(f"\n{page} of {jobs} jobs: {spent}")
        assert spent.nominal < 0.06, page
