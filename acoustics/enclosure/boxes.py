"""Every kind of box, as nothing but the acoustic load it presents to the diaphragm.

Sources: R. H. Small, "Closed-Box Loudspeaker Systems", JAES 20 (1972) 798-808; "Vented-Box
Loudspeaker Systems", JAES 21 (1973); "Passive-Radiator Loudspeaker Systems", JAES 22 (1974)
592-601 and 683-689. QL, QA and QP are ratios at w0, the resonance of the chamber named per kind.
"""

import math
from dataclasses import dataclass, replace
from typing import ClassVar, cast

from acoustics.air.air import STANDARD, Air
from acoustics.driver.driver import Driver
from acoustics.enclosure.loads import Box, Branch, Load, chamber_load, closed_resonance
from acoustics.enclosure.openings import Radiator, Vent
from acoustics.names import Name
from acoustics.values import Complexes, Real, column, require_between, require_positive

__all__ = [
    "Box",
    "Door",
    "InfiniteBaffle",
    "PassiveRadiatorBox",
    "Sealed",
    "Vented",
]

# An isothermal filling makes air softer by the ratio of its specific heats, and no more.
ISOTHERMAL = 1.4


@dataclass(frozen=True, kw_only=True)
class InfiniteBaffle:
    """A wall so large, or a space behind so vast, that the rear of the diaphragm is unloaded.

    Source: Small 1972, JAES 20, 383-395.
    """

    radiates_directly: ClassVar[bool] = True

    def load(self, s: Complexes, driver: Driver, air: Air) -> Load:
        """Acoustic load at complex frequencies: none.

        Args:
            s: complex frequency [rad/s]
            driver: driver in the baffle
            air: air around it

        Returns: the load, acoustic impedance in [Pa·s/m³]
        """
        return Load(numerator=0.0, denominator=1.0, output=1.0)


@dataclass(frozen=True, kw_only=True)
class Sealed:
    """A closed box: C = g V / (rho c²), losses at w0 = ws sqrt(1 + Cms Sd² / C).

    Attributes:
        volume: net volume [m³]
        ql: Q of leakage at the resonance of the driver in the box; infinite for none [-]
        qa: Q of absorption at the same resonance; infinite for none [-]
        fill: factor g by which filling enlarges the volume, 1 to 1.4 [-]

    Raises:
        OutOfRangeError: a value is not positive, or fill exceeds the isothermal limit.

    Valid: largest inner length below a tenth of the wavelength. Practice seldom sees fill above
        1.15 to 1.25 (common practice, no source).

    Source: Small, "Closed-Box Loudspeaker Systems", JAES 20 (1972) 798-808.
    """

    volume: Real
    ql: Real = math.inf
    qa: Real = math.inf
    fill: Real = 1.0
    radiates_directly: ClassVar[bool] = True

    def __post_init__(self) -> None:
        """Refuse a box that cannot be."""
        _require_chamber(self.volume, self.ql, self.qa)
        require_between(Name.FILL, self.fill, 1.0, ISOTHERMAL, "-")

    def resonance(self, driver: Driver, air: Air = STANDARD) -> Real:
        """Resonance of the driver in the box without losses: fc = fs sqrt(1 + alpha / g).

        Args:
            driver: driver in the box
            air: air in the box

        Returns: frequency fc [Hz]

        Source: Small, JAES 20 (1972) 798-808.
        """
        return closed_resonance(driver, self.fill * self.volume, air)

    def load(self, s: Complexes, driver: Driver, air: Air) -> Load:
        """Acoustic load at complex frequencies.

        Args:
            s: complex frequency [rad/s]
            driver: driver in the box
            air: air in the box

        Returns: the load, acoustic impedance in [Pa·s/m³]

        Source: Small, JAES 20 (1972) 798-808.
        """
        compliance = self.fill * self.volume / air.bulk_modulus
        return chamber_load(s, compliance, self.resonance(driver, air), self.ql, self.qa)


@dataclass(frozen=True, kw_only=True)
class Vented:
    """A box with a port: w0 = 1 / sqrt(M C), M = rho Leff / S.

    Attributes:
        volume: net volume [m³]
        vent: the port or equal ports
        second: a port unlike the first, open beside it
        ql: Q of leakage at the box resonance; infinite for none [-]
        qa: Q of absorption at the box resonance; infinite for none [-]
        qp: Q of each port at the box resonance; infinite for none [-]

    Raises:
        OutOfRangeError: a value is not positive.

    Valid: largest inner length and the port below a tenth of the wavelength; port air slow
        enough to stay without turbulence.

    Source: Small, "Vented-Box Loudspeaker Systems, Part I", JAES 21 (1973) 363-372.
    """

    volume: Real
    vent: Vent
    second: Vent | None = None
    ql: Real = math.inf
    qa: Real = math.inf
    qp: Real = math.inf
    radiates_directly: ClassVar[bool] = True

    def __post_init__(self) -> None:
        """Refuse a box that cannot be."""
        _require_chamber(self.volume, self.ql, self.qa)
        require_positive(Name.QP, self.qp, "-", infinite=True)

    @property
    def vents(self) -> tuple[Vent, ...]:
        """Every port unlike the others.

        Returns: one or two
        """
        return (self.vent,) if self.second is None else (self.vent, self.second)

    def lengthened(self, factor: Real) -> "Vented":
        """The same box with every port's moving air longer by a factor.

        Args:
            factor: effective length over the one it had [-]

        Returns: the box
        """
        first, *others = (
            replace(vent, effective_length=vent.effective_length * factor) for vent in self.vents
        )
        return replace(self, vent=first, second=others[0] if others else None)

    @classmethod
    def tuned(
        cls,
        *,
        volume: Real,
        frequency: Real,
        area: Real,
        ql: Real = math.inf,
        qa: Real = math.inf,
        qp: Real = math.inf,
        air: Air = STANDARD,
    ) -> "Vented":
        """Vented box from the resonance wanted: Leff = c² S / ((2 pi fb)² V).

        Args:
            volume: net volume [m³]
            frequency: box resonance fb [Hz]
            area: area of all ports together [m²]
            ql: Q of leakage at fb [-]
            qa: Q of absorption at fb [-]
            qp: Q of the port at fb [-]
            air: air in which it is tuned

        Returns: the box

        Raises:
            OutOfRangeError: a value is not positive.

        Source: Helmholtz resonance, e.g. Small, JAES 21 (1973) 363-372.
        """
        require_positive(Name.FB, frequency, "Hz")
        require_positive(Name.VOLUME, volume, "m³")
        length = air.speed_of_sound**2 * area / ((2 * math.pi * frequency) ** 2 * volume)
        vent = Vent(area=area, effective_length=length)
        return cls(volume=volume, vent=vent, ql=ql, qa=qa, qp=qp)

    def resonance(self, driver: Driver | None = None, air: Air = STANDARD) -> Real:
        """Resonance of box and ports: fb = (c / 2 pi) sqrt(sum(S / Leff) / V).

        Args:
            driver: not needed, for a like call on every kind
            air: air in the box

        Returns: frequency fb [Hz]

        Source: Helmholtz resonance, e.g. Small, JAES 21 (1973) 363-372; unlike ports: their
            masses lie in parallel.
        """
        open_to = sum(vent.area / vent.effective_length for vent in self.vents)
        root = (open_to / self.volume) ** 0.5
        return cast(Real, air.speed_of_sound / (2 * math.pi) * root)

    def load(self, s: Complexes, driver: Driver, air: Air) -> Load:
        """Acoustic load at complex frequencies.

        Args:
            s: complex frequency [rad/s]
            driver: driver in the box
            air: air in the box

        Returns: the load, acoustic impedance in [Pa·s/m³]

        Source: Small, JAES 21 (1973) 363-372.
        """
        resonance = self.resonance(driver, air)
        compliance = self.volume / air.bulk_modulus
        branches = tuple(
            Branch(
                vent,
                vent.impedance(s, air) + column(2 * math.pi * resonance * vent.mass(air) / self.qp),
            )
            for vent in self.vents
        )
        return chamber_load(s, compliance, resonance, self.ql, self.qa, *branches)


@dataclass(frozen=True, kw_only=True)
class PassiveRadiatorBox:
    """A box with one or several undriven cones: w0 from mass against cone and box compliance.

    Attributes:
        volume: net volume [m³]
        radiator: the cone or equal cones
        ql: Q of leakage at the box resonance; infinite for none [-]
        qa: Q of absorption at the box resonance; infinite for none [-]

    Raises:
        OutOfRangeError: a value is not positive.

    Valid: largest inner length below a tenth of the wavelength.

    Source: Small, "Passive-Radiator Loudspeaker Systems", JAES 22 (1974) 592-601, 683-689.
    """

    volume: Real
    radiator: Radiator
    ql: Real = math.inf
    qa: Real = math.inf
    radiates_directly: ClassVar[bool] = True

    def __post_init__(self) -> None:
        """Refuse a box that cannot be."""
        _require_chamber(self.volume, self.ql, self.qa)

    def resonance(self, driver: Driver | None = None, air: Air = STANDARD) -> Real:
        """Resonance of box and cone: fb = fp sqrt(1 + Vap / V).

        Args:
            driver: not needed, for a like call on every kind
            air: air in the box

        Returns: frequency fb [Hz]

        Source: Small, JAES 22 (1974) 592-601.
        """
        stiffening = 1 + self.radiator.compliance * air.bulk_modulus / self.volume
        return self.radiator.resonance * stiffening**0.5

    def load(self, s: Complexes, driver: Driver, air: Air) -> Load:
        """Acoustic load at complex frequencies.

        Args:
            s: complex frequency [rad/s]
            driver: driver in the box
            air: air in the box

        Returns: the load, acoustic impedance in [Pa·s/m³]

        Source: Small, JAES 22 (1974) 592-601.
        """
        compliance = self.volume / air.bulk_modulus
        branch = self.radiator.impedance(s, air)
        resonance = self.resonance(driver, air)
        return chamber_load(
            s, compliance, resonance, self.ql, self.qa, Branch(self.radiator, branch)
        )


@dataclass(frozen=True, kw_only=True)
class Door:
    """A vehicle door: a leaky box that may keep a second hole beside the new driver.

    The leak is that of the door with its hole closed, QL at w0 = ws sqrt(1 + Cms Sd² / C), so
    that it stays the same whatever becomes of the hole.

    Attributes:
        volume: air volume inside the door [m³]
        ql: Q of leakage with the hole closed; measured or assumed [-]
        opening: None when the hole is blanked, a vent when it is left open, a radiator when the
            factory driver stays in it unplugged
        qp: Q of the open hole at its resonance with the air of the door; infinite for none [-]

    Raises:
        OutOfRangeError: a value is not positive.

    Valid: leak small enough to be resistive; all openings face the cabin. The sheet metal is
        taken as rigid, which a door is not before it is damped.

    Source: Small's closed, vented and passive-radiator boxes with one leak; no published leak
        data of doors is known.
    """

    volume: Real
    ql: Real
    opening: Vent | Radiator | None = None
    qp: Real = math.inf
    radiates_directly: ClassVar[bool] = True

    def __post_init__(self) -> None:
        """Refuse a door that cannot be."""
        _require_chamber(self.volume, self.ql, math.inf)
        require_positive(Name.QP, self.qp, "-", infinite=True)

    def resonance(self, driver: Driver, air: Air = STANDARD) -> Real:
        """Resonance of the driver in the door with its hole closed: fs sqrt(1 + alpha).

        Args:
            driver: driver in the door
            air: air in the door

        Returns: frequency [Hz]

        Source: Small, JAES 20 (1972) 798-808.
        """
        return closed_resonance(driver, self.volume, air)

    def load(self, s: Complexes, driver: Driver, air: Air) -> Load:
        """Acoustic load at complex frequencies.

        Args:
            s: complex frequency [rad/s]
            driver: driver in the door
            air: air in the door

        Returns: the load, acoustic impedance in [Pa·s/m³]

        Source: Small, JAES 20 (1972) 798-808, JAES 22 (1974) 592-601.
        """
        compliance = self.volume / air.bulk_modulus
        resonance = self.resonance(driver, air)
        if self.opening is None:
            return chamber_load(s, compliance, resonance, self.ql, math.inf)
        branch = self.opening.impedance(s, air)
        if isinstance(self.opening, Vent):
            branch = branch + column((self.opening.mass(air) / compliance) ** 0.5 / self.qp)
        return chamber_load(
            s, compliance, resonance, self.ql, math.inf, Branch(self.opening, branch)
        )


def _require_chamber(volume: Real, ql: Real, qa: Real) -> None:
    require_positive(Name.VOLUME, volume, "m³")
    require_positive(Name.QL, ql, "-", infinite=True)
    require_positive(Name.QA, qa, "-", infinite=True)
