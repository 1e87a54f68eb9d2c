"""Options of the whole job: kept, held side by side, taken up again, chosen."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from jobs import access
from jobs.design.options.side_by_side import MOST, work_out_options
from jobs.drawings.box.compare_pictures import comparison_charts
from jobs.drawings.wood.wood_pictures import of_options
from jobs.models import DesignOption, Job
from jobs.options import RefusedError, is_kept, keep, take_up
from jobs.pages.forms import strip
from jobs.pages.forms.fields import key_of
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class OptionForm(RecordForm[DesignOption]):
    """What an option is called, and what it is in the customer's words."""

    class Meta:
        model = DesignOption
        fields = ("name", "text")


def _open(request: HttpRequest, code: str) -> Job:
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_see_prices(user))
    return job


@require_http_methods(["GET", "POST"])
def options(request: HttpRequest, code: str) -> HttpResponse:
    """List what is kept and hold up to three side by side; keep the design as one more."""
    job = _open(request, code)
    form = OptionForm(request.POST or None, instance=DesignOption(job=job))
    status = 200
    if request.method == "POST":
        if form.is_valid():
            try:
                kept = keep(job, form.cleaned_data["name"], form.cleaned_data["text"])
                messages.success(request, _("Kept: %(option)s.") % {"option": kept})
            except RefusedError as refused:
                messages.error(request, str(refused))
            return redirect("options", job.code)
        status = 422
    return render(
        request, "pages/agreement/options.html", _context(request, job) | {"form": form},
        status=status,
    )  # fmt: skip


def _context(request: HttpRequest, job: Job) -> dict[str, Any]:
    every = list(job.options.all())
    keys = {key_of(text) for text in request.GET.getlist("option")}
    ticked = [option for option in every if option.pk in keys][:MOST] or every[-MOST:]
    design = strip.worked_out(request, job)
    side_by_side = work_out_options(ticked, design)
    charts = comparison_charts(side_by_side.comparison, "half")
    return {
        "job": job,
        "options": every,
        "ticked": ticked,
        "side_by_side": side_by_side,
        "charts": [*charts[:1], *charts[2:3]],
        "pictures": of_options(side_by_side),
        "is_kept": bool(every) and is_kept(design.records),
        "print_query": "&".join(f"option={option.pk}" for option in ticked),
        "steps": strip.steps(request, job, "price"),
        "section": "options",
    }


def _take(request: HttpRequest, code: str, pk: int, *, choose: bool) -> HttpResponse:
    job = _open(request, code)
    access.require(access.may_spec(access.signed_in(request)))
    option = get_object_or_404(DesignOption.objects.select_related("job"), job=job, pk=pk)
    try:
        take_up(option, choose=choose)
    except RefusedError as refused:
        messages.error(request, str(refused))
        return redirect("options", job.code)
    done = _("Chosen: %(option)s is what is built.") if choose else _("Taken up: %(option)s.")
    messages.success(request, done % {"option": option})
    return redirect(f"{reverse('options', args=[job.code])}")


@require_POST
def take(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Go on designing with an option."""
    return _take(request, code, pk, choose=False)


@require_POST
def choose(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Make an option the spec; the others stay as they are."""
    return _take(request, code, pk, choose=True)


OPTION = RowKind(slug="option", form=OptionForm, section="options", allowed=access.may_see_prices)

urlpatterns = [
    path("jobs/<str:code>/options/", options, name="options"),
    path("jobs/<str:code>/options/<int:pk>/take/", take, name="option-take"),
    path("jobs/<str:code>/options/<int:pk>/choose/", choose, name="option-choose"),
    *(url for url in OPTION.urls() if url.name != "option-add"),
]
