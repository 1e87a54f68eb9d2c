"""The price of a job: what the design comes to, what is added by hand, discount and deposit."""

from __future__ import annotations

from typing import Any, ClassVar

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods

from jobs import access
from jobs.design.agreement.price_checks import check_price
from jobs.locks import held
from jobs.models import Job, PriceLine, WorkKind
from jobs.models.agreement.price_line import THING
from jobs.pages.forms import strip
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class PriceLineForm(RecordForm[PriceLine]):
    """A thing, or work by the minute."""

    fieldsets: ClassVar = [
        (gettext_lazy("What is added"), ["kind", "text"]),
        (gettext_lazy("The thing"), ["quantity", "each", "cost", "tax_class"]),
        (gettext_lazy("The work"), ["minutes"]),
    ]
    only_for: ClassVar = {
        gettext_lazy("The thing"): (THING,),
        gettext_lazy("The work"): tuple(WorkKind.values),
    }

    class Meta:
        model = PriceLine
        fields = ("kind", "text", "quantity", "each", "cost", "tax_class", "minutes")
        help_texts: ClassVar = {
            "each": gettext_lazy("Without tax; 0 where it is free."),
        }


class TermsForm(RecordForm[Job]):
    """What is taken off, and what is paid first."""

    class Meta:
        model = Job
        fields = ("budget", "discount", "deposit")


@require_http_methods(["GET", "POST"])
def price(request: HttpRequest, code: str) -> HttpResponse:
    """Show what the job comes to, and change discount and deposit."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_see_prices(user))
    status = 200
    if request.method == "POST":
        with held(job):
            form = TermsForm(request.POST, instance=job)
            if form.is_valid():
                form.save()
                messages.success(request, _("Saved."))
                return redirect("price", job.code)
        status = 422
        job = access.open_job(user, code)  # as it is saved, beside what was typed
    else:
        form = TermsForm(instance=job)
    context = _context(request, job) | {"form": form}
    return render(request, "pages/agreement/price.html", context, status=status)


def _context(request: HttpRequest, job: Job) -> dict[str, Any]:
    user = access.signed_in(request)
    design = strip.worked_out(request, job)
    return {
        "job": job,
        "price": design.price,
        "by_hand": design.records.price_lines,
        "usual_deposit": design.records.workshop.usual_deposit,
        "findings": list(check_price(job, design.price)),
        "steps": strip.steps(request, job, "price"),
        "may_see_costs": access.may_see_costs(user),
        "may_manage": access.may_manage(user),
    }


PRICE_LINE = RowKind(
    slug="price-line",
    form=PriceLineForm,
    section="price",
    allowed=access.may_see_prices,
    unseen=lambda user: () if access.may_see_costs(user) else ("cost",),
)

urlpatterns = [
    path("jobs/<str:code>/price/", price, name="price"),
    *PRICE_LINE.urls(),
]
