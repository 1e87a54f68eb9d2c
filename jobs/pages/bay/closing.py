"""A panel goes back on after its own checks, on a person's word; opened again, it says why."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from jobs import access
from jobs.design.job.closing import checks_of, closing_of
from jobs.locks import held
from jobs.models import Job, Panel, PanelClosing, PanelStep
from jobs.models.bay import LONGEST
from jobs.pages.bay.bay import set_tick
from jobs.pages.bay.page import Reopening, page
from jobs.pages.forms import strip
from jobs.pages.forms.fields import written


@require_http_methods(["GET", "POST"])
def close(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Go through the checks of a panel and write down that it is on."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    design = strip.worked_out(request, job)
    result = next((row for row in design.panels if row.panel.pk == pk), None)
    if result is None:
        raise Http404
    checks = checks_of(result)
    sent = request.method == "POST"
    ticked = [
        check.code
        for check in checks
        if check.known or (check.known is None and check.code in request.POST.getlist("check"))
    ]
    left = [check for check in checks if check.code not in ticked]
    reason = written(request, "reason")
    wrong = ""
    if sent and left and not reason:
        wrong = _("Something is open: close it all the same only with a reason.")
    elif len(reason) > LONGEST:
        wrong = _("At most %(most)s characters.") % {"most": LONGEST}
    if not sent or wrong:
        context = {
            "job": job, "result": result, "checks": checks, "ticked": ticked, "reason": reason,
            "wrong": wrong, "steps": strip.steps(request, job, "bay"),
        }  # fmt: skip
        return render(request, "pages/bay/close.html", context, status=422 if wrong else 200)
    with held(job):
        get_object_or_404(Panel, job=job, pk=pk)
        theirs = _closing(job, pk)
        if theirs is None:
            PanelClosing.objects.create(
                job=job,
                panel=result.panel,
                checked=ticked,
                left_open=[check.code for check in left],
                reason=reason,
                closed_by=user,
                closed_at=timezone.now(),
            )
    if theirs is None:
        messages.success(request, _("Closed: %(panel)s.") % {"panel": result.panel})
        return redirect("bay", job.code)
    words = {"who": theirs.closed_by.full_name, "panel": result.panel, "text": reason}
    sentence = (
        _("%(who)s has closed this already: %(panel)s. You wrote %(text)s, which is not kept.")
        if reason
        else _("%(who)s has closed this already: %(panel)s. Your checks are not kept.")
    )
    messages.warning(request, sentence % words)
    return redirect("bay", job.code)


@require_POST
def reopen(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Open a closed panel again: who, when and why stay written down."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    get_object_or_404(Panel, job=job, pk=pk)
    reason = written(request, "reason")
    wrong = "" if reason else _("Say why the panel is opened again: nothing was changed.")
    if len(reason) > LONGEST:
        wrong = _("At most %(most)s characters.") % {"most": LONGEST}
    if wrong:
        return page(request, code, reopening=Reopening(panel=pk, reason=reason, wrong=wrong))
    with held(job):
        closing = _closing(job, pk)
        if closing is not None:
            closing.reopened_by, closing.reopened_at = user, timezone.now()
            closing.reopened_why = reason
            closing.version += 1
            closing.save()
            _put_back_anew(request, job, pk)
    return redirect(f"{reverse('bay', args=[job.code])}#panel-{pk}")


def _put_back_anew(request: HttpRequest, job: Job, pk: int) -> None:
    """A panel that was opened goes back on once more: its steps of that are open again."""
    refit = PanelStep.objects.filter(job=job, panel=pk, phase=PanelStep.Phase.REFIT)
    ticked = list(refit.exclude(done_at=None))
    for step in ticked:
        set_tick(step, access.signed_in(request), done=False)
    if ticked:
        words = _("Steps of putting it back that are open again: %(n)s.")
        messages.info(request, words % {"n": len(ticked)})


def _closing(job: Job, pk: int) -> PanelClosing | None:
    return closing_of(pk, list(job.panelclosings.filter(panel=pk).select_related("closed_by")))


urlpatterns = [
    path("jobs/<str:code>/panel/<int:pk>/close/", close, name="panel-close"),
    path("jobs/<str:code>/panel/<int:pk>/reopen/", reopen, name="panel-reopen"),
]
