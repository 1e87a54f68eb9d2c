"""Line-level and control runs: treble lost to length, turn-on current, company of power runs."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from wiring.errors import require_not_negative, require_positive
from wiring.findings import Finding
from wiring.names import Name
from wiring.sources import Source

# Lowest figure printed for the aerial or remote output of a head unit: 150 to 300 mA.
LOWEST_TURN_ON_LIMIT = 0.150
_ROUNDING = 1e-9  # three inputs of 50 mA are 150 mA, whatever binary fractions say
TREBLE = 20_000.0  # top of the audio band
TREBLE_LOSS = -0.1  # a loss below this can be heard by nobody; common practice, no source


def line_treble_loss(
    *, source_resistance: float, capacitance: float, frequency: float = TREBLE
) -> float:
    """Level lost at a frequency between a line output and a high input impedance.

    Loss = −10·log10(1 + (2π·f·R·C)²).

    Args:
        source_resistance: output resistance of the source [Ω]
        capacitance: capacitance of the whole cable between core and screen [F]
        frequency: frequency of interest [Hz]

    Returns: loss, 0 or negative [dB]

    Raises:
        OutOfRangeError: the frequency is not above 0 or another value is negative.

    Valid: input resistance far above the source resistance; cable far shorter than a wavelength.

    Source: first-order low-pass, definition
    """
    require_not_negative(name=Name.SOURCE_RESISTANCE, value=source_resistance, unit="Ω")
    require_not_negative(name=Name.CABLE_CAPACITANCE, value=capacitance, unit="F")
    require_positive(name=Name.FREQUENCY, value=frequency, unit="Hz")
    ratio = 2.0 * np.pi * frequency * source_resistance * capacitance
    return float(-10.0 * np.log10(1.0 + ratio**2))


@dataclass(frozen=True, kw_only=True)
class LineRun:
    """A line-level run; None means unknown.

    Attributes:
        id: what the run is known by; findings hand it back
        length: length [m]
        source_resistance: output resistance of the source, from its sheet [Ω]
        capacitance_per_length: between core and screen, from the cable's sheet [F/m]
        beside_power: length over which it lies along a power run [m]

    Raises:
        OutOfRangeError: the length is not above 0, or another known value is negative.
    """

    id: str
    length: float | None
    source_resistance: float | None = None
    capacitance_per_length: float | None = None
    beside_power: float | None = None

    def __post_init__(self) -> None:
        """Refuse a run that cannot exist."""
        if self.length is not None:
            require_positive(name=Name.LENGTH, value=self.length, unit="m")
        for name, unit in (
            ("source_resistance", "Ω"),
            ("capacitance_per_length", "F/m"),
            ("beside_power", "m"),
        ):
            value = getattr(self, name)
            if value is not None:
                require_not_negative(name=Name(name.replace("_", "-")), value=value, unit=unit)


def check_line_run(run: LineRun) -> tuple[Finding, ...]:
    """Findings on one line-level run.

    Args:
        run: the run

    Returns: findings

    Source: common practice, no source; no published distance from power runs was found.
    """
    findings = []
    if run.length is None:
        findings.append(Finding(code="run-length-unknown", about=run.id, unit="m"))
    elif run.source_resistance is None or run.capacitance_per_length is None:
        findings.append(Finding(code="line-treble-unknown", about=run.id, unit="dB"))
    else:
        loss = line_treble_loss(
            source_resistance=run.source_resistance,
            capacitance=run.capacitance_per_length * run.length,
        )
        if loss < TREBLE_LOSS:
            findings.append(
                Finding(
                    code="line-treble-loss",
                    about=run.id,
                    value=loss,
                    limit=TREBLE_LOSS,
                    unit="dB",
                    source=(Source.COMMON_PRACTICE,),
                )
            )
    if run.beside_power is None or run.beside_power > 0.0:
        known = run.beside_power is not None
        findings.append(
            Finding(
                code="line-beside-power" if known else "line-beside-power-unknown",
                about=run.id,
                value=run.beside_power,
                unit="m",
                source=(Source.COMMON_PRACTICE,),
            )
        )
    return tuple(findings)


@dataclass(frozen=True, kw_only=True)
class TurnOn:
    """The control line that wakes the equipment; None means unknown.

    Attributes:
        id: what the run is known by; findings hand it back
        source_limit: current the source's remote output may give, from its sheet [A]
        input_currents: turn-on current of each piece of equipment [A]
        relay_coil: current of a relay's coil when the source drives a relay instead [A]
        relay: True when the source drives a relay and the relay feeds the equipment

    Raises:
        OutOfRangeError: the limit is not above 0 or a known current is negative.
    """

    id: str
    source_limit: float | None
    input_currents: Sequence[float | None]
    relay: bool = False
    relay_coil: float | None = None

    def __post_init__(self) -> None:
        """Refuse a control line that cannot exist."""
        if self.source_limit is not None:
            require_positive(name=Name.SOURCE_LIMIT, value=self.source_limit, unit="A")
        for current in (*self.input_currents, self.relay_coil):
            if current is not None:
                require_not_negative(name=Name.TURN_ON_CURRENT, value=current, unit="A")

    @property
    def source_current(self) -> float | None:
        """Current the source has to give, the relay's coil or the sum of the inputs.

        Returns: current, None while a part of it is unknown [A]

        Source: Kirchhoff's laws
        """
        if self.relay:
            return self.relay_coil
        known = [current for current in self.input_currents if current is not None]
        return sum(known) if len(known) == len(self.input_currents) else None

    @property
    def needs_relay(self) -> bool | None:
        """Whether the inputs draw more than the source may give.

        Without a limit from the source's sheet the lowest figure printed anywhere, 150 mA, is
        used. The known inputs alone may already answer.

        Returns: True, False, or None while the unknown inputs decide it

        Source: trade pages: remote outputs are limited to 150 to 300 mA
        """
        limit = LOWEST_TURN_ON_LIMIT if self.source_limit is None else self.source_limit
        known = sum(current for current in self.input_currents if current is not None)
        if known > limit * (1.0 + _ROUNDING):
            return True
        return None if None in self.input_currents else False


def check_turn_on(line: TurnOn) -> tuple[Finding, ...]:
    """Findings on a control line and its relay.

    Args:
        line: the control line

    Returns: findings

    Source: sheet of the source for its limit; else trade pages, lowest of 150 to 300 mA
    """
    findings = []
    if line.source_limit is None:
        findings.append(Finding(code="turn-on-limit-unknown", about=line.id, unit="A"))
    if line.source_current is None:
        findings.append(Finding(code="turn-on-current-unknown", about=line.id, unit="A"))
    if not line.relay and line.needs_relay:
        known = line.source_limit is not None
        findings.append(
            Finding(
                code="turn-on-needs-relay" if known else "turn-on-may-need-relay",
                about=line.id,
                value=sum(current or 0.0 for current in line.input_currents),
                limit=line.source_limit if known else LOWEST_TURN_ON_LIMIT,
                unit="A",
                source=(Source.SOURCE_SHEET if known else Source.REMOTE_OUTPUTS,),
            )
        )
    coil, limit = line.relay_coil, line.source_limit
    if line.relay and coil is not None and limit is not None and coil > limit:
        findings.append(
            Finding(
                code="relay-coil-over-limit",
                about=line.id,
                value=coil,
                limit=limit,
                unit="A",
                source=(Source.SOURCE_SHEET,),
            )
        )
    return tuple(findings)
