"""What a finished box is told by its impedance, held against the box that was drawn."""

from acoustics.circuit.finished_box import BoxFit
from acoustics.driver.impedance_fit import POOR_FIT
from acoustics.findings import Finding
from acoustics.names import Name
from acoustics.sources import Source
from acoustics.values import require_positive

TUNED = 0.03  # how far a tuning may be off; common practice, no source
# Least Q of the leak of a sound box.
OPEN_LEAST = 5.0  # vented, 25 to 100 litres: R. H. Small, JAES 21 (1973), Part III
CLOSED_LEAST = 10.0  # common practice, no source
SURE = 1.96  # standard errors that hold 19 in 20


def check_finished_box(fit: BoxFit, *, drawn: float, closed: bool) -> tuple[Finding, ...]:
    """Say where a finished box differs from the drawn one, and whether it leaks.

    Args:
        fit: the box as found
        drawn: resonance of the box as drawn [Hz]
        closed: whether its chamber is closed, or has a port or a passive radiator

    Returns: what to look at

    Raises:
        OutOfRangeError: the drawn resonance is not above zero.

    Source: leakage: R. H. Small, "Vented-Box Loudspeaker Systems, Part III", JAES 21 (1973), from
        memory; the rest is common practice, no source.
    """
    require_positive(Name.FB, drawn, "Hz")
    findings = []
    off = abs(fit.resonance - drawn) - SURE * fit.standard_errors["resonance"]
    if off > TUNED * drawn:
        findings.append(Finding(code="box-tuned-off", value=fit.resonance, limit=drawn, unit="Hz"))
    least = CLOSED_LEAST if closed else OPEN_LEAST
    if not fit.several and fit.ql + SURE * fit.standard_errors["ql"] < least:
        source = Source.COMMON_PRACTICE if closed else Source.SMALL_LEAKAGE
        findings.append(
            Finding(code="box-leaks", value=fit.ql, limit=least, unit="-", source=(source,))
        )
    if fit.several:
        findings.append(
            Finding(code="losses-not-one-leak", value=fit.one_leak, limit=fit.misfit, unit="-")
        )
    if fit.misfit > POOR_FIT:
        findings.append(
            Finding(code="box-sweep-fits-badly", value=fit.misfit, limit=POOR_FIT, unit="-")
        )
    return tuple(findings)
