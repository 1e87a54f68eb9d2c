"""Copy a box: a second candidate with everything of the first, to be changed in one thing."""

from __future__ import annotations

import uuid

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from jobs import access
from jobs.design.job import board_counts
from jobs.locks import held
from jobs.models import Box
from jobs.models.box.row_lists import copied_lists

LONGEST_NAME = 60


@require_POST
def copy(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Make a candidate like this box and open it; pressed twice it is made once."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    with held(job):
        box = get_object_or_404(Box, job=job, pk=pk)
        token = _token(request.POST.get("token", ""))
        new = Box.with_removed.filter(job=job, entry_token=token).first()
        if new is not None and new.removed_at:
            new, token = None, uuid.uuid4()  # taken back since: the next one is a new one
        if new is None:
            new, lists = box, copied_lists(box)
            new.pk = new.id = None
            for name, kept in lists.items():
                setattr(new, name, kept)
            new._state.adding = True
            new.entry_token, new.version, new.chosen = token, 1, False
            copied = _("copy of %(name)s") % {"name": new.name}
            new.name = copied if len(copied) <= LONGEST_NAME else new.name
            new.save()
            board_counts.forget(job)
    undo = reverse("box-remove", args=[job.code, new.pk])
    message = _("Copied: %(row)s. Change what differs: its driver, its kind or its size.")
    messages.success(request, message % {"row": new}, extra_tags=f"undo:{undo}")
    return redirect("box-edit", job.code, new.pk)


def _token(text: str) -> uuid.UUID:
    try:
        return uuid.UUID(text)
    except ValueError:
        return uuid.uuid4()


urlpatterns = [path("jobs/<str:code>/box/<int:pk>/copy/", copy, name="box-copy")]
