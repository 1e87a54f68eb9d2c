"""What the package raises: every error names the value, the limit and the unit."""


class AcousticsError(ValueError):
    """Base of every error this package raises on purpose.

    Source: definition.
    """


class OutOfRangeError(AcousticsError):
    """A value lies outside the limits within which a formula or a part makes sense.

    Attributes:
        name: name of the value in the field's words
        value: value that was given [as named in unit]
        limit: limit it breaks, as a number or a short phrase [as named in unit]
        unit: SI unit of value and limit

    Source: definition.
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

    Source: definition.
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

    Source: definition.
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

    Source: definition.
    """

    def __init__(self, name: str, value: object, limit: object, unit: str = "-") -> None:
        self.name = name
        self.value = value
        self.limit = limit
        self.unit = unit
        super().__init__(f"no solution for {name} {value} {unit}; the best reachable is {limit}")
