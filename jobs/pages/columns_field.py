"""A form field for a file of measured columns: bytes in, text out, whatever wrote it."""

from __future__ import annotations

import codecs
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from jobs.design.wording.columns import too_long


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
