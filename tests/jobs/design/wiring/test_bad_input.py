"""What cannot be, entered one at a time: each gets an answer of its own, at its own record."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.models import GroundPoint, PowerNode, Run, Vehicle
from jobs.models.job import JobPart
from tests.jobs.factories import make_ground, make_power_run
from tests.jobs.scenes import Van
from tests.jobs.shelf import Shelf

pytestmark = pytest.mark.django_db

Wrong = Callable[[Van, Shelf], JobPart]


def _painted(van: Van, _shelf: Shelf) -> JobPart:
    stud = make_ground(van.job, "Sill", kind=GroundPoint.Kind.BODY, surface="painted", stud="M8")
    Run.objects.filter(pk=van.branch.pk).update(return_end=stud)
    return stud


def _no_length(van: Van, _shelf: Shelf) -> JobPart:
    Run.objects.filter(pk=van.branch.pk).update(return_length=None)
    return van.branch


def _between(van: Van, shelf: Shelf, kind: str, name: str) -> PowerNode:
    """Join both batteries by one more switch, relay or isolator."""
    node = PowerNode.objects.create(
        job=van.job, kind=kind, name=name, rated_current=200.0, coil_current=0.15, coil_diode=True
    )
    for start, end in ((van.starter, node), (node, van.leisure)):
        make_power_run(start, end, shelf["35 mm²"], 1.0, fuse=shelf["150 A"], fuse_distance=0.1)
    return node


def _no_coil(van: Van, shelf: Shelf) -> JobPart:
    van.link.remove()
    relay = _between(van, shelf, PowerNode.Kind.RELAY, "Relay")
    PowerNode.objects.filter(pk=relay.pk).update(coil_current=None)
    return relay


def _forty_eight_volts(van: Van, _shelf: Shelf) -> JobPart:
    van.link.remove()
    PowerNode.objects.filter(pk=van.leisure.pk).update(voltage=51.0, flat_voltage=None)
    return van.amplifier


def _ring(van: Van, shelf: Shelf) -> JobPart:
    van.link.remove()
    _between(van, shelf, PowerNode.Kind.DIODE, "Isolator, left")
    return _between(van, shelf, PowerNode.Kind.DIODE, "Isolator, right")


def _fed_by_itself(van: Van, shelf: Shelf) -> JobPart:
    node = PowerNode.objects.create(
        job=van.job, kind=PowerNode.Kind.DC_DC, name="Booster", voltage=14.2,
        internal_resistance=0.01, current_limit=30.0, standby_current=0.001,
    )  # fmt: skip
    make_power_run(van.leisure, node, shelf["16 mm²"], 1.0, fuse=shelf["60 A"], fuse_distance=0.1)
    make_power_run(node, van.leisure, shelf["16 mm²"], 1.0, fuse=shelf["60 A"], fuse_distance=0.1)
    return node


def _no_link(van: Van, _shelf: Shelf) -> JobPart:
    van.link.remove()
    return van.leisure


@pytest.mark.parametrize(
    ("wrong", "code", "severity"),
    [
        (_painted, "ground-not-bare", "stop"),
        (_no_length, "length-unknown", "stop"),
        (_no_coil, "relay-without-coil", "look"),
        (_forty_eight_volts, "voltage-above-part", "stop"),
        (_ring, "loop", "stop"),
        (_fed_by_itself, "converter-feeds-itself", "stop"),
        (_no_link, "battery-never-charged", "look"),
    ],
)
def test_each_has_its_own_answer(
    van: Van, shelf: Shelf, wrong: Wrong, code: str, severity: str
) -> None:
    """A slip of a person is named by its own code at the record it was made in."""
    before = {(f.code, f.about) for f in work_out(load(van.job)).findings}
    record = wrong(van, shelf)
    new = [
        finding
        for finding in work_out(load(van.job)).findings
        if finding.code == code and (finding.code, finding.about) not in before
    ]
    assert new
    assert {finding.severity for finding in new} == {severity}
    mine = about(record)
    assert any((f.about.kind, f.about.key) == (mine.kind, mine.key) for f in new), new


def test_a_half_drawn_isolator_leaves_the_rest_worked_out(van: Van, shelf: Shelf) -> None:
    """Cable to it and none from it yet: what lies behind a shut diode holds nothing up."""
    van.link.remove()
    node = PowerNode.objects.create(
        job=van.job, kind=PowerNode.Kind.DIODE, name="Isolator", rated_current=200.0
    )
    make_power_run(van.leisure, node, shelf["35 mm²"], 1.0, fuse=shelf["150 A"], fuse_distance=0.1)
    design = work_out(load(van.again().job))
    assert design.power.solved is not None
    assert design.supply.bass


def test_a_48_volt_battery_charged_by_command_is_still_a_network(van: Van) -> None:
    """A commanded voltage for each 12 V goes no higher than such a network may: each its answer."""
    Vehicle.objects.filter(pk=van.job.vehicle_id).update(smart_charging=True)
    PowerNode.objects.filter(pk=van.starter.pk).update(voltage=51.0, flat_voltage=None)
    codes = {finding.code for finding in work_out(load(van.again().job)).findings}
    assert "tree-cannot-be" not in codes
    assert "voltage-above-part" in codes
