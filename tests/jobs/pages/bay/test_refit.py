"""Steps of putting a panel back: after the others, the last off first, and asked for at the end."""

from __future__ import annotations

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs import sheets
from jobs.design.job.closing import checks_of
from jobs.design.job.earlier.panel_sets import BODIES, REFIT, add_usual, take_over
from jobs.design.job.stages import open_before
from jobs.design.job.whole import load, work_out
from jobs.models import PanelStep, SheetKind, Stage
from jobs.pages.bay.page import following_of, panel_views
from jobs.sheets.issue import printed
from tests.jobs.factories import make_car, make_job
from tests.jobs.pages.history.test_history import read

pytestmark = pytest.mark.django_db
OFF, WORK, ON = PanelStep.Phase


def _step(panel, phase, text):
    return PanelStep.objects.create(job=panel.job, panel=panel, phase=phase, text=text)


@pytest.fixture
def two(hatchback):
    """Two panels with a step of each phase, entered from the last to the first."""
    first, last = hatchback.sill, hatchback.boot_floor
    hatchback.job.panelsteps.exclude(panel__in=(first, last)).update(done_at=timezone.now())
    PanelStep.objects.filter(panel__in=(first, last)).delete()
    for panel in (first, last):
        for phase in (ON, WORK, OFF):
            _step(panel, phase, f"{phase.name} {panel.position}")
    return first, last


def _tick(job, text):
    job.panelsteps.filter(text=text).update(done_at=timezone.now(), done_by=job.consultant)


def test_all_come_off_before_the_first_goes_back_on(hatchback, two):
    """Taking off and work panel by panel; then back on, the one that came off last first."""
    before, after = sorted(panel.position for panel in two)
    gone_through = []
    while view := following_of(panel_views(work_out(load(hatchback.job)))):
        gone_through.append(view.next_step.text)
        _tick(hatchback.job, view.next_step.text)
    assert gone_through == [
        *(f"{phase} {n}" for n in (before, after) for phase in ("REMOVAL", "WORK")),
        *(f"REFIT {n}" for n in (after, before)),
    ]


def test_a_car_may_be_set_up_with_its_panels_off_and_not_leave(hatchback, two):
    """Set-up asks for what comes before refitting; hand-over and closing ask for all of it."""
    hatchback.job.panelsteps.exclude(phase=ON).update(done_at=timezone.now())
    design = work_out(load(hatchback.job))
    left = {f"step {step.pk}" for step in hatchback.job.panelsteps.filter(phase=ON)}

    def steps_asked(stage):
        asked = {key for item in open_before(stage, design) for key in item.keys}
        return {key for key in asked if key.startswith("step ")}

    assert (steps_asked(Stage.SET_UP), steps_asked(Stage.HANDED_OVER)) == (set(), left)
    result = next(row for row in design.panels if row.panel == two[0])
    assert next(check for check in checks_of(result) if check.code == "steps").known is False


def test_a_panel_that_was_opened_again_goes_back_on_once_more(hatchback, two, browse):
    """Its ticks of refitting are taken back, with a word; what was done behind it stays done."""
    client, panel = browse("installer"), two[0]
    panel.steps.update(done_at=timezone.now(), done_by=hatchback.job.consultant)
    client.post(reverse("panel-close", args=[hatchback.code, panel.pk]), {"reason": "no photo"})
    reopen = reverse("panel-reopen", args=[hatchback.code, panel.pk])
    answer = client.post(reopen, {"reason": "A clip rattles."}, follow=True)
    assert "open again: 1" in answer.content.decode()
    assert [step.phase for step in panel.steps.filter(done_at=None)] == [ON]


def test_sheets_and_bay_keep_the_phases_apart(hatchback, two, browse):
    """Under headings of their own; the build sheet puts back last what came off first."""
    first, last = sorted(two, key=lambda panel: panel.position)
    said = read(browse("installer"), reverse("bay", args=[hatchback.code]))
    assert said.index("Taking it off") < said.index(f"REMOVAL {last.position}")
    assert said.index("Putting it back") < said.index(f"REFIT {first.position}")
    design = work_out(load(hatchback.job))
    build, record = (
        printed(design, sheets.SHEETS[kind], sheets.Options(), revision=1, at=timezone.now())[0]
        for kind in (SheetKind.BUILD, SheetKind.PANELS)
    )
    back = build.split("Putting it back, the last off first")[1]
    assert back.index(f"REFIT {last.position}") < back.index(f"REFIT {first.position}")
    assert "REMOVAL" not in back
    assert record.index("Putting it back:") < record.index(f"REFIT {first.position}")


def test_sets_and_earlier_cars_hand_on_how_a_panel_goes_back(cast):
    """Every panel of a set says what to mind; an earlier car gives its steps with their phases."""
    earlier, new = (make_job(make_car(model="Twin")) for _time in range(2))
    assert {key for _word, keys in BODIES.values() for key in keys} == REFIT.keys()
    add_usual(earlier, "saloon")
    door = earlier.panels.get(name="Front door card, left")
    assert {step.phase for step in door.steps.all()} == {ON}
    _step(door, OFF, "Pull the grip off.")
    take_over(new, earlier)
    taken = new.panels.get(name=door.name).steps.all()
    assert [(s.phase, s.text) for s in taken] == [(s.phase, s.text) for s in door.steps.all()]
    assert taken[0].text == "Pull the grip off."


def test_usual_panels_are_added_once_and_counted(browse):
    """Of the body that was chosen; none is added twice, and a body nobody knows adds none."""
    job = make_job()
    url = reverse("panels-usual", args=[job.code])
    client, body = browse("designer"), next(iter(BODIES))
    for sent in (body, body, "moon"):
        before = job.panels.count()
        answer = client.post(url, {"body": sent}, follow=True)
        added = job.panels.count() - before
        says = "Choose the kind of body first." if sent == "moon" else f"Panels added: {added}."
        assert [str(told) for told in answer.context["messages"]] == [says]
        assert (added > 0) == (before == 0)
