"""A form field for a file of measured columns: bytes in, text out, whatever wrote it."""

from __future__ import annotations

import codecs
import re
from typing import Any, cast

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict

from jobs.design.wording.columns import too_long

_CONTROL = re.compile("[\x00-\x08\x0e-\x1f]")


class ColumnsFileField(forms.Field):
    """Cleans an uploaded text file to its text; a file too large is refused before it is read."""

    widget = forms.FileInput(attrs={"accept": ".txt,.csv,.tsv,text/*"})

    def to_python(self, data: Any) -> str | None:
        """Return the text of the file, or None without one."""
        if data in self.empty_values:
            return None
        if message := too_long(data.size):
            raise ValidationError(message)
        return _decoded(data.read())


def _decoded(content: bytes) -> str:
    """Read bytes the way measuring programs write them; what is no text shows as such later."""
    if content.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
        return content.decode("utf-16", errors="replace")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("latin-1")


def put_back(form: forms.BaseForm, name: str, text: str) -> None:
    """Let what was in a refused file stand in the text field; no browser keeps a file."""
    if not _CONTROL.search(text):
        typed = cast(QueryDict, form.data).copy()
        typed[name] = text
        form.data = typed
