"""Node voltages against ngspice: another program, another method, its own copper formulas."""

import math
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from tests.wiring import trees
from wiring.cable.conductor import Conductor, awg, metric
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.network.parts import Load, Source
from wiring.network.solve import solve
from wiring.network.tree import Tree

pytestmark = [
    pytest.mark.second_method,
    pytest.mark.skipif(shutil.which("ngspice") is None, reason="ngspice is not installed"),
]

# ρ20 Ω·m and α 1/K, written again from the sources: 1/58 (NBS Handbook 100), ASTM B566 minimum.
METALS = {"copper": (1.72414e-8, 0.004), "copper_clad_aluminium_10": (2.743e-8, 0.004)}
AREAS = {
    "3/0": 85.03e-6,
    "1/0": 53.48e-6,
    "4": 21.15e-6,
    "8": 8.366e-6,
    "14": 2.081e-6,
}  # m², ASTM B258
CLASS_5 = {"25": 0.780e-3, "10": 1.91e-3}  # Ω/m, IEC 60228


def ohms(conductor: Conductor, length: float, temperature: float) -> float:
    """Resistance of a length by the printed tables."""
    rho, alpha = METALS[conductor.metal]
    per_metre = CLASS_5.get(conductor.size) or rho / AREAS[conductor.size]
    return length * per_metre * (1 + alpha * (temperature - 20))


def netlist(tree: Tree, case_power: dict[str, float], temperature: float) -> str:
    """Plus and minus networks drawn apart, amplifiers as behavioural constant power."""
    names = {n.id: f"n{i}" for i, n in enumerate(tree.nodes)}
    lines = ["supply"]
    for i, source in enumerate(tree.sources):
        plus = names[source.node]
        minus = "0" if i == 0 else f"{plus}m"
        lines += [f"VE{i} e{i} {minus} {source.emf}", f"RE{i} e{i} {plus} {source.resistance}"]
    first = names[tree.sources[0].node]
    for i, run in enumerate(tree.runs):
        a, b = names[run.start], names[run.end]
        out = ohms(run.conductor, run.length, temperature)
        back = run.return_path
        if isinstance(back, ChassisReturn):
            way_back = back.resistance
        else:
            assert isinstance(back, CableReturn)
            way_back = ohms(back.conductor, back.length, temperature)
        minus_a = "0" if a == first else f"{a}m"
        minus_b = "0" if b == first else f"{b}m"
        lines += [f"RP{i} {a} {b} {out:.12g}", f"RM{i} {minus_a} {minus_b} {way_back:.12g}"]
    for i, load in enumerate(tree.loads):
        plus = names[load.node]
        minus = "0" if plus == first else f"{plus}m"
        if load.kind == "current":
            lines.append(f"IL{i} {plus} {minus} {load.value}")
        elif load.kind == "resistance":
            lines.append(f"RL{i} {plus} {minus} {load.value}")
        else:
            watts = case_power[load.id]
            lines.append(f"BL{i} {plus} {minus} I = {watts:.12g}/max(v({plus},{minus}), 4)")
    tops = " ".join(f"v({n})=12" for n in names.values())
    lines += [f".nodeset {tops}", ".options reltol=1e-9 vntol=1e-12 abstol=1e-12", ".control", "op"]
    lines.append("set numdgt=12")
    for name in names.values():
        minus = "0" if name == first else f"v({name}m)"
        lines += [f"let u_{name} = v({name}) - {minus}", f"print u_{name}"]
    lines += ["quit", ".endc", ".end"]
    return "\n".join(lines)


def spice(
    tree: Tree, power: dict[str, float], temperature: float, folder: Path
) -> dict[str, float]:
    """Voltage of each node by ngspice."""
    deck = folder / "supply.cir"
    deck.write_text(netlist(tree, power, temperature))
    done = subprocess.run(
        ["ngspice", "-b", str(deck)], capture_output=True, text=True, timeout=60, check=False
    )
    found = dict(re.findall(r"^u_(n\d+) = ([-+.\de]+)", done.stdout, re.MULTILINE))
    assert len(found) == len(tree.nodes), done.stdout + done.stderr
    return {n.id: float(found[f"n{i}"]) for i, n in enumerate(tree.nodes)}


def chain() -> Tree:
    """Four blocks in a row, a load at each, the return through the measured chassis."""
    return trees.tree(
        [
            trees.run(f"P{i}", f"n{i}", f"n{i + 1}", awg("4", insulation=105), 1.5, chassis=6e-4)
            for i in range(4)
        ],
        [trees.battery("n0", emf=14.4, ohms=8e-3)],
        [trees.amplifier(f"n{i}", 120.0, 0.6) for i in range(1, 5)],
    )


def clad() -> Tree:
    """A long main of copper-clad aluminium, near the most it can carry."""
    return trees.tree(
        [
            trees.run("P01", "battery", "block", trees.CLAD, 5.5),
            trees.run("P02", "block", "amp", awg("4", insulation=105), 1.0),
        ],
        [trees.battery(emf=12.2, ohms=9e-3)],
        [trees.amplifier("amp", 1000.0, 0.8)],
    )


def mixed() -> Tree:
    """Metric cables, every kind of load."""
    c10 = metric(10e-6, insulation=90)
    return trees.tree(
        [
            trees.run("P01", "battery", "block", trees.METRIC, 4.0, chassis=1e-3),
            trees.run("P02", "block", "heater", c10, 2.0),
            trees.run("P03", "block", "radio", awg("14", insulation=105), 2.5),
            trees.run("P04", "block", "amp", c10, 1.0, chassis=2e-3),
        ],
        [trees.battery(emf=13.8, ohms=6e-3)],
        [
            Load(id="heater", node="heater", kind="resistance", value=0.8),
            Load(id="radio", node="radio", kind="current", value=4.0),
            Load(id="charger", node="radio", kind="power", value=45.0),
            trees.amplifier("amp", 300.0),
        ],
    )


def three_batteries() -> Tree:
    """Three batteries of different charge along one line, loads between them."""
    sources = [
        trees.battery("n0", emf=14.2, ohms=7e-3),
        Source(id="B2", node="n2", kind="second battery", emf=12.8, resistance=5e-3),
        Source(id="B3", node="n4", kind="second battery", emf=12.5, resistance=4e-3),
    ]
    runs = [trees.run(f"P{i}", f"n{i}", f"n{i + 1}", trees.MAIN, 2.0 + i) for i in range(4)]
    return trees.tree(
        runs, sources, [trees.amplifier("n1", 300.0), trees.amplifier("n3", 700.0, 0.55)]
    )


TREES = {
    "estate": trees.estate, "camper": trees.camper, "chain": chain, "clad": clad, "mixed": mixed,
    "three batteries": three_batteries,
}  # fmt: skip


@pytest.mark.parametrize("temperature", [20.0, 60.0])
@pytest.mark.parametrize("name", TREES)
def test_node_voltages(name: str, temperature: float, tmp_path: Path) -> None:
    """Every node of six supplies agrees with ngspice within 1 mV, full output and music."""
    tree = TREES[name]()
    for case, share in (("worst", 1.0), ("music", math.sqrt(1 / 8))):
        ours = solve(tree, case, temperature=temperature)
        assert ours.status == "solved"
        watts = {
            x.id: (x.value or 0) / (x.efficiency or 1) * (share if x.kind == "amplifier" else 1)
            for x in tree.loads
        }
        theirs = spice(tree, watts, temperature, tmp_path)
        for node, volts in theirs.items():
            assert ours.voltages[node] == pytest.approx(volts, abs=1e-3), (case, node)
