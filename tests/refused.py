"""What a calculator refuses, told by its code and by what is given with it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest


@contextmanager
def refused(kind: type[Exception], code: str, name: str = "", **given: object) -> Iterator[Any]:
    """Expect a refusal of this kind and code, of this figure, with these values."""
    with pytest.raises(kind) as caught:
        yield caught
    error: Any = caught.value
    assert error.code == code
    if name:
        assert name == error.given.get("name", error.given.get("measure"))
    known = {**error.given, "about": getattr(error, "about", "")}
    for key, value in given.items():
        expected = value if isinstance(value, str | tuple) else pytest.approx(value, nan_ok=True)
        assert getattr(known[key], "value", known[key]) == expected
