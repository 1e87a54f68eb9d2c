"""The states of the car as people call them, and what the car itself adds to the power tree."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from jobs.design.records.findings import Term
from jobs.design.records.records import JobRecords
from jobs.design.wording.states import STATES
from jobs.models import PowerNode, Vehicle
from wiring.network.parts import Source, blocks_of_12
from wiring.network.states import State
from wiring.protection.voltages import SET_VOLTAGE

# The car's own charging, where nobody has drawn an alternator.
CHARGING = "charging"
CHARGING_NAME = _("the car's charging")
# V for each 12 V, the most a commanded regulator gives on the overrun; common practice, no source.
COMMANDED = 15.2
MOST = 60.0  # V, overvoltage limit of a 48 V network; ISO 21780, from memory
STIFF = 0.002  # Ω behind the regulator; common practice, no source
UNREAD = 1000.0  # A where nobody has read the plate: as much as the cables let through
# What nobody has read counts as the least that is printed: less given is more from the batteries.
# One engine maker's manual: 16 A of 48 A hot at idle, 16 A hot of 24 A cold.
IDLE_SHARE = 1 / 3
HOT_SHARE = 2 / 3
LEAST = 0.1  # A, where the car itself takes all that is given, or nobody knows what it takes
STARTER = 500.0  # A, the most of 150 to 500; common practice, no source


@dataclass(frozen=True)
class StateSaid(Term):
    """A state of the car in the reader's language, with the name of the source it is about."""

    name: str = ""

    def __str__(self) -> str:
        return str(STATES[" ".join(self.words)]) % {"source": self.name}


def said(words: tuple[str, ...], names: Mapping[str, str]) -> StateSaid | None:
    """Return what to say of a finding's state."""
    if not words:
        return None
    *plain, last = words
    if last in names:
        return StateSaid(tuple(plain), names[last])
    return StateSaid(words)


def state_said(state: State, names: Mapping[str, str]) -> StateSaid:
    """Return what to say of a state."""
    spoken = said(state.words, names)
    assert spoken is not None
    return spoken


def starting_current(node: PowerNode) -> float | None:
    """What the starter takes: entered, or the most that is usual for what has a cranking figure."""
    if node.starting_current is not None:
        return node.starting_current
    return STARTER if node.cca else None


def charging(records: JobRecords, node_id: Mapping[int, str]) -> Source | None:
    """The car's own charging at the battery that starts it; None where an alternator is drawn."""
    vehicle = records.job.vehicle
    if any(node.kind == PowerNode.Kind.ALTERNATOR for node in records.nodes):
        return None
    starters = [n for n in records.nodes if n.kind == PowerNode.Kind.BATTERY and n.cca]
    if not vehicle.charging_source or not starters:
        return None
    battery = starters[0]
    return Source(
        id=CHARGING,
        node=node_id[battery.pk],
        kind="alternator",
        emf=min(set_voltage(vehicle) * blocks_of_12(battery.voltage or 12.0), MOST),
        resistance=STIFF,
        current_limit=vehicle.charging_current or UNREAD,
        idle_limit=idle_limit(vehicle, vehicle.charging_current),
        commanded=is_commanded(vehicle),
    )


def idle_limit(vehicle: Vehicle, rated: float | None) -> float | None:
    """What the alternator leaves us hot at idle, at the least; None without an alternator."""
    if vehicle.charging_source != Vehicle.Charging.ALTERNATOR:
        return None
    at_idle = vehicle.charging_current_idle
    if vehicle.vehicle_current is None or (at_idle is None and rated is None):
        return LEAST
    hot = vehicle.charging_hot_share or HOT_SHARE
    given = at_idle * hot if at_idle is not None else (rated or 0.0) * IDLE_SHARE
    return max(given - vehicle.vehicle_current, LEAST)


def is_commanded(vehicle: Vehicle) -> bool:
    """Whether the car may let its charging fall until the alternator gives nothing."""
    alternator = vehicle.charging_source == Vehicle.Charging.ALTERNATOR
    return alternator and bool(vehicle.smart_charging)


def set_voltage(vehicle: Vehicle) -> float:
    """The highest the car charges at, for each 12 V; a commanded voltage goes higher."""
    return COMMANDED if vehicle.smart_charging else SET_VOLTAGE
