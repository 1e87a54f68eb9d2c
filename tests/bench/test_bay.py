"""What a tick costs on a car of 40 panels, and what its page does."""

from __future__ import annotations

from itertools import cycle

import pytest
from django.urls import reverse

from tests.bench.clock import cost
from tests.jobs.pages.bay.large_car import make_large_car

pytestmark = [pytest.mark.bench, pytest.mark.django_db]
TICK, PAGE = 0.05, 0.6  # s of CPU


def test_a_tick_does_not_mind_how_large_the_car_is(hatchback, cast, browse) -> None:
    """On 40 panels with 300 steps and 120 photos a tick takes less than 50 ms of CPU."""
    job, client = hatchback.job, browse("installer")
    make_large_car(job, cast.installer)
    step = job.panelsteps.filter(done_at=None).last()
    assert step is not None
    url, wanted = reverse("tick", args=[job.code, step.pk]), cycle("10")

    def tick() -> None:
        answer = client.post(url, {"done": next(wanted)}, headers={"HX-Request": "true"})
        assert answer.status_code == 200

    spent = cost(tick, calls=4)
    print(f"\na tick on a large car: {spent}")
    assert spent.nominal < TICK


def test_the_page_of_a_large_car(hatchback, cast, browse) -> None:
    """Its page is written in less than 600 ms of CPU, so that it is painted within a second."""
    make_large_car(hatchback.job, cast.installer)
    client, url = browse("installer"), reverse("bay", args=[hatchback.code])
    spent = cost(lambda: client.get(url))
    print(f"\nthe bay of a large car: {spent}")
    assert spent.nominal < PAGE
