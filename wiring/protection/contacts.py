"""Switches, relays, diodes and batteries side by side: what joins, and what keeps apart.

API: `check_contacts(tree, solved)`, `check_batteries(tree)`.
"""

from collections.abc import Iterator

from wiring.findings import ABOVE, Finding
from wiring.network.parts import Source as Feeding
from wiring.network.states import Condition, Solved, State, in_state
from wiring.network.tree import Tree
from wiring.protection.protection import Protection
from wiring.sources import Source


def check_contacts(tree: Tree, solved: Solved) -> Iterator[Finding]:
    """Findings on contacts that carry or may carry more than their maker allows.

    Args:
        tree: the supply
        solved: the tree in every state

    Returns:
        the findings

    Source: sheet of the switch, relay or isolator
    """
    protection = Protection(tree)
    for run in tree.runs:
        if run.contact is None:
            continue
        limit, state = run.contact.rated_current, solved.worst.runs.get(run.id)
        if limit is None:
            yield Finding(
                code="contact-rating-unknown", about=run.id, source=(Source.CONTACT_SHEET,)
            )
            continue
        if state is not None and abs(state.current) > limit * ABOVE:
            yield Finding(
                code="contact-over-rating",
                about=run.id,
                value=abs(state.current),
                limit=limit,
                unit="A",
                source=(Source.CONTACT_SHEET,),
                state=solved.run_states[run.id].words,
            )
        most = min(protection.inflow(run, run.start), protection.inflow(run, run.end))
        most = most or max(protection.inflow(run, n) for n in (run.start, run.end))
        if most > limit * ABOVE:
            yield Finding(
                code="contact-fuse-above-rating",
                about=run.id,
                value=most if most < float("inf") else None,
                limit=limit,
                unit="A",
                source=(Source.CONTACT_SHEET,),
            )


def check_batteries(tree: Tree) -> Iterator[Finding]:
    """Findings on batteries nothing charges, on some no isolator keeps apart, on idle converters.

    Args:
        tree: the supply

    Returns:
        the findings

    Valid: a diode and a switch count as keeping apart; a charge relay is open, engine off
    Source: common practice, no source
    """
    batteries = [s for s in tree.sources if s.is_battery]
    if len(batteries) > 1:
        for battery in batteries:
            reached = tree.reach(battery.node)
            alone = not any(
                s.node in reached and s is not battery and s.kind != "capacitor"
                for s in tree.sources
            )
            if alone and battery.starting_current is None:
                yield Finding(
                    code="battery-never-charged",
                    about=battery.id,
                    source=(Source.COMMON_PRACTICE,),
                )
    parked = in_state(tree, State(condition=Condition.ENGINE_OFF))
    cables = Tree(
        nodes=tree.nodes, sources=(), runs=tuple(r for r in parked.runs if r.contact is None)
    )
    for starter in (s for s in batteries if s.starting_current is not None):
        reached = cables.reach(starter.node)
        for battery in batteries:
            if battery.starting_current is None and battery.node in reached:
                yield Finding(
                    code="no-isolator",
                    about=battery.id,
                    detail=(starter.id,),
                    source=(Source.COMMON_PRACTICE,),
                )
    yield from _commanded(tree, batteries)
    places = {load.id: load.node for load in tree.loads}
    for source in tree.sources:
        if source.input_load and places[source.input_load] in tree.reach(source.node):
            yield Finding(
                code="converter-feeds-itself", about=source.id, source=(Source.KIRCHHOFF,)
            )


def _commanded(tree: Tree, batteries: list[Feeding]) -> Iterator[Finding]:
    """Batteries that get their charge from an alternator whose voltage the car lets fall."""
    for battery in batteries:
        reached = tree.reach(battery.node)
        commanded = [s.id for s in tree.sources if s.commanded and s.node in reached]
        regulated = any(s.kind == "dc-dc" and s.node in reached for s in tree.sources)
        if battery.starting_current is None and commanded and not regulated:
            yield Finding(
                code="commanded-charge-falls",
                about=battery.id,
                detail=(commanded[0],),
                source=(Source.COMMANDED_CHARGING,),
            )
