"""The solved power tree against closed forms and the laws of circuits."""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.refused import refused
from tests.wiring import trees
from wiring.cable.ampacity import ampacity
from wiring.cable.conductor import awg
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.errors import OutOfRangeError, TreeError, WiringError
from wiring.network.parts import Load, Source
from wiring.network.solution import Solution
from wiring.network.solve import solve
from wiring.network.tree import Node, Run, Tree


def single(load: Load, *, length: float = 5.0, ohms: float = 5e-3) -> Tree:
    """One battery, one run of 4 AWG, one load."""
    return trees.tree(
        [trees.run("P01", "battery", "amp", length=length)], [trees.battery(ohms=ohms)], [load]
    )


def path_ohms(length: float = 5.0, ohms: float = 5e-3) -> float:
    """Battery and cable out and back at 20 °C."""
    return ohms + 2 * length * awg("4").resistance(20)


@given(st.floats(1, 1500), st.floats(0.1, 20))
@settings(max_examples=60, deadline=None)
def test_one_amplifier_is_a_quadratic(watts: float, length: float) -> None:
    """V = (E + sqrt(E² - 4·P·R)) / 2, the upper root (second method: closed form)."""
    resistance = path_ohms(length)
    solution = solve(single(trees.amplifier("amp", watts, 0.8), length=length), temperature=20)
    root = 12.6**2 - 4 * watts / 0.8 * resistance
    if root < 0:
        assert solution.status == "no-solution"
        assert solution.most_power == pytest.approx(12.6**2 / 4 / resistance, rel=1.1e-3)
        assert solution.most_power <= 12.6**2 / 4 / resistance
    else:
        assert solution.voltages["amp"] == pytest.approx((12.6 + math.sqrt(root)) / 2, abs=1e-6)


def test_at_the_very_edge() -> None:
    """Just below the most power it balances at half the open voltage, just above it does not."""
    most = 12.6**2 / 4 / path_ohms()
    below = solve(single(trees.amplifier("amp", most * (1 - 1e-6), 1.0)), temperature=20)
    assert below.status == "solved"
    assert below.voltages["amp"] == pytest.approx(6.3, abs=0.02)
    above = solve(single(trees.amplifier("amp", most * (1 + 1e-6), 1.0)), temperature=20)
    assert above.status == "no-solution"


def test_ten_kilowatts_on_twelve_volts() -> None:
    """10 000 W from a car battery has no solution, and the answer says what would."""
    solution = solve(single(trees.amplifier("amp", 10_000, 1.0)))
    assert solution.status == "no-solution"
    assert solution.wanted_power == 10_000
    assert solution.most_power is not None
    assert 0 < solution.most_power < 12.6**2 / 4 / path_ohms()


def test_current_and_resistance() -> None:
    """Constant current and plain resistance follow Ohm's law."""
    amps = solve(single(Load(id="x", node="amp", kind="current", value=30)), temperature=20)
    assert amps.voltages["amp"] == pytest.approx(12.6 - 30 * path_ohms(), abs=1e-9)
    ohms = solve(single(Load(id="x", node="amp", kind="resistance", value=0.5)), temperature=20)
    assert ohms.voltages["amp"] == pytest.approx(12.6 * 0.5 / (0.5 + path_ohms()), abs=1e-9)


def test_current_beyond_the_short_circuit() -> None:
    """A constant current above the short-circuit current has no solution, whatever the powers."""
    solution = solve(single(Load(id="x", node="amp", kind="current", value=5000)))
    assert (solution.status, solution.most_power) == ("no-solution", 0.0)


def test_two_equal_cables_halve_the_drop() -> None:
    """A second cable just like the first halves the voltage lost."""
    load = Load(id="x", node="amp", kind="current", value=40)
    one = single(load)
    two = replace(one, runs=(one.runs[0], replace(one.runs[0], id="P02")))
    lost = [solve(t, temperature=20).runs["P01"].drop for t in (one, two)]
    assert lost[1] == pytest.approx(lost[0] / 2, rel=1e-9)


@given(st.floats(1, 80), st.floats(0.2, 8), st.floats(1.01, 3))
@settings(max_examples=40, deadline=None)
def test_drop_is_linear(amperes: float, length: float, times: float) -> None:
    """Voltage lost grows in proportion to current and to length."""

    def lost(a: float, metres: float) -> float:
        load = Load(id="x", node="amp", kind="current", value=a)
        return solve(single(load, length=metres), temperature=20).runs["P01"].drop

    assert lost(amperes * times, length) == pytest.approx(lost(amperes, length) * times, rel=1e-6)
    assert lost(amperes, length * times) == pytest.approx(lost(amperes, length) * times, rel=1e-6)


def balanced(tree: Tree, solution: Solution) -> None:
    """Current in equals current out at every node, and power given equals power used."""
    for node in solution.voltages:
        total = sum(s.current for n, s in solution.sources.items() if _at(tree.sources, n) == node)
        total -= sum(x.current for n, x in solution.loads.items() if _at(tree.loads, n) == node)
        for run in tree.runs:
            if node in (run.start, run.end) and run.id in solution.runs:
                total += solution.runs[run.id].current * (1 if run.end == node else -1)
        assert total == pytest.approx(0, abs=1e-6)
    given_power = sum(s.power for s in solution.sources.values())
    used = sum(x.power for x in solution.loads.values())
    used += sum(r.loss for r in solution.runs.values())
    assert given_power == pytest.approx(used, abs=1e-5)


def _at(parts: tuple[Source, ...] | tuple[Load, ...], name: str) -> str:
    return next(p.node for p in parts if p.id == name)


@pytest.mark.parametrize("tree", [trees.estate(), trees.camper(), trees.camper(50)])
@pytest.mark.parametrize("case", ["worst", "loud", "music"])
def test_kirchhoff(tree: Tree, case: str) -> None:
    """No node makes or swallows current, no power is lost unseen."""
    solution = solve(tree, case)
    assert solution.status == "solved"
    balanced(tree, solution)


def test_working_temperature() -> None:
    """A loaded conductor settles between air and class: T = T_a + (T_c - T_a)·(I/I_z)²."""
    tree = single(Load(id="x", node="amp", kind="current", value=80))
    state = solve(tree).runs["P01"]
    carries = ampacity(awg("4", insulation=105), ambient=40).current
    assert state.temperature == pytest.approx(40 + 65 * (80 / carries) ** 2, abs=0.01)
    assert state.resistance == pytest.approx(10 * awg("4").resistance(state.temperature), rel=1e-6)
    assert state.loss == pytest.approx(80**2 * state.resistance, rel=1e-9)


@given(st.floats(0.05, 1), st.floats(0.1, 3))
@settings(max_examples=30, deadline=None)
def test_more_power_never_raises_a_voltage(share: float, length: float) -> None:
    """Less load never lowers any node, more length never raises the load's."""
    full, part = solve(trees.estate(400)), solve(trees.estate(400 * share))
    for node, volts in full.voltages.items():
        assert part.voltages[node] >= volts - 1e-9
    load = trees.amplifier("amp", 300)
    near, far = (solve(single(load, length=n)).voltages["amp"] for n in (length, 2 * length))
    assert far < near


def converter(limit: float | None, load: float, *, emf: float = 14.2) -> Tree:
    """A battery with a DC-DC converter beside it."""
    return trees.tree(
        [trees.run("P01", "battery", "amp")],
        [
            trees.battery(),
            Source(id="D", node="battery", kind="dc-dc", emf=emf, resistance=2e-3,
                   current_limit=limit),
        ],
        [Load(id="x", node="amp", kind="current", value=load)],
    )  # fmt: skip


def test_converter_stops_at_its_limit() -> None:
    """Above its limit a converter gives its limit and the battery the rest."""
    solution = solve(converter(40, 100))
    assert solution.sources["D"].current == pytest.approx(40)
    assert solution.sources["B-battery"].current == pytest.approx(60)
    assert solution.voltages["battery"] == pytest.approx(12.6 - 60 * 5e-3, abs=1e-9)


def test_converter_charges_within_its_limit() -> None:
    """With little load the converter charges the battery, still within its limit."""
    solution = solve(converter(40, 10))
    assert solution.sources["D"].current == pytest.approx(40)
    assert solution.sources["B-battery"].current == pytest.approx(-30)


def test_converter_takes_no_current() -> None:
    """A converter set below the battery gives nothing and takes nothing."""
    solution = solve(converter(40, 10, emf=11.0))
    assert solution.sources["D"].current == pytest.approx(0, abs=1e-9)
    assert solution.sources["B-battery"].current == pytest.approx(10)


def test_converter_comes_in_when_the_battery_sags() -> None:
    """A converter set below the resting battery helps once the load pulls it down."""
    solution = solve(converter(500, 200, emf=12.0))
    assert solution.sources["D"].current > 50
    balanced(converter(500, 200, emf=12.0), solution)


def test_capacitor_gives_nothing_lasting() -> None:
    """A capacitor bank changes no steady voltage."""
    tree = trees.estate()
    bank = Source(id="C", node="sub", kind="capacitor", emf=12.6, resistance=2e-3)
    with_bank = solve(replace(tree, sources=(*tree.sources, bank)))
    assert dict(with_bank.voltages) == dict(solve(tree).voltages)


def test_unknown_is_not_zero() -> None:
    """Whatever is missing, the tree is not solved and the missing part is named."""
    tree = trees.estate()
    p01 = tree.runs[0]
    for broken in (
        replace(p01, length=None),
        replace(p01, conductor=None),
        replace(p01, return_path=None),
        replace(p01, return_path=ChassisReturn(resistance=None)),
        replace(p01, return_path=CableReturn(conductor=p01.conductor, length=None)),
    ):
        solution = solve(replace(tree, runs=(broken, *tree.runs[1:])))
        assert (solution.status, solution.unknown) == ("unknown", ("P01",))
    source = replace(tree.sources[0], resistance=None)
    assert solve(replace(tree, sources=(source,))).unknown == ("B-battery",)
    load = replace(tree.loads[0], efficiency=None)
    assert solve(replace(tree, loads=(load,))).unknown == ("A-sub",)
    assert solve(converter(None, 10)).unknown == ("D",)


def test_what_nothing_feeds_is_left_out() -> None:
    """A load no source reaches has no voltage, the rest is solved."""
    tree = trees.estate()
    lonely = Load(id="lonely", node="shelf", kind="current", value=1)
    more = replace(tree, nodes=(*tree.nodes, Node(id="shelf")), loads=(*tree.loads, lonely))
    solution = solve(more)
    assert "shelf" not in solution.voltages
    assert "lonely" not in solution.loads
    assert dict(solution.voltages) == dict(solve(tree).voltages)


def test_a_long_chain() -> None:
    """A tree of any depth is solved: 300 blocks in a row, I·R added up (closed form)."""
    runs = [trees.run(f"P{i}", f"n{i}", f"n{i + 1}", length=0.01) for i in range(300)]
    tree = trees.tree(
        runs, [trees.battery("n0")], [Load(id="x", node="n300", kind="current", value=20)]
    )
    lost = 20 * (5e-3 + 2 * 3.0 * awg("4").resistance(20))
    assert solve(tree, temperature=20).voltages["n300"] == pytest.approx(12.6 - lost, abs=1e-6)


def test_impossible_numbers() -> None:
    """Negative currents, no length, no resistance: each is refused by name."""
    with refused(OutOfRangeError, "at-least", "load-current", value=-3):
        Load(id="x", node="n", kind="current", value=-3)
    with refused(OutOfRangeError, "above", "return-length"):
        trees.run("P01", "a", "b", length=0.0)
    with refused(OutOfRangeError, "above", "chassis-resistance"):
        trees.run("P01", "a", "b", chassis=0.0)
    with refused(OutOfRangeError, "above", "resistance"):
        trees.battery(ohms=0.0)
    with refused(OutOfRangeError, "between", "efficiency"):
        trees.amplifier("n", 100, 1.2)
    with refused(OutOfRangeError, "between", "open-circuit-voltage"):
        trees.battery(emf=float("nan"))


def test_contradictions() -> None:
    """A label twice, a run to nowhere, a run to itself: each is refused by name."""
    node, other = Node(id="a"), Node(id="b")
    cable: Run = trees.run("P01", "a", "b")
    with refused(TreeError, "used-once", "run-label", value="P01"):
        Tree(nodes=(node, other), sources=(), runs=(cable, cable))
    with refused(TreeError, "known-node", "node", value="b", about="P01"):
        Tree(nodes=(node,), sources=(), runs=(cable,))
    with refused(TreeError, "another-node", "run-end", about="P01"):
        trees.run("P01", "a", "a")
    with refused(WiringError, "one-of", "zone"):
        trees.run("P01", "a", "b", zone="moon")
    with refused(WiringError, "one-of", "case"):
        solve(trees.estate(), "loudest")
