"""Edit the one record a page is about: the brief, the car, the customer."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import URLPattern, path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from jobs import access
from jobs.design.job import board_counts
from jobs.design.records.decisions import OF_THE_CAR
from jobs.locks import held
from jobs.models import Job, Record
from jobs.pages.forms import strip
from jobs.pages.forms.forms import RecordForm


@dataclass(frozen=True, kw_only=True)
class Single:
    """A page about one record of a job."""

    slug: str
    form: type[RecordForm[Any]]
    record: Callable[[Job], Record]
    section: str
    template: str
    beside: Callable[[Job], dict[str, Any]] = lambda job: {}

    def url(self) -> URLPattern:
        """The address below its job."""
        return path(f"jobs/<str:code>/{self.slug}/", partial(edit, page=self), name=self.slug)


@require_http_methods(["GET", "POST"])
def edit(request: HttpRequest, code: str, *, page: Single) -> HttpResponse:
    """Read the record; change it as a consultant, designer or manager."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    form = page.form(request.POST or None, instance=page.record(job))
    if "budget" in form.fields and not access.may_see_prices(user):
        del form.fields["budget"]
    status = 200
    if request.method == "POST":
        access.require(access.may_spec(user))
        # A car or a customer may have several jobs: all of them are counted anew.
        with held(*board_counts.touched_by(form.instance).order_by("pk"), form.instance):
            if form.is_valid():
                board_counts.refresh_all(form.save())
                board_counts.forget(job)
                messages.success(request, _("Saved."))
                return redirect(page.slug, job.code)
        status = 422
    design = strip.worked_out(request, job)
    context = {
        "job": job,
        "form": form,
        "findings": [row for row in design.findings_of(page.section) if row.code not in OF_THE_CAR],
        # A list of the car, whichever page they are cured on.
        "cautions": [row for row in design.findings if row.code in OF_THE_CAR],
        "steps": strip.steps(request, job, page.section),
        "may_spec": access.may_spec(user),
        "may_release": access.may_release(user),
    }
    return render(request, page.template, context | page.beside(job), status=status)
