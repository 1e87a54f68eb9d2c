"""Whether each fuse may break the voltage of its network.

API: `network_voltage(emf)`, `check_fuse_voltages(tree)`.
"""

from collections.abc import Iterator

from wiring.findings import Finding
from wiring.network.parts import STEP, blocks_of_12
from wiring.network.tree import Run, Tree
from wiring.sources import Source

SOURCE = (Source.CODE_A, Source.IN_PROPORTION)


def network_voltage(emf: float) -> float:
    """Highest lasting voltage of the network a source belongs to.

    U = 16 V · ⌈E / 16 V⌉; above 32 V at least 64 V, because above 24 V comes the 48 V network

    Args:
        emf: open-circuit voltage of the source [V]

    Returns:
        voltage a part of the network has to stand [V]

    Raises:
        OutOfRangeError: if the voltage is not above zero

    Valid: 12, 24 and 48 V vehicle networks; rounds up
    Source: ISO 16750-2:2012, supply code A, 16 V; 24 and 48 V in proportion, common practice
    """
    return STEP * blocks_of_12(emf)


def check_fuse_voltages(tree: Tree) -> tuple[Finding, ...]:
    """Findings on fuses whose rated voltage is too low or not known.

    Args:
        tree: the supply

    Returns:
        the findings, at most one of a kind for each run

    Valid: an unknown rating is a finding, never assumed
    Source: ISO 8820-1, rated voltage; ISO 16750-2 for the voltage of the network
    """
    return tuple(findings for run in tree.runs for findings in _of_run(tree, run))


def _of_run(tree: Tree, run: Run) -> Iterator[Finding]:
    rated = [fitted.fuse.voltage for fitted in (run.fuse_start, run.fuse_end) if fitted]
    if not rated:
        return
    reached = tree.reach(run.start)
    emfs = [source.emf for source in tree.sources if source.node in reached]
    if not emfs:
        return
    limit = max(network_voltage(emf) for emf in emfs)
    known = [voltage for voltage in rated if voltage is not None]
    if known and min(known) < limit:
        yield Finding(
            code="fuse-voltage-low",
            about=run.id,
            value=min(known),
            limit=limit,
            unit="V",
            source=SOURCE,
        )
    if len(known) < len(rated):
        yield Finding(
            code="fuse-voltage-unknown", about=run.id, limit=limit, unit="V", source=SOURCE
        )
