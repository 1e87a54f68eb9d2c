"""What may sit in a box's wall beside the driver: a vent or an undriven cone."""

import math
from dataclasses import dataclass
from typing import cast

from acoustics.air.air import Air
from acoustics.driver.driver import Driver
from acoustics.enclosure.port import Port
from acoustics.errors import NoSolutionError, Quantity
from acoustics.names import Name
from acoustics.values import Complexes, Real, column, require_between, require_positive


@dataclass(frozen=True, kw_only=True)
class Vent:
    """A port, or equal ports, as a plug of air: M = rho Leff / S.

    Attributes:
        area: area of all equal ports together [m²]
        effective_length: length of the moving air with both ends [m]
        hydraulic_diameter: four times the area over the wetted edge of one port; that of one
            round port unless given [m]

    Raises:
        OutOfRangeError: a value is not positive.

    Source: Helmholtz resonator; Lord Rayleigh, The Theory of Sound, vol. II, § 304.
    """

    area: Real
    effective_length: Real
    hydraulic_diameter: Real | None = None

    def __post_init__(self) -> None:
        """Refuse a vent that cannot be."""
        require_positive(Name.PORT_AREA, self.area, "m²")
        require_positive(Name.PORT_EFFECTIVE_LENGTH, self.effective_length, "m")
        if self.hydraulic_diameter is not None:
            require_positive(Name.HYDRAULIC_DIAMETER, self.hydraulic_diameter, "m")

    @classmethod
    def of(cls, port: Port) -> "Vent":
        """Vent of a port by its geometry.

        Args:
            port: port, or equal ports, with their ends

        Returns: the vent
        """
        return cls(
            area=port.area,
            effective_length=port.effective_length,
            hydraulic_diameter=port.opening.hydraulic_diameter,
        )

    def mass(self, air: Air) -> Real:
        """Acoustic mass: M = rho Leff / S.

        Args:
            air: air in the port

        Returns: acoustic mass [kg/m⁴]

        Source: Rayleigh, The Theory of Sound, vol. II, § 304.
        """
        return air.density * self.effective_length / self.area

    def impedance(self, s: Complexes, air: Air) -> Complexes:
        """Acoustic impedance: s M.

        Args:
            s: complex frequency [rad/s]
            air: air in the port

        Returns: acoustic impedance [Pa·s/m³]
        """
        return s * column(self.mass(air))

    def reynolds_number(self, air_speed: Real, air: Air) -> Real:
        """Reynolds number of the air in one port: rho v d / viscosity.

        Args:
            air_speed: speed averaged over the area [m/s]
            air: air in the port

        Returns: Reynolds number [-]
        """
        diameter = self.hydraulic_diameter
        if diameter is None:
            diameter = 2 * (self.area / math.pi) ** 0.5
        return air_speed * column(air.density * diameter / air.viscosity)


@dataclass(frozen=True, kw_only=True)
class Radiator:
    """An undriven cone, or equal cones: s M + R + 1/(s C), all over the area squared.

    Attributes:
        sd: effective area of one cone [m²]
        mms: moving mass of one cone with its air load, nothing added [kg]
        cms: suspension compliance of one cone [m/N]
        rms: mechanical resistance of one cone [kg/s]
        added_mass: mass added to one cone [kg]
        count: number of equal cones [-]
        xmax: excursion one cone bears, one way, peak; None when unknown [m]

    Raises:
        OutOfRangeError: a value is not positive; an added mass is negative.

    Source: Small, "Passive-Radiator Loudspeaker Systems", JAES 22 (1974) 592-601.
    """

    sd: Real
    mms: Real
    cms: Real
    rms: Real
    added_mass: Real = 0.0
    count: Real = 1
    xmax: Real | None = None

    def __post_init__(self) -> None:
        """Refuse a cone that cannot be."""
        require_positive(Name.RADIATOR_AREA, self.sd, "m²")
        require_positive(Name.RADIATOR_MASS, self.mms, "kg")
        require_positive(Name.RADIATOR_COMPLIANCE, self.cms, "m/N")
        require_positive(Name.RADIATOR_RESISTANCE, self.rms, "kg/s")
        require_between(Name.ADDED_MASS, self.added_mass, 0.0, math.inf, "kg")
        require_between(Name.RADIATOR_COUNT, self.count, 1, math.inf, "-")
        if self.xmax is not None:
            require_positive(Name.RADIATOR_EXCURSION, self.xmax, "m")

    @classmethod
    def unplugged(cls, driver: Driver) -> "Radiator":
        """A driver left in place with open terminals: its motor no longer damps it.

        Args:
            driver: the driver

        Returns: the radiator

        Source: definition; only Qms remains (Small 1972).
        """
        return cls(sd=driver.sd, mms=driver.mms, cms=driver.cms, rms=driver.rms, xmax=driver.xmax)

    @property
    def area(self) -> Real:
        """Area of all equal cones together.

        Returns: area [m²]
        """
        return self.sd * self.count

    @property
    def compliance(self) -> Real:
        """Acoustic compliance of all cones together: n Cms Sd².

        Returns: acoustic compliance [m³/Pa]

        Source: Small, JAES 22 (1974) 592-601.
        """
        return self.count * self.cms * self.sd**2

    @property
    def resonance(self) -> Real:
        """Resonance with the added mass, out of the box.

        Returns: frequency [Hz]
        """
        return cast(Real, 1 / (2 * math.pi * ((self.mms + self.added_mass) * self.cms) ** 0.5))

    def added_mass_for(self, frequency: float, volume: float, air: Air) -> float:
        """Mass to add to each cone that tunes a box: rho c² Sd² n (1/V + 1/Vap)/(2 pi fb)² - Mms.

        Args:
            frequency: tuning wanted [Hz]
            volume: net volume of the box [m³]
            air: air in the box

        Returns: mass added to each [kg]

        Raises:
            OutOfRangeError: frequency or volume is not above zero.
            NoSolutionError: the cones alone tune the box lower.

        Source: Small, JAES 22 (1974) 592-601.
        """
        require_positive(Name.TUNING, frequency, "Hz")
        require_positive(Name.VOLUME, volume, "m³")
        stiffness = float(air.bulk_modulus / volume + 1 / self.compliance)
        whole = stiffness * float(self.count * self.sd**2) / (2 * math.pi * frequency) ** 2
        if whole < self.mms:
            bare = frequency * math.sqrt(whole / float(self.mms))
            value, limit = Quantity(frequency, "Hz"), Quantity(bare, "Hz")
            raise NoSolutionError(code="lightest-tunes-lower", value=value, limit=limit)
        return float(whole - self.mms)

    def impedance(self, s: Complexes, air: Air) -> Complexes:
        """Acoustic impedance of all cones together.

        Args:
            s: complex frequency [rad/s]
            air: air around the cone

        Returns: acoustic impedance [Pa·s/m³]

        Source: Small, JAES 22 (1974) 592-601.
        """
        scale = 1 / (self.count * self.sd**2)
        mass = column((self.mms + self.added_mass) * scale)
        stiffness = column(scale / self.cms)
        return s * mass + column(self.rms * scale) + stiffness / s
