"""What can be impossible about a box of wood."""

from __future__ import annotations

from acoustics.errors import AcousticsError


class CarcassError(AcousticsError):
    """A carcass that cannot be built as described.

    Attributes:
        text: what is wrong, with the figures and names in braces.
        given: those figures in SI units, names, and lists of names.
    """

    def __init__(self, text: str, **given: object) -> None:
        self.text = text
        self.given = given
        shown = {key: ", ".join(v) if isinstance(v, tuple) else v for key, v in given.items()}
        super().__init__(text.format(**shown))


class ProfileError(CarcassError):
    """A profile that is no simple outline, or dimensions that cannot make one."""


class NoInsideError(CarcassError):
    """Panels so thick that a panel or the whole inside vanishes."""


class WallsMeetError(NoInsideError):
    """Leaning walls that meet before they reach the bottom or the top."""


class JointError(CarcassError):
    """A joint that these panels cannot have."""


class PlacementError(CarcassError):
    """A part or a brace put where the carcass has no such place."""


class SheetError(CarcassError):
    """A part that no sheet can hold, or a sheet that leaves nothing to cut."""


def at_most(count: int, most: int, things: str, kind: type[CarcassError] = CarcassError) -> None:
    """Refuse so many of a thing that a loop over them would not end in time.

    Args:
        count: how many there are [-]
        most: how many are worked out [-]
        things: what they are called
        kind: the error to raise

    Raises:
        CarcassError: when there are more.

    Source: definition.
    """
    if count > most:
        text = "{count} {things} are too many; at most {most} are worked out"
        raise kind(text, count=count, things=things, most=most)


class CavityError(CarcassError):
    """A cavity that is no space at all."""
