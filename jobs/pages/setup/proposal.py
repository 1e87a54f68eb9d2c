"""Bands of the equaliser proposed from what was measured, for the sound that is wanted."""

from __future__ import annotations

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.setup.proposal import Proposal, Wanted, propose
from jobs.drawings.setup.proposal_pictures import proposal_chart
from jobs.pages.forms import strip
from jobs.pages.forms.fields import QuantityField

# Plain shapes to begin with: common practice, no source.
SHAPES = (
    (_("level all the way"), {"lift": "0 dB", "fall": "0 dB"}),
    (_("falling gently"), {"lift": "0 dB", "fall": "0.5 dB"}),
    (_("falling gently, with more bass"), {"lift": "6 dB", "fall": "0.5 dB"}),
)


class WantedForm(forms.Form):
    """A lift of the bass and a fall towards the treble."""

    lift = QuantityField(
        "level", label=_("bass lifted by"), required=False, min_value=-12.0, max_value=18.0
    )
    fall = QuantityField(
        "level", label=_("falls with each octave by"), required=False, min_value=-3.0, max_value=3.0
    )

    def wanted(self) -> Wanted:
        """What was typed; an empty field asks for nothing."""
        return Wanted(**{name: value or 0.0 for name, value in self.cleaned_data.items()})


@require_safe
def proposal(request: HttpRequest, code: str) -> HttpResponse:
    """Show every measured channel with the bands that bring it nearer to what is wanted."""
    job = access.open_job(access.signed_in(request), code)
    records = strip.worked_out(request, job).records
    form = WantedForm(SHAPES[0][1] | request.GET.dict())
    proposals: list[Proposal] = []
    if form.is_valid():
        proposals = propose(records.channels, records.channel_curves, form.wanted())
    context = {
        "job": job,
        "form": form,
        "shapes": SHAPES,
        "proposals": [(each, proposal_chart(each)) for each in proposals],
        "steps": strip.steps(request, job, "setup"),
    }
    return render(request, "pages/setup/proposal.html", context)


urlpatterns = [path("jobs/<str:code>/set-up/proposal/", proposal, name="setup-proposal")]
