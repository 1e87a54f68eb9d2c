"""In which language and units a sheet speaks."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from django.utils import translation

from jobs import units


@contextmanager
def spoken(language: str, system: str) -> Iterator[None]:
    """Speak a sheet's language and measure in the workshop's units for a while."""
    with (
        translation.override(language),
        units.using_system(units.system_named(system)),
        units.on_paper(),
    ):
        yield
