"""Whom a job is for: a customer we know, or a new one."""

from __future__ import annotations

import re
from typing import Any

from django import forms
from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse_lazy
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods

from jobs import access
from jobs.design.job import board_counts
from jobs.locks import held
from jobs.models import Customer, Job
from jobs.pages.forms import strip
from jobs.pages.forms.fields import judged_here

# How a customer is written into one line, so that two of one name are told apart.
_NUMBERED = re.compile(r"#(\d{1,18})$")


class WhoForm(forms.Form):
    """Choose one customer."""

    known_customer = forms.CharField(
        label=gettext_lazy("a customer we know"),
        help_text=gettext_lazy("type part of the name and choose from the list"),
        max_length=140,
        required=False,
        widget=forms.TextInput(
            attrs={
                "list": "known-customers",
                "autocomplete": "off",
                "hx-get": reverse_lazy("customers"),
                "hx-trigger": "input changed delay:120ms",
                "hx-target": "#known-customers",
                "hx-sync": "this:replace",
            }
        ),
    )
    new_customer = forms.CharField(
        label=gettext_lazy("or a new customer’s name"), max_length=120, required=False
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        judged_here(self.fields.values())

    def clean_known_customer(self) -> Customer | None:
        """Find whom the line names: by its number, or by a name nobody else has."""
        text = self.cleaned_data["known_customer"]
        if not text:
            return None
        if numbered := _NUMBERED.search(text):
            matches = list(Customer.objects.filter(pk=int(numbered[1]), erased_at=None))
        else:
            matches = list(Customer.objects.filter(name__iexact=text)[:2])
        if not matches:
            raise forms.ValidationError(_("Nobody of this name has been here yet."))
        if len(matches) > 1:
            raise forms.ValidationError(_("Two have this name: choose one from the list."))
        return matches[0]

    def clean(self) -> dict[str, Any]:
        """Ask for a customer, known or new, and for one only."""
        cleaned = super().clean() or {}
        if "known_customer" in self.errors:
            return cleaned
        known, new = cleaned.get("known_customer"), cleaned.get("new_customer")
        if not known and not new:
            self.add_error("new_customer", _("Choose a customer or write a new one’s name."))
        elif known and new:
            words = {"known": known, "new": new}
            self.add_error(
                "new_customer",
                _("For whom is it, %(known)s or %(new)s? Empty one of the two fields.") % words,
            )
        return cleaned

    def customer(self) -> Customer:
        """Return whom was chosen; a new one is made."""
        known: Customer | None = self.cleaned_data["known_customer"]
        return known or Customer.objects.create(name=self.cleaned_data["new_customer"])


def give_to(job: Job, customer: Customer) -> None:
    """Put a job under another customer's name.

    Of a car that was here before for somebody else, this job gets a row of its own: the earlier
    visits stay with who came then.
    """
    car = job.vehicle
    car.customer = customer
    if Job.with_removed.filter(vehicle=car).exclude(pk=job.pk).exists():
        car.pk, car.version, car.entry_token = None, 1, None
        car._state.adding = True
        car.save()
        job.vehicle = car
        job.version += 1
        job.save()
    else:
        car.version += 1
        car.save()


@require_http_methods(["GET", "POST"])
def change(request: HttpRequest, code: str) -> HttpResponse:
    """Give a job another customer."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    form = WhoForm(request.POST or None)
    if request.method == "POST":
        with transaction.atomic(), held(job):
            if form.is_valid():
                give_to(job, form.customer())
                board_counts.forget(job)
                messages.success(request, _("Now for %(who)s.") % {"who": job.vehicle.customer})
                return redirect("job", code)
    context = {"job": job, "form": form, "steps": strip.steps(request, job, "")}
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/job/customer_change.html", context, status=status)


urlpatterns = [path("jobs/<str:code>/customer/change/", change, name="customer-change")]
