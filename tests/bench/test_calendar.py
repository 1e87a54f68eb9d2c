"""What a full week of the calendar costs."""

from __future__ import annotations

import pytest
from django.urls import reverse

from tests.bench.clock import cost
from tests.jobs.week import MONDAY, fill_week

pytestmark = [pytest.mark.bench, pytest.mark.django_db]


def test_a_week_of_fifty_jobs(cast, browse):
    """Fifty jobs, each three days of one of six people: the whole page in 100 ms of CPU.

    That is five times what six people can do in a week.
    """
    fill_week(cast.manager, jobs=50, people=6, hands=1)
    client, url = browse("manager"), f"{reverse('calendar')}?day={MONDAY}"
    client.get(url)
    spent = cost(lambda: client.get(url))
    print(f"\na week of 50 jobs and 6 people: {spent}")
    assert spent.nominal < 0.100
