"""Which voltages reach a part: highest supply voltage of loads, networks that are joined.

API: `charging_voltage(source)`, `check_voltages(tree)`.
"""

from collections.abc import Iterator

from wiring.findings import ABOVE, Finding
from wiring.network.parts import STEP, Load, blocks_of_12
from wiring.network.parts import Source as Feed
from wiring.network.tree import Tree
from wiring.sources import Source

# V, set voltage of a 12 V alternator at 20 °C; an engine maker's manual prints 14.4 ± 0.3 V.
SET_VOLTAGE = 14.4


def charging_voltage(source: Feed) -> float:
    """Highest voltage a source lets its network reach: a battery while it is charged.

    U = max(E, 14.4 V for each 12 V) for a battery, E for what gives one way

    Args:
        source: the source

    Returns:
        voltage [V]

    Valid: lead-acid; a commanded voltage above it is that of the alternator in the tree
    Source: engine maker's manual, regulator 14.4 V at 20 °C; 24 and 48 V in proportion
    """
    if not source.is_battery:
        return source.emf
    return max(source.emf, SET_VOLTAGE * blocks_of_12(source.emf))


def check_voltages(tree: Tree) -> Iterator[Finding]:
    """Findings on loads that more voltage reaches than they stand, and on networks that are joined.

    Args:
        tree: the supply

    Returns:
        the findings

    Valid: what a converter separates does not reach; a contact counts as closed
    Source: part maker's sheet; ISO 16750-2:2012, supply code A, for an amplifier without a figure
    """
    reached = {source.id: tree.reach(source.node) for source in tree.sources}
    converters = {source.input_load for source in tree.sources if source.input_load}
    for load in tree.loads:
        feeds = [s for s in tree.sources if load.node in reached[s.id]]
        if feeds:
            yield from _of_load(load, max(map(charging_voltage, feeds)), load.id in converters)
    lasting = [s for s in tree.sources if s.kind != "capacitor"]
    for number, source in enumerate(lasting):
        for other in lasting[:number]:
            if other.node not in reached[source.id]:
                continue
            if blocks_of_12(source.emf) != blocks_of_12(other.emf):
                yield Finding(
                    code="networks-joined",
                    about=source.id,
                    detail=(other.id,),
                    value=source.emf,
                    limit=other.emf,
                    unit="V",
                    source=(Source.CODE_A, Source.IN_PROPORTION),
                )


def _of_load(load: Load, volts: float, is_input: bool) -> Iterator[Finding]:
    limit, source, code = load.highest_voltage, Source.PART_SHEET, "voltage-above-part"
    if limit is None:
        # An amplifier without a figure is a 12 V part; of anything else nobody can say.
        limit, source = STEP, Source.CODE_A
        if load.kind != "amplifier" or is_input:
            code = "highest-voltage-unknown"
    if volts > limit * ABOVE:
        yield Finding(
            code=code, about=load.id, value=volts, limit=limit, unit="V", source=(source,)
        )
