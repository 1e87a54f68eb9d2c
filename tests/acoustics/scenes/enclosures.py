"""Drivers in every kind of enclosure: loads, curves, limits, spread and targets."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial

import numpy as np

from acoustics.air.air import STANDARD, standard_at
from acoustics.circuit.band_pass_targets import band_edges, band_pass_for_band, deepest_sag
from acoustics.circuit.filters import Family, Filter, Passes, Way
from acoustics.circuit.limits import clean_level, protective_high_pass
from acoustics.circuit.sixth_order_targets import vented_band_pass_for_band
from acoustics.circuit.solver import sweep
from acoustics.circuit.targets import cost_of, sealed_for_f3, sealed_for_q
from acoustics.circuit.tolerance_bands import Tolerances, check_spread, spread
from acoustics.circuit.vented_targets import vented_for_f3, vented_for_shape, vented_for_volume
from acoustics.driver.combination import combine, wire_coils
from acoustics.driver.driver import Driver
from acoustics.driver.heat import heated, programme_power
from acoustics.enclosure.alignments import Polynomial, Shape, align, align_shape
from acoustics.enclosure.band_pass import BandPass
from acoustics.enclosure.boxes import (
    Box,
    Door,
    InfiniteBaffle,
    PassiveRadiatorBox,
    Sealed,
    Vented,
)
from acoustics.enclosure.closed_box import q_of_shape, resonance_and_q
from acoustics.enclosure.doors import door_fates
from acoustics.enclosure.openings import Radiator, Vent
from acoustics.enclosure.port import (
    End,
    Port,
    RectangularOpening,
    RoundOpening,
    port_for_tuning,
    recommended_area,
)
from tests.told import findings, refusal, refusals, row, rows

SUB = Driver(
    fs=29.0, qes=0.43, qms=4.7, vas=0.064, re=3.3, sd=0.0495, le=0.0011, semi_inductance=0.012,
    xmax=0.011, xmech=0.02, power_rating=350.0,
)  # fmt: skip
PLAIN = replace(SUB, le=0.0, semi_inductance=0.0)
ROUND = RoundOpening(diameter=0.083)
PORT = Port(opening=ROUND, length=0.24, flare=0.01)
CONE = Radiator(sd=0.05, mms=0.11, cms=0.00035, rms=1.9, added_mass=0.09, count=2, xmax=0.012)
BOXES: dict[str, Box] = {
    "baffle": InfiniteBaffle(),
    "sealed": Sealed(volume=0.031, ql=15.0, qa=40.0, fill=1.15),
    "tight": Sealed(volume=0.031),
    "vented": Vented(volume=0.058, vent=Vent.of(PORT), ql=7.0, qa=60.0, qp=45.0),
    "two ports": Vented(
        volume=0.058,
        vent=Vent(area=0.004, effective_length=0.3),
        second=Vent(area=0.002, effective_length=0.15, hydraulic_diameter=0.03),
        ql=8.0,
    ),
    "radiators": PassiveRadiatorBox(volume=0.04, radiator=CONE, ql=9.0, qa=50.0),
    "door": Door(volume=0.045, ql=2.5, opening=Vent(area=0.006, effective_length=0.05), qp=9.0),
    "closed door": Door(volume=0.045, ql=2.5),
    "band-pass": BandPass(
        rear=Sealed(volume=0.03, ql=12.0),
        front=Vented(volume=0.02, vent=Vent(area=0.008, effective_length=0.2), ql=8.0),
    ),
    "sixth order": BandPass(
        rear=Vented(volume=0.04, vent=Vent(area=0.005, effective_length=0.35), ql=9.0),
        front=Vented(volume=0.018, vent=Vent(area=0.009, effective_length=0.16), ql=8.0),
    ),
}
F = np.geomspace(8.0, 900.0, 61)
PLAYED = Way(
    filters=(
        Filter(family=Family.BUTTERWORTH, order=3, corner=25.0, passes=Passes.HIGH),
        Filter(family=Family.LINKWITZ_RILEY, order=4, corner=90.0, passes=Passes.LOW),
    ),
    level=-3.0,
    delay=0.002,
    inverted=True,
)


def _box(box: Box) -> Mapping[str, object]:
    solved = sweep(
        driver=SUB, box=box, frequencies=F, voltage=20.0, series_resistance=0.1, distance=2.0
    )
    played = sweep(
        driver=SUB, box=box, frequencies=F, voltage=30.0, filters=PLAYED, air=standard_at(303.0)
    )
    clean = clean_level(solved, amplifier_voltage=45.0, amplifier_current=9.0)
    loud = sweep(driver=SUB, box=box, frequencies=F, voltage=45.0)
    guarded = protective_high_pass(loud, order=3)
    out: dict[str, object] = {
        "spl": row(solved.spl, solved.phase),
        "delay": row(solved.group_delay),
        "excursion": row(solved.excursion, solved.impedance),
        "ports": row(solved.port_speed, solved.port_speeds, solved.reynolds_number),
        "radiator": row(solved.radiator_excursion),
        "reference": row(solved.reference, solved.passband_level),
        "falls": row(*(refusal(lambda n=n: getattr(solved, n)) for n in ("f3", "f6", "f10"))),
        "rises": row(refusal(lambda: solved.cutoff(3.0, upper=True))),
        "played": row(played.spl, played.excursion, played.pressure),
        "clean": row(clean.spl, clean.voltage, clean.binding, clean.unknown),
        "allowed": rows((name, limit) for name, limit in clean.allowed.items()),
        "guarded": row(guarded),
    }
    if hasattr(box, "resonance"):
        out["resonance"] = row(box.resonance(SUB, STANDARD))
    if not isinstance(box, InfiniteBaffle | BandPass):
        out["cost"] = row(cost_of(SUB, box, voltage=10.0, series_resistance=0.2))
    return out  # fmt: skip


def boxes() -> Mapping[str, object]:
    """Show every curve of a driver in every kind of box."""
    return {name: _box(box) for name, box in BOXES.items()}


def strayed() -> Mapping[str, object]:
    """Show how far boxes and drivers stray, and what is said of it."""
    out: dict[str, object] = {}
    for name in ("sealed", "vented", "two ports", "radiators", "sixth order"):
        bands = spread(
            driver=SUB, box=BOXES[name], frequencies=F[::4], voltage=25.0, draws=120,
            filters=None if name == "vented" else PLAYED,
            tolerances=Tolerances(port_length=0.1, temperature=10.0),
        )  # fmt: skip
        limit = float(bands.largest_excursion.median)
        speed = 17.0
        if bands.largest_port_speeds:
            speed = float(bands.largest_port_speeds[0].median)
        out[name] = {
            "bands": row(bands.spl, bands.excursion),
            "largest": row(bands.largest_excursion, bands.largest_port_speeds, bands.port_speed),
            "figures": row(bands.f3, bands.resonance, bands.qtc),
            "checks": findings(check_spread(bands, xmax=limit, port_speed=speed)),
            "wide": findings(check_spread(bands, xmax=1.0)),
        }
    usual = spread(driver=PLAIN, box=BOXES["tight"], frequencies=F[::4], draws=100, start=3)
    out["usual"] = row(usual.spl, usual.f3, usual.qtc)
    return out


def targets() -> Mapping[str, object]:
    """Show what is worked out for a target, and what is out of reach."""
    hot = standard_at(305.0)
    calls: dict[str, Callable[[], object]] = {
        "q": lambda: sealed_for_q(SUB, 0.8, ql=20.0, qa=60.0, fill=1.1, series_resistance=0.2),
        "q low": lambda: sealed_for_q(SUB, 0.2),
        "sealed f3": lambda: sealed_for_f3(SUB, 47.0, ql=20.0, air=hot),
        "sealed f3 of fill": lambda: sealed_for_f3(
            SUB, 58.0, qa=30.0, fill=1.2, series_resistance=0.3
        ),
        "sealed f3 low": lambda: sealed_for_f3(SUB, 20.0),
        "shape": lambda: vented_for_shape(SUB, Shape.QUASI_BUTTERWORTH, area=0.006, ql=12.0),
        "no shape": lambda: vented_for_shape(SUB, Shape.CHEBYSHEV, area=0.006, ql=12.0),
        "volume": lambda: vented_for_volume(SUB, 0.05, area=0.006, ql=10.0, air=hot),
        "volume uneven": lambda: vented_for_volume(SUB, 0.5, area=0.006, ripple=0.01),
        "f3": lambda: vented_for_f3(SUB, 33.0, area=0.006, ql=10.0, series_resistance=0.1),
        "f3 low": lambda: vented_for_f3(SUB, 15.0, area=0.006, ql=10.0),
        "f3 below": lambda: vented_for_f3(replace(SUB, qes=0.25), 45.0, area=0.006, ql=10.0),
        "f3 even": lambda: vented_for_f3(replace(SUB, qes=1.4), 30.0, area=0.006, ripple=0.001),
        "ripple": lambda: vented_for_f3(SUB, 33.0, area=0.006, ripple=0.0),
        "band": lambda: band_pass_for_band(SUB, 38.0, 85.0, area=0.009, ql=10.0, rear_ql=15.0),
        "sixth": lambda: vented_band_pass_for_band(
            SUB, 34.0, 80.0, area=0.009, rear_area=0.006, ql=10.0, ripple=2.0
        ),
        "sixth turned": lambda: vented_band_pass_for_band(
            SUB, 80.0, 34.0, area=0.009, rear_area=0.006
        ),
        "sixth of nothing": lambda: vented_band_pass_for_band(
            SUB, 34.0, 80.0, area=0.009, rear_area=0.006, ripple=0.0
        ),
        "sixth uneven": lambda: vented_band_pass_for_band(
            SUB, 34.0, 80.0, area=0.009, rear_area=0.006, ripple=0.01
        ),
        "sixth far": lambda: vented_band_pass_for_band(
            SUB, 300.0, 2000.0, area=0.009, rear_area=0.006
        ),
        "band below": lambda: band_pass_for_band(SUB, 15.0, 40.0, area=0.009),
        "band turned": lambda: band_pass_for_band(SUB, 50.0, 40.0, area=0.009),
        "band far": lambda: band_pass_for_band(SUB, 400.0, 1000.0, area=0.009),
    }
    reached: dict[str, object] = {name: refusal(call) for name, call in calls.items()}
    radiators = sweep(driver=SUB, box=BOXES["radiators"], frequencies=F, voltage=60.0)
    high = sweep(driver=SUB, box=BOXES["tight"], frequencies=F[40:], voltage=2000.0)
    known = replace(SUB, xmax=None, power_rating=None)
    nothing = sweep(driver=known, box=BOXES["tight"], frequencies=F)
    reached |= refusals(
        {
            "guarded": lambda: protective_high_pass(radiators, order=2),
            "guarded high": lambda: protective_high_pass(high),
            "no guard": lambda: protective_high_pass(nothing),
            "no limit": lambda: clean_level(nothing),
            "no voltage": lambda: clean_level(high, amplifier_voltage=0.0),
            "never": lambda: high.f10,
            "distance": lambda: sweep(driver=SUB, box=BOXES["tight"], frequencies=F, distance=0.0),
            "resistance": lambda: sweep(
                driver=SUB, box=BOXES["tight"], frequencies=F, series_resistance=-1.0
            ),
            "tolerance": lambda: Tolerances(mass=0.51),
            "warm": lambda: Tolerances(temperature=31.0),
            "draws": lambda: spread(driver=SUB, box=BOXES["tight"], frequencies=F, draws=99),
        }
    )
    solved = sweep(
        driver=PLAIN, box=BOXES["sixth order"], frequencies=np.geomspace(8.0, 900.0, 300)
    )
    reached["edges"] = row(band_edges(solved), deepest_sag(solved))
    return reached


def alignments() -> Mapping[str, object]:
    """Show the shapes of vented and sealed boxes."""
    out: dict[str, object] = {}
    asked = {
        Shape.BUTTERWORTH: 0.383, Shape.BESSEL: 0.312, Shape.CHEBYSHEV: 0.5,
        Shape.QUASI_BUTTERWORTH: 0.3, Shape.SUB_CHEBYSHEV: 0.33, Shape.DOUBLE_POLE: 0.33,
    }  # fmt: skip
    for shape, qts in asked.items():
        for ql in (math.inf, 7.0):
            call = partial(align_shape, shape, qts=qts, ql=ql)
            out[f"{shape} {ql}"] = refusal(call)
        out[f"{shape} sealed"] = refusal(lambda s=shape: q_of_shape(s, ripple=0.6))
    flat = Polynomial(a1=2.613, a2=3.414, a3=2.613)
    out["leaks"] = rows((refusal(partial(align, flat, ql=ql)),) for ql in (0.3, 0.6, 1.0, 3.0))
    out["leaky"] = refusal(lambda: align_shape(Shape.DOUBLE_POLE, qts=1.5, ql=0.6))
    return out


def ports() -> Mapping[str, object]:
    """Show ports of every section and end, and how long they get."""
    slot = RectangularOpening(width=0.25, height=0.03, room=0.33)
    out: dict[str, object] = {}
    for end in End:
        out[f"round {end}"] = refusal(lambda end=end: ROUND.end_correction(end))
        out[f"slot {end}"] = refusal(lambda end=end: slot.end_correction(end))
    others = {
        "flared": PORT,
        "slots": Port(opening=slot, length=0.3, outer=End.ON_WALL, inner=End.AS_WIDE, count=2),
        "wide": Port(opening=ROUND, length=0.3, flare=0.1, outer=End.FREE),
    }
    for name, port in others.items():
        out[name] = row(
            port.area, port.effective_length, port.pipe_resonance(), port.opening.hydraulic_diameter
        )
    for name, changes in {
        "one": {},
        "three": {"count": 3, "volume": 0.1},
        "flare": {"flare": 0.02},
        "beside": {"beside": 0.005},
        "beside too much": {"beside": 0.5},
        "short": {"frequency": 120.0},
        "none": {"count": 0},
        "no tuning": {"frequency": 0.0},
        "flare of a slot": {"opening": slot, "flare": 0.01},
        "large flare": {"flare": 0.13},
    }.items():
        given = {"frequency": 34.0, "volume": 0.05, "opening": ROUND, **changes}
        out[name] = refusal(lambda given=given: port_for_tuning(**given))
    out["recommended"] = row(recommended_area(tuning=34.0, displacement=0.0005))
    out["mass"] = row(
        CONE.resonance, CONE.area, CONE.compliance, CONE.added_mass_for(25.0, 0.04, STANDARD)
    )
    out["too light"] = refusal(lambda: CONE.added_mass_for(60.0, 0.04, STANDARD))
    calls: dict[str, Callable[[], object]] = {
        "flares": lambda: replace(PORT, flare=0.121),
        "ports": lambda: replace(PORT, count=0),
        "diameter": lambda: RoundOpening(diameter=0.0),
        "height": lambda: replace(slot, height=-0.1),
        "no room": lambda: replace(slot, room=None).end_correction(End.AS_WIDE),
        "small room": lambda: replace(slot, room=0.03).end_correction(End.AS_WIDE),
        "vent": lambda: Vent(area=0.0, effective_length=0.1),
        "wet": lambda: Vent(area=0.1, effective_length=0.1, hydraulic_diameter=0.0),
        "cones": lambda: replace(CONE, count=0),
        "lighter": lambda: replace(CONE, added_mass=-0.1),
        "still": lambda: replace(CONE, xmax=0.0),
        "light": lambda: CONE.added_mass_for(90.0, 0.04, STANDARD),
        "fill": lambda: Sealed(volume=0.03, fill=1.5),
        "leak": lambda: Sealed(volume=0.03, ql=0.0),
        "port loss": lambda: replace(BOXES["vented"], qp=0.0),
        "metal": lambda: door_fates(volume=0.04, ql=3.0, factory=PLAIN, thickness=0.11),
        "cold": lambda: standard_at(250.0),
        "coils": lambda: wire_coils(SUB, stated="both", wired="single"),
        "no drivers": lambda: combine(SUB, series=0),
        "half a driver": lambda: combine(SUB, parallel=1.5),
        "heat": lambda: heated(SUB, 301.0),
        "crest": lambda: programme_power(
            impedance=np.ones(3), passed=np.ones(3), resistance=3.0, voltage=20.0, crest=41.0),
    }  # fmt: skip
    out["refused"] = refusals(calls)
    fates = door_fates(volume=0.045, ql=3.0, factory=replace(PLAIN, sd=0.013), thickness=0.0009)
    out["doors"] = row(fates.left_open, fates.unplugged.opening, fates.blanked)
    out["measured hole"] = row(
        door_fates(
            volume=0.045, ql=3.0, factory=PLAIN, thickness=0.001, area=0.01, qp=4.0
        ).left_open
    )
    out["air"] = rows((t, standard_at(t), standard_at(t).bulk_modulus) for t in (263.15, 310.0))
    return out


def drivers() -> Mapping[str, object]:
    """Show drivers combined, wired, heated and in a closed box."""
    out: dict[str, object] = {
        "derived": row(SUB.qts, SUB.cms, SUB.mms, SUB.rms, SUB.bl, SUB.efficiency, SUB.ws),
        "level": row(SUB.reference_level(), SUB.reference_level(
            voltage=10.0, series_resistance=1.0, distance=2.0, air=standard_at(263.15))),
        "hot": row(heated(SUB), heated(SUB, 50.0).re),
        "closed": row(*resonance_and_q(SUB, BOXES["sealed"], series_resistance=0.3)),
        "leaky": row(*resonance_and_q(SUB, Sealed(volume=0.03, ql=0.4, qa=0.3))),
        "power": row(programme_power(
            impedance=np.array([4.0 + 1j, 9.0, 3.5 - 2j]), passed=np.array([0.3, 1.0, 0.8]),
            resistance=3.3, voltage=20.0, crest=9.0)),
    }  # fmt: skip
    for stated in ("single", "series", "parallel"):
        for wired in ("single", "series", "parallel"):
            both = wire_coils(SUB, stated=stated, wired=wired)
            out[f"{stated} {wired}"] = row(
                both.re, both.le, both.semi_inductance, both.qes, both.power_rating
            )
    for series, parallel, isobaric in ((1, 2, False), (2, 3, False), (2, 1, True), (3, 1, True)):
        call = partial(combine, SUB, series=series, parallel=parallel, isobaric=isobaric)
        out[f"{series} {parallel} {isobaric}"] = refusal(call)
    return out


SCENES = {
    "boxes": boxes,
    "strayed": strayed,
    "targets": targets,
    "alignments": alignments,
    "ports": ports,
    "drivers": drivers,
}
