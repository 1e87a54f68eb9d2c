"""What an acoustic check says, as data; the sentences live with the pages."""

from dataclasses import dataclass

# code -> severity. The comment says when the code fires and what cures it.
CODES: dict[str, str] = {
    # --- driver parameters -------------------------------------------------------------------
    # A given parameter differs from what the others lead to by more than the tolerance.
    # Cure: correct the typed value, or measure the driver.
    "driver-parameters-contradict": "look",
    # --- standing waves inside the box ---------------------------------------------------------
    # The lowest rigid-walled mode (value) lies below the highest frequency used (limit).
    # Cure: absorbing material where the mode has its pressure, a lower low-pass, a divided box.
    "standing-wave-in-band": "look",
    # The lowest mode (value) lies above the highest frequency used (limit): nothing to do.
    "standing-waves-above-band": "note",
    # A box that is not square: its lowest mode (value) against that of the square box of the same
    # height, width and volume (limit); the number of modes in the used band differs.
    "box-shape-matters": "note",
    # As above, and the number of modes in the used band is the same: a sloped panel gains nothing.
    "box-shape-does-not-matter": "note",
    # --- measured sweeps -----------------------------------------------------------------------
    # The points either side of resonance have a geometric mean (value) more than 1 % away from
    # the resonance (limit). Cure: measure again, in free air, at lower level, with finer steps.
    "sweep-not-symmetric": "look",
    # The fitted curve misses the measured one by more (value) than the limit, root mean square.
    # Cure: measure again; a rattle, a box too close or a defective driver does this.
    "sweep-fits-badly": "look",
    # A measured parameter (value) is outside the tolerance of the catalogue's (limit).
    # Cure: measure again, correct the catalogue, or design with the measured set.
    "measured-differs-from-catalogue": "look",
}


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing a check has to say about a design.

    Attributes:
        code: stable kebab-case key of CODES
        where: the part, parameter or place it is about
        value: value found, or None when it is unknown [as named in unit]
        limit: limit it was held against [as named in unit]
        unit: SI unit of value and limit
        source: where the limit comes from

    Raises:
        KeyError: the code is not in CODES.

    Source: definition.
    """

    code: str
    where: str
    value: float | str | None = None
    limit: float | str | None = None
    unit: str = "-"
    source: str = "common practice, no source"

    def __post_init__(self) -> None:
        """Refuse a code that no sentence can be written for."""
        if self.code not in CODES:
            raise KeyError(self.code)

    @property
    def severity(self) -> str:
        """Severity of the finding: stop, look or note.

        Returns: "stop", "look" or "note"

        Source: definition.
        """
        return CODES[self.code]
