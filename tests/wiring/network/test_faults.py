"""Short circuits, against currents written down by Ohm's law for networks of a few resistors."""

from __future__ import annotations

import pytest

from tests.wiring import trees
from wiring.cable.conductor import Conductor
from wiring.cable.drop import ChassisReturn
from wiring.network.faults import Faults
from wiring.network.parts import Source
from wiring.network.tree import Run, Tree

# Invented ohms of each run, whatever its cable: the network gets them handed in.
CABLE = Conductor(system="metric", size="25", area=25e-6, resistance_20=0.78e-3, insulation=105.0)


def _run(label: str, start: str, end: str) -> Run:
    back = ChassisReturn(resistance=1e-3)
    return Run(id=label, start=start, end=end, conductor=CABLE, length=1.0, return_path=back)


def _battery(node: str, emf: float) -> Source:
    return Source(id=node, node=node, kind="starter battery", emf=emf, resistance=0.01)


def _faults(runs: list[Run], sources: list[Source], ohms: dict[str, float]) -> tuple[Tree, Faults]:
    tree = trees.tree(runs, sources, [])
    return tree, Faults(tree, ohms, {s.id: 0.01 for s in sources}, steady=False)


def test_a_short_at_the_far_end_flows_through_every_run_on_its_way():
    """12 V over 10 + 20 + 30 mΩ is 200 A, in the main as in the branch, and none in the other."""
    tree, faults = _faults(
        [
            _run("P01", "battery", "block"),
            _run("P02", "block", "sub"),
            _run("P03", "block", "front"),
        ],
        [_battery("battery", 12.0)],
        {"P01": 0.02, "P02": 0.03, "P03": 0.04},
    )
    main, branch, other = tree.runs
    short = faults.far_end(branch, "block")
    assert short is not None
    assert short.current == pytest.approx(200.0)
    assert faults.through_run(main, short) == pytest.approx(200.0)
    assert faults.through_run(other, short) == pytest.approx(0.0, abs=1e-6)


def test_a_second_battery_helps_through_its_own_run():
    """Each of two batteries gives its share of a short at a third cable's end, and they add up.

    Millman: v = Σ(E/R) / Σ(1/R) with 12 V over 30 mΩ, 13 V over 50 mΩ and nothing over 60 mΩ.
    """
    tree, faults = _faults(
        [_run("P01", "one", "block"), _run("P02", "two", "block"), _run("P03", "block", "amp")],
        [_battery("one", 12.0), _battery("two", 13.0)],
        {"P01": 0.02, "P02": 0.04, "P03": 0.06},
    )
    first, second, shorted = tree.runs
    short = faults.far_end(shorted, "block")
    assert short is not None
    volts = (12 / 0.03 + 13 / 0.05) / (1 / 0.03 + 1 / 0.05 + 1 / 0.06)
    assert short.current == pytest.approx(volts / 0.06)
    assert faults.through_run(first, short) == pytest.approx((12 - volts) / 0.03)
    assert faults.through_run(second, short) == pytest.approx((13 - volts) / 0.05)
