"""What a workshop of many years costs: 50 000 jobs, two million rows, on either database."""

from __future__ import annotations

import random
from collections.abc import Iterator

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.models import Job, Vehicle, Word
from tests.bench.clock import Cost, cost
from tests.bench.years import Years

pytestmark = [pytest.mark.bench, pytest.mark.django_db]
ROWS = 40  # of each job on average, its history and words among them
MODELS = 200  # of cars
# What a page takes at most, that of a job with a row of every kind too [s].
PAGE = 0.06
# A word of one job, one of half of them, beginnings, several together, one of every copied part.
LOOKED_FOR = ["1001", "boot", "ka", "k", "boot ka", "door l t", "panel"]
# Letters make every beginning common: 20 syllables give each of them a twentieth of the words.
SYLLABLES = [a + b for a in "klmnt" for b in "aeio"]


def _titles(number: int) -> Iterator[bytes]:
    draw = random.Random(number)
    for _ in range(6):
        yield "".join(draw.choice(SYLLABLES) for _ in range(3)).encode()
    yield draw.choice([b"boot", b"door"])
    yield b"%d" % number


def _fill(job: Job, count: int) -> tuple[Job, int]:
    """Write jobs with titles of their own, some of them whole; returns the last of these."""
    cars = Vehicle.objects.bulk_create(
        (
            Vehicle(customer=job.vehicle.customer, maker="Invented", model=f"Kite {n % MODELS}")
            for n in range(count)
        ),
        batch_size=5_000,
    )
    jobs = Job.objects.bulk_create(
        (
            Job(
                number=number,
                vehicle=car,
                title="Bass",
                stage=job.stage,
                open_stops=0,
                open_looks=1,
            )
            for number, car in enumerate(cars, 1_000)
        ),
        batch_size=5_000,
    )
    words = Word.objects.bulk_create(
        (
            Word(shelf=Word.Shelf.JOB, kind="job", key=row.pk, word=word)
            for row in jobs
            for word in set(_titles(row.number))
        ),
        batch_size=5_000,
    )
    years = Years(job)
    plain = len(cars) + len(jobs) + len(words)
    whole = (ROWS * count - plain) // years.rows
    step = count // whole
    years.write(jobs[0].pk, whole, step)
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")
    return jobs[(whole - 1) * step], plain + whole * years.rows


def _beside() -> int | None:
    """The process that answers this one's questions, where it is another."""
    if connection.vendor != "postgresql":
        return None
    with connection.cursor() as cursor:
        cursor.execute("SELECT pg_backend_pid()")
        return int(cursor.fetchone()[0])


@pytest.mark.parametrize("count", [5_000, pytest.param(50_000, marks=pytest.mark.long)])
def test_nobody_minds_how_many_jobs_there_are(hatchback, browse, count) -> None:
    """Board, job and search: 60 ms of CPU, the database's too; no more questions than before."""
    client, beside = browse("manager"), _beside()

    def asked(page: str) -> Cost:
        spent = cost(lambda: client.get(page), beside=beside)
        print(f"{page}: {spent}, {_questions(client, page)} questions")
        return spent

    alone = reverse("job", args=[hatchback.code])
    few, before = [_questions(client, page) for page in ("/", alone)], asked(alone)
    assert before.nominal < PAGE
    last, rows = _fill(hatchback.job, count)
    print(f"\n{connection.vendor}, {count} jobs, {rows} rows")
    assert rows > 0.9 * ROWS * count
    among = reverse("job", args=[last.code])
    assert [_questions(client, page) for page in ("/", among)] == few
    assert asked(among).turns < 1.3 * before.turns
    searches = [f"{reverse('search')}?q={q}" for q in LOOKED_FOR]
    spent = {page: asked(page) for page in ["/", *searches]}
    assert {page: str(cost) for page, cost in spent.items() if cost.nominal >= PAGE} == {}


def _questions(client, page: str) -> int:
    """How often a page asks the database."""
    assert client.get(page).status_code == 200
    with CaptureQueriesContext(connection) as asked:
        client.get(page)
    return len(asked)
