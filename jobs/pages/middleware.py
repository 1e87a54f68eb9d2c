"""What every page needs of the workshop: its units, and its name for the header."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.http import HttpRequest, HttpResponse

from jobs import units
from jobs.models import Workshop


def workshop(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[..., HttpResponse]:
    """Answer each request in the workshop's own units."""

    def answer(request: HttpRequest) -> HttpResponse:
        request.workshop = Workshop.current()  # type: ignore[attr-defined]
        with units.using_system(units.system_named(request.workshop.units)):  # type: ignore[attr-defined]
            return get_response(request)

    return answer


def workshop_context(request: HttpRequest) -> dict[str, Any]:
    """Give templates the workshop."""
    return {"workshop": getattr(request, "workshop", None) or Workshop()}
