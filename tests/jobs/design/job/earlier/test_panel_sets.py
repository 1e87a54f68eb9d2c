"""A list of panels begins with the body, or with what an earlier job of the model taught."""

from __future__ import annotations

import pytest

from jobs.design.job.earlier.panel_sets import (
    BODIES,
    BOTH_SIDES,
    NAMES,
    add_usual,
    earlier_jobs,
    take_over,
    usual_panels,
)
from jobs.models import BayNote, Panel, PanelStep
from tests.jobs.factories import make_car, make_job

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("body", BODIES)
def test_every_body_has_its_panels_on_the_right_side(body):
    """Each panel has a name, none twice; the driver's side comes first and follows the wheel."""
    assert set(BODIES[body][1]) <= NAMES.keys() | BOTH_SIDES.keys()
    left, right = (
        {panel.name: panel.side for panel in usual_panels(body, wheel)}
        for wheel in ("left", "right")
    )
    assert len(left) == len(list(usual_panels(body, "left"))) > 8
    assert left["Cover below the steering wheel, left"] == "left"
    assert right["Cover below the steering wheel, right"] == "right"
    assert left["Sill trim, front right"] == right["Sill trim, front right"] == "right"
    assert right["Glove box, left"] == "left"


def test_what_an_earlier_job_of_the_model_taught(hatchback, cast):
    """Way, fixings and steps come over, with which clip broke; airbags and ticks never."""
    clip = hatchback.side_trim.fastenings.get()
    Panel.objects.filter(pk=hatchback.side_trim.pk).update(side="left")
    clip.breaks = False
    clip.save()
    BayNote.objects.create(
        job=hatchback.job, panel=hatchback.side_trim, kind="clip", fixing=clip,
        written_by=cast.installer,
    )  # fmt: skip
    car = hatchback.job.vehicle
    new = make_job(make_car(maker=car.maker.upper(), model=car.model))
    new.panels.create(name="floor of the boot", position=1)
    assert list(earlier_jobs(new)) == [hatchback.job]
    assert take_over(new, hatchback.job) == hatchback.job.panels.count() - 1
    panel = new.panels.get(name=hatchback.side_trim.name)
    assert (panel.airbag_near, panel.learnt_from) == (None, hatchback.job)
    assert panel.side == "left"
    assert panel.fastenings.get().breaks
    steps = new.panelsteps.all()
    assert steps
    assert not any(step.done_at for step in steps)
    assert take_over(new, hatchback.job) == 0
    assert add_usual(new, "hatchback") > 8


def test_two_panels_of_one_name_keep_each_its_own_steps(hatchback):
    """What was learnt behind the first of them does not go to the second."""
    car = hatchback.job.vehicle
    earlier, new = (make_job(make_car(maker=car.maker, model="Twin")) for _time in range(2))
    for text in ("Pull at the front.", "Push at the rear."):
        panel = earlier.panels.create(name="Side trim", position=1)
        PanelStep.objects.create(job=earlier, panel=panel, text=text)
    assert take_over(new, earlier) == 2
    steps = [[step.text for step in panel.steps.all()] for panel in new.panels.all()]
    assert steps == [["Pull at the front."], ["Push at the rear."]]
