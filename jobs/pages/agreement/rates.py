"""What an hour costs, how long things usually take, and the rates of tax by date."""

from __future__ import annotations

from functools import partial
from typing import Any, ClassVar

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST

from jobs import access
from jobs.locks import held
from jobs.models import TaxRate, Workshop
from jobs.pages.forms.forms import RecordForm
from jobs.pages.workshop.workshop import SettingsForm, settings


class RatesForm(SettingsForm):
    """Rates by the hour, usual minutes, covering, deposit."""

    fieldsets: ClassVar = [
        (
            gettext_lazy("What is asked for an hour, without tax"),
            ["rate_wood", "rate_covering", "rate_wiring", "rate_car", "rate_set_up", "rate_desk"],
        ),
        (
            gettext_lazy("Usual minutes, where nobody planned the work"),
            ["minutes_cut", "minutes_glue", "minutes_run", "minutes_channel", "minutes_panel"],
        ),
        (gettext_lazy("Minutes the calendar counts with"), ["minutes_day"]),
        (gettext_lazy("Covering of trim panels"), ["covering_price"]),
        (gettext_lazy("Offers"), ["usual_deposit", "valid_days"]),
        (gettext_lazy("What it costs the workshop"), ["hour_cost", "covering_cost"]),
    ]

    class Meta:
        model = Workshop
        fields = (
            *("rate_wood", "rate_covering", "rate_wiring", "rate_car", "rate_set_up"),
            *("rate_desk", "minutes_cut", "minutes_glue", "minutes_run", "minutes_channel"),
            *("minutes_panel", "minutes_day", "covering_price", "usual_deposit", "valid_days"),
            *("hour_cost", "covering_cost"),
        )


class TaxRateForm(RecordForm[TaxRate]):
    """A rate and the day it begins."""

    class Meta:
        model = TaxRate
        fields = ("tax_class", "percent", "valid_from")
        widgets: ClassVar = {
            "valid_from": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
        }

    def clean(self) -> dict[str, Any]:
        """One rate of a class begins on a day."""
        cleaned = super().clean()
        day, tax_class = cleaned.get("valid_from"), cleaned.get("tax_class")
        if day and TaxRate.objects.filter(tax_class=tax_class, valid_from=day).exists():
            self.add_error("valid_from", _("A rate of this class begins on that day already."))
        return cleaned


def _tax(form: TaxRateForm | None = None) -> dict[str, Any]:
    return {"tax_form": form or TaxRateForm(instance=TaxRate()), "tax_rates": TaxRate.objects.all()}


PAGE: dict[str, Any] = {
    "form_class": RatesForm,
    "name": "rates",
    "template": "pages/workshop/rates.html",
}
rates = partial(settings, **PAGE, beside=_tax)


@require_POST
def add_tax(request: HttpRequest) -> HttpResponse:
    """Enter what a class of tax is from a day on."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    with held(Workshop.current()):
        form = TaxRateForm(request.POST, instance=TaxRate())
        if form.is_valid():
            messages.success(request, _("Saved: %(row)s.") % {"row": form.save()})
            return redirect("rates")
    request.method = "GET"  # the rest of the page is shown as it was saved
    answer: HttpResponse = settings(request, **PAGE, beside=lambda: _tax(form))
    answer.status_code = 422
    return answer


@require_POST
def remove_tax(request: HttpRequest, pk: int) -> HttpResponse:
    """Take a rate out; it can be brought back."""
    return _set(request, pk, gone=True)


@require_POST
def restore_tax(request: HttpRequest, pk: int) -> HttpResponse:
    """Bring a rate back."""
    return _set(request, pk, gone=False)


def _set(request: HttpRequest, pk: int, *, gone: bool) -> HttpResponse:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    rate = get_object_or_404(TaxRate.with_removed, pk=pk)
    with held(rate):
        rate.refresh_from_db()
        rate.remove() if gone else rate.restore()
    if gone:
        undo = reverse("tax-restore", args=[pk])
        taken = _("Removed: %(row)s.") % {"row": rate}
        messages.warning(request, taken, extra_tags=f"undo:{undo}")
    else:
        messages.success(request, _("Back again: %(row)s.") % {"row": rate})
    return redirect("rates")


urlpatterns = [
    path("workshop/rates/", rates, name="rates"),
    path("workshop/rates/tax/", add_tax, name="tax-add"),
    path("workshop/rates/tax/<int:pk>/remove/", remove_tax, name="tax-remove"),
    path("workshop/rates/tax/<int:pk>/restore/", restore_tax, name="tax-restore"),
]
