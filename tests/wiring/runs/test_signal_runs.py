"""Line-level and control runs."""

import shutil
import subprocess
from pathlib import Path

import pytest

from wiring.errors import OutOfRangeError
from wiring.runs.signal_runs import (
    LineRun,
    TurnOn,
    check_line_run,
    check_turn_on,
    line_treble_loss,
)


def test_half_power_point() -> None:
    """At f = 1/(2πRC) the loss is 3.01 dB (definition of a first-order low-pass)."""
    loss = line_treble_loss(source_resistance=1000.0, capacitance=1.591549e-9, frequency=100_000.0)
    assert loss == pytest.approx(-3.0103, abs=1e-4)


@pytest.mark.second_method
def test_treble_loss_agrees_with_ngspice(tmp_path: Path) -> None:
    """4.7 kΩ into 6 m of 150 pF/m at 20 kHz loses what ngspice says (second method)."""
    if shutil.which("ngspice") is None:
        pytest.skip("ngspice is not installed")
    deck = tmp_path / "line.cir"
    deck.write_text(
        f"""line
V1 in 0 AC 1
R1 in out 4700
C1 out 0 900p
R2 out 0 1e12
.control
ac lin 1 20000 20000
wrdata {tmp_path}/out.txt db(v(out))
.endc
.end
"""
    )
    subprocess.run(["ngspice", "-b", str(deck)], capture_output=True, timeout=60, check=False)
    spice = float((tmp_path / "out.txt").read_text().split()[1])
    loss = line_treble_loss(source_resistance=4700.0, capacitance=900e-12)
    assert loss == pytest.approx(spice, abs=1e-4)


@pytest.mark.parametrize(
    ("run", "codes"),
    [
        (LineRun(id="L01", length=5.0, source_resistance=200.0,
                 capacitance_per_length=100e-12, beside_power=0.0), []),
        (LineRun(id="L01", length=6.0, source_resistance=4700.0,
                 capacitance_per_length=150e-12, beside_power=0.0), ["line-treble-loss"]),
        (LineRun(id="L01", length=None, beside_power=0.0), ["run-length-unknown"]),
        (LineRun(id="L01", length=5.0, beside_power=2.0),
         ["line-treble-unknown", "line-beside-power"]),
        (LineRun(id="L01", length=5.0), ["line-treble-unknown", "line-beside-power-unknown"]),
        (LineRun(id="L01", length=5.0, source_resistance=200.0, beside_power=0.0),
         ["line-treble-unknown"]),
        (LineRun(id="L01", length=5.0, capacitance_per_length=100e-12, beside_power=0.0),
         ["line-treble-unknown"]),
    ],
)  # fmt: skip
def test_line_findings(run: LineRun, codes: list[str]) -> None:
    """Length, treble and the company of power runs each speak when they should."""
    assert [f.code for f in check_line_run(run)] == codes


def test_company_of_power_is_only_a_note() -> None:
    """No published distance exists, so lying beside a power run is a note."""
    run = LineRun(id="L01", length=5.0, beside_power=2.0)
    assert {f.severity for f in check_line_run(run)} == {"note"}


def line(**changes: object) -> TurnOn:
    """An invented control line: three inputs on a 300 mA output."""
    values: dict[str, object] = {
        "id": "C01", "source_limit": 0.3, "input_currents": (0.05, 0.05, 0.05),
    }  # fmt: skip
    return TurnOn(**(values | changes))


@pytest.mark.parametrize(
    ("changes", "needs", "codes"),
    [
        ({}, False, []),
        ({"source_limit": 0.1}, True, ["turn-on-needs-relay"]),
        ({"source_limit": None}, False, ["turn-on-limit-unknown"]),
        ({"source_limit": None, "input_currents": (0.1, 0.1)}, True,
         ["turn-on-limit-unknown", "turn-on-may-need-relay"]),
        ({"input_currents": (0.05, None)}, None, ["turn-on-current-unknown"]),
        ({"input_currents": (0.4, None)}, True,
         ["turn-on-current-unknown", "turn-on-needs-relay"]),
        ({"input_currents": (0.4, 0.4), "relay": True, "relay_coil": 0.15}, True, []),
        ({"input_currents": (0.4, 0.4), "relay": True}, True, ["turn-on-current-unknown"]),
        ({"source_limit": 0.15, "relay": True, "relay_coil": 0.15}, False, []),
        ({"source_limit": 0.1, "relay": True, "relay_coil": 0.15}, True,
         ["relay-coil-over-limit"]),
    ],
)  # fmt: skip
def test_turn_on(changes: dict[str, object], needs: bool | None, codes: list[str]) -> None:
    """The turn-on current is held to the source's limit, with a relay or without."""
    one = line(**changes)
    assert one.needs_relay is needs
    assert [f.code for f in check_turn_on(one)] == codes


def test_missing_limit_takes_the_lowest_printed() -> None:
    """150 mA is the lowest remote-output limit on the trade pages that were read."""
    assert line(source_limit=None, input_currents=(0.150,)).needs_relay is False
    assert line(source_limit=None, input_currents=(0.151,)).needs_relay is True


@pytest.mark.parametrize(
    "broken",
    [
        lambda: LineRun(id="L01", length=0.0),
        lambda: LineRun(id="L01", length=1.0, beside_power=-1.0),
        lambda: line(source_limit=0.0),
        lambda: line(input_currents=(-0.1,)),
        lambda: line(relay_coil=float("nan")),
        lambda: line_treble_loss(source_resistance=-1.0, capacitance=1e-9),
        lambda: line_treble_loss(source_resistance=1.0, capacitance=1e-9, frequency=0.0),
    ],
)
def test_impossible_input_is_refused(broken) -> None:
    """What cannot be raises an error of its own, never a number."""
    with pytest.raises(OutOfRangeError):
        broken()
