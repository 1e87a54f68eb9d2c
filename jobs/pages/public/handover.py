"""The hand-over behind the customer's own link: as it was issued, in their language."""

from __future__ import annotations

from django.http import FileResponse, HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.urls import path
from django.utils import translation
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import Photo, Workshop
from jobs.pages.public.host import for_nobodys_list, nothing_here, public


@public
@require_safe
def handover_page(request: HttpRequest, token: str) -> HttpResponse:
    """Show what was handed over, as it was issued last."""
    page = access.page_of_link(token)
    if page is None:
        return nothing_here(request)
    language, workshop = page.sheet.language, Workshop.current()
    with translation.override(language):
        if page.withdrawn_at:
            why = _("This link was withdrawn. Ask us for a new one.")
            context = {"language": language, "workshop": workshop, "why": why}
            gone = render_to_string("public/offer_gone.html", context)
            return for_nobodys_list(HttpResponse(gone, status=410))
        context = {
            "page": page,
            "car": str(page.job.vehicle),
            "workshop": workshop,
            "language": language,
        }
        shown = render_to_string("public/handover.html", context)
    return for_nobodys_list(HttpResponse(shown))


@public
@require_safe
def handover_paper(request: HttpRequest, token: str) -> HttpResponse:
    """Hand over the paper with the bytes it was issued with."""
    page = access.page_of_link(token)
    pdf = page.sheet.content() if page and not page.withdrawn_at else None
    if page is None or not pdf:
        return nothing_here(request)
    response = HttpResponse(pdf, content_type="application/pdf")
    response["Content-Disposition"] = f'inline; filename="{page.job.code}.pdf"'
    return for_nobodys_list(response)


@public
@require_safe
def handover_photo(request: HttpRequest, token: str, pk: int) -> HttpResponse | FileResponse:
    """Show a photo that is on the page."""
    page = access.page_of_link(token)
    if page is None or page.withdrawn_at or pk not in page.photos:
        return nothing_here(request)
    photo = Photo.objects.filter(pk=pk, job=page.job_id, shows_person=False).first()
    try:
        if not photo:
            return nothing_here(request)
        response = FileResponse(photo.small.open("rb"), content_type="image/jpeg")
    except (OSError, ValueError):  # the photo's file is gone
        return nothing_here(request)
    return for_nobodys_list(response)


urlpatterns = [
    path("h/<str:token>/", handover_page, name="customer-page"),
    path("h/<str:token>/paper.pdf", handover_paper, name="customer-paper"),
    path("h/<str:token>/<int:pk>.jpg", handover_photo, name="customer-photo"),
]
