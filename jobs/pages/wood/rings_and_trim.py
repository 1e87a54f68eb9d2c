"""Speaker rings, trim panels, and the files a router takes."""

from __future__ import annotations

from typing import Any, ClassVar

from django.http import HttpRequest, HttpResponse
from django.urls import path
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.job.whole import load, work_out
from jobs.design.records.about import about
from jobs.drawings.wood import wood_pictures
from jobs.models import Job, Part, Ring, TrimPanel
from jobs.pages.forms import strip
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind
from jobs.pages.forms.shape_fields import OpeningsField, OutlineField
from jobs.sheets import dxf


class RingForm(RecordForm[Ring]):
    """A stack of rings that carries a speaker on a door."""

    quantities: ClassVar = {
        "outer_diameter": "length",
        "inner_diameter": "length",
        "bolt_circle": "length",
        "screw_diameter": "length",
        "tilt": "angle",
    }
    any_sign: ClassVar = {"tilt"}
    fieldsets: ClassVar = [
        (_("What it is"), ["name", "place", "quantity", "driver"]),
        (
            _("Ring"),
            ["outer_diameter", "inner_diameter", "bolt_circle", "screws", "screw_diameter"],
        ),
        (_("Stack"), ["material", "layers", "tilt"]),
    ]

    class Meta:
        model = Ring
        exclude = ("job",)
        help_texts: ClassVar = {
            "inner_diameter": _("The driver's cut-out when left empty."),
            "bolt_circle": _("The driver's when left empty."),
            "layers": _("At the low side; a tilted stack gets as many more as it needs."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        items = self.instance.job.equipmentitems.select_related("part")
        self.offer("driver", items.filter(part__kind=Part.Kind.DRIVER))


class TrimPanelForm(RecordForm[TrimPanel]):
    """A panel that covers a box and leaves open what must show."""

    quantities: ClassVar = {
        "width": "length",
        "height": "length",
        "reveal": "length",
        "finish": "length",
        "box_u": "length",
        "box_v": "length",
    }
    any_sign: ClassVar = {"box_u", "box_v"}
    fieldsets: ClassVar = [
        (_("What it is"), ["name", "place", "material"]),
        (_("Outline"), ["width", "height", "outline"]),
        (_("What shows"), ["reveal", "finish", "box", "box_face", "box_u", "box_v", "openings"]),
    ]
    outline = OutlineField(
        label=_("outline, where it is no rectangle"),
        bows=True,
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
                "Cloth, carpet or vinyl with its glue, turned over the edges; nothing for bare "
                "or painted wood."
            ),
            "box_face": _("The one with the driver when left empty; it lies in the middle."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("box", self.instance.job.boxes.all())


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
