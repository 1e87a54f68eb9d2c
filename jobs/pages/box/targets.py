"""From a wanted Q, shape, frequency or volume to a box, and into the box's record."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods
from django.views.decorators.vary import vary_on_headers

from jobs import access, units
from jobs.design.box.boxes import BoxResult
from jobs.design.box.targets import (
    ACCEPTED_RISE,
    FIELDS,
    FIGURE_WORDS,
    FIGURES,
    SHAPE_WORDS,
    Answer,
    Target,
    answer,
)
from jobs.design.job import board_counts
from jobs.drawings.box.compare_pictures import target_chart
from jobs.locks import held
from jobs.models import Box
from jobs.pages.box.box_undo import take_back
from jobs.pages.forms import strip
from jobs.pages.forms.fields import QuantityField

# Half the power: a sag as deep is the end of the passband.
MOST_RIPPLE = 3.0
EXAMPLES = {"qtc": "0.7", "f3": "35 Hz", "volume": "28 L"}


class TargetForm(forms.Form):
    """What is wanted: a figure with its value, or a shape."""

    want = forms.ChoiceField(
        label=gettext_lazy("what is wanted"),
        choices=[
            (gettext_lazy("a figure"), list(FIGURE_WORDS.items())),
            (gettext_lazy("a classical shape"), [(str(k), v) for k, v in SHAPE_WORDS.items()]),
        ],
    )
    value = forms.CharField(
        label=gettext_lazy("its value"),
        required=False,
        help_text=gettext_lazy("For a figure: 0.7, or 35 Hz, or 28 L. A shape needs none."),
        widget=forms.TextInput(attrs={"autocomplete": "off", "spellcheck": "false"}),
    )
    rise = QuantityField(
        "level",
        label=gettext_lazy("rise and sag of the response accepted"),
        required=False,
        initial=ACCEPTED_RISE,
        help_text=gettext_lazy("Each way, for a vented box; the rise of a Chebyshev shape."),
    )

    def clean_rise(self) -> float | None:
        """A response without any ripple is no target: the least figure would miss it."""
        rise: float | None = self.cleaned_data["rise"]
        if rise is None:
            return None
        if rise <= 0:
            words = _("No build is even to 0 dB. Say what is accepted each way, such as 0.5 dB.")
            raise forms.ValidationError(words)
        return rise

    def clean(self) -> dict[str, Any]:
        """Read the value as what it is wanted to be."""
        cleaned = super().clean() or {}
        kind = FIGURES.get(cleaned.get("want", ""))
        if kind is None:
            return cleaned
        if (cleaned.get("rise") or 0.0) > MOST_RIPPLE:
            words = _("A sag of more than %(most)s is where a response ends. Accept less.")
            self.add_error("rise", words % {"most": units.show(MOST_RIPPLE, "level")})
        text = cleaned.get("value", "")
        if not text:
            example = {"example": EXAMPLES[cleaned["want"]]}
            self.add_error("value", _("A figure is needed here, such as %(example)s.") % example)
            return cleaned
        try:
            cleaned["figure"] = units.parse(text, kind)
        except units.UnreadableQuantity as problem:
            self.add_error("value", problem.message)
            return cleaned
        if cleaned["figure"] <= 0:
            self.add_error("value", _("This must be more than zero."))
        return cleaned

    def target(self) -> Target:
        """Return what was asked for, once it is valid."""
        return Target(
            want=self.cleaned_data["want"],
            value=self.cleaned_data.get("figure"),
            rise=self.cleaned_data["rise"] or ACCEPTED_RISE,
        )


@require_http_methods(["GET", "HEAD", "POST"])
@vary_on_headers("HX-Request")
def targets(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Answer what is asked for; put the answer into the box when that is what was pressed."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    result = strip.worked_out(request, job).saved_box(pk)
    if result is None:
        raise Http404
    putting = request.method == "POST"
    if putting:
        access.require(access.may_spec(user))
    asked = request.POST if putting else request.GET
    form = TargetForm(asked if "want" in asked else None, auto_id="target_%s")
    solution = answer(result, form.target()) if form.is_valid() else None
    stale = putting and request.POST.get("version") != str(result.box.version)
    if putting and solution and solution.fields is not None and not stale:
        with held(job):
            saved = _put(result.box, solution)
            if saved:
                board_counts.refresh(job)
        if saved:
            undo = reverse("targets-undo", args=[job.code, pk, saved.version])
            message = _("Put into %(box)s: %(words)s.") % {"box": saved, "words": _words(solution)}
            messages.success(request, message, extra_tags=f"undo:{undo}")
            return redirect("box-edit", job.code, pk)
        stale = True
    context: dict[str, Any] = {
        "job": job,
        "box": result.box,
        "form": form,
        "answer": solution,
        "stale": stale,
        "chart": _chart(result, solution),
        "has_wood": result.wood is not None,
        "may_spec": access.may_spec(user),
    }
    status = 422 if putting or (form.is_bound and not form.is_valid()) else 200
    if request.headers.get("HX-Request"):
        return render(request, "parts/box/targets.html", context, status=status)
    context["steps"] = strip.steps(request, job, "boxes")
    return render(request, "pages/box/targets.html", context, status=status)


def _chart(result: BoxResult, solution: Answer | None) -> Any:
    if solution is None or solution.then is None:
        return None
    return target_chart(f"target{result.box.pk}", solution)


def _put(box: Box, solution: Answer) -> Box | None:
    """Save the answer's fields unless somebody else saved the box meanwhile."""
    assert solution.fields is not None
    current = Box.objects.get(pk=box.pk)
    if current.version != box.version:
        return None
    for name, value in solution.fields.items():
        setattr(current, name, value)
    current.version += 1
    current.save()
    return current


def _words(solution: Answer) -> str:
    fields = solution.fields or {}
    words = [units.show(fields["wanted_volume"], "volume")]
    if fields.get("wanted_tuning"):
        words.append(units.show(fields["wanted_tuning"], "frequency"))
    return ", ".join(words)


urlpatterns = [
    path("jobs/<str:code>/box/<int:pk>/targets/", targets, name="targets"),
    path(
        "jobs/<str:code>/box/<int:pk>/targets/<int:version>/undo/",
        take_back,
        {"names": FIELDS},
        name="targets-undo",
    ),
]
