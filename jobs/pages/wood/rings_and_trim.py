"""Speaker rings, trim panels, and the files a router takes."""

from __future__ import annotations

from typing import Any, ClassVar, cast

from django.http import HttpRequest, HttpResponse
from django.urls import path
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.design.wood.beneath import to_reach
from jobs.design.wood.trim import rolls_of
from jobs.drawings.wood import wood_pictures
from jobs.models import Box, Job, Part, Ring, TrimPanel
from jobs.pages.forms import strip
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind
from jobs.pages.forms.shape_fields import OutlineField
from jobs.pages.wood.panel_fields import (
    BeneathField,
    HatchesField,
    MountsField,
    OpeningsField,
    StationsField,
    SupportsField,
)
from jobs.sheets import dxf


class RingForm(RecordForm[Ring]):
    """A stack of rings that carries a speaker on a door."""

    quantities: ClassVar = {
        "outer_diameter": "length",
        "inner_diameter": "length",
        "bolt_circle": "length",
        "screw_diameter": "length",
        "tilt": "angle",
        "raised": "length",
        "lean": "angle",
        "spacer_width": "length",
    }
    any_sign: ClassVar = {"tilt", "lean"}
    fieldsets: ClassVar = [
        (_("What it is"), ["name", "place", "quantity", "driver"]),
        (
            _("Ring"),
            ["outer_diameter", "inner_diameter", "bolt_circle", "screws", "screw_diameter"],
        ),
        (_("Stack"), ["material", "layers", "tilt"]),
        (_("In a moulded box"), ["box", "raised", "lean", "spacers", "spacer_width"]),
    ]
    field_only_for: ClassVar = dict.fromkeys(
        ("raised", "lean", "spacers", "spacer_width"), ("in-box",)
    )

    class Meta:
        model = Ring
        exclude = ("job",)
        help_texts: ClassVar = {
            "inner_diameter": _("The driver's cut-out when left empty."),
            "bolt_circle": _("The driver's when left empty."),
            "layers": _("At the low side; a tilted stack gets as many more as it needs."),
            "box": _("Spacers hold it over the base while the skin is drawn on."),
            "raised": _("To the middle of its lower face."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        items = self.instance.job.equipmentitems.select_related("part")
        self.offer("driver", items.filter(part__kind=Part.Kind.DRIVER))
        self.offer("box", self.instance.job.boxes.filter(shape=Box.Shape.MOULDED))


STANDS, CARRIES = _("What it stands on"), _("What is screwed to it")
HELD = _("Held in a crash")
EDGES = _("Edges: measured, rounded, room round them")
BEND = _("Bent over saw kerfs")
HATCHES, COVER, BEHIND = _("Hatches"), _("Cover"), _("The box behind it")
BENEATH, SHOWS = _("Fuses and terminals under it"), _("What shows")


class TrimPanelForm(RecordForm[TrimPanel]):
    """A panel that covers a box and leaves open what must show, or a false floor."""

    quantities: ClassVar = {
        "width": "length",
        "height": "length",
        "level": "length",
        "bears": "mass",
        "edge_gap": "length",
        "beside": "length",
        "room_above": "length",
        "reveal": "length",
        "finish": "length",
        "turned": "length",
        "box_u": "length",
        "box_v": "length",
        "round_over": "length",
        "bend_at": "length",
        "bend_radius": "span",
        "bend_angle": "angle",
        "bend_skin": "length",
        "bend_blade": "length",
    }
    or_zero: ClassVar = {"bend_at"}
    any_sign: ClassVar = {"box_u", "box_v"}
    fieldsets: ClassVar = [
        (_("What it is"), ["name", "place", "kind"]),
        (_("Wood and outline"), ["material", "width", "height", "outline"]),
        (EDGES, ["stations", "measured", "edge_gap", "beside", "round_over"]),
        (BEND, ["bend_radius", "bend_angle", "bend_at", "bend_skin", "bend_blade"]),
        (STANDS, ["level", "bears", "supports"]),
        (CARRIES, ["mounts", "room_above"]),
        (HATCHES, ["hatches"]),
        (BENEATH, ["beneath_listed", "beneath"]),
        (HELD, ["held_by", "held_into"]),
        (COVER, ["cover", "finish", "turned", "cover_runs", "sample", "cover_state"]),
        (SHOWS, ["reveal", "openings"]),
        (BEHIND, ["box", "box_face", "box_u", "box_v"]),
    ]
    folded: ClassVar = (EDGES, BEND, HATCHES, BENEATH, COVER, BEHIND)
    only_for: ClassVar = {
        BEND: (TrimPanel.Kind.TRIM,),
        STANDS: (TrimPanel.Kind.FLOOR,),
        BENEATH: (TrimPanel.Kind.FLOOR,),
        CARRIES: (TrimPanel.Kind.BOARD,),
        HELD: (TrimPanel.Kind.FLOOR, TrimPanel.Kind.BOARD),
    }
    field_only_for: ClassVar = {
        **dict.fromkeys(("edge_gap", "beside"), (TrimPanel.Measured.SPACE,)),
        **dict.fromkeys(("turned", "cover_runs", "sample", "cover_state"), ("covered",)),
    }
    stations = StationsField(
        label=_("edges measured from a batten"),
        help_text=_(
            "A straight batten from a corner to the next; at each place along it how far the edge "
            "lies off it, outwards, or inwards below zero. Between the places the edge runs as a "
            "thin lath would. Corners of a rectangle: 1 lower left, then counter-clockwise."
        ),
    )
    supports = SupportsField(
        label=_("battens and blocks"),
        help_text=_(
            "To its middle, from the lower left corner of the panel. The height is worked out "
            "from the level; enter what you measured where the metal is not level."
        ),
    )
    mounts = MountsField(
        label=_("amplifiers and processors"),
        help_text=_(
            "Those on the equipment list; to the middle, from the lower left corner of the board. "
            "Size, screws and the air each needs stand in the catalogue."
        ),
    )
    hatches = HatchesField(
        label=_("hatches"),
        help_text=_(
            "The opening in the bare wood. The lid is smaller by the gap and by the cover on both "
            "edges; the ledge is a strip glued under the rim that the lid lies on."
        ),
    )
    beneath = BeneathField(
        label=_("fuses and terminals under it"),
        help_text=_(
            "To the middle of each, from the lower left corner of the panel: a hatch has to lie "
            "over it."
        ),
    )
    outline = OutlineField(
        label=_("outline, where it is no rectangle"),
        bows=True,
        radii=True,
        plate="width height",
        beside=("openings",),
    )
    openings = OpeningsField(
        label=_("what else shows"),
        help_text=_("To its middle, from the lower left corner of the panel."),
        on="outline",
    )

    class Meta:
        model = TrimPanel
        exclude = ("job",)
        help_texts: ClassVar = {
            "finish": _(
                "With its glue, turned over the edges. The catalogue's when left empty; nothing "
                "for bare or painted wood."
            ),
            "measured": _(
                "Of a space the wood is smaller all round: by the gap, by its own cover, and by "
                "the cover on what it meets."
            ),
            "round_over": _("Of its upper edge, all round; its cover is so much shorter."),
            "bend_radius": _("Of the face that shows; its back is cut and closes."),
            "bend_skin": _("So much as bends without breaking, by a trial strip of the sheet."),
            "level": _("Of the covered floor; each support is cut to it."),
            "bears": _("Such as a person who kneels on it; then it is held to how far it bends."),
            "box_face": _("The one with the driver when left empty; it lies in the middle."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        panel = self.instance
        if panel.kind != TrimPanel.Kind.TRIM:
            # Nothing shows through it as a rule; what was answered stands in the drawing beside.
            answered = {STANDS: panel.supports, HELD: panel.held_by}
            more = (SHOWS, *(title for title, answer in answered.items() if answer))
            vars(self)["folded"] = (*self.folded, *more)
        self.offer("box", self.instance.job.boxes.all())
        kinds = (Part.Kind.AMPLIFIER, Part.Kind.PROCESSOR)
        items = self.instance.job.equipmentitems.all()
        on_list = Part.objects.filter(kind__in=kinds, pk__in=items.values("part"))
        cast(MountsField, self.fields["mounts"]).offer(on_list)
        job = self.instance.job
        runs = list(job.runs.select_related("fuse", "end_fuse"))
        names = to_reach(runs, list(job.powernodes.all()), list(job.groundpoints.all()))
        cast(BeneathField, self.fields["beneath"]).offer(names)


def _preview(
    request: HttpRequest, job: Job, form: RecordForm[Ring] | RecordForm[TrimPanel]
) -> dict[str, Any]:
    """Draw the unsaved piece and say what is wrong with it."""
    row: Ring | TrimPanel = form.instance
    design = work_out(load(job).with_unsaved(row))
    result = next(trim for trim in design.trims if trim.record is row)
    return {
        "changed": design.records,
        "trim": result,
        "rolls": [order for order in rolls_of(design.trims) if order.takes(result.cover)],
        "drawing": wood_pictures.alone(result.piece, "trim") if result.piece else "",
        "findings": [
            finding for finding in design.findings_of("boxes") if finding.concerns(about(row))
        ],
    }


@require_safe
def files(request: HttpRequest, code: str) -> HttpResponse:
    """Hand over a DXF of every part and of every nested sheet, packed."""
    job = access.open_job(access.signed_in(request), code)
    packed = dxf.archive(strip.worked_out(request, job))
    response = HttpResponse(packed, content_type="application/zip")
    response["Content-Disposition"] = f'attachment; filename="{job.code}-dxf.zip"'
    return response


RESULT = "pages/wood/trim_result.html"
RING = RowKind(
    slug="ring", form=RingForm, section="boxes", preview=_preview, preview_template=RESULT
)
TRIM_PANEL = RowKind(
    slug="trim-panel",
    form=TrimPanelForm,
    section="boxes",
    preview=_preview,
    preview_template=RESULT,
)

urlpatterns = [
    path("jobs/<str:code>/dxf/", files, name="dxf"),
    *RING.urls(),
    *TRIM_PANEL.urls(),
]
