"""Runs of all kinds as they are led, scheduled, ordered and chosen."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from tests.told import findings, refusals, row, rows
from tests.wiring import trees
from tests.wiring.scenes.networks import TREES, van
from wiring.cable.conductor import Conductor, awg, metric
from wiring.cable.drop import CableReturn, ChassisReturn
from wiring.cable.fuse import FittedFuse, Fuse
from wiring.cable.terminals import CrimpTerminal, Passage
from wiring.network.drop_shares import spread
from wiring.network.parts import Load
from wiring.network.tree import Tree
from wiring.runs.choice import Catalogue, Choice, Seat
from wiring.runs.choose import choose
from wiring.runs.control_runs import ControlRun, check_control_run, control_ampacity
from wiring.runs.labelled import Allowance, Core, Cut, LabelledRun
from wiring.runs.order import cable_order
from wiring.runs.returns import Ground, Return, check_grounds
from wiring.runs.schedule import FuseEntry, check_schedule, crimp_list, fuse_map, wire_schedule
from wiring.runs.sides import Way, check_side
from wiring.runs.signal_runs import (
    LineRun,
    TurnOn,
    check_line_run,
    check_turn_on,
    line_treble_loss,
)
from wiring.runs.speaker_runs import (
    AmplifierOutput,
    check_speaker_run,
    damping_factor,
    parallel,
    series,
    speaker_run,
)

COPPER = frozenset({"copper"})
RING = CrimpTerminal(
    name="ring M8", metals=COPPER, torque=9.6, stud="M8", smallest=16e-6, largest=36e-6
)
FERRULE = CrimpTerminal(name="ferrule", metals=COPPER, on_stud=False, smallest=1e-6, largest=4e-6)
PLUG = CrimpTerminal(name="plug", metals=COPPER, on_stud=False, crimped=False, largest=4e-6)
THICK = metric(25e-6, outer_diameter=0.0095)
THIN = awg("14", outer_diameter=0.004)
ALLOWANCE = Allowance(slack=0.1, per_end=0.15, heat_shrink=0.03)
OUTPUT = AmplifierOutput(power=75.0, power_load=4.0, bridged=False, lowest_load=2.0, damping=120.0)
HEAVY = Ground(
    id="G1", kind="body", bare=True, resistance=0.0006, conductor=awg("4", insulation=90),
        length=0.5,
    returns=(Return(run="P01", current=60.0, audio=True), Return(run="P02", current=None)),
)  # fmt: skip
FUSES = tuple(
    Fuse(kind="strip", rating=rating, breaking_capacity=breaks, opening=curve)
    for rating in (5.0, 15.0, 30.0, 50.0, 80.0, 100.0, 150.0, 200.0, 300.0)
    for breaks, curve in ((2000.0, trees.CURVE), (10000.0, trees.CURVE), (None, ()))
)


def labelled() -> tuple[LabelledRun, ...]:
    """Power with fuses in the way, speakers in one sheath, a line with its screen, a turn-on."""
    start = Cut(fuse="F01", at_start=True, distance=0.2, terminal=RING, where="wall", stud="M6")
    end = Cut(fuse="F02", at_start=False, distance=0.4)
    wall = Passage(id="w", place="wall", metal=True, grommet=False)
    red = Core(
        conductor=THICK, colour="RD", start=RING, end=None, cuts=(start, end), start_torque=11.0,
        start_stud="M8", end_where="left", start_place="post",
    )  # fmt: skip
    pair = tuple(
        Core(conductor=THIN, colour=colour, start=FERRULE, end=PLUG, sign=sign, length=length)
        for colour, sign, length in (("WH", "+", None), ("WHBK", "-", 4.5))
    )
    return (
        LabelledRun(id="p2", label="P02", start="battery", end="amp", length=5.3, cores=(red,),
                    fuses=("F01", "F02"), passages=(wall,), on_battery=True),
        LabelledRun(id="p1", label="P01", start="battery", end="amp", length=None,
                    cores=(replace(red, cuts=(), colour="BK", conductor=awg("3")),)),
        LabelledRun(id="s1", label="S01", start="amp", end="door", length=4.0, cores=pair,
                    one_sheath=True, passages=(replace(wall, metal=False),
                                               Passage(id="d", place="door", metal=None,
                                                   grommet=None))),
        LabelledRun(id="s2", label="S02", start="amp", end="door", length=3.1,
                    cores=(*pair, replace(pair[0], colour="", open_length=True, sign="x"))),
        LabelledRun(id="l1", label="L01", start="radio", end="amp", length=2.0, one_sheath=True,
                    cores=(Core(conductor=awg("24"), colour="", start=PLUG, end=PLUG),
                           Core(conductor=awg("24"), colour="", screen=True))),
        LabelledRun(id="p3", label="P03", start="battery", end="bar", length=1.0,
                    cores=(Core(conductor=awg("4/0"), colour="RD", start=RING, end=RING),)),
        LabelledRun(id="c1", label="C01", start="radio", end="amp", length=2.2, fuses=("F03",),
                    cores=(Core(conductor=awg("18", metal="aluminium"), colour="BU", start=FERRULE,
                                end=FERRULE, end_torque=1.0),)),
    )  # fmt: skip


def schedule() -> Mapping[str, object]:
    """Show the schedule, crimps, fuse map and order of a few runs."""
    runs = labelled()
    fuses = (
        FuseEntry(label="F02", place="boot", style="strip", rating=80.0),
        FuseEntry(label="F01", place="boot", style="strip", rating=None),
        FuseEntry(label="F03", place="armrest", style="blade", rating=3.0),
    )
    order = cable_order(runs, ALLOWANCE)
    crossed = replace(
        runs[0].cores[0],
        cuts=(
            Cut(fuse="a", at_start=True, distance=5.0),
            Cut(fuse="b", at_start=False, distance=1.0),
        ),
    )
    open_cut = replace(crossed, cuts=(Cut(fuse="a", at_start=True, distance=None),))
    others = [replace(runs[0], cores=(core,)) for core in (crossed, open_cut)]
    return {
        "schedule": rows(
            (r.run.label, r.run.kind, r.cut_length, r.pieces, r.supports, r.bend_radius)
            for r in wire_schedule(runs, ALLOWANCE)
        ),
        "not in pieces": row(r.pieces for each in others for r in wire_schedule([each], ALLOWANCE)),
        "crimps": rows(
            (c.label, c.at_start, c.number, c.terminal and c.terminal.name, c.pull_force, c.place,
             c.where, c.noted_stud, c.stud, c.torque, c.is_crimped)
            for c in crimp_list(runs)
        ),
        "fuses": rows((f.fuse.label, f.runs) for f in fuse_map(fuses, runs)),
        "checks": findings(check_schedule(runs)),
        "cables": rows(tuple(vars(line).values()) for line in order.cables),
        "order": row(order.terminals, order.ties, order.grommets),
        "shrink": row([(size, length) for size, length in order.heat_shrink.items()]),
        "open": row(order.unmeasured, order.unfinished),
    }  # fmt: skip


def speakers() -> Mapping[str, object]:
    """Show speaker runs of every load, alone and together."""
    bridged = replace(OUTPUT, bridged=True)
    outputs = {
        "plain": OUTPUT,
        "bridged": bridged,
        "own bridged": replace(bridged, lowest_bridged_load=3.0),
        "unknown": replace(OUTPUT, lowest_load=None, damping=None, bridged=True),
    }
    out: dict[str, object] = {
        "together": row(series([4.0, 8.0, 2.0]), parallel([4.0, 8.0, 2.0])),
        "damping": row(damping_factor(load=4.0, output_resistance=0.03, cable_resistance=0.1)),
        "wave": row(series([4.0 + 1j, 3.0 - 2j]), parallel([4.0 + 1j, 3.0 - 2j])),
    }
    for name, output in outputs.items():
        out[f"{name} run"] = row(
            speaker_run(output=output, load=4.0, cable_resistance=0.15), output.allowed_load
        )
        for load, cable, carries in (
            (None, None, None), (4.0, 0.21, 4.0), (1.9, 0.05, 30.0), (1.9, 0.15, 9.0), (3.9, 0.2,
                5.0),
        ):  # fmt: skip
            out[f"{name} {load} {cable}"] = findings(
                check_speaker_run(
                    output=output, load=load, cable_resistance=cable, ampacity=carries, about="S01"
                )
            )
    return out


def signals() -> Mapping[str, object]:
    """Show lines, turn-ons and control runs."""
    line = LineRun(id="L01", length=5.0, source_resistance=200.0, capacitance_per_length=100e-12,
                   beside_power=0.0)  # fmt: skip
    lines = (line, replace(line, source_resistance=3000.0, beside_power=0.5),
             replace(line, length=None, beside_power=None), replace(line,
                 capacitance_per_length=None))  # fmt: skip
    turn = TurnOn(id="C01", source_limit=0.2, input_currents=(0.1, 0.05))
    turns = (
        turn, replace(turn, input_currents=(0.15, 0.06)), replace(turn, source_limit=None),
        replace(turn, source_limit=None, input_currents=(0.1, None, 0.06)),
        replace(turn, input_currents=(None,)), replace(turn, relay=True, relay_coil=0.21),
        replace(turn, relay=True),
    )  # fmt: skip
    control = ControlRun(id="C02", conductor=awg("18", insulation=90), length=4.0, air=50.0,
                         on_supply=True, guard=3.0, current=1.0)  # fmt: skip
    small = metric(0.5e-6, insulation=90)
    controls = (
        control, replace(control, guard=30.0, current=20.0), replace(control, guard=float("inf")),
        replace(control, on_supply=None, conductor=None), replace(control, conductor=small,
            guard=5.0),
        replace(control, on_supply=False, output_limit=25.0, guard=40.0),
        replace(control, on_supply=False, output_limit=2.0, length=30.0, current=1.5),
        replace(control, air=95.0), replace(control, conductor=awg("24", insulation=90)),
    )  # fmt: skip
    return {
        "loss": row(line_treble_loss(source_resistance=1e3, capacitance=1e-9)),
        "lines": {str(n): findings(check_line_run(each)) for n, each in enumerate(lines)},
        "turns": {str(n): findings(check_turn_on(each)) for n, each in enumerate(turns)},
        "needs": row((each.source_current, each.needs_relay) for each in turns),
        "controls": {str(n): findings(check_control_run(each)) for n, each in enumerate(controls)},
        "carries": row(
            control_ampacity(each, ambient=air, bundled=3)
            for each in (
                small,
                metric(0.75e-6, insulation=90),
                awg("20", insulation=105),
                awg("24"),
            )
            for air in (30.0, 70.0, 95.0, 120.0)
        ),
    }


def grounds() -> Mapping[str, object]:
    """Show grounds shared, bare and unknown, and the ways of runs through a car."""
    light = replace(HEAVY, id="G2", bare=None, resistance=None, conductor=None,
                    returns=(Return(run="P03", current=3.0, audio=True),))  # fmt: skip
    post = replace(HEAVY, id="G3", kind="post", together=200.0, resistance=None, length=2.0,
                   returns=tuple(Return(run=f"P{n}", current=9.0) for n in range(5)))  # fmt: skip
    block = replace(post, id="G4", kind="block", conductor=awg("20", insulation=90), length=None)
    worn = replace(light, id="G5", bare=False, resistance=0.0026)
    out: dict[str, object] = {
        "figures": row(
            (g.current, g.shared_resistance) for g in (HEAVY, light, post, block, worn)
        ),
        "all": findings(check_grounds((HEAVY, light, post, block, worn), commanded=True)),
        "apart": findings(check_grounds((HEAVY, worn), commanded=None)),
        "alone": findings(check_grounds((replace(HEAVY, resistance=0.0005), replace(post,
            returns=())),
                                        commanded=True)),
    }  # fmt: skip
    ways = {
        "left": (("sill", "left"), ("tunnel", ""), ("seat", "left")),
        "crossing": (("sill", "left"), ("beam", "right"), ("seat", "left")),
        "wrong": (("sill", "right"), ("seat", "left")),
        "wrong end": (("sill", "left"), ("seat", "right")),
        "nothing": (),
    }
    for name, passed in ways.items():
        out[name] = findings(check_side(Way(id="S01", start="left", end="left", passed=passed)))
    middle = Way(id="S01", start="middle", end="right", passed=ways["left"])
    return out | {"middle": findings(check_side(middle))}


def _chosen(choice: Choice) -> Mapping[str, object]:
    return {
        "picks": " | ".join(
            row(
                p.run,
                p.conductor and p.conductor.label,
                _fuse(p.fuse_start),
                _fuse(p.fuse_end),
                p.bound,
            )
            for p in choice.picks
        ),
        "findings": row((f.code, f.about, f.value) for f in choice.findings),
        "sound": choice.tree is not None,
    }


def _fuse(fitted: FittedFuse | None) -> object:
    if fitted is None:
        return None
    return (fitted.fuse.rating, fitted.fuse.breaking_capacity, fitted.distance, fitted.sheathed)


def chosen() -> Mapping[str, object]:
    """Show the cables and fuses chosen for each supply."""
    cables: tuple[Conductor, ...] = (
        *(awg(size, insulation=105) for size in ("14", "10", "8", "4", "1/0", "4/0")),
        awg("2", metal="copper_clad_aluminium_10", insulation=105),
    )
    catalogue = Catalogue(conductors=cables, fuses=FUSES)
    out: dict[str, object] = {
        name: _chosen(choose(TREES[name](), catalogue))
        for name in ("estate", "camper", "weak", "random-8")
    }
    tree = van()
    seats = {
        ("P05", "block"): Seat(distance=0.05),
        ("P06", "block"): Seat(distance=None, sheathed=True),
    }
    bare = tuple(
        replace(run, fuse_start=None) if run.id in ("P05", "P06") else run for run in tree.runs
    )
    out["van"] = _chosen(
        choose(replace(tree, runs=bare), catalogue, keep=("P01", "P11"), seats=seats)
    )
    out["long"] = _chosen(choose(_long(), catalogue))
    out["tight"] = _chosen(choose(_long(), catalogue, drop_limit=0.01))
    hot = replace(_long(), runs=tuple(replace(run, ambient=106.0) if run.id == "P02" else run
                                      for run in _long().runs))  # fmt: skip
    mixed = Catalogue(conductors=(*cables[1:4], awg("6", insulation=125)), fuses=FUSES)
    out["hot"] = _chosen(choose(hot, mixed))
    out["too hot"] = _chosen(choose(hot, catalogue))
    few = Catalogue(conductors=cables[:2], fuses=FUSES[:6])
    out["few"] = _chosen(choose(_long(), few))
    out["spread"] = row(
        spread(
            paths=(("a", "b"), ("a", "c"), ("d",)), start={"a": 0, "b": 0, "c": 1, "d": 0},
            allowed=0.36,
            drops={"a": (0.3, 0.2, 0.1, 0.05), "b": (0.4, 0.2, 0.1), "c": (0.5, 0.3, 0.15),
                "d": (0.5, 0.4)},
            metal={"a": (1.0, 1.6, 3.0, 6.0), "b": (0.5, 1.0, 2.0), "c": (0.3, 0.5, 1.4),
                "d": (1.0, 2.0)},
        )
    )  # fmt: skip
    return out


def _long() -> Tree:
    """A long main, a settled way back, a body, parts that state fuses and least volts."""
    four = awg("4", insulation=105)
    runs = [
        trees.run("P01", "battery", "block", length=6.5),
        trees.run("P02", "block", "amp", length=0.8, chassis=0.001),
        replace(trees.run("P03", "block", "dsp", length=2.0), drop_limit=0.05, joints=0.002,
                return_path=CableReturn(conductor=four, length=2.0, settled=True)),
        replace(trees.run("P04", "block", "lamp", length=5.0), bundled=7,
                return_path=ChassisReturn(resistance=0.003, conductor=four, length=0.5)),
    ]  # fmt: skip
    loads = [
        Load(id="amp", node="amp", kind="amplifier", value=450.0, efficiency=0.8, fuse_rating=60.0,
             minimum_voltage=11.9),
        Load(id="dsp", node="dsp", kind="current", value=3.0, fuse_rating=7.5),
        Load(id="lamp", node="lamp", kind="resistance", value=2.5),
    ]  # fmt: skip
    return trees.tree(runs, [trees.battery()], loads)


def refused_runs() -> Mapping[str, object]:
    """Show what is refused of runs."""
    runs = labelled()
    entry = FuseEntry(label="F01", place="boot", style="strip", rating=80.0)
    cable = (awg("4", insulation=105),)
    calls: dict[str, Callable[[], object]] = {
        "label twice": lambda: wire_schedule((runs[0], runs[0]), ALLOWANCE),
        "fuse twice": lambda: fuse_map((entry, entry), ()),
        "unknown fuse": lambda: fuse_map((entry,), runs),
        "rating": lambda: replace(entry, rating=0.0),
        "label": lambda: replace(runs[0], label="Q01"),
        "length": lambda: replace(runs[0], length=0.0),
        "cores": lambda: replace(runs[0], cores=()),
        "core": lambda: replace(runs[0].cores[0], length=0.0),
        "colour": lambda: replace(runs[0].cores[0], colour="XX"),
        "slack": lambda: replace(ALLOWANCE, slack=-0.1),
        "shrink": lambda: replace(ALLOWANCE, heat_shrink=-0.1),
        "no loads": lambda: series([]),
        "load": lambda: parallel([4.0, 0.0]),
        "power": lambda: replace(OUTPUT, power=0.0),
        "damping": lambda: damping_factor(load=4.0, output_resistance=0.0, cable_resistance=0.0),
        "line": lambda: LineRun(id="L", length=0.0),
        "capacitance": lambda: LineRun(id="L", length=1.0, capacitance_per_length=-1.0),
        "turn-on": lambda: TurnOn(id="C", source_limit=0.0, input_currents=()),
        "coil": lambda: TurnOn(id="C", source_limit=0.1, input_currents=(), relay_coil=-0.1),
        "no cables": lambda: Catalogue(conductors=(), fuses=FUSES),
        "no fuses": lambda: Catalogue(conductors=cable, fuses=()),
        "cable": lambda: Catalogue(conductors=(awg("4"),), fuses=FUSES),
        "keep": lambda: choose(
            trees.estate(), Catalogue(conductors=cable, fuses=FUSES), keep=("P9",)
        ),
    }
    return refusals(calls)


SCENES = {
    "schedule": schedule,
    "speakers": speakers,
    "signals": signals,
    "grounds": grounds,
    "chosen": chosen,
    "refused runs": refused_runs,
}
