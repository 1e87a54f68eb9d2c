"""What was agreed and what came in, of all jobs, as a table for whoever keeps the books."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.utils.timezone import localtime
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_safe

from jobs import access, tables
from jobs.design.agreement.shown import Shown
from jobs.models import Job, Offer, Payment, Workshop

COLUMNS = (
    *("day", "document", "job", "customer", "what"),
    *("tax rate", "net", "tax", "amount", "currency"),
)
ZERO = Decimal(0)
DAY = forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
Row = dict[str, Any]


class SpanForm(forms.Form):
    """From one day to another, both counted."""

    begin = forms.DateField(label=gettext_lazy("from"), widget=DAY)
    end = forms.DateField(label=gettext_lazy("to"), widget=DAY)

    def clean(self) -> dict[str, Any]:
        """The first day comes first."""
        cleaned = super().clean() or {}
        begin, end = cleaned.get("begin"), cleaned.get("end")
        if begin and end and end < begin:
            self.add_error("end", _("This day is before the first."))
        return cleaned


@require_safe
def accounts(request: HttpRequest) -> HttpResponse:
    """Show what a span of days holds, or hand it over as a table."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_see_prices(user))
    today = timezone.localdate()
    usual = {"begin": today.replace(day=1).isoformat(), "end": today.isoformat()}
    form = SpanForm(usual | request.GET.dict())
    rows: list[Row] = []
    if form.is_valid():
        rows = _rows(form.cleaned_data["begin"], form.cleaned_data["end"])
        if "csv" in request.GET:
            return _file(rows, form.cleaned_data["begin"], form.cleaned_data["end"])
    context = {"form": form, "rows": rows, "asked": request.GET.urlencode()}
    status = 200 if form.is_valid() else 422
    return render(request, "pages/agreement/accounts.html", context, status=status)


def _file(rows: list[Row], begin: dt.date, end: dt.date) -> HttpResponse:
    text = tables.written(COLUMNS, rows)
    # The mark in front tells table programs that letters beyond English are UTF-8.
    answer = HttpResponse(f"\ufeff{text}".encode(), content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="accounts-{begin}-{end}.csv"'
    return answer


def _rows(begin: dt.date, end: dt.date) -> list[Row]:
    """Every yes by its rates of tax, and every payment, by day."""
    rows = [*_agreed(begin, end), *_paid(begin, end)]
    return sorted(rows, key=lambda row: (row["day"], row["document"]))


def _of_job(job: Job) -> Row:
    return {"job": job.code, "customer": str(job.vehicle.customer)}


def _agreed(begin: dt.date, end: dt.date) -> Iterator[Row]:
    offers = Offer.objects.filter(accepted_at__isnull=False, job__removed_at=None)
    related = ("sheet", "basis", "job__vehicle__customer")
    for offer in offers.select_related(*related).order_by("pk"):
        assert offer.accepted_at is not None
        day = localtime(offer.accepted_at).date()
        if begin <= day <= end:
            for percent, (net, tax) in _taxes(offer).items():
                yield _of_job(offer.job) | {
                    "day": day.isoformat(),
                    "document": offer.number,
                    "what": "addition" if offer.addition else "agreed",
                    "tax rate": percent,
                    "net": net,
                    "tax": tax,
                    "amount": net + tax,
                    "currency": Shown.read(offer.shown).currency,
                }


def _taxes(offer: Offer) -> dict[Decimal, tuple[Decimal, Decimal]]:
    """By rate, net and tax; of an addition what it adds to what was agreed before."""
    sums: dict[Decimal, tuple[Decimal, Decimal]] = {}
    counted = [(offer, 1), (offer.basis, -1)] if offer.basis else [(offer, 1)]
    for frozen, sign in counted:
        assert frozen is not None
        for line in Shown.read(frozen.shown).taxes:
            net, tax = sums.get(line.percent, (ZERO, ZERO))
            sums[line.percent] = (net + sign * line.base, tax + sign * line.tax)
    return {percent: sums[percent] for percent in sorted(sums)}


def _paid(begin: dt.date, end: dt.date) -> Iterator[Row]:
    payments = Payment.objects.filter(received_on__range=(begin, end), job__removed_at=None)
    currency = Workshop.current().currency
    for payment in payments.select_related("job__vehicle__customer"):
        yield _of_job(payment.job) | {
            "day": payment.received_on.isoformat(),
            "document": payment.note,
            "what": payment.kind,
            **dict.fromkeys(("tax rate", "net", "tax")),
            "amount": payment.counted,
            "currency": currency,
        }


urlpatterns = [path("accounts/", accounts, name="accounts")]
