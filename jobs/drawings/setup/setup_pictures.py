"""What the ways of a side sum to, drawn: each alone, together, and together as planned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

import numpy as np
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.box.figures import Floats
from jobs.design.setup.starting import Meeting, SetUp, chain_sums, chains
from jobs.drawings.pencil.axis import Axis
from jobs.drawings.pencil.chart import Chart, Marker, Series
from jobs.drawings.pencil.chart_picture import ChartPicture, picture

LOWEST, HIGHEST = -36.0, 6.0
TABLE_AT = (20, 31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16000)


def sum_charts(setup: SetUp, size: Literal["screen", "half"] = "screen") -> list[ChartPicture]:
    """Draw the sum of each chain of ways."""
    drawn = [_sum(number, chain) for number, chain in enumerate(chains(setup), start=1)]
    return [picture(replace(spec, size=size), TABLE_AT) for spec in drawn]


def _sum(number: int, chain: Sequence[Meeting]) -> Chart:
    sums = chain_sums(chain)
    series = [_series(_("sum, better polarity"), sums.frequencies, sums.better)]
    if not all(meeting.holds for meeting in chain):
        series.append(_series(_("sum as planned"), sums.frequencies, sums.planned))
    series += [_series(name, sums.frequencies, level) for name, level in sums.ways]
    names = ", ".join(name for name, _level in sums.ways)
    return Chart(
        key=f"setup-sum-{number}",
        title=names,
        description=_("Electrical sum of %(names)s from 20 Hz to 20 kHz.") % {"names": names},
        x=Axis(label=_("frequency"), unit="Hz", low=20, high=20_000, log=True),
        y=Axis(label=_("level"), unit="dB", low=LOWEST, high=HIGHEST),
        series=series,
        markers=[
            Marker(x=meeting.met.frequency, words=units.show(meeting.met.frequency, "frequency"))
            for meeting in chain
        ],
    )


def _series(name: str, frequencies: Floats, level: Floats) -> Series:
    return Series(name=name, x=frequencies.tolist(), y=np.maximum(level, LOWEST - 30.0).tolist())
