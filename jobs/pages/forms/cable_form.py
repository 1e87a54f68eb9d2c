"""What the form of a run and that of how it really lies refuse alike."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.wiring.cables import is_colour
from jobs.pages.forms.forms import R, RecordForm


class CableForm(RecordForm[R]):
    """A cable with its two colours, its length and the distances of its fuses."""

    def clean_colour(self) -> str:
        """Take the letters of the standard only."""
        return self._colour("colour")

    def clean_return_colour(self) -> str:
        """Take the letters of the standard only."""
        return self._colour("return_colour")

    def _colour(self, name: str) -> str:
        letters = str(self.cleaned_data[name]).strip().upper()
        if letters and not is_colour(letters):
            message = _("“%(text)s” is not made of the two-letter codes of IEC 60757.")
            raise ValidationError(message % {"text": letters})
        return letters

    def clean(self) -> dict[str, Any]:
        """Refuse a fuse that sits farther along a run than the run is long."""
        cleaned = super().clean()
        length = cleaned.get("length")
        for name in ("fuse_distance", "end_fuse_distance"):
            distance = cleaned.get(name)
            if length is not None and distance is not None and distance > length:
                message = _("The run is only %(length)s long.")
                self.add_error(name, message % {"length": units.show(length, "cable_length")})
        return cleaned
