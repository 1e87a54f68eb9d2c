"""Taking one saved edit of a box back: what a fit or a target put into it."""

from __future__ import annotations

from collections.abc import Container

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from jobs import access
from jobs.design.job import board_counts
from jobs.locks import held
from jobs.models import Box


@require_POST
def take_back(
    request: HttpRequest, code: str, pk: int, version: int, names: Container[str]
) -> HttpResponse:
    """Give these fields of a box what they held before, unless the box was changed since."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    with held(job):
        box = get_object_or_404(Box, job=job, pk=pk)
        before = box.history.filter(version=version - 1).first()
        if box.version != version or before is None:
            messages.info(request, _("The box was changed since; nothing was taken back."))
            return redirect("box-edit", job.code, pk)
        for field in box._meta.concrete_fields:
            if field.name in names:
                setattr(box, field.attname, getattr(before, field.attname))
        for name, kept in (before.hanging or {}).items():
            if name in names:
                setattr(box, name, kept)
        box.version += 1
        box.save()
        board_counts.forget(job)
    messages.success(request, _("Back again: %(row)s.") % {"row": box})
    return redirect("box-edit", job.code, pk)
