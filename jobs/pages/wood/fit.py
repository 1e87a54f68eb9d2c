"""Fit a box to a cavity: type the space, the driver and the litres, pick one that goes."""

from __future__ import annotations

import uuid
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods

from jobs import access
from jobs.design.carcass.contents import is_measured
from jobs.design.job import board_counts
from jobs.design.wood.fitting import FIELDS, Candidate, Fitting, fit_boxes
from jobs.drawings.wood import wood_pictures
from jobs.locks import held
from jobs.models import Box, EquipmentItem, Job, Part, SheetMaterial
from jobs.models.box.box_kinds import kind_of, kinds_with
from jobs.pages.box.box_undo import take_back
from jobs.pages.forms import strip
from jobs.pages.forms.fields import NOTHING, QuantityField, judged_here, key_of
from jobs.pages.forms.shape_fields import ObstaclesField, OutlineField

KINDS = [Box.Kind(kind) for kind in kinds_with(lambda kind: kind.fitted)]
WITH_PORT = kinds_with(lambda kind: kind.fitted and kind.port)
FACING = [
    ("front", gettext_lazy("to the front of the drawing")),
    ("rear", gettext_lazy("to the rear")),
    ("top", gettext_lazy("up")),
    ("side", gettext_lazy("to the side; in a well, up")),
]
PORT_FACES = [("", gettext_lazy("beside the driver")), ("right", gettext_lazy("in the right side"))]
BEST_AT = {
    "shallowest": gettext_lazy("shallowest"),
    "least-wood": gettext_lazy("least wood"),
    "least-space": gettext_lazy("least boot space lost"),
    "simplest-cuts": gettext_lazy("simplest cuts"),
}
KIND_WORDS = {
    "rectangle": gettext_lazy("rectangular"),
    "slope": gettext_lazy("one panel leans as the cavity does"),
    "outline": gettext_lazy("follows the outline of the cavity"),
    "corner": gettext_lazy("over a plan that goes past what stands in the way"),
    "taper": gettext_lazy("over a plan, walls leaning as the cavity does"),
}
WITHOUT = {
    "opening": gettext_lazy("the opening it must pass"),
    "gap": gettext_lazy("the gap to keep"),
    "driver": gettext_lazy("the driver and the room it needs"),
    "port": gettext_lazy("the port and the room it needs"),
}


def _length(label: Any, **more: Any) -> QuantityField:
    return QuantityField("length", label=label, positive=True, **more)


class FitForm(forms.Form):
    """The space in the car, what goes into the box, and how many litres it is to have."""

    fieldsets = (
        (
            gettext_lazy("Cavity in the car"),
            (
                "cavity_profile",
                "cavity_width",
                "cavity_obstacles",
                "cavity_gap",
                "opening_width",
                "opening_height",
            ),
            "",
        ),
        (
            gettext_lazy("Box"),
            (
                "name",
                "kind",
                "wanted_volume",
                "driver",
                "driver_count",
                "facing",
                "material",
                "baffle_layers",
            ),
            "",
        ),
        (
            gettext_lazy("Port"),
            ("wanted_tuning", "port_diameter", "port_count", "port_face"),
            " ".join(WITH_PORT),
        ),
    )

    cavity_profile = OutlineField(
        label=gettext_lazy("cavity, side profile"), bows=True, beside=("blocks",)
    )
    cavity_width = _length(gettext_lazy("cavity width"))
    cavity_obstacles = ObstaclesField(
        label=gettext_lazy("what stands in the cavity"), on="cavity_profile"
    )
    cavity_gap = QuantityField(
        "length", label=gettext_lazy("gap to keep"), min_value=0.0, initial=0.01
    )
    opening_width = _length(gettext_lazy("opening it must pass, width"), required=False)
    opening_height = _length(gettext_lazy("opening it must pass, height"), required=False)
    name = forms.CharField(label=gettext_lazy("name"), max_length=60)
    kind = forms.ChoiceField(
        label=gettext_lazy("kind"), choices=[(k.value, k.label) for k in KINDS]
    )
    wanted_volume = QuantityField("volume", label=gettext_lazy("net volume wanted"), positive=True)
    driver = forms.ChoiceField(label=gettext_lazy("driver"))
    driver_count = forms.IntegerField(
        label=gettext_lazy("drivers"), min_value=1, max_value=8, initial=1
    )
    facing = forms.ChoiceField(label=gettext_lazy("the driver looks"), choices=FACING)
    material = forms.ModelChoiceField(
        SheetMaterial.objects.all(), label=gettext_lazy("sheet material")
    )
    baffle_layers = forms.IntegerField(
        label=gettext_lazy("layers of the front panel"), min_value=1, max_value=6, initial=1
    )
    wanted_tuning = QuantityField(
        "frequency", label=gettext_lazy("tuning wanted"), positive=True, required=False
    )
    port_diameter = _length(gettext_lazy("port diameter inside"), required=False)
    port_count = forms.IntegerField(
        label=gettext_lazy("ports"), min_value=1, max_value=8, initial=1
    )
    port_face = forms.ChoiceField(label=gettext_lazy("port in"), choices=PORT_FACES, required=False)
    entry_token = forms.UUIDField(widget=forms.HiddenInput, required=False)
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, job: Job, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        judged_here(self.fields.values())
        self.items = {
            item.pk: item
            for item in job.equipmentitems.select_related("part__driver").filter(
                part__kind=Part.Kind.DRIVER
            )
        }
        self.parts = {
            part.pk: part
            for part in Part.objects.select_related("driver").filter(kind=Part.Kind.DRIVER)
        }
        choice = self.fields["driver"]
        assert isinstance(choice, forms.ChoiceField)
        choice.choices = [
            ("", NOTHING),
            (_("on the equipment list"), [(f"item-{pk}", str(i)) for pk, i in self.items.items()]),
            (
                _("from the catalogue; it goes on the list"),
                [(f"part-{pk}", str(p)) for pk, p in self.parts.items()],
            ),
        ]

    @property
    def groups(self) -> list[tuple[Any, list[forms.BoundField], str]]:
        """(heading, fields, kinds they are for), as a record's form gives them."""
        return [(title, [self[n] for n in names], kinds) for title, names, kinds in self.fieldsets]

    def clean(self) -> dict[str, Any]:
        """A driver needs its size, a vented box its port, an opening both its sides."""
        cleaned = super().clean() or {}
        item = self._item(cleaned.get("driver", ""))
        part = getattr(item.part, "driver", None) if item else None
        if item and not (part and is_measured(part)):
            self.add_error(
                "driver",
                _(
                    "Its outer diameter, cut-out, depth and magnet diameter are not all known. "
                    "Enter them in the catalogue first."
                ),
            )
        cleaned["item"] = item
        if cleaned.get("kind") in WITH_PORT:
            for name in ("wanted_tuning", "port_diameter"):
                if not cleaned.get(name) and name not in self.errors:
                    self.add_error(name, _("A vented box needs this."))
        width, height = "opening_width", "opening_height"
        if bool(cleaned.get(width)) != bool(cleaned.get(height)):
            self.add_error(height if cleaned.get(width) else width, _("An opening has both."))
        return cleaned

    def _item(self, choice: str) -> EquipmentItem | None:
        """The item chosen, or a new one of the part chosen."""
        kind, _dash, pk = choice.partition("-")
        key = key_of(pk)
        if key is None:
            return None
        if kind == "item":
            return self.items.get(key)
        part = self.parts.get(key)
        return EquipmentItem(part=part) if part else None

    def box(self, box: Box) -> Box:
        """Put what was typed into a record, unsaved."""
        names = [f for _t, fields, _k in self.fieldsets for f in fields]
        for name in names:
            if name not in ("driver", "facing"):
                setattr(box, name, self.cleaned_data[name])
        if not kind_of(box).port:
            box.wanted_tuning, box.port_count = None, 1
        box.driver = self.cleaned_data["item"]
        return box


def _initial(box: Box | None) -> dict[str, Any]:
    if box is None:
        return {"entry_token": uuid.uuid4(), "name": _("Box")}
    names = [n for _t, fields, _k in FitForm.fieldsets for n in fields if n != "facing"]
    values = {name: getattr(box, name) for name in names}
    if box.kind not in KINDS:
        values["kind"] = KINDS[0]
    return {
        **values,
        "driver": f"item-{box.driver_id}" if box.driver_id else "",
        "port_face": box.port_face if box.port_face == "right" else "",
        "version": box.version,
    }


@require_http_methods(["GET", "HEAD", "POST"])
def fit(request: HttpRequest, code: str, pk: int | None = None) -> HttpResponse:
    """Show the boxes that go; make the one that was picked, or put it into the box."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    old = get_object_or_404(Box, job=job, pk=pk) if pk else None
    picking = "pick" in request.POST
    if picking:
        access.require(access.may_spec(user))
    form = FitForm(job, request.POST or None, initial=_initial(old))
    fitting, stale = None, False
    if form.is_valid():
        typed = form.box(Box.objects.get(pk=old.pk) if old else Box(job=job))
        fitting = fit_boxes(typed, form.cleaned_data["facing"])
        if picking:
            saved = _pick(request, job, old, form, fitting)
            if saved:
                return redirect("box-edit", job.code, saved.pk)
            stale = True
    context: dict[str, Any] = {
        "job": job,
        "box": old,
        "form": form,
        "fitting": fitting,
        "stale": stale,
        "shown": [_shown(candidate, n) for n, candidate in enumerate(fitting.candidates)]
        if fitting
        else [],
        "largest": _shown(fitting.largest, 8) if fitting and fitting.largest else None,
        "limits": _limits(fitting) if fitting else [],
        "nothing": fitting is not None and not fitting.candidates and not fitting.trouble,
        "turned": [(way.facing, dict(FACING)[way.facing], way.answer) for way in fitting.turned]
        if fitting
        else [],
        "may_spec": access.may_spec(user),
        "steps": strip.steps(request, job, "boxes"),
        "here": reverse("fit-box", args=[job.code, pk]) if pk else reverse("fit", args=[job.code]),
    }
    status = 422 if stale or (form.is_bound and not form.is_valid()) else 200
    return render(request, "pages/wood/fit.html", context, status=status)


def _shown(candidate: Candidate, number: int) -> dict[str, Any]:
    """A candidate with its picture and what it is best at."""
    result, key = candidate.result, f"fit{number}"
    pictures = (wood_pictures.section, wood_pictures.face) if result.wood else ()
    return {
        "candidate": candidate,
        "kind": KIND_WORDS[candidate.answer.kind],
        "best_at": ", ".join(str(BEST_AT[aim]) for aim in candidate.answer.best_at),
        "views": [draw(result, key) for draw in pictures],
        "stops": [finding for finding in result.findings if finding.severity != "note"],
    }


def _limits(fitting: Fitting) -> list[dict[str, Any]]:
    """What binds: its name, the litres without it, and the clearance that fails."""
    return [
        {
            "what": limit.what,
            "name": WITHOUT.get(limit.what, limit.what),
            "volume": limit.volume,
            "finding": finding,
        }
        for limit, finding in fitting.limits
    ]


def _pick(
    request: HttpRequest, job: Job, old: Box | None, form: FitForm, fitting: Fitting
) -> Box | None:
    """Save the box whose button was pressed; None when it is no longer among the answers."""
    chosen = next((c for c in fitting.candidates if c.key == request.POST.get("pick")), None)
    if chosen is None:
        return None
    with held(job):
        box = _target(job, old, form)
        if box is None:
            return None
        if box.pk and old is None:
            return box  # sent twice: made once
        item = chosen.box.driver
        if item is not None and item.pk is None:
            item.job, item.place = job, chosen.box.place or form.cleaned_data["name"]
            item.quantity = chosen.box.driver_count
            item.save()
        chosen.box.driver = item
        for name in (*FIELDS, "name"):
            setattr(box, name, getattr(chosen.box, name))
        box.version += 1 if old else 0
        box.save()
        board_counts.forget(job)
    undo = reverse("box-remove", args=[job.code, box.pk])
    if old:
        undo = reverse("fit-undo", args=[job.code, box.pk, box.version])
    messages.success(request, _("Saved: %(row)s.") % {"row": box}, extra_tags=f"undo:{undo}")
    return box


def _target(job: Job, old: Box | None, form: FitForm) -> Box | None:
    """The box to write into: the page's, unless it was changed since, or a new one."""
    if old is not None:
        current = Box.objects.get(pk=old.pk)
        return current if current.version == form.cleaned_data["version"] else None
    token = form.cleaned_data["entry_token"] or uuid.uuid4()
    earlier = Box.with_removed.filter(job=job, entry_token=token).first()
    if earlier is not None and earlier.removed_at:
        earlier, token = None, uuid.uuid4()  # taken back since: the next one is a new one
    return earlier or Box(job=job, entry_token=token)


urlpatterns = [
    path("jobs/<str:code>/fit/", fit, name="fit"),
    path("jobs/<str:code>/box/<int:pk>/fit/", fit, name="fit-box"),
    path(
        "jobs/<str:code>/box/<int:pk>/fit/<int:version>/undo/",
        take_back,
        {"names": (*FIELDS, "name")},
        name="fit-undo",
    ),
]
