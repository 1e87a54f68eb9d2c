"""A rule along one side of a chart: linear or logarithmic, numbered in steps of 1, 2 and 5."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from jobs.drawings.pencil.svg import DrawingError
from jobs.quantities.numbers import localized


def plain(value: float) -> str:
    """A tick value without a tail of zeros, with the reader's decimal mark."""
    return localized(f"{value:.6g}".replace("-", "\N{MINUS SIGN}"))


@dataclass(frozen=True, kw_only=True)
class Axis:
    """One axis: what it measures, its unit, its ends, and how its numbers are written."""

    label: str
    unit: str
    low: float
    high: float
    log: bool = False
    number_text: Callable[[float], str] = plain

    def __post_init__(self) -> None:
        if not (math.isfinite(self.low) and math.isfinite(self.high) and self.low < self.high):
            message = f"an axis needs low < high, got {self.low} to {self.high} {self.unit}"
            raise DrawingError(message)
        if self.log and self.low <= 0:
            message = f"a logarithmic axis starts above 0, got {self.low} {self.unit}"
            raise DrawingError(message)

    def along(self, values: Sequence[float], start: float, end: float) -> list[float]:
        """Where values lie when low stands at start and high at end."""
        if not self.log:
            scale = (end - start) / (self.high - self.low)
            return [start + (v - self.low) * scale for v in values]
        scale = (end - start) / math.log(self.high / self.low)
        base = math.log(self.low)
        try:
            return [start + (math.log(v) - base) * scale for v in values]
        except ValueError:
            message = f"a logarithmic axis cannot show {min(values)} {self.unit}"
            raise DrawingError(message) from None

    def data(self) -> str:
        """The axis for a script: kind, ends and unit."""
        return f"{'log' if self.log else 'lin'} {self.low:.6g} {self.high:.6g} {self.unit}"

    def title(self) -> str:
        """Label and unit as they stand beside the rule."""
        return f"{self.label}, {self.unit}" if self.unit else self.label

    def ticks(self, most: int = 8) -> tuple[list[float], list[float]]:
        """Values with a number (1-2-5 steps) and values with a short tick only."""
        return self._log_ticks() if self.log else self._even_ticks(most)

    def _log_ticks(self) -> tuple[list[float], list[float]]:
        powers = range(math.floor(math.log10(self.low)), math.ceil(math.log10(self.high)) + 1)
        everything = [m * 10.0**p for p in powers for m in range(1, 10)]
        shown = [v for v in everything if self.low * (1 - 1e-9) <= v <= self.high * (1 + 1e-9)]
        many = math.log10(self.high / self.low) > 4
        steps = (1,) if many else (1, 2, 5)
        named = [v for v in shown if round(v / 10.0 ** math.floor(math.log10(v) + 1e-9)) in steps]
        return named, [v for v in shown if v not in named]

    def _even_ticks(self, most: int) -> tuple[list[float], list[float]]:
        step = _step((self.high - self.low) / most)
        first = round(step / 10.0 ** math.floor(math.log10(step) + 1e-9))
        fine = step / (4 if first == 2 else 5)
        named = _multiples(step, self.low, self.high)
        close = _multiples(fine, self.low, self.high)
        return named, [v for v in close if all(abs(v - n) > fine / 2 for n in named)]


def axis_over(
    values: Sequence[float], *, label: str, unit: str, number_text: Callable[[float], str] = plain
) -> Axis:
    """A linear axis with round ends that holds all the values with a little air."""
    if not len(values):
        message = f"no values to lay an axis over ({label})"
        raise DrawingError(message)
    low, high = float(min(values)), float(max(values))
    air = (high - low) * 0.05 or max(abs(high) * 0.1, 1e-9)
    step = _step((high - low + 2 * air) / 6)
    bottom = 0.0 if 0 <= low < air * 4 else math.floor((low - air) / step) * step
    top = math.ceil((high + air) / step) * step
    return Axis(label=label, unit=unit, low=bottom, high=top, number_text=number_text)


def _step(rough: float) -> float:
    power = 10.0 ** math.floor(math.log10(rough))
    return next(m * power for m in (1, 2, 5, 10) if m * power >= rough * (1 - 1e-9))


def _multiples(step: float, low: float, high: float) -> list[float]:
    first, last = math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9)
    return [round(k * step, 12) for k in range(first, last + 1)]
