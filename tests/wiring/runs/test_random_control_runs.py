"""Random control runs against the printed table and the square-root law of the air."""

from __future__ import annotations

import math
import random
from collections import Counter

import pytest

from wiring.cable.conductor import awg
from wiring.runs.control_runs import ControlRun, check_control_run

MARGIN = 1.003  # the table is rounded


@pytest.mark.second_method
@pytest.mark.parametrize("number", [200, pytest.param(2000, marks=pytest.mark.long)])
def test_no_control_run_burns_unsaid(number: int) -> None:
    """A control run that its source, its fuse or its own current can overheat is a stop."""
    draw = random.Random(32)
    seen: Counter[str] = Counter()
    for _ in range(number):
        size = draw.choice(("18", "14", "10"))
        table = {"18": 20, "14": 35, "10": 60}[size]
        air = draw.choice((30.0, 80.0))
        run = ControlRun(
            id="C", conductor=awg(size, insulation=105), length=1.0, air=air,
            on_supply=draw.choice((True, False)),
            guard=draw.choice((math.inf, 2.0, 30.0, 100.0)),
            output_limit=draw.choice((None, 0.3, 90.0)),
            current=draw.choice((None, 0.2, 25.0)),
        )  # fmt: skip
        stands = table * ((105 - air) / 75) ** 0.5
        may_flow = run.guard if run.on_supply else min(run.output_limit or 0.0, run.guard)
        burns = may_flow > stands * MARGIN or (run.current or 0.0) > stands * MARGIN
        stops = [f for f in check_control_run(run) if f.severity == "stop"]
        assert bool(stops) is burns, (run, stops)
        seen[str(burns)] += 1
    assert min(seen.values()) > number / 10, seen
