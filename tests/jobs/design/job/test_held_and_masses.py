"""What flies in a crash, and what the car becomes heavier by."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.models import EquipmentItem, FactoryPart, PowerNode
from tests.jobs.factories import make_battery

pytestmark = pytest.mark.django_db
Held = EquipmentItem.Held


def codes(design, *names):
    """Severity by code, of these codes."""
    return {f.code: f.severity for f in design.findings if f.code in names}


@pytest.mark.parametrize(
    ("fields", "code", "severity"),
    [
        ({"held_by": Held.LOOSE}, "equipment-unfixed", "stop"),
        ({"held_by": Held.UNSAID}, "equipment-fixing-unknown", "look"),
        ({"held_by": Held.BRACKETS, "held_into": " "}, "equipment-into-nothing", "look"),
        ({"held_by": Held.CARRIED, "held_into": ""}, "equipment-into-nothing", "look"),
        ({"held_by": Held.BRACKETS, "held_into": " - ?"}, "equipment-into-nothing", "look"),
        ({"held_by": Held.CARRIED, "held_into": "amplifier board"}, None, None),
        ({"held_by": Held.MAKERS, "held_into": ""}, None, None),
    ],
)
def test_an_amplifier_that_is_not_held_is_found(hatchback, fields, code, severity):
    """Loose is a stop, unsaid a look, a bracket into nothing is asked about."""
    records = load(hatchback.job)
    item = next(item for item in records.equipment if item.pk == hatchback.mono.pk)
    for name, value in fields.items():
        setattr(item, name, value)
    found = [
        f for f in work_out(records).findings if f.code.startswith("equipment-") and f.code != code
    ]
    assert not found
    mine = [f for f in work_out(records).findings if f.code == code]
    assert [f.severity for f in mine] == ([severity] if code else [])
    assert all(f.about.key == str(item.pk) for f in mine)


def test_what_stands_on_what_stands_on_nothing_is_found(hatchback):
    """An amplifier on the box and the box on a floor, each said to be held: no metal is named."""
    records = load(hatchback.job)
    item = next(item for item in records.equipment if item.pk == hatchback.mono.pk)
    for record in (item, *records.boxes, *records.trim_panels):
        record.held_by, record.held_into = Held.CARRIED, "the floor"
    circle = [f for f in work_out(records).findings if f.code == "carried-by-nothing-held"]
    assert {f.about.key for f in circle} >= {str(item.pk), str(hatchback.box.pk)}
    assert {f.severity for f in circle} == {"look"}
    records.boxes[0].held_by = Held.INSERTS
    assert not codes(work_out(records), "carried-by-nothing-held")


def test_what_is_heavy_is_asked_after_whatever_it_is(hatchback):
    """A processor of 0.6 kg is not; one of 1.0 kg is; a driver never is: wood or door holds it."""
    records = load(hatchback.job)
    for item in records.equipment:
        item.held_by = Held.MAKERS
    processor = next(item for item in records.equipment if item.part.kind == "processor")
    processor.held_by = Held.LOOSE
    processor.part.mass = 0.6
    assert not codes(work_out(records), "equipment-unfixed")
    processor.part.mass = 1.0
    (stop,) = [f for f in work_out(records).findings if f.code == "equipment-unfixed"]
    assert stop.value == 1.0
    driver = next(item for item in records.equipment if item.part.kind == "driver")
    driver.held_by = Held.LOOSE
    assert len([f for f in work_out(records).findings if f.code == "equipment-unfixed"]) == 1


def test_a_second_battery_is_asked_after_even_when_it_is_on_no_list(hatchback):
    """The one that starts the car is its own; the other must stand on the equipment list."""
    assert not codes(work_out(load(hatchback.job)), "battery-not-listed")
    second = make_battery(hatchback.job, "Rear battery", cca=None)
    (found,) = [f for f in work_out(load(hatchback.job)).findings if f.code == "battery-not-listed"]
    assert found.about.key == str(second.pk)
    PowerNode.objects.filter(pk=second.pk).update(equipment=hatchback.mono)
    assert not codes(work_out(load(hatchback.job)), "battery-not-listed")


def test_kilograms_add_up_and_what_came_out_is_counted_back(hatchback):
    """By hand: a factory part of 2.5 kg out of the car counts back; one in use does not."""
    records = load(hatchback.job)
    before = work_out(records).masses
    part = records.factory_parts[0]
    part.mass = 2.5
    assert work_out(records).masses.net == pytest.approx(before.net)
    part.fate = FactoryPart.Fate.REMOVED
    assert work_out(records).masses.net == pytest.approx(before.net - 2.5)
    part.mass = None
    after = work_out(records).masses
    assert after.net == pytest.approx(before.net)
    assert str(part) in after.unknown


def test_each_kilogram_is_counted_once(hatchback):
    """A driver in a box is equipment: box wood, drivers and cable metal add up to the sum."""
    design = work_out(load(hatchback.job))
    masses = design.masses
    sub = next(row for row in masses.rows if row.name.startswith("Sub 30"))
    assert sub.mass == pytest.approx(6.9)
    (box,) = [b for b in design.boxes if b.box.chosen and b.wood]
    wood = sum(part.quantity * part.panel.mass for part in box.wood.parts)
    mine = [row for row in masses.rows if row.key.startswith("box ") and row.mass is not None]
    assert [row.mass for row in mine] == [pytest.approx(wood)]
    assert sum(row.mass for row in masses.rows if row.mass) == pytest.approx(masses.added)


def test_the_metal_of_a_cable_is_its_section_times_its_length_times_its_density(hatchback):
    """By hand, 8.89 g/cm³ of NBS Handbook 100: a metre more there, half a metre back."""
    design = work_out(load(hatchback.job))
    main = next(run for run in design.records.runs if run.pk == hatchback.main_run.pk)
    bare = next(row for row in design.masses.rows if row.key == "cables").mass
    main.length += 1.0
    main.return_length = (main.return_length or main.length - 1.0) + 0.5
    longer = work_out(design.records).masses
    after = next(row for row in longer.rows if row.key == "cables").mass
    assert after - bare == pytest.approx(1.5 * 35e-6 * 8890, rel=1e-6)


def test_the_car_is_asked_what_it_may_bear_only_where_somebody_entered_it(hatchback):
    """Above the payload is a stop, above an axle a look; what is not weighed is then a look too."""
    records = load(hatchback.job)
    names = ("payload-exceeded", "axle-may-be-overloaded", "job-mass-unknown")
    design = work_out(records)
    assert not codes(design, *names)
    net, car = design.masses.net, records.job.vehicle
    car.payload, car.rear_axle_spare = net + 0.1, net + 0.1
    assert codes(work_out(records), *names) == {"job-mass-unknown": "look"}
    car.payload, car.rear_axle_spare = net - 0.1, net - 0.1
    assert codes(work_out(records), *names) == {
        "payload-exceeded": "stop",
        "axle-may-be-overloaded": "look",
        "job-mass-unknown": "look",
    }


def test_an_axle_bears_what_goes_in_and_both_bear_the_whole(hatchback):
    """What came out helps the axle it stood on, nobody knows which; together they bear the net.

    An axle nobody has weighed is a look where the other one or the payload was entered.
    """
    records = load(hatchback.job)
    part, car = records.factory_parts[0], records.job.vehicle
    part.mass, part.fate = 2.5, FactoryPart.Fate.REMOVED
    masses = work_out(records).masses
    names = ("axles-exceeded", "axle-may-be-overloaded", "axle-spare-unknown")
    assert not codes(work_out(records), *names)
    car.rear_axle_spare = masses.added - 0.1
    assert codes(work_out(records), *names) == {
        "axle-may-be-overloaded": "look",
        "axle-spare-unknown": "look",
    }
    assert work_out(records).masses.unweighed_axles == ["front"]
    car.front_axle_spare = masses.net - car.rear_axle_spare + 0.1
    assert "axles-exceeded" not in codes(work_out(records), *names)
    car.front_axle_spare -= 0.2
    assert codes(work_out(records), *names)["axles-exceeded"] == "stop"
