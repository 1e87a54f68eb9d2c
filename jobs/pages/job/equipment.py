"""The equipment list of a job."""

from __future__ import annotations

from itertools import groupby
from typing import Any

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path, reverse
from django.utils.html import format_html
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import EquipmentItem, Part
from jobs.pages.forms import strip
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class EquipmentForm(RecordForm[EquipmentItem]):
    """One part, where it goes and how far it has got."""

    class Meta:
        model = EquipmentItem
        fields = ("part", "place", "quantity", "serial", "state", "ventilated", "private")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        part = self.fields["part"]
        assert isinstance(part, forms.ModelChoiceField)
        parts = Part.objects.order_by("kind", "maker", "name")
        part.choices = [("", "---------")] + [
            (Part.Kind(kind).label, [(row.pk, str(row)) for row in rows])
            for kind, rows in groupby(parts, key=lambda row: row.kind)
        ]
        part.help_text = format_html(
            '<a href="{}?job={}">{}</a>',
            reverse("catalogue"),
            self.instance.job.code,
            _("Not in the list? Enter it in the catalogue."),
        )


@require_safe
def equipment(request: HttpRequest, code: str) -> HttpResponse:
    """List what goes in."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    context = {
        "job": job,
        "items": job.equipmentitems.select_related("part"),
        "sweeps": strip.worked_out(request, job).sweeps,
        "may_record": access.may_record(user),
        "findings": strip.worked_out(request, job).findings_of("equipment"),
        "steps": strip.steps(request, job, "equipment"),
        "may_spec": access.may_spec(user),
        "may_see_prices": access.may_see_prices(user),
    }
    return render(request, "pages/job/equipment.html", context)


ITEM = RowKind(slug="item", form=EquipmentForm, section="equipment")

urlpatterns = [
    path("jobs/<str:code>/equipment/", equipment, name="equipment"),
    *ITEM.urls(),
]
