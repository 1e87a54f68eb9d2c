"""One person's data, for the manager: what is kept, handed out as a file, or erased."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib import messages
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_safe

from jobs import access
from jobs.keeping import erased_list
from jobs.keeping.erase import PERSONAL, erase, typed_elsewhere
from jobs.keeping.erased_list import Erased
from jobs.keeping.export import export
from jobs.keeping.removed import delete_files
from jobs.locks import held
from jobs.models import Customer, IssuedSheet, Job, Photo, User
from jobs.pages.forms import strip
from jobs.pages.forms.fields import judged_here


class EraseForm(forms.Form):
    """Who is to be erased, typed once more, and why."""

    name = forms.CharField(label=gettext_lazy("the person’s name, typed once more"), max_length=120)
    why = forms.CharField(
        label=gettext_lazy("why"),
        max_length=200,
        min_length=4,
        help_text=gettext_lazy("It is kept and shown: write no name into it."),
    )
    plates = forms.BooleanField(
        label=gettext_lazy("number plate and VIN of their cars too"),
        required=False,
        help_text=gettext_lazy(
            "They belong to the car. Leave them where the car stays with its next owner; take "
            "them out where they still lead to this person."
        ),
    )

    def __init__(self, customer: Customer, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.customer = customer
        judged_here(self.fields.values())
        self.fields["name"].widget.attrs["autocomplete"] = "off"

    def clean_name(self) -> str:
        """Take the name of this person only."""
        name: str = self.cleaned_data["name"]
        if name.casefold().split() != self.customer.name.casefold().split():
            raise forms.ValidationError(_("This is not the name of this person."))
        return name

    def clean_why(self) -> str:
        """Refuse a reason that says who it was."""
        why: str = self.cleaned_data["why"]
        if self.customer.name.casefold() in why.casefold():
            raise forms.ValidationError(_("The reason is kept: leave the name out."))
        return why


def _open(request: HttpRequest, code: str) -> tuple[User, Job, Customer]:
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_handle_personal_data(user))
    customer = job.vehicle.customer
    if customer.erased_at:
        raise Http404
    return user, job, customer


@require_http_methods(["GET", "POST"])
def data(request: HttpRequest, code: str) -> HttpResponse:
    """Say what is kept of a person; erase them when it is asked for in full."""
    user, job, customer = _open(request, code)
    form = EraseForm(customer, request.POST or None)
    if request.method == "POST" and form.is_valid():
        _erase(customer, user, form.cleaned_data)
        messages.success(request, _("Erased. What is left is the technical record of the car."))
        return redirect("customer", code)
    jobs = Job.with_removed.filter(vehicle__customer=customer).order_by("number")
    sheets = IssuedSheet.objects.filter(job__in=jobs, erased_at=None).select_related("job")
    context = {
        "job": job,
        "customer": customer,
        "form": form,
        "jobs": jobs,
        "personal": sheets.filter(kind__in=PERSONAL).defer("pdf", "data"),
        "photos": Photo.objects.filter(job__in=jobs, shows_person=True).count(),
        "typed": typed_elsewhere(customer),
        "steps": strip.steps(request, job, ""),
    }
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/job/customer_data.html", context, status=status)


def _erase(customer: Customer, user: User, asked: dict[str, Any]) -> None:
    began = erased_list.began(customer)
    jobs = Job.with_removed.filter(vehicle__customer=customer).order_by("pk")
    with held(*jobs, customer):
        files = erase(customer, by=user, why=asked["why"], plates=asked["plates"])
        assert customer.erased_at is not None
        erased = Erased(
            customer=customer.pk,
            began=began,
            at=customer.erased_at.isoformat(),
            plates=asked["plates"],
        )
        transaction.on_commit(lambda: erased_list.add(erased))
        transaction.on_commit(lambda: delete_files(files))


@require_safe
def hand_out(request: HttpRequest, code: str) -> HttpResponse:
    """Send everything that is kept of a person, as one file."""
    _user, _job, customer = _open(request, code)
    answer = HttpResponse(export(customer), content_type="application/zip")
    answer["Content-Disposition"] = f'attachment; filename="customer-{customer.pk}.zip"'
    return answer


urlpatterns = [
    path("jobs/<str:code>/customer/data/", data, name="customer-data"),
    path("jobs/<str:code>/customer/data/file/", hand_out, name="customer-file"),
]
