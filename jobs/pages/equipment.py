"""The equipment list of a job."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import EquipmentItem
from jobs.pages import strip
from jobs.pages.forms import RecordForm
from jobs.pages.rows import RowKind


class EquipmentForm(RecordForm[EquipmentItem]):
    """One part, where it goes and how far it has got."""

    class Meta:
        model = EquipmentItem
        fields = ("part", "place", "quantity", "serial", "state", "ventilated")


@require_safe
def equipment(request: HttpRequest, code: str) -> HttpResponse:
    """List what goes in."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    context = {
        "job": job,
        "items": job.equipmentitems.select_related("part"),
        "steps": strip.steps(request, job, "equipment"),
        "may_spec": access.may_spec(user),
        "may_see_prices": access.may_see_prices(user),
    }
    return render(request, "pages/equipment.html", context)


urlpatterns = [
    path("jobs/<str:code>/equipment/", equipment, name="equipment"),
    *RowKind(slug="item", form=EquipmentForm, section="equipment").urls(),
]
