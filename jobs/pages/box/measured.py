"""A driver's figures from its measured impedance, and whether the job's boxes use them."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_POST

from jobs import access
from jobs.design.box.measured_driver import read_trouble, work_out_sweep
from jobs.design.job import board_counts
from jobs.drawings.box.sweep_pictures import sweep_chart
from jobs.locks import held
from jobs.models import DriverSweep, Job, Part, User
from jobs.pages.forms.columns_field import ColumnsFileField
from jobs.pages.forms.columns_form import ColumnsForm
from jobs.pages.forms.record_rows import RowKind

_TEXT = {"rows": 10, "spellcheck": "false", "autocomplete": "off"}
_SECOND = gettext_lazy("Second sweep, for Mms, Cms, Vas and Bl")
# Each sweep is pasted, or read from a file: name of the text, name of the file.
_SWEEPS = (("content", "file"), ("second", "second_file"))


class SweepForm(ColumnsForm[DriverSweep]):
    """An impedance sweep in free air, and one with a known mass or in a known volume."""

    quantities: ClassVar = {
        "resistance": "resistance",
        "added_mass": "moving_mass",
        "box_volume": "volume",
    }
    fieldsets: ClassVar = [
        (
            gettext_lazy("Which driver, measured when and by whom"),
            ["item", "specimen", "measured_on", "measured_by", "coils"],
        ),
        (gettext_lazy("Sweep in free air"), ["content", "file", "resistance"]),
        (_SECOND, ["method", "added_mass", "box_volume", "second", "second_file"]),
    ]
    folded: ClassVar = (_SECOND,)
    second_file = ColumnsFileField(
        label=gettext_lazy("or a text file of the second sweep"), required=False
    )

    class Meta:
        model = DriverSweep
        fields = (
            "item", "specimen", "measured_on", "measured_by", "coils", "content", "resistance",
            "method", "added_mass", "box_volume", "second",
        )  # fmt: skip
        widgets = {
            "measured_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "content": forms.Textarea(attrs=_TEXT),
            "second": forms.Textarea(attrs=_TEXT),
        }
        help_texts = {
            "content": gettext_lazy(
                "One line for each frequency: Hz, ohms, and the phase in degrees if it was "
                "measured. Small signal, nothing near the cone, from well below resonance to some "
                "hundred hertz above it."
            ),
            "resistance": gettext_lazy(
                "Measure it if you can: a lossy coil hides it. Fitted with the rest when empty."
            ),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        job = self.instance.job
        drivers = job.equipmentitems.select_related("part").filter(part__kind=Part.Kind.DRIVER)
        self.offer("item", drivers)

    def clean(self) -> dict[str, Any]:
        """Read both sweeps now: one that tells nothing is not kept, but stays to be put right."""
        cleaned = super().clean()
        for text_name, file_name in _SWEEPS:
            if file_name not in self.errors:
                self._read(cleaned, text_name, cleaned.pop(file_name, None))
        self._second(cleaned)
        return cleaned

    def _read(self, cleaned: dict[str, Any], name: str, sent: str | None) -> None:
        text = (sent or cleaned.get(name) or "").replace("\r\n", "\n")
        if not text and name == "second":
            return
        if trouble := read_trouble(text, cleaned.get("resistance")):
            self.refuse(name, trouble, sent)
            return
        cleaned[name] = text

    def _second(self, cleaned: dict[str, Any]) -> None:
        """A second sweep means nothing without what was changed, and the other way round."""
        method, text = cleaned.get("method"), cleaned.get("second")
        if text and not method:
            self.add_error("method", _("Say what was changed for the second sweep."))
        if method and not text and not {"second", "second_file"} & set(self.errors):
            self.add_error("second", _("The second sweep is missing."))
        needed = {DriverSweep.Method.MASS: "added_mass", DriverSweep.Method.VOLUME: "box_volume"}
        name = needed.get(method) if method else None
        if name and cleaned.get(name) is None and name not in self.errors:
            self.add_error(name, _("How much? The figures cannot be worked out without it."))


def _preview(request: HttpRequest, job: Job, form: SweepForm) -> dict[str, Any]:
    """Work the sweep out as it stands in the form."""
    row = form.instance
    if row.item_id is None or not row.content:
        return {"result": None}
    result = work_out_sweep(row)
    return {
        "result": result,
        "chart": sweep_chart(result),
        "may_spec": access.may_spec(access.signed_in(request)),
    }


def _may_change(user: User, sweep: DriverSweep) -> bool:
    """Whoever measures may change what they entered; not what the boxes are worked out with."""
    return access.may_spec(user) or not sweep.in_use


SWEEP = RowKind(
    slug="sweep",
    form=SweepForm,
    section="equipment",
    allowed=access.may_record,
    may_change=_may_change,
    preview=_preview,
    preview_template="pages/box/sweep_result.html",
)


def _choose(request: HttpRequest, code: str, pk: int, *, use: bool) -> HttpResponse:
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_spec(user))
    with held(job):
        sweep = DriverSweep.objects.select_related("item__part").filter(job=job, pk=pk).first()
        if sweep is None:
            raise Http404
        others = DriverSweep.objects.none()
        if use:
            others = DriverSweep.objects.filter(job=job, item=sweep.item, in_use=True).exclude(
                pk=pk
            )
        before = others.first()
        for row in [*others, sweep]:
            row.in_use = use and row.pk == sweep.pk
            row.version += 1
            row.save()
        board_counts.forget(job)
    part = {"part": sweep.item.part}
    if use:
        message = _("The boxes now use what was measured of %(part)s.") % part
        back = reverse("sweep-use", args=[code, before.pk]) if before else None
        back = back or reverse("sweep-leave", args=[code, pk])
    else:
        message = _("The boxes use the catalogue's figures of %(part)s again.") % part
        back = reverse("sweep-use", args=[code, pk])
    messages.success(request, message, extra_tags=f"undo:{back}")
    return redirect("sweep-edit", job.code, pk)


@require_POST
def use(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Let the boxes of the job use a measured set instead of the catalogue's."""
    return _choose(request, code, pk, use=True)


@require_POST
def leave(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Go back to the catalogue's figures."""
    return _choose(request, code, pk, use=False)


urlpatterns = [
    *SWEEP.urls(),
    path("jobs/<str:code>/sweep/<int:pk>/use/", use, name="sweep-use"),
    path("jobs/<str:code>/sweep/<int:pk>/leave/", leave, name="sweep-leave"),
]
