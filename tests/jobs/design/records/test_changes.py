"""What has changed in a job since it was written down, in words."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load
from jobs.design.records.changes import Change, Present, in_words
from jobs.design.records.data import to_data
from jobs.models import Box, Customer, EquipmentItem, Job, Part, Vehicle
from tests.approval import hold

pytestmark = pytest.mark.django_db


def _present(scene) -> Present:
    return Present.of(load(Job.objects.get(pk=scene.job.pk)))


def test_a_job_nobody_touched_says_nothing(hatchback):
    """Neither its words nor its fingerprint know what the app counts for itself."""
    before, was = to_data(load(hatchback.job)), _present(hatchback)
    hatchback.job.open_stops = 9
    hatchback.job.halt_why = "waits for a part"
    hatchback.job.save()
    assert _present(hatchback).words_since(before) == ""
    assert _present(hatchback).fingerprint == was.fingerprint
    hatchback.box.width = 0.6
    hatchback.box.save()
    assert _present(hatchback).fingerprint != was.fingerprint


def test_what_keeps_no_job_cannot_be_compared(hatchback):
    """An offer keeps what the customer reads: that nothing changed is not said of it."""
    assert _present(hatchback).words_since({"title": "spec"}) is None


def test_changes_are_told_by_the_names_people_know(hatchback):
    """Gone first, then new, then what differs: rows, their lists, the car, its owner, a part."""
    job = hatchback.job
    before = to_data(load(job))
    hatchback.bass_run.remove()
    EquipmentItem.objects.create(job=job, part=hatchback.six.part, place="new")
    hatchback.box.width, hatchback.box.height, hatchback.box.name = 0.61, 0.41, "Bass"
    hatchback.box.depth = 0.31
    hatchback.box.save()
    hatchback.main_run.stretches.all().delete()
    hatchback.turn_on_run.wakes.clear()
    job.title = "Another title"
    job.save()
    Vehicle.objects.filter(pk=job.vehicle_id).update(model="Other")
    Customer.objects.filter(pk=job.vehicle.customer_id).update(name="Somebody else")
    changes = _present(hatchback).changes_since(before)
    hold("records/changes", [change.says for change in changes])
    words = in_words(changes)
    assert words.startswith(", ".join(change.says for change in changes[:6]))
    assert words.endswith(f", and {len(changes) - 6} more")


def test_parts_of_a_row_written_anew_are_no_change(hatchback):
    """The same stretches under other keys are the same route; one of another length is not."""
    before = to_data(load(hatchback.job))
    stretches = [*hatchback.main_run.stretches.order_by("pk")]
    hatchback.main_run.stretches.all().delete()
    for stretch in stretches:
        stretch.pk = None
        stretch.save(force_insert=True)
    assert _present(hatchback).words_since(before) == ""
    stretches[0].delete()
    assert _present(hatchback).words_since(before) == "run P01 (route)"


def test_a_part_is_told_once_and_by_its_kind(hatchback):
    """A part and its figures are one thing, though they stand in two tables."""
    bracket = Part.objects.create(kind=Part.Kind.OTHER, name="Bracket")
    EquipmentItem.objects.create(job=hatchback.job, part=bracket, place="boot")
    before = to_data(load(hatchback.job))
    Part.objects.filter(pk__in=(hatchback.six.part_id, bracket.pk)).update(name="Renamed")
    changes = _present(hatchback).changes_since(before)
    assert {change.says for change in changes} == {
        "amplifier Renamed (name)",
        "other Renamed (name)",
    }
    assert len(changes) == 2


def test_what_was_removed_is_gone_though_a_channel_still_points_at_it(hatchback):
    """A removed amplifier is told as gone, and only so."""
    before = to_data(load(hatchback.job))
    EquipmentItem.objects.get(pk=hatchback.six.pk).remove()
    changes = _present(hatchback).changes_since(before)
    assert [change.says for change in changes if isinstance(change.row, EquipmentItem)] == [
        "gone: equipment Six, boot, side pocket"
    ]


def _change(number: int, fields: int = 1) -> Change:
    names = ("name", "width", "height", "panel_thickness")
    return Change(row=Box(name=f"B{number}"), fields=names[:fields])


def test_six_changes_are_named_and_the_rest_counted():
    """Six whole, of seven the last is a number."""
    six = [_change(number) for number in range(6)]
    assert in_words(six) == ", ".join(f"box B{number} (name)" for number in range(6))
    assert in_words([*six, _change(6)]) == f"{in_words(six)}, and 1 more"
    assert in_words([]) == ""


def test_three_fields_are_named_and_more_are_hinted_at():
    """Three whole; a fourth is three dots."""
    assert _change(1, 3).says == "box B1 (name, width, height)"
    assert _change(1, 4).says == "box B1 (name, width, height, …)"
