"""What a way back adds: the resistance of a cable as warm as it may get."""

from __future__ import annotations

from dataclasses import replace

import pytest

from wiring.cable.conductor import metric
from wiring.runs.returns import Ground, Return, check_grounds, hot_resistance

# Copper of 25 mm², class 5: 0.780 Ω/km at 20 °C at most (IEC 60228:2023, table 3; from memory).
AT_20 = 0.780e-3
# Its change per kelvin at 20 °C (IEC 60228:2004, annex A, rounded; from memory).
PER_KELVIN = 4e-3


@pytest.mark.parametrize(("insulation", "counted"), [(90.0, 90.0), (105.0, 105.0)])
def test_a_cable_counts_as_warm_as_its_insulation_allows(insulation, counted):
    """R = L · r20 · (1 + α (T - 20)): by hand, and twice the length twice the resistance."""
    cable = replace(metric(25e-6), insulation=insulation)
    by_hand = AT_20 * (1 + PER_KELVIN * (counted - 20))
    assert hot_resistance(cable, 4.0) == pytest.approx(4.0 * by_hand, rel=2e-3)
    assert hot_resistance(cable, 8.0) == pytest.approx(2 * hot_resistance(cable, 4.0), rel=1e-12)


def test_a_shared_cable_no_table_knows_carries_nothing() -> None:
    """What is thinner than Table 5 of 33 CFR 183.425 begins may carry nothing that is known."""
    back = Return(run="run 1", current=3.0)
    ground = Ground(
        id="block", kind="block", bare=True, resistance=1e-3, returns=(back,),
        conductor=metric(0.5e-6, insulation=105.0), length=1.0,
    )  # fmt: skip
    [finding] = check_grounds([ground], commanded=False)
    assert finding.code == "shared-return-over-ampacity"
    assert (finding.value, finding.limit, finding.unit) == (3.0, 0.0, "A")
