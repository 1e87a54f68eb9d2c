"""What the package raises: every error names the value, the limit and the unit."""


class AcousticsError(ValueError):
    """Base of every error this package raises on purpose."""


class OutOfRangeError(AcousticsError):
    """A value lies outside the limits within which a formula or a part makes sense.

    Attributes:
        name: name of the value in the field's words
        value: value that was given [as named in unit]
        limit: limit it breaks, as a number or a short phrase [as named in unit]
        unit: SI unit of value and limit
    """

    def __init__(self, name: str, value: object, limit: object, unit: str = "-") -> None:
        self.name = name
        self.value = value
        self.limit = limit
        self.unit = unit
        super().__init__(f"{name} is {value} {unit}; it must be {limit}")


class MissingError(AcousticsError):
    """Too little was given: the missing quantities are named.

    Attributes:
        missing: names of the quantities that would complete the input
    """

    def __init__(self, what: str, missing: tuple[str, ...]) -> None:
        self.missing = missing
        super().__init__(f"{what} cannot be worked out; missing: {', '.join(missing)}")


class ContradictionError(AcousticsError):
    """Two given values cannot both be true.

    Attributes:
        name: name of the value in the field's words
        value: value that was given [as named in unit]
        limit: value the others lead to [as named in unit]
        unit: SI unit of both
    """

    def __init__(self, name: str, value: object, limit: object, unit: str = "-") -> None:
        self.name = name
        self.value = value
        self.limit = limit
        self.unit = unit
        super().__init__(f"{name} is given as {value} {unit} but the other values give {limit}")


class NoSolutionError(AcousticsError):
    """A wanted target cannot be reached; the best that can be reached is named.

    Attributes:
        name: name of the target in the field's words
        value: value that was wanted [as named in unit]
        limit: best reachable value [as named in unit]
        unit: SI unit of both
    """

    def __init__(self, name: str, value: object, limit: object, unit: str = "-") -> None:
        self.name = name
        self.value = value
        self.limit = limit
        self.unit = unit
        super().__init__(f"no solution for {name} {value} {unit}; the best reachable is {limit}")


class PortFitError(NoSolutionError):
    """A port that cannot fit: its two ends alone hold more air than the tuning allows.

    Attributes:
        name: name of the target in the field's words
        value: tuning that was wanted [Hz]
        limit: highest tuning this opening can reach, at no length [Hz]
        unit: Hz
    """

    def __init__(self, tuning: float, highest: float) -> None:
        super().__init__("a port of positive length tuned to", tuning, highest, "Hz")


class SweepFileError(AcousticsError):
    """A text file of measured columns cannot be read: the line and the reason are named.

    Attributes:
        line: number of the line, counted from 1; 0 when it is about the whole file [-]
        reason: stable kebab-case key of the reason
        detail: what was found there
    """

    def __init__(self, line: int, reason: str, detail: str) -> None:
        self.line = line
        self.reason = reason
        self.detail = detail
        where = f"line {line}: " if line else ""
        super().__init__(f"{where}{detail}")


class FitError(AcousticsError):
    """A measured curve does not determine the wanted parameters: the reason is named.

    Attributes:
        reason: stable kebab-case key of the reason
        value: figure the reason turns on, None when there is none [as named in unit]
        limit: figure it was held against, None when there is none [as named in unit]
        unit: SI unit of both
    """

    def __init__(
        self,
        reason: str,
        detail: str,
        *,
        value: object = None,
        limit: object = None,
        unit: str = "-",
    ) -> None:
        self.reason = reason
        self.value = value
        self.limit = limit
        self.unit = unit
        super().__init__(detail)
