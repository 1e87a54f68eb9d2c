"""A bass note as each amplifier sees it: how far its supply sags, and what a capacitor buys."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from jobs.design.records.about import about
from jobs.design.wiring.power import PowerResult, engine_off
from jobs.models import PowerNode
from wiring.findings import Finding
from wiring.network.feed import AnyFeed
from wiring.network.thevenin import feed_of
from wiring.network.transient import BassNote, CapacitorBank, Sag, check_transient, sag
from wiring.supply.amplifier import Amplifier

# How long a bass note lasts at full output: common practice, no source.
NOTE_LENGTH = 0.25
# What is usually offered, leads and terminals included: common practice, no source.
COMMON_BANK = CapacitorBank(capacitance=1.0, series_resistance=0.002)
BEFORE = 0.05  # seconds drawn before the note
POINTS = 120
Floats = npt.NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Bass:
    """One amplifier on a note from its average level to full output."""

    node: PowerNode
    feed: AnyFeed
    note: BassNote
    bank: CapacitorBank | None
    bank_node: PowerNode | None
    least: float | None

    @cached_property
    def sag(self) -> Sag:
        """The voltage as the tree stands."""
        return sag(self.feed, self.note, self.bank)

    @cached_property
    def bare(self) -> Sag:
        """The voltage without the bank."""
        return self.sag if self.bank is None else sag(self.feed, self.note)

    @property
    def collapses(self) -> bool:
        """Whether the feed cannot give the note's power to its end."""
        return self.sag.collapse_time is not None

    @property
    def gain(self) -> float | None:
        """Volts the bank lifts the lowest voltage by; None without one or if the feed collapses."""
        if self.bank is None or self.collapses or self.bare.collapse_time is not None:
            return None
        return self.sag.lowest - self.bare.lowest

    @property
    def held(self) -> float | None:
        """Seconds the bank keeps the amplifier above its least voltage for longer."""
        if self.bank is None or self.least is None:
            return None
        return self.sag.held_time(self.least) - self.bare.held_time(self.least)

    @cached_property
    def common(self) -> Sag | None:
        """The voltage if a common bank stood at its terminals; None where there is a bank."""
        return None if self.bank else sag(self.feed, self.note, COMMON_BANK)

    @property
    def common_gain(self) -> float | None:
        """Volts the common bank would lift the lowest voltage by."""
        if self.common is None or self.collapses or self.common.collapse_time is not None:
            return None
        return self.common.lowest - self.sag.lowest

    def lines(self) -> dict[str, tuple[Floats, Floats]]:
        """Time [s] and voltage [V] from just before the note, by what feeds it."""
        if self.bank is not None:
            return {"bank": _line(self.sag), "bare": _line(self.bare)}
        assert self.common is not None
        return {"bare": _line(self.sag), "common": _line(self.common)}


def _line(sag_of_note: Sag) -> tuple[Floats, Floats]:
    """The voltage at rest, then over the note; close together where a bank gives its charge."""
    last = len(sag_of_note.time) - 1
    chosen = np.unique(np.round(np.linspace(0.0, 1.0, POINTS) ** 2 * last).astype(int))
    rest = [sag_of_note.rest_voltage] * 2
    return (
        np.concatenate([[-BEFORE, 0.0], sag_of_note.time[chosen]]),
        np.concatenate([rest, sag_of_note.voltage[chosen]]),
    )


def play_bass(
    node: PowerNode,
    amplifier: Amplifier,
    power: PowerResult,
    *,
    share: float,
    banks: Sequence[PowerNode],
    least: float | None,
) -> Bass:
    """Cut the tree down to what this amplifier sees; the nearest bank of its group counts."""
    music, full = power.music, power.engine_off
    assert power.tree is not None
    assert music is not None
    tree = engine_off(power.tree)
    load = next(load for load in tree.loads if load.id == about(node).id)
    reached = tree.reach(load.node)
    bank = next(
        (b for b in banks if about(b).id in reached and b.capacitance and b.internal_resistance),
        None,
    )
    source = next((s for s in tree.sources if bank and s.id == about(bank).id), None)
    loaded = full if full is not None and full.status == "solved" else music
    seen = feed_of(tree, load, loaded=loaded, resting=music, bank=source)
    fitted = None
    if bank and bank.capacitance and bank.internal_resistance:
        fitted = CapacitorBank(
            capacitance=bank.capacitance,
            series_resistance=bank.internal_resistance,
        )
    return Bass(
        node=node,
        feed=seen,
        note=BassNote(
            rest_power=float(amplifier.input_power(share)),
            power=float(amplifier.input_power(1.0)),
            duration=NOTE_LENGTH,
        ),
        bank=fitted,
        bank_node=bank,
        least=least,
    )


def check_bass(played: Bass) -> tuple[Finding, ...]:
    """What the calculator has to say of the note."""
    return check_transient(
        feed=played.feed,
        note=played.note,
        bank=played.bank,
        minimum_voltage=played.least,
        about=about(played.node).id,
    )
