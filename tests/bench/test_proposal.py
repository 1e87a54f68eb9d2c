"""What it takes to propose bands anew while somebody changes what is wanted."""

from __future__ import annotations

from itertools import count

import numpy as np
import pytest

from jobs.design.job.whole import load
from jobs.design.setup.proposal import Wanted, propose
from jobs.models import ChannelCurve, Processor
from tests.bench.clock import cost

pytestmark = [pytest.mark.bench, pytest.mark.django_db]
EQUALISER = {
    "sample_rate": 48_000.0, "bands": 8, "most_boost": 6.0, "most_cut": 12.0, "lowest_q": 0.5,
    "highest_q": 8.0,
}  # fmt: skip


def test_bands_are_proposed_while_one_waits(hatchback):
    """Every channel of a car, each measured in three places: 300 ms of CPU after a change."""
    Processor.objects.update(**EQUALISER)
    f = np.geomspace(20, 16_000, 240)
    chance = np.random.default_rng(1)
    for channel in hatchback.job.channels.filter(amplifier__isnull=False):
        for place in ("driver", "passenger", "bench"):
            at, size = chance.uniform(0, 6, 9), chance.uniform(-8, 8, 9)
            bumps = [
                g * np.exp(-(((np.log2(f / 40) - a) / 0.3) ** 2))
                for a, g in zip(at, size, strict=True)
            ]
            text = "\n".join(f"{x:.2f} {80 + y:.2f}" for x, y in zip(f, sum(bumps), strict=True))
            ChannelCurve.objects.create(
                job=channel.job, channel=channel, place=place, measured_on="2026-11-28",
                measured_by="somebody", content=text,
            )  # fmt: skip
    records = load(hatchback.job)
    fall = count()

    def again():
        wanted = Wanted(lift=3.0, fall=0.1 * (next(fall) % 7), own=None)
        return propose(records.channels, records.channel_curves, wanted)

    proposals = again()
    spent = cost(again)
    print(f"\nbands of {len(proposals)} channels proposed again: {spent}")
    assert sum(bool(each.bands) for each in proposals) > 2
    assert spent.nominal < 0.3
