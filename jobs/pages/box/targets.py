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
    BANDS,
    FIELDS,
    FIGURE_WORDS,
    FIGURES,
    SHAPE_WORDS,
    Answer,
    Target,
    answer,
)
from jobs.design.job import board_counts
from jobs.drawings.box.compare_pictures import target_chart, trade_chart
from jobs.drawings.pencil.chart_picture import ChartPicture
from jobs.locks import held
from jobs.models import Box
from jobs.pages.box.box_undo import take_back
from jobs.pages.forms import strip
from jobs.pages.forms.fields import QuantityField

# Half the power: a sag as deep is the end of the passband.
MOST_RIPPLE = 3.0
# What the curves show.
LOWEST, HIGHEST = 10.0, 500.0
EXAMPLES = {"qtc": "0.7", "f3": "35 Hz", "volume": "28 L", "loudest": "28 L", "fb": "30 Hz"}


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
    low = QuantityField(
        "frequency",
        label=gettext_lazy("band from"),
        required=False,
        help_text=gettext_lazy("For a band: both its ends, such as 25 Hz and 60 Hz."),
    )
    high = QuantityField("frequency", label=gettext_lazy("band up to"), required=False)
    rise = QuantityField(
        "level",
        label=gettext_lazy("rise and sag of the response accepted"),
        required=False,
        initial=ACCEPTED_RISE,
        help_text=gettext_lazy(
            "Each way, for a vented box; inside its band, for a band-pass; the rise of a Chebyshev "
            "shape."
        ),
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
        want = cleaned.get("want", "")
        if want in BANDS:
            self._band(cleaned)
        if want in (*FIGURES, *BANDS) and (cleaned.get("rise") or 0.0) > MOST_RIPPLE:
            words = _("A sag of more than %(most)s is where a response ends. Accept less.")
            self.add_error("rise", words % {"most": units.show(MOST_RIPPLE, "level")})
        kind = FIGURES.get(want)
        if kind is None:
            return cleaned
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

    def _band(self, cleaned: dict[str, Any]) -> None:
        """A band has two ends, the second above the first."""
        for name in ("low", "high"):
            if cleaned.get(name) is None and name not in self.errors:
                self.add_error(name, _("A band needs both its ends, such as 25 Hz and 60 Hz."))
            elif name not in self.errors and not LOWEST <= cleaned[name] <= HIGHEST:
                words = _("A band lies between %(low)s and %(high)s.") % {
                    "low": units.show(LOWEST, "frequency"),
                    "high": units.show(HIGHEST, "frequency"),
                }
                self.add_error(name, words)
        low, high = cleaned.get("low"), cleaned.get("high")
        if low and high and high <= low:
            self.add_error("high", _("This must lie above the lower end."))

    def target(self) -> Target:
        """Return what was asked for, once it is valid."""
        return Target(
            want=self.cleaned_data["want"],
            value=self.cleaned_data.get("figure"),
            rise=self.cleaned_data["rise"] or ACCEPTED_RISE,
            low=self.cleaned_data["low"] or 0.0,
            high=self.cleaned_data["high"] or 0.0,
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
                board_counts.forget(job)
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
        "charts": _charts(result, solution),
        "has_wood": result.wood is not None,
        "may_spec": access.may_spec(user),
    }
    status = 422 if putting or (form.is_bound and not form.is_valid()) else 200
    if request.headers.get("HX-Request"):
        return render(request, "parts/box/targets.html", context, status=status)
    context["steps"] = strip.steps(request, job, "boxes")
    return render(request, "pages/box/targets.html", context, status=status)


def _charts(result: BoxResult, solution: Answer | None) -> list[ChartPicture]:
    if solution is None or solution.then is None:
        return []
    key = f"target{result.box.pk}"
    trade = solution.trade
    return [
        *([trade_chart(key, trade, solution.target)] if trade else []),
        target_chart(key, solution),
    ]


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
    if fields.get("front_volume"):
        words.append(units.show(fields["front_volume"], "volume"))
    if fields.get("radiator_added_mass"):
        words.append(units.show(fields["radiator_added_mass"], "moving_mass"))
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
