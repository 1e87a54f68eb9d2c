"""What the screws of a part hold by in wood: wood screws, T-nuts, threaded inserts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from acoustics.findings import Finding

FastenerKind = Literal["screw", "t_nut", "insert"]
# A barrel may be as long as its wood is thick, but for what a ruler does not show [m].
RULER = 1e-5


@dataclass(frozen=True, kw_only=True)
class Fastener:
    """A screw, or what is let into the wood to carry one.

    Attributes:
        name: what it is called.
        kind: wood screw, T-nut or threaded insert.
        thread: its thread or size as it is marked, empty where nobody knows.
        barrel: length of the barrel in the wood, None where nobody knows or there is none [m].
        hole: diameter of the hole to drill, None where nobody knows [m].
    """

    name: str
    kind: FastenerKind
    thread: str = ""
    barrel: float | None = None
    hole: float | None = None


def check_fastener(fastener: Fastener, wood: float) -> Iterator[Finding]:
    """Hold a fastener to the wood it goes into, and say what nobody has read of it.

    A T-nut whose barrel is longer than the wood is thick stands out and is never drawn tight; an
    insert does not go in whole.

    Args:
        fastener: the fastener.
        wood: thickness of the wood at its hole, all layers counted [m].

    Yields: one finding for each figure that is not known or does not go

    Source: definition.
    """
    barrelled = fastener.kind != "screw"
    if barrelled and fastener.barrel is None:
        yield Finding(code="barrel-unknown", unit="m")
    elif barrelled and fastener.barrel is not None and fastener.barrel > wood + RULER:
        yield Finding(code="barrel-longer-than-wood", value=fastener.barrel, limit=wood, unit="m")
    if fastener.hole is None:
        yield Finding(code="fastener-hole-unknown", unit="m")
    if not fastener.thread:
        yield Finding(code="fastener-thread-unknown")
