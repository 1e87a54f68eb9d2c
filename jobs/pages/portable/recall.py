"""The cars a part is in: as a list, as a table, as letters with what the workshop writes."""

from __future__ import annotations

from typing import Any

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import path
from django.utils import timezone
from django.utils.translation import get_language, gettext_lazy
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from jobs import access, sheets
from jobs.design.job.after.recall import CarWithPart, cars_with
from jobs.models import Part
from jobs.sheets.customer.recall import letters
from jobs.tables import written

MOST_LETTERS = 200  # printed while somebody waits


class NumbersForm(forms.Form):
    """Which pieces are meant; all of them where nothing is typed."""

    first = forms.CharField(
        label=gettext_lazy("serial numbers from"), max_length=60, required=False
    )
    last = forms.CharField(
        label=gettext_lazy("to"),
        max_length=60,
        required=False,
        help_text=gettext_lazy("Left empty: every number that begins as the first one."),
    )


class LetterForm(forms.Form):
    """What is written to the customers, in the workshop's own words."""

    text = forms.CharField(
        label=gettext_lazy("what you write"),
        max_length=3000,
        min_length=20,
        widget=forms.Textarea,
        help_text=gettext_lazy(
            "What is the matter, as the part maker says it, and what is to be done. Nothing is "
            "added to it but the car, the part, and whom to call."
        ),
    )


@require_http_methods(["GET", "POST"])
def recall(request: HttpRequest, pk: int) -> HttpResponse:
    """List the cars; write the table or the letters where they are asked for."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user) and access.may_handle_personal_data(user))
    part = get_object_or_404(Part.with_removed, pk=pk)
    asked = NumbersForm(request.GET)
    numbers = asked.cleaned_data if asked.is_valid() else {}
    cars = cars_with(part, numbers.get("first", ""), numbers.get("last", ""))
    if request.GET.get("as") == "csv":
        return _table(part, cars)
    gone = [car for car in cars if car.has_left and not car.job.vehicle.customer.erased_at]
    form = LetterForm(request.POST or None)
    if request.method == "POST" and form.is_valid():
        if trouble := _trouble(gone):
            form.add_error(None, trouble)
        else:
            language = get_language() or "en"
            pdf = letters(
                part, gone, form.cleaned_data["text"],
                by=user, on=timezone.localdate(), language=language,
            )  # fmt: skip
            answer = HttpResponse(pdf, content_type="application/pdf")
            answer["Content-Disposition"] = f'attachment; filename="letters-{part.pk}.pdf"'
            return answer
    context: dict[str, Any] = {
        "part": part,
        "asked": asked,
        "in_cars": [car for car in cars if car.is_in_the_car],
        "planned": [car for car in cars if not car.is_in_the_car],
        "letters": len(gone),
        "form": form,
        "query": request.GET.urlencode(),
    }
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/portable/recall.html", context, status=status)


def _trouble(gone: list[CarWithPart]) -> str:
    if not gone:
        return _("No car with it has been handed over: there is nobody to write to.")
    if len(gone) > MOST_LETTERS:
        return _("These are more than %(n)d letters: narrow the numbers.") % {"n": MOST_LETTERS}
    return sheets.unavailable()


def _table(part: Part, cars: list[CarWithPart]) -> HttpResponse:
    """Return the list for a table program; what is not known is said, not left out."""
    names = ("job", "stage", "car", "plate", "vin", "customer", "phone", "email", "part", "where",
             "serial numbers", "a number is not known")  # fmt: skip
    rows = []
    for car in cars:
        vehicle = car.job.vehicle
        customer = vehicle.customer
        values = (
            *(car.job.code, car.job.get_stage_display(), str(vehicle), vehicle.plate, vehicle.vin),
            *(str(customer), customer.phone, customer.email, str(part)),
            *("; ".join(use.what for use in car.uses), car.numbers),
            str(_("Yes") if car.number_unknown else _("No")),
        )
        rows.append(dict(zip(names, values, strict=True)))
    answer = HttpResponse(written(names, rows), content_type="text/csv; charset=utf-8")
    answer["Content-Disposition"] = f'attachment; filename="cars-{part.pk}.csv"'
    return answer


urlpatterns = [path("catalogue/<int:pk>/cars/", recall, name="part-cars")]
