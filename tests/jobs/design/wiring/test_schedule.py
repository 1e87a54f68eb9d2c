"""The lists made from the runs of a job, and what is said of ends, edges and signals."""

from __future__ import annotations

import math

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.wiring.cables import for_aluminium, is_colour
from jobs.design.wiring.schedule import Schedule, check_runs, work_out_schedule
from jobs.design.wiring.signals import work_out_signals
from jobs.models import Conductor, Fuse, Part, Run, Stretch, Terminal, Workshop
from wiring.cable.markings import VEHICLE_TERMINALS

pytestmark = pytest.mark.django_db
POUND_FORCE = 4.4482216152605  # N; NIST SP 811 (2008), appendix B.8


def schedule(job) -> Schedule:
    records = load(job)
    return work_out_schedule(records, work_out(records).power, Workshop.current())


def codes(job) -> dict[str, str]:
    """(code -> where) of what is said on the wiring page."""
    return {one.code: one.where for one in work_out(load(job)).findings_of("power")}


def test_terminal_numbers_are_those_of_the_calculators():
    """A run offers every number of the wiring package and no other."""
    assert set(Run.Contact.values) == set(VEHICLE_TERMINALS)


def test_what_is_cut_is_the_route_with_its_allowance(demo):
    """L·(1 + slack) + twice what an end takes, worked by hand for the first run."""
    workshop = Workshop.current()
    line = schedule(demo["J-0001"]).lines[0]
    assert line.run.label == "P01"
    by_hand = 0.6 * (1 + workshop.cable_slack) + 2 * workshop.cable_per_end
    assert line.row.cut_length == pytest.approx(by_hand)
    # ISO 10133:2012, 7.3: a battery's cable every 300 mm.
    assert line.row.supports == math.ceil(0.6 / 0.3)
    # ICEA type rule: 4 × the outer diameter of a cable up to 25.4 mm.
    assert line.row.bend_radius == pytest.approx(4 * line.run.conductor.outer_diameter)


def test_lines_stand_in_the_order_of_the_labels(demo):
    """Power, speaker, line, control, each by its number."""
    labels = [one.run.label for one in schedule(demo["J-0001"]).lines]
    kinds = "".join(dict.fromkeys(label[0] for label in labels))
    assert kinds == "PSLC"
    assert labels[:4] == ["P01", "P02", "P03", "P04"]


def test_a_fuse_protects_what_hangs_behind_it(demo):
    """A branch without a fuse of its own is protected by the next one towards the battery."""
    job = demo["J-0001"]
    Run.objects.filter(job=job, kind="P", number=4).update(fuse=None)
    protects = {one.label: list(one.protects) for one in schedule(job).fuses}
    assert protects["F-P01"] == ["P01", "P04"]
    assert protects["F-P02"] == ["P02"]
    assert "F-P04" not in protects


def test_a_cable_with_a_source_at_each_end_has_two_fuses(demo):
    """Both protect it, and each is found at its own battery."""
    fuses = {one.label: one for one in schedule(demo["J-0002"]).fuses}
    assert {"P01"} <= set(fuses["F-P01a"].protects) & set(fuses["F-P01b"].protects)
    assert fuses["F-P01a"].place == "under the driver's seat"
    assert fuses["F-P01b"].place == "bench seat"


def test_the_order_covers_what_is_cut(demo):
    """Every core of every measured run is in it, rounded up, by colour."""
    made = schedule(demo["J-0001"])
    ordered = {(one.size, one.colours): one.length for one in made.order.cables}
    cut = {one.run.label: one.row.cut_length for one in made.lines}
    red, black = ordered["16 mm²", ("RD",)], ordered["16 mm²", ("BK",)]
    assert red == black
    assert cut["P02"] + cut["P03"] <= red < cut["P02"] + cut["P03"] + 0.1 + 1e-9
    # Two cores under one sheath are bought once.
    pairs = sum(cut[f"S0{n}"] for n in range(1, 7))
    assert pairs <= ordered["1.5 mm²", ("WH", "BK")] < pairs + 0.1 + 1e-9


def test_the_way_back_is_cut_to_its_own_length(demo):
    """A minus cable that goes another way is ordered by its own length."""
    job = demo["J-0003"]
    Run.objects.filter(job=job, kind="P").update(return_length=1.0)
    by_colour = {one.colours: one.length for one in schedule(job).order.cables}
    assert by_colour["RD",] - by_colour["BK",] == pytest.approx(3.6 * 1.1, abs=0.11)
    workshop = Workshop.current()
    by_hand = 1.0 * (1 + workshop.cable_slack) + 2 * workshop.cable_per_end
    assert schedule(job).lines[0].return_cut == pytest.approx(by_hand)


def test_crimps_are_pulled_with_the_published_force(demo):
    """UL 486A type, 2 AWG, the next listed size above 35 mm² down to 1/0: 250 lbf."""
    crimps = {one.terminal: one for one in schedule(demo["J-0001"]).crimps}
    ring = crimps["Ferrow Ring 35 mm², M8"]
    # 35 mm² lies between 2 AWG (33.6 mm², 180 lbf) and 1/0 AWG (53.5 mm², 250 lbf).
    assert ring.force == pytest.approx(250 * POUND_FORCE)
    assert ring.ends == ["P01"]
    assert ring.count == 4  # two cores, two ends
    assert crimps["Ferrow Ferrule 16 mm²"].ends == ["P02 end", "P03 end"]


def test_no_force_is_made_up_for_other_metals(demo):
    """Copper-clad aluminium has no published figure here: the maker's counts."""
    job = demo["J-0003"]
    cable = Conductor.objects.get(metal=Conductor.Metal.CCA_15)
    Run.objects.filter(job=job, kind="P").update(conductor=cable)
    assert schedule(job).crimps[0].force is None


def test_what_holds_for_many_runs_is_said_once(demo):
    """Twelve ends without a terminal are one finding that names the runs."""
    job = demo["J-0001"]
    Run.objects.filter(job=job).update(start_terminal=None)
    found = [one for one in check_runs(load(job).runs) if one.code == "terminal-not-chosen"]
    (one,) = found
    assert one.where.split(", ")[:2] == ["P01", "P02"]
    assert "L01" not in one.where  # its plugs are moulded


def test_a_bare_metal_edge_is_a_stop(demo):
    """33 CFR 183.445: without a grommet the run may not be fitted."""
    job = demo["J-0003"]
    assert codes(job)["passage-unknown"] == "P01"
    Stretch.objects.filter(run__job=job, edge=Stretch.Edge.OPEN).update(edge=Stretch.Edge.BARE)
    design = work_out(load(job))
    assert "P01" in [one.where for one in design.open_stops if one.code == "grommet-missing"]
    Stretch.objects.filter(run__job=job).update(edge=Stretch.Edge.GROMMET)
    assert "grommet-missing" not in codes(job)


def test_every_bare_edge_of_a_run_is_named(demo):
    """Two bare edges on one run are one stop with both places; guarding one leaves the other."""
    job = demo["J-0001"]
    run = Run.objects.get(job=job, kind="P", number=2)
    run.stretches.all().delete()
    for position, place in enumerate(("bulkhead", "sill end"), start=1):
        Stretch.objects.create(run=run, position=position, place=place, edge=Stretch.Edge.BARE)

    def said() -> list[str]:
        found = work_out(load(job)).open_stops
        return [str(one.value) for one in found if one.code == "grommet-missing"]

    assert said() == ["bulkhead, sill end"]
    run.stretches.filter(place="bulkhead").update(edge=Stretch.Edge.GROMMET)
    assert said() == ["sill end"]


@pytest.mark.parametrize("kind", ["L", "C"])
def test_a_run_nobody_crimps_passes_edges_too(demo, kind):
    """A line run with moulded plugs, or a run whose cable is not chosen, chafes all the same."""
    job = demo["J-0001"]
    run = Run.objects.get(job=job, kind=kind, number=1)
    Run.objects.filter(pk=run.pk, kind="C").update(conductor=None)
    Stretch.objects.create(run=run, position=9, place="bulkhead", edge=Stretch.Edge.BARE)
    assert codes(job)["grommet-missing"] == run.label


def test_a_copper_lug_on_aluminium_is_a_stop(demo):
    """The metals a terminal is made for reach the tree, and are said once."""
    job = demo["J-0001"]
    cable = Conductor.objects.get(metal=Conductor.Metal.CCA_15)
    Run.objects.filter(job=job, kind="P", number=1).update(conductor=cable)
    found = [
        one
        for one in work_out(load(job)).findings_of("power")
        if one.code == "terminal-unsuited-to-metal"
    ]
    assert [one.where for one in found] == ["P01"]


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


def test_a_colour_nobody_defined_stops_the_run(demo):
    """Letters outside IEC 60757 are refused by name, not printed."""
    assert is_colour("GNYE")
    assert not is_colour("RED")
    job = demo["J-0001"]
    Run.objects.filter(job=job, kind="S", number=1).update(colour="XX")
    assert codes(job)["run-cannot-be"] == "S01"
    assert next(one for one in schedule(job).lines if one.run.label == "S01").row is None


def test_a_fuse_is_held_against_the_voltage_of_its_network(demo):
    """A fuse for 12 V in a network that reaches 16 V is a stop on the wiring page."""
    job = demo["J-0001"]
    part = Run.objects.get(job=job, kind="P", number=1).fuse_id
    Fuse.objects.filter(pk=part).update(voltage=12.0)
    assert codes(job)["fuse-voltage-low"] == "P01"
    Fuse.objects.filter(pk=part).update(voltage=None)
    assert codes(job)["fuse-voltage-unknown"] == "P01"


def test_the_heat_somebody_measured_counts(demo):
    """A run's own air replaces that of its zone: hotter than its insulation is a stop."""
    job = demo["J-0001"]
    Run.objects.filter(job=job, kind="P", number=2).update(ambient=273.15 + 110)
    assert codes(job)["insulation-below-ambient"] == "P02"


def test_turning_on_adds_up_what_is_ticked(demo):
    """Two amplifiers of 10 mA each; the processor's sheet says what it may give."""
    line = work_out_signals(load(demo["J-0001"])).turn_ons["C01"]
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
def test_a_control_run_is_held_against_its_source(demo, figures, code):
    """More than the source may give needs a relay; what is not entered is said."""
    job = demo["J-0001"]
    Run.objects.filter(job=job, kind="C").update(**figures)
    assert codes(job)[code] == "C01"


def test_the_routes_tell_a_line_run_its_company(demo):
    """Nobody wrote down what it lies beside: the panels it shares with power runs are named."""
    job = demo["J-0001"]
    Run.objects.filter(job=job, kind="L").update(beside_power=None)
    (note,) = [one for one in work_out_signals(load(job)).findings if "panel" in one.code]
    assert note.severity == "note"
    assert note.value == "Boot side trim, left: P02, P03, P04"
    Run.objects.filter(job=job, kind="L").update(beside_power=0.0)
    assert not [one for one in work_out_signals(load(job)).findings if "beside" in one.code]


def test_a_long_line_with_a_weak_source_loses_treble(demo):
    """First-order low-pass: 100 kΩ and 523 pF are 3 dB down at 3 kHz (by hand)."""
    job = demo["J-0001"]
    Run.objects.filter(job=job, kind="L").update(source_resistance=100e3)
    assert codes(job)["line-treble-loss"] == "L01"


def test_a_run_without_a_cable_stands_on_the_list_without_a_length(demo):
    """It is not left out, and nothing is assumed for it."""
    job = demo["J-0002"]
    Run.objects.filter(job=job, kind="S", number=1).update(conductor=None)
    line = next(one for one in schedule(job).lines if one.run.label == "S01")
    assert line.row is None
    assert all("S01" not in one.runs for one in schedule(job).order.cables)


def test_a_tree_that_cannot_be_drawn_still_lists_its_fuses(demo):
    """Without a voltage of its source no tree is solved; every fuse still guards its own run."""
    job = demo["J-0003"]
    job.powernodes.filter(kind="battery").update(voltage=None)
    assert [(one.label, list(one.protects)) for one in schedule(job).fuses] == [("F-P01", ["P01"])]


def test_a_fused_run_outside_the_tree_keeps_its_fuse(demo):
    """A run that lacks its end is no part of the tree; its fuse still stands on the map."""
    job = demo["J-0001"]
    Run.objects.filter(job=job, kind="P", number=4).update(end=None)
    protects = {one.label: list(one.protects) for one in schedule(job).fuses}
    assert protects["F-P04"] == ["P04"]


def test_every_point_of_a_curve_reaches_the_calculator(demo):
    """Three points typed are three points used."""
    part = Part.objects.filter(kind="fuse").first().fuse
    assert len(part.curve) == 3
    run = Run.objects.filter(fuse__isnull=False, job=demo["J-0001"]).first()
    tree = work_out(load(demo["J-0001"])).power.tree
    (fitted,) = [one.fuse_start for one in tree.runs if one.label == run.label]
    assert [list(point) for point in fitted.fuse.opening] == run.fuse.curve
