"""The address of one's own days: made, made anew, withdrawn; by oneself alone."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from jobs import access
from jobs.locks import held
from jobs.models.base import new_token


@require_POST
def renew(request: HttpRequest) -> HttpResponse:
    """Make an address nobody can guess; the one before opens nothing any more."""
    _write(request, new_token())
    messages.success(request, _("Your days have an address. Whoever knows it can read them."))
    return redirect("calendar")


@require_POST
def withdraw(request: HttpRequest) -> HttpResponse:
    """Let the address open nothing any more."""
    _write(request, None)
    messages.success(request, _("Withdrawn: the address opens nothing any more."))
    return redirect("calendar")


def _write(request: HttpRequest, token: str | None) -> None:
    user = access.signed_in(request)
    access.require_member(user)
    with held(user):
        user.calendar_token = token
        user.save(update_fields=["calendar_token"])


urlpatterns = [
    path("calendar/own/", renew, name="calendar-feed-renew"),
    path("calendar/own/withdraw/", withdraw, name="calendar-feed-withdraw"),
]
