"""Conductors: size systems, metals, resistance at working temperature.

API: `Conductor`, `awg("4/0")`, `sae("4")`, `metric(25e-6)`, `AWG_SIZES`, `awg_area`,
`METALS`, `CLASS_5`, `SAE_AREAS`.
"""

from dataclasses import dataclass

import numpy as np

from wiring.errors import OutOfRangeError, OutsideTableError, WiringError, require_positive
from wiring.names import Name

INCH = 0.0254
CIRCULAR_MIL = np.pi / 4 * (INCH / 1000) ** 2  # m²

# Resistivity of IACS copper, Ω·m. NBS Handbook 100 (1966): exactly 1/58 Ω·mm²/m at 20 °C.
IACS = 1e-6 / 58


@dataclass(frozen=True, kw_only=True)
class Metal:
    """What a conductor is made of.

    Attributes:
        resistivity: greatest resistivity at 20 °C [Ω·m]
        alpha: temperature coefficient of resistance referred to 20 °C [1/K]
        heat_capacity: volumetric heat capacity, for the adiabatic check [J/(K·m³)]
        beta: temperature of zero resistance, negated, for the adiabatic check [°C]
        copper_terminals: whether lugs rated for copper only may be used
        density: mass per volume [kg/m³]

    Source: NBS Handbook 100 (1966): copper 8.89 g/cm³. ASTM B566: copper-clad aluminium, class
        10 3.32, class 15 3.63 g/cm³. ASTM B230: aluminium 2.703 g/cm³. IEC 60364-5-54:2011, Annex
        A, Table A.54.1 (heat capacity, beta)
    """

    resistivity: float
    alpha: float
    heat_capacity: float
    beta: float
    copper_terminals: bool
    density: float


# Copper: α 0.00393 (ASTM B3) or 0.004 (IEC 60228 correction table); the larger is used.
# Copper-clad aluminium: maker-guaranteed minimum conductivity 62.9 and 64.4 % IACS (ASTM B566
# classes 10 and 15), not the nominal 64.9 and 66.9 %. Its heat capacity and β are taken as
# aluminium's: that gives a smaller adiabatic constant, the safe side.
# Its α lies between copper's and aluminium's; 0.004 is copper's by IEC 60228.
METALS: dict[str, Metal] = {
    "copper": Metal(
        resistivity=IACS, alpha=0.004, heat_capacity=3.45e6, beta=234.5,
        copper_terminals=True, density=8890.0,
    ),
    "copper_clad_aluminium_10": Metal(
        resistivity=2.743e-8, alpha=0.004, heat_capacity=2.5e6, beta=228,
        copper_terminals=False, density=3320.0,
    ),
    "copper_clad_aluminium_15": Metal(
        resistivity=2.677e-8, alpha=0.004, heat_capacity=2.5e6, beta=228,
        copper_terminals=False, density=3630.0,
    ),
    "aluminium": Metal(
        resistivity=IACS / 0.61, alpha=0.00403, heat_capacity=2.5e6, beta=228,
        copper_terminals=False, density=2703.0,
    ),
}  # fmt: skip

AWG_NUMBERS: dict[str, int] = {"4/0": -3, "3/0": -2, "2/0": -1, "1/0": 0} | {
    str(n): n for n in range(1, 31)
}

# Least conductor area of SAE cable sizes, circular mils, as printed on marine wire charts.
SAE_AREAS: dict[str, float] = {
    size: cmil * CIRCULAR_MIL
    for size, cmil in {
        "18": 1537, "16": 2336, "14": 3702, "12": 5833, "10": 9343, "8": 14810, "6": 24538,
        "4": 37360, "2": 62450, "1": 77790, "1/0": 98980, "2/0": 125100, "3/0": 158600,
        "4/0": 205500,
    }.items()
}  # fmt: skip

# IEC 60228:2004, Table 3 (class 5): greatest resistance at 20 °C, Ω/km, plain and tinned copper.
CLASS_5: dict[float, tuple[float, float]] = {
    0.5: (39.0, 40.1), 0.75: (26.0, 26.7), 1.0: (19.5, 20.0), 1.5: (13.3, 13.7),
    2.5: (7.98, 8.21), 4.0: (4.95, 5.09), 6.0: (3.30, 3.39), 10.0: (1.91, 1.95),
    16.0: (1.21, 1.24), 25.0: (0.780, 0.795), 35.0: (0.554, 0.565), 50.0: (0.386, 0.393),
    70.0: (0.272, 0.277), 95.0: (0.206, 0.210), 120.0: (0.161, 0.164),
}  # fmt: skip

LOWEST_TEMPERATURE = -60.0  # °C, linear resistance law
HIGHEST_TEMPERATURE = 250.0


def awg_area(size: str) -> float:
    """Cross-section of a solid conductor of an American wire gauge size.

    d = 0.005 in · 92^((36 - n)/39); A = π/4 · d²

    Args:
        size: gauge, "4/0" to "30"

    Returns:
        area [m²]

    Raises:
        OutsideTableError: if the gauge is not a size

    Valid: 4/0 to 30
    Source: ASTM B258, Standard nominal diameters and areas of AWG solid round wires
    """
    if size not in AWG_NUMBERS:
        raise OutsideTableError(Name.AWG_SIZE, size, between=("4/0", "30"))
    diameter = 0.005 * INCH * 92 ** ((36 - AWG_NUMBERS[size]) / 39)
    return float(np.pi / 4 * diameter**2)


SYSTEMS = ("awg", "sae", "metric")


@dataclass(frozen=True, kw_only=True)
class Conductor:
    """One cable core: its metal, size, insulation class and what its maker says.

    Attributes:
        system: how the size is named: "awg", "sae" or "metric"
        size: the size in that system: "4/0", "4", "25"
        area: cross-section of metal [m²]
        resistance_20: greatest resistance per length at 20 °C [Ω/m]
        metal: key of METALS
        insulation: temperature class of the insulation, None if unknown [°C]
        rated_current: current from the part's own sheet, None to use published tables [A]
        rated_ambient: air temperature that current is stated at [°C]
        rated_source: name of that sheet
        fault_temperature: highest insulation temperature in a fault, from the sheet [°C]
        outer_diameter: over the insulation, None if unknown [m]

    Raises:
        OutOfRangeError: if a number is not possible
        WiringError: if the metal or system is unknown, or a rating comes without its sheet
    """

    system: str
    size: str
    area: float
    resistance_20: float
    metal: str = "copper"
    insulation: float | None = None
    rated_current: float | None = None
    rated_ambient: float = 30.0
    rated_source: str = ""
    fault_temperature: float | None = None
    outer_diameter: float | None = None

    def __post_init__(self) -> None:
        require_positive(name=Name.AREA, value=self.area, unit="m²")
        require_positive(name=Name.RESISTANCE_PER_LENGTH, value=self.resistance_20, unit="Ω/m")
        if self.metal not in METALS:
            raise WiringError(Name.METAL, self.metal, one_of=tuple(METALS))
        if self.system not in SYSTEMS:
            raise WiringError(Name.SIZE_SYSTEM, self.system, one_of=SYSTEMS)
        for name, value, unit in (
            (Name.RATED_CURRENT, self.rated_current, "A"),
            (Name.OUTER_DIAMETER, self.outer_diameter, "m"),
            (Name.FAULT_TEMPERATURE, self.fault_temperature, "°C"),
        ):
            if value is not None:
                require_positive(name=name, value=value, unit=unit)
        if self.rated_current is not None and not self.rated_source:
            raise WiringError(Name.RATED_CURRENT, self.rated_current, "A", to_be="sourced")
        if self.insulation is not None and not 0 <= self.insulation <= HIGHEST_TEMPERATURE:
            between = (0, HIGHEST_TEMPERATURE)
            raise OutOfRangeError(Name.INSULATION_CLASS, self.insulation, "°C", between=between)

    @property
    def label(self) -> str:
        """Size as the trade writes it, such as "4 AWG", "4 SAE" or "25 mm²".

        Returns:
            the label

        Source: common practice, no source
        """
        return f"{self.size} {'mm²' if self.system == 'metric' else self.system.upper()}"

    @property
    def mass(self) -> float:
        """Mass of its metal per length; insulation is not counted.

        m' = A · density

        Returns:
            mass per length [kg/m]

        Source: definition
        """
        return self.area * METALS[self.metal].density

    def resistance(self, temperature: float = 20.0) -> float:
        """Resistance per length at a conductor temperature.

        r(T) = r20 · (1 + α · (T - 20))

        Args:
            temperature: conductor temperature [°C]

        Returns:
            resistance per length [Ω/m]

        Raises:
            OutOfRangeError: if the temperature is outside the linear law

        Valid: -60 to 250 °C
        Source: NBS Handbook 100 (1966); IEC 60228:2004, Annex A (α = 0.004 of copper)
        """
        if not LOWEST_TEMPERATURE <= temperature <= HIGHEST_TEMPERATURE:
            between = (LOWEST_TEMPERATURE, HIGHEST_TEMPERATURE)
            raise OutOfRangeError(Name.CONDUCTOR_TEMPERATURE, temperature, "°C", between=between)
        return self.resistance_20 * (1 + METALS[self.metal].alpha * (temperature - 20))


def awg(
    size: str,
    *,
    metal: str = "copper",
    insulation: float | None = None,
    rated_current: float | None = None,
    rated_ambient: float = 30.0,
    rated_source: str = "",
    fault_temperature: float | None = None,
    outer_diameter: float | None = None,
) -> Conductor:
    """Conductor whose cable is marked with an American wire gauge.

    r20 = ρ20 / A

    Args:
        size: gauge, "4/0" to "30"
        metal: key of METALS
        insulation: temperature class, None if unknown [°C]
        rated_current: from the part's sheet [A]
        rated_ambient: air temperature of that rating [°C]
        rated_source: name of that sheet
        fault_temperature: highest insulation temperature in a fault, from the sheet [°C]
        outer_diameter: over the insulation [m]

    Returns:
        the conductor

    Raises:
        OutsideTableError: if the gauge is not a size

    Valid: area as a solid wire; a stranded cable marked AWG has about this area of metal
    Source: ASTM B258; NBS Handbook 100 (1966), copper resistivity
    """
    area = awg_area(size)
    return Conductor(
        system="awg",
        size=size,
        area=area,
        resistance_20=_metal(metal).resistivity / area,
        metal=metal,
        insulation=insulation,
        rated_current=rated_current,
        rated_ambient=rated_ambient,
        rated_source=rated_source,
        fault_temperature=fault_temperature,
        outer_diameter=outer_diameter,
    )


def sae(
    size: str,
    *,
    metal: str = "copper",
    insulation: float | None = None,
    rated_current: float | None = None,
    rated_ambient: float = 30.0,
    rated_source: str = "",
    fault_temperature: float | None = None,
    outer_diameter: float | None = None,
) -> Conductor:
    """Conductor of an SAE cable size, which has 3 to 11 % less metal than the same AWG.

    r20 = ρ20 / A_min

    Args:
        size: SAE size, "18" to "4/0"
        metal: key of METALS
        insulation: temperature class, None if unknown [°C]
        rated_current: from the part's sheet [A]
        rated_ambient: air temperature of that rating [°C]
        rated_source: name of that sheet
        fault_temperature: highest insulation temperature in a fault, from the sheet [°C]
        outer_diameter: over the insulation [m]

    Returns:
        the conductor

    Raises:
        OutsideTableError: if the size is not listed

    Valid: a gauge on a cable not marked AWG is read as SAE, the safe side
    Source: SAE J1127/J1128 least areas, as printed on marine wire charts
    """
    if size not in SAE_AREAS:
        raise OutsideTableError(Name.SAE_SIZE, size, one_of=tuple(SAE_AREAS))
    area = SAE_AREAS[size]
    return Conductor(
        system="sae",
        size=size,
        area=area,
        resistance_20=_metal(metal).resistivity / area,
        metal=metal,
        insulation=insulation,
        rated_current=rated_current,
        rated_ambient=rated_ambient,
        rated_source=rated_source,
        fault_temperature=fault_temperature,
        outer_diameter=outer_diameter,
    )


def metric(
    area: float,
    *,
    metal: str = "copper",
    tinned: bool = False,
    insulation: float | None = None,
    rated_current: float | None = None,
    rated_ambient: float = 30.0,
    rated_source: str = "",
    fault_temperature: float | None = None,
    outer_diameter: float | None = None,
) -> Conductor:
    """Conductor of a nominal metric cross-section, as flexible class 5.

    Listed sizes take the table. A size between two listed ones takes the smaller of two safe
    bounds: the resistance of the listed size below, and the table's greatest r·A over A.

    Args:
        area: nominal cross-section [m²]
        metal: key of METALS; other metals scale with resistivity
        tinned: whether the copper strands are tinned
        insulation: temperature class, None if unknown [°C]
        rated_current: from the part's sheet [A]
        rated_ambient: air temperature of that rating [°C]
        rated_source: name of that sheet
        fault_temperature: highest insulation temperature in a fault, from the sheet [°C]
        outer_diameter: over the insulation [m]

    Returns:
        the conductor

    Raises:
        OutsideTableError: if the area is outside the table

    Valid: 0.5 to 120 mm²; the nominal area is a resistance class, not a measured area
    Source: IEC 60228:2004, Table 3, class 5
    """
    require_positive(name=Name.AREA, value=area, unit="m²")
    square_mm = round(area * 1e6, 6)
    sizes = np.array(list(CLASS_5))
    if not sizes[0] <= square_mm <= sizes[-1]:
        low, high = float(sizes[0]) * 1e-6, float(sizes[-1]) * 1e-6
        raise OutsideTableError(Name.CLASS_5_AREA, area, "m²", between=(low, high))
    table = np.array([row[int(tinned)] for row in CLASS_5.values()]) * 1e-3
    listed_below = int(np.searchsorted(sizes, square_mm, side="right")) - 1
    resistance = float(table[listed_below])
    if sizes[listed_below] != square_mm:
        resistance = min(resistance, float((table * sizes).max() / square_mm))
    return Conductor(
        system="metric",
        size=f"{square_mm:g}",
        area=area,
        resistance_20=resistance * _metal(metal).resistivity / IACS,
        metal=metal,
        insulation=insulation,
        rated_current=rated_current,
        rated_ambient=rated_ambient,
        rated_source=rated_source,
        fault_temperature=fault_temperature,
        outer_diameter=outer_diameter,
    )


def _metal(name: str) -> Metal:
    if name not in METALS:
        raise WiringError(Name.METAL, name, one_of=tuple(METALS))
    return METALS[name]
