"""The page behind the code of an issued sheet: whether it is still the current one."""

from __future__ import annotations

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.urls import path
from django.utils import translation
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import IssuedSheet, Workshop
from jobs.pages.public.host import for_nobodys_list, language_of, nothing_here, public


@public
@require_safe
def standing(request: HttpRequest, token: str) -> HttpResponse:
    """Say of a sheet in somebody's hand what stands on it anyway, and which one is newer.

    What has changed since is the workshop's to tell: the sheet's own page says it to a member.
    """
    sheet = access.sheet_of_code(token)
    if sheet is None:
        return nothing_here(request)
    same = IssuedSheet.objects.filter(job=sheet.job_id, kind=sheet.kind)
    newest = same.defer("pdf", "data").order_by("revision").last()
    language = language_of(request)
    with translation.override(language):
        context = {
            "language": language,
            "languages": [(code, f"?l={code}") for code, _name in settings.LANGUAGES],
            "sheet": sheet,
            "newer": newest if newest != sheet else None,
            "workshop": Workshop.current(),
        }
        return for_nobodys_list(HttpResponse(render_to_string("public/standing.html", context)))


urlpatterns = [
    path("s/<str:token>/", standing, name="sheet-standing"),
]
