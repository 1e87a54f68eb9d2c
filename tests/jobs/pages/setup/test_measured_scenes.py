"""What pages say of a car whose every channel was measured, and measured again: as let stand."""

from __future__ import annotations

import re

import numpy as np
import pytest
from django.urls import reverse

from jobs.design.setup.measured import POINTS
from jobs.design.setup.starting import way_of
from jobs.models import Channel, ChannelCurve, Processor, TargetCurve
from tests.approval import hold
from tests.jobs.pages.setup.test_proposal import EQUALISER, measure, recorded
from tests.words import words

pytestmark = pytest.mark.django_db
PAGES = ("setup", "setup-measured", "setup-as-set", "findings")


@pytest.fixture
def heard(hatchback):
    """Each channel with a bump of its own in two places, recorded in one, and once more later."""
    Processor.objects.update(**EQUALISER)
    channels = [*Channel.objects.filter(job=hatchback.job)]
    for number, channel in enumerate(channels):
        at = 60.0 * 2.2**number
        measure(channel, "driver's seat", at=at)
        measure(channel, "passenger", at=at * 1.1)
        response = way_of(channel).response(POINTS) * np.exp(2j * np.pi * POINTS * 5e-5 * number)
        recorded(channel, response * (-1) ** number)
    return hatchback


def _again(of) -> None:
    """Measure anew three weeks later: a little less of all, one channel nearly gone and turned."""
    rows = ChannelCurve.objects.filter(job=of.job, recorded=True).order_by("pk")
    for number, row in enumerate(rows):
        f, level, angle = np.loadtxt(row.content.splitlines()[1:]).T
        level = level - 3.0 - 25.0 * (number == 1)
        lines = (f"{a:.2f}\t{b:.2f}\t{c:.1f}" for a, b, c in zip(f, level, angle, strict=True))
        ChannelCurve.objects.create(
            job=of.job, channel=row.channel, place=row.place, measured_on="2026-12-20",
            measured_by="somebody else", recorded=True, delay=1e-3 * number, delay_within=1e-5,
            inverted=number == 1, above_noise=30.0 - 8 * number,
            content="Hz\tdB\t°\n" + "\n".join(lines),
        )  # fmt: skip


@pytest.mark.parametrize(
    ("name", "asked"),
    [
        ("plain", {}),
        ("lifted", {"lift": "6 dB", "fall": "0.5 dB"}),
        ("of ones own", {"lift": "0", "fall": "1 dB", "own": "yes"}),
    ],
)
def test_what_is_proposed_is_what_was_let_stand(heard, browse, name, asked):
    """Bands, what cone and coil bear of them, delays and polarities of neighbours."""
    if "own" in asked:
        curve = "\n".join(f"{f} {-3 * (f > 1000)}" for f in np.geomspace(20, 20_000, 12).round(1))
        own = TargetCurve.objects.create(job=heard.job, name="Down above", content=curve)
        asked = asked | {"own": own.pk}
    answer = browse("designer").get(reverse("setup-proposal", args=[heard.code]), asked)
    page = re.sub(r"\bown=\d+", "own=own", answer.content.decode())
    hold(f"setup/proposal, {name}", words(page))


@pytest.mark.parametrize("name", PAGES)
def test_what_was_measured_again_is_told_as_was_let_stand(heard, browse, name):
    """Both visits, what fell silent and what was turned between them, and what it means."""
    _again(heard)
    answer = browse("designer").get(reverse(name, args=[heard.code]))
    hold(f"setup/{name}", words(answer.content.decode()))
