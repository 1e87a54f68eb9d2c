"""One's own account: the password, where one is signed in, what was done to it."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.contrib.auth import update_session_auth_hash
from django.contrib.auth.forms import PasswordChangeForm
from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs import access
from jobs.locks import held
from jobs.models import AccountEvent, Session, User
from jobs.pages.workshop import second_factor

EVENTS = 30  # of the newest


def _elsewhere(request: HttpRequest, user: User) -> QuerySet[Session]:
    """Where this person is signed in, besides here."""
    here = request.session.session_key
    return Session.objects.filter(user=user, expire_date__gt=timezone.now()).exclude(pk=here)


class NewPasswordForm(PasswordChangeForm):
    """The password of now, and a new one twice."""

    def clean(self) -> dict[str, Any]:
        """A start password that stays is one that somebody else knows."""
        cleaned = super().clean() or {}
        new = cleaned.get("new_password1")
        if new and new == cleaned.get("old_password"):
            self.add_error("new_password1", _("This is the password you have already."))
        return cleaned


@require_safe
def account(request: HttpRequest) -> HttpResponse:
    """Show one's own account."""
    user = access.signed_in(request)
    access.require_member(user)
    context = {
        "here": Session.objects.filter(pk=request.session.session_key).first(),
        "elsewhere": _elsewhere(request, user).order_by("-seen_at"),
        "factor_on": second_factor.is_on(user),
        "events": user.events.select_related("by")[:EVENTS],
    }
    return render(request, "pages/workshop/account.html", context)


@sensitive_post_parameters()
@require_http_methods(["GET", "POST"])
def password(request: HttpRequest) -> HttpResponse:
    """Change one's own password; every other device is signed out."""
    user = access.signed_in(request)
    access.require_member(user)
    form = NewPasswordForm(user, request.POST or None)
    if request.method == "POST" and form.is_valid():
        with held(user):
            user.refresh_from_db()  # a manager may have changed it meanwhile
            user.must_change_password = False
            form.save()
            _elsewhere(request, user).delete()
            update_session_auth_hash(request, user)
            AccountEvent.objects.create(person=user, by=user, did=AccountEvent.Did.PASSWORD)
        messages.success(request, _("Your password is changed; other devices are signed out."))
        return redirect("account")
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/workshop/password.html", {"form": form}, status=status)


@require_POST
def end_session(request: HttpRequest, handle: str) -> HttpResponse:
    """Sign out one other device."""
    user = access.signed_in(request)
    access.require_member(user)
    session = next((other for other in _elsewhere(request, user) if other.handle == handle), None)
    if session is None:
        raise Http404
    session.delete()
    messages.success(request, _("That device is signed out."))
    return redirect("account")


@require_POST
def end_other_sessions(request: HttpRequest) -> HttpResponse:
    """Sign out every device but this one."""
    user = access.signed_in(request)
    access.require_member(user)
    _elsewhere(request, user).delete()
    messages.success(request, _("Every other device is signed out."))
    return redirect("account")


urlpatterns = [
    path("account/", account, name="account"),
    path("account/password/", password, name="account-password"),
    path("account/sessions/end/", end_other_sessions, name="account-sessions-end"),
    path("account/sessions/<str:handle>/end/", end_session, name="account-session-end"),
]
