"""Ways to bring about what is refused of sweeps, finished boxes, ports and bands; in English."""

from __future__ import annotations

from functools import partial

import numpy as np

from acoustics.air.air import STANDARD
from acoustics.circuit.band_pass_targets import band_pass_for_band
from acoustics.circuit.finished_box import fit_finished_box
from acoustics.circuit.solver import sweep
from acoustics.driver.driver import Driver
from acoustics.driver.impedance_sweep import ImpedanceSweep
from acoustics.enclosure.boxes import InfiniteBaffle, Sealed, Vented
from acoustics.enclosure.openings import Radiator
from acoustics.enclosure.port import Port, RectangularOpening, RoundOpening
from acoustics.enclosure.slot_ends import as_wide_correction
from tests.jobs.no_sweeps import in_other_units, measured

SET = {"fs": 30.0, "qms": 5.0, "qes": 0.45, "re": 3.5, "vas": 0.06, "sd": 0.049}
VENTED = Vented.tuned(volume=0.06, frequency=30.0, area=0.01, ql=7.0)


def finished(drawn=VENTED, *, of=Sealed(volume=0.06, ql=20.0), wobble=0.0, **other):  # noqa: B008
    """Lay the sweep of one invented box over the drawing of another."""
    f = np.geomspace(8, 500, 160)
    z = np.abs(sweep(driver=Driver(**SET | other), box=of, frequencies=f).impedance)
    curve = ImpedanceSweep(frequency=f, magnitude=z * (1 + wobble * np.sin(6 * np.log(f))))
    return fit_finished_box(curve, driver=Driver(**SET), box=drawn)


SWEEPS = {
    "decibels": (
        partial(in_other_units, decibels=True, phase=False),
        "read as decibels of an ohm these figures fit a driver far better",
    ),
    "amplifier connected": (partial(measured, [0.05] * 40), "is the amplifier still connected?"),
    "flares": (
        lambda: Port(opening=RoundOpening(diameter=0.1), length=0.08, flare=0.05),
        "the two flares take 100 mm of a port that is 80 mm long",
    ),
    "flared slot": (
        lambda: Port(opening=RectangularOpening(width=0.2, height=0.04), length=0.3, flare=0.02),
        "radius of the port's flares: ",
    ),
    "as wide as the box": (
        lambda: as_wide_correction(0.4, 0.3),
        "height of the port: 400 mm; asked for: less than 300 mm",
    ),
    "band": (
        lambda: band_pass_for_band(Driver(**SET), 60.0, 40.0, area=0.01),
        "upper end of the band: 40 Hz; asked for: more than 60 Hz",
    ),
    "band below": (
        lambda: band_pass_for_band(Driver(**SET), 15.0, 30.0, area=0.01),
        "a rear chamber only raises it",
    ),
    "too heavy": (
        lambda: Radiator(sd=0.03, mms=0.2, cms=5e-4, rms=1.0).added_mass_for(60.0, 0.05, STANDARD),
        "without any added mass it tunes this box to",
    ),
    "other coil": (lambda: finished(re=8.0), "are wired have 3.5 Ω"),
    "no second peak": (lambda: finished(), "the curve has 1 of the 2 peaks"),
    "one peak too many": (
        lambda: finished(Sealed(volume=0.06), of=VENTED),
        "more than such a box has",
    ),
    "below the driver": (
        lambda: finished(Sealed(volume=0.06), fs=12.0),
        "no closed box does that",
    ),
    "no box": (
        lambda: finished(Sealed(volume=0.06), wobble=0.35),
        "does nothing rattle or hang loose?",
    ),
    "nothing to prove": (lambda: finished(InfiniteBaffle()), "no air of its own"),
}
