"""Filters, crossings, equalisers, test signals, recordings and standing waves."""

from __future__ import annotations

import hashlib
import io
import struct
import wave
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

import numpy as np

from acoustics.air.cabin import PressureZoneBound, TransferCurve
from acoustics.air.hexahedron import hexahedron_frequencies, hexahedron_volume, judge_hexahedron
from acoustics.air.modes import judge_modes, prism_modes, profile_frequencies, square_profile
from acoustics.circuit.biquads import Biquad, BiquadKind, biquad, shelf_q
from acoustics.circuit.filters import (
    Family,
    Filter,
    Norm,
    Passes,
    Way,
    alignment_delays,
    sum_of_ways,
)
from acoustics.setup.bands import THIRDS, band_levels, power_average, smoothed, smoothed_floor
from acoustics.setup.crossing import aligned, crossing
from acoustics.setup.equalise import BandLimits, equalise
from acoustics.setup.hearing import a_weight, c_weight, time_a_day, time_a_week
from acoustics.setup.measure import least_phase, measure
from acoustics.setup.passive import l_pad, network
from acoustics.setup.sections import sections
from acoustics.setup.signals import (
    LeftRight,
    LogSweep,
    MarkedSweep,
    PinkNoise,
    PolarityPulse,
    Signal,
    Tone,
)
from acoustics.setup.start import (
    beams_from,
    gain_setting,
    in_samples,
    largest_level,
    tone_frequency,
)
from acoustics.setup.wav import flac, read_wav, wav, wav_length
from tests.told import findings, refusal, refusals, row, rows

F = np.geomspace(20.0, 20000.0, 60)
RATE = 48000.0
LOW = Filter(family=Family.LINKWITZ_RILEY, order=4, corner=90.0, passes=Passes.LOW)
HIGH = replace(LOW, passes=Passes.HIGH, corner=75.0)
LIMITS = BandLimits(bands=4, boost=3.0, cut=12.0, lowest_q=0.5, highest_q=8.0, low=30.0,
                    high=4000.0, sample_rate=RATE)  # fmt: skip


def filters() -> Mapping[str, object]:
    """Show every family and order, whole and in sections, of coils and capacitors."""
    out: dict[str, object] = {}
    for family in Family:
        for order in range(1, 9):
            norms = Norm if family is Family.BESSEL and order == 5 else (Norm.MAGNITUDE,)
            for norm in norms:
                passes = tuple(Passes)[order // 2 % 2]
                out[f"{family} {order} {norm}"] = refusal(
                    partial(_filter, family, order, passes, norm)
                )
    way = Way(filters=(LOW,), level=-4.0, delay=0.001, inverted=True)
    out["way"] = row(way.response(F), sum_of_ways((way, Way(filters=(HIGH,))), F))
    out["delays"] = row(alignment_delays(np.array([0.9, 1.4, 2.2])))
    calls: dict[str, Callable[[], object]] = {
        "no ways": lambda: sum_of_ways((), F),
        "level": lambda: Way(level=float("inf")),
        "delay": lambda: Way(delay=-0.001),
        "corner": lambda: replace(LOW, corner=0.0),
        "order": lambda: replace(LOW, order=10),
        "distance": lambda: alignment_delays(np.array([0.9, 0.0])),
        "above": lambda: sections(replace(LOW, corner=24000.0), RATE),
    }
    return out | {"refused": refusals(calls)}  # fmt: skip


def _filter(family: Family, order: int, passes: Passes, norm: Norm) -> object:
    cut = Filter(family=family, order=order, corner=700.0, passes=passes, norm=norm)
    at = np.array([90.0, 700.0, 2500.0])
    parts = [(s.b0, s.b1, s.b2, s.a1, s.a2) for s in sections(cut, RATE)]
    pieces = network(cut, 4.0)
    values = [piece.value * (1e3 if piece.component == "coil" else 1e6) for piece in pieces]
    return (
        tuple(np.abs(cut.response(at))), tuple(np.angle(cut.response(at))),
        [piece.component[:3] for piece in pieces], pieces[0].place,
        tuple(values), tuple(np.sum(parts, axis=0)), parts[0],
    )  # fmt: skip


def biquads() -> Mapping[str, object]:
    """Show every kind of biquad and its response."""
    out: dict[str, object] = {}
    with_gain = ("peaking", "low-shelf", "high-shelf")
    for kind in BiquadKind:
        gain = 4.5 if kind.value in with_gain else 0.0
        section = biquad(kind, frequency=900.0, sample_rate=RATE, q=1.3, gain=gain)
        out[kind] = row(section, section.response(F))
    out["usual"] = row(biquad(BiquadKind.LOW_PASS, frequency=900.0, sample_rate=44100.0))
    out["slopes"] = row(shelf_q(gain=g, slope=s) for g, s in ((6.0, 0.5), (-9.0, 1.2)))
    calls: dict[str, Callable[[], object]] = {
        "slope": lambda: shelf_q(gain=20.0, slope=4.0),
        "gain": lambda: biquad(BiquadKind.NOTCH, frequency=90.0, sample_rate=RATE, gain=1.0),
        "infinite": lambda: biquad(
            BiquadKind.PEAKING, frequency=90.0, sample_rate=RATE, gain=float("inf")),
        "frequency": lambda: biquad(BiquadKind.NOTCH, frequency=24000.0, sample_rate=RATE),
        "unstable": lambda: Biquad(b0=1, b1=0, b2=0, a1=0, a2=1.0, sample_rate=RATE),
        "unstable first": lambda: Biquad(b0=1, b1=0, b2=0, a1=-1.5, a2=0.5, sample_rate=RATE),
        "beyond": lambda: biquad(BiquadKind.NOTCH, frequency=90.0, sample_rate=RATE).response(
            np.array([24001.0])),
    }  # fmt: skip
    return out | {"refused": refusals(calls)}


def crossings() -> Mapping[str, object]:
    """Show where ways cross, how they add, and by what delay they are brought together."""
    wide = replace(HIGH, corner=300.0)
    odd = replace(LOW, family=Family.BUTTERWORTH, order=3)
    high_odd = replace(odd, passes=Passes.HIGH)
    f = np.geomspace(30.0, 400.0, 90)
    late = Way(filters=(HIGH,), delay=0.0016, inverted=True, level=2.0)
    out: dict[str, object] = {
        name: row(found, found and found.better)
        for name, found in {
            "even": crossing(LOW, replace(LOW, passes=Passes.HIGH)),
            "apart": crossing(LOW, wide),
            "odd": crossing(odd, high_odd),
            "second": crossing(replace(LOW, order=2), replace(HIGH, order=2)),
            "never": crossing(HIGH, Way(level=-100.0)),
        }.items()
    }
    out["brought"] = row(aligned(f, LOW.response(f), late.response(f), middle=82.0))
    out["as they are"] = row(aligned(f, LOW.response(f), HIGH.response(f), middle=82.0))
    out["too few"] = refusal(
        lambda: aligned(f[::30], LOW.response(f[::30]), late.response(f[::30]), middle=82.0)
    )
    return out


def equalisers() -> Mapping[str, object]:
    """Show bands set to a target at two seats, and curves smoothed."""
    f = np.geomspace(20.0, 8000.0, 120)
    octaves = np.log2(f / 200.0)
    bump = 6.0 * np.exp(-((octaves - 1.0) ** 2)) - 3.0 * np.exp(-((octaves + 1.5) ** 2) * 4)
    null = -16.0 * np.exp(-((octaves - 3.2) ** 2) * 60)
    levels = np.stack([80 + bump + null, 80 + 0.8 * bump + np.sin(3 * octaves)])
    target = 79.0 - 1.5 * octaves / 3
    out: dict[str, object] = {}
    for name, limits in {
        "usual": LIMITS,
        "cut only": replace(LIMITS, boost=0.0, bands=2),
        "narrow": replace(LIMITS, low=100.0, high=900.0, highest_q=2.0),
    }.items():
        done = equalise(f, levels, target, limits)
        out[name] = row(
            done.bands, done.level, done.before, done.after, done.nulls.sum(), done.change
        )
    dips = np.zeros(f.size)
    dips[12:108:12] = -np.linspace(5.4, 7.8, 8)
    dipped = equalise(f, (80 + bump + dips)[None], target, LIMITS)
    out["nulls"] = row(np.flatnonzero(dipped.nulls).tolist(), dipped.bands, dipped.level)
    out["section"] = row(done.bands[0].section(RATE))
    out["alone"] = row(equalise(f, levels[:1], target, LIMITS).bands)
    out["smoothed"] = row(smoothed(f, levels[0], 3), smoothed(f, levels[0], 1))
    out["average"] = row(power_average(levels), smoothed_floor(levels[0]))
    out["bands"] = row(band_levels(f, 10 ** (levels[0] / 20), THIRDS[3:20]))
    linear = np.linspace(0.0, 9000.0, 700)
    out["whole"] = row(band_levels(linear, 1 / (200.0 + linear), THIRDS[10:20], fraction=1))
    calls: dict[str, Callable[[], object]] = {
        "few": lambda: equalise(f[::20], levels[:, ::20], target[::20], LIMITS),
        "bands": lambda: replace(LIMITS, bands=65),
        "boost": lambda: replace(LIMITS, boost=41.0),
        "cut": lambda: replace(LIMITS, cut=61.0),
        "q": lambda: replace(LIMITS, highest_q=0.4),
        "high": lambda: replace(LIMITS, high=23900.0),
        "fraction": lambda: smoothed(f, levels[0], 49),
        "no bands": lambda: band_levels(f, f, THIRDS, fraction=0),
    }
    return out | {"refused": refusals(calls)}


def signals() -> Mapping[str, object]:
    """Show every test signal: some samples, its size, its file."""
    swept = LogSweep(low=20.0, high=20000.0, wanted=0.7, level=-12.0)
    played: dict[str, Signal] = {
        "tone": Tone(frequency=1000.0, level=-12.0, seconds=0.3),
        "sweep": swept,
        "noise": PinkNoise(level=-20.0, seconds=0.2),
        "pulse": PolarityPulse(frequency=50.0, level=-6.0, seconds=0.8),
        "sides": LeftRight(frequency=800.0, level=-9.0, seconds=4.6),
        "marked": MarkedSweep(sweep=swept),
    }
    out: dict[str, object] = {}
    for name, signal in played.items():
        n = np.arange(0, round(signal.seconds * 48000), 37, dtype=float)
        samples = signal.samples(n, 48000)
        out[name] = row(
            signal.seconds, signal.channels, [samples[:, c] for c in range(signal.channels)],
            wav_length(signal, rate=44100, bits=16),
        )  # fmt: skip
    file = b"".join(wav(played["sides"], rate=44100, bits=24))
    samples, rate = read_wav(file)
    head = struct.unpack("<4sI4s4sIHHIIHH4sI", file[:44])
    out["file"] = row(len(file), [str(part) for part in head], rate, samples)
    out["lossless"] = row(len(flac(played["tone"], rate=48000, bits=16)) > 1000)
    out["small file"] = hashlib.sha256(
        b"".join(wav(played["pulse"], rate=44100, bits=16))
    ).hexdigest()[:12]
    out["at"] = row(swept.rate_of_rise, [swept.at(f) for f in (20.0, 1000.0, 20000.0)])
    marked = played["marked"]
    assert isinstance(marked, MarkedSweep)
    out["marks"] = row(marked.second_mark_at, marked.mark)
    calls: dict[str, Callable[[], object]] = {
        "loud": lambda: Tone(frequency=1000.0, level=1.0, seconds=1.0),
        "loud noise": lambda: PinkNoise(level=-13.0, seconds=1.0),
        "narrow": lambda: LogSweep(low=20.0, high=39.0, wanted=1.0, level=-12.0),
        "outside": lambda: swept.at(19.0),
        "too high": lambda: LogSweep(low=20.0, high=23000.0, wanted=1.0, level=-9.0).samples(
            F, 44100
        ),
        "high tone": lambda: Tone(frequency=23000.0, level=-9.0, seconds=1.0).samples(F, 44100),
        "pulse": lambda: PolarityPulse(frequency=9.0, level=-9.0, seconds=1.0),
        "rate": lambda: wav_length(played["tone"], rate=96000, bits=16),
        "bits": lambda: wav_length(played["tone"], rate=48000, bits=32),
        "not wav": lambda: read_wav(b"RIFF nothing"),
        "slow": lambda: read_wav(wav_of(22050, 2, 100)),
        "eight bits": lambda: read_wav(wav_of(48000, 1, 100)),
        "nothing in it": lambda: read_wav(wav_of(48000, 2, 0)),
        "long": lambda: read_wav(wav_of(100, 1, 12_001)),
        "odd": lambda: read_wav(wav_of(48000, 2, 3)),
    }
    return out | {"refused": refusals(calls)}


def wav_of(rate: int, width: int, frames: int) -> bytes:
    packed = io.BytesIO()
    with wave.open(packed, "wb") as file:
        file.setparams((1, width, rate, frames, "NONE", ""))
        file.writeframes(bytes(range(1, 1 + width)) * frames)
    return packed.getvalue()


PLAYED = MarkedSweep(sweep=LogSweep(low=20.0, high=20000.0, wanted=1.0, level=-12.0))


def _recorded(channel: Way) -> np.ndarray:
    """What a microphone hears: channel and mark, an echo, noise, and its own clock."""
    count = round(PLAYED.seconds * 48000) + 12000
    both = PLAYED.samples(np.arange(count) / (1.0 + 30e-6), 48000)
    size = 1 << (count - 1).bit_length() + 1
    f = np.fft.rfftfreq(size, 1 / 48000)
    heard = channel.response(np.maximum(f, 1.0)) * (1 + 0.3 * np.exp(-2j * np.pi * f * 0.003))
    mark = np.exp(-2j * np.pi * f * 0.0013)
    sound = sum(
        np.fft.irfft(np.fft.rfft(both[:, side], size) * response, size)[:count]
        for side, response in enumerate((heard, mark))
    )
    return 0.3 * np.asarray(sound) + 2e-5 * np.random.default_rng(2).standard_normal(count)


def recordings() -> Mapping[str, object]:
    """Show channels measured by a marked sweep, and recordings that tell nothing."""
    wide = Way(filters=(HIGH, replace(LOW, corner=5000.0)), delay=0.0041, inverted=True)
    deep = Way(filters=(LOW, replace(HIGH, corner=28.0, order=2)), delay=0.0023)
    out: dict[str, object] = {}
    for name, channel in {"wide": wide, "deep": deep}.items():
        told = measure(_recorded(channel), 48000, PLAYED)
        out[name] = {
            "told": row(told.delay and told.delay * 1e3, told.inverted, (told.clock or 0.0) * 1e6),
            "within": row((told.delay_within or 0.0) * 1e6),
            "level": row(told.level[3:27]),
            "noise": row(told.noise[np.isfinite(told.noise)], told.response),
            "least": row(
                least_phase(told.frequency, np.abs(told.response), told.level, told.noise)
            ),
        }
    recording = _recorded(wide)
    hiss = 0.1 * np.random.default_rng(3).standard_normal(len(recording))
    calls: dict[str, Callable[[], object]] = {
        "short": lambda: measure(recording[:96000], 48000, PLAYED),
        "silent": lambda: measure(recording * 1e-5, 48000, PLAYED),
        "clipped": lambda: measure(np.clip(recording * 30, -1.0, 1.0), 48000, PLAYED),
        "other rate": lambda: measure(recording, 44100, PLAYED),
        "no marks": lambda: measure(hiss, 48000, PLAYED),
        "lost": lambda: measure(np.delete(recording, slice(100000, 100100)), 48000, PLAYED),
    }
    return out | {"refused": refusals(calls)}


def waves() -> Mapping[str, object]:
    """Show standing waves of prisms and of leaning boxes, and what a cabin adds."""
    shape = ((0.0, 0.0), (0.5, 0.0), (0.5, 0.2), (0.3, 0.25), (0.0, 0.45))
    square = ((0.0, 0.0), (0.4, 0.0), (0.4, 0.3), (0.0, 0.3))
    cube = tuple(
        (0.5 * x, 0.4 * y, 0.3 * z) for y in (0, 1) for x, z in ((0, 1), (1, 1), (1, 0), (0, 0))
    )
    lean = (*cube[:4], *((x * 0.8 + 0.02, y, z * 0.9) for x, y, z in cube[4:]))
    out: dict[str, object] = {
        "profile": row(profile_frequencies(shape, count=5)),
        "turned": row(profile_frequencies(tuple((y, x) for x, y in shape), count=5)),
        "square": row(profile_frequencies(square, count=6, speed_of_sound=350.0)),
        "as square": row(square_profile(shape)),
        "lean": row(hexahedron_frequencies(lean, count=6), hexahedron_volume(lean)),
        "cube": row(hexahedron_frequencies(cube, count=5), hexahedron_volume(cube)),
    }
    modes = prism_modes(profile=shape, width=0.6, count=8)
    out["prism"] = row(modes.frequencies, modes.indices)
    for name, verdict in {
        "bass": judge_modes(profile=shape, width=0.6, highest_used=150.0),
        "band": judge_modes(profile=shape, width=0.6, highest_used=420.0, count=6),
        "of a square": judge_modes(profile=square, width=0.3, highest_used=500.0),
        "of a lean": judge_hexahedron(corners=lean, highest_used=500.0, count=6),
        "of a cube": judge_hexahedron(corners=cube, highest_used=100.0, count=3),
    }.items():
        out[name] = row(
            verdict.in_band,
            verdict.in_band_rectangle,
            round(verdict.shift, 6),
            verdict.rectangle.frequencies,
        )
        out[f"{name} said"] = findings(verdict.findings)
    zone = PressureZoneBound(volume=3.0, length=2.4, distance=1.5)
    out["cabin"] = row(zone.joining_frequency, zone.first_mode, zone.gain(F))
    curve = TransferCurve(frequency=F, level=np.sin(np.log(F)), phase=120 * np.log(F))
    out["curve"] = row(curve.gain(np.array([25.0, 333.0])), curve.response(np.array([25.0, 333.0])))
    calls: dict[str, Callable[[], object]] = {
        "count": lambda: profile_frequencies(shape, count=0),
        "corners": lambda: profile_frequencies(shape[:2], count=2),
        "crossing": lambda: profile_frequencies(((0, 0), (1, 1), (1, 0), (0, 1)), count=2),
        "thin": lambda: profile_frequencies(((0, 0), (1, 0), (1, 1e-11)), count=2),
        "pairs": lambda: profile_frequencies(((0, 0), (1, 0), (1, float("nan"))), count=2),
        "width": lambda: prism_modes(profile=shape, width=0.0),
        "eight": lambda: hexahedron_volume(cube[:7]),
        "inside out": lambda: hexahedron_volume(cube[::-1]),
        "none": lambda: hexahedron_frequencies(cube, count=0),
        "no phase": lambda: replace(curve, phase=None).response(F),
        "outside": lambda: curve.gain(np.array([19.0])),
        "falling": lambda: TransferCurve(frequency=F[::-1], level=F),
        "columns": lambda: TransferCurve(frequency=F, level=F[:5]),
        "infinite": lambda: TransferCurve(frequency=F, level=F * np.inf),
    }
    return out | {"refused": refusals(calls)}


def starting() -> Mapping[str, object]:
    """Show gains, tones, levels and hearing before anything is measured."""
    gains = [
        gain_setting(amplifier=a, load=load, bears=bears, passed=p)
        for a, load, bears, p in (
            (30.0, 4.0, 100.0, 0.8), (15.0, 4.0, 100.0, 1.0), (20.0, 4.0, None, 1.0), (20.0, 4.0,
                100.0, 1.0),
        )
    ]  # fmt: skip
    ends = ((None, None), (80.0, None), (80.0, 100.0), (None, 60.0), (2000.0, None), (9000.0, None))
    calls: dict[str, Callable[[], object]] = {
        "amplifier": lambda: gain_setting(amplifier=0.0, load=4.0, bears=None),
        "bears": lambda: gain_setting(amplifier=1.0, load=4.0, bears=0.0),
        "tone": lambda: tone_frequency(-1.0, None),
        "series": lambda: largest_level(90.0, 10.0, in_series=0, in_parallel=1),
        "area": lambda: beams_from(0.0),
        "delay": lambda: in_samples(-0.1, 48000.0),
        "pad": lambda: l_pad(4.0, 41.0),
    }
    return {
        "gains": rows((g.full, g.reading, g.coil, g.held_by_coil) for g in gains),
        "tones": row(tone_frequency(low, high) for low, high in ends),
        "levels": row(
            largest_level(90.0, 20.0, in_series=s, in_parallel=p)
            for s, p in ((1, 1), (2, 1), (2, 3))
        ),
        "beams": row(
            beams_from(0.0135), beams_from(0.05, speed_of_sound=350.0), in_samples(0.00123, 44100.0)
        ),
        "weights": row(a_weight(F), c_weight(F)),
        "times": row(time_a_day(85.0), time_a_day(97.0), time_a_week(80.0), time_a_week(93.0)),
        "pad": row(l_pad(4.0, 6.0)),
        "refused": refusals(calls),
    }


SCENES = {
    "filters": filters,
    "biquads": biquads,
    "crossings": crossings,
    "equalisers": equalisers,
    "signals": signals,
    "recordings": recordings,
    "waves": waves,
    "starting": starting,
}
