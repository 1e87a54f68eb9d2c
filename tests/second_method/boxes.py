"""A driver in a box, solved as the acoustical circuit of R. H. Small's papers, branch by branch.

"Direct-Radiator Loudspeaker System Analysis", JAES 20 (1972) 383-395, for the driver;
"Closed-Box", 20 (1972) 798, "Vented-Box", 21 (1973) 363 and "Passive-Radiator Loudspeaker
Systems", 22 (1974) 592 for the boxes. Pressure is voltage, volume velocity is current; what is
heard is what flows into the compliance of the air in the box. Complex numbers of Python only.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

RHO, C = 1.204, 343.2  # air of ISO 9613-1 at 20 °C and the density this project states for it


@dataclass(frozen=True, kw_only=True)
class Elements:
    """A driver's mechanical elements, from fs, Qes, Qms, Vas, Re and Sd by definition."""

    re: float
    sd: float
    bl: float
    mms: float
    cms: float
    rms: float


def elements(*, fs: float, qes: float, qms: float, vas: float, re: float, sd: float) -> Elements:
    """Turn Thiele and Small's figures into newtons, kilograms and metres."""
    cms = vas / (RHO * C**2 * sd**2)
    mms = 1 / ((2 * math.pi * fs) ** 2 * cms)
    rms = math.sqrt(mms / cms) / qms
    bl = math.sqrt(math.sqrt(mms / cms) * re / qes)
    return Elements(re=re, sd=sd, bl=bl, mms=mms, cms=cms, rms=rms)


def closed(volume: float, *, leak: float = math.inf) -> dict[str, float]:
    """Return the branches of a closed box; a leak is a resistance [Pa·s/m³]."""
    return {"compliance": volume / (RHO * C**2), "leak": leak}


def leak_of(q: float, *, frequency: float, volume: float) -> float:
    """Return the leak that has this Q with the box's compliance at a frequency."""
    return q / (2 * math.pi * frequency * volume / (RHO * C**2))


@dataclass(frozen=True, kw_only=True)
class Played:
    """What one frequency gives; volume velocities and voltages are rms."""

    level: float  # [dB re 20 µPa] at 1 m in a half space
    excursion: float  # [m] peak
    impedance: complex  # [Ω]
    branch: float  # [m³/s] in the port or the passive radiator


def play(
    driver: Elements,
    frequency: float,
    voltage: float,
    *,
    compliance: float = math.inf,
    leak: float = math.inf,
    absorption: float = 0.0,
    branch: tuple[float, float, float] | None = None,
) -> Played:
    """Solve one frequency; `branch` is mass, resistance and compliance of a port or a radiator.

    Without a compliance the driver plays into free air behind: an infinite baffle.
    """
    s = 2j * math.pi * frequency
    cone = (s * driver.mms + driver.rms + 1 / (s * driver.cms)) / driver.sd**2
    through: complex = 0.0
    if branch:
        mass, resistance, own = branch
        spring = 0j if math.isinf(own) else 1 / (s * own)
        through = 1 / (s * mass + resistance + spring)
    air = 0j if math.isinf(compliance) else 1 / (absorption + 1 / (s * compliance))
    box = 0j if math.isinf(compliance) else 1 / (air + through + 1 / leak)
    motor = driver.bl**2 / driver.sd**2
    pushed = driver.bl * voltage / (driver.sd * driver.re)
    flow = pushed / (motor / driver.re + cone + box)
    heard = flow if math.isinf(compliance) else flow * box * air
    pressure = RHO * frequency * abs(heard)  # ρ ω U/(2π r) at 1 m
    return Played(
        level=20 * math.log10(pressure / 20e-6),
        excursion=math.sqrt(2) * abs(flow / s) / driver.sd,
        impedance=driver.re + motor / (cone + box),
        branch=abs(flow * box * through),
    )
