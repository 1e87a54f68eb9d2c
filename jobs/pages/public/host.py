"""The public address: pages marked public answer there, static files, and nothing else."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.http.request import split_domain_port
from django.http.response import HttpResponseBase
from django.template.loader import render_to_string
from django.urls import Resolver404, resolve
from django.utils import translation
from django.views.decorators.csrf import csrf_exempt

View = TypeVar("View", bound=Callable[..., Any])
Answer = TypeVar("Answer", bound=HttpResponseBase)


def public(view: View) -> View:
    """Mark a page as meant for everybody: it asks for no sign-in and knows no cookie."""
    view.is_public = True  # type: ignore[attr-defined]
    return csrf_exempt(login_not_required(view))


def is_public(path: str) -> bool:
    """Whether the page at this path is marked so."""
    try:
        return getattr(resolve(path).func, "is_public", False)
    except Resolver404:
        return False


def public_only(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[..., HttpResponse]:
    """On the public address answer as if the rest of the app were not there.

    A cookie neither comes nor goes, and what is not found looks the same wherever it was asked.
    """

    def answer(request: HttpRequest) -> HttpResponse:
        # As it was sent: who may ask under which name is judged later, by Django itself.
        host, _port = split_domain_port(request.META.get("HTTP_HOST", ""))
        if not settings.PUBLIC_HOST or host != settings.PUBLIC_HOST:
            return get_response(request)
        path = request.path_info
        if not (path.startswith(settings.STATIC_URL) or is_public(path)):
            return nothing_here(request)
        request.META.pop("HTTP_COOKIE", None)
        response = get_response(request)
        if response.status_code == 404:
            response.close()
            return nothing_here(request)
        response.cookies.clear()
        return response

    return answer


def nothing_here(request: HttpRequest) -> HttpResponse:
    """Say that there is no such page, and nothing about the app."""
    language = language_of(request)
    with translation.override(language):
        text = render_to_string("public/nothing.html", {"language": language})
    return for_nobodys_list(HttpResponse(text, status=404))


def language_of(request: HttpRequest) -> str:
    """Return what the address asks for, or else the browser: the switch works without a cookie."""
    return asked_language(request) or translation.get_language_from_request(request)


def asked_language(request: HttpRequest) -> str:
    """Return what the address asks for, or nothing."""
    asked = request.GET.get("l", "")
    return asked if asked in dict(settings.LANGUAGES) else ""


def for_nobodys_list(response: Answer) -> Answer:
    """Keep a page out of search engines and out of every cache."""
    response.headers["X-Robots-Tag"] = "noindex, nofollow, noarchive"
    response.headers["Cache-Control"] = "no-store"
    response.headers["Referrer-Policy"] = "no-referrer"
    return response
