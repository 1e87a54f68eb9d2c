"""A finished box as it was measured: typed in the shop, worked out again while it is typed."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _

from jobs import access
from jobs.design.box.box_as_built import work_out_built
from jobs.design.job.whole import load, typed_box
from jobs.models import BoxAsBuilt, Job
from jobs.pages.forms.days import DaysForm
from jobs.pages.forms.record_rows import RowKind


class BoxAsBuiltForm(DaysForm[BoxAsBuilt]):
    """Which box, and what was measured on it."""

    over: ClassVar = {"measured_on"}
    quantities: ClassVar = {
        **dict.fromkeys((*BoxAsBuilt.SIZES, "thickness"), "length"),
        "volume": "volume",
    }
    fieldsets: ClassVar = [
        (_("Which box, measured when and by whom"), ["box", "measured_on", "measured_by"]),
        (_("Outside, with a rule"), [*BoxAsBuilt.SIZES, "thickness"]),
        (_("By filling it"), ["volume"]),
    ]

    class Meta:
        model = BoxAsBuilt
        fields = ("box", "measured_on", "measured_by", *BoxAsBuilt.SIZES, "thickness", "volume")
        widgets: ClassVar = {
            "measured_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        }
        help_texts: ClassVar = {
            "width": _("What is left empty was not measured, and stays as drawn."),
            "volume": _(
                "Granules or water in a bag, weighed or poured back; less what the driver takes."
            ),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("box", self.instance.job.boxes.all())


def _preview(request: HttpRequest, job: Job, form: BoxAsBuiltForm) -> dict[str, Any]:
    """Work the measured box out as it stands in the form."""
    row = form.instance
    records = load(job)
    box = next((box for box in records.boxes if box.pk == row.box_id), None)
    if box is None:
        return {"built": None}
    drawn = typed_box(records, box)
    (built,) = work_out_built([row], [drawn], lambda measured: typed_box(records, measured))
    return {"built": built, "findings": built.new_findings}


BOX_AS_BUILT = RowKind(
    slug="box-as-built",
    form=BoxAsBuiltForm,
    section="shop",
    allowed=access.may_record,
    preview=_preview,
    preview_template="pages/box/as_built_result.html",
)

urlpatterns = BOX_AS_BUILT.urls()
