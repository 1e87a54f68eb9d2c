"""Amplifiers as the supply sees them: power drawn, current drawn and heat at any output."""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import numpy.typing as npt

from wiring.errors import OutOfRangeError, require_between, require_positive
from wiring.names import Name

Real = float | npt.NDArray[np.float64]

SINE_CREST = 10.0 * np.log10(2.0)  # crest factor of a sine, definition: 3.01 dB


class AmplifierClass(StrEnum):
    """Class of an output stage; it decides how the efficiency falls at part output.

    Attributes:
        AB: linear stage; its input power follows the square root of the output
        D: switching stage; its losses follow the output, on top of the idle loss
    """

    AB = "AB"
    D = "D"


def share_of_crest(crest: Real) -> Real:
    """Average output as a share of the rated sine power when the peaks just clip.

    p = 2 · 10^(−crest/10): a sine has a crest factor of 3.01 dB and gives 1.

    Args:
        crest: crest factor of the programme, peak over r.m.s. [dB]

    Returns: average output over rated output [-]

    Raises:
        OutOfRangeError: the crest factor is below that of a sine.

    Valid: programme that does not clip.

    Source: definition of the crest factor.
    """
    if not np.all(np.asarray(crest) >= SINE_CREST - 1e-9):
        raise OutOfRangeError(Name.CREST_FACTOR, float(np.min(crest)), "dB", at_least=SINE_CREST)
    share: Real = np.minimum(2.0 * 10.0 ** (-np.asarray(crest, dtype=float) / 10.0), 1.0)
    return float(share) if np.ndim(share) == 0 else share


def constant_power_current(*, output: Real, efficiency: Real, voltage: Real) -> Real:
    """Supply current of an amplifier with a regulated supply.

    I = P / (η·V); an unregulated supply draws less at low voltage, so this is the safe side.

    Args:
        output: audio output of all channels together [W]
        efficiency: output over input [-]
        voltage: supply voltage at the amplifier [V]

    Returns: supply current [A]

    Raises:
        OutOfRangeError: the output is negative, the efficiency is not within 0 to 1, or the
            voltage is not above 0.

    Source: definition of efficiency.
    """
    if not np.all(np.asarray(output) >= 0.0):
        raise OutOfRangeError(Name.AMPLIFIER_OUTPUT, float(np.min(output)), "W", at_least=0)
    _require_efficiency(efficiency)
    if not np.all(np.asarray(voltage) > 0.0):
        raise OutOfRangeError(Name.SUPPLY_VOLTAGE, float(np.min(voltage)), "V", above=0)
    current: Real = output / (efficiency * voltage)
    return current


@dataclass(frozen=True, kw_only=True)
class Amplifier:
    """A power amplifier as its supply sees it.

    Attributes:
        id: what it is known by; findings hand it back
        stage: class of the output stage
        rated_output: continuous output of all channels together [W]
        efficiency: rated output over the input it takes [-]
        idle_power: input without signal, None when the sheet does not say [W]

    Raises:
        OutOfRangeError: the output is not above 0, the efficiency is not within 0 to 1 (0 to
            π/4 for class AB), or the idle power is negative or above the heat
            at full output.
    """

    id: str
    stage: AmplifierClass
    rated_output: float
    efficiency: float
    idle_power: float | None = None

    def __post_init__(self) -> None:
        """Refuse an amplifier that cannot exist."""
        require_positive(name=Name.RATED_OUTPUT, value=self.rated_output, unit="W")
        _require_efficiency(self.efficiency)
        if self.stage is AmplifierClass.AB and self.efficiency > np.pi / 4.0:
            raise OutOfRangeError(Name.EFFICIENCY_CLASS_AB, self.efficiency, to_be="ideal-class-b")
        if self.idle_power is not None:
            heat = self.rated_output / self.efficiency - self.rated_output
            require_between(
                name=Name.IDLE_POWER, value=self.idle_power, low=0.0, high=heat, unit="W"
            )

    def input_power(self, share: Real) -> Real:
        """Power taken from the supply at part output.

        Class AB: P = P_idle + (P_full − P_idle)·√p. Class D: P = P_idle + (P_full − P_idle)·p.
        With an unknown idle power the class AB law with no idle power serves both: for class D
        it is an upper bound as long as the idle input stays below √p/(1 + √p) of the full input.

        Args:
            share: output over rated output [-]

        Returns: input power [W]

        Raises:
            OutOfRangeError: the share is not between 0 and 1.

        Valid: sine or programme below clipping, rated load.

        Source: class AB from the ideal class B stage scaled to the rated efficiency; class D from
            a fixed loss plus losses in proportion to the output: common practice, no source.
        """
        _require_share(share)
        full = self.rated_output / self.efficiency
        idle = 0.0 if self.idle_power is None else self.idle_power
        linear = self.stage is AmplifierClass.D and self.idle_power is not None
        power: Real = idle + (full - idle) * (share if linear else np.sqrt(share))
        return power

    def current(self, *, share: Real, voltage: Real) -> Real:
        """Supply current at part output, the amplifier taken as a constant power.

        I = P_in(p) / V.

        Args:
            share: output over rated output [-]
            voltage: supply voltage at the amplifier [V]

        Returns: supply current [A]

        Raises:
            OutOfRangeError: the share is not between 0 and 1, or the voltage is not above 0.
        """
        return constant_power_current(
            output=self.input_power(share), efficiency=1.0, voltage=voltage
        )

    def heat(self, share: Real) -> Real:
        """Power lost as heat inside the amplifier at part output.

        P_heat = P_in(p) − p·P_rated.

        Args:
            share: output over rated output [-]

        Returns: heat [W]

        Raises:
            OutOfRangeError: the share is not between 0 and 1.

        Source: conservation of energy.
        """
        heat: Real = self.input_power(share) - np.asarray(share) * self.rated_output
        return float(heat) if np.ndim(heat) == 0 else heat

    def worst_heat(self) -> tuple[float, float]:
        """Greatest heat over all outputs on a sine, and the share where it happens.

        Square-root law: the heat is greatest at √p = (P_full − P_idle) / (2·P_rated), for the
        ideal class B stage p = 4/π². Linear law: at full output.

        Returns: heat [W], share of the rated output [-]

        Source: derivative of the heat set to zero.
        """
        full = self.rated_output / self.efficiency
        if self.stage is AmplifierClass.D and self.idle_power is not None:
            share = 1.0
        else:
            idle = self.idle_power or 0.0
            share = min(1.0, ((full - idle) / (2.0 * self.rated_output)) ** 2)
        return float(self.heat(share)), share


def _require_share(share: Real) -> None:
    if not np.all((np.asarray(share) >= 0.0) & (np.asarray(share) <= 1.0)):
        raise OutOfRangeError(Name.OUTPUT_SHARE, _worst(share), to_be="share")


def _require_efficiency(efficiency: Real) -> None:
    if not np.all((np.asarray(efficiency) > 0.0) & (np.asarray(efficiency) <= 1.0)):
        raise OutOfRangeError(Name.EFFICIENCY, _worst(efficiency), to_be="share-above-zero")


def _worst(share: Real) -> float:
    """The share of several that lies furthest from the middle of 0 and 1."""
    shares = np.ravel(np.asarray(share, dtype=float))
    return float(shares[np.argmax(np.abs(shares - 0.5))])
