"""What feeds an amplifier: a voltage behind resistances, and how one-way sources change it.

API: `Feed`, `Bound`, `LimitedFeed`, `AnyFeed`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from wiring.errors import require_not_negative, require_positive
from wiring.names import Name

CLOSE = 1e-6  # V
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Bound:
    """What has to hold at a source for a feed to be the way it is.

    low ≤ E − per_load·I − per_bank·K ≤ high, with I into the amplifier and K into the bank

    Attributes:
        open_voltage: voltage at the source with neither current [V]
        per_load: what the amplifier's current takes from it [Ω]
        per_bank: what the bank's current takes from it [Ω]
        low: least voltage there [V]
        high: highest voltage there [V]

    Source: superposition
    """

    open_voltage: float
    per_load: float
    per_bank: float
    low: float
    high: float

    def holds(self, load: Floats, bank: Floats) -> npt.NDArray[np.bool_]:
        """Whether it holds, within a microvolt.

        Args:
            load: current into the amplifier [A]
            bank: current into the bank [A]

        Returns: true where it holds
        """
        there = self.open_voltage - self.per_load * load - self.per_bank * bank
        fits: npt.NDArray[np.bool_] = (there >= self.low - CLOSE) & (there <= self.high + CLOSE)
        return fits


@dataclass(frozen=True, kw_only=True)
class Feed:
    """The way from the battery to the amplifier, cut at the place of the capacitor bank.

    Attributes:
        open_voltage: voltage of the battery or charging source without load [V]
        source_resistance: battery, fuses, cable out and return up to the bank [Ω]
        tail_resistance: cable out and return between bank and amplifier [Ω]
        bank_open_voltage: the same at the bank, None where nothing is between the two [V]
        lead: the bank's own way to where it joins [Ω]
        bounds: what has to hold for this feed to be the one

    Raises:
        OutOfRangeError: if the voltage or the source resistance is not above 0, or another
            resistance is negative.
    """

    open_voltage: float
    source_resistance: float
    tail_resistance: float
    bank_open_voltage: float | None = None
    lead: float = 0.0
    bounds: tuple[Bound, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a feed that cannot exist: no real source has zero resistance."""
        require_positive(name=Name.OPEN_VOLTAGE, value=self.open_voltage, unit="V")
        require_positive(name=Name.SOURCE_RESISTANCE, value=self.source_resistance, unit="Ω")
        require_not_negative(name=Name.TAIL_RESISTANCE, value=self.tail_resistance, unit="Ω")
        require_not_negative(name=Name.TAIL_RESISTANCE, value=self.lead, unit="Ω")

    @property
    def at_bank(self) -> float:
        """Voltage at the bank's place without its current and the amplifier's.

        Returns: voltage [V]
        """
        return self.open_voltage if self.bank_open_voltage is None else self.bank_open_voltage

    @property
    def feeds(self) -> tuple[Feed, ...]:
        """Itself: the only way it can be.

        Returns: this feed
        """
        return (self,)

    @property
    def most_power(self) -> float:
        """Greatest steady power that can reach the amplifier's terminals.

        P_max = E² / (4·(R_source + R_tail)), with half the open voltage at the amplifier.

        Returns: power [W]

        Source: maximum power transfer, definition.
        """
        return self.open_voltage**2 / (4.0 * (self.source_resistance + self.tail_resistance))

    def holds(self, load: Floats, bank: Floats) -> npt.NDArray[np.bool_]:
        """Whether every bound holds.

        Args:
            load: current into the amplifier [A]
            bank: current into the bank [A]

        Returns: true where this feed is the one
        """
        fits = np.ones(np.shape(load), dtype=bool)
        for bound in self.bounds:
            fits &= bound.holds(load, bank)
        return fits


@dataclass(frozen=True, kw_only=True)
class LimitedFeed:
    """A feed with one-way sources: one linear feed for each way in which they can be.

    Attributes:
        feeds: the ways, each with its bounds

    Source: piecewise-linear network
    """

    feeds: tuple[Feed, ...]

    @property
    def most_power(self) -> float:
        """Greatest steady power over the ways that are possible at it.

        Returns: power [W]

        Source: maximum power transfer, definition.
        """
        powers = [0.0]
        for feed in self.feeds:
            current = feed.open_voltage / (2 * (feed.source_resistance + feed.tail_resistance))
            if feed.holds(np.array([current]), np.zeros(1))[0]:
                powers.append(feed.most_power)
        # Where no way turns round within its bounds, the last that still gives decides.
        return max(powers) or max(feed.most_power for feed in self.feeds)


AnyFeed = Feed | LimitedFeed
