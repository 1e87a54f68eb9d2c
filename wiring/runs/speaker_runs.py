"""Speaker runs: combined load, loss, damping, current and the lowest load an amplifier sees."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
import numpy.typing as npt

from wiring.errors import COUNT, OutOfRangeError, require_not_negative, require_positive
from wiring.findings import Finding
from wiring.names import Name
from wiring.sources import Source

Impedance = TypeVar(
    "Impedance", float, complex, npt.NDArray[np.float64], npt.NDArray[np.complex128]
)

# A loop of at most this share of the load loses at most 0.424 dB.
FIVE_PERCENT = 0.05


def series(loads: Sequence[Impedance]) -> Impedance:
    """Load of speakers in series.

    Z = Z1 + Z2 + …

    Args:
        loads: impedances, numbers or arrays over frequency [Ω]

    Returns: impedance [Ω]

    Raises:
        OutOfRangeError: there is no load, or the real part of one is not above 0.

    Source: Kirchhoff's laws.
    """
    _require_loads(loads)
    total = loads[0]
    for load in loads[1:]:
        total = total + load
    return total


def parallel(loads: Sequence[Impedance]) -> Impedance:
    """Load of speakers in parallel.

    1/Z = 1/Z1 + 1/Z2 + …

    Args:
        loads: impedances, numbers or arrays over frequency [Ω]

    Returns: impedance [Ω]

    Raises:
        OutOfRangeError: there is no load, or the real part of one is not above 0.

    Source: Kirchhoff's laws.
    """
    _require_loads(loads)
    admittance = 1.0 / loads[0]
    for load in loads[1:]:
        admittance = admittance + 1.0 / load
    return 1.0 / admittance


def damping_factor(*, load: float, output_resistance: float, cable_resistance: float) -> float:
    """Damping factor at the speaker's terminals.

    DF = Z / (Z_out + R_w): the cable counts with the amplifier. Some authors count it with the
    load; then the number is larger by R_w / (Z_out + R_w).

    Args:
        load: nominal impedance of the load [Ω]
        output_resistance: output resistance of the amplifier, Z_rated / DF_rated [Ω]
        cable_resistance: resistance of the loop, out and back [Ω]

    Returns: damping factor [-]

    Raises:
        OutOfRangeError: the load is not above 0, a resistance is negative, or both are 0.

    Source: definition, IEC 60268-3 style rated source impedance with the cable added.
    """
    require_positive(name=Name.SPEAKER_LOAD, value=load, unit="Ω")
    require_not_negative(name=Name.OUTPUT_RESISTANCE, value=output_resistance, unit="Ω")
    require_not_negative(name=Name.CABLE_RESISTANCE, value=cable_resistance, unit="Ω")
    total = output_resistance + cable_resistance
    require_positive(name=Name.RESISTANCE_BEFORE, value=total, unit="Ω")
    return load / total


@dataclass(frozen=True, kw_only=True)
class AmplifierOutput:
    """One amplifier output as a speaker run sees it; None means the sheet does not say.

    Attributes:
        power: continuous power into the load named by power_load [W]
        power_load: load the power is stated for [Ω]
        bridged: True when two channels drive the load together
        lowest_load: lowest load allowed on one channel, not bridged [Ω]
        lowest_bridged_load: lowest load allowed bridged; None means twice lowest_load, since
            each channel sees half the load [Ω]
        damping: damping factor stated for power_load, not bridged or bridged as used [-]

    Raises:
        OutOfRangeError: a figure is not above 0.
    """

    power: float
    power_load: float
    bridged: bool
    lowest_load: float | None
    lowest_bridged_load: float | None = None
    damping: float | None = None

    def __post_init__(self) -> None:
        """Refuse an output that cannot exist."""
        units = {"power": "W", "damping": "-"}
        names = ("power", "power_load", "lowest_load", "lowest_bridged_load", "damping")
        for name in names:
            value = getattr(self, name)
            if value is not None:
                label = Name(name.replace("_", "-"))
                require_positive(name=label, value=value, unit=units.get(name, "Ω"))

    @property
    def voltage(self) -> float:
        """Output voltage at rated power.

        U = √(P·Z).

        Returns: r.m.s. voltage [V]
        """
        return float(np.sqrt(self.power * self.power_load))

    @property
    def allowed_load(self) -> float | None:
        """Lowest load allowed the way the output is used.

        Returns: load, None when unknown [Ω]

        Source: amplifier's sheet; twice the single-channel load when bridged and not stated.
        """
        if not self.bridged:
            return self.lowest_load
        if self.lowest_bridged_load is not None:
            return self.lowest_bridged_load
        return None if self.lowest_load is None else 2.0 * self.lowest_load


@dataclass(frozen=True, kw_only=True)
class SpeakerRun:
    """What a speaker run does to the power and the damping.

    Attributes:
        load_at_amplifier: load with the cable [Ω]
        loss: level at the speaker against no cable, 0 or negative [dB]
        power_speaker: power in the speaker at rated output voltage [W]
        power_cable: power lost in the cable at rated output voltage [W]
        current: r.m.s. current at rated output voltage, cable taken as 0 (safe side) [A]
        damping: damping factor at the speaker, None when the amplifier's is unknown [-]
    """

    load_at_amplifier: float
    loss: float
    power_speaker: float
    power_cable: float
    current: float
    damping: float | None


def speaker_run(*, output: AmplifierOutput, load: float, cable_resistance: float) -> SpeakerRun:
    """Loss, power, current and damping of a speaker run.

    Loss = 20·log10(Z/(Z + R_w)); P_speaker = U²·Z/(Z + R_w)²; P_cable = U²·R_w/(Z + R_w)²;
    I = U/Z.

    Args:
        output: the amplifier output, a fixed voltage source
        load: nominal impedance of the speakers together [Ω]
        cable_resistance: resistance of the loop, out and back, at working temperature [Ω]

    Returns: what the run does

    Raises:
        OutOfRangeError: the load is not above 0 or the cable resistance is negative.

    Valid: resistive load; the amplifier holds its voltage (it may not, below its lowest load).

    Source: Ohm's law.
    """
    require_positive(name=Name.SPEAKER_LOAD, value=load, unit="Ω")
    require_not_negative(name=Name.CABLE_RESISTANCE, value=cable_resistance, unit="Ω")
    total = load + cable_resistance
    loop_current = output.voltage / total
    damping = None
    if output.damping is not None:
        damping = damping_factor(
            load=load,
            output_resistance=output.power_load / output.damping,
            cable_resistance=cable_resistance,
        )
    return SpeakerRun(
        load_at_amplifier=total,
        loss=float(20.0 * np.log10(load / total)),
        power_speaker=loop_current**2 * load,
        power_cable=loop_current**2 * cable_resistance,
        current=output.voltage / load,
        damping=damping,
    )


def check_speaker_run(
    *,
    output: AmplifierOutput,
    load: float | None,
    cable_resistance: float | None,
    ampacity: float | None,
    about: str,
) -> tuple[Finding, ...]:
    """Findings on a speaker run.

    Args:
        output: the amplifier output
        load: nominal impedance of the speakers together, None when unknown [Ω]
        cable_resistance: resistance of the loop; cold for the load, so take 20 °C when in
            doubt; None when the length is unknown [Ω]
        ampacity: current the conductor may carry in its zone and bundle, None when unknown [A]
        about: id of what it is asked for, the channel or the run

    Returns: findings

    Raises:
        OutOfRangeError: a known value is impossible.

    Source: amplifier's sheet for the lowest load; 33 CFR 183.425 or the cable maker for the
        ampacity; the trade's 5 % rule.
    """
    unknown = [
        Finding(code=code, about=about, unit=unit)
        for code, value, unit in (
            ("speaker-load-unknown", load, "Ω"),
            ("speaker-run-resistance-unknown", cable_resistance, "Ω"),
            ("amplifier-lowest-unknown", output.allowed_load, "Ω"),
            ("speaker-run-ampacity-unknown", ampacity, "A"),
        )
        if value is None
    ]
    if load is None:
        return tuple(unknown)
    # Without a known length the cable is taken as 0: the lowest load and the greatest current.
    run = speaker_run(output=output, load=load, cable_resistance=cable_resistance or 0.0)
    findings = [*unknown, *_load_findings(output.allowed_load, load, run, about)]
    if ampacity is not None and run.current > ampacity:
        findings.append(
            Finding(
                code="speaker-run-over-ampacity",
                about=about,
                value=run.current,
                limit=ampacity,
                unit="A",
                source=(Source.CONDUCTOR_TABLE_OR_MAKER,),
            )
        )
    if cable_resistance is not None and cable_resistance > FIVE_PERCENT * load:
        findings.append(
            Finding(
                code="speaker-run-loss",
                about=about,
                value=run.loss,
                limit=float(-20.0 * np.log10(1.0 + FIVE_PERCENT)),
                unit="dB",
                source=(Source.FIVE_PERCENT_RULE,),
            )
        )
    if output.bridged:
        findings.append(Finding(code="bridged-output-has-no-ground", about=about))
    return tuple(findings)


def _load_findings(
    allowed: float | None, load: float, run: SpeakerRun, about: str
) -> list[Finding]:
    """The lowest load, held against the load with and without the help of the cable."""
    if allowed is None or load >= allowed:
        return []
    cured_by_cable = run.load_at_amplifier >= allowed
    return [
        Finding(
            code="load-held-up-by-cable" if cured_by_cable else "load-below-amplifier-lowest",
            about=about,
            value=load if cured_by_cable else run.load_at_amplifier,
            limit=allowed,
            unit="Ω",
            source=(Source.AMPLIFIER_SHEET,),
        )
    ]


def _require_loads(loads: Sequence[Impedance]) -> None:
    require_positive(name=Name.SPEAKER_LOADS, value=len(loads), unit=COUNT)
    for load in loads:
        if not np.all(np.asarray(load).real > 0.0):
            least = float(np.min(np.asarray(load).real))
            raise OutOfRangeError(Name.LOAD_REAL_PART, least, "Ω", above=0)
