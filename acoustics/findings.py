"""What an acoustic check says, as data; the sentences live with the pages."""

from dataclasses import dataclass

# code -> severity. The comment says when the code fires and what cures it.
CODES: dict[str, str] = {
    # --- driver parameters -------------------------------------------------------------------
    # A given parameter differs from what the others lead to by more than the tolerance.
    # Cure: correct the typed value, or measure the driver.
    "driver-parameters-contradict": "look",
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
