"""The supply worked out from the records: sums by hand, and unknowns as findings."""

from __future__ import annotations

import math

import pytest
from django.utils import translation

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.models import Job, PowerNode
from tests.jobs.factories import make_power_run
from tests.jobs.scenes import Saloon

pytestmark = pytest.mark.django_db


def _design(scene):
    job = Job.objects.select_related("vehicle__customer").get(pk=scene.job.pk)
    return work_out(load(job))


def _supply(scene):
    return _design(scene).supply


def _codes(scene) -> set[str]:
    return {one.code for one in _supply(scene).findings}


def _set(row, **values: object) -> None:
    type(row).objects.filter(pk=row.pk).update(**values)


def test_an_amplifier_with_one_channel_of_unknown_load_counts_at_full_rating(hatchback, shelf):
    """One planned channel nobody can reckon, and the amplifier may give all it has."""
    node = hatchback.six_node
    before = _design(hatchback).power.tree
    planned = next(one.value for one in before.loads if one.id == about(node).id)
    assert planned == pytest.approx(6 * 75.0)  # six channels into 4 Ω at 75 W, invented sheet
    _set(shelf["tweeter"], nominal_impedance=None)
    tree = _design(hatchback).power.tree
    full = next(one.value for one in tree.loads if one.id == about(node).id)
    assert full == pytest.approx(6 * 120.0)  # the most its sheet gives, on every channel


def test_an_idling_channel_is_counted_with_the_driven_ones(van):
    """Input = idle + (full input − idle) · planned/rated, by hand for the van's two channels."""
    node = van.amplifier
    tree = _design(van).power.tree
    found = next(one for one in tree.loads if one.id == about(node).id)
    idle, full = 0.9 * 14.4, 6 * 120 / 0.82
    by_hand = idle + (full - idle) * (2 * 75) / (6 * 120)
    assert found.value / found.efficiency == pytest.approx(by_hand)


def test_the_balance_of_a_car_by_hand(hatchback):
    """I_left = hot share · rated − car − batteries − average of our parts."""
    supply = _supply(hatchback)
    budget = supply.budget
    assert supply.share == pytest.approx(2 * 10**-1.2)  # crest factor 12 dB, definition
    driving, idling = 0.85 * 150 - 45 - 12, 0.85 * 85 - 45 - 12
    assert budget.spare_driving == pytest.approx(driving - budget.audio_average)
    assert budget.spare_idling == pytest.approx(idling - budget.audio_average)
    watts = 0.0
    for planned, rated, efficiency, idle in ((450, 720, 0.82, 0.9), (320, 560, 0.84, 0.7)):
        still = idle * 14.4
        full = still + (rated / efficiency - still) * planned / rated
        watts += still + (full - still) * supply.share
    # The car commands its voltage: 12.2 V is the least it is reckoned with. The processor: 0.8 A.
    assert budget.audio_average == pytest.approx(watts / 12.2 + 0.8)
    rows = {what: (driving, idling) for what, driving, idling in supply.balance}
    assert sum(a for a, _ in list(rows.values())[:-1]) == pytest.approx(budget.spare_driving)


def test_what_is_played_decides_the_average_and_its_gap_is_said(hatchback):
    """Louder programme, more current; nobody noted one, and the loudest is assumed and said."""
    averages = []
    for programme in (Job.Programme.QUIET, Job.Programme.MUSIC, Job.Programme.COMPRESSED, ""):
        _set(hatchback.job, programme=programme)
        averages.append(_supply(hatchback).budget.audio_average)
    assert averages[0] < averages[1] < averages[2] == averages[3]
    assert "programme-unknown" in _codes(hatchback)


@pytest.mark.parametrize(
    ("field", "code"),
    [
        ("charging_current_idle", "alternator-idle-current-unknown"),
        ("charging_hot_share", "alternator-hot-factor-unknown"),
        ("vehicle_current", "vehicle-load-unknown"),
        ("recovery_current", "battery-charge-current-unknown"),
        ("sleep_current", "key-off-total-unknown"),
        ("start_stop", "start-stop-unknown"),
        ("smart_charging", "smart-charging-unknown"),
    ],
)
def test_an_unknown_figure_of_the_car_is_a_finding_and_never_a_zero(hatchback, field, code):
    """Without the figure nothing that needs it is shown, and a finding asks for it."""
    _set(hatchback.job.vehicle, **{field: None})
    supply = _supply(hatchback)
    assert code in {one.code for one in supply.findings}
    if field in {"vehicle_current", "recovery_current", "charging_hot_share"}:
        assert supply.budget.spare_driving is None
    if field == "sleep_current":
        assert supply.key_off.total is None
        assert supply.key_off.total_time is None
        assert supply.key_off.added is not None


def test_the_rated_current_is_asked_for_once_on_the_page_of_the_car(hatchback):
    """One gap is one finding: the car's own, not a second one of the supply."""
    _set(hatchback.job.vehicle, charging_current=None, charging_source="")
    codes = {one.code for one in _design(hatchback).findings}
    assert {"charging-current-unknown", "charging-source-unknown"} <= codes
    assert not any(code.startswith("alternator") for code in codes)


def test_a_converter_is_held_to_what_the_vehicle_maker_allows(hatchback):
    """An unknown limit asks, a peak above it asks, an average above it stops."""
    _set(hatchback.job.vehicle, energy="battery", charging_source="dc_dc")
    assert "dc-dc-accessory-limit-unknown" in _codes(hatchback)
    average, peak = _supply(hatchback).budget.audio_average, _supply(hatchback).budget.audio_peak
    _set(hatchback.job.vehicle, accessory_limit=(average + peak) / 2)
    assert "dc-dc-accessory-limit-exceeded-on-peaks" in _codes(hatchback)
    _set(hatchback.job.vehicle, accessory_limit=average * 0.9)
    assert "dc-dc-accessory-limit-exceeded" in _codes(hatchback)
    _set(hatchback.job.vehicle, accessory_limit=peak * 1.1)
    assert not any(code.startswith("dc-dc") for code in _codes(hatchback))
    codes = [one.code for one in _design(hatchback).findings]
    assert "high-voltage-car" in codes
    assert "high-voltage-vehicle-caution" not in codes  # said once, on the page of the car


def test_batteries_side_by_side_share_after_their_capacity(van):
    """Each gives current in proportion to its charge; the first to tire ends the music."""
    (reserve,) = _supply(van).reserves
    assert {node.name for node in reserve.batteries} == {van.starter.name, van.leisure.name}
    part = reserve.current * 92 / (92 + 95)
    # Below the rated current (92 A·h / 20 h) the rated charge counts; 40 % may go before a start.
    assert part < 92 / 20
    assert reserve.time == pytest.approx(0.4 * 92 * 3600 / part)
    _set(van.leisure, usable_share=0.1)
    (less,) = _supply(van).reserves
    assert less.time == pytest.approx(0.1 * 95 * 3600 / (reserve.current * 95 / (92 + 95)))


def test_the_reserve_follows_peukert_above_the_rated_current(hatchback):
    """t = share · H·(C / (I·H))^k for the hatchback's one battery, by hand."""
    (reserve,) = _supply(hatchback).reserves
    hours = 20 * (80 / (reserve.current * 20)) ** 1.12
    assert reserve.current > 80 / 20
    assert reserve.time == pytest.approx(0.4 * hours * 3600)
    _set(hatchback.job, reserve_wanted=hours * 3600)
    assert "reserve-short" in _codes(hatchback)


@pytest.mark.parametrize("missing", ["charge", "rated_time", "peukert", "usable_share"])
def test_a_battery_that_lacks_a_figure_has_no_reserve_time(hatchback, missing):
    """Each of the four figures is needed; without one nothing is reckoned, and that is said.

    A battery that has to start the engine keeps a share of its own, so this one has not.
    """
    _set(hatchback.battery, usable_share=0.5, cca=None)
    assert _supply(hatchback).reserves[0].time is not None
    _set(hatchback.battery, **{missing: None})
    (unknown,) = _supply(hatchback).reserves
    assert unknown.time is None
    assert "reserve-unknown" in _codes(hatchback)


def test_a_converter_between_the_batteries_parts_the_reserve(van):
    """With the engine off a converter gives nothing: only the battery behind it plays."""
    job = van.job
    dc = PowerNode.objects.create(
        job=job, kind="dc_dc", name="Charger", voltage=14.2, internal_resistance=0.02,
        current_limit=30, standby_current=0.001,
    )  # fmt: skip
    start, link = van.starter, van.link
    _set(link, start=dc)
    link.pk, link.number, link.start, link.end, link.entry_token = None, 8, start, dc, None
    link.save()
    (reserve,) = _supply(van).reserves
    assert [node.name for node in reserve.batteries] == [van.leisure.name]
    part = reserve.current
    assert reserve.time == pytest.approx(0.5 * 95 * 3600 / part)


def test_what_a_converter_takes_in_is_no_music(van):
    """Its input is a load of the battery it charges from, and no part of what plays there."""
    before = _supply(van).reserves[0].current
    dc = PowerNode.objects.create(
        job=van.job, kind="dc_dc", name="Charger", voltage=14.2, internal_resistance=0.02,
        current_limit=30, standby_current=0.4,
    )  # fmt: skip
    spur = van.branch
    spur.pk, spur.number, spur.end, spur.entry_token = None, 8, dc, None
    spur.save()
    assert _supply(van).reserves[0].current == pytest.approx(before, rel=1e-3)


def test_nothing_drawn_is_known_to_last(hatchback):
    """A measured drain of nothing is an answer; it is not the same as an unknown one."""
    hatchback.job.powernodes.update(standby_current=0.0)
    assert _supply(hatchback).key_off.added_time == math.inf
    hatchback.job.powernodes.update(standby_current=None)
    assert _supply(hatchback).key_off.added_time is None


def test_key_off_adds_our_parts_to_the_car(hatchback):
    """Total = the car alone + every part of ours; days until 40 % of its battery are gone."""
    drain = _supply(hatchback).key_off
    ours = 0.0012 + 0.001 + 0.0015
    assert drain.added == pytest.approx(ours)
    assert drain.total == pytest.approx(ours + 0.022)
    assert drain.total_time == pytest.approx(0.4 * 80 * 3600 / (ours + 0.022))
    assert drain.total_lasts == f"{math.floor(drain.total_time / 86400)} days"
    assert drain.added_lasts == "more than 90 days"
    _set(hatchback.processor_node, standby_current=0.05)
    assert {"key-off-added-high", "key-off-total-high"} <= _codes(hatchback)
    _set(hatchback.processor_node, standby_current=None)
    unknown = _supply(hatchback).key_off
    assert unknown.added is None
    assert unknown.total is None
    assert {"key-off-added-unknown", "key-off-total-unknown"} <= _codes(hatchback)
    _set(hatchback.processor_node, standby_current=-0.001)
    assert "supply-cannot-be" in _codes(hatchback)


def test_a_bass_note_sags_as_the_circuit_says(hatchback, shelf):
    """w = (E + √(E² − 4·P·R)) / 2 at full output, and it lies below the voltage at rest."""
    for played in _supply(hatchback).bass:
        (feed,) = played.feed.feeds  # the engine is off: batteries alone
        resistance = feed.source_resistance + feed.tail_resistance
        root = math.sqrt(feed.open_voltage**2 - 4 * played.note.power * resistance)
        assert played.sag.lowest == pytest.approx((feed.open_voltage + root) / 2)
        assert played.sag.lowest < played.sag.rest_voltage
    _set(shelf["six"], minimum_voltage=12.3)
    assert "note-below-minimum-voltage" in _codes(hatchback)
    _set(shelf["six"], minimum_voltage=None)
    assert "amplifier-minimum-voltage-unknown" in _codes(hatchback)


def _bank(saloon: Saloon, **more: object) -> PowerNode:
    """A capacitor bank on a fused run from the amplifier; invented."""
    job = saloon.job
    bank = PowerNode.objects.create(
        job=job, kind="capacitor", name="Bank", voltage=12.5, internal_resistance=0.002, **more
    )
    like = saloon.main_run
    make_power_run(
        saloon.amplifier, bank, like.conductor, 0.3, fuse=like.fuse, fuse_distance=0.1,
        end_fuse=like.fuse, end_fuse_distance=0.1,
    )  # fmt: skip
    return bank


def test_a_bank_is_told_what_it_buys(saloon):
    """A bank of 1 F holds the first moments and leaves the end of the note as it was."""
    bank = _bank(saloon, capacitance=1.0)
    (played,) = _supply(saloon).bass
    assert played.bank_node == bank
    assert played.gain == pytest.approx(0.0, abs=1e-3)
    assert played.common is None
    early = played.sag.time < 1e-4
    assert played.sag.voltage[early].min() > played.bare.lowest + 0.1
    assert {"capacitor-gain-small", "capacitor-needs-fuse-and-slow-charge"} <= _codes(saloon)
    _set(bank, capacitance=None)
    (without,) = _supply(saloon).bass
    assert without.bank is None
    assert "capacitance-unknown" in _codes(saloon)


def test_heat_looks_at_the_place(saloon):
    """A closed place and an unknown one each ask; the watts are those the calculator finds."""
    (row,) = _supply(saloon).heat
    assert "amplifier-in-closed-space" in _codes(saloon)
    planned, share = 320.0, 2 * 10**-0.78
    still = 0.7 * 14.4
    full = still + (560 / 0.84 - still) * planned / 560
    assert row.heat.average == pytest.approx(still + (full - still) * share - share * planned)
    assert row.heat.worst == pytest.approx(full - planned)
    _set(row.item, ventilated=None)
    assert "amplifier-air-unknown" in _codes(saloon)
    _set(row.item, ventilated=True)
    assert not _codes(saloon) & {"amplifier-air-unknown", "amplifier-in-closed-space"}


def test_a_contradiction_is_a_finding_with_its_figure_in_the_readers_language(hatchback):
    """An idle current above the rated one is named, not quoted in the calculator's words."""
    _set(hatchback.job.vehicle, charging_current_idle=500)
    finding = next(one for one in _design(hatchback).findings if one.code == "supply-cannot-be")
    assert finding.value == str(finding.refused)  # the same in every language
    with translation.override("en"):
        assert "rated current at idle: 500\N{NO-BREAK SPACE}A" in finding.says
        assert "must be" not in finding.says
    assert _supply(hatchback).source is None
    assert _supply(hatchback).balance == ()


def test_an_amplifier_nothing_feeds_stops_the_sums(hatchback):
    """A removed battery or run leaves cautions and drain, and no figure of its own."""
    battery = hatchback.battery
    battery.remove()
    assert _supply(hatchback).budget is None
    assert _supply(hatchback).bass == ()
    battery.restore()
    assert _supply(hatchback).budget is not None
    hatchback.mono_run.remove()
    assert _supply(hatchback).budget is None
    assert "load-without-source" in {one.code for one in _design(hatchback).findings}


def test_without_an_amplifier_or_a_solved_tree_nothing_is_invented(hatchback):
    """No amplifier: no supply. A tree with a gap: cautions and drain only."""
    _set(hatchback.main_run, length=None)
    supply = _supply(hatchback)
    assert supply.budget is None
    assert supply.bass == ()
    assert supply.reserves == ()
    assert supply.key_off is not None
    assert "start-stop-caution" in {one.code for one in supply.findings}
    hatchback.job.powernodes.filter(kind="amplifier").delete()
    empty = _supply(hatchback)
    assert empty.amplifiers == ()
    assert empty.findings == ()
