"""Test signals of a job, to play in the car: listed with their use, sent as WAV or FLAC."""

from __future__ import annotations

from django.db.models import QuerySet
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.setup.played import BITS, KINDS, RATES, rattle_table, signal_named, signals
from jobs.models import Channel, Job, Workshop
from jobs.pages.forms import strip
from jobs.pages.forms.fields import asked, key_of


@require_safe
def overview(request: HttpRequest, code: str) -> HttpResponse:
    """List the signals with level, length and what to beware of."""
    job = access.open_job(access.signed_in(request), code)
    rate, bits = _format(request)
    listed = signals(list(_channels(job)), to_try=Workshop.current().is_demo)
    context = {
        "job": job,
        "shared": [each for each in listed if each.channel is None],
        "of_channels": [each for each in listed if each.channel is not None],
        "rattle": rattle_table(),
        "rate": rate,
        "bits": bits,
        "file_kind": asked(request, "kind") if asked(request, "kind") in KINDS else KINDS[0],
        "kinds": KINDS,
        "rates": RATES,
        "every_bits": BITS,
        "steps": strip.steps(request, job, "setup"),
    }
    return render(request, "pages/setup/signals.html", context)


@require_safe
def file(request: HttpRequest, code: str, slug: str, kind: str) -> HttpResponseBase:
    """Send one signal, a WAV file a second at a time: nothing of it is kept."""
    job = access.open_job(access.signed_in(request), code)
    channel = None
    if "channel" in request.GET:
        channel = _channels(job).filter(pk=key_of(request.GET["channel"]) or 0).first()
        if channel is None:
            raise Http404
    played = signal_named(slug, channel, to_try=Workshop.current().is_demo)
    if played is None or kind not in KINDS:
        raise Http404
    rate, bits = _format(request)
    answer: HttpResponseBase
    if kind == "flac":
        answer = HttpResponse(played.packed(rate, bits), content_type="audio/flac")
    else:
        answer = StreamingHttpResponse(played.pieces(rate, bits), content_type="audio/wav")
        answer["Content-Length"] = str(played.length(rate, bits))
    answer["Content-Disposition"] = f'attachment; filename="{played.name(rate, bits, kind)}"'
    return answer


def _channels(job: Job) -> QuerySet[Channel]:
    return Channel.objects.filter(job=job, amplifier__isnull=False)


def _format(request: HttpRequest) -> tuple[int, int]:
    """Rate and bits asked for; what no file is made of counts as not asked for."""
    rate, bits = (key_of(request.GET.get(name)) for name in ("rate", "bits"))
    return (
        rate if rate is not None and rate in RATES else RATES[-1],
        bits if bits is not None and bits in BITS else BITS[0],
    )


urlpatterns = [
    path("jobs/<str:code>/set-up/signals/", overview, name="setup-signals"),
    path("jobs/<str:code>/set-up/signals/<slug:slug>.<slug:kind>", file, name="setup-signal"),
]
