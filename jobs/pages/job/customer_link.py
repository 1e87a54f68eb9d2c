"""The link of the customer's own page: withdrawn, or given anew."""

from __future__ import annotations

from django.conf import settings
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from jobs import access
from jobs.locks import held
from jobs.models import CustomerPage, Job, Workshop
from jobs.models.base import new_token


def address(page: CustomerPage) -> str:
    """Return what is sent to the customer: on the public address where there is one."""
    leads_to = reverse("customer-page", args=[page.token])
    return f"{settings.PUBLIC or Workshop.current().web_address}{leads_to}"


def _open(request: HttpRequest, code: str) -> tuple[Job, CustomerPage]:
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    return job, get_object_or_404(CustomerPage, job=job)


@require_POST
def withdraw(request: HttpRequest, code: str) -> HttpResponse:
    """Let the link open nothing any more."""
    job, page = _open(request, code)
    with held(job):
        CustomerPage.objects.filter(pk=page.pk, withdrawn_at=None).update(
            withdrawn_at=timezone.now()
        )
    messages.success(request, _("Withdrawn; whoever opens its link is told so."))
    return redirect("sheets", job.code)


@require_POST
def renew(request: HttpRequest, code: str) -> HttpResponse:
    """Give the page another address; the one before opens nothing."""
    job, page = _open(request, code)
    with held(job):
        page.refresh_from_db()
        before, page.token = page.token, new_token()
        # The photos on it are asked for at its own address.
        page.html = page.html.replace(before, page.token)
        page.withdrawn_at = None
        page.save()
    messages.success(request, _("The page has a new link: send it to the customer."))
    return redirect("sheets", job.code)


urlpatterns = [
    path("jobs/<str:code>/customer-link/withdraw/", withdraw, name="customer-link-withdraw"),
    path("jobs/<str:code>/customer-link/new/", renew, name="customer-link-renew"),
]
