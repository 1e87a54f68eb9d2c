"""The factory's signals: high level needs a converter, a bus an interface, a call a mute."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.wiring.complete import _relay
from jobs.models import EquipmentItem, Job, LoomJoin, PowerNode, Processor, Run
from jobs.models.job import JobPart
from tests.jobs.factories import make_item, make_processor
from tests.jobs.scenes import Hatchback, Van
from wiring.findings import CODES

pytestmark = pytest.mark.django_db


def _codes(job: Job, record: JobPart | Job) -> dict[str, str]:
    """What is said of a record, with its weight."""
    mine = about(record)
    findings = work_out(load(Job.objects.get(pk=job.pk))).findings
    return {
        f.code: f.severity for f in findings if (f.about.kind, f.about.key) == (mine.kind, mine.key)
    }


def _join(hatchback: Hatchback, **figures: object) -> LoomJoin:
    """What was found where the line run meets the factory loom."""
    LoomJoin.objects.filter(pk=hatchback.join.pk).update(run=hatchback.line_run, **figures)
    return hatchback.join


def _sheet(hatchback: Hatchback, **figures: object) -> None:
    assert hatchback.line_run.end is not None
    assert hatchback.line_run.end.equipment is not None
    part = hatchback.line_run.end.equipment.part_id
    Processor.objects.filter(pk=part).update(**figures)


@pytest.mark.parametrize(
    ("found", "sheet", "code"),
    [
        ({"carries": "high", "level": 8.0}, {}, "high-level-into-line"),
        ({"carries": "high", "level": 8.0}, {"device": "converter"}, "input-limit-unknown"),
        ({"carries": "high", "level": 8.0}, {"highest_input": 4.0}, "signal-above-input"),
        ({"carries": "high", "level": None}, {"highest_input": 10.0}, "join-level-unknown"),
        ({"carries": "data", "level": None}, {}, "data-without-interface"),
        ({"carries": "", "level": 0.5}, {}, "join-kind-unknown"),
        ({"carries": "high", "level": 8.0}, {"device": "converter", "highest_input": 20.0}, ""),
        ({"carries": "data", "level": None}, {"device": "interface"}, ""),
        ({"carries": "line", "level": 1.0}, {}, ""),
    ],
)
def test_a_signal_meets_a_part_that_takes_it(
    hatchback: Hatchback, found: dict[str, object], sheet: dict[str, object], code: str
) -> None:
    """A speaker signal, a bus, or nobody knows what, into an input that is not made for it."""
    join = _join(hatchback, **found)
    _sheet(hatchback, **sheet)
    assert set(_codes(hatchback.job, join)) == ({code} if code else set())


def _between(hatchback: Hatchback, **figures: object) -> EquipmentItem:
    return make_item(hatchback.job, make_processor("Between", **figures), "dashboard")


def test_an_interface_lacks_supply_bus_signal_and_turn_on_until_each_is_entered(
    hatchback: Hatchback,
) -> None:
    """Who wakes it, what feeds it and which bus it reads are asked one by one."""
    item = _between(hatchback, device="interface", current=0.2)
    lacks = {"interface-without-data", "device-without-supply", "turn-on-run-missing"}
    codes = _codes(hatchback.job, item)
    assert lacks <= set(codes)
    assert codes["interface-without-data"] == "stop" == CODES["interface-without-data"]
    Processor.objects.filter(pk=item.part_id).update(wakes_itself=True)
    assert "turn-on-run-missing" not in _codes(hatchback.job, item)
    # Its node takes the place of the processor's at both runs.
    PowerNode.objects.filter(pk=hatchback.processor_node.pk).update(equipment=item)
    assert "device-without-supply" not in _codes(hatchback.job, item)
    _join(hatchback, carries="data")
    assert not lacks & set(_codes(hatchback.job, item))


def test_a_converter_of_coils_alone_needs_no_supply(hatchback: Hatchback) -> None:
    """A current of zero is an answer; one that nobody entered is not."""
    item = _between(hatchback, device="converter", current=0.0, highest_input=20.0)
    assert "device-without-supply" not in _codes(hatchback.job, item)
    Processor.objects.filter(pk=item.part_id).update(current=None)
    assert "device-without-supply" in _codes(hatchback.job, item)


def test_a_call_that_must_be_heard_asks_for_a_mute(hatchback: Hatchback) -> None:
    """A mute run that mutes something answers; it turns nothing on."""
    job, run = hatchback.job, hatchback.turn_on_run
    assert "mute-run-missing" not in _codes(job, job)
    Job.objects.filter(pk=job.pk).update(calls_heard=True)
    assert _codes(job, job)["mute-run-missing"] == "look"
    Run.objects.filter(pk=run.pk).update(purpose="mute", current=0.005)
    run.refresh_from_db()
    assert run.kind_said == "mute"
    assert "mute-run-missing" not in _codes(job, job)
    woken = run.wakes.first()
    assert woken is not None
    assert "turn-on-run-missing" in _codes(job, woken)


def test_nobody_asked_about_calls_is_an_open_question(hatchback: Hatchback) -> None:
    """Where a processor plays, an unanswered brief is a look; yes and no are answers."""
    job = hatchback.job
    Job.objects.filter(pk=job.pk).update(calls_heard=None)
    assert _codes(job, job)["calls-open"] == "look"
    for answer in (True, False):
        Job.objects.filter(pk=job.pk).update(calls_heard=answer)
        assert "calls-open" not in _codes(job, job)


def test_an_amplifier_alone_asks_nothing_about_calls(van: Van) -> None:
    """Nothing stands between the car and its calls."""
    Job.objects.filter(pk=van.job.pk).update(calls_heard=None)
    assert "calls-open" not in _codes(van.job, van.job)


def test_a_device_nothing_feeds_and_a_run_without_a_route_are_named(hatchback: Hatchback) -> None:
    """Each by its own record, until it is entered."""
    job, run = hatchback.job, hatchback.line_run
    assert "signal-run-missing" not in _codes(job, hatchback.six)
    Run.objects.filter(job=job, end=hatchback.six_node, kind="L").update(end=None)
    assert _codes(job, hatchback.six)["signal-run-missing"] == "look"
    run.stretches.all().delete()
    said = [f for f in work_out(load(hatchback.again().job)).findings if f.code == "route-missing"]
    assert [f.name for f in said] == [run.label]


@pytest.mark.parametrize(
    ("relay", "diode", "code"),
    [
        (True, None, "coil-diode-unknown"),
        (True, False, "coil-without-diode"),
        (True, True, ""),
        (False, None, ""),
    ],
)
def test_a_coil_that_is_switched_needs_what_takes_up_its_charge(
    hatchback: Hatchback, relay: bool, diode: bool | None, code: str
) -> None:
    """Of a turn-on through a relay; nobody knows is another finding than none."""
    Run.objects.filter(pk=hatchback.turn_on_run.pk).update(relay=relay, relay_diode=diode)
    codes = _codes(hatchback.job, hatchback.turn_on_run)
    coil = {"coil-diode-unknown", "coil-without-diode"}
    assert set(codes) & coil == ({code} if code else set())
    assert not code or codes[code] == "look"


@pytest.mark.parametrize(
    ("kind", "coil", "diode", "codes"),
    [
        ("relay", 0.15, None, ["coil-diode-unknown"]),
        ("relay", 0.15, False, ["coil-without-diode"]),
        ("relay", 0.15, True, []),
        ("relay", None, True, ["relay-without-coil"]),
        ("relay", None, None, ["relay-without-coil", "coil-diode-unknown"]),
        ("block", None, None, []),
    ],
)
def test_a_charge_relay_has_a_coil_with_what_takes_up_its_charge(
    kind: str, coil: float | None, diode: bool | None, codes: list[str]
) -> None:
    """Each of both is asked; nobody knows is another finding than none."""
    node = PowerNode(pk=1, name="relay", kind=kind, coil_current=coil, coil_diode=diode)
    assert [(f.code, f.severity) for f in _relay(node)] == [(code, "look") for code in codes]
