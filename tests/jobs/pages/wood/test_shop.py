"""The wood shop's work: planned once, ticked with one tap by whoever did it."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.models import WoodStep

pytestmark = pytest.mark.django_db


def tick(client, step, **sent):
    """Send a tick, and return the step as it then stands with the page that follows."""
    url = reverse("shop-tick", args=[step.job.code, step.pk])
    answer = client.post(url, {"done": "1"} | sent, follow=True)
    assert answer.status_code == 200
    step.refresh_from_db()
    return answer.content.decode()


def test_one_tap_says_who_and_when(browse, hatchback):
    """Whoever ticks first stays; a second tap of somebody else changes nothing."""
    step = WoodStep.objects.create(job=hatchback.job, box=hatchback.box, kind="glue", position=2)
    page = tick(browse("installer"), step)
    first, when = step.done_by, step.done_at
    assert first.full_name in page
    tick(browse("designer"), step)
    assert (step.done_by, step.done_at) == (first, when)


def test_a_tick_is_taken_back_only_when_that_is_said_again(browse, hatchback):
    """The first tap asks, of one's own tick too."""
    step = WoodStep.objects.get(job=hatchback.job)
    page = tick(browse("designer"), step, done="0")
    assert step.done_at is not None
    assert "Take the tick back" in page
    tick(browse("designer"), step, done="0", sure="1")
    assert (step.done_at, step.done_by) == (None, None)
    tick(browse("designer"), step)
    tick(browse("designer"), step, done="0")
    assert step.done_at is not None


def test_the_usual_steps_are_planned_once(browse, hatchback):
    """In the order of the work, without times nobody has said; a second tap adds nothing."""
    client, cover = browse("designer"), [hatchback.code, hatchback.cover.pk]
    for _tap in range(2):
        client.post(reverse("shop-usual-trim-panel", args=cover))
    steps = WoodStep.objects.filter(trim_panel=hatchback.cover)
    assert [step.kind for step in steps] == ["mock_up", "cut", "wrap", "cure", "fit"]
    assert {step.minutes for step in steps} == {None}
    client.post(reverse("shop-usual-box", args=[hatchback.code, hatchback.box.pk]))  # has steps
    assert WoodStep.objects.filter(box=hatchback.box).count() == 1


def test_curing_is_waiting_and_no_work(browse, hatchback):
    """90 min of cutting are planned; a night in the clamps adds none, an untimed step is said."""
    WoodStep.objects.create(job=hatchback.job, box=hatchback.box, kind="cure", minutes=720)
    WoodStep.objects.create(job=hatchback.job, box=hatchback.box, kind="seal")
    answer = browse("installer").get(reverse("shop", args=[hatchback.code]))
    planned = {work.subject: [step.kind for step in work.steps] for work in answer.context["works"]}
    assert sorted(planned.pop(hatchback.box)) == ["cure", "cut", "seal"]
    assert planned
    assert not any(planned.values())
    page = answer.content.decode()
    assert "90 minutes of work planned" in page
    assert "1 step without a time" in page
    assert "1 of 3 done" in page


def test_work_is_done_on_one_thing(browse, hatchback):
    """Neither on nothing nor on a box and a panel at once; what was typed stays."""
    url = reverse("wood-step-add", args=[hatchback.code])
    for both in ({}, {"box": hatchback.box.pk, "trim_panel": hatchback.cover.pk}):
        answer = browse("designer").post(
            url, {"kind": "seal", "text": "twice", "position": 3, **both}
        )
        assert answer.status_code == 422
        assert "twice" in answer.content.decode()
