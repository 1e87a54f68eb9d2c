"""The equipment list of a job."""

from __future__ import annotations

from itertools import groupby
from typing import Any, ClassVar

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path, reverse
from django.utils.html import format_html
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.job.held import may_be_loose
from jobs.models import EquipmentItem, Part
from jobs.pages.forms import strip
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class EquipmentForm(RecordForm[EquipmentItem]):
    """One part, where it goes and how far it has got."""

    class Meta:
        model = EquipmentItem
        fields = (
            *("part", "place", "quantity", "serial", "state", "expected_on", "shelf", "ventilated"),
            *("held_by", "held_into", "private"),
        )
        widgets: ClassVar = {
            "expected_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d")
        }
        help_texts: ClassVar = {
            "held_by": _(
                "The vehicle maker's own points come first, with what their maker allows."
            ),
            "held_into": _("Such as 4 x M6 through the amplifier board, which is bolted down."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if self.instance.part_id and not may_be_loose(self.instance.part):
            del self.fields["held_by"], self.fields["held_into"]
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
            gettext("Not in the list? Enter it in the catalogue."),
        )


@require_safe
def equipment(request: HttpRequest, code: str) -> HttpResponse:
    """List what goes in."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    context = {
        "job": job,
        "items": job.equipmentitems.select_related("part"),
        "sweeps": design.sweeps,
        "masses": design.masses,
        "may_record": access.may_record(user),
        "findings": design.findings_of("equipment"),
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
