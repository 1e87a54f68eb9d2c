"""The kinds of enclosure in one table: what is behind the driver, and what may be asked of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum

from jobs.models.box.box import Box


class Behind(Enum):
    """What the rear of the driver plays into; it decides the acoustic load and its figures."""

    OPEN = "nothing that holds it"
    CLOSED = "a closed chamber"
    PORT = "a chamber with a port"
    CONE = "a chamber with a passive radiator"
    DOOR = "a door that leaks, with a factory hole"


# What may be asked for: a figure by its name, or a shape of the response by its order.
SECOND_ORDER, FOURTH_ORDER = "a shape of the second order", "a shape of the fourth order"


@dataclass(frozen=True, kw_only=True)
class BoxKind:
    """One kind of enclosure."""

    behind: Behind
    # The front of the driver plays into a second chamber, and that one through the port.
    front_chamber: bool = False
    # Targets with one answer.
    targets: frozenset[str] = frozenset()
    # Whether it is looked for in a cavity.
    fitted: bool = False

    @property
    def port(self) -> bool:
        """Whether it has a port."""
        return self.front_chamber or self.behind is Behind.PORT

    @property
    def rear_tuning(self) -> bool:
        """Whether its port tunes the litres the wood leaves."""
        return self.behind is Behind.PORT and not self.front_chamber

    @property
    def radiator(self) -> bool:
        """Whether passive radiators sit in its wood."""
        return self.behind is Behind.CONE

    @property
    def hole(self) -> bool:
        """Whether there is a factory hole beside the driver."""
        return self.behind is Behind.DOOR


BOX_KINDS: Mapping[str, BoxKind] = {
    Box.Kind.SEALED: BoxKind(
        behind=Behind.CLOSED,
        targets=frozenset({"qtc", "f3", "volume", "loudest", SECOND_ORDER}),
        fitted=True,
    ),
    Box.Kind.VENTED: BoxKind(
        behind=Behind.PORT,
        targets=frozenset({"f3", "volume", "loudest", SECOND_ORDER, FOURTH_ORDER}),
        fitted=True,
    ),
    Box.Kind.PASSIVE_RADIATOR: BoxKind(behind=Behind.CONE, targets=frozenset({"volume", "fb"})),
    Box.Kind.BAND_PASS_4: BoxKind(
        behind=Behind.CLOSED, front_chamber=True, targets=frozenset({"band"})
    ),
    Box.Kind.BAND_PASS_6: BoxKind(
        behind=Behind.PORT, front_chamber=True, targets=frozenset({"band"})
    ),
    Box.Kind.INFINITE_BAFFLE: BoxKind(behind=Behind.OPEN),
    Box.Kind.DOOR: BoxKind(behind=Behind.DOOR, targets=frozenset({"volume"})),
}


def kind_of(box: Box) -> BoxKind:
    """Return what kind of enclosure a record is."""
    return BOX_KINDS[box.kind]


def kinds_with(has: Callable[[BoxKind], bool]) -> tuple[str, ...]:
    """Name the kinds that have something."""
    return tuple(name for name, kind in BOX_KINDS.items() if has(kind))
