"""Curves somebody wants, as text columns: kept with the job, changed, and proposed for."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs import access
from jobs.design.setup.measured import UnusableCurveError, read_level
from jobs.models import TargetCurve
from jobs.pages.forms.columns_form import ColumnsForm
from jobs.pages.forms.record_rows import RowKind


class TargetCurveForm(ColumnsForm[TargetCurve]):
    """A name and the columns, pasted, typed or read from a file."""

    class Meta:
        model = TargetCurve
        fields = ("name", "content")
        widgets: ClassVar = {
            "content": forms.Textarea(attrs={"rows": 12, "spellcheck": "false"}),
        }
        help_texts: ClassVar = {
            "content": gettext_lazy(
                "One line for each frequency: Hz, dB. Only the shape counts, not the level; "
                "between lines it is drawn straight over octaves, beyond the ends level."
            ),
        }

    def clean(self) -> dict[str, Any]:
        """Read the curve now: one that cannot be read is not kept, but stays to be put right."""
        cleaned = super().clean()
        sent = cleaned.pop("file", None)
        text = cleaned.get("content", "") if sent is None else sent
        if "file" in self.errors:
            return cleaned
        if not text:
            self.add_error("content", _("Type the curve here, or choose a text file of it."))
            return cleaned
        try:
            read_level(text)
        except UnusableCurveError as error:
            self.refuse("content", str(error), sent)
            return cleaned
        cleaned["content"] = text
        return cleaned


TARGET_CURVE = RowKind(
    slug="target-curve",
    form=TargetCurveForm,
    section="setup-proposal",
    allowed=access.may_record,
)

urlpatterns = TARGET_CURVE.urls()
