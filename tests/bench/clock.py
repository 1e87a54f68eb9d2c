"""How the benches take the time: CPU seconds, and how many turns of a fixed loop they are.

Seconds alone mean little: the same machine has been seen three times slower an hour later. So the
loop runs among the work that is measured, and a limit holds for seconds at nominal speed.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from statistics import median

import numpy as np

# What one turn takes where the limits were set, with nothing else at work [s].
NOMINAL = 0.010
_SWEEP = 2j * np.pi * np.geomspace(10, 500, 1000)


def turn() -> None:
    """One turn of the loop: half plain Python, half numpy, as the app is."""
    words = {f"P{n:02}": [f"{n * 0.1 + k:.2f}" for k in range(10)] for n in range(PYTHON)}
    "".join(f"<td>{label}</td>{','.join(row)}" for label, row in sorted(words.items()))
    for n in range(NUMPY):
        np.abs(1.0 / (1.0 + _SWEEP * (0.01 + n) + 1.0 / (_SWEEP + n)))


# So many that each half takes as long as the other.
PYTHON, NUMPY = 1800, 460


@dataclass(frozen=True, kw_only=True)
class Cost:
    """What one call costs: seconds of CPU, turns of the loop, and seconds at nominal speed."""

    seconds: float
    turns: float

    @property
    def nominal(self) -> float:
        """What the call would take where the limits were set [s]."""
        return self.turns * NOMINAL

    def __str__(self) -> str:
        return f"{self.seconds * 1e3:.2f} ms of CPU, {self.turns:.2f} turns of the loop"


def _cpu(run: Callable[[], object], calls: int, beside: int | None = None) -> float:
    before = _spent(beside)
    for _ in range(calls):
        run()
    return (_spent(beside) - before) / calls


def _spent(beside: int | None) -> float:
    """Seconds of CPU this process has had, and another that works for it.

    Source: kernel.org/doc/html/latest/scheduler/sched-stats.html, /proc/<pid>/schedstat
    """
    if beside is None:
        return time.process_time()
    return time.process_time() + int(Path(f"/proc/{beside}/schedstat").read_text().split()[0]) / 1e9


def cost(
    run: Callable[[], object],
    *,
    times: int = 5,
    calls: int = 1,
    before: Callable[[], object] = lambda: None,
    beside: int | None = None,
) -> Cost:
    """Median of some runs after one that warms up, the loop taking turns with them.

    What another process, `beside`, does for it meanwhile is counted.
    """
    run()
    seconds, loop = [], []
    for _ in range(times):
        before()
        seconds.append(_cpu(run, calls, beside))
        turn()  # what ran before has left the caches full of its own
        loop.append(_cpu(turn, 3))
    return Cost(seconds=median(seconds), turns=median(seconds) / median(loop))


def once(run: Callable[[], object]) -> Cost:
    """What a single run takes that is too long to be run again, the loop before and after it."""
    loop = _cpu(turn, 5)
    seconds = _cpu(run, 1)
    return Cost(seconds=seconds, turns=2 * seconds / (loop + _cpu(turn, 5)))
