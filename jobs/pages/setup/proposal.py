"""Bands of the equaliser proposed from what was measured, for the sound that is wanted."""

from __future__ import annotations

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.setup.measured import places
from jobs.design.setup.proposal import Proposal, Wanted, propose
from jobs.design.setup.with_bands import borne, heard_together, met_again
from jobs.drawings.setup.proposal_pictures import proposal_chart
from jobs.models import Job, TargetCurve
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

    own = forms.ModelChoiceField(
        TargetCurve.objects.none(),
        label=_("on top of"),
        required=False,
        empty_label=_("a level line"),
    )

    def __init__(self, job: Job, typed: dict[str, str]) -> None:
        super().__init__(typed)
        own = self.fields["own"]
        assert isinstance(own, forms.ModelChoiceField)
        own.queryset = TargetCurve.objects.filter(job=job)

    def wanted(self) -> Wanted:
        """What was typed; an empty field asks for nothing."""
        typed = self.cleaned_data
        return Wanted(lift=typed["lift"] or 0.0, fall=typed["fall"] or 0.0, own=typed["own"])


@require_safe
def proposal(request: HttpRequest, code: str) -> HttpResponse:
    """Show every measured channel with the bands that bring it nearer to what is wanted."""
    job = access.open_job(access.signed_in(request), code)
    design = strip.worked_out(request, job)
    records = design.records
    form = WantedForm(job, SHAPES[0][1] | request.GET.dict())
    proposals: list[Proposal] = []
    if form.is_valid():
        proposals = propose(records.channels, records.channel_curves, form.wanted())
    by_channel = {each.channel.pk: each for each in proposals}
    results = {result.channel.pk: result for result in design.channels}
    boxes = {box.box.channel_id: box for box in design.boxes if box.box.chosen}
    context = {
        "job": job,
        "form": form,
        "shapes": SHAPES,
        "boxes": boxes,
        "meetings": design.setup.meetings,
        "own_curves": records.target_curves,
        "proposals": [
            (each, proposal_chart(each), borne(each, results[pk], boxes.get(pk)))
            for pk, each in by_channel.items()
        ],
        "again": met_again(design.setup.meetings, by_channel),
        "heard": heard_together(design.setup.meetings, places(records.channel_curves), by_channel),
        "steps": strip.steps(request, job, "setup"),
    }
    return render(request, "pages/setup/proposal.html", context)


urlpatterns = [path("jobs/<str:code>/set-up/proposal/", proposal, name="setup-proposal")]
