"""The lists made from the runs of a job, and what is said of ends and edges."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.design.wiring.cables import for_aluminium, is_colour
from jobs.design.wiring.schedule import Schedule, check_runs, lay_runs, work_out_schedule
from jobs.models import Decision, Fuse, PowerNode, Run, Stretch, Terminal, Workshop
from tests.jobs.factories import make_power_run

pytestmark = pytest.mark.django_db
# DIN 72552: 30, 31, their letters and 41 as an open copy prints them, the rest from memory.
DIN_72552 = {
    *("15", "30", "30a", "31", "31b", "40", "41", "49", "50", "56", "58", "58d", "61", "75"),
    *("85", "86", "87", "87a", "B+", "D+"),
}
POUND_FORCE = 4.4482216152605  # N; NIST SP 811 (2008), appendix B.8


def schedule(job) -> Schedule:
    records = load(job)
    return work_out_schedule(records, work_out(records).power, Workshop.current())


def codes(job) -> dict[str, str]:
    """(code -> where) of what is said on the wiring page."""
    return {one.code: one.where for one in work_out(load(job)).findings_of("power")}


def test_terminal_numbers_are_those_of_the_standard():
    """A run offers numbers the standard gives to terminals of a car, and no others."""
    assert set(Run.Contact.values) == DIN_72552


def test_what_is_cut_is_the_route_with_its_allowance(hatchback):
    """L·(1 + slack) + twice what an end takes, worked by hand for the first run."""
    workshop = Workshop.current()
    line = schedule(hatchback.job).lines[0]
    assert line.run == hatchback.main_run
    by_hand = 0.6 * (1 + workshop.cable_slack) + 2 * workshop.cable_per_end
    assert line.row.cut_length == pytest.approx(by_hand)
    # ISO 10133:2012, 7.3: a battery's cable every 300 mm.
    assert line.row.supports == math.ceil(0.6 / 0.3)
    # ICEA type rule: 4 × the outer diameter of a cable up to 25.4 mm.
    assert line.row.bend_radius == pytest.approx(4 * line.run.conductor.outer_diameter)


def test_lines_stand_in_the_order_of_the_labels(hatchback):
    """Power, speaker, line, control, each by its number."""
    labels = [one.run.label for one in schedule(hatchback.job).lines]
    kinds = "".join(dict.fromkeys(label[0] for label in labels))
    assert kinds == "PSLC"
    assert labels[:4] == ["P01", "P02", "P03", "P04"]


def test_a_fuse_protects_what_hangs_behind_it(hatchback):
    """A branch without a fuse of its own is protected by the next one towards the battery."""
    job = hatchback.job
    main, six, branch = hatchback.main_run, hatchback.six_run, hatchback.processor_run
    Run.objects.filter(pk=branch.pk).update(fuse=None)
    protects = {one.label: list(one.protects) for one in schedule(job).fuses}
    assert protects[f"F-{main}"] == [main.label, branch.label]
    assert protects[f"F-{six}"] == [six.label]
    assert f"F-{branch}" not in protects


def test_a_cable_with_a_source_at_each_end_has_two_fuses(van):
    """Both protect it, and each is found at its own battery."""
    fuses = {one.label: one for one in schedule(van.job).fuses}
    start, end = (fuses[f"F-{van.link}{side}"] for side in "ab")
    assert van.link.label in set(start.protects) & set(end.protects)
    assert (start.place, end.place) == (van.starter.place, van.leisure.place)
    assert start.place != end.place


def test_the_order_covers_what_is_cut(hatchback):
    """Every core of every measured run is in it, rounded up, by colour."""
    made = schedule(hatchback.job)
    ordered = {(one.size, one.colours): one.length for one in made.order.cables}
    cut = {one.run.label: one.row.cut_length for one in made.lines}
    red, black = ordered["16 mm²", ("RD",)], ordered["16 mm²", ("BK",)]
    assert red == black
    branches = cut[hatchback.six_run.label] + cut[hatchback.mono_run.label]
    assert branches <= red < branches + 0.1 + 1e-9
    # Two cores under one sheath are bought once.
    front = [one.run for one in made.lines if one.run.channel and one.run != hatchback.bass_run]
    assert len(front) == 6
    pairs = sum(cut[run.label] for run in front)
    assert pairs <= ordered["1.5 mm²", ("WH", "BK")] < pairs + 0.1 + 1e-9


def test_the_way_back_is_cut_to_its_own_length(saloon):
    """A minus cable that goes another way is ordered by its own length."""
    job = saloon.job
    Run.objects.filter(pk=saloon.main_run.pk).update(return_length=1.0)
    by_colour = {one.colours: one.length for one in schedule(job).order.cables}
    workshop = Workshop.current()
    # The plus is 3.6 m longer, and the fuse parts it: two ends more to strip.
    more = 3.6 * 1.1 + 2 * workshop.cable_per_end
    assert by_colour["RD",] - by_colour["BK",] == pytest.approx(more, abs=0.11)
    by_hand = 1.0 * (1 + workshop.cable_slack) + 2 * workshop.cable_per_end
    assert schedule(job).lines[0].return_cut == pytest.approx(by_hand)


def test_a_way_back_nobody_measured_is_left_open(hatchback):
    """A lead to the body without a length stands on the lists, with a blank and nothing ordered."""
    run = hatchback.six_run
    before = schedule(hatchback.job)
    Run.objects.filter(pk=run.pk).update(
        return_kind="chassis", return_length=None, return_start=None,
        return_end=hatchback.ground_bar,
    )  # fmt: skip
    lists = schedule(hatchback.job)
    assert f"{run.label} −" in lists.order.unmeasured
    opened = [{x.run.label for x in each.lines if x.return_open} for each in (before, lists)]
    assert opened == [set(), {run.label}]
    ends = [row for row in lists.ends if row.label == f"{run.label} −"]
    six, bar = hatchback.six_node, hatchback.ground_bar
    assert {(row.place, row.where) for row in ends} == {(str(six), six.place), (bar.name, "")}
    bought = [
        sum(c.length for c in each.order.cables if c.colours == ("BK",)) for each in (before, lists)
    ]
    assert bought[1] < bought[0]


def test_a_switch_in_the_tree_leaves_the_lists_whole(van, shelf):
    """What joins two nodes without being a cable has no label, no end and no row."""
    switch = PowerNode.objects.create(
        job=van.job, kind="switch", name="Main switch", rated_current=200.0
    )
    Run.objects.filter(pk=van.branch.pk).update(start=switch)
    make_power_run(van.leisure, switch, shelf["16 mm²"], 0.3, fuse=shelf["60 A"])
    lists = schedule(van.job)
    assert next(line for line in lists.lines if line.run == van.branch).fuses
    assert {line.run.kind for line in lists.lines} == {"P", "S", "L", "C"}


def test_crimps_are_pulled_with_the_published_force(hatchback, shelf):
    """UL 486A type, 2 AWG, the next listed size above 35 mm² down to 1/0: 250 lbf."""
    crimps = {one.terminal: one for one in schedule(hatchback.job).crimps}
    ring = crimps[str(shelf["ring 35 mm²"])]
    # 35 mm² lies between 2 AWG (33.6 mm², 180 lbf) and 1/0 AWG (53.5 mm², 250 lbf).
    assert ring.force == pytest.approx(250 * POUND_FORCE)
    main = hatchback.main_run.label
    assert ring.ends == [main, f"F-{main}"]
    assert ring.count == 6  # two cores, two ends, and the plus cut for its fuse
    ferrule = crimps[str(shelf["end 16 mm²"])]
    assert ferrule.ends == [f"{hatchback.six_run} end", f"{hatchback.mono_run} end"]


def test_every_end_of_every_core_is_listed(hatchback):
    """Power, speaker, signal, turn-on: two ends a core with colour and terminal; screens too."""
    lists = schedule(hatchback.job)
    assert {row.run.label for row in lists.ends} == {line.run.label for line in lists.lines}
    assert lists.unended == []
    line = [row for row in lists.ends if row.run.label == hatchback.line_run.label]
    assert [(row.at_start, row.core.colour, row.core.screen) for row in line] == [
        (True, "GY", False), (False, "GY", False), (True, "", True), (False, "", True),
    ]  # fmt: skip
    assert {row.terminal.name for row in line} == {"Plug on its lead"}
    # What is plugged is not pulled.
    pulled = [end for kind in lists.crimps for end in kind.ends]
    assert not any(end.startswith("L") for end in pulled)
    assert any(end.startswith("C") for end in pulled)
    assert lists.order.terminals["Plug on its lead"] == 2 * 3


def test_a_signal_run_without_its_plugs_is_named(hatchback):
    """It stands with the others whose ends nobody chose."""
    Run.objects.filter(pk=hatchback.line_run.pk).update(start_terminal=None)
    assert hatchback.line_run.label in codes(hatchback.job)["terminal-not-chosen"]
    Run.objects.filter(pk=hatchback.line_run.pk).update(conductor=None)
    assert schedule(hatchback.job).unended == [hatchback.line_run.label]


def test_no_force_is_made_up_for_other_metals(saloon, shelf):
    """Copper-clad aluminium has no published figure here: the maker's counts."""
    job = saloon.job
    Run.objects.filter(pk=saloon.main_run.pk).update(conductor=shelf["clad"])
    assert schedule(job).crimps[0].force is None


def test_what_holds_for_many_runs_is_said_once(hatchback):
    """Twelve ends without a terminal are one finding that names the runs."""
    job = hatchback.job
    Run.objects.filter(job=job).update(start_terminal=None)
    records = load(job)
    found = [
        one for one in check_runs(records, lay_runs(records)) if one.code == "terminal-not-chosen"
    ]
    (one,) = found
    assert one.where.split(", ")[:2] == [hatchback.main_run.label, hatchback.six_run.label]
    assert hatchback.line_run.label in one.where  # plugs are chosen like any other terminal


def test_a_bare_metal_edge_is_a_stop(saloon):
    """33 CFR 183.445: without a grommet the run may not be fitted."""
    job = saloon.job
    assert codes(job)["passage-unknown"] == saloon.main_run.label
    Stretch.objects.filter(run__job=job, edge=Stretch.Edge.OPEN).update(edge=Stretch.Edge.BARE)
    design = work_out(load(job))
    bare = [one.where for one in design.open_stops if one.code == "grommet-missing"]
    assert saloon.main_run.label in bare
    Stretch.objects.filter(run__job=job).update(edge=Stretch.Edge.GROMMET)
    assert "grommet-missing" not in codes(job)


def test_every_bare_edge_of_a_run_is_named(hatchback):
    """Two bare edges on one run are one stop with both places; guarding one leaves the other."""
    job = hatchback.job
    run = hatchback.six_run
    run.stretches.all().delete()
    for position, place in enumerate(("bulkhead", "sill end"), start=1):
        Stretch.objects.create(run=run, position=position, place=place, edge=Stretch.Edge.BARE)

    def said() -> list[str]:
        found = work_out(load(job)).open_stops
        return [str(one.value) for one in found if one.code == "grommet-missing"]

    assert said() == ["bulkhead, sill end"]
    run.stretches.filter(place="bulkhead").update(edge=Stretch.Edge.GROMMET)
    assert said() == ["sill end"]


@pytest.mark.parametrize("name", ["line_run", "turn_on_run"])
def test_a_run_nobody_crimps_passes_edges_too(hatchback, name):
    """A line run with moulded plugs, or a run whose cable is not chosen, chafes all the same."""
    job = hatchback.job
    run = getattr(hatchback, name)
    Run.objects.filter(pk=run.pk, kind="C").update(conductor=None)
    Stretch.objects.create(run=run, position=9, place="bulkhead", edge=Stretch.Edge.BARE)
    assert codes(job)["grommet-missing"] == run.label


def test_a_copper_lug_on_aluminium_is_a_stop(hatchback, shelf):
    """The metals a terminal is made for reach the tree, and are said once."""
    job = hatchback.job
    Run.objects.filter(pk=hatchback.main_run.pk).update(conductor=shelf["clad"])
    found = [
        one
        for one in work_out(load(job)).findings_of("power")
        if one.code == "terminal-unsuited-to-metal"
    ]
    assert [one.where for one in found] == [hatchback.main_run.label]


@pytest.mark.parametrize(
    ("metals", "answer"),
    [
        (["copper", "both"], False),
        (["both", "aluminium"], True),
        (["both", ""], None),
        (["copper", None], False),
    ],
)
def test_terminals_are_as_good_as_the_worse_end(metals, answer):
    """One copper-only end spoils both; an unknown one leaves it open."""
    ends = [None if one is None else Terminal(metals=one) for one in metals]
    assert for_aluminium(ends) is answer


def test_a_colour_nobody_defined_stops_the_run(hatchback):
    """Letters outside IEC 60757 are refused by name, not printed."""
    assert is_colour("GNYE")
    assert not is_colour("RED")
    job = hatchback.job
    run = hatchback.tweeter_run
    Run.objects.filter(pk=run.pk).update(colour="XX")
    assert codes(job)["run-cannot-be"] == run.label
    assert next(one for one in schedule(job).lines if one.run == run).row is None


def test_a_fuse_is_held_against_the_voltage_of_its_network(hatchback):
    """A fuse for 12 V in a network that reaches 16 V is a stop on the wiring page."""
    job = hatchback.job
    part, label = hatchback.main_run.fuse_id, hatchback.main_run.label
    Fuse.objects.filter(pk=part).update(voltage=12.0)
    assert codes(job)["fuse-voltage-low"] == label
    Fuse.objects.filter(pk=part).update(voltage=None)
    assert codes(job)["fuse-voltage-unknown"] == label


def test_the_heat_somebody_measured_counts(hatchback):
    """A run's own air replaces that of its zone: hotter than its insulation is a stop."""
    job = hatchback.job
    run = hatchback.six_run
    Run.objects.filter(pk=run.pk).update(ambient=273.15 + 110)
    assert codes(job)["insulation-below-ambient"] == run.label


def test_a_run_without_a_cable_stands_on_the_list_without_a_length(van):
    """It is not left out, and nothing is assumed for it."""
    job = van.job
    run = van.speaker_run
    assert any(run.label in one.runs for one in schedule(job).order.cables)
    Run.objects.filter(pk=run.pk).update(conductor=None)
    line = next(one for one in schedule(job).lines if one.run == run)
    assert line.row is None
    assert all(run.label not in one.runs for one in schedule(job).order.cables)


def test_a_tree_that_cannot_be_drawn_still_lists_its_fuses(saloon):
    """Without a voltage of its source no tree is solved; every fuse still guards its own run."""
    job = saloon.job
    job.powernodes.filter(kind="battery").update(voltage=None)
    main, fuses = saloon.main_run.label, schedule(job).fuses
    assert [(one.label, list(one.protects)) for one in fuses] == [(f"F-{main}", [main])]


def test_a_fused_run_outside_the_tree_keeps_its_fuse(hatchback):
    """A run that lacks its end is no part of the tree; its fuse still stands on the map."""
    job = hatchback.job
    run = hatchback.processor_run
    Run.objects.filter(pk=run.pk).update(end=None)
    protects = {one.label: list(one.protects) for one in schedule(job).fuses}
    assert protects[f"F-{run}"] == [run.label]


def test_every_point_of_a_curve_reaches_the_calculator(hatchback):
    """Three points typed are three points used."""
    run = hatchback.main_run
    assert len(run.fuse.curve) == 3
    tree = work_out(load(hatchback.job)).power.tree
    (fitted,) = [one.fuse_start for one in tree.runs if one.id == about(run).id]
    assert [list(point) for point in fitted.fuse.opening] == run.fuse.curve


def _decided(job, code: str, decisions=()) -> Finding:
    findings = work_out(replace(load(job), decisions=decisions)).findings
    return next(one for one in findings if one.code == code)


def test_what_was_decided_of_an_end_says_nothing_of_the_other(hatchback):
    """A terminal missing at one end was accepted; missing at both ends it asks again."""
    run = hatchback.main_run
    code, run.start_terminal = "terminal-not-chosen", None
    run.save()
    accepted = Decision(fingerprint=_decided(hatchback.job, code).fingerprint)
    assert not _decided(hatchback.job, code, [accepted]).is_open
    run.end_terminal = None
    run.save()
    assert _decided(hatchback.job, code, [accepted]).is_open


def test_a_second_bare_edge_of_one_panel_is_its_own(hatchback):
    """A bare edge was released; another behind the same panel asks again, in any order."""
    run, panel = hatchback.main_run, hatchback.job.panels.first()
    run.stretches.all().delete()
    code, bare = "grommet-missing", {"run": run, "panel": panel, "edge": Stretch.Edge.BARE}
    Stretch.objects.create(position=1, **bare)
    released = Decision(fingerprint=_decided(hatchback.job, code).fingerprint)
    assert not _decided(hatchback.job, code, [released]).is_open
    Stretch.objects.create(position=2, **bare)
    assert _decided(hatchback.job, code, [released]).is_open
    Stretch.objects.filter(run=run, position=1).update(edge=Stretch.Edge.GROMMET)
    assert _decided(hatchback.job, code, [released]).is_open
