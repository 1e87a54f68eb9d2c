"""What the loudest tone of each channel reads on a meter, and how long it may be heard."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from acoustics.setup.hearing import a_weight, c_weight, time_a_day, time_a_week
from jobs.design.setup.starting import Start
from jobs.models import Channel

WHOLE_DAY, WHOLE_WEEK = 24 * 3600.0, 7 * 24 * 3600.0  # s


@dataclass(frozen=True, kw_only=True)
class Heard:
    """A channel alone at the most its amplifier gives, at 1 m without the car."""

    channel: Channel
    tone: float
    loudest: float
    in_a: float
    in_c: float
    # None where the whole day or week is not too long.
    a_day: float | None
    a_week: float | None


def work_out_hearing(starts: Iterable[Start]) -> list[Heard]:
    """Say it of every channel whose loudest level is known."""
    return [
        _heard(start.channel, start.tone, start.loudest)
        for start in starts
        if start.tone is not None and start.loudest is not None
    ]


def _heard(channel: Channel, tone: float, loudest: float) -> Heard:
    at = np.array([tone])
    in_a = loudest + float(a_weight(at)[0])
    day, week = time_a_day(in_a), time_a_week(in_a)
    return Heard(
        channel=channel,
        tone=tone,
        loudest=loudest,
        in_a=in_a,
        in_c=loudest + float(c_weight(at)[0]),
        a_day=day if day < WHOLE_DAY else None,
        a_week=week if week < WHOLE_WEEK else None,
    )
