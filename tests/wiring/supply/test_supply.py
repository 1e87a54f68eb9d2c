"""Supply budget while driving and cautions about the vehicle's network."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wiring.errors import OutOfRangeError
from wiring.supply.amplifier import Amplifier, AmplifierClass
from wiring.supply.supply import (
    Alternator,
    DcDcConverter,
    Demand,
    Tap,
    VehicleSupply,
    check_supply,
    supply_budget,
)

# Invented.
AMPLIFIER = Amplifier(
    id="A1", stage=AmplifierClass.D, rated_output=1000.0, efficiency=0.8, idle_power=20.0
)
ALTERNATOR = Alternator(rated_current=120.0, idle_current=60.0, hot_factor=0.85)
CONVERTER = DcDcConverter(current_limit=120.0, accessory_limit=30.0)
DEMAND = Demand(
    amplifiers=(AMPLIFIER,),
    share=1 / 8,
    voltage=13.5,
    other_current=2.0,
    vehicle_current=35.0,
    charge_current=10.0,
)
PLAIN = VehicleSupply(start_stop=False, smart_charging=False, high_voltage=False)


def codes(source=ALTERNATOR, demand=DEMAND, vehicle=PLAIN) -> list[str]:
    """Codes of the findings, in order."""
    return [f.code for f in check_supply(source=source, demand=demand, vehicle=vehicle)]


def test_budget_worked_by_hand() -> None:
    """1000 W at 80 %, 20 W idle, one eighth: (20 + 1230/8)/13.5 + 2 = 14.870 A (by hand)."""
    budget = supply_budget(ALTERNATOR, DEMAND)
    assert budget.audio_average == pytest.approx(14.870, abs=5e-4)
    assert budget.audio_peak == pytest.approx(1250 / 13.5 + 2)
    assert budget.spare_driving == pytest.approx(120 * 0.85 - 35 - 10 - 14.870, abs=5e-4)
    assert budget.spare_idling == pytest.approx(60 * 0.85 - 35 - 10 - 14.870, abs=5e-4)


def test_short_at_idle_is_a_look_and_short_on_the_road_a_stop() -> None:
    """A budget that only fails at idle asks a person; one that fails on the road stops."""
    assert codes() == ["supply-short-idling"]
    heavy = replace(DEMAND, vehicle_current=90.0)
    found = check_supply(source=ALTERNATOR, demand=heavy, vehicle=PLAIN)
    assert [(f.code, f.severity) for f in found] == [
        ("supply-short-driving", "stop"),
        ("supply-short-idling", "look"),
    ]
    assert found[0].value == pytest.approx(102 - 90 - 10 - 14.870, abs=5e-4)


def test_nothing_to_spare_still_passes() -> None:
    """A spare current of exactly 0 is enough, at speed and at idle (pass if at or above)."""
    even = replace(
        DEMAND, amplifiers=(), other_current=0.0, vehicle_current=20.0, charge_current=10.0
    )
    source = Alternator(rated_current=30.0, idle_current=30.0, hot_factor=1.0)
    assert supply_budget(source, even).spare_driving == 0.0
    assert codes(source=source, demand=even) == []


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"rated_current": None}, "alternator-rated-current-unknown"),
        ({"idle_current": None}, "alternator-idle-current-unknown"),
        ({"hot_factor": None}, "alternator-hot-factor-unknown"),
    ],
)
def test_unknown_alternator_figure_is_a_finding(change: dict[str, None], code: str) -> None:
    """An unknown figure is named and never turned into a number."""
    source = replace(ALTERNATOR, **change)
    assert code in codes(source=source)
    budget = supply_budget(source, DEMAND)
    assert None in (budget.spare_driving, budget.spare_idling)


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"vehicle_current": None}, "vehicle-load-unknown"),
        ({"charge_current": None}, "battery-charge-current-unknown"),
    ],
)
def test_unknown_demand_is_a_finding(change: dict[str, None], code: str) -> None:
    """Without the vehicle's load or the battery's charge there is no spare current."""
    demand = replace(DEMAND, **change)
    assert codes(demand=demand) == [code]
    budget = supply_budget(ALTERNATOR, demand)
    assert (budget.spare_driving, budget.spare_idling) == (None, None)


def test_unknown_idle_power_is_a_finding_and_draws_more() -> None:
    """An amplifier without its idle power is named, and budgeted on the safe side."""
    demand = replace(DEMAND, amplifiers=(replace(AMPLIFIER, idle_power=None),))
    assert "amplifier-idle-power-unknown" in codes(demand=demand)
    more = supply_budget(ALTERNATOR, demand).audio_average
    assert more > supply_budget(ALTERNATOR, DEMAND).audio_average


@pytest.mark.parametrize(
    ("change", "code", "severity"),
    [
        ({"start_stop": True}, "start-stop-caution", "look"),
        ({"start_stop": None}, "start-stop-unknown", "look"),
        ({"smart_charging": True}, "smart-charging-caution", "look"),
        ({"smart_charging": None}, "smart-charging-unknown", "look"),
        ({"high_voltage": True}, "high-voltage-vehicle-caution", "look"),
        ({"high_voltage": None}, "high-voltage-vehicle-unknown", "look"),
        ({"tap": Tap.HIGH}, "high-voltage-tap", "stop"),
        ({"tap": Tap.FORTY_EIGHT}, "forty-eight-volt-tap", "stop"),
    ],
)
def test_cautions(change: dict[str, object], code: str, severity: str) -> None:
    """Each property of the vehicle's network brings its caution, unknown ones too."""
    found = check_supply(source=ALTERNATOR, demand=DEMAND, vehicle=replace(PLAIN, **change))
    assert (code, severity) in {(f.code, f.severity) for f in found}


def test_converter_limits() -> None:
    """Added load is held to the maker's limit: the average stops, the peak asks a person."""
    assert codes(source=CONVERTER) == ["dc-dc-accessory-limit-exceeded-on-peaks"]
    tight = replace(CONVERTER, accessory_limit=14.0)
    assert codes(source=tight) == ["dc-dc-accessory-limit-exceeded"]
    roomy = replace(CONVERTER, accessory_limit=100.0)
    assert codes(source=roomy) == []


def test_unknown_converter_is_a_finding() -> None:
    """A converter without figures is named twice and gives no spare current."""
    unknown = DcDcConverter(current_limit=None, accessory_limit=None)
    assert codes(source=unknown) == ["dc-dc-current-unknown", "dc-dc-accessory-limit-unknown"]


@settings(deadline=None, max_examples=100)
@given(
    share=st.floats(0.01, 1.0),
    more=st.floats(0.0, 50.0),
    count=st.integers(0, 6),
)
def test_more_load_never_leaves_more(share: float, more: float, count: int) -> None:
    """Another amplifier or more vehicle load never raises the spare current."""
    base = replace(DEMAND, share=share, amplifiers=(AMPLIFIER,) * count)
    fuller = replace(
        base, amplifiers=(AMPLIFIER,) * (count + 1), vehicle_current=DEMAND.vehicle_current + more
    )
    assert (
        supply_budget(ALTERNATOR, fuller).spare_driving
        < supply_budget(ALTERNATOR, base).spare_driving
    )


@pytest.mark.parametrize(
    "broken",
    [
        lambda: replace(ALTERNATOR, rated_current=0.0),
        lambda: replace(ALTERNATOR, idle_current=130.0),
        lambda: replace(ALTERNATOR, hot_factor=1.1),
        lambda: replace(DEMAND, voltage=float("nan")),
        lambda: replace(CONVERTER, accessory_limit=-1.0),
        lambda: replace(DEMAND, share=0.0),
        lambda: replace(DEMAND, share=1.01),
        lambda: replace(DEMAND, vehicle_current=-1.0),
        lambda: replace(DEMAND, other_current=float("inf")),
    ],
)
def test_impossible_input_is_refused(broken) -> None:
    """What cannot be raises an error of its own, never a number."""
    with pytest.raises(OutOfRangeError):
        broken()
