"""Parts of all jobs by their supplier: ordered, arrived, missing, replaced, many at a tap."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from typing import Any

from django import forms
from django.contrib import messages
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.urls import path
from django.utils import timezone
from django.utils.translation import get_language, gettext_lazy, ngettext
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from jobs import access, sheets, tables
from jobs.design.job import board_counts
from jobs.design.job.whole import load, work_out
from jobs.design.wood.cover_orders import CoverOrder, cover_orders
from jobs.locks import held
from jobs.models import EquipmentItem, Job, Part, Stage, TrimPanel, Workshop
from jobs.pages.forms.fields import asked, key_of, written
from jobs.sheets import engine

State = EquipmentItem.State
# What is asked of a supplier, or waits for one; what is in is looked up in its job.
TO_COME = (State.TO_ORDER, State.ORDERED, State.MISSING)
GONE = (Stage.HANDED_OVER, Stage.AFTERCARE)
MOST = 500  # rows of the list, and ticked at once
MOST_JOBS = 50  # whose cover is worked out for the list
ACTS = {"ordered": State.ORDERED, "in": State.IN, "missing": State.MISSING}
COLUMNS = ("supplier", "supplier's number", "maker", "part", "quantity", "unit", "jobs")


class ActForm(forms.Form):
    """What is written beside the ticked rows."""

    expected_on = forms.DateField(
        label=gettext_lazy("expected on"),
        required=False,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
    )
    shelf = forms.CharField(label=gettext_lazy("shelf"), max_length=40, required=False)


@dataclass
class Supplier:
    """One supplier, with what is to come from there."""

    name: str
    items: list[EquipmentItem] = field(default_factory=list)
    covers: list[CoverOrder] = field(default_factory=list)


def _to_come() -> QuerySet[EquipmentItem]:
    items = EquipmentItem.objects.filter(state__in=TO_COME, job__removed_at=None)
    items = items.exclude(job__stage__in=GONE).select_related("part", "job__vehicle")
    return items.order_by("part__supplier", "part__kind", "part__maker", "part__name", "job", "pk")


def _jobs_to_cover(states: Collection[str]) -> QuerySet[Job]:
    panels = TrimPanel.objects.filter(cover__isnull=False, cover_state__in=states)
    jobs = Job.objects.filter(removed_at=None, trim_panels__in=panels).exclude(stage__in=GONE)
    return jobs.select_related("vehicle__customer").distinct()


def _covers_to_come(states: Collection[str]) -> list[CoverOrder]:
    """What covers trim panels and floors: its metres follow from the panels."""
    return cover_orders(_jobs_to_cover(states)[:MOST_JOBS], states)


def _suppliers(items: Sequence[EquipmentItem], covers: Sequence[CoverOrder]) -> list[Supplier]:
    by_name: dict[str, Supplier] = {}
    for item in items:
        name = item.part.supplier
        by_name.setdefault(name, Supplier(name)).items.append(item)
    for order in covers:
        name = order.cover.supplier
        by_name.setdefault(name, Supplier(name)).covers.append(order)
    return [by_name[name] for name in sorted(by_name)]


@require_safe
def parts(request: HttpRequest) -> HttpResponse:
    """List what is to come for all jobs."""
    user = access.signed_in(request)
    access.require_member(user)
    return _page(request, ActForm())


def _page(request: HttpRequest, form: ActForm, status: int = 200) -> HttpResponse:
    user = access.signed_in(request)
    items = list(_to_come()[:MOST])
    context = {
        "suppliers": _suppliers(items, _covers_to_come(TO_COME)),
        "count": len(items),
        "most": MOST,
        "jobs_left_out": max(_jobs_to_cover(TO_COME).count() - MOST_JOBS, 0),
        "form": form,
        "ticked": {key_of(text) for text in request.POST.getlist("item")},
        "ticked_covers": request.POST.getlist("cover"),
        "may_spec": access.may_spec(user),
        "choices": Part.objects.order_by("kind", "maker", "name") if access.may_spec(user) else [],
    }
    return render(request, "pages/agreement/parts.html", context, status=status)


@require_POST
def act(request: HttpRequest) -> HttpResponse:
    """Write the ticked rows down as ordered, in, missing, or replaced by another part."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_record(user))
    asked_for = request.POST.get("act", "")
    keys = {key for text in request.POST.getlist("item") if (key := key_of(text)) is not None}
    covers = _ticked_covers(request)
    form = ActForm(request.POST)
    if asked_for not in {*ACTS, "replaced"} or not form.is_valid():
        return _page(request, form, status=422)
    if not keys and not covers:
        messages.error(request, _("Tick the parts it is about."))
        return redirect("parts")
    if asked_for == "replaced":
        access.require(access.may_spec(user))
        return _replace(request, keys)
    written = 0
    for job in _jobs_of(keys):
        with held(job):
            for item in job.equipmentitems.filter(pk__in=keys):
                _write(item, ACTS[asked_for], form.cleaned_data, request)
                written += 1
            board_counts.forget(job)
    for order in covers:
        written += _write_cover(order, ACTS[asked_for])
    words = ngettext("%(n)d part written down.", "%(n)d parts written down.", written)
    messages.success(request, words % {"n": written})
    return redirect("parts")


def _ticked_covers(request: HttpRequest) -> list[CoverOrder]:
    """The covers that were ticked, as far as they are still in the state they were read in."""
    ticked = set(request.POST.getlist("cover"))
    return [order for order in _covers_to_come(TO_COME) if order.key in ticked] if ticked else []


def _write_cover(order: CoverOrder, state: State) -> int:
    with held(order.job):
        for panel in order.job.trim_panels.filter(pk__in=[panel.pk for panel in order.panels]):
            panel.cover_state = state
            panel.version += 1
            panel.save()
        board_counts.forget(order.job)
    return 1


def _jobs_of(keys: set[int]) -> list[Job]:
    """Their jobs by rising key, so that two who hold several do not wait for each other."""
    return list(Job.objects.filter(equipmentitems__in=keys).distinct().order_by("pk"))


def _write(item: EquipmentItem, state: State, typed: dict[str, Any], request: HttpRequest) -> None:
    item.state = state
    if typed["expected_on"] is not None:
        item.expected_on = typed["expected_on"]
    if state == State.IN:
        item.shelf = typed["shelf"] or item.shelf
        item.serial = written(request, f"serial-{item.pk}")[:120] or item.serial
    item.version += 1
    item.save()


def _replace(request: HttpRequest, keys: set[int]) -> HttpResponse:
    """Put another part in the place of the ticked ones, and say what the checks say since."""
    other = Part.objects.filter(pk=key_of(request.POST.get("by")) or 0).first()
    if other is None:
        messages.error(request, _("Choose the part that takes their place."))
        return redirect("parts")
    for job in _jobs_of(keys):
        with held(job):
            before = _open_findings(job)
            items = [
                item
                for item in job.equipmentitems.select_related("part").filter(pk__in=keys)
                if item.part.kind == other.kind
            ]
            for item in items:
                item.part, item.state, item.expected_on = other, State.TO_ORDER, None
                item.version += 1
                item.save()
            board_counts.forget(job)
            if items:
                _say_what_changed(request, job, before, _open_findings(job))
            else:
                kind = {"job": job.code, "kind": other.get_kind_display()}
                refused = _("%(job)s: only a %(kind)s can take the place of one.")
                messages.error(request, refused % kind)
    return redirect("parts")


def _open_findings(job: Job) -> dict[str, str]:
    findings = work_out(
        load(Job.objects.select_related("vehicle__customer").get(pk=job.pk))
    ).findings
    return {finding.fingerprint: finding.says for finding in findings if finding.is_open}


def _say_what_changed(
    request: HttpRequest, job: Job, before: dict[str, str], after: dict[str, str]
) -> None:
    new = [words for key, words in after.items() if key not in before]
    gone = len(before.keys() - after.keys())
    words = {"job": job.code, "gone": gone}
    if new:
        told = _("%(job)s, checked again. New: %(new)s") % {"job": job.code, "new": " ".join(new)}
        messages.warning(request, told)
    else:
        messages.success(
            request, _("%(job)s, checked again: nothing new, %(gone)d settled.") % words
        )


@require_safe
def order(request: HttpRequest) -> HttpResponse:
    """What is to be ordered from one supplier, each part once: as a table or on a page to print."""
    access.require_member(access.signed_in(request))
    name = asked(request, "supplier")
    wanted = (State.TO_ORDER, State.MISSING)
    items = _to_come().filter(state__in=wanted, part__supplier=name)
    covers = [order for order in _covers_to_come(wanted) if order.cover.supplier == name]
    rows = [*_rows(list(items[:MOST])), *_rows_of_covers(covers)]
    if "csv" in request.GET:
        text = f"\ufeff{tables.written(COLUMNS, rows)}"
        answer = HttpResponse(text.encode(), content_type="text/csv; charset=utf-8")
        answer["Content-Disposition"] = 'attachment; filename="order.csv"'
        return answer
    if reason := sheets.unavailable():
        messages.error(request, reason)
        return redirect("parts")
    shop = Workshop.current()
    context = {
        "supplier": name,
        "rows": [row | {"number": row["supplier's number"]} for row in rows],
        "workshop": shop,
        "paper": shop.paper,
        "language": get_language(),
        "at": timezone.now(),
    }
    paper = engine.render(render_to_string("sheets/order.html", context))
    answer = HttpResponse(paper, content_type="application/pdf")
    answer["Content-Disposition"] = 'inline; filename="order.pdf"'
    return answer


def _rows(items: Sequence[EquipmentItem]) -> list[dict[str, Any]]:
    by_part: dict[Part, list[EquipmentItem]] = defaultdict(list)
    for item in items:
        by_part[item.part].append(item)
    return [
        _row(part, sum(item.quantity for item in of_it), "", [item.job for item in of_it])
        for part, of_it in by_part.items()
    ]


def _rows_of_covers(orders: Sequence[CoverOrder]) -> list[dict[str, Any]]:
    """Metres by cover; those of a job that are not known are not left out in silence."""
    by_cover: dict[Part, list[CoverOrder]] = defaultdict(list)
    for order in orders:
        by_cover[order.cover].append(order)
    return [
        _row(
            cover,
            None if any(o.metres is None for o in of_it) else sum(o.metres or 0 for o in of_it),
            "m",
            [order.job for order in of_it],
        )
        for cover, of_it in by_cover.items()
    ]


def _row(part: Part, quantity: Any, unit: str, jobs: Sequence[Job]) -> dict[str, Any]:
    return {
        "supplier": part.supplier,
        "supplier's number": part.order_number,
        "maker": part.maker,
        "part": part.name,
        "quantity": _("not known") if quantity is None else quantity,
        "unit": unit,
        "jobs": ", ".join(dict.fromkeys(job.code for job in jobs)),
    }


urlpatterns = [
    path("parts/", parts, name="parts"),
    path("parts/write/", act, name="parts-act"),
    path("parts/order/", order, name="parts-order"),
]
