"""What holds for everybody who is signed in: last seen when, and no start password kept."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse

from jobs import access, sessions
from jobs.models import User


def signed_in(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[..., HttpResponse]:
    """Note that a session is in use; lead whoever has a start password to choose their own."""

    def answer(request: HttpRequest) -> HttpResponse:
        user = request.user
        if isinstance(user, User):
            sessions.renew(request)
            if user.must_change_password and access.is_member(user) and not _may_stay(request):
                return redirect("account-password")
        return get_response(request)

    return answer


def _may_stay(request: HttpRequest) -> bool:
    """The page that changes it, the way out, and the language both are read in."""
    open_names = ("account-password", "logout", "set_language")
    return request.path in {reverse(name) for name in open_names}
