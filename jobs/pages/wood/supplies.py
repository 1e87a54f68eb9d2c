"""What the wood of a job takes of glue, tape and screws, put on its equipment list in packs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_POST

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.design.wood.needed import Need, work_out_needs
from jobs.locks import held
from jobs.models import EquipmentItem, Supply
from jobs.pages.forms.fields import key_of


@dataclass(frozen=True, kw_only=True)
class Wanted:
    """One need as the page shows it, with the supplies of the catalogue it could be met by."""

    need: Need
    choices: Sequence[Supply] = ()


def wanted(design: JobDesign) -> list[Wanted]:
    """List what the wood takes; where nobody has said of which, with what there is to choose."""
    needs = work_out_needs(design.records, design.boxes, design.trims)
    lacking = {need.use for need in needs if need.part is None}
    known = list(Supply.objects.filter(use__in=lacking)) if lacking else []
    return [
        Wanted(
            need=need,
            choices=[supply for supply in known if need.part is None and supply.use == need.use],
        )
        for need in needs
    ]


@require_POST
def order(request: HttpRequest, code: str) -> HttpResponse:
    """Put whole packs of what lacks on the equipment list; a second tap adds nothing."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    added = 0
    with held(job):
        for row in wanted(work_out(load(job))):
            picked = key_of(request.POST.get(f"supply-{row.need.use}"))
            part = next((supply for supply in row.choices if supply.pk == picked), None)
            need = row.need if part is None else row.need.met_by(part)
            if need.part is None:
                continue
            if need.amount is None and not need.area:
                words = _("%(part)s: nobody knows yet how much of it is needed.")
                messages.error(request, words % {"part": need.part})
                continue
            if need.lacking is None:
                words = _("%(part)s: enter in the catalogue how far it goes and what a pack holds.")
                messages.error(request, words % {"part": need.part})
                continue
            if need.lacking:
                EquipmentItem.objects.create(
                    job=job,
                    part_id=need.part.pk,
                    place=_("wood shop"),
                    quantity=need.lacking,
                )
                added += 1
        board_counts.forget(job)
    if added:
        words = ngettext(
            "%(n)d supply put on the equipment list.",
            "%(n)d supplies put on the equipment list.",
            added,
        )
        messages.success(request, words % {"n": added})
    return redirect(f"{reverse('shop', args=[job.code])}#supplies")


urlpatterns = [path("jobs/<str:code>/shop/supplies/", order, name="shop-supplies")]
