"""How the benches take the time."""

from __future__ import annotations

import time
from collections.abc import Callable


def seconds(run: Callable[[], object], times: int = 5) -> float:
    """Median CPU seconds of some runs after one that warms up."""
    run()
    taken = []
    for _ in range(times):
        before = time.process_time()
        run()
        taken.append(time.process_time() - before)
    return sorted(taken)[times // 2]
