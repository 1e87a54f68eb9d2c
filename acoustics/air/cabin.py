"""What a car's cabin adds in the bass: an ideal upper bound, or a curve measured in the car."""

from dataclasses import dataclass

import numpy as np

from acoustics.errors import COUNT, OutOfRangeError
from acoustics.names import Name
from acoustics.values import Complexes, Floats, require_positive


@dataclass(frozen=True, kw_only=True)
class PressureZoneBound:
    """Upper bound of what a rigid, airtight cabin adds to the level in a half space.

    Attributes:
        volume: air volume of the cabin [m³]
        length: longest inside length of the cabin [m]
        distance: distance in a half space that the level is compared with [m]
        speed_of_sound: speed of sound [m/s]

    Raises:
        OutOfRangeError: a value is not above zero.

    Valid: a bound and never a prediction: leaks, glass and trim only take away from it, and above
        first_mode a cabin has peaks and dips that this smooth line does not know.
    """

    volume: float
    length: float
    distance: float = 1.0
    speed_of_sound: float = 343.2

    def __post_init__(self) -> None:
        """Refuse a cabin that cannot be."""
        require_positive(Name.CABIN_VOLUME, self.volume, "m³")
        require_positive(Name.CABIN_LENGTH, self.length, "m")
        require_positive(Name.DISTANCE, self.distance, "m")
        require_positive(Name.SPEED_OF_SOUND, self.speed_of_sound, "m/s")

    @property
    def joining_frequency(self) -> float:
        """Frequency below which the bound rises: fx = c sqrt(r/(2πV)).

        Returns: frequency [Hz]

        Source: as gain.
        """
        return self.speed_of_sound * float(np.sqrt(self.distance / (2.0 * np.pi * self.volume)))

    @property
    def first_mode(self) -> float:
        """First standing wave along the cabin, c/(2L); well below it the pressure is uniform.

        Returns: frequency [Hz]

        Source: P. M. Morse & K. U. Ingard, Theoretical Acoustics (1968), § 9.5.
        """
        return self.speed_of_sound / (2.0 * self.length)

    def gain(self, frequency: Floats) -> Floats:
        """Upper bound of the gain, 40 lg(fx/f) below fx and 0 dB above it.

        Uniform pressure ρc² ΔV/V over half-space pressure ρω² ΔV/(2πr); the two meet at fx.

        Args:
            frequency: frequency [Hz]

        Returns: gain over the half-space level at the distance [dB]

        Raises:
            OutOfRangeError: a frequency is not above zero.

        Valid: as the class; 12 dB per octave is the most a cabin without leaks can add.

        Source: ratio of two textbook pressures: L. L. Beranek, Acoustics (1954), ch. 4 and 5
            (simple source; compliance of a volume), from memory.
        """
        require_positive(Name.FREQUENCY, frequency, "Hz")
        rise = 40.0 * np.log10(self.joining_frequency / np.asarray(frequency, dtype=float))
        bound: Floats = np.maximum(rise, 0.0)
        return bound


@dataclass(frozen=True, kw_only=True)
class TransferCurve:
    """A transfer curve measured in one car: what arrives over what a half space would get.

    Attributes:
        frequency: frequency, rising [Hz]
        level: gain [dB]
        phase: phase, or None when it was not measured [°]

    Raises:
        OutOfRangeError: columns of unequal length, too short, not finite, or not rising.
    """

    frequency: Floats
    level: Floats
    phase: Floats | None = None

    def __post_init__(self) -> None:
        """Refuse columns that are no curve."""
        require_positive(Name.FREQUENCY, self.frequency, "Hz")
        others = [self.level] if self.phase is None else [self.level, self.phase]
        if len(self.frequency) < 2 or any(len(column) != len(self.frequency) for column in others):
            points = len(self.frequency)
            raise OutOfRangeError(Name.TRANSFER_CURVE, points, COUNT, to_be="two-equal-columns")
        if np.any(np.diff(self.frequency) <= 0.0) or not np.isfinite(others).all():
            raise OutOfRangeError(Name.TRANSFER_CURVE, None, to_be="rising")

    def gain(self, frequency: Floats) -> Floats:
        """Gain at other frequencies, straight lines between points over the logarithm.

        Args:
            frequency: wanted frequencies [Hz]

        Returns: gain [dB]

        Raises:
            OutOfRangeError: a frequency lies outside the measured range.
        """
        return self._between(frequency, self.level)

    def response(self, frequency: Floats) -> Complexes:
        """Complex gain at other frequencies; the phase is unwrapped before it is interpolated.

        Args:
            frequency: wanted frequencies [Hz]

        Returns: complex gain [-]

        Raises:
            OutOfRangeError: a frequency lies outside the measured range, or no phase was measured.
        """
        if self.phase is None:
            raise OutOfRangeError(Name.TRANSFER_PHASE, None, to_be="measured")
        angle = self._between(frequency, np.unwrap(np.deg2rad(self.phase)))
        response: Complexes = 10.0 ** (self.gain(frequency) / 20.0) * np.exp(1j * angle)
        return response

    def _between(self, frequency: Floats, column: Floats) -> Floats:
        """Interpolate one column; outside the measured range there is no answer."""
        wanted = np.asarray(frequency, dtype=float)
        low, high = float(self.frequency[0]), float(self.frequency[-1])
        inside = (wanted >= low) & (wanted <= high)
        if not np.all(inside):
            outside = float(wanted[~inside].flat[0])
            raise OutOfRangeError(Name.TRANSFER_FREQUENCY, outside, "Hz", between=(low, high))
        between: Floats = np.interp(np.log(wanted), np.log(self.frequency), column)
        return between
