"""The pages of histories: of a job and each of its records, a part, a person, the workshop."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.urls import path, reverse
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import Part, User, Workshop
from jobs.pages.forms import strip
from jobs.pages.forms.fields import key_of
from jobs.pages.history.kinds import (
    KINDS,
    PERSON,
    WORKSHOP,
    Kind,
    Source,
    of_job,
    of_one,
    of_part,
)
from jobs.pages.history.reading import read
from jobs.pages.history.words import unseen_by


def _read(request: HttpRequest, sources: Sequence[Source]) -> dict[str, Any]:
    """Read the page that is asked for, of the person that is asked for."""
    by = key_of(request.GET.get("by"))
    unseen = unseen_by(access.signed_in(request))
    history = read(sources, unseen=unseen, by=by, number=request.GET.get("page"))
    asked = request.GET.copy()
    asked.pop("page", None)
    return {"history": history, "by": by, "asked": asked.urlencode()}


@require_safe
def of_a_job(request: HttpRequest, code: str) -> HttpResponse:
    """Everything that was changed on a job, or on one record of it."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    kind, pk = _of(request.GET.get("of", ""))
    sources = of_job(job, [kind] if kind else KINDS.values())
    if pk is not None:
        entries = sources[0].entries.filter(id=pk)
        if not entries.exists():
            raise Http404
        sources = [Source(kind=sources[0].kind, entries=entries)]
    context = {
        "job": job,
        "kinds": KINDS.values(),
        "kind_asked": kind,
        "row": pk,
        "steps": strip.steps(request, job, ""),
        **_read(request, sources),
    }
    return render(request, "pages/history/job.html", context)


def _of(text: str) -> tuple[Kind | None, int | None]:
    """Read what is asked for: a kind such as `item`, or one record such as `item-12`."""
    if not text:
        return None, None
    if text in KINDS:
        return KINDS[text], None
    slug, _dash, number = text.rpartition("-")
    pk = key_of(number)
    if slug not in KINDS or pk is None:
        raise Http404
    return KINDS[slug], pk


def _alone(request: HttpRequest, sources: Sequence[Source], title: Any, back: str) -> HttpResponse:
    context = {"title": title, "back": back, **_read(request, sources)}
    return render(request, "pages/history/alone.html", context)


@require_safe
def of_a_part(request: HttpRequest, pk: int) -> HttpResponse:
    """What was changed on a part of the catalogue, removed or not."""
    access.require_member(access.signed_in(request))
    part = get_object_or_404(Part.with_removed, pk=pk)
    back = f"{reverse('catalogue')}?kind={part.kind}"
    return _alone(request, of_part(part), part, back)


@require_safe
def of_the_workshop(request: HttpRequest) -> HttpResponse:
    """What was changed in the workshop's settings."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    current = Workshop.current()
    return _alone(request, of_one(WORKSHOP, current.pk or 0), current, reverse("workshop"))


@require_safe
def of_a_person(request: HttpRequest, pk: int) -> HttpResponse:
    """What was changed of a person: name and roles."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    person = get_object_or_404(User, pk=pk)
    back = reverse("person", args=[pk])
    return _alone(request, of_one(PERSON, pk), person.full_name, back)


urlpatterns = [
    path("jobs/<str:code>/history/", of_a_job, name="history"),
    path("catalogue/<int:pk>/history/", of_a_part, name="part-history"),
    path("workshop/history/", of_the_workshop, name="workshop-history"),
    path("people/<int:pk>/history/", of_a_person, name="person-history"),
]
