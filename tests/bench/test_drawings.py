"""Speed of the charts, as a ratio to writing the bare numbers within one run."""

import math

import pytest

from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Series, chart
from tests.bench.clock import cost

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


def bare() -> str:
    """The logarithms and the numbers of three curves, nothing else."""
    return "".join(
        " ".join([f"{300 * math.log(x / 10):.1f},{4 * y:.1f}" for x, y in zip(XS, ys, strict=True)])
        for ys in CURVES
    )


def test_three_curves_cost_little_more_than_their_numbers() -> None:
    """Axes, clipping, labels and escaping cost at most six times writing the points."""
    mine, hand = (cost(run, times=7, calls=40) for run in (lambda: chart(SPEC), bare))
    print(f"\nthree curves: {mine}, {mine.turns / hand.turns:.2f} times bare")
    assert mine.turns < 6 * hand.turns
