"""What is said where somebody removed the very thing another was about to write on."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _

from jobs import access
from jobs.models import Job, Panel, PanelStep, ServiceVisit


def sentence(row: Any, wrote: str = "") -> str:
    """Who removed a row, and what was to be written on it."""
    by = row.removed_by()
    words = {"row": str(row).rstrip("."), "who": by.full_name if by else "–", "text": wrote}
    if wrote:
        says = _("%(who)s has removed “%(row)s” meanwhile. You wrote %(text)s, which is not kept.")
        return says % words
    return _("%(who)s has removed “%(row)s” meanwhile.") % words


def kept_with(
    row: Panel | ServiceVisit, step: PanelStep | None = None, *, for_step: bool = False
) -> str:
    """Where something sent is kept, if not where it was meant to be; else nothing."""
    if row.removed_at:
        return " ".join((sentence(row), _("What you sent is kept with it.")))
    if for_step and step is None:
        words = _(
            "The step it was taken for is there no more; it is kept with the panel: %(panel)s."
        )
        return words % {"panel": row}
    return ""


def told(request: HttpRequest, job: Job, row: Any, kind: str, wrote: str = "") -> HttpResponse:
    """Say who removed it and what was to be written; offer it back."""
    undo = ""
    if access.may_spec(access.signed_in(request)):
        undo = f"undo:{reverse(f'{kind}-restore', args=[job.code, row.pk])}"
    messages.warning(request, sentence(row, wrote), extra_tags=undo)
    if request.headers.get("HX-Request"):
        return HttpResponse(headers={"HX-Redirect": reverse("bay", args=[job.code])})
    return redirect("bay", job.code)
