"""Adiabatic constants against k of IEC 60364-5-54:2011, Annex A, and IEC 60364-4-43, Table 43A.

BS 7671:2018 prints the same in its Table 43.1.
"""

import pytest

from wiring.cable.conductor import awg
from wiring.network.short_circuit import (
    adiabatic_constant,
    cold_resistance_by_cca,
    prospective_current,
    withstand_time,
)

# start, final, printed k of copper and of aluminium, A·√s/mm²
TABLE = [
    (70, 160, 115, 76), (70, 140, 103, 68), (90, 160, 100, 66), (90, 250, 143, 94),
    (60, 200, 141, 93), (85, 220, 134, 89),
]  # fmt: skip


@pytest.mark.parametrize(("start", "final", "copper", "aluminium"), TABLE)
def test_k(start: float, final: float, copper: float, aluminium: float) -> None:
    """k of PVC, cross-linked and rubber insulation within 1 %."""
    for metal, printed in (("copper", copper), ("aluminium", aluminium)):
        ours = adiabatic_constant(metal=metal, start=start, final=final) * 1e-6
        assert ours == pytest.approx(printed, rel=0.01)


def test_hot_car_cable() -> None:
    """PVC of class 105 has k = 87.4, not the 115 of house wiring (computed from the formula)."""
    k = adiabatic_constant(metal="copper", start=105, final=160) * 1e-6
    assert k == pytest.approx(87.4, abs=0.1)


def test_bolted_short_of_a_main() -> None:
    """12.6 V behind 4 mΩ, 4 m of 4 AWG and 2 mΩ of chassis: 1 361 A (computed, Ohm's law)."""
    path = 4 * awg("4").resistance(20) + 2e-3
    current = prospective_current(emf=12.6, source_resistance=4e-3, path_resistance=path)
    assert current == pytest.approx(1361, abs=1)
    # (115 · 21.15 / 1361)² = 3.20 s for PVC that starts at 70 °C
    cable = awg("4", insulation=70)
    assert withstand_time(cable, current) == pytest.approx(3.20, rel=0.01)


def test_thin_wire_is_on_fire_within_a_second() -> None:
    """18 AWG shorted at 114 A lasts 0.69 s (computed with the printed k = 115)."""
    assert withstand_time(awg("18", insulation=70), 114) == pytest.approx(0.69, abs=0.01)


def test_cold_battery() -> None:
    """600 cold-cranking amperes at 7.2 V of 12.6 V make 9.0 mΩ (definition of the test)."""
    assert cold_resistance_by_cca(600) == pytest.approx(9.0e-3)
