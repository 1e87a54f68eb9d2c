"""The search: jobs, cables, equipment, parts, people, and what stands written in a job."""

from __future__ import annotations

from typing import Any

from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import (
    BayNote,
    Box,
    BoxAsBuilt,
    BoxSweep,
    CabinCurve,
    CableLot,
    CarAnswer,
    Channel,
    ChannelCurve,
    ChannelSetting,
    Conversation,
    Customer,
    DampingLayer,
    DriverSweep,
    EquipmentItem,
    FactoryAsBuilt,
    FactoryPart,
    Fixing,
    GroundPoint,
    ItemAsBuilt,
    Job,
    LoomJoin,
    Measurement,
    Panel,
    PanelContent,
    PanelStep,
    Part,
    Photo,
    PowerNode,
    ProcessorFile,
    Ring,
    Run,
    RunAsBuilt,
    ServiceVisit,
    TargetCurve,
    TrimPanel,
    WoodStep,
    Word,
)
from jobs.pages.forms.fields import asked
from jobs.search import look_up

Shelf = Word.Shelf
# The page of a job on which a record is read.
PAGE_OF: dict[type[Any], str] = {
    BayNote: "bay",
    Box: "boxes",
    CabinCurve: "car",
    CableLot: "schedule",
    Channel: "channels",
    ChannelCurve: "setup-measured",
    ChannelSetting: "setup-as-set",
    Conversation: "customer",
    BoxAsBuilt: "shop",
    BoxSweep: "boxes",
    DriverSweep: "equipment",
    CarAnswer: "gate",
    FactoryAsBuilt: "bay",
    ItemAsBuilt: "bay",
    FactoryPart: "car",
    DampingLayer: "panels",
    Fixing: "panels",
    GroundPoint: "power",
    LoomJoin: "power",
    Measurement: "bay",
    Panel: "panels",
    PanelContent: "panels",
    PanelStep: "panels",
    Photo: "bay",
    PowerNode: "power",
    ProcessorFile: "setup-as-set",
    TargetCurve: "setup-proposal",
    RunAsBuilt: "bay",
    ServiceVisit: "aftercare",
    Ring: "boxes",
    TrimPanel: "boxes",
    WoodStep: "shop",
}
# What its name is made of.
READ_WITH: dict[type[Any], tuple[str, ...]] = {
    PanelContent: ("equipment__part", "factory_part", "box"),
    BoxAsBuilt: ("box",),
    BoxSweep: ("box",),
    CableLot: ("conductor",),
    ChannelCurve: ("channel",),
    ChannelSetting: ("channel",),
    DriverSweep: ("item__part",),
    BayNote: ("fixing",),
    DampingLayer: ("part",),
    FactoryAsBuilt: ("factory_part",),
    ItemAsBuilt: ("item__part",),
    RunAsBuilt: ("run",),
    Photo: ("panel", "visit"),
}
MOST_HITS = 20


def _found(shelf: Shelf, text: str, *kinds: QuerySet[Any]) -> tuple[list[Any], bool]:
    """Return the records of a shelf that bear what was typed, best first, and whether more do."""
    hits = look_up(text, shelf, MOST_HITS)
    records: dict[tuple[str, int], Any] = {}
    for rows in kinds:
        kind = str(rows.model._meta.model_name)
        if keys := hits.keys(kind):
            records |= {(kind, row.pk): row for row in rows.filter(pk__in=keys)}
    return [records[hit] for hit in hits.records if hit in records], hits.more


def _hits(jobs: QuerySet[Job], text: str) -> dict[str, Any]:
    """Find jobs, cables, equipment, parts of the catalogue, and what stands written in a job."""
    places = [kind.objects.select_related("job", *READ_WITH.get(kind, ())) for kind in PAGE_OF]
    items = EquipmentItem.objects.select_related("job", "part")
    runs = Run.objects.select_related("job", "start", "end", "channel__amplifier__part")
    of_jobs = {
        "runs": _found(Shelf.RUN, text, runs),
        "items": _found(Shelf.ITEM, text, items),
        "places": _found(Shelf.PLACE, text, *places),
    }
    job_keys = {row.job_id for rows, _more in of_jobs.values() for row in rows}
    visible = set(jobs.filter(pk__in=job_keys).values_list("pk", flat=True))
    groups = {
        name: ([row for row in rows if row.job_id in visible], more)
        for name, (rows, more) in of_jobs.items()
    } | {
        "jobs": _found(Shelf.JOB, text, jobs),
        "customers": _found(Shelf.CUSTOMER, text, Customer.objects.filter(erased_at=None)),
        "parts": _found(Shelf.PART, text, Part.objects.all()),
    }
    results: dict[str, Any] = {name: rows for name, (rows, _more) in groups.items()}
    results["items"] += _with_parts(jobs, results["parts"], results["items"])
    results["places"] = [
        {"row": row, "page": PAGE_OF[type(row)], "noun": row._meta.verbose_name}
        for row in results["places"]
    ]
    return results | {"more": any(more for _rows, more in groups.values())}


def _with_parts(jobs: QuerySet[Job], parts: list[Any], listed: list[Any]) -> list[Any]:
    """Return the equipment of these parts, whatever is written beside it, the newest first."""
    if not parts:
        return []
    items = EquipmentItem.objects.filter(part__in=[part.pk for part in parts], job__in=jobs)
    others = items.exclude(pk__in=[item.pk for item in listed]).select_related("job", "part")
    return list(others.order_by("-pk")[:MOST_HITS])


@require_safe
def search(request: HttpRequest) -> HttpResponse:
    """Search whatever somebody wrote into a job, its car, its customer or the catalogue."""
    user = access.signed_in(request)
    access.require_member(user)
    text = asked(request, "q")
    hits = _hits(access.visible_jobs(user), text) if text else {}
    return render(request, "pages/job/search.html", {"q": text, **hits})


urlpatterns = [path("search/", search, name="search")]
