"""Impedance sweeps of an invented driver, written as a measuring program would write them."""

from __future__ import annotations

import cmath
import math
import random
from dataclasses import dataclass, replace

LOWEST, HIGHEST, PER_OCTAVE = 10.0, 1000.0, 24
NOISE = 0.005  # of every reading, as a usual sound card leaves it


@dataclass(frozen=True, kw_only=True)
class Specimen:
    """A driver on the bench: Small's circuit, JAES 20 (1972) 383; lossless unless told."""

    fs: float
    re: float
    qms: float
    qes: float
    mms: float
    le: float = 0.0
    lossy: float = 0.0

    def loaded(self, mass: float) -> Specimen:
        """The same driver with a known mass on its cone."""
        heavier = math.sqrt(1 + mass / self.mms)
        return replace(
            self,
            fs=self.fs / heavier,
            qms=self.qms * heavier,
            qes=self.qes * heavier,
            mms=self.mms + mass,
        )

    def impedance(self, frequency: float) -> complex:
        """Impedance in free air."""
        s, p = 2j * math.pi * frequency, 1j * frequency / self.fs
        motional = self.re * self.qms / self.qes * (p / self.qms) / (1 + p / self.qms + p * p)
        return self.re + s * self.le + self.lossy * cmath.sqrt(s) + motional


# The sub of the shelf (27 Hz, 2 × 1.8 Ω in series, Qms 5.2, Qes 0.46) as this one left its box:
# stiffer and more damped, so that Qms and Rms fall outside the tolerances and nothing else does.
THIS_SUB = Specimen(fs=29.4, re=3.72, qms=4.1, qes=0.49, mms=0.215, le=0.0009, lossy=0.012)
# The sub of the shelf in the tight boot box of the hatchback, hardly off its drawing.
BOXED_SUB = Specimen(fs=45.0, re=3.62, qms=6.6, qes=0.77, mms=0.2, le=0.0014)


def sweep_text(specimen: Specimen, start: int) -> str:
    """Write a sweep as columns: hertz, ohms, degrees; `start` seeds the noise."""
    reading = random.Random(start)
    count = round(PER_OCTAVE * math.log2(HIGHEST / LOWEST))
    lines = ["Hz\tohm\tdeg"]
    for k in range(count + 1):
        f = LOWEST * (HIGHEST / LOWEST) ** (k / count)
        z = specimen.impedance(f)
        size = abs(z) * (1 + NOISE * reading.gauss(0, 1))
        phase = math.degrees(cmath.phase(z) + NOISE * reading.gauss(0, 1))
        lines.append(f"{f:.3f}\t{size:.4f}\t{phase:.2f}")
    return "\n".join(lines)
