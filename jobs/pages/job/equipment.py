"""The equipment list of a job."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any, ClassVar

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils.formats import localize
from django.utils.html import format_html_join
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.held import may_be_loose
from jobs.design.records.pieces import pieces_of
from jobs.locks import held
from jobs.models import EquipmentItem, ItemAsBuilt, PanelContent, Part, Supply, User
from jobs.models.parts.supply import FASTENERS
from jobs.pages.forms import row_acts, strip
from jobs.pages.forms.fields import NOTHING
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class EquipmentForm(RecordForm[EquipmentItem]):
    """One part, where it goes and how far it has got."""

    class Meta:
        model = EquipmentItem
        fields = (
            *("part", "place", "quantity", "serial", "state", "expected_on", "shelf", "ventilated"),
            *("fastener", "held_by", "held_into", "private"),
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
        if not self.instance.part_id or self.instance.part.kind != Part.Kind.DRIVER:
            del self.fields["fastener"]
        else:
            self.offer("fastener", Supply.objects.filter(use__in=FASTENERS))
        if self.instance.part_id and not may_be_loose(self.instance.part):
            del self.fields["held_by"], self.fields["held_into"]
        part = self.fields["part"]
        assert isinstance(part, forms.ModelChoiceField)
        parts = Part.objects.order_by("kind", "maker", "name")
        part.choices = [("", NOTHING)] + [
            (Part.Kind(kind).label, [(row.pk, str(row)) for row in rows])
            for kind, rows in groupby(parts, key=lambda row: row.kind)
        ]
        part.widget.attrs |= {
            "data-pick": reverse("part-figures"),
            "data-pick-asks": gettext("Choose one part from the list."),
        }
        part.help_text = self._ways_to_the_catalogue()

    def _ways_to_the_catalogue(self) -> str:
        """Lead to the page of the part that is chosen, and to where one that lacks is entered."""
        here = self.instance.part_id
        its = [(reverse("part-edit", args=[here]), gettext("Its figures."))] if here else []
        lacking = f"{reverse('catalogue')}?job={self.instance.job.code}"
        return format_html_join(
            " ",
            '<a href="{}">{}</a>',
            [*its, (lacking, gettext("Not in the list? Enter it in the catalogue."))],
        )


def _fitted(row: ItemAsBuilt | None) -> list[str]:
    """What was fitted instead, and where."""
    return [", ".join(filter(None, (str(row.part), row.serial, row.place)))] if row else []


def _pieces(item: EquipmentItem, placed: Sequence[PanelContent]) -> list[str]:
    """Each of several equal pieces whose number was read, or that has no place yet."""
    rows = [row for row in placed if row.equipment_id == item.pk and item.quantity > 1]
    return [
        ", ".join(filter(None, (row.number, row.where or gettext("not placed yet"))))
        for row in rows
        if row.number or not row.where
    ]


def _beside(
    items: list[EquipmentItem],
    built: dict[int, ItemAsBuilt],
    placed: Sequence[PanelContent],
    user: User,
) -> tuple[list[str], dict[int, list[str]]]:
    """What kind of part each is and how it is held; its price, for those who see prices."""
    heads = [gettext("kind"), gettext("held"), gettext("as built")]
    sees = access.may_see_prices(user)
    if sees:
        heads.append(gettext("price each"))
    cells = {}
    for item in items:
        held = [str(item.get_held_by_display()), item.held_into]
        cells[item.pk] = [
            str(item.part.get_kind_display()),
            ": ".join(filter(None, held)),
            "; ".join([*_fitted(built.get(item.pk)), *_pieces(item, placed)]),
        ]
        if sees:
            price = item.part.price
            cells[item.pk].append(NOTHING if price is None else localize(price))
    return heads, cells


@require_safe
def equipment(request: HttpRequest, code: str) -> HttpResponse:
    """List what goes in."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    # What was planned is what is typed; what is fitted instead stands beside it.
    items = [item.designed or item for item in design.records.equipment]
    built = {item.pk: item.as_built for item in design.records.equipment if item.as_built}
    may_type, beside = access.may_spec(user), _beside(items, built, design.records.contents, user)
    context = {
        "job": job,
        "items": items,
        "table": ITEM.table(job, items, may_type=may_type, beside=beside),
        "sweeps": design.sweeps,
        "masses": design.masses,
        "may_record": access.may_record(user),
        "findings": design.findings_of("equipment"),
        "steps": strip.steps(request, job, "equipment"),
        "may_spec": may_type,
    }
    return render(request, "pages/job/equipment.html", context)


@require_POST
def fitted(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Write down that something is fitted, or that it is not after all."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    states = EquipmentItem.State
    state = states.FITTED if request.POST.get("fitted") == "1" else states.IN
    with held(job):
        item = get_object_or_404(EquipmentItem, job=job, pk=pk)
        if item.state != state:
            item.state = state
            item.version += 1
            item.save()
            board_counts.forget(job)
    back = "bay" if "bay" in request.POST else "equipment"
    return redirect(f"{reverse(back, args=[job.code])}#item-{item.pk}")


ITEM = RowKind(
    slug="item",
    form=EquipmentForm,
    section="equipment",
    in_table=("part", "place", "quantity", "serial", "state"),
    sided=("place",),
    not_copied=("serial", "state"),
    apart=pieces_of,
)

urlpatterns = [
    path("jobs/<str:code>/equipment/", equipment, name="equipment"),
    path("jobs/<str:code>/item/<int:pk>/fitted/", fitted, name="item-fitted"),
    *row_acts.urls(ITEM),
    *ITEM.urls(),
]
