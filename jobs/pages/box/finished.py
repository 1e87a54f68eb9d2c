"""A sweep of a finished box: entered in the bay, it says whether the built box is the drawn one."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.http import HttpRequest
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs import access
from jobs.design.box.finished_box import sweep_trouble, work_out_finished
from jobs.design.job.whole import load, typed_box
from jobs.drawings.box.sweep_pictures import finished_charts
from jobs.models import BoxSweep, Job
from jobs.pages.forms.columns_form import ColumnsForm
from jobs.pages.forms.record_rows import RowKind


class BoxSweepForm(ColumnsForm[BoxSweep]):
    """Which box, measured when and by whom, and the sweep: pasted, or read from a file."""

    fieldsets: ClassVar = [
        (
            gettext_lazy("Which box, measured when and by whom"),
            ["box", "measured_on", "measured_by"],
        ),
        (gettext_lazy("Sweep across its terminals"), ["content", "file"]),
    ]

    class Meta:
        model = BoxSweep
        fields = ("box", "measured_on", "measured_by", "content")
        widgets = {
            "measured_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
            "content": forms.Textarea(
                attrs={"rows": 10, "spellcheck": "false", "autocomplete": "off"}
            ),
        }
        help_texts = {
            "content": gettext_lazy(
                "One line for each frequency: Hz, ohms, and the phase in degrees if it was "
                "measured; from 10 to 500 Hz. The amplifier's cable off, the box in its place, "
                "everything tight, and low enough that nobody hears it."
            ),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("box", self.instance.job.boxes.all())

    def clean(self) -> dict[str, Any]:
        """Read the sweep now: one that proves nothing is not kept, but stays to be put right."""
        cleaned = super().clean()
        if "file" in self.errors:
            return cleaned
        sent = cleaned.pop("file", None)
        text = (sent or cleaned.get("content") or "").replace("\r\n", "\n")
        if not text:
            self.add_error("content", _("Paste the sweep here, or choose a text file of it."))
        elif box := cleaned.get("box"):
            result = typed_box(load(self.instance.job), box)
            if trouble := sweep_trouble(text, result):
                self.refuse("content", trouble, sent)
                return cleaned
        cleaned["content"] = text
        return cleaned


def _preview(request: HttpRequest, job: Job, form: BoxSweepForm) -> dict[str, Any]:
    """Work the sweep out as it stands in the form."""
    row = form.instance
    if row.box_id is None or not row.content:
        return {"finished": None}
    records = load(job)
    box = next((box for box in records.boxes if box.pk == row.box_id), None)
    if box is None:
        return {"finished": None}
    finished = work_out_finished(row, typed_box(records, box))
    return {"finished": finished, "charts": finished_charts(finished)}


BOX_SWEEP = RowKind(
    slug="box-sweep",
    form=BoxSweepForm,
    section="boxes",
    allowed=access.may_record,
    preview=_preview,
    preview_template="pages/box/finished_result.html",
)

urlpatterns = BOX_SWEEP.urls()
