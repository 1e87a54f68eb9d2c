"""A processor's own file, kept with the set-up as it came, handed out and never looked into."""

from __future__ import annotations

from pathlib import PurePath
from typing import Any, ClassVar

from django import forms
from django.core.files.base import ContentFile
from django.http import FileResponse, HttpRequest
from django.shortcuts import get_object_or_404
from django.template.defaultfilters import filesizeformat
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import Part, ProcessorFile
from jobs.pages.forms.days import DaysForm
from jobs.pages.forms.record_rows import RowKind

LARGEST = 16 * 1024 * 1024  # bytes
LONGEST_NAME = 100


class ProcessorFileForm(DaysForm[ProcessorFile]):
    """Which processor, when and by whom; the file itself is sent once and may be sent anew."""

    over: ClassVar = {"saved_on"}
    sent = forms.FileField(
        label=_("file that the processor’s program saved"),
        required=False,
        help_text=_("Kept as it is, 16 MB at most. Nothing of it is read or checked here."),
    )

    class Meta:
        model = ProcessorFile
        fields = ("processor", "saved_on", "saved_by", "note")
        widgets: ClassVar = {
            "saved_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        if not kwargs["instance"].pk:
            begun = {"saved_on": timezone.localdate()}
            kwargs["initial"] = begun | (kwargs.get("initial") or {})
        super().__init__(*args, **kwargs)
        items = self.instance.job.equipmentitems.filter(part__kind=Part.Kind.PROCESSOR)
        self.offer("processor", items)

    def clean(self) -> dict[str, Any]:
        """Take the file whole; a new row is nothing without one."""
        cleaned = super().clean()
        sent = cleaned.pop("sent", None)
        if sent is None:
            if not self.instance.kept and "sent" not in self.errors:
                self.add_error("sent", gettext("Choose the file."))
        elif sent.size > LARGEST:
            sizes = {"size": filesizeformat(sent.size), "most": filesizeformat(LARGEST)}
            says = gettext("This holds %(size)s; at most %(most)s are kept.") % sizes
            self.add_error("sent", says)
        else:
            self.instance.kept = ContentFile(sent.read(), "kept")
            self.instance.kept_name = PurePath(sent.name or "").name[-LONGEST_NAME:]
            self.instance.size = sent.size
        return cleaned


@require_safe
def kept(request: HttpRequest, code: str, pk: int) -> FileResponse:
    """Hand the file out, to be kept and not to be shown: a browser runs none of it."""
    job = access.open_job(access.signed_in(request), code)
    row = get_object_or_404(ProcessorFile.objects.exclude(kept=""), job=job, pk=pk)
    return FileResponse(
        row.kept.open("rb"), as_attachment=True, filename=row.kept_name,
        content_type="application/octet-stream",
    )  # fmt: skip


PROCESSOR_FILE = RowKind(
    slug="processor-file",
    form=ProcessorFileForm,
    section="setup-as-set",
    allowed=access.may_record,
)

urlpatterns = [
    path("jobs/<str:code>/set-up/processor-file/<int:pk>/", kept, name="setup-processor-file"),
    *PROCESSOR_FILE.urls(),
]
