"""Who may do what, said by the code that enforces it: no list beside it that could disagree."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import Role, User
from jobs.pages.history.kinds import ROWS
from jobs.sheets.registry import SHEETS

Line = tuple[str, list[tuple[Role, bool]]]


def _line(says: str, right: Callable[[User], bool]) -> Line:
    held = access.holders(right)
    return capfirst(says), [(role, role in held) for role in Role]


def lines() -> list[tuple[str, list[Line]]]:
    """Return (heading, lines): what is done, and for each role whether it may."""
    return [
        (_("In general"), [_line(str(says), right) for right, says in access.RIGHTS.items()]),
        (_("Adds, changes, removes"), [_line(kind.label, kind.allowed) for kind in ROWS]),
        (_("Prints a draft"), [_line(str(k.label), sheet.may_open) for k, sheet in SHEETS.items()]),
        (
            _("Issues a sheet"),
            [_line(str(k.label), sheet.may_issue) for k, sheet in SHEETS.items()],
        ),
    ]


@require_safe
def rights(request: HttpRequest) -> HttpResponse:
    """Show who may do what."""
    access.require_member(access.signed_in(request))
    context = {"roles": list(Role), "parts": lines()}
    return render(request, "pages/workshop/rights.html", context)


urlpatterns = [path("who-may/", rights, name="rights")]
