"""What is refused of cables, fuses, supplies and trees, with the figures given."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from tests.told import limits, refusals
from tests.wiring import trees
from tests.wiring.scenes.cables import AB
from tests.wiring.scenes.networks import BLADE, FOUR
from wiring.cable.ampacity import ambient_factor, ampacity, bundle_factor
from wiring.cable.conductor import (
    awg,
    awg_area,
    metric,
    sae,
)
from wiring.cable.drop import CableReturn, ChassisReturn, voltage_drop
from wiring.cable.fuse import (
    FittedFuse,
    Fuse,
    breaking_need_by_cca,
    opening_time,
    warm_rating,
)
from wiring.cable.markings import colour_names, split_label
from wiring.cable.terminals import (
    CrimpTerminal,
    check_bend,
    pull_force,
)
from wiring.network.feed import Feed
from wiring.network.parts import Load, Source
from wiring.network.shared import SharedReturn
from wiring.network.short_circuit import (
    adiabatic_constant,
    withstand_energy,
)
from wiring.network.transient import (
    BassNote,
    sag,
)
from wiring.network.tree import Contact, Node, Run, Tree
from wiring.supply.amplifier import (
    constant_power_current,
    share_of_crest,
)
from wiring.supply.reserve import (
    Battery,
    check_key_off,
    peukert_time,
)
from wiring.supply.supply import (
    Alternator,
)


def refused() -> Mapping[str, object]:
    """Show what is refused of cables, supplies and trees."""
    run = trees.run("P01", "battery", "block", length=4.0)
    node = Node(id="battery")
    source = {"id": "B", "node": "battery", "kind": "starter battery", "emf": 12.6}
    load = {"id": "L", "node": "block", "kind": "power", "value": 10.0}
    calls: dict[str, Callable[[], object]] = {
        "awg": lambda: awg_area("31"),
        "sae": lambda: sae("3"),
        "metric": lambda: metric(130e-6),
        "metal": lambda: awg("4", metal="gold"),
        "metric metal": lambda: metric(1e-6, metal="gold"),
        "insulation": lambda: awg("4", insulation=251.0),
        "rated": lambda: awg("4", rated_current=10.0),
        "system": lambda: replace(FOUR, system="ours"),
        "of gold": lambda: replace(FOUR, metal="gold"),
        "hot": lambda: FOUR.resistance(251.0),
        "cold": lambda: FOUR.resistance(-61.0),
        "bundle": lambda: bundle_factor(0),
        "large bundle": lambda: bundle_factor(25),
        "too hot": lambda: ambient_factor(insulation=60.0, ambient=60.0),
        "no insulation": lambda: ampacity(awg("4")),
        "low insulation": lambda: ampacity(awg("4", insulation=50.0)),
        "thin": lambda: ampacity(awg("20", insulation=105.0)),
        "withstand": lambda: withstand_energy(awg("4")),
        "constant": lambda: adiabatic_constant(metal="copper", start=160.0, final=160.0),
        "current": lambda: voltage_drop(current=-1.0, length=1.0, conductor=FOUR),
        "return": lambda: CableReturn(conductor=FOUR, length=0.0),
        "chassis": lambda: ChassisReturn(resistance=0.0),
        "rating": lambda: Fuse(kind="x", rating=0.0),
        "rerating": lambda: replace(BLADE, rerating=0.03),
        "multiple": lambda: replace(BLADE, opening=((1.0, 5.0),)),
        "opening": lambda: replace(BLADE, opening=((1.5, 5.0), (2.0, 6.0))),
        "same opening": lambda: replace(BLADE, opening=((1.5, 5.0), (1.5, 4.0))),
        "ambient": lambda: warm_rating(BLADE, ambient=151.0),
        "burnt": lambda: warm_rating(replace(BLADE, rerating=0.02), ambient=76.0),
        "no curve": lambda: opening_time(BLADE, 50.0),
        "cranking": lambda: breaking_need_by_cca(2201.0, main=True),
        "distance": lambda: FittedFuse(fuse=BLADE, distance=-0.1),
        "label": lambda: split_label("P00"),
        "letters": lambda: split_label("X01"),
        "colour": lambda: colour_names("RDX"),
        "pull": lambda: pull_force(70e-6),
        "torque": lambda: CrimpTerminal(name="x", metals=None, torque=0.0),
        "bend": lambda: check_bend(radius=0.0, outer_diameter=0.01, about="P01"),
        "crest": lambda: share_of_crest(3.0),
        "output": lambda: constant_power_current(output=-1.0, efficiency=0.5, voltage=12.0),
        "efficiency": lambda: constant_power_current(output=1.0, efficiency=1.01, voltage=12.0),
        "voltage": lambda: constant_power_current(output=1.0, efficiency=0.5, voltage=0.0),
        "class AB": lambda: replace(AB, efficiency=0.79),
        "idle": lambda: replace(AB, idle_power=134.0),
        "share": lambda: AB.input_power(1.01),
        "hot factor": lambda: Alternator(rated_current=90.0, idle_current=50.0, hot_factor=1.1),
        "idle current": lambda: Alternator(rated_current=90.0, idle_current=91.0, hot_factor=0.8),
        "usable": lambda: Battery(capacity=1.0, rated_time=1.0, peukert=1.2, usable_share=1.1),
        "peukert": lambda: Battery(capacity=1.0, rated_time=1.0, peukert=1.7, usable_share=0.5),
        "exponent": lambda: peukert_time(current=1.0, capacity=1.0, rated_time=1.0, exponent=0.9),
        "key off": lambda: check_key_off(added=0.02, total=0.01),
        "note": lambda: BassNote(rest_power=10.0, power=9.0, duration=1.0),
        "rest": lambda: sag(
            Feed(open_voltage=12.0, source_resistance=0.1, tail_resistance=0.0),
            BassNote(rest_power=400.0, power=500.0, duration=1.0)),
        "emf": lambda: Source(**(source | {"emf": 61.0})),
        "source kind": lambda: Source(**(source | {"kind": "magic"})),
        "source ohms": lambda: Source(resistance=0.0, **source),
        "load kind": lambda: Load(**(load | {"kind": "magic"})),
        "load": lambda: Load(**(load | {"value": -1.0})),
        "load ohms": lambda: Load(**(load | {"kind": "resistance", "value": 0.0})),
        "load efficiency": lambda: Load(efficiency=1.1, **load),
        "case": lambda: Load(**load).draw("party"),
        "draw": lambda: Load(**(load | {"value": None})).draw("worst"),
        "node kind": lambda: Node(id="x", kind="magic"),
        "studs": lambda: Node(id="x", studs=0),
        "contact": lambda: Contact(kind="magic"),
        "contact rating": lambda: Contact(kind="switch", rated_current=0.0),
        "zone": lambda: replace(run, zone="roof"),
        "nowhere": lambda: replace(run, end="battery"),
        "long": lambda: replace(run, length=1001.0),
        "air": lambda: replace(run, ambient=151.0),
        "bundled": lambda: replace(run, bundled=0),
        "diversity": lambda: replace(run, diversity=0.05),
        "joints": lambda: replace(run, joints=-0.1),
        "no node": lambda: Tree(nodes=(node,), sources=(), runs=(run,)),
        "twice": lambda: Tree(nodes=(node, node), sources=()),
        "runs twice": lambda: Tree(nodes=(node, Node(id="block")), sources=(), runs=(run, run)),
        "as a run": lambda: Tree(
            nodes=(node, Node(id="P01"), Node(id="block")), sources=(), runs=(run,)),
        "no node of a load": lambda: Tree(nodes=(node,), sources=(), loads=(Load(**load),)),
        "shared": lambda: SharedReturn(id="x", resistance=-0.1, arriving=("a",)),
        "unknown length": lambda: Run(
            id="x", start="a", end="b", conductor=None, length=None, return_path=None).unknowns,
    }  # fmt: skip
    return refusals(calls)


def taken() -> Mapping[str, object]:
    """Take what is at the very limit of what may be."""
    run = trees.run("P01", "battery", "block", length=4.0)
    source = {"id": "B", "node": "battery", "kind": "starter battery"}
    load = {"id": "L", "node": "block", "kind": "amplifier", "value": 0.0}
    battery = {"capacity": 1.0, "rated_time": 1.0}
    calls: dict[str, Callable[[], object]] = {
        "awg": lambda: (awg_area("30"), awg_area("4/0")),
        "metric": lambda: (metric(0.5e-6), metric(120e-6)),
        "insulation": lambda: (awg("4", insulation=0.0), awg("4", insulation=250.0)),
        "temperatures": lambda: (FOUR.resistance(-60.0), FOUR.resistance(250.0)),
        "bundles": lambda: (bundle_factor(1), bundle_factor(24)),
        "barely cool": lambda: ambient_factor(insulation=60.01, ambient=60.0),
        "least class": lambda: ampacity(awg("18", insulation=60.0)),
        "thinnest": lambda: ampacity(metric(0.83e-6, insulation=60.0)),
        "no current": lambda: voltage_drop(current=0.0, length=1e-3, conductor=FOUR, joints=0.0),
        "rerating": lambda: (replace(BLADE, rerating=0.0), replace(BLADE, rerating=0.02)),
        "opening": lambda: replace(BLADE, opening=((1.001, 5.0), (2.0, 5.0))),
        "ambients": lambda: (warm_rating(BLADE, ambient=-60.0), warm_rating(BLADE, ambient=150.0)),
        "cranking": lambda: breaking_need_by_cca(2200.0, main=True),
        "at the post": lambda: FittedFuse(fuse=BLADE, distance=0.0),
        "label": lambda: (split_label("P01"), split_label("S999")),
        "largest": lambda: pull_force(awg_area("2/0")),
        "crest": lambda: share_of_crest(3.0103),
        "nothing": lambda: constant_power_current(output=0.0, efficiency=1.0, voltage=1e-3),
        "class AB": lambda: replace(AB, efficiency=0.7853, idle_power=0.0),
        "idle": lambda: replace(AB, efficiency=0.5, idle_power=200.0),
        "shares": lambda: (AB.input_power(0.0), AB.input_power(1.0)),
        "alternator": lambda: Alternator(rated_current=90.0, idle_current=90.0, hot_factor=1.0),
        "battery": lambda: Battery(peukert=1.0, usable_share=1.0, **battery),
        "worn battery": lambda: Battery(peukert=1.6, usable_share=1e-3, **battery),
        "key off": lambda: check_key_off(added=0.02, total=0.02),
        "no note": lambda: BassNote(rest_power=0.0, power=0.0, duration=1e-3),
        "rest": lambda: sag(
            Feed(open_voltage=12.0, source_resistance=0.1, tail_resistance=0.0),
            BassNote(rest_power=360.0, power=360.0, duration=1e-3)),
        "voltages": lambda: (Source(emf=1.0, **source), Source(emf=60.0, **source)),
        "efficiencies": lambda: (Load(efficiency=0.01, **load), Load(efficiency=1.0, **load)),
        "one stud": lambda: Node(id="x", studs=1),
        "no drop": lambda: Contact(kind="diode", forward_voltage=0.0, resistance=1e-9),
        "lengths": lambda: (replace(run, length=0.001), replace(run, length=1000.0)),
        "airs": lambda: (replace(run, ambient=-60.0), replace(run, ambient=150.0)),
        "bundled": lambda: (replace(run, bundled=1), replace(run, bundled=1000)),
        "diversities": lambda: (replace(run, diversity=0.1), replace(run, diversity=1.0)),
        "no joints": lambda: replace(run, joints=0.0),
        "shared": lambda: SharedReturn(id="x", resistance=0.0, arriving=()),
    }  # fmt: skip
    return limits(calls)


SCENES = {"refused": refused, "at their limits": taken}
