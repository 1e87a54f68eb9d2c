"""One driver: its Thiele-Small parameters and what follows from them."""

import math
from dataclasses import dataclass, fields
from functools import cached_property
from typing import cast

import numpy as np

from acoustics.air.air import STANDARD, Air
from acoustics.errors import ContradictionError, Quantity
from acoustics.names import Name
from acoustics.values import Real, require_between, require_positive

REFERENCE_PRESSURE = 20e-6
_UNITS = {
    "fs": "Hz",
    "qms": "-",
    "qes": "-",
    "re": "Ω",
    "vas": "m³",
    "sd": "m²",
    "xmax": "m",
    "xmech": "m",
    "power_rating": "W",
}


@dataclass(frozen=True, kw_only=True)
class Driver:
    """A moving-coil driver by its small-signal parameters, for a stiff flat-moving diaphragm.

    The voice coil is Re + s Le + K sqrt(s). The mechanical side follows from the parameters and
    the air they were measured in, so it stays the same when a box is reckoned in other air.

    Attributes:
        fs: resonance in free air [Hz]
        qms: mechanical Q at fs [-]
        qes: electrical Q at fs, from a source without resistance [-]
        re: voice-coil resistance at direct current [Ω]
        vas: equivalent volume of the suspension [m³]
        sd: effective diaphragm area [m²]
        le: voice-coil inductance [H]
        semi_inductance: semi-inductance K of the lossy voice coil [Ω·√s]
        xmax: linear excursion, one way, peak; None when unknown [m]
        xmech: excursion at which something strikes, one way, peak; None when unknown [m]
        power_rating: continuous power the voice coil bears; None when unknown [W]
        air: air in which the parameters were stated

    Raises:
        OutOfRangeError: a value is not positive.
        ContradictionError: xmech lies below xmax.

    Valid: piston range, ka < 1; levels small enough for constant parameters.

    Source: R. H. Small, "Direct-Radiator Loudspeaker System Analysis", JAES 20 (1972) 383-395;
        semi-inductance: J. Vanderkooy, "A model of loudspeaker driver impedance incorporating eddy
        currents in the pole structure", JAES 37 (1989) 119-128 (from memory).
    """

    fs: Real
    qms: Real
    qes: Real
    re: Real
    vas: Real
    sd: Real
    le: Real = 0.0
    semi_inductance: Real = 0.0
    xmax: Real | None = None
    xmech: Real | None = None
    power_rating: Real | None = None
    air: Air = STANDARD

    def __post_init__(self) -> None:
        """Refuse a driver that cannot be."""
        for field in fields(self):
            value = getattr(self, field.name)
            if field.name in _UNITS and value is not None:
                require_positive(Name(field.name), value, _UNITS[field.name])
        require_between(Name.LE, self.le, 0.0, math.inf, "H")
        require_between(Name.SEMI_INDUCTANCE, self.semi_inductance, 0.0, math.inf, "Ω·√s")
        if self.xmax is not None and self.xmech is not None and np.any(self.xmech < self.xmax):
            short = np.argmax(np.ravel(self.xmech < self.xmax))
            mech, least = (np.ravel(x)[short] for x in np.broadcast_arrays(self.xmech, self.xmax))
            raise ContradictionError(
                code="contradicts-at-least",
                name=Name.XMECH,
                value=Quantity(float(mech), "m"),
                limit=Quantity(float(least), "m"),
            )

    @cached_property
    def ws(self) -> Real:
        """Angular resonance frequency: 2 pi fs.

        Returns: angular frequency [rad/s]
        """
        return 2 * math.pi * self.fs

    @cached_property
    def qts(self) -> Real:
        """Total Q at fs: Qms Qes / (Qms + Qes).

        Returns: total Q [-]

        Source: Small 1972, JAES 20, 383-395.
        """
        return self.qms * self.qes / (self.qms + self.qes)

    @cached_property
    def cms(self) -> Real:
        """Suspension compliance: Vas / (rho c² Sd²).

        Returns: compliance [m/N]

        Source: Small 1972, JAES 20, 383-395.
        """
        return self.vas / (self.air.bulk_modulus * self.sd**2)

    @cached_property
    def mms(self) -> Real:
        """Moving mass with its air load: 1 / (ws² Cms).

        Returns: mass [kg]

        Source: Small 1972, JAES 20, 383-395.
        """
        return 1 / (self.ws**2 * self.cms)

    @cached_property
    def rms(self) -> Real:
        """Mechanical resistance: ws Mms / Qms.

        Returns: mechanical resistance [kg/s]

        Source: Small 1972, JAES 20, 383-395.
        """
        return self.ws * self.mms / self.qms

    @cached_property
    def bl(self) -> Real:
        """Force factor: sqrt(ws Mms Re / Qes).

        Returns: force factor [T·m]

        Source: Small 1972, JAES 20, 383-395.
        """
        return cast(Real, (self.ws * self.mms * self.re / self.qes) ** 0.5)

    @property
    def efficiency(self) -> Real:
        """Reference efficiency into a half space: (4 pi² / c³) fs³ Vas / Qes.

        Returns: efficiency eta0 [-]

        Source: Small 1972, JAES 20, 383-395.
        """
        c = self.air.speed_of_sound
        return 4 * math.pi**2 / c**3 * self.fs**3 * self.vas / self.qes

    def reference_level(
        self,
        *,
        voltage: Real = 2.83,
        series_resistance: Real = 0.0,
        distance: Real = 1.0,
        air: Air | None = None,
    ) -> Real:
        """Level of the flat passband, where mass alone controls the diaphragm.

        p = rho Sd Bl V / (2 pi r (Re + Rg) Mms).

        Args:
            voltage: source voltage, rms [V]
            series_resistance: resistance Rg between source and coil [Ω]
            distance: distance in a half space [m]
            air: air it plays in; that of the parameters unless given

        Returns: sound pressure level [dB re 20 µPa]

        Valid: no voice-coil inductance, ka < 1.

        Source: Small 1972, JAES 20, 383-395.
        """
        density = (air or self.air).density
        force = self.bl * voltage / (self.re + series_resistance)
        pressure = density * self.sd * force / (2 * math.pi * distance * self.mms)
        return cast(Real, 20 * np.log10(pressure / REFERENCE_PRESSURE))
