"""A bass note on a whole tree with an alternator or converter at its limit, stepped by another way.

The other method knows no ports: at each step it solves the whole network with the bank as a
battery of its present voltage, by trying each way the one-way source can be and substituting the
amplifier's current, and steps with the classical fourth-order Runge-Kutta rule.
"""

from __future__ import annotations

import numpy as np
import pytest

from wiring.cable.conductor import metric
from wiring.cable.drop import CableReturn
from wiring.network.parts import Load, Source
from wiring.network.solve import solve
from wiring.network.thevenin import feed_of
from wiring.network.transient import BassNote, CapacitorBank, sag
from wiring.network.tree import Node, Run, Tree

CABLE = metric(35e-6, insulation=105.0)
FARADS, ESR, STEP = 2.0, 0.004, 1e-3
REST, FULL, NOTE = 150.0, 1100.0, 0.25
OTHER = 15.0  # A, at the block


def tree(limit: float, emf: float) -> Tree:
    """A battery, a one-way source beside it, a block with a constant load, amplifier and bank."""
    runs = [
        Run(
            id=name, start=start, end=end, conductor=CABLE, length=metres,
            return_path=CableReturn(conductor=CABLE, length=metres),
        )
        for name, start, end, metres in (
            ("P1", "battery", "block", 4.0),
            ("P2", "block", "amp", 0.6),
            ("P3", "block", "bank", 0.3),
        )
    ]  # fmt: skip
    return Tree(
        nodes=tuple(Node(id=n) for n in ("battery", "block", "amp", "bank")),
        sources=(
            Source(id="B", node="battery", kind="starter battery", emf=12.6, resistance=6e-3),
            Source(
                id="ALT", node="battery", kind="alternator", emf=emf, resistance=4e-3,
                current_limit=limit,
            ),
            Source(id="C", node="bank", kind="capacitor", emf=12.6, resistance=ESR),
        ),
        runs=tuple(runs),
        loads=(
            Load(id="A", node="amp", kind="amplifier", value=FULL * 0.8, efficiency=0.8,
                 music_power=REST),
            Load(id="fan", node="block", kind="current", value=OTHER),
        ),
    )  # fmt: skip


def network(limit: float, emf: float, bank: float | None, watts: float) -> tuple[float, float]:
    """Voltage at the amplifier and current into the bank, settled by substitution."""
    loop = 2 * CABLE.resistance_20
    best = None
    for way in ("holds", "limit", "nothing"):
        grid, pushed = np.zeros((4, 4)), np.zeros(4)  # battery, block, amplifier, bank
        for i, j, metres in ((0, 1, 4.0), (1, 2, 0.6), (1, 3, 0.3)):
            g = 1 / (loop * metres)
            grid += g * np.outer(np.eye(4)[i] - np.eye(4)[j], np.eye(4)[i] - np.eye(4)[j])
        grid[0, 0] += 1 / 6e-3
        pushed[0] += 12.6 / 6e-3
        if way == "holds":
            grid[0, 0] += 1 / 4e-3
            pushed[0] += emf / 4e-3
        elif way == "limit":
            pushed[0] += limit
        pushed[1] -= OTHER
        if bank is not None:
            grid[3, 3] += 1 / ESR
            pushed[3] += bank / ESR
        inverse, volts = np.linalg.inv(grid), np.full(4, 13.0)
        for _ in range(300):
            drawn = np.array([0, 0, watts / volts[2], 0])
            last, volts = volts, inverse @ (pushed - drawn)
            if np.abs(volts - last).max() < 1e-12:
                break
        free = (emf - volts[0]) / 4e-3
        if way == ("nothing" if free < 0 else "limit" if free > limit else "holds"):
            best = volts
    assert best is not None
    return float(best[2]), 0.0 if bank is None else float((best[3] - bank) / ESR)


@pytest.mark.second_method
@pytest.mark.parametrize(
    ("limit", "emf"),
    # Below its limit at rest and at it on the note; at it always; never at it; hardly giving.
    [(70.0, 14.2), (30.0, 14.2), (400.0, 14.2), (60.0, 12.9)],
)
def test_a_note_beside_a_limited_source_is_within_ten_millivolts(limit: float, emf: float) -> None:
    """At rest, over the note and at its end, with the bank, beside the stepped whole network."""
    supply = tree(limit, emf)
    loaded = solve(supply, temperature=20.0)
    resting = solve(supply, "music", temperature=20.0)
    bank = next(s for s in supply.sources if s.kind == "capacitor")
    feed = feed_of(supply, supply.loads[0], loaded=loaded, resting=resting, bank=bank)
    note = BassNote(rest_power=REST, power=FULL, duration=NOTE)
    played = sag(feed, note, CapacitorBank(capacitance=FARADS, series_resistance=ESR))

    rest, _ = network(limit, emf, None, REST)
    assert played.rest_voltage == pytest.approx(rest, abs=0.010)
    # At rest nothing flows into the bank: its voltage is that of the open end.
    volts = rest + REST / rest * 2 * CABLE.resistance_20 * 0.6

    def rate(v: float) -> float:
        return network(limit, emf, v, FULL)[1] / FARADS

    for n in range(int(NOTE / STEP)):
        there = network(limit, emf, volts, FULL)[0]
        ours = float(np.interp(n * STEP, played.time, played.voltage))
        assert ours == pytest.approx(there, abs=0.010), n
        k1 = rate(volts)
        k2 = rate(volts + STEP / 2 * k1)
        k3 = rate(volts + STEP / 2 * k2)
        k4 = rate(volts + STEP * k3)
        volts += STEP / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
