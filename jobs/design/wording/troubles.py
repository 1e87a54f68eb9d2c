"""What the acoustics refused, said in the reader's language."""

from __future__ import annotations

from collections.abc import Callable

from acoustics.errors import AcousticsError


def trouble(error: AcousticsError, show: Callable[[float | str | None, str], str]) -> str:
    """Return the reason without a full stop."""
    return str(error)
