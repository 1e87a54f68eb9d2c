"""Thousands of random supplies in every state of the car, against a method that shares no code.

Returns of their own cable or with a stud in common, two batteries or one, flat or away, a charge
relay, an isolator or a converter either way, an alternator at speed, at idle and let down, loads
and networks of 12 and 24 V. The other method knows printed tables only, says by itself which
states there are, and solves each by repeated substitution.
"""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
import pytest

from tests.wiring.random_supplies import AREA, random_tree
from wiring.findings import Finding
from wiring.network.parts import Source
from wiring.network.tree import Run, Tree
from wiring.protection.checks import check

CARRIES = {"14": 35, "10": 60, "8": 80, "4": 160, "1/0": 285}  # A, Table 5, 105 °C, 30 °C
FLAT = 10.5  # V, end of the reserve capacity test
MARGIN = 1.003  # the tables are rounded
GIVING = ("alternator", "dc-dc")


def carries(run: Run) -> float:
    """Ampacity of the thinner of both ways: table and square-root law; a contact's own rating."""
    if run.contact is not None:
        return float(run.contact.rated_current)
    sizes = (run.conductor.size, run.return_path.conductor.size)
    return min(CARRIES[size] for size in sizes) * ((105 - run.ambient) / 75) ** 0.5


def ohms(run: Run, celsius: float) -> float:
    """Out and back, or a contact's."""
    if run.contact is not None:
        return run.contact.resistance
    ways = ((run.conductor, run.length), (run.return_path.conductor, run.return_path.length))
    cold = sum(metres * 1e-6 / 58 / (AREA[core.size] * 1e-6) for core, metres in ways)
    return cold * (1 + 0.004 * (celsius - 20)) + run.joints


@dataclass(frozen=True)
class Moment:
    """One state in the other method's words."""

    emf: dict[str, float]  # of the batteries that are there
    running: bool
    playing: bool
    alternator: str = "at speed"
    away: str = ""
    flat: str = ""


def moments(tree: Tree) -> list[Moment]:
    """All as it is; each source away, batteries with the engine off, others with it on; each
    battery flat, playing with the engine off and on, and quiet with it on.

    With a relay or converter, which the engine turns on, the alternator at idle and let down as
    well. A battery is called flat only where something elsewhere can charge it.
    """
    emf = {s.id: s.emf for s in tree.sources if s.kind not in GIVING}
    giving = [s for s in tree.sources if s.kind in GIVING]
    engine = (False, True)
    found = [Moment(emf, running, True) for running in engine]
    alternator = next((s for s in giving if s.kind == "alternator"), None)
    converter = any(s.kind == "dc-dc" for s in giving)
    if alternator and (converter or any(is_relay(run) for run in tree.runs)):
        if alternator.idle_limit:
            found.append(Moment(emf, True, True, "idle"))
        if alternator.commanded:
            found.append(Moment(emf, True, True, "let down"))
    if len(giving) > 1:
        found += [Moment(emf, True, True, away=s.id) for s in giving]
    for battery in (s for s in tree.sources if s.id in emf):
        others = {k: v for k, v in emf.items() if k != battery.id}
        if others:
            found.append(Moment(others, False, True))
        elsewhere = [s.node for s in tree.sources if s.node != battery.node]
        if battery.node in downhill(tree.runs, elsewhere):
            low = emf | {battery.id: FLAT * (2 if battery.emf > 16 else 1)}
            found += [Moment(low, running, True, flat=battery.id) for running in engine]
            found.append(Moment(low, True, False, flat=battery.id))
    return found


def gives(tree: Tree, moment: Moment) -> list[Source]:
    """The alternator and the converter, as far as they are on.

    While nothing plays and one battery charges, a converter that leads elsewhere has no work.
    """
    on = []
    for s in tree.sources if moment.running else ():
        if s.kind not in GIVING or s.id == moment.away:
            continue
        if s.kind == "alternator" and moment.alternator == "let down":
            continue
        if s.kind == "alternator" and moment.alternator == "idle":
            s = replace(s, current_limit=s.idle_limit)
        there = next((b.node for b in tree.sources if b.id == moment.flat), None)
        if s.kind == "dc-dc" and not moment.playing and there not in downhill(tree.runs, [s.node]):
            continue
        on.append(s)
    return on


def currents(tree: Tree, moment: Moment) -> dict[str, float] | None:
    """Current of each run by repeated substitution, cables warming; None where nothing settles.

    What gives one way holds its voltage until it gives all it can, then pushes that; an isolator
    is tried shut and open.
    """
    runs = [r for r in tree.runs if moment.running or not is_relay(r)]
    closed = [r for r in runs if not is_isolator(r)]
    ways = (runs, closed) if len(closed) < len(runs) else (runs,)
    return next((amps for way in ways if (amps := carried(tree, way, moment)) is not None), None)


def carried(tree: Tree, runs: list[Run], moment: Moment) -> dict[str, float] | None:
    """The same with an isolator that conducts, or with none."""
    giving = gives(tree, moment)
    fed = reached(runs, [s.node for s in (*tree.sources, *giving) if s.id in moment.emf])
    fed |= reached(runs, [s.node for s in giving])
    names = sorted(fed)
    at = {name: i for i, name in enumerate(names)}
    runs = [r for r in runs if r.start in fed]
    watts = np.zeros(len(names))
    for load in tree.loads:
        if load.node not in at:
            continue
        if load.kind == "amplifier" and moment.playing:
            watts[at[load.node]] += load.value / 0.8
        # The way into a converter has to carry what its full output takes.
        if load.kind == "power" and any(s.input_load == load.id for s in giving):
            watts[at[load.node]] += load.value
    for modes in product(("holds", "limit", "nothing"), repeat=len(giving)):
        result = settle(tree, runs, at, watts, moment, list(zip(giving, modes, strict=True)))
        if result is not None and isolated(tree, runs, at, *result):
            return result[0]
    return None


def isolated(tree, runs, at, amps, volts) -> bool:
    """Whether an isolator conducts forwards, or where left out would not conduct."""
    for r in (r for r in tree.runs if is_isolator(r)):
        if r in runs and amps.get(r.id, 0.0) < -1e-6:
            return False
        if r not in runs and r.start in at and r.end in at:
            return bool(volts[at[r.start]] - volts[at[r.end]] < r.contact.forward_voltage + 1e-6)
    return True


def settle(tree, runs, at, watts, moment, giving):
    """One try with each one-way source in one of its ways: currents of the runs, voltages."""
    drops = {r.id: r.contact.forward_voltage if is_isolator(r) else 0.0 for r in runs}
    lost = dict(drops)
    hot = {r.id: 30.0 if r.contact else r.ambient for r in runs}
    volts = np.full(len(at), max([*moment.emf.values(), 14.4, *(s.emf for s, _ in giving)]))
    for _ in range(60):
        grid, pushed = drawn(tree, runs, at, hot, moment, giving)
        for r in runs:
            pushed[at[r.start]] += lost[r.id] / ohms(r, hot[r.id])
            pushed[at[r.end]] -= lost[r.id] / ohms(r, hot[r.id])
        if np.linalg.cond(grid) > 1e12:  # nothing holds a voltage there
            return None
        inverse, before = np.linalg.inv(grid), volts
        for _ in range(80):
            last, volts = volts, inverse @ (pushed - watts / volts)
            if volts.min() < 2:
                return None
            if np.abs(volts - last).max() < 1e-7:
                break
        amps = {
            r.id: (volts[at[r.start]] - volts[at[r.end]] - lost[r.id]) / ohms(r, hot[r.id])
            for r in runs
        }
        # The stud loses for each what the others send through it.
        lost = drops | {
            r.id: r.joints * sum(amps.get(n, 0.0) for n in ("P2", "P3") if n != r.id)
            for r in runs
            if r.id in ("P2", "P3")
        }
        hot = {
            r.id: hot[r.id]
            if r.contact
            else min(250, r.ambient + (105 - r.ambient) * (amps[r.id] / carries(r)) ** 2)
            for r in runs
        }
        if np.abs(volts - before).max() < 1e-5:
            break
    for source, mode in giving:
        free = (source.emf - volts[at[source.node]]) / source.resistance
        way = "nothing" if free < 0 else "limit" if free > source.current_limit else "holds"
        if way != mode:
            return None
    return amps, volts


def drawn(tree, runs, at, hot, moment, giving):
    """Conductances between the nodes, and what the sources push into them."""
    grid, pushed = np.zeros((len(at), len(at))), np.zeros(len(at))
    for r in runs:
        g, i, j = 1 / ohms(r, hot[r.id]), at[r.start], at[r.end]
        grid[i, i] += g
        grid[j, j] += g
        grid[i, j] -= g
        grid[j, i] -= g
    for s in tree.sources:
        if s.id in moment.emf and s.node in at:
            grid[at[s.node], at[s.node]] += 1 / s.resistance
            pushed[at[s.node]] += moment.emf[s.id] / s.resistance
    for source, mode in giving:
        place = at[source.node]
        if mode == "holds":
            grid[place, place] += 1 / source.resistance
            pushed[place] += source.emf / source.resistance
        elif mode == "limit":
            pushed[place] += source.current_limit
    return grid, pushed


def is_relay(run: Run) -> bool:
    """Whether it opens with the engine."""
    return run.contact is not None and run.contact.kind == "charge relay"


def is_isolator(run: Run) -> bool:
    """Whether it passes current one way only."""
    return run.contact is not None and run.contact.kind == "diode"


def reached(runs: list[Run], nodes: list[str]) -> set[str]:
    """Every node that hangs together with one of these."""
    known = set(nodes)
    while (
        more := {b for r in runs for a, b in ((r.start, r.end), (r.end, r.start)) if a in known}
        - known
    ):
        known |= more
    return known


def downhill(runs: tuple[Run, ...], nodes: list[str]) -> set[str]:
    """Every node that current from one of these can come to, an isolator passed forwards only."""
    known = set(nodes)
    while (
        more := {
            b
            for r in runs
            for a, b in ((r.start, r.end), *([] if is_isolator(r) else [(r.end, r.start)]))
            if a in known
        }
        - known
    ):
        known |= more
    return known


def violations(tree: Tree) -> set[tuple[str, str]]:
    """Everything wrong that this method can see, as (kind, place)."""
    wrong = set()
    for moment in moments(tree):
        amps = currents(tree, moment)
        if amps is None:
            continue  # another test is about what does not balance
        for run in tree.runs:
            current = abs(amps.get(run.id, 0.0))
            if current > carries(run) * MARGIN:
                wrong.add(("contact" if run.contact else "ampacity", run.id))
            for fitted in (run.fuse_start, run.fuse_end):
                if fitted and current > fitted.fuse.rating * warm(run) * MARGIN:
                    wrong.add(("fuse", run.id))
    return wrong | too_much_voltage(tree)


def warm(run: Run) -> float:
    """What heat leaves of a fuse: half a percent for each degree above 25."""
    return 1 - 0.005 * max(0.0, run.ambient - 25)


def too_much_voltage(tree: Tree) -> set[tuple[str, str]]:
    """Amplifiers that a charging voltage above their own reaches; networks that meet."""
    wrong = set()
    runs = list(tree.runs)
    for load in (x for x in tree.loads if x.kind == "amplifier"):
        near = [s for s in tree.sources if s.node in reached(runs, [load.node])]
        volts = max(28.8 if s.emf > 16 else 14.4 for s in near)
        if volts > (load.highest_voltage or 16.0):
            wrong.add(("voltage", load.id))
        if len({s.emf > 16 for s in near}) > 1:
            wrong |= {("joined", s.id) for s in near if s.id == "B-second"}
    return wrong


ANSWERS = {
    "ampacity": {"ampacity-exceeded"},
    "contact": {"contact-over-rating"},
    "fuse": {"fuse-below-load"},
    "voltage": {"voltage-above-part"},
    "joined": {"networks-joined"},
}


def answered(wrong: tuple[str, str], findings: tuple[Finding, ...]) -> bool:
    """Whether some finding of the right kind names the place, or the whole does not balance."""
    kind, where = wrong
    if any(f.code == "no-solution" for f in findings):
        return True
    named = [f for f in findings if f.code in ANSWERS[kind]]
    return any(where in (f.about, *f.detail) for f in named)


@pytest.mark.second_method
@pytest.mark.parametrize("number", [60, pytest.param(15000, marks=pytest.mark.long)])
def test_nothing_unsafe_passes_in_any_state(number: int) -> None:
    """Whatever a run, fuse or contact carries in the worst state of the car is said if too much."""
    draw = random.Random(31)
    seen: Counter[str] = Counter()
    blamed = 0
    for _ in range(number):
        tree = random_tree(draw)
        findings, wrong = check(tree), violations(tree)
        for fault in wrong:
            assert answered(fault, findings), (fault, tree, findings)
        seen.update({kind for kind, _ in wrong} or {"sound"})
        if not wrong:
            blamed += any(f.code in OURS and beyond(f) for f in findings)
    assert all(seen[kind] >= number / 300 for kind in ("sound", *ANSWERS)), seen
    assert blamed <= 0.01 * seen["sound"], (blamed, seen)


OURS = set().union(*ANSWERS.values())


def beyond(finding: Finding) -> bool:
    """Whether a finding's figure is above its limit by more than the printed tables are rounded."""
    value, limit = finding.value, finding.limit
    return not isinstance(value, float) or not limit or value > float(limit) * 1.01
