"""The tree cut down to one amplifier: against the solver of whole trees, which shares no code."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.refused import refused
from wiring.cable.conductor import metric
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.errors import UnknownDataError
from wiring.network.feed import Feed, LimitedFeed
from wiring.network.parts import Load, Source
from wiring.network.solve import solve
from wiring.network.thevenin import feed_of
from wiring.network.tree import Contact, Node, Run, Tree

# Invented: two batteries side by side, a block, a long run to a board with two amplifiers.
CABLE, THIN = metric(35e-6, insulation=105.0), metric(10e-6, insulation=105.0)


def _run(label: str, start: str, end: str, length: float, cable=CABLE, **more) -> Run:
    back = CableReturn(conductor=cable, length=length)
    return Run(
        id=label, start=start, end=end, conductor=cable, length=length,
        return_path=more.pop("return_path", back), **more,
    )  # fmt: skip


BATTERIES = (
    Source(id="one", node="one", kind="starter battery", emf=12.6, resistance=0.005),
    Source(id="two", node="two", kind="second battery", emf=12.7, resistance=0.007),
)
BANK = Source(id="bank", node="bank", kind="capacitor", emf=12.6, resistance=0.002)
AMPLIFIER = Load(id="bass", node="bass", kind="amplifier", value=600.0, efficiency=0.8)
OTHER = Load(id="front", node="front", kind="amplifier", value=300.0, efficiency=0.75)
FAN = Load(id="fan", node="board", kind="current", value=2.0)
RUNS = (
    _run("P01", "one", "block", 0.8),
    _run("P02", "two", "block", 2.5),
    _run("P03", "block", "board", 4.0, return_path=ChassisReturn(resistance=0.0015)),
    _run("P04", "board", "bass", 0.6, THIN),
    _run("P05", "board", "front", 0.9, THIN),
    _run("P06", "board", "bank", 0.3, THIN),
)
NAMES = ("one", "two", "block", "board", "bass", "front", "bank")
TREE = Tree(
    nodes=tuple(Node(id=name) for name in NAMES),
    sources=(*BATTERIES, BANK),
    runs=RUNS,
    loads=(AMPLIFIER, OTHER, FAN),
)


def _with(tree: Tree, *loads: Load) -> Tree:
    return replace(tree, loads=loads)


def _at(tree: Tree, loads: dict[str, float], where: str) -> float:
    """Voltage at a node with currents drawn at nodes, every conductor at 20 °C."""
    drawn = [Load(id=n, node=n, kind="current", value=a) for n, a in loads.items()]
    return solve(_with(tree, *drawn), temperature=20.0).voltages[where]


def _seen(bank: Source | None = None, tree: Tree = TREE):
    loaded = solve(tree, temperature=20.0)
    resting = solve(tree, "music", temperature=20.0)
    return resting, feed_of(tree, AMPLIFIER, loaded=loaded, resting=resting, bank=bank)


def _at_current(limited: LimitedFeed, current: float) -> Feed:
    """The way the feed is while the amplifier takes this current and the bank none."""
    fitting = [f for f in limited.feeds if f.holds(np.array([current]), np.zeros(1))[0]]
    assert len(fitting) == 1
    return fitting[0]


@pytest.mark.second_method
def test_the_feed_gives_what_the_whole_tree_gives():
    """E − I·R is the voltage the solver finds with any current at the amplifier."""
    resting, seen = _seen()
    others = {"front": resting.loads["front"].current, "board": 2.0}
    for current in (0.0, 20.0, 75.0):
        whole = _at(TREE, others | {"bass": current}, "bass")
        resistance = seen.feeds[0].source_resistance + seen.feeds[0].tail_resistance
        assert seen.feeds[0].open_voltage - current * resistance == pytest.approx(whole, abs=1e-6)


@pytest.mark.second_method
def test_the_place_of_the_bank_cuts_the_feed():
    """The tail is what a current at the bank does not pull down; the lead is the bank's own."""
    resting, seen = _seen(BANK)
    others = {"front": resting.loads["front"].current, "board": 2.0}
    rest = {where: _at(TREE, others, where) for where in ("bass", "bank")}
    pulled = {where: _at(TREE, others | {"bank": 30.0}, where) for where in ("bass", "bank")}
    shared = (rest["bass"] - pulled["bass"]) / 30.0
    own = (rest["bank"] - pulled["bank"]) / 30.0
    assert seen.feeds[0].source_resistance == pytest.approx(shared, rel=1e-6)
    assert seen.feeds[0].lead == pytest.approx(own - shared, rel=1e-6)
    assert seen.feeds[0].tail_resistance == pytest.approx(
        0.6 * 2 * THIN.resistance_20, rel=1e-6
    )  # the run to the amplifier, out and back


def test_without_a_bank_nothing_is_cut():
    """Source resistance and tail together are the same with a bank as without."""
    plain, cut = _seen()[1], _seen(BANK)[1]
    assert plain.feeds[0].lead == 0.0
    assert plain.feeds[0].tail_resistance == 0.0
    total = cut.feeds[0].source_resistance + cut.feeds[0].tail_resistance
    assert plain.feeds[0].source_resistance == pytest.approx(total)
    assert plain.feeds[0].open_voltage == pytest.approx(cut.feeds[0].open_voltage)


def test_a_converter_at_its_limit_adds_current_and_no_stiffness():
    """One that gives all it can leaves the resistance to the batteries as it was."""
    limited = Source(
        id="dc", node="board", kind="dc-dc", emf=14.0, resistance=0.01, current_limit=10.0
    )
    tree = replace(TREE, sources=(*TREE.sources, limited))
    assert solve(tree, temperature=20.0).sources["dc"].current == pytest.approx(10.0)
    with_it = _at_current(_seen(tree=tree)[1], 60.0)
    without = _at_current(_seen()[1], 60.0)
    assert with_it.source_resistance == pytest.approx(without.source_resistance)
    assert with_it.open_voltage > without.open_voltage


@pytest.mark.second_method
@pytest.mark.parametrize(("kind", "limit"), [("dc-dc", 200.0), ("alternator", 90.0)])
def test_a_source_below_its_limit_is_as_stiff_as_its_own_resistance(kind, limit):
    """A converter or an alternator that gives less than it can counts as the solver counts it."""
    helper = Source(
        id="helper", node="board", kind=kind, emf=13.0, resistance=0.02, current_limit=limit
    )
    tree = replace(TREE, sources=(*TREE.sources, helper))
    resting, seen = _seen(tree=tree)
    others = {"front": resting.loads["front"].current, "board": 2.0}
    for current in (60.0, 75.0):
        feed = _at_current(seen, current)
        resistance = feed.source_resistance + feed.tail_resistance
        drawn = [Load(id=n, node=n, kind="current", value=a) for n, a in others.items()]
        bass = Load(id="bass", node="bass", kind="current", value=current)
        whole = solve(_with(tree, *drawn, bass), temperature=20.0)
        assert 0 < whole.sources["helper"].current < limit
        by_feed = feed.open_voltage - current * resistance
        assert by_feed == pytest.approx(whole.voltages["bass"], abs=1e-6)


def test_an_amplifier_nothing_feeds_has_no_feed():
    """Without a battery there is no voltage to cut down to."""
    tree = replace(TREE, sources=(BANK,))
    state = solve(tree, temperature=20.0)
    with refused(UnknownDataError, "entered", "battery"):
        feed_of(tree, AMPLIFIER, loaded=state, resting=state)


def test_what_lies_behind_a_shut_diode_is_another_network() -> None:
    """An isolator to a node nothing feeds, or to a fuller battery, changes nothing here."""
    diode = Run(
        id="D", start="board", end="beyond", conductor=None, length=None, return_path=None,
        contact=Contact(kind="diode", rated_current=200.0),
    )  # fmt: skip
    plain, bare = (
        solve(TREE, "music"),
        feed_of(TREE, AMPLIFIER, loaded=solve(TREE, "music"), resting=solve(TREE, "idle")),
    )
    assert plain.status == "solved"
    fuller = Source(id="far", node="beyond", kind="second battery", emf=13.2, resistance=0.005)
    for sources in (TREE.sources, (*TREE.sources, fuller)):
        tree = replace(
            TREE, nodes=(*TREE.nodes, Node(id="beyond")), runs=(*TREE.runs, diode), sources=sources
        )
        loaded, resting = solve(tree, "music"), solve(tree, "idle")
        [feed], [alone] = (
            feed_of(tree, AMPLIFIER, loaded=loaded, resting=resting).feeds,
            bare.feeds,
        )
        assert feed.open_voltage == pytest.approx(alone.open_voltage, abs=1e-6)
        assert feed.source_resistance == pytest.approx(alone.source_resistance, rel=1e-6)


@pytest.mark.second_method
@pytest.mark.parametrize(
    "contact",
    [
        Contact(kind="switch", resistance=0.004),
        Contact(kind="diode", resistance=0.004, forward_voltage=0.4),
    ],
    ids=lambda contact: contact.kind,
)
def test_a_contact_on_the_way_costs_its_resistance_and_a_diode_its_drop(contact: Contact) -> None:
    """Behind either the feed stays the solver's, at any current that keeps a diode open."""
    joined = Run(
        id="P03", start="block", end="board", conductor=None, length=None, return_path=None,
        contact=contact,
    )  # fmt: skip
    tree = replace(TREE, runs=tuple(joined if run.id == "P03" else run for run in RUNS))
    resting, seen = _seen(tree=tree)
    others = {"front": resting.loads["front"].current, "board": 2.0}
    resistance = seen.feeds[0].source_resistance + seen.feeds[0].tail_resistance
    for current in (0.0, 60.0):
        whole = _at(tree, others | {"bass": current}, "bass")
        assert seen.feeds[0].open_voltage - current * resistance == pytest.approx(whole, abs=1e-6)
