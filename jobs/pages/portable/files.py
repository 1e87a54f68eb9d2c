"""A job as one file: handed out from its page; sent, looked over and taken in."""

from __future__ import annotations

import tempfile
from typing import Any

from django import forms
from django.contrib import messages
from django.http import FileResponse, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs import access, arrivals
from jobs.models import User
from jobs.pages.portable.published import job_schema
from jobs.portable.making import make
from jobs.portable.matching import plan
from jobs.portable.reading import opened
from jobs.portable.refusal import RefusedFileError
from jobs.portable.writing import write


class FileForm(forms.Form):
    """The file of a job."""

    file = forms.FileField(
        label=gettext_lazy("file of a job"),
        help_text=gettext_lazy(
            "A .zip that an Undertrim wrote, up to 30 MB. A larger one is taken in by whoever "
            "looks after this machine: manage.py job import FILE."
        ),
    )


def _allowed(request: HttpRequest) -> User:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    return user


@require_safe
def hand_out(request: HttpRequest, code: str) -> FileResponse:
    """Send a job as one file: its customer and car go along, so only the manager may."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_manage(user) and access.may_handle_personal_data(user))
    file = tempfile.TemporaryFile()  # noqa: SIM115 - closed when it has been sent
    write(job, file, job_schema())
    file.seek(0)
    return FileResponse(
        file, content_type="application/zip", as_attachment=True, filename=f"{job.code}.zip"
    )


@require_http_methods(["GET", "POST"])
def take_in(request: HttpRequest) -> HttpResponse:
    """Look a file over and show what it would do; nothing is made by that."""
    _allowed(request)
    form = FileForm(request.POST or None, request.FILES or None)
    context: dict[str, Any] = {"form": form}
    if request.method == "POST" and form.is_valid():
        upload = form.cleaned_data["file"]
        try:
            with opened(upload, job_schema()) as arrival:
                context["plan"] = plan(arrival)
        except RefusedFileError as problem:
            form.add_error("file", str(problem))
        else:
            upload.seek(0)
            context["name"] = arrivals.keep(upload)
    status = 422 if request.method == "POST" and "plan" not in context else 200
    return render(request, "pages/portable/take_in.html", context, status=status)


@require_POST
def make_it(request: HttpRequest) -> HttpResponse:
    """Make the job of a file that was looked over; it is looked over once more."""
    _allowed(request)
    name = request.POST.get("name", "")
    file = arrivals.opened(name)
    if file is None:
        messages.error(request, _("This file is here no more: send it again."))
        return redirect("job-take-in")
    try:
        with file, opened(file, job_schema()) as arrival:
            job, _planned = make(arrival)
    except RefusedFileError as problem:
        messages.error(request, str(problem))
        return redirect("job-take-in")
    arrivals.drop(name)
    messages.success(request, _("Taken in: %(job)s.") % {"job": job.code})
    return redirect("job", job.code)


urlpatterns = [
    path("take-in/", take_in, name="job-take-in"),
    path("take-in/make/", make_it, name="job-make"),
    path("jobs/<str:code>/file/", hand_out, name="job-file"),
]
