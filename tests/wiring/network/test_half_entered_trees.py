"""Supplies as they look half way through being typed in: checks always answer, never break."""

import random
from dataclasses import replace

from tests.wiring.protection.test_random_trees import random_tree
from wiring.cable.conductor import awg, metric, sae
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.cable.fuse import FittedFuse
from wiring.findings import CODES
from wiring.network.parts import Load, Source
from wiring.network.solve import solve
from wiring.network.tree import Run, Tree
from wiring.protection.checks import check


def half_entered(draw: random.Random) -> Tree:
    """A random tree with numbers missing, odd cables and sources of every kind."""
    tree = random_tree(draw)
    sources = tuple(changed_source(s, draw) for s in tree.sources)
    if draw.random() < 0.1:
        sources = ()
    return replace(
        tree,
        runs=tuple(changed_run(r, draw) for r in tree.runs if draw.random() < 0.9),
        sources=sources,
        loads=tuple(changed_load(x, draw) for x in tree.loads),
    )


def changed_run(run: Run, draw: random.Random) -> Run:
    """A run with something unusual or nothing at all."""
    odd = draw.choice(
        (
            awg("4"),
            awg("20", insulation=105),
            sae("8", insulation=40),
            metric(0.5e-6, insulation=0),
            metric(35e-6, insulation=200, metal="copper_clad_aluminium_15"),
            awg("1", insulation=250, metal="aluminium"),
        )
    )
    hidden = None if run.fuse_start is None else FittedFuse(
        fuse=replace(run.fuse_start.fuse, breaking_capacity=None, opening=()), distance=None
    )  # fmt: skip
    changes: tuple[dict[str, object], ...] = (
        {},
        {"length": None},
        {"conductor": None},
        {"conductor": odd, "return_path": CableReturn(conductor=odd, length=1.0)},
        {"return_path": None},
        {"return_path": ChassisReturn(resistance=None)},
        {"return_path": ChassisReturn(resistance=2e-3)},
        {"return_path": CableReturn(conductor=None, length=None)},
        {"bundled": 40},
        {"ambient": 120.0},
        {"fuse_start": hidden},
    )
    return replace(run, **draw.choice(changes))  # type: ignore[arg-type]


def changed_source(source: Source, draw: random.Random) -> Source:
    """A source of any kind with numbers missing."""
    changes: tuple[dict[str, object], ...] = (
        {},
        {"resistance": None},
        {"cold_resistance": None},
        {"cold_cranking": 3000.0},
        {"kind": "capacitor"},
        {"kind": "dc-dc", "current_limit": 40.0},
        {"kind": "alternator"},
        {"short_circuit_current": 4000.0},
    )
    return replace(source, **draw.choice(changes))  # type: ignore[arg-type]


def changed_load(load: Load, draw: random.Random) -> Load:
    """A load of any kind with numbers missing."""
    changes: tuple[dict[str, object], ...] = (
        {},
        {"value": None},
        {"kind": "amplifier"},
        {"kind": "current", "value": 0.0},
        {"kind": "resistance", "value": 0.5},
        {"minimum_voltage": 12.55, "connected_ohms": 2.0},
    )
    return replace(load, **draw.choice(changes))  # type: ignore[arg-type]


def test_checks_always_answer() -> None:
    """Whatever is missing or odd, every finding is a known code, and unsolved is never silent."""
    draw = random.Random(13)
    for _ in range(600):
        tree = half_entered(draw)
        findings = check(tree)
        assert all(f.code in CODES for f in findings)
        if solve(tree).status != "solved":
            assert any(f.severity == "stop" for f in findings), tree
