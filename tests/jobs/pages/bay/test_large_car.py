"""The page of a car that is taken apart to the last panel asks hardly more than an empty one."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.design.job import board_counts
from tests.jobs.factories import make_job
from tests.jobs.pages.bay.large_car import PANELS, PHOTOS, STEPS, make_large_car

pytestmark = pytest.mark.django_db
MOST_MORE = 15  # queries


def test_forty_panels_ask_little_more_than_none(browse, cast):
    """At most 15 queries more than a job without a panel, and every step and photo is there."""
    job, client = make_job(), browse("installer")
    url = reverse("bay", args=[job.code])
    board_counts.refresh(job)
    client.get(url)  # once, by whoever looks first
    with CaptureQueriesContext(connection) as empty:
        client.get(url)
    make_large_car(job, cast.installer)
    board_counts.refresh(job)
    with CaptureQueriesContext(connection) as full:
        html = client.get(url).content.decode()
    assert len(full) <= len(empty) + MOST_MORE
    assert html.count('class="bay-panel"') >= PANELS
    assert html.count('id="step-') == STEPS
    assert html.count("/photo/") >= PHOTOS
