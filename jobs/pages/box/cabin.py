"""A box in its car's cabin, as an upper bound or by a measured curve; and the curves measured."""

from __future__ import annotations

from typing import Any

from django import forms
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe
from django.views.decorators.vary import vary_on_headers

from jobs import access
from jobs.design.box.cabin import UnreadableCurveError, cabin_of, read_transfer
from jobs.drawings.box.compare_pictures import cabin_chart
from jobs.models import CabinCurve
from jobs.pages.forms import strip
from jobs.pages.forms.columns_form import ColumnsForm
from jobs.pages.forms.record_rows import RowKind


class CabinCurveForm(ColumnsForm[CabinCurve]):
    """A transfer curve: pasted, or read from a file, and where, when and by whom."""

    class Meta:
        model = CabinCurve
        fields = ("place", "measured_on", "measured_by", "content")
        widgets = {
            "measured_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "content": forms.Textarea(attrs={"rows": 10, "spellcheck": "false"}),
        }
        help_texts = {
            "content": _(
                "One line for each frequency: Hz, dB, and the phase if it was measured. "
                "The gain is what arrives in the car less what the same box gives in a half space."
            ),
        }

    def clean(self) -> dict[str, Any]:
        """Read the curve now: one that cannot be read is not kept, but stays to be put right."""
        cleaned = super().clean()
        if "file" in self.errors:
            return cleaned
        sent = cleaned.pop("file", None)
        text = cleaned.get("content", "") if sent is None else sent
        if not text and sent is None:
            self.add_error("content", _("Paste the curve here, or choose a text file of it."))
            return cleaned
        try:
            read_transfer(text)
        except UnreadableCurveError as error:
            self.refuse("content", str(error), sent)
            return cleaned
        cleaned["content"] = text
        return cleaned


@require_safe
@vary_on_headers("HX-Request")
def cabin(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Show a saved box in its cabin, as a page or as the part of one that is loaded late."""
    job = access.open_job(access.signed_in(request), code)
    design = strip.worked_out(request, job)
    result = design.saved_box(pk)
    if result is None:
        raise Http404
    car_cabin = cabin_of(job.vehicle, design.records.cabin_curves)
    level = result.curves.get("spl")
    chart = None
    if level is not None and car_cabin.is_known:
        chart = cabin_chart(f"box{pk}", level.frequencies, level.values, car_cabin)
    context: dict[str, object] = {
        "job": job,
        "box": result.box,
        "result": result,
        "cabin": car_cabin,
        "chart": chart,
    }
    if request.headers.get("HX-Request"):
        return render(request, "parts/box/cabin.html", context)
    context["steps"] = strip.steps(request, job, "boxes")
    return render(request, "pages/box/cabin.html", context)


CURVE = RowKind(slug="cabin-curve", form=CabinCurveForm, section="car", allowed=access.may_record)

urlpatterns = [
    path("jobs/<str:code>/box/<int:pk>/cabin/", cabin, name="cabin"),
    *CURVE.urls(),
]
