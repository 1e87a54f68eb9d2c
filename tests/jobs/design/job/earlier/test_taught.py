"""What earlier cars of a model taught: panels, routes, room for a box, each with who wrote it."""

from __future__ import annotations

import pytest
from django.core.files.base import ContentFile
from django.urls import reverse

from jobs.design.job.earlier.taught import lessons
from jobs.design.records.records import load
from jobs.models import Box, Panel, Photo, Run
from tests.jobs.factories import make_box, make_car, make_job
from tests.jobs.pages.history.test_history import read

pytestmark = pytest.mark.django_db
ROOM = [[0.0, 0.0], [0.9, 0.0], [0.9, 0.4], [0.0, 0.4]]


@pytest.fixture
def new(hatchback):
    """A new job of the hatchback's model, which has one cable and one box and no panel."""
    car = hatchback.job.vehicle
    job = make_job(make_car(maker=car.maker, model=car.model))
    Run.objects.create(job=job, kind="S", number=1, to_text="door")
    make_box(job, None)
    return job


def _photo(scene, cast, **more) -> Photo:
    files = {name: ContentFile(b"\xff\xd8", "x.jpg") for name in ("image", "small", "original")}
    return Photo.objects.create(
        job=scene.job, panel=scene.boot_floor, taken_by=cast.installer, **files, **more
    )


def test_it_names_tools_routes_room_and_photos_with_job_and_person(hatchback, new, browse, cast):
    """Offered on a new job of the model to everybody; photos that show a person are not."""
    Panel.objects.filter(pk=hatchback.boot_floor.pk).update(tools="trim fork, 10 mm socket")
    Box.objects.filter(pk=hatchback.box.pk).update(cavity_width=0.9)
    hatchback.box.cavity_profile = ROOM
    hatchback.box.save()
    shown = _photo(hatchback, cast, caption="behind the floor")
    hidden = _photo(hatchback, cast, shows_person=True)
    url = reverse("panels-taught", args=[new.code])
    html = browse("installer").get(url).content.decode()
    for text in ("trim fork, 10 mm socket", "behind the floor", hatchback.code, "push clip"):
        assert text in html
    assert reverse("photo", args=[hatchback.code, shown.pk]) in html
    assert reverse("photo", args=[hatchback.code, hidden.pk]) not in html
    (lesson,) = lessons(load(new))
    assert lesson.job == hatchback.job
    assert {row.run.label for row in lesson.routes} >= {"S01"}
    assert [row.corners for row in lesson.cavities] == [4]
    built = next(row for row in lesson.routes if row.run.as_built)
    assert built.who == "Ina Fit"
    assert "Trim of the boot" in next(row.says for row in lesson.routes if row.run.label == "S01")
    for name in ("panels", "bay"):
        assert url in browse("installer").get(reverse(name, args=[new.code])).content.decode()


def test_nothing_is_taken_without_a_tap_and_then_only_that(hatchback, new, browse):
    """One panel, one route into a cable that has none, one cavity into a box that has none."""
    client, pk = browse("designer"), hatchback.job.pk
    hatchback.box.cavity_profile = ROOM
    hatchback.box.cavity_width = 0.9
    hatchback.box.save()
    client.get(reverse("panels-taught", args=[new.code]))
    assert not new.panels.exists()
    panel = hatchback.side_trim
    learnt = reverse("panels-learnt", args=[new.code, pk])
    client.post(learnt, {"panel": panel.pk})
    taken = new.panels.get()
    assert (taken.name, taken.learnt_from) == (panel.name, hatchback.job)
    assert (taken.airbag_near, taken.drilled, taken.glass_near) == (None, None, None)
    client.post(learnt, {"panel": "all of them"})
    assert new.panels.count() == 1

    run, box = new.runs.get(), new.boxes.get()
    like = next(run for run in load(hatchback.job).runs if run.label == "S01")
    lay = reverse("route-learnt", args=[new.code, pk])
    client.post(lay, {"like": like.pk, "run": run.pk})
    route = [(s.panel, s.place) for s in run.stretches.all()]
    assert len(route) == len(like.route)
    assert (taken, "") in route  # a panel that is here; one that is not is a place in words
    assert all(panel or place for panel, place in route)
    assert run.history.first().hanging["route"]
    client.post(lay, {"like": like.pk, "run": run.pk})
    assert run.stretches.count() == len(like.route)

    room = reverse("cavity-learnt", args=[new.code, pk])
    client.post(room, {"like": hatchback.box.pk, "box": box.pk})
    box = Box.objects.get(pk=box.pk)
    assert (box.cavity_profile, box.cavity_width) == (ROOM, 0.9)
    said = client.post(room, {"like": hatchback.box.pk, "box": box.pk}, follow=True)
    assert "Nothing was taken over" in said.content.decode()


def test_another_model_taught_nothing_here(hatchback, browse):
    """Neither its page nor its rows are offered, and an address that names it is not found."""
    job = make_job(make_car(maker="Norvane", model="Other"))
    client = browse("designer")
    assert "No earlier car of this model" in read(client, reverse("panels-taught", args=[job.code]))
    for name in ("panels-learnt", "route-learnt", "cavity-learnt"):
        answer = client.post(reverse(name, args=[job.code, hatchback.job.pk]), {"like": "1"})
        assert answer.status_code == 404
