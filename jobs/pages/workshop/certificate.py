"""How a phone learns to trust an installation with a certificate of its own; open to everybody."""

from __future__ import annotations

from pathlib import Path

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from config.workshop.certificate import fingerprint, read


@require_safe
@login_not_required
def certificate(request: HttpRequest) -> HttpResponse:
    """Show the way, and the digits that tell the right certificate from another."""
    if not settings.AUTHORITY:
        raise Http404
    try:
        authority = read(Path(settings.AUTHORITY))
    except (OSError, ValueError) as error:
        raise Http404 from error
    digits = fingerprint(authority)
    context = {
        # Eight pairs a line: as wide as a phone.
        "lines": [digits[at : at + 23] for at in range(0, len(digits), 24)],
        "ends": authority.not_valid_after_utc,
        "app": f"https://{request.get_host()}/",
    }
    return render(request, "pages/workshop/certificate.html", context)


urlpatterns = [path("certificate/", certificate, name="certificate")]
