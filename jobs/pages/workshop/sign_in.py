"""Signing in: name and password, then a code where somebody wants one; and the calm way out."""

from __future__ import annotations

import math
import time
from typing import Any

from axes.attempts import get_cool_off_threshold
from axes.models import AccessAttempt
from django.conf import settings
from django.contrib.auth import login
from django.contrib.auth import views as auth_views
from django.contrib.auth.decorators import login_not_required
from django.contrib.auth.forms import AuthenticationForm
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods

from jobs import sessions
from jobs.models import User
from jobs.pages.workshop import second_factor

PENDING = "second-step"
# Whoever does not find the phone for longer begins again.
SECONDS_FOR_CODE = 600


class SignIn(auth_views.LoginView):
    """Ask for name and password; lets in at once, or goes on to the code."""

    def form_valid(self, form: AuthenticationForm) -> HttpResponse:
        """Let in whom the password is enough of."""
        user = form.get_user()
        assert isinstance(user, User)
        if not second_factor.is_on(user):
            return _enter(self.request, user, user.backend, self.get_success_url())
        self.request.session[PENDING] = {
            "user": user.pk,
            "backend": user.backend,
            "password": user.get_session_auth_hash(),
            "at": time.time(),
            "next": self.get_success_url(),
        }
        return redirect("second-step")


def _enter(request: HttpRequest, user: User, backend: str, where: str) -> HttpResponse:
    login(request, user, backend)
    sessions.begin(request)
    answer = redirect(where)
    if user.language and settings.LANGUAGE_COOKIE_NAME not in request.COOKIES:
        answer.set_cookie(
            settings.LANGUAGE_COOKIE_NAME, user.language, secure=settings.SECURE, samesite="Lax"
        )
    return answer


def _half_in(request: HttpRequest) -> User | None:
    """Return whoever gave the right password a moment ago."""
    pending = request.session.get(PENDING)
    if pending is None or time.time() - pending["at"] > SECONDS_FOR_CODE:
        return None
    user = User.objects.filter(pk=pending["user"], is_active=True).first()
    return user if user and user.get_session_auth_hash() == pending["password"] else None


@login_not_required
@sensitive_post_parameters("code")
@require_http_methods(["GET", "POST"])
def second_step(request: HttpRequest) -> HttpResponse:
    """Ask whoever gave the right password for the code."""
    user = _half_in(request)
    if user is None:
        return redirect("login")
    form = second_factor.CodeForm(request.POST or None, user=user)
    if request.method == "POST" and form.is_valid():
        pending = request.session.pop(PENDING)
        return _enter(request, user, pending["backend"], pending["next"])
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/workshop/second_step.html", {"form": form}, status=status)


def locked_out(
    request: HttpRequest, response: HttpResponse, credentials: dict[str, Any]
) -> HttpResponse:
    """Say calmly that this name has to wait at this address, and how long at most."""
    since = get_cool_off_threshold(request)
    last = AccessAttempt.objects.filter(
        username=credentials.get("username"),
        ip_address=request.META["REMOTE_ADDR"],
        attempt_time__gt=since,
    ).first()
    waits = (last.attempt_time - since).total_seconds() if last else 0
    context = {"minutes": max(1, math.ceil(waits / 60))}
    return render(request, "pages/workshop/locked_out.html", context, status=429)


urlpatterns = [
    path("sign-in/", SignIn.as_view(), name="login"),
    path("sign-in/code/", second_step, name="second-step"),
    path("sign-out/", auth_views.LogoutView.as_view(), name="logout"),
]
