"""What is asked of the car's electronics follows from the car and from what is planned."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.job.electronics import questions
from jobs.design.job.whole import load
from jobs.models import FactoryPart
from tests.jobs.factories import make_job

pytestmark = pytest.mark.django_db
FATE = FactoryPart.Fate


def _asked(job) -> set[str]:
    return {question.code for question in questions(load(job))}


def test_nobody_said_whether_anything_is_disconnected(browse, cast):
    """Then that is the question; yes asks what was taught again, no asks nothing more."""
    job, client = make_job(), browse("installer")
    url = reverse("gate-answer", args=[job.code])
    assert "disconnected" in _asked(job)
    assert "taught" not in _asked(job)
    client.post(url, {"question": "disconnected", "text": "perhaps"})
    assert not job.caranswers.exists()
    client.post(url, {"question": "disconnected", "yes": "0"})
    row = job.caranswers.get()
    assert (row.yes, row.says, row.written_by) == (False, "No", cast.installer)
    assert "taught" not in _asked(job)
    html = client.get(reverse("gate", args=[job.code])).content.decode()
    assert "What was taught again" not in html
    client.post(url, {"question": "disconnected", "yes": "1", "version": str(row.version)})
    assert {"disconnected", "taught"} <= _asked(job)


@pytest.mark.parametrize(
    ("kind", "fate", "taught"),
    [
        ("head_unit", FATE.REPLACED, True),
        ("amplifier", FATE.UNPLUGGED, True),
        ("amplifier", FATE.IN_USE, False),
        ("amplifier", "", False),
        ("speaker", FATE.REMOVED, False),
    ],
)
def test_a_module_that_is_unplugged_by_plan_is_asked_about(kind, fate, taught):
    """The plan says it already, so nobody is asked whether; a speaker is no module."""
    job = make_job()
    FactoryPart.objects.create(job=job, kind=kind, place="boot", fate=fate)
    assert ("taught" in _asked(job)) is taught
    assert ("disconnected" in _asked(job)) is not taught


def test_what_was_taught_stays_an_answer(cast, browse):
    """Whoever wrote down what was taught need not say that something was disconnected."""
    job = make_job()
    FactoryPart.objects.create(job=job, kind="amplifier", place="boot", fate=FATE.REMOVED)
    url = reverse("gate-answer", args=[job.code])
    browse("installer").post(url, {"question": "taught", "text": "windows"})
    job.factory_parts.update(fate=FATE.IN_USE)
    assert "taught" in _asked(job)
    assert "disconnected" not in _asked(job)
