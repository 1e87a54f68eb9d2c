"""What is said of one kind of quantity."""

from dataclasses import dataclass

from django.utils.functional import Promise


@dataclass(frozen=True, kw_only=True)
class Kind:
    """One kind of quantity: what it is called, what may be typed, and how it is shown.

    `metric` and `imperial` list (unit, decimals); the first is what a plain number means, the
    others take over where they read better. Without `imperial` the trade writes metric
    everywhere. `lowest` and `largest` are SI: wide enough for anything a car can hold, narrow
    enough to catch a slipped decimal mark or the wrong unit.
    """

    label: str | Promise
    example: str
    si: str
    metric: tuple[tuple[str, int], ...]
    imperial: tuple[tuple[str, int], ...] = ()
    also: tuple[str, ...] = ()
    lowest: float = 0.0
    largest: float

    def shown(self, system: str) -> tuple[tuple[str, int], ...]:
        """Return the units this kind is shown in, the plain one first."""
        return self.imperial if system == "imperial" and self.imperial else self.metric

    @property
    def units(self) -> tuple[str, ...]:
        """Every unit that may be typed for this kind, the shown ones first."""
        shown = (unit for unit, _decimals in (*self.metric, *self.imperial))
        return tuple(dict.fromkeys((*shown, *self.also)))
