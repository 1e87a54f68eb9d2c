"""Speaker runs: loads, loss, damping, current, lowest load."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wiring.errors import OutOfRangeError
from wiring.runs.speaker_runs import (
    AmplifierOutput,
    check_speaker_run,
    damping_factor,
    parallel,
    series,
    speaker_run,
)

# Invented.
CHANNEL = AmplifierOutput(
    power=100.0, power_load=4.0, bridged=False, lowest_load=2.0, damping=200.0
)
BRIDGED = AmplifierOutput(power=400.0, power_load=4.0, bridged=True, lowest_load=2.0)


def codes(
    output: AmplifierOutput = CHANNEL,
    load: float | None = 4.0,
    cable: float | None = 0.05,
    ampacity: float | None = 20.0,
) -> list[str]:
    """Codes of the findings, in order."""
    found = check_speaker_run(
        output=output, load=load, cable_resistance=cable, ampacity=ampacity, about="S01"
    )
    return [f.code for f in found]


@pytest.mark.parametrize(
    ("load", "expected"),
    [
        (series([4.0, 4.0]), 8.0),
        (parallel([4.0, 4.0]), 2.0),
        (parallel([series([4.0, 4.0]), series([4.0, 4.0])]), 4.0),
        (parallel([4.0, 8.0]), 32 / 12),
        (parallel([2.0, 2.0, 2.0]), 2 / 3),
        (series([4.0]), 4.0),
    ],
)
def test_combined_loads(load: float, expected: float) -> None:
    """Series loads add, parallel conductances add (Kirchhoff, by hand)."""
    assert load == pytest.approx(expected)


def test_loads_over_frequency() -> None:
    """Complex loads over frequency combine like numbers; second method: nodal solve (numpy)."""
    omega = 2 * np.pi * np.array([20.0, 200.0, 2000.0])
    one = 3.4 + 1j * omega * 0.5e-3
    two = 6.1 + 1j * omega * 0.2e-3
    both = parallel([one, two])
    for k in range(3):
        # 1 A into the common node of two branches that each have an inner node.
        g1, g2 = 1 / 3.4, 1 / 6.1
        b1, b2 = 1 / (1j * omega[k] * 0.5e-3), 1 / (1j * omega[k] * 0.2e-3)
        matrix = np.array([[g1 + g2, -g1, -g2], [-g1, g1 + b1, 0], [-g2, 0, g2 + b2]])
        voltage = np.linalg.solve(matrix, np.array([1, 0, 0]))[0]
        assert both[k] == pytest.approx(voltage)


@settings(deadline=None, max_examples=100)
@given(loads=st.lists(st.floats(0.5, 32.0), min_size=1, max_size=8))
def test_parallel_is_below_the_lowest_and_series_above_the_highest(loads: list[float]) -> None:
    """More speakers in parallel never raise the load, more in series never lower it."""
    assert parallel(loads) <= min(loads) * (1 + 1e-12)
    assert series(loads) >= max(loads) * (1 - 1e-12)


@settings(deadline=None, max_examples=100)
@given(load=st.floats(1.0, 16.0), cable=st.floats(0.0, 2.0), more=st.floats(0.0, 1.0))
def test_more_cable_never_helps(load: float, cable: float, more: float) -> None:
    """Loss grows and damping falls with the resistance of the loop; power is kept."""
    short = speaker_run(output=CHANNEL, load=load, cable_resistance=cable)
    long = speaker_run(output=CHANNEL, load=load, cable_resistance=cable + more)
    assert long.loss <= short.loss + 1e-12
    assert long.damping <= short.damping + 1e-12
    assert long.power_speaker <= short.power_speaker + 1e-9
    total = CHANNEL.voltage**2 / (load + cable)
    assert short.power_speaker + short.power_cable == pytest.approx(total)


def test_five_percent_loss() -> None:
    """A loop of 5 % of the load: −0.424 dB, 4.76 % in the cable, 90.7 % of ideal (by hand)."""
    run = speaker_run(output=CHANNEL, load=4.0, cable_resistance=0.2)
    assert run.loss == pytest.approx(-0.424, abs=5e-4)
    assert run.power_cable / (run.power_cable + run.power_speaker) == pytest.approx(
        0.0476, abs=5e-5
    )
    assert run.power_speaker / CHANNEL.power == pytest.approx(0.907, abs=5e-4)


def test_current_at_bridged_power() -> None:
    """400 W into 4 Ω is 10 A r.m.s. (P = I²Z); a cable good for 9 A is a stop."""
    run = speaker_run(output=BRIDGED, load=4.0, cable_resistance=0.05)
    assert run.current == pytest.approx(10.0)
    assert codes(output=BRIDGED, ampacity=9.0) == [
        "speaker-run-over-ampacity",
        "bridged-output-has-no-ground",
    ]
    assert codes(output=BRIDGED, ampacity=10.0) == ["bridged-output-has-no-ground"]


def test_rated_power_elsewhere_than_the_load() -> None:
    """The output is a voltage: 100 W into 4 Ω gives 200 W and 10 A into 2 Ω (P = U²/Z)."""
    run = speaker_run(output=CHANNEL, load=2.0, cable_resistance=0.0)
    assert run.power_speaker == pytest.approx(200.0)
    assert run.current == pytest.approx(10.0)


@pytest.mark.parametrize(
    ("output", "load", "expected"),
    [
        (CHANNEL, 2.0, []),
        (CHANNEL, 1.98, ["load-held-up-by-cable"]),
        (CHANNEL, 1.9, ["load-below-amplifier-lowest"]),
        (BRIDGED, 3.9, ["load-below-amplifier-lowest", "bridged-output-has-no-ground"]),
        (BRIDGED, 4.0, ["bridged-output-has-no-ground"]),
        (replace(BRIDGED, lowest_bridged_load=3.0), 3.0, ["bridged-output-has-no-ground"]),
        (replace(CHANNEL, lowest_load=None), 4.0, ["amplifier-lowest-unknown"]),
    ],
)
def test_lowest_load(output: AmplifierOutput, load: float, expected: list[str]) -> None:
    """Below the lowest load is a stop, and a load only the cable lifts is a look.

    A bridged output without a figure of its own takes twice the channel's: each half sees half.
    """
    assert codes(output=output, load=load, cable=0.05) == expected


def test_unknowns_are_findings() -> None:
    """Unknown load, cable or ampacity is named; the rest is still checked."""
    assert codes(load=None, cable=None, ampacity=None) == [
        "speaker-load-unknown",
        "speaker-run-resistance-unknown",
        "speaker-run-ampacity-unknown",
    ]
    assert codes(load=1.5, cable=None) == [
        "speaker-run-resistance-unknown",
        "load-below-amplifier-lowest",
    ]


def test_loss_beyond_the_rule_is_a_look() -> None:
    """A loop above 5 % of the load asks a person, at 5 % it does not."""
    assert codes(cable=0.2) == []
    assert codes(cable=0.21) == ["speaker-run-loss"]
    (loss,) = check_speaker_run(
        output=CHANNEL, load=4.0, cable_resistance=0.21, ampacity=20.0, about="S01"
    )
    assert loss.limit == pytest.approx(-0.424, abs=5e-4)
    assert loss.value < loss.limit


@pytest.mark.parametrize(
    "broken",
    [
        lambda: series([]),
        lambda: parallel([4.0, 0.0]),
        lambda: parallel([4.0, -4.0]),
        lambda: series([complex(0.0, 5.0)]),
        lambda: replace(CHANNEL, power=0.0),
        lambda: replace(CHANNEL, damping=-1.0),
        lambda: replace(CHANNEL, lowest_load=float("nan")),
        lambda: speaker_run(output=CHANNEL, load=0.0, cable_resistance=0.0),
        lambda: speaker_run(output=CHANNEL, load=4.0, cable_resistance=-0.1),
        lambda: damping_factor(load=4.0, output_resistance=0.0, cable_resistance=0.0),
    ],
)
def test_impossible_input_is_refused(broken) -> None:
    """What cannot be raises an error of its own, never a number."""
    with pytest.raises(OutOfRangeError):
        broken()


def test_power_in_speaker_and_in_all() -> None:
    """24.5 V drive 8 Ω behind 0.3264 Ω: V²/(R + r) in all and R/(R + r) of it in the speaker."""
    output = AmplifierOutput(power=24.5**2 / 8, power_load=8.0, bridged=False, lowest_load=4.0)
    run = speaker_run(output=output, load=8.0, cable_resistance=0.3264)
    assert run.power_speaker + run.power_cable == pytest.approx(24.5**2 / 8.3264)
    assert run.power_speaker == pytest.approx(24.5**2 / 8.3264 * 8 / 8.3264)
    assert run.loss == pytest.approx(20 * np.log10(8 / 8.3264))


def test_damping_factor_counts_the_cable_with_the_amplifier() -> None:
    """8 Ω behind 0.01 Ω and 0.19 Ω has a damping factor of 8/0.2 = 40 (definition)."""
    factor = damping_factor(load=8.0, output_resistance=0.01, cable_resistance=0.19)
    assert factor == pytest.approx(40.0)
