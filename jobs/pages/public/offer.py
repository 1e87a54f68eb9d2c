"""What a customer is offered, behind its link: read on a phone, agreed by name and signature."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.http import FileResponse, HttpRequest, HttpResponse
from django.template.loader import render_to_string
from django.urls import path
from django.utils import translation
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_safe

from jobs import access
from jobs.acceptance import HEIGHT, WIDTH, RefusedError, accept, signature, why_not
from jobs.design.agreement.agreed import Standing, standing
from jobs.design.agreement.shown import Shown, changes
from jobs.models import Offer, Workshop
from jobs.pages.forms.fields import written
from jobs.pages.public.host import asked_language, for_nobodys_list, nothing_here, public

LONGEST_NAME = 120
GONE = (Standing.WITHDRAWN, Standing.REPLACED)


@public
@require_http_methods(["GET", "HEAD", "POST"])
def offer_page(request: HttpRequest, token: str) -> HttpResponse:
    """Show what is offered to whoever holds its link, and take their yes."""
    offer = access.offer_of_link(token)
    if offer is None:
        return nothing_here(request)
    language = asked_language(request) or offer.sheet.language
    with translation.override(language):
        trouble, status = "", 200
        if request.method == "POST":
            try:
                said_yes = _sent(request, Shown.read(offer.shown))
                offer = accept(offer, *said_yes, photos="photos" in request.POST)
            except RefusedError as refused:
                offer.refresh_from_db()
                trouble, status = str(refused), 409 if why_not(offer) else 422
        if standing(offer, list(Offer.objects.filter(job=offer.job_id))) in GONE:
            context = {"language": language, "workshop": Workshop.current(), "why": why_not(offer)}
            gone = render_to_string("public/offer_gone.html", context)
            return for_nobodys_list(HttpResponse(gone, status=410))
        context = _context(request, offer, language) | {"trouble": trouble}
        page = render_to_string("public/offer.html", context)
    return for_nobodys_list(HttpResponse(page, status=status))


def _sent(request: HttpRequest, shown: Shown) -> tuple[str, list[list[int]]]:
    name = " ".join(written(request, "name").split())
    if not name or len(name) > LONGEST_NAME:
        raise RefusedError(_("Write your name, first and last."))
    if {asked for asked, _text in shown.questions} - {*request.POST.getlist("asked")}:
        raise RefusedError(_("Tick each thing you asked for, or ask us about it first."))
    if "agree" not in request.POST:
        raise RefusedError(_("Tick that you agree to what stands here."))
    return name, signature(request.POST.get("signature", ""))


def _context(request: HttpRequest, offer: Offer, language: str) -> dict[str, Any]:
    shown = Shown.read(offer.shown)
    before = Shown.read(offer.basis.shown) if offer.basis else None
    return {
        "offer": offer,
        "shown": shown,
        "basis": offer.basis,
        "before": before,
        "changes": changes(before, shown) if before else [],
        "more": shown.total - before.total if before else None,
        "car": str(offer.job.vehicle),
        "why_not": why_not(offer),
        "workshop": Workshop.current(),
        "language": language,
        "languages": [code for code, _name in settings.LANGUAGES if code != language],
        "typed": written(request, "name"),
        "photos": access.photos_of_link(offer),
        "photos_ticked": "photos" in request.POST,
        "ticked": request.POST.getlist("asked"),
        "width": WIDTH,
        "height": HEIGHT,
    }


@public
@require_safe
def offer_paper(request: HttpRequest, token: str) -> HttpResponse:
    """Hand over the paper with the bytes it was frozen with."""
    offer = access.offer_of_link(token)
    gone = offer and standing(offer, list(Offer.objects.filter(job=offer.job_id))) in GONE
    pdf = offer.sheet.content() if offer and not gone else None
    if offer is None or not pdf:
        return nothing_here(request)
    response = HttpResponse(pdf, content_type="application/pdf")
    name = offer.number.replace("/", "-")
    response["Content-Disposition"] = f'inline; filename="{name}.pdf"'
    return for_nobodys_list(response)


@public
@require_safe
def offer_photo(request: HttpRequest, token: str, pk: int) -> HttpResponse | FileResponse:
    """Show a photo that was chosen for whoever holds the link."""
    offer = access.offer_of_link(token)
    photo = offer and access.photos_of_link(offer).filter(pk=pk).first()
    try:
        if not photo:
            return nothing_here(request)
        response = FileResponse(photo.small.open("rb"), content_type="image/jpeg")
    except (OSError, ValueError):  # the photo's file is gone
        return nothing_here(request)
    return for_nobodys_list(response)


urlpatterns = [
    path("o/<str:token>/", offer_page, name="offer-page"),
    path("o/<str:token>/paper.pdf", offer_paper, name="offer-paper"),
    path("o/<str:token>/<int:pk>.jpg", offer_photo, name="offer-photo"),
]
