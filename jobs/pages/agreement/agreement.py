"""What was offered and agreed, what came in, and how many hours it took against those sold."""

from __future__ import annotations

import uuid
from typing import ClassVar

from django import forms
from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access, sheets
from jobs.acceptance import RefusedError, accept
from jobs.design.agreement.agreed import Standing, standing, work_out_account
from jobs.locks import held
from jobs.models import Job, Offer, Payment, SheetKind, User, Workshop
from jobs.pages.forms import strip
from jobs.pages.forms.days import DaysForm
from jobs.pages.forms.fields import key_of, written
from jobs.pages.forms.record_rows import RowKind
from jobs.pages.job import prints


class PaymentForm(DaysForm[Payment]):
    """Money that came in, or went back."""

    over: ClassVar = {"received_on"}

    class Meta:
        model = Payment
        fields = ("kind", "amount", "received_on", "note")
        widgets: ClassVar = {
            "received_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
        }


@require_safe
def agreement(request: HttpRequest, code: str) -> HttpResponse:
    """Show every offer with how it stands, and the account of the job."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_see_prices(user))
    design = strip.worked_out(request, job)
    records = design.records
    spec = sheets.SHEETS[SheetKind.SPEC]
    holder = next((row for row in records.offers if row.is_accepted and row.photos_wanted), None)
    context = {
        "job": job,
        "account": work_out_account(records, design.price),
        "offers": [
            (offer, standing(offer, records.offers), link_of(offer, records.workshop))
            for offer in reversed(records.offers)
        ],
        "open": Standing.OPEN,
        "payments": records.payments,
        "holder": holder,
        "pictures": [row for row in records.photos if row.small and not row.shows_person],
        "chosen": set(holder.photos.values_list("pk", flat=True)) if holder else set(),
        "price": design.price,
        "refused": spec.refuses(design) if spec.refuses else "",
        "pdf_missing": sheets.unavailable(),
        "to_come": job.print_orders.filter(kind=SheetKind.SPEC, to_issue=True)
        .exclude(state="printed")
        .defer("pdf"),
        "token": uuid.uuid4(),
        "paper": records.workshop.paper,
        "language": prints.language(request, job, SheetKind.SPEC),
        "languages": sheets.LANGUAGES,
        "steps": strip.steps(request, job, "price"),
        "section": "agreement",
    }
    return render(request, "pages/agreement/agreement.html", context)


def link_of(offer: Offer, shop: Workshop) -> str:
    """The address to send to the customer: on the public address where there is one."""
    return f"{settings.PUBLIC or shop.web_address}{reverse('offer-page', args=[offer.token])}"


def _offer(request: HttpRequest, code: str, pk: int) -> tuple[User, Job, Offer]:
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_see_prices(user))
    return (
        user,
        job,
        get_object_or_404(Offer.objects.select_related("job", "sheet"), job=job, pk=pk),
    )


@require_POST
def withdraw(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Let the link of an offer open nothing any more; what was agreed stays agreed."""
    _user, job, offer = _offer(request, code, pk)
    with held(job):
        offer.refresh_from_db()
        if offer.is_accepted:
            messages.error(request, _("It was agreed already: it cannot be withdrawn any more."))
        elif offer.revoked_at is None:
            offer.revoked_at = timezone.now()
            offer.save()
            messages.success(request, _("Withdrawn; whoever opens its link is told so."))
    return redirect("agreement", job.code)


@require_POST
def signed_paper(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Write down that the paper came back signed."""
    user, job, offer = _offer(request, code, pk)
    name = " ".join(written(request, "name").split())
    if not 0 < len(name) <= 120:
        messages.error(request, _("Write who signed it, first and last name."))
        return redirect("agreement", job.code)
    try:
        accept(offer, name, [], photos="photos" in request.POST, recorded_by=user)
        messages.success(request, _("Agreed: %(number)s.") % {"number": offer.number})
    except RefusedError as refused:
        messages.error(request, str(refused))
    return redirect("agreement", job.code)


@require_POST
def choose_photos(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Put the ticked photos behind the link, and no others; only where the customer agreed."""
    _user, job, offer = _offer(request, code, pk)
    with held(job):
        offer.refresh_from_db()
        if not (offer.is_accepted and offer.photos_wanted):
            messages.error(request, _("The customer did not agree to photos behind the link."))
            return redirect("agreement", job.code)
        keys = {key for text in request.POST.getlist("photo") if (key := key_of(text))}
        offer.photos.set(job.photos.filter(pk__in=keys, shows_person=False))
    messages.success(request, _("Saved."))
    return redirect("agreement", job.code)


PAYMENT = RowKind(
    slug="payment", form=PaymentForm, section="agreement", allowed=access.may_see_prices
)

urlpatterns = [
    path("jobs/<str:code>/agreement/", agreement, name="agreement"),
    path("jobs/<str:code>/agreement/<int:pk>/withdraw/", withdraw, name="offer-withdraw"),
    path("jobs/<str:code>/agreement/<int:pk>/signed/", signed_paper, name="offer-signed"),
    path("jobs/<str:code>/agreement/<int:pk>/photos/", choose_photos, name="offer-photos"),
    *PAYMENT.urls(),
]
