"""A job begins like an earlier one: what is taken over, and what each car has of its own."""

from __future__ import annotations

import pytest
from django.db.models import ForeignKey

from jobs.design.job.earlier.start_like import (
    ASPECTS,
    OF_THE_CAR,
    OF_THE_VISIT,
    SIDED,
    WITH,
    begin_like,
    offers,
)
from jobs.design.job.whole import load, work_out
from jobs.design.records.sides import in_the_mirror
from jobs.models import EquipmentItem, Panel, PanelContent, Stretch, Vehicle
from jobs.models.people import User
from tests.jobs.factories import make_car, make_job

pytestmark = pytest.mark.django_db
KINDS = [kind for code, (_word, kinds) in ASPECTS.items() for kind in (*kinds, *WITH.get(code, ()))]


@pytest.fixture
def second(hatchback):
    """Another car of the model, with nothing on its job yet."""
    car = hatchback.job.vehicle
    return make_job(make_car(maker=car.maker, model=car.model, driver_side=car.driver_side))


def test_everything_planned_comes_over(hatchback, second):
    """As many rows of each kind, each in the new job, and every link within it."""
    begin_like(second, hatchback.job, list(ASPECTS), same=False)
    for kind in KINDS:
        before, after = (kind.objects.filter(job=job) for job in (hatchback.job, second))
        assert after.count() == before.count(), kind
        for row in after:
            for link in kind._meta.concrete_fields:
                if isinstance(link, ForeignKey) and link.name != "learnt_from":
                    linked = getattr(row, link.name)
                    assert getattr(linked, "job", second) == second, (kind, link.name)


def test_the_new_job_works_out_as_the_earlier_one(hatchback, second):
    """Boxes, channels and drops are those of the job it began like, from rows of its own."""
    begin_like(second, hatchback.job, list(ASPECTS), same=False)
    old, new = (work_out(load(job)) for job in (hatchback.job, second))
    assert any(row.net_volume for row in old.boxes)
    assert [row.net_volume for row in new.boxes] == [row.net_volume for row in old.boxes]
    assert [row.load for row in new.channels] == [row.load for row in old.channels]
    routes = [
        [
            [(str(stretch.panel or ""), stretch.place) for stretch in run.route]
            for run in design.records.runs
            if run.as_built is None
        ]
        for design in (old, new)
    ]
    assert routes[0]
    assert {str(route) for route in routes[0]} <= {str(route) for route in routes[1]}


def test_what_was_done_or_measured_in_one_car_stays_there(hatchback, second):
    """No serial number, tick, value, signature or airbag answer goes to another car."""
    begin_like(second, hatchback.job, list(ASPECTS), same=False)
    items = second.equipmentitems.all()
    assert items
    assert {(item.serial, item.state) for item in items} == {("", EquipmentItem.State.TO_ORDER)}
    assert not any(row.done_at for row in (*second.panelsteps.all(), *second.wood_steps.all()))
    assert not any(row.value is not None for row in second.measurements.all())
    assert {panel.airbag_near for panel in second.panels.all()} == {None}
    assert not second.photos.exists()
    assert not PanelContent.objects.filter(job=second).exists()
    Edge = Stretch.Edge
    assert not Stretch.objects.filter(run__job=second, edge=Edge.GROMMET).exists()


# Where along a thing something lies, not when.
PLACES = {"port_at", "divider_at", "bend_at"}


def test_no_person_and_no_time_is_taken_over():
    """Whoever did, signed or measured something did it on the earlier job."""
    for kind in KINDS:
        kept_back = OF_THE_VISIT.get(kind, set()) | OF_THE_CAR.get(kind, set())
        for column in kind._meta.concrete_fields:
            is_person = isinstance(column, ForeignKey) and column.related_model is User
            if (is_person or column.name.endswith("_at")) and kind is not Panel:
                assert column.name in kept_back | {"removed_at"} | PLACES, kind


def test_figures_of_the_model_are_a_look_until_somebody_has_held_them_against_the_car(
    hatchback, second
):
    """Only what nobody typed is filled, and it is said from which job it comes."""
    car = hatchback.job.vehicle
    car.battery_place, car.airbag_procedure = "boot", "Wait as the maker says."
    car.sleep_current = 0.02
    car.save()
    Vehicle.objects.filter(pk=second.vehicle_id).update(
        battery_place="under the seat", airbag_procedure="", sleep_current=None
    )
    second.refresh_from_db()
    begin_like(second, hatchback.job, ["car"], same=False)
    mine = Vehicle.objects.get(pk=second.vehicle_id)
    assert (mine.battery_place, mine.airbag_procedure) == (
        "under the seat",
        "Wait as the maker says.",
    )
    assert mine.sleep_current is None
    (look,) = (row for row in work_out(load(second)).findings if row.code == "car-taken-over")
    assert look.is_open
    assert hatchback.code in look.says


def test_the_same_car_keeps_what_is_in_it(hatchback):
    """Serial numbers, airbags and what is behind each panel are those of the last visit."""
    again = make_job(hatchback.job.vehicle)
    item = hatchback.job.equipmentitems.first()
    item.serial, item.state = "SN-77", EquipmentItem.State.FITTED
    item.save()
    begin_like(again, hatchback.job, list(ASPECTS), same=True)
    assert again.equipmentitems.filter(serial="SN-77", state="fitted").exists()
    airbags = [list(job.panels.values_list("airbag_near")) for job in (again, hatchback.job)]
    assert airbags[0] == airbags[1]
    assert again.panelcontents.count() == hatchback.job.panelcontents.count()
    assert "car" not in {row.code for row in offers(hatchback.job, again, same=True)}


def test_what_is_there_stays(hatchback, second):
    """A list that has begun is neither offered nor added to."""
    second.equipmentitems.create(part=hatchback.job.equipmentitems.first().part, place="boot")
    assert "equipment" not in {row.code for row in offers(hatchback.job, second)}
    begin_like(second, hatchback.job, ["equipment", "channels"], same=False)
    assert second.equipmentitems.count() == 1
    assert second.channels.count() == hatchback.job.channels.count()
    assert not second.channels.exclude(amplifier=None).exists()


def test_left_and_right_are_swapped_where_that_is_asked_for(hatchback, second):
    """Panels, their fixings and steps, and factory parts change sides; cables and speakers do not.

    Swapped twice, everything has the names it had: nothing is lost on the way.
    """
    job = hatchback.job
    panel = job.panels.create(position=90, name="Cover below the steering wheel, left", side="left")
    panel.steps.create(job=job, position=1, text="Unplug the left switch.")
    panel.fastenings.create(job=job, name="clip", place="at the left")
    codes = ["factory", "panels", "equipment", "channels", "cables"]
    begin_like(second, job, codes, same=False, swap=True)
    there = second.panels.get(name="Cover below the steering wheel, right")
    assert (there.side, there.learnt_from) == ("right", job)
    assert there.steps.get().text == "Unplug the right switch."
    assert there.fastenings.get().place == "at the right"
    assert second.panels.count() == job.panels.count()
    places = {in_the_mirror(part.place) for part in job.factory_parts.all()}
    assert {part.place for part in second.factory_parts.all()} == places
    for rows in ("equipmentitems", "channels", "runs"):
        assert [str(row) for row in getattr(second, rows).all()] == [
            str(row) for row in getattr(job, rows).all()
        ]
    third = make_job(make_car())
    begin_like(third, second, ["panels"], same=False, swap=True)
    assert {panel.name for panel in third.panels.all()} == {p.name for p in job.panels.all()}


def test_a_side_that_would_not_fit_stays(hatchback, second):
    """A name that is as long as it may be is taken over as it is, not cut."""
    name = ("x" * 80 + " left")[-80:]
    hatchback.job.panels.create(position=91, name=name, side="left")
    begin_like(second, hatchback.job, ["panels"], same=False, swap=True)
    assert second.panels.filter(name=name).exists()


def test_sides_are_asked_about(hatchback):
    """Of a car driven from the other side, what lies on a side is taken only if asked for."""
    usual = {row.code: row.usual for row in offers(hatchback.job, mirrored=True)}
    unusual = {code for code, taken in usual.items() if not taken}
    assert unusual == (SIDED | {"cavities"}) & usual.keys()
    assert {row.code for row in offers(hatchback.job) if not row.usual} == {"cavities"}
