"""The kinds of quantity a job knows, their units and their bounds.

Only data, read by `jobs.units`; everybody else names a kind by its key.
"""

import math
from dataclasses import dataclass

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _


@dataclass(frozen=True, kw_only=True)
class Kind:
    """One kind of quantity: what it is called, what may be typed, and how it is shown.

    `metric` and `imperial` list (unit, decimals); the first is what a plain number means, the
    others take over where they read better. Without `imperial` the trade writes metric
    everywhere. `lowest` and `largest` are SI: wide enough for
    anything a car can hold, narrow enough to catch a slipped decimal mark or the wrong unit.
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


# Longer than any sheet of wood, any paper and any part that is put in a car [m].
LONGEST_PIECE = 4.0

KINDS: dict[str, Kind] = {
    "length": Kind(
        label=_("length"),
        example="165 mm, 6½ in, 2' 6\"",
        si="meter",
        metric=(("millimeter", 1),),
        imperial=(("inch", 2),),
        also=("centimeter", "meter", "foot"),
        lowest=-LONGEST_PIECE,
        largest=LONGEST_PIECE,
    ),
    # What no sheet of wood has to hold: a cabin, a cable to its fuse.
    "span": Kind(
        label=_("length"),
        example="165 mm, 6½ in, 2' 6\"",
        si="meter",
        metric=(("millimeter", 1),),
        imperial=(("inch", 2),),
        also=("centimeter", "meter", "foot"),
        lowest=-30.0,
        largest=30.0,
    ),
    "cable_length": Kind(
        label=_("cable length"),
        example="5.5 m, 18 ft, 12' 6\"",
        si="meter",
        metric=(("meter", 2),),
        imperial=(("foot", 1),),
        also=("millimeter", "centimeter", "inch"),
        largest=1000.0,
    ),
    "area": Kind(
        label=_("area"),
        example="220 cm², 34 sq in",
        si="meter**2",
        metric=(("centimeter**2", 1),),
        imperial=(("inch**2", 2),),
        also=("millimeter**2", "meter**2", "foot**2"),
        largest=1000.0,
    ),
    "cross_section": Kind(
        label=_("conductor area"),
        example="25 mm²",
        si="meter**2",
        metric=(("millimeter**2", 2),),
        also=("centimeter**2",),
        largest=0.01,
    ),
    "volume": Kind(
        label=_("volume"),
        example="21 L, 0.75 cu ft",
        si="meter**3",
        metric=(("liter", 2),),
        imperial=(("foot**3", 3),),
        also=("milliliter", "centimeter**3", "meter**3", "inch**3"),
        largest=1000.0,
    ),
    "mass": Kind(
        label=_("mass"),
        example="18 kg, 40 lb",
        si="kilogram",
        metric=(("kilogram", 2), ("gram", 1)),
        imperial=(("pound", 2), ("ounce", 2)),
        largest=100_000.0,
    ),
    "moving_mass": Kind(
        label=_("moving mass"),
        example="95 g",
        si="kilogram",
        metric=(("gram", 1),),
        also=("kilogram", "ounce"),
        largest=100.0,
    ),
    "torque": Kind(
        label=_("torque"),
        example="9 N·m, 80 in lb",
        si="newton*meter",
        metric=(("newton*meter", 1),),
        imperial=(("pound_force*inch", 0),),
        also=("pound_force*foot",),
        largest=1000.0,
    ),
    "angle": Kind(
        label=_("angle"),
        example="22.5°",
        si="radian",
        metric=(("degree", 1),),
        also=("radian",),
        lowest=-20 * math.pi,
        largest=20 * math.pi,
    ),
    "frequency": Kind(
        label=_("frequency"),
        example="80 Hz, 2.5 kHz",
        si="hertz",
        metric=(
            ("hertz", 1),
            ("kilohertz", 2),
        ),
        largest=10_000_000.0,
    ),
    "voltage": Kind(
        label=_("voltage"),
        example="12.6 V, 500 mV",
        si="volt",
        metric=(
            ("volt", 2),
            ("millivolt", 0),
        ),
        also=("kilovolt", "megavolt"),
        lowest=-2000.0,
        largest=2000.0,
    ),
    "current": Kind(
        label=_("current"),
        example="60 A, 20 mA",
        si="ampere",
        metric=(
            ("ampere", 1),
            ("milliampere", 0),
        ),
        also=("megaampere",),
        lowest=-100_000.0,
        largest=100_000.0,
    ),
    "power": Kind(
        label=_("power"),
        example="75 W, 1.5 kW",
        si="watt",
        metric=(("watt", 0),),
        also=("milliwatt", "kilowatt", "megawatt"),
        largest=500_000.0,
    ),
    "resistance": Kind(
        label=_("resistance"),
        example="4 Ω, 4 ohm, 5 mΩ",
        si="ohm",
        metric=(
            ("ohm", 2),
            ("milliohm", 2),
            ("kiloohm", 2),
        ),
        also=("megaohm",),
        largest=900_000.0,
    ),
    "resistance_per_length": Kind(
        label=_("resistance per length"),
        example="0.75 mΩ/m, 0.75 Ω/km",
        si="ohm/meter",
        metric=(("milliohm/meter", 3),),
        imperial=(("milliohm/foot", 3),),
        also=("ohm/meter", "ohm/kilofoot"),
        largest=1000.0,
    ),
    "inductance": Kind(
        label=_("inductance"),
        example="0.5 mH, 330 µH",
        si="henry",
        metric=(
            ("millihenry", 2),
            ("microhenry", 1),
        ),
        also=("henry", "megahenry"),
        largest=1000.0,
    ),
    "capacitance": Kind(
        label=_("capacitance"),
        example="100 µF, 1 F",
        si="farad",
        metric=(
            ("microfarad", 1),
            ("nanofarad", 1),
            ("farad", 2),
        ),
        also=("picofarad", "millifarad", "megafarad"),
        largest=10_000.0,
    ),
    "capacitance_per_length": Kind(
        label=_("capacitance per length"),
        example="100 pF/m",
        si="farad/meter",
        metric=(("picofarad/meter", 1),),
        also=("nanofarad/meter", "picofarad/foot"),
        largest=1.0e-3,
    ),
    "force": Kind(
        label=_("force"),
        example="310 N, 70 lbf",
        si="newton",
        metric=(("newton", 0),),
        imperial=(("pound_force", 0),),
        largest=1.0e6,
    ),
    "charge": Kind(
        label=_("battery capacity"),
        example="95 Ah",
        si="coulomb",
        metric=(("ampere_hour", 0),),
        also=("milliampere_hour", "coulomb"),
        largest=36_000_000.0,
    ),
    "energy": Kind(
        label=_("energy"),
        example="1200 Wh, 1.2 kWh",
        si="joule",
        metric=(("watt_hour", 0),),
        also=("kilowatt_hour", "joule"),
        largest=1.0e9,
    ),
    "temperature": Kind(
        label=_("temperature"),
        example="20 °C, 68 °F",
        si="kelvin",
        metric=(("degC", 1),),
        imperial=(("degF", 1),),
        also=("kelvin",),
        largest=3000.0,
    ),
    "temperature_rise": Kind(
        label=_("temperature rise"),
        example="30 K",
        si="kelvin",
        metric=(("kelvin", 1),),
        imperial=(("delta_degF", 1),),
        also=("delta_degC",),
        lowest=-3000.0,
        largest=3000.0,
    ),
    "time": Kind(
        label=_("time"),
        example="2.5 ms, 1 s",
        si="second",
        metric=(
            ("millisecond", 2),
            ("second", 2),
        ),
        also=("microsecond", "minute"),
        largest=3600.0,
    ),
    "duration": Kind(
        label=_("duration"),
        example="90 min, 1 h 30 min",
        si="second",
        # Hours first: one figure of 57 h beside another of 360 min is hard to compare.
        metric=(
            ("hour", 1),
            ("minute", 0),
        ),
        also=("second",),
        largest=1.0e8,
    ),
    "speed": Kind(
        label=_("speed"),
        example="17 m/s, 55 ft/s",
        si="meter/second",
        metric=(("meter/second", 1),),
        imperial=(("foot/second", 1),),
        also=("kilometer/hour", "mile/hour"),
        lowest=-1000.0,
        largest=1000.0,
    ),
    "flow": Kind(
        label=_("flow"),
        example="12 L/s, 25 cfm",
        si="meter**3/second",
        metric=(("liter/second", 1),),
        imperial=(("foot**3/minute", 1),),
        also=("meter**3/second", "meter**3/hour"),
        lowest=-100.0,
        largest=100.0,
    ),
    "compliance": Kind(
        label=_("compliance"),
        example="0.42 mm/N, 420 µm/N",
        si="meter/newton",
        metric=(("millimeter/newton", 3),),
        also=("micrometer/newton", "meter/newton"),
        largest=1.0,
    ),
    "force_factor": Kind(
        label=_("force factor"),
        example="11.5 T·m, 11.5 N/A",
        si="tesla*meter",
        metric=(("tesla*meter", 2),),
        also=("newton/ampere",),
        largest=1000.0,
    ),
    "mechanical_resistance": Kind(
        label=_("mechanical resistance"),
        example="2.4 kg/s, 2.4 N·s/m",
        si="kilogram/second",
        metric=(("kilogram/second", 2),),
        also=("newton*second/meter",),
        largest=10_000.0,
    ),
    "density": Kind(
        label=_("density"),
        example="680 kg/m³, 42 lb/ft³",
        si="kilogram/meter**3",
        metric=(("kilogram/meter**3", 1),),
        imperial=(("pound/foot**3", 2),),
        largest=30_000.0,
    ),
    "area_density": Kind(
        label=_("mass per area"),
        example="2.5 kg/m², 0.5 lb/ft²",
        si="kilogram/meter**2",
        metric=(("kilogram/meter**2", 2),),
        imperial=(("pound/foot**2", 2),),
        also=("gram/meter**2",),
        largest=1000.0,
    ),
    "stress": Kind(
        label=_("stiffness or strength"),
        example="9.5 GPa, 40 MPa",
        si="pascal",
        metric=(("gigapascal", 2), ("megapascal", 1)),
        largest=2.0e12,
    ),
    "flow_resistivity": Kind(
        label=_("flow resistivity"),
        example="5000 Pa·s/m²",
        si="pascal*second/meter**2",
        metric=(("pascal*second/meter**2", 0),),
        largest=1.0e7,
    ),
    "level": Kind(
        label=_("level"),
        example="-6 dB, 88.5 dB",
        si="decibel",
        metric=(("decibel", 1),),
        lowest=-300.0,
        largest=300.0,
    ),
    "ratio": Kind(
        label=_("plain number"),
        example="0.7",
        si="dimensionless",
        metric=(("dimensionless", 3),),
        also=("percent",),
        lowest=-1.0e6,
        largest=1.0e6,
    ),
    "count": Kind(
        label=_("whole number"),
        example="12000",
        si="dimensionless",
        metric=(("dimensionless", 0),),
        largest=1.0e9,
    ),
    "percent": Kind(
        label=_("percentage"),
        example="10 %",
        si="dimensionless",
        metric=(("percent", 1),),
        lowest=-100.0,
        largest=100.0,
    ),
}
