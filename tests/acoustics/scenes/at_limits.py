"""What is taken at the very limit of what may be: the last that is not refused."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

import numpy as np

from acoustics.air.air import Air, standard_at
from acoustics.air.cabin import TransferCurve
from acoustics.air.hexahedron import hexahedron_frequencies
from acoustics.air.modes import judge_modes, prism_modes, profile_frequencies
from acoustics.circuit.biquads import Biquad, BiquadKind, biquad, shelf_q
from acoustics.circuit.filters import Family, Filter, Passes, Way
from acoustics.circuit.solver import sweep
from acoustics.circuit.tolerance_bands import Tolerances
from acoustics.columns import parse_columns
from acoustics.driver.combination import combine
from acoustics.driver.heat import heated, programme_power
from acoustics.driver.measurement import parse_impedance
from acoustics.enclosure.boxes import Sealed
from acoustics.enclosure.openings import Radiator
from acoustics.enclosure.port import Port, RoundOpening, ends, port_for_tuning
from acoustics.setup.bands import band_levels, smoothed
from acoustics.setup.equalise import BandLimits
from acoustics.setup.passive import l_pad
from acoustics.setup.sections import sections
from acoustics.setup.signals import LeftRight, LogSweep, PinkNoise, PolarityPulse, Tone
from acoustics.setup.start import gain_setting, in_samples, tone_frequency
from acoustics.setup.wav import read_wav
from tests.acoustics.scenes.enclosures import BOXES, CONE, ROUND, SUB, F
from tests.acoustics.scenes.measurements import SHEET, complete_driver
from tests.acoustics.scenes.setting_up import LIMITS, LOW, RATE, wav_of
from tests.told import limits

SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
CUBE = tuple((x, y, z) for y in (0, 1) for x, z in ((0, 1), (1, 1), (1, 0), (0, 0)))
LEVEL = np.ones(2)


def _lines(count: int, top: float, value: float = 4.0, phase: str = "") -> str:
    return "\n".join(f"{top * (n + 1) / count} {value} {phase}" for n in range(count))


def taken() -> Mapping[str, object]:
    """Take each of them."""
    calls: dict[str, Callable[[], object]] = {
        "one mode": lambda: prism_modes(profile=SQUARE, width=1.0, count=1),
        "one of a profile": lambda: profile_frequencies(SQUARE, count=1),
        "three corners": lambda: profile_frequencies(SQUARE[:3], count=2),
        "one of a cube": lambda: hexahedron_frequencies(CUBE, count=1),
        "one judged": lambda: judge_modes(profile=SQUARE, width=1.0, highest_used=1.0, count=1),
        "air": lambda: Air(density=1e-9, speed_of_sound=1e-9, viscosity=1e-9),
        "cold": lambda: standard_at(253.15),
        "hot": lambda: standard_at(323.15),
        "two of a cabin": lambda: TransferCurve(frequency=np.array([20.0, 21.0]), level=LEVEL),
        "ends of a cabin": lambda: TransferCurve(
            frequency=np.array([20.0, 21.0]), level=LEVEL, phase=LEVEL
        ).response(np.array([20.0, 21.0])),
        "first order": lambda: Filter(
            family=Family.BUTTERWORTH, order=1, corner=1e-3, passes=Passes.LOW),
        "eighth order": lambda: replace(LOW, order=8),
        "no delay": lambda: Way(delay=0.0, level=-300.0).response(F),
        "below half": lambda: sections(replace(LOW, corner=23999.9), RATE),
        "no gain": lambda: biquad(
            BiquadKind.NOTCH, frequency=23999.9, sample_rate=RATE, gain=0.0),
        "stable": lambda: Biquad(b0=1, b1=0, b2=0, a1=1.9989, a2=0.999, sample_rate=RATE),
        "ends of the band": lambda: biquad(
            BiquadKind.PEAKING, frequency=90.0, sample_rate=RATE, gain=3.0
        ).response(np.array([0.0, RATE / 2])),
        "slope": lambda: shelf_q(gain=6.0, slope=1e-9),
        "tolerance": lambda: Tolerances(mass=0.5, volume=0.0, temperature=30.0),
        "no resistance": lambda: sweep(
            driver=SUB, box=BOXES["tight"], frequencies=F[:3], series_resistance=0.0),
        "fill": lambda: (Sealed(volume=1e-9, fill=1.0), Sealed(volume=1.0, fill=1.4)),
        "one cone": lambda: replace(CONE, count=1, added_mass=0.0),
        "bare cone": lambda: Radiator(sd=1e-9, mms=1e-9, cms=1e-9, rms=1e-9),
        "one port": lambda: Port(opening=ROUND, length=0.02, flare=0.01, count=1),
        "largest flare": lambda: ends(ROUND, "flanged", "flanged", 1.5 * ROUND.diameter),
        "tuned": lambda: port_for_tuning(30.0, volume=0.01, opening=RoundOpening(diameter=0.02)),
        "heat": lambda: (heated(SUB, 0.0), heated(SUB, 300.0)),
        "crest": lambda: [
            programme_power(impedance=LEVEL + 0j, passed=LEVEL, resistance=1.0, voltage=1.0,
                crest=c)
            for c in (0.0, 40.0)
        ],
        "one driver": lambda: combine(SUB, series=1, parallel=1),
        "a pair": lambda: combine(SUB, series=1, parallel=2, isobaric=True),
        "sheet": lambda: (complete_driver(**SHEET, tolerance=1.0),
                          complete_driver(**dict(list(SHEET.items())[:6]), tolerance=0.0)),
        "eight lines": lambda: parse_columns(_lines(8, 30.0)),
        "kilohertz": lambda: parse_columns("kHz Z\n" + _lines(8, 200.0)),
        "reactive": lambda: parse_impedance(_lines(8, 800.0, phase="-100")),
        "bands": lambda: (replace(LIMITS, bands=1), replace(LIMITS, bands=64)),
        "boost": lambda: replace(LIMITS, boost=40.0, cut=60.0, highest_q=100.0),
        "nothing": lambda: replace(LIMITS, boost=0.0, cut=0.0, highest_q=LIMITS.lowest_q),
        "high": lambda: replace(LIMITS, low=23520.0, high=23520.0),
        "limits": lambda: BandLimits(bands=1, boost=0.0, cut=0.0, lowest_q=1e-3, highest_q=1e-3,
                                     low=1e-3, high=1e-3, sample_rate=RATE),
        "fraction": lambda: (smoothed(F, F, 1), smoothed(F, F, 48)),
        "fine bands": lambda: (band_levels(F, F, F[5:9], fraction=48), band_levels(F, F, F[5:9],
            fraction=1)),
        "pads": lambda: (l_pad(4.0, 0.1), l_pad(4.0, 40.0)),
        "tones": lambda: (Tone(frequency=24000.0, level=0.0, seconds=1e-3).samples(F, 48000),
                          Tone(frequency=1e-3, level=-60.0, seconds=1e-3)),
        "octave": lambda: LogSweep(low=20.0, high=40.0, wanted=1e-3, level=0.0),
        "ends of a sweep": lambda: (
            LogSweep(low=20.0, high=24000.0, wanted=1e-3, level=-60.0).samples(F, 48000)),
        "noise": lambda: (PinkNoise(level=-14.0, seconds=1e-3), PinkNoise(level=-60.0,
            seconds=1.0)),
        "pulses": lambda: (PolarityPulse(frequency=10.0, level=0.0, seconds=1e-3),
                           PolarityPulse(frequency=20000.0, level=-60.0, seconds=1e-3)),
        "sides": lambda: LeftRight(frequency=24000.0, level=0.0, seconds=1e-3).samples(F, 48000),
        "gain": lambda: gain_setting(amplifier=1e-3, load=1e-3, bears=1e-3, passed=1e-3),
        "tone": lambda: tone_frequency(1e-3, 1e-3),
        "at once": lambda: in_samples(0.0, 1.0),
        "slow file": lambda: read_wav(wav_of(40000, 2, 8)),
        "long file": lambda: read_wav(wav_of(40000, 2, 4_800_000)),
    }  # fmt: skip
    return limits(calls)


SCENES = {"at their limits": taken}
