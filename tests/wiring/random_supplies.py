"""Random supplies: a battery, a block, amplifiers, and what may join a second network to them."""

from __future__ import annotations

import random
from dataclasses import replace

from tests.wiring import trees
from wiring.cable.conductor import awg
from wiring.cable.drop import CableReturn
from wiring.cable.fuse import FittedFuse, Fuse
from wiring.network.parts import Load, Source
from wiring.network.shared import SharedReturn
from wiring.network.tree import Contact, Run, Tree

AREA = {"14": 2.081, "10": 5.261, "8": 8.366, "4": 21.15, "1/0": 53.48}  # mm², ASTM B258
CABLES = {size: awg(size, insulation=105) for size in AREA}
SIZES = tuple(AREA)


def fuse(draw: random.Random) -> FittedFuse:
    """A fuse of some rating, seldom too small."""
    part = Fuse(
        kind="strip", rating=draw.choice((60, 125, 200, 300)), breaking_capacity=1e5,
        opening=trees.CURVE,
    )  # fmt: skip
    return FittedFuse(fuse=part, distance=0.1)


def cable(draw: random.Random, label: str, start: str, end: str, stud: float = 0.0) -> Run:
    """A run whose way back is as thick as its way out, or not, and goes on from a stud."""
    out, metres = draw.choice(SIZES[1:]), draw.uniform(0.3, 5)
    back = out if draw.random() < 0.6 else draw.choice(SIZES)
    return Run(
        id=label, start=start, end=end, conductor=CABLES[out], length=metres,
        return_path=CableReturn(conductor=CABLES[back], length=draw.uniform(0.3, 5)),
        fuse_start=fuse(draw), fuse_end=fuse(draw), ambient=draw.choice((30.0, 50.0, 80.0)),
        joints=stud,
    )  # fmt: skip


def battery(name: str, emf: float, draw: random.Random) -> Source:
    """A battery of some strength."""
    return Source(
        id=f"B-{name}", node=name, kind="second battery", emf=emf,
        resistance=draw.uniform(3e-3, 9e-3), cold_resistance=15e-3,
    )  # fmt: skip


def random_tree(draw: random.Random) -> Tree:
    """A battery, a block, amplifiers; often a second battery, a relay, an alternator."""
    stud = draw.choice((0.0, 1e-3, 3e-3))
    runs = [cable(draw, "P1", "first", "block"), cable(draw, "P2", "block", "a", stud)]
    sources = [battery("first", 12.6, draw)]
    if draw.random() < 0.5:
        runs.append(cable(draw, "P3", "block", "b", stud))
    loads = []
    if draw.random() < 0.4:
        second_by_converter(draw, runs, sources, loads)
    elif draw.random() < 0.6:
        emf = 25.2 if draw.random() < 0.1 else 12.8
        sources.append(battery("second", emf, draw))
        runs.append(cable(draw, "P4", "second", "gate"))
        runs.append(joint(draw))
    if draw.random() < 0.5:
        sources.append(
            Source(
                id="ALT",
                node="first",
                kind="alternator",
                emf=14.4,
                resistance=5e-3,
                current_limit=draw.choice((60.0, 120.0)),
                idle_limit=draw.choice((None, 20.0)),
                commanded=draw.random() < 0.5,
            )
        )
    loads += [amplifier(draw, run.end) for run in runs if run.end in ("a", "b", "c")]
    shared = SharedReturn(id="stud", resistance=stud, arriving=("P2", "P3"))
    return replace(trees.tree(runs, sources, loads), shared=(shared,))


def amplifier(draw: random.Random, node: str) -> Load:
    """An amplifier of some size, for 12 V, more, or nobody knows."""
    return Load(
        id=f"A-{node}", node=node, kind="amplifier", value=10 ** draw.uniform(1.5, 2.9),
        efficiency=0.8, highest_voltage=draw.choice((None, 14.0, 16.0, 30.0)),
    )  # fmt: skip


def second_by_converter(
    draw: random.Random, runs: list[Run], sources: list[Source], loads: list[Load]
) -> None:
    """A second network that a converter charges, or that gives through one; of 12 or 24 V."""
    high, charges = draw.random() < 0.2, draw.random() < 0.6
    node, other = ("gate", "in") if charges else ("out", "gate")
    volts, limit = 28.8 if high and charges else 14.4, draw.choice((10.0, 40.0, 80.0))
    runs.append(cable(draw, "P5", "block", "in") if charges else cable(draw, "P5", "out", "block"))
    # A converter that charges may have loads behind it and no battery.
    if not charges or draw.random() < 0.8:
        sources.append(battery("second", 25.2 if high else 12.8, draw))
        runs.append(cable(draw, "P4", "second", "gate"))
    if not any(run.id == "P4" for run in runs) or draw.random() < 0.5:
        runs.append(cable(draw, "P6", "gate", "c"))
    sources.append(
        Source(
            id="DC", node=node, kind="dc-dc", emf=volts, resistance=draw.uniform(2e-3, 8e-3),
            current_limit=limit, input_load="DC in",
        )
    )  # fmt: skip
    loads.append(Load(id="DC in", node=other, kind="power", value=limit * volts / 0.9))


def joint(draw: random.Random) -> Run:
    """What joins the second battery: a relay, a switch, an isolator, or nothing but a cable."""
    kind = draw.choice(("cable", "switch", "charge relay", "diode"))
    if kind == "cable":
        return cable(draw, "P5", "gate", "block")
    return Run(
        id="P5", start="block", end="gate", conductor=None, length=None, return_path=None,
        contact=Contact(kind=kind, rated_current=draw.choice((50.0, 100.0, 200.0))),
    )  # fmt: skip
