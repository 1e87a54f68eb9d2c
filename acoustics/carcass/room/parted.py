"""Whether every part of a box that closed plates part works where a driver plays."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from acoustics.carcass.shape.body import Body
from acoustics.carcass.shape.chambers import Chamber, chambers, drivers_in
from acoustics.carcass.shape.contents import kind_of, numbered
from acoustics.findings import Finding

# Litres per driver that differ by less than this share are alike to a saw [-].
ALIKE = 0.01
OPENINGS = ("port", "passive radiator")


def check_chambers(body: Body) -> tuple[Finding, ...]:
    """Find what a closed plate shuts off: ports, plates, air; and chambers that are unlike.

    Args:
        body: the box with its contents.

    Returns: findings, none for a box of one chamber

    Source: definition.
    """
    parted = chambers(body)
    if len(parted) < 2 or not any(drivers_in(body, c.inside) for c in parted):
        return ()
    return (*_shut_off(body, parted), *_unlike(body, parted))


def _shut_off(body: Body, parted: Sequence[Chamber]) -> Iterator[Finding]:
    names = numbered(body.contents)
    for number, chamber in enumerate(parted, start=1):
        if drivers_in(body, (*chamber.inside, *chamber.facing)):
            continue
        for i in chamber.inside:
            opens = kind_of(body.contents[i].part) in OPENINGS
            code = "opening-shut-off" if opens else "terminal-shut-off"
            yield Finding(code=code, detail=(names[i],))
        detail = (f"chamber {number}",)
        yield Finding(code="air-shut-off", detail=detail, value=chamber.volume, unit="m³")


def _unlike(body: Body, parted: Sequence[Chamber]) -> Iterator[Finding]:
    """Drivers that play alike need alike air, and as many openings each."""
    played = [chamber for chamber in parted if drivers_in(body, chamber.inside)]
    litres = [chamber.volume / drivers_in(body, chamber.inside) for chamber in played]
    if max(litres) > min(litres) * (1 + ALIKE):
        yield Finding(code="chambers-unlike", value=min(litres), limit=max(litres), unit="m³")
    openings = [_openings(body, c) / drivers_in(body, c.inside) for c in played]
    before = [c for c in parted if drivers_in(body, c.facing)]
    if max(openings) > min(openings) or any(not _openings(body, c) for c in before):
        yield Finding(code="chamber-without-opening")


def _openings(body: Body, chamber: Chamber) -> int:
    return sum(kind_of(body.contents[i].part) in OPENINGS for i in chamber.inside)
