"""The lists a moulded shape is entered with: fills, and areas at heights."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext_lazy as _

from jobs.models import BoxFill, BoxSection
from jobs.models.box.moulded import MOST_FILLS, MOST_SECTIONS
from jobs.pages.forms.rows_field import Column, RowsField
from jobs.pages.forms.shape_fields import kept_as, length_column


class FillsField(RowsField):
    """What each fill took, one by one: how far they lie apart says how sure the litres are."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [Column(name="volume", label=_("took"), kind="volume", positive=True)]
        help_text = _("Fill it and measure it out again, three times at least.")
        super().__init__(
            **kept_as(BoxFill, columns), most=MOST_FILLS, help_text=help_text, **kwargs
        )


class SectionsField(RowsField):
    """Level cuts from floor to top, as drawn round on paper or cut from card."""

    def __init__(self, **kwargs: Any) -> None:
        columns = [
            length_column("height", _("height")),
            Column(name="area", label=_("area"), kind="surface"),
        ]
        help_text = _(
            "From the floor to the top, five heights at least; an area of 0 where it ends in a "
            "point. Where it bends sharply, take one more."
        )
        super().__init__(
            **kept_as(BoxSection, columns), most=MOST_SECTIONS, help_text=help_text, **kwargs
        )
