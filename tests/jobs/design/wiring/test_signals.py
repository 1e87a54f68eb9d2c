"""Line-level and control runs of a job: company, levels, what turns on what."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.wiring.channels import work_out_channels
from jobs.design.wiring.power import work_out_power
from jobs.design.wiring.signals import work_out_signals
from jobs.models import LoomJoin, Run, Stretch

pytestmark = pytest.mark.django_db


def codes(job) -> dict[str, str]:
    """(code -> where) of what is said on the wiring page."""
    return {one.code: one.where for one in work_out(load(job)).findings_of("power")}


def _signals(job):
    """Line and control runs of a job, worked out beside its power tree."""
    records = load(job)
    return work_out_signals(records, work_out_power(records, work_out_channels(records)))


def test_turning_on_adds_up_what_is_ticked(hatchback):
    """Two amplifiers of 10 mA each; the processor's sheet says what it may give."""
    line = _signals(hatchback.job).turn_ons[hatchback.turn_on_run.label]
    assert line.source_current == pytest.approx(0.02)
    assert line.source_limit == pytest.approx(0.3)
    assert line.needs_relay is False


@pytest.mark.parametrize(
    ("figures", "code"),
    [
        ({"current": 0.5}, "turn-on-needs-relay"),
        ({"current": 0.5, "source_limit": 0.2}, "turn-on-needs-relay"),
        # Trade pages: remote outputs are limited to 150 to 300 mA.
        ({"current": 0.2, "start": None}, "turn-on-may-need-relay"),
        ({"relay": True, "relay_coil": 0.4}, "relay-coil-over-limit"),
        ({"relay": True}, "turn-on-current-unknown"),
        ({"length": None}, "run-length-unknown"),
    ],
)
def test_a_control_run_is_held_against_its_source(hatchback, figures, code):
    """More than the source may give needs a relay; what is not entered is said."""
    job = hatchback.job
    Run.objects.filter(pk=hatchback.turn_on_run.pk).update(**figures)
    assert codes(job)[code] == hatchback.turn_on_run.label


@pytest.mark.parametrize(
    ("figures", "code"),
    [
        # A battery is no output, whatever somebody entered.
        ({"fed_by": "output", "source_limit": 1.0}, "control-unprotected"),
        ({"fed_by": ""}, "control-unprotected"),
    ],
)
def test_a_run_from_a_battery_is_fed_by_the_supply(hatchback, figures, code):
    """Its start tells: without a fuse it burns."""
    run = hatchback.turn_on_run
    Run.objects.filter(pk=run.pk).update(start=hatchback.battery, current=0.02, **figures)
    assert codes(hatchback.job)[code] == run.label


def test_what_was_found_in_the_loom_tells_what_feeds_a_run(hatchback):
    """A pin that carries the supply: unfused it is a stop, of a ground wire nothing is asked."""
    run, job = hatchback.turn_on_run, hatchback.job
    Run.objects.filter(pk=run.pk).update(start=None, current=0.02, source_limit=0.3)
    assert "control-feed-unknown" in codes(job)
    LoomJoin.objects.filter(pk=hatchback.join.pk).update(run=run, carries="supply", level=None)
    assert codes(job)["control-unprotected"] == run.label
    Run.objects.filter(pk=run.pk).update(start_contact="31")
    assert not {"control-unprotected", "control-feed-unknown"} & set(codes(job))


def test_the_routes_tell_a_line_run_its_company(hatchback):
    """Nobody wrote down what it lies beside: the panels it shares with power runs are named."""
    job = hatchback.job
    Run.objects.filter(job=job, kind="L").update(beside_power=None)
    line = about(hatchback.line_run)
    (note,) = [f for f in _signals(job).findings if "panel" in f.code and f.about == line]
    assert note.severity == "note"
    branches = (hatchback.six_run, hatchback.mono_run, hatchback.processor_run)
    assert note.shown_value == f"{hatchback.side_trim}: {', '.join(map(str, branches))}"
    Run.objects.filter(job=job, kind="L").update(beside_power=0.0)
    assert not [one for one in _signals(job).findings if "beside" in one.code]


def test_a_line_run_laid_where_the_power_goes_is_a_look(hatchback):
    """One panel in common may be a crossing; two in a row are the same side of the car."""
    job, line = hatchback.job, about(hatchback.line_run)
    Run.objects.filter(job=job, kind="L").update(beside_power=None)
    floor = hatchback.main_run.stretches.first().panel
    Stretch.objects.create(run=hatchback.line_run, panel=floor, position=9)
    (look,) = [f for f in _signals(job).findings if "along" in f.code and f.about == line]
    assert look.severity == "look"
    assert str(floor) in look.shown_value
    Run.objects.filter(job=job, kind="L").update(beside_power=0.0)
    assert "line-along-power" not in {f.code for f in _signals(job).findings}


def test_what_the_loom_gives_is_held_against_the_input(hatchback, shelf):
    """8 V found on a speaker wire, an input for 4 V: a line converter is missing."""
    join, part = hatchback.join, shelf["processor"]
    type(join).objects.filter(pk=join.pk).update(level=8.0, run=hatchback.line_run)
    assert hatchback.line_run.end.equipment.part.pk == part.pk
    assert "input-limit-unknown" in codes(hatchback.job)
    type(part).objects.filter(pk=part.pk).update(highest_input=4.0)
    (found,) = [f for f in _signals(hatchback.job).findings if f.code == "signal-above-input"]
    assert (found.about, found.value, found.limit) == (about(join), 8.0, 4.0)
    type(part).objects.filter(pk=part.pk).update(highest_input=10.0)
    assert not {"signal-above-input", "input-limit-unknown"} & set(codes(hatchback.job))


def test_a_relay_of_a_control_run_has_a_coil_that_switches_off(hatchback):
    """A coil without a diode destroys the output that drives it: unknown asks, none says so."""
    job, run = hatchback.job, hatchback.turn_on_run
    assert "coil-diode-unknown" not in codes(job)
    for diode, code in ((None, "coil-diode-unknown"), (False, "coil-without-diode")):
        Run.objects.filter(pk=run.pk).update(relay=True, relay_coil=0.15, relay_diode=diode)
        assert codes(job)[code] == run.label
    Run.objects.filter(pk=run.pk).update(relay_diode=True)
    assert not {"coil-diode-unknown", "coil-without-diode"} & set(codes(job))


def test_a_long_line_with_a_weak_source_loses_treble(hatchback):
    """First-order low-pass: 100 kΩ and 523 pF are 3 dB down at 3 kHz (by hand)."""
    job = hatchback.job
    Run.objects.filter(pk=hatchback.line_run.pk).update(source_resistance=100e3)
    assert codes(job)["line-treble-loss"] == hatchback.line_run.label
