"""Cables, fuses, terminals, supplies and what is drawn from them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import partial

import numpy as np

from tests.told import findings, refusal, row, rows
from tests.wiring.scenes.networks import BLADE, FOUR, STRIP
from wiring.cable.ampacity import TABLE_5, TABLE_5_CLASSES, ambient_factor, ampacity, bundle_factor
from wiring.cable.conductor import (
    AWG_NUMBERS,
    CLASS_5,
    METALS,
    SAE_AREAS,
    awg,
    awg_area,
    metric,
    sae,
)
from wiring.cable.drop import CableReturn, ChassisReturn, return_resistance, voltage_drop
from wiring.cable.fuse import (
    breaking_need_by_cca,
    opening_time,
    usable_current,
    warm_rating,
)
from wiring.cable.markings import COLOUR_LETTERS, colour_names, split_label
from wiring.cable.terminals import (
    CrimpTerminal,
    Passage,
    bend_radius,
    check_bend,
    check_passages,
    check_stud,
    check_terminal,
    check_terminal_size,
    pull_force,
    support_count,
)
from wiring.network.feed import Bound, Feed, LimitedFeed
from wiring.network.parts import blocks_of_12
from wiring.network.short_circuit import (
    adiabatic_constant,
    cold_resistance_by_cca,
    prospective_current,
    withstand_energy,
    withstand_time,
)
from wiring.network.transient import (
    BassNote,
    CapacitorBank,
    capacitor_benefit,
    check_transient,
    sag,
)
from wiring.supply.amplifier import (
    Amplifier,
    AmplifierClass,
    constant_power_current,
    share_of_crest,
)
from wiring.supply.heat import amplifier_heat, check_heat
from wiring.supply.reserve import (
    Battery,
    check_key_off,
    check_reserve,
    key_off_time,
    peukert_time,
)
from wiring.supply.supply import (
    Alternator,
    DcDcConverter,
    Demand,
    Tap,
    VehicleSupply,
    check_supply,
    supply_budget,
)

AB = Amplifier(id="A1", stage=AmplifierClass.AB, rated_output=200.0, efficiency=0.6, idle_power=9.0)
D = Amplifier(id="A2", stage=AmplifierClass.D, rated_output=500.0, efficiency=0.82, idle_power=12.0)
UNKNOWN = Amplifier(id="A3", stage=AmplifierClass.D, rated_output=300.0, efficiency=0.8)
NOTE = BassNote(rest_power=60.0, power=700.0, duration=0.015)
BANK = CapacitorBank(capacitance=1.2, series_resistance=0.003)


def conductors() -> Mapping[str, object]:
    """Show every listed size of every metal: mΩ/m, mm², what it carries warm and cold."""
    out: dict[str, object] = {}
    for insulation in TABLE_5_CLASSES:
        carried = [ampacity(awg(size, insulation=insulation)).current for size in TABLE_5]
        out[f"class {insulation}"] = row(carried)
    out["areas"] = row([awg_area(size) * 1e6 for size in AWG_NUMBERS])
    out["sae"] = row([sae(size).area * 1e6 for size in SAE_AREAS])
    areas = [area * 1e-6 for area in (*CLASS_5, 3.0, 7.5, 42.0, 100.0)]
    for tinned in (False, True):
        cables = [metric(area, tinned=tinned) for area in areas]
        out[f"metric {tinned}"] = row([c.resistance_20 * 1e3 for c in cables], cables[-2].label)
    for metal in METALS:
        cable = awg("2", metal=metal, insulation=90)
        warm = ampacity(cable, ambient=55.0, bundled=5)
        out[metal] = row(
            cable.resistance(75.0) * 1e3, cable.mass, cable.label, warm,
            adiabatic_constant(metal=metal, start=90.0, final=200.0),
            withstand_energy(cable), withstand_time(cable, 900.0),
        )  # fmt: skip
    rated = metric(
        16e-6, insulation=125, rated_current=130.0, rated_ambient=85.0, rated_source="sheet",
        fault_temperature=200.0, metal="aluminium",
    )  # fmt: skip
    out["rated"] = row(ampacity(rated, ambient=95.0, bundled=3), withstand_energy(rated))
    out["between"] = row(ampacity(metric(12e-6, insulation=110), ambient=20.0, bundled=1))
    out["of sae"] = row(ampacity(sae("8", insulation=70), ambient=40.0, bundled=24))
    out["bundles"] = row(bundle_factor(count) for count in (1, 2, 3, 4, 6, 7, 24))
    out["hot"] = row(ambient_factor(insulation=90.0, ambient=80.0, reference=40.0))
    out["faults"] = row(
        prospective_current(emf=12.6, source_resistance=0.005, path_resistance=0.002),
        cold_resistance_by_cca(620.0), [blocks_of_12(emf) for emf in (12.0, 16.1, 36.0, 48.0)],
    )  # fmt: skip
    return out


def drops() -> Mapping[str, object]:
    """Show voltages lost in cables and their ways back, and fuses of all kinds."""
    thin = awg("8", insulation=90)
    ways = {
        "alike": None,
        "cable": CableReturn(conductor=thin, length=1.5),
        "body": ChassisReturn(resistance=0.002),
        "body and cable": ChassisReturn(resistance=0.002, conductor=thin, length=0.6),
        "unknown": CableReturn(conductor=None, length=1.0),
    }
    out: dict[str, object] = {}
    for name, way in ways.items():
        lost = partial(
            voltage_drop, current=40.0, length=4.0, conductor=FOUR, return_path=way,
            temperature=60.0, joints=0.001,
        )  # fmt: skip
        out[name] = refusal(lost)
        if way is not None:
            out[f"{name} back"] = refusal(lambda way=way: return_resistance(way, 45.0) * 1e3)
    currents = (50.0, 108.0, 120.0, 160.0, 200.0, 281.0, 480.0, 900.0)
    out["opens"] = row(opening_time(STRIP, current) for current in currents)
    out["warm"] = row(
        [warm_rating(STRIP, ambient=t) for t in (-20.0, 25.0, 26.0, 85.0)],
        [warm_rating(BLADE, ambient=t) for t in (0.0, 85.0)], usable_current(BLADE, ambient=60.0),
    )  # fmt: skip
    cranks = (300.0, 650.0, 651.0, 1100.0, 1101.0, 2200.0)
    out["needs"] = row(
        breaking_need_by_cca(cca, main=main) for cca in cranks for main in (True, False)
    )
    return out  # fmt: skip


def terminals() -> Mapping[str, object]:
    """Show crimps, bends, supports, passages and markings."""
    areas = (0.1e-6, 0.2e-6, 0.4e-6, 0.6e-6, 1e-6, 1.5e-6, 2.5e-6, 4e-6, 6e-6, 10e-6, 16e-6,
             25e-6, 35e-6, 50e-6, 60e-6)  # fmt: skip
    out: dict[str, object] = {
        "pulls": rows([pull_force(area)] for area in areas),
        "bends": row(
            bend_radius(outer_diameter=d, screened=s, maker_radius=m)
            for d, s, m in ((0.01, False, None), (0.0254, False, 0.2), (0.03, False, 0.1),
                            (0.0508, False, None), (0.06, False, None), (0.01, True, 0.05))
        ),
        "supports": row(
            support_count(length, battery_cable=b) for length in (0.3, 0.9, 1.0) for b in (True,
                False)
        ),
        "colours": row(colour_names("".join(COLOUR_LETTERS)), split_label("S012")),
    }  # fmt: skip
    ring = CrimpTerminal(name="ring", metals=frozenset({"copper"}), torque=9.0, stud="M8",
                         smallest=10e-6, largest=16e-6)  # fmt: skip
    kinds = {
        "ring": ring,
        "unknown": replace(ring, metals=None, torque=None, largest=None, stud=""),
        "ferrule": replace(ring, on_stud=False, torque=None, smallest=None),
    }
    for name, kind in kinds.items():
        for metal in ("copper", "aluminium"):
            out[f"{name} {metal}"] = findings(check_terminal(kind, metal=metal, about="P01"))
        sizes = (9.8e-6, 9.95e-6, 16.1e-6, 17e-6)
        out[f"{name} sizes"] = row(
            (f.code, f.limit)
            for a in sizes
            for f in check_terminal_size(kind, area=a, about="P01", detail=("start",))
        )
        out[f"{name} stud"] = row(
            f.code for stud in ("m8", "M10", "") for f in check_stud(kind, stud=stud, about="P01")
        )  # fmt: skip
    ways = [
        Passage(id=f"{metal} {grommet}", place="wall", metal=metal, grommet=grommet)
        for metal in (True, False, None) for grommet in (True, False, None)
    ]  # fmt: skip
    out["passages"] = row((f.code, f.detail) for f in check_passages(ways, about="P01"))
    for radius in (None, 0.03, 0.04):
        out[f"bend {radius}"] = findings(
            check_bend(radius=radius, outer_diameter=0.01, about="P01")
        )
    out["no diameter"] = findings(check_bend(radius=0.1, outer_diameter=None, about="P01"))
    return out


def supplies() -> Mapping[str, object]:
    """Show amplifiers, alternators, converters, reserves and cautions."""
    shares = np.array([0.0, 0.05, 0.4, 1.0])
    out: dict[str, object] = {
        amplifier.id: row(
            amplifier.input_power(shares), amplifier.current(share=0.3, voltage=13.8),
            amplifier.heat(shares), amplifier.worst_heat(), amplifier_heat(amplifier, 0.125),
        )
        for amplifier in (AB, D, UNKNOWN)
    }  # fmt: skip
    out["crests"] = row(share_of_crest(crest) for crest in (3.02, 6.0, 12.0))
    out["constant"] = row(constant_power_current(output=100.0, efficiency=0.8, voltage=12.5))
    for closed in (True, False, None):
        out[f"closed {closed}"] = findings(check_heat(AB, share=0.125, closed_space=closed))
    demand = Demand(amplifiers=(AB, D), share=0.125, voltage=13.5, other_current=3.0,
                    vehicle_current=35.0, charge_current=10.0)  # fmt: skip
    known = VehicleSupply(start_stop=False, smart_charging=True, high_voltage=False)
    taps = (replace(known, tap=Tap.HIGH), replace(known, tap=Tap.FORTY_EIGHT, start_stop=True),
            VehicleSupply(start_stop=None, smart_charging=None, high_voltage=None))  # fmt: skip
    sources = {
        "alternator": Alternator(rated_current=90.0, idle_current=50.0, hot_factor=0.8),
        "small": Alternator(rated_current=70.0, idle_current=30.0, hot_factor=0.8),
        "unknown": Alternator(rated_current=None, idle_current=None, hot_factor=None),
        "converter": DcDcConverter(current_limit=80.0, accessory_limit=30.0),
        "small converter": DcDcConverter(current_limit=50.0, accessory_limit=10.0),
        "plenty": DcDcConverter(current_limit=200.0, accessory_limit=100.0),
        "unknown converter": DcDcConverter(current_limit=None, accessory_limit=None),
    }
    for name, source in sources.items():
        out[f"{name} budget"] = row(supply_budget(source, demand))
        out[name] = findings(check_supply(source=source, demand=demand, vehicle=known))
    less = replace(demand, amplifiers=(UNKNOWN,), vehicle_current=None, charge_current=None)
    for number, tap in enumerate(taps):
        said = check_supply(source=sources["alternator"], demand=less, vehicle=tap)
        out[f"tap {number}"] = row((f.code, f.about, f.detail) for f in said)
    battery = Battery(capacity=252e3, rated_time=72e3, peukert=1.2, usable_share=0.5)
    out["reserve"] = row(
        [battery.reserve_time(current) for current in (2.0, 3.5, 20.0)],
        peukert_time(current=10.0, capacity=2e5, rated_time=72e3, exponent=1.1),
        key_off_time(usable_capacity=1e5, current=0.03),
    )
    for wanted in (None, 3600.0, 36e3):
        out[f"wanted {wanted}"] = findings(
            check_reserve(battery=battery, current=9.0, wanted=wanted)
        )
    out["no battery"] = findings(check_reserve(battery=None, current=9.0, wanted=None))
    for added, total in ((None, None), (0.01, 0.05), (0.0101, 0.0501)):
        out[f"key off {added} {total}"] = findings(check_key_off(added=added, total=total))
    return out


def transients() -> Mapping[str, object]:
    """Show what a note does to the voltage, with and without a bank, near and at collapse."""
    feed = Feed(open_voltage=13.2, source_resistance=0.012, tail_resistance=0.004, lead=0.001,
                bank_open_voltage=13.1)  # fmt: skip
    bound = {"open_voltage": 14.0, "per_load": 0.01, "per_bank": 0.008}
    limited = LimitedFeed(
        feeds=(
            replace(feed, bounds=(Bound(low=13.8, high=20.0, **bound),)),
            replace(feed, open_voltage=12.8, bank_open_voltage=None, source_resistance=0.02),
        )
    )
    loud = replace(NOTE, power=5200.0)
    out: dict[str, object] = {"most": row(feed.most_power, limited.most_power)}
    for name, way in {"feed": feed, "limited": limited}.items():
        for case, (note, bank) in {
            "bare": (NOTE, None), "bank": (NOTE, BANK), "loud": (loud, None),
            "loud bank": (loud, BANK), "no resistance": (NOTE, replace(BANK,
                series_resistance=0.0)),
        }.items():  # fmt: skip
            low = sag(way, note, bank)
            out[f"{name} {case}"] = row(
                low.rest_voltage, low.lowest, low.collapse_time, low.held_time(11.9), low.voltage,
                low.time[-1],
            )  # fmt: skip
            for least in (None, 12.1):
                out[f"{name} {case} {least}"] = findings(
                    check_transient(
                        feed=way, note=note, bank=bank, minimum_voltage=least, about="A1"
                    )
                )
        out[f"{name} benefit"] = row(
            capacitor_benefit(feed=way, note=NOTE, bank=BANK, floor=11.95),
            capacitor_benefit(feed=way, note=loud, bank=BANK, floor=11.0),
        )
        out[f"{name} charged"] = row(sag(way, NOTE, BANK, bank_voltage=12.0).voltage)
    out["flat"] = row(sag(feed, loud, BANK, bank_voltage=3.0).lowest)
    return out


SCENES = {
    "conductors": conductors,
    "drops": drops,
    "terminals": terminals,
    "supplies": supplies,
    "transients": transients,
}
