"""What a solved power tree says: the state of each run, source and load.

API: `Solution`, `RunState`, `PartState`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, kw_only=True)
class RunState:
    """What goes on in one run.

    Attributes:
        current: from start to end, negative when it flows back [A]
        drop: voltage lost out and back [V]
        loss: heat given off out and back [W]
        temperature: of the conductor [°C]
        resistance: out and back at that temperature [Ω]
    """

    current: float
    drop: float
    loss: float
    temperature: float
    resistance: float


@dataclass(frozen=True, kw_only=True)
class PartState:
    """What goes on at one source or load.

    Attributes:
        voltage: at its node [V]
        current: given by a source, drawn by a load [A]
        power: the same as power at the node [W]
    """

    voltage: float
    current: float
    power: float


@dataclass(frozen=True, kw_only=True)
class Solution:
    """A power tree solved, or why it is not.

    Attributes:
        status: "solved", "no-solution" or "unknown"
        case: key of tree.CASES
        voltages: node name to voltage, plus against local minus; only nodes a source feeds [V]
        runs: run label to its state; only runs a source feeds
        sources: source name to its state
        loads: load name to its state; only loads a source feeds
        wanted_power: constant power the loads ask for [W]
        most_power: constant power the tree can carry, loads scaled alike; if no-solution [W]
        unknown: labels of what lacks a number; only if unknown
    """

    status: str
    case: str
    voltages: Mapping[str, float] = field(default_factory=dict)
    runs: Mapping[str, RunState] = field(default_factory=dict)
    sources: Mapping[str, PartState] = field(default_factory=dict)
    loads: Mapping[str, PartState] = field(default_factory=dict)
    wanted_power: float = 0.0
    most_power: float | None = None
    unknown: tuple[str, ...] = ()
