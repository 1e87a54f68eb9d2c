"""Heat of amplifiers: watts at music average and at worst, and whether it can get away."""

from dataclasses import dataclass

from wiring.findings import Finding
from wiring.sources import Source
from wiring.supply.amplifier import Amplifier


@dataclass(frozen=True, kw_only=True)
class AmplifierHeat:
    """Heat one amplifier gives to the space around it.

    Attributes:
        average: heat at the average output of the programme [W]
        worst: greatest heat at any output on a sine [W]
        worst_share: output over rated output at which the heat is greatest [-]
    """

    average: float
    worst: float
    worst_share: float


def amplifier_heat(amplifier: Amplifier, share: float) -> AmplifierHeat:
    """Heat of an amplifier at the programme's average and at its worst.

    P_heat = P_in(p) − p·P_rated.

    Args:
        amplifier: the amplifier
        share: average output over rated output for the programme played [-]

    Returns: heat [W] at the average and at the worst output

    Raises:
        OutOfRangeError: the share is not within 0 and 1.

    Valid: rated load; a reactive load heats a linear stage more.

    Source: conservation of energy, see Amplifier.heat.
    """
    worst, worst_share = amplifier.worst_heat()
    return AmplifierHeat(average=float(amplifier.heat(share)), worst=worst, worst_share=worst_share)


def check_heat(
    amplifier: Amplifier, *, share: float, closed_space: bool | None
) -> tuple[Finding, ...]:
    """Findings on an amplifier in a space the air does not move through.

    Args:
        amplifier: the amplifier
        share: average output over rated output for the programme played [-]
        closed_space: True when air cannot come and go by itself, None when not known

    Returns: a look with the average heat when the space is closed or not known

    Raises:
        OutOfRangeError: the share is not within 0 and 1.

    Source: common practice, no source; the amplifier's sheet decides.
    """
    if closed_space is False:
        return ()
    code = "amplifier-in-closed-space" if closed_space else "amplifier-air-unknown"
    value = amplifier_heat(amplifier, share).average
    source = (Source.COMMON_PRACTICE, Source.AMPLIFIER_SHEET)
    return (Finding(code=code, about=amplifier.id, value=value, unit="W", source=source),)
