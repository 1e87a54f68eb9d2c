"""A band-pass of the sixth order for a band: both chambers and both tunings from its two edges."""

import math
from dataclasses import dataclass
from typing import cast

import numpy as np
from numpy.typing import NDArray

from acoustics.air.air import STANDARD, Air
from acoustics.circuit.solver import HALF_POWER, sweep
from acoustics.driver.driver import Driver
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import Vented
from acoustics.errors import NoSolutionError, OutOfRangeError, Quantity
from acoustics.names import Name
from acoustics.values import Floats, require_positive

# Chambers looked at, over Vas; the front's tuning, over the upper edge.
VOLUMES = (0.02, 20.0)
_FRONT_TUNINGS = (0.4, 1.6)
_REARS, _TUNINGS, _FRONTS, _FRONT_STEPS = 22, 9, 9, 10  # of the first look
_LOOKS, _AGAIN, _CLOSER = 7, 5, 1.7  # and of each closer one
_PLACES = 5  # looked at closer
_AS_EVEN = 0.02  # of a decibel too much, which no build holds
_WEIGHT = 30.0  # of a decibel of unevenness too much, against litres in ln V
_STEPS, _HAIR, _LONGEST, _FLAT = 12, 1e-4, 0.3, 1e-9  # Newton's
_NEAR = 5e-4  # of an edge
_POINTS, _BEYOND = 120, 4.0  # frequencies looked at, and how far outside the band they reach
_INSIDE = 40  # and of them inside it, where evenness is looked at


def vented_band_pass_for_band(
    driver: Driver,
    low: float,
    high: float,
    *,
    area: float,
    rear_area: float,
    ql: float = math.inf,
    ripple: float = 0.5,
    series_resistance: float = 0.0,
    air: Air = STANDARD,
) -> BandPass:
    """Smallest band-pass, vented on both sides, whose band ends at two frequencies.

    Four figures and two edges leave a choice: of the boxes whose level is as even as is accepted
    over the inner two thirds of the band, counted in octaves, the one with the fewest litres; a
    fiftieth of a decibel more counts as even. A rear port that is tuned far below its band, where
    it is of no use, leaves none as even.

    Args:
        driver: driver between the chambers
        low: lower edge of the band, 3 dB down [Hz]
        high: upper edge of the band, 3 dB down [Hz]
        area: area of the front port [m²]
        rear_area: area of the rear port [m²]
        ql: Q of leakage of each chamber [-]
        ripple: unevenness inside the band that is accepted [dB]
        series_resistance: resistance of cable and source [Ω]
        air: air in the box

    Returns: the band-pass, of those looked at the one with the fewest litres

    Raises:
        OutOfRangeError: a value is not positive, or the upper edge is not above the lower.
        NoSolutionError: no such chambers bring the edges there, or every one is less even;
            the evenest is named.

    Valid: chambers from Vas/50 to 20 Vas, the rear one tuned from half the lower edge to the
        middle of the band; voice-coil inductance counts.

    Source: the solver; the choice: common practice, no source.
    """
    require_positive(Name.FREQUENCY, low, "Hz")
    require_positive(Name.RIPPLE, ripple, "dB")
    if high <= low:
        raise OutOfRangeError(Name.BAND, high, "Hz", above=low)
    search = _Search(
        driver=driver, low=low, high=high, areas=(rear_area, area), ql=ql,
        series_resistance=series_resistance, air=air,
    )  # fmt: skip
    best, least = search.smallest(ripple)
    value, limit = Quantity(low, "Hz"), Quantity(high, "Hz")
    if not math.isfinite(least):
        raise NoSolutionError(code="sixth-band-out-of-reach", value=value, limit=limit)
    if best is None:
        value, limit = Quantity(ripple, "dB"), Quantity(least, "dB")
        raise NoSolutionError(code="band-uneven", value=value, limit=limit)
    return search.box(best)


@dataclass(frozen=True, kw_only=True)
class _Search:
    """Boxes as rows of ln Vr, ln fr, ln Vf, ln ff; the last two are solved from the edges."""

    driver: Driver
    low: float
    high: float
    areas: tuple[float, float]
    ql: float
    series_resistance: float
    air: Air

    def box(self, rows: Floats) -> BandPass:
        volumes, tunings = np.exp(rows[..., 0::2]), np.exp(rows[..., 1::2])
        rear, front = (
            Vented.tuned(
                volume=_plain(volumes[..., side]),
                frequency=_plain(tunings[..., side]),
                area=self.areas[side],
                ql=self.ql,
                air=self.air,
            )
            for side in (0, 1)
        )
        return BandPass(rear=rear, front=front)

    def levels(self, rows: Floats, frequencies: Floats) -> Floats:
        """Level of each box over frequency."""
        solved = sweep(
            driver=self.driver, box=self.box(rows), frequencies=frequencies,
            series_resistance=self.series_resistance, air=self.air,
        )  # fmt: skip
        return solved.spl

    def missed(self, rows: Floats) -> Floats:
        """How far each box's edges lie from those wanted, in ln f; nan where it has none."""
        f = np.geomspace(self.low / _BEYOND, self.high * _BEYOND, _POINTS)
        edges = np.stack(_edges(np.log(f), self.levels(rows, f)), axis=-1)
        return edges - np.log([self.low, self.high])

    def uneven(self, rows: Floats) -> Floats:
        """How far the level of each box lies apart over the inner two thirds of the band."""
        in_from = math.exp(self._margin)
        f = np.geomspace(self.low * in_from, self.high / in_from, _INSIDE)
        spl = self.levels(rows, f)
        return cast(Floats, spl.max(axis=-1) - spl.min(axis=-1))

    def smallest(self, ripple: float) -> tuple[Floats | None, float]:
        """Even box with the fewest litres, and how even the evenest with such edges is."""
        rows = kept = self._brought(self._first_look())
        if not len(rows):
            return None, math.inf
        tunings = self._tunings()
        wide = np.array([math.log(VOLUMES[1] / VOLUMES[0]) / (_REARS - 1), tunings[1] - tunings[0]])
        least = math.inf
        for look in range(_LOOKS + 1):
            uneven, litres = self.uneven(rows), np.exp(rows[:, 0]) + np.exp(rows[:, 2])
            least = min(least, float(uneven.min()))
            merit = np.log(litres) + _WEIGHT * np.maximum(uneven - ripple, 0.0)
            kept = rows[np.argsort(merit)[:_PLACES]]
            if look == _LOOKS:
                break
            rows = np.concatenate([kept, self._brought(self._around(kept, wide / _CLOSER**look))])
        # Edges a thousandth elsewhere are worth far more: who refuses on less refuses a real box.
        even = np.where(uneven <= ripple + _AS_EVEN, litres, np.inf)
        return (rows[int(even.argmin())] if np.isfinite(even).any() else None), least

    @property
    def _margin(self) -> float:
        return math.log(self.high / self.low) / 6

    def _tunings(self) -> Floats:
        """Tunings of the rear chamber that are looked at, in ln f."""
        middle = math.log(self.low * self.high) / 2
        return np.linspace(math.log(self.low / 2.0), middle, _TUNINGS)

    def _first_look(self) -> Floats:
        """For each rear chamber, the front ones that come nearer to the edges than their like."""
        small, large = (math.log(end * self._vas) for end in VOLUMES)
        fronts = np.log(np.array(_FRONT_TUNINGS) * self.high)
        axes = (
            np.linspace(small, large, _REARS),
            self._tunings(),
            np.linspace(small, large, _FRONTS),
            np.linspace(fronts[0], fronts[1], _FRONT_STEPS),
        )
        grid = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1)
        off = np.linalg.norm(self.missed(grid.reshape(-1, 4)), axis=-1).reshape(grid.shape[:-1])
        off = np.where(np.isfinite(off), off, np.inf)
        nearest = off.min(axis=-1)
        padded = np.pad(nearest, ((0, 0), (0, 0), (1, 1)), constant_values=np.inf)
        start = np.isfinite(nearest) & (nearest <= padded[..., :-2]) & (nearest <= padded[..., 2:])
        return cast(Floats, grid[(*np.nonzero(start), off.argmin(axis=-1)[start])])

    def _around(self, centres: Floats, wide: Floats) -> Floats:
        """Rear chambers around each of some boxes, with its front as the start."""
        side = np.linspace(-1, 1, _AGAIN)
        steps = np.stack(np.meshgrid(wide[0] * side, wide[1] * side), axis=-1).reshape(-1, 2)
        rows = np.repeat(centres, len(steps), axis=0)
        rows[:, :2] += np.tile(steps, (len(centres), 1))
        tunings = self._tunings()
        small, large = (math.log(end * self._vas) for end in VOLUMES)
        rows[:, 0] = np.clip(rows[:, 0], small, large)
        rows[:, 1] = np.clip(rows[:, 1], tunings[0], tunings[-1])
        return rows

    def _brought(self, rows: Floats) -> Floats:
        """Those whose front can be moved until both edges lie where they should."""
        steps = _HAIR * np.eye(4)[2:]
        for _ in range(_STEPS):
            every = np.stack([rows, *(rows + step for step in steps)])
            off, *moved = self.missed(every.reshape(-1, 4)).reshape(3, -1, 2)
            slope = np.stack([(m - off) / _HAIR for m in moved], axis=-1)
            flat = ~np.isfinite(slope).all(axis=(1, 2))
            slope[flat] = 0.0
            clear = np.asarray(np.abs(np.linalg.det(slope)) > _FLAT)
            rows = rows[clear].copy()
            if not len(rows):
                return rows
            change = np.linalg.solve(slope[clear], off[clear][..., None])[..., 0]
            rows[:, 2:] -= np.clip(change, -_LONGEST, _LONGEST)
        near = np.abs(self.missed(rows)).max(axis=-1) < _NEAR
        small, large = (math.log(end * self._vas) for end in VOLUMES)
        return cast(Floats, rows[near & (rows[:, 2] >= small) & (rows[:, 2] <= large)])

    @property
    def _vas(self) -> float:
        return float(self.driver.cms * self.driver.sd**2 * self.air.bulk_modulus)


def _plain(values: Floats) -> float | Floats:
    return values if values.ndim else float(values)


def _edges(log_f: Floats, spl: Floats) -> tuple[Floats, Floats]:
    """Where each level first falls by half the power going out from its top, in ln f."""
    wanted = spl.max(axis=-1, keepdims=True) - HALF_POWER
    index, top = np.arange(spl.shape[-1]), spl.argmax(axis=-1)[..., None]

    def crossing(below: NDArray[np.bool_], outer: NDArray[np.int64], way: int) -> Floats:
        inner = np.clip(outer + way, 0, len(log_f) - 1)
        under = np.take_along_axis(spl, outer[..., None], -1)[..., 0]
        over = np.take_along_axis(spl, inner[..., None], -1)[..., 0]
        share = (wanted[..., 0] - under) / np.where(over > under, over - under, 1.0)
        at = log_f[outer] + share * (log_f[inner] - log_f[outer])
        return np.where(below.any(axis=-1), at, np.nan)

    lower, upper = ((spl < wanted) & side for side in (index < top, index > top))
    return (
        crossing(lower, len(log_f) - 1 - lower[..., ::-1].argmax(axis=-1), 1),
        crossing(upper, upper.argmax(axis=-1), -1),
    )
