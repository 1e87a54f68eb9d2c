"""Speaker cable against worked examples."""

import pytest

from wiring.cable.conductor import awg
from wiring.runs.speaker_runs import (
    AmplifierOutput,
    damping_factor,
    speaker_run,
)

FOOT = 0.3048


def test_power_in_speaker_and_in_all() -> None:
    """24.5 V into 8 Ω over 160 ft of 10 AWG, 0.00204 Ω/ft loop: about 72 W and 69 W.

    Published: a power-amplifier manual quoted in an audio forum; 72.09 and 69.26 W recomputed.
    """
    output = AmplifierOutput(power=24.5**2 / 8, power_load=8.0, bridged=False, lowest_load=4.0)
    run = speaker_run(output=output, load=8.0, cable_resistance=160 * 0.00204)
    assert run.power_speaker + run.power_cable == pytest.approx(72.09, abs=0.005)
    assert run.power_speaker == pytest.approx(69.26, abs=0.005)
    assert run.loss == pytest.approx(-0.347, abs=0.0005)


def test_damping_factor_counts_the_cable_with_the_amplifier() -> None:
    """8 Ω behind 0.01 Ω and 0.19 Ω has a damping factor of 40.

    Published: audio reference page; the definition with the cable on the amplifier's side.
    """
    factor = damping_factor(load=8.0, output_resistance=0.01, cable_resistance=0.19)
    assert factor == pytest.approx(40.0)


@pytest.mark.parametrize(("size", "expected"), [("16", 38.3), ("12", 86.7)])
def test_damping_factor_of_a_long_run(size: str, expected: float) -> None:
    """4 Ω, rated factor 500, 24 ft loop: 38.3 on 16 AWG and 86.7 on 12 AWG.

    Second method: ohms per thousand feet of a handbook wire table (4.016 and 1.588).
    """
    loop = {"16": 4.016, "12": 1.588}[size] * 24 / 1000
    assert loop == pytest.approx(awg(size).resistance() * 24 * FOOT, rel=2e-3)
    factor = damping_factor(
        load=4.0,
        output_resistance=4.0 / 500,
        cable_resistance=awg(size).resistance() * 24 * FOOT,
    )
    assert factor == pytest.approx(expected, abs=0.1)
