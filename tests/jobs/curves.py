"""Invented curves of a channel in a seat, as any measuring program writes them."""

from __future__ import annotations

import math


def a_curve(*, shift: float = 0.0, between: str = "\t") -> str:
    """A hump of a curve from 20 Hz to 16 kHz in third octaves, moved up by so many decibels."""
    rows = []
    for band in range(-17, 13):
        frequency = 1000.0 * 10 ** (band / 10)
        level = 80.0 + shift - abs(math.log2(frequency / 1000.0))
        rows.append(f"{frequency:.2f}{between}{level:.2f}")
    return "\n".join(rows)
