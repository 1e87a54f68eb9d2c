"""The page behind the code of a panel, for whoever opens it next."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.conf import settings
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.templatetags.static import static
from django.urls import path, reverse
from django.utils import translation
from django.views.decorators.http import require_safe

from jobs import access, units
from jobs.design.job.panel_page import PanelPage, work_out_panel_pages
from jobs.design.records.records import load
from jobs.models import Panel, Workshop
from jobs.pages.public.host import for_nobodys_list, language_of, nothing_here, public

STYLES = ("jobs/css/fonts.css", "jobs/css/tokens.css", "jobs/css/public.css")


@public
@require_safe
def panel_page(request: HttpRequest, token: str) -> HttpResponse:
    """Show what is behind a panel to whoever holds its code."""
    try:
        panel = access.panel_of_code(token)
    except Http404:
        return nothing_here(request)
    language = language_of(request)
    if panel is None:
        with translation.override(language):
            context = {"language": language, "workshop": Workshop.current()}
            gone = render_to_string("public/withdrawn.html", context)
        return for_nobodys_list(HttpResponse(gone, status=410))
    page = page_of(panel)
    text = written(
        page,
        Workshop.current(),
        language,
        photos=[reverse("panel-page-photo", args=[token, photo.pk]) for photo in page.photos],
        styles=[static(name) for name in STYLES],
        languages={code: f"?l={code}" for code, _name in settings.LANGUAGES},
    )
    return for_nobodys_list(HttpResponse(text))


@public
@require_safe
def panel_photo(request: HttpRequest, token: str, pk: int) -> HttpResponse | FileResponse:
    """Show a photo that may be seen behind the code."""
    try:
        panel = access.panel_of_code(token)
        photo = panel and panel.photos.filter(pk=pk).first()
        if not photo or not photo.is_for_everybody:
            return nothing_here(request)
        response = FileResponse(photo.small.open("rb"), content_type="image/jpeg")
    except (Http404, OSError, ValueError):  # no such code, or the photo's file is gone
        return nothing_here(request)
    return for_nobodys_list(response)


def page_of(panel: Panel) -> PanelPage:
    """Return what may be known of one panel."""
    return next(page for page in work_out_panel_pages(load(panel.job)) if page.panel == panel)


def written(
    page: PanelPage,
    workshop: Workshop,
    language: str,
    *,
    photos: Sequence[str],
    styles: Sequence[str],
    languages: Mapping[str, str],
) -> str:
    """Return the page as HTML, in one language; the addresses say where its files lie."""
    with translation.override(language), units.using_system(units.system_named(workshop.units)):
        context: dict[str, Any] = {
            "page": page,
            "panel": page.panel,
            "workshop": workshop,
            "language": language,
            "languages": [
                (code, address) for code, address in languages.items() if code != language
            ],
            "photos": list(zip(page.photos, photos, strict=True)),
            "styles": styles,
        }
        return render_to_string("public/panel.html", context)


urlpatterns = [
    path("p/<str:token>/", panel_page, name="panel-page"),
    path("p/<str:token>/<int:pk>.jpg", panel_photo, name="panel-page-photo"),
]
