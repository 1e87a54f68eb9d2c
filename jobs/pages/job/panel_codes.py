"""The codes of panels, and which photos may be seen behind them: decided by who may spec."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from jobs import access
from jobs.locks import held
from jobs.models import Job, Panel, Photo, User
from jobs.panel_codes import renew_code, withdraw_code


def _open(request: HttpRequest, code: str) -> tuple[User, Job]:
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    return user, job


def _back(job: Job, panel: int) -> HttpResponse:
    return redirect(f"{redirect('panels', job.code).url}#panel-{panel}")


@require_POST
def renew(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Give a panel a code, and withdraw the one it had."""
    user, job = _open(request, code)
    panel = get_object_or_404(Panel, job=job, pk=pk)
    renew_code(panel, user)
    messages.success(
        request, _("%(panel)s has a new code: print its record anew.") % {"panel": panel}
    )
    return _back(job, pk)


@require_POST
def withdraw(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Let the code of a panel open nothing any more."""
    user, job = _open(request, code)
    panel = get_object_or_404(Panel, job=job, pk=pk)
    withdraw_code(panel, user)
    messages.success(
        request,
        _("The code of %(panel)s is withdrawn; whoever scans it is told so.") % {"panel": panel},
    )
    return _back(job, pk)


@require_POST
def show_photo(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Let a photo be seen behind the code, or no longer."""
    _user, job = _open(request, code)
    with held(job):
        photo = get_object_or_404(Photo, job=job, pk=pk, panel__isnull=False)
        photo.shown_outside = request.POST.get("shown") == "1"
        photo.save(update_fields=["shown_outside"])
    assert photo.panel_id is not None  # asked for above
    return _back(job, photo.panel_id)


urlpatterns = [
    path("jobs/<str:code>/panel/<int:pk>/code/", renew, name="panel-code-renew"),
    path("jobs/<str:code>/panel/<int:pk>/code/withdraw/", withdraw, name="panel-code-withdraw"),
    path("jobs/<str:code>/photo/<int:pk>/show/", show_photo, name="photo-show"),
]
