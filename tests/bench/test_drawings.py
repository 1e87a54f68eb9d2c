"""Speed of the charts, as a ratio to writing the bare numbers within one run."""

import math
import time
from collections.abc import Callable

import pytest

from jobs.drawings.axis import Axis
from jobs.drawings.chart import Chart, Series, chart

pytestmark = pytest.mark.bench

XS = [10 * 50 ** (i / 239) for i in range(240)]
CURVES = [[80 - 20 * math.log10(1 + (f0 / x) ** 4) for x in XS] for f0 in (30, 40, 50)]
SPEC = Chart(
    key="c",
    title="Level",
    description="d",
    x=Axis(label="Frequency", unit="Hz", low=10, high=500, log=True),
    y=Axis(label="Level", unit="dB", low=30, high=100),
    series=[Series(name=f"box {i}", x=XS, y=ys) for i, ys in enumerate(CURVES)],
)


def best_of(call: Callable[[], object]) -> float:
    """Shortest CPU time of one call."""
    times = []
    for _ in range(7):
        begin = time.process_time()
        for _ in range(40):
            call()
        times.append((time.process_time() - begin) / 40)
    return min(times)


def bare() -> str:
    """The logarithms and the numbers of three curves, nothing else."""
    return "".join(
        " ".join([f"{300 * math.log(x / 10):.1f},{4 * y:.1f}" for x, y in zip(XS, ys, strict=True)])
        for ys in CURVES
    )


def test_three_curves_cost_little_more_than_their_numbers() -> None:
    """Axes, clipping, labels and escaping cost at most six times writing the points."""
    mine, hand = best_of(lambda: chart(SPEC)), best_of(bare)
    assert mine < 6 * hand, f"{1000 * mine:.2f} ms, {mine / hand:.2f} times bare"
