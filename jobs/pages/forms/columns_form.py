"""The form of a record whose columns are pasted, or read from a file."""

from __future__ import annotations

from typing import Any, ClassVar

from django.utils.translation import gettext_lazy

from jobs.pages.forms.columns_field import ColumnsFileField, put_back
from jobs.pages.forms.days import DaysForm
from jobs.pages.forms.forms import R


class ColumnsForm(DaysForm[R]):
    """`content` is typed or pasted; a file takes its place."""

    over: ClassVar = {"measured_on"}

    file = ColumnsFileField(
        label=gettext_lazy("or a text file of it"),
        required=False,
        help_text=gettext_lazy("A file takes the place of what is pasted."),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["content"].required = False  # a file will do

    def refuse(self, name: str, trouble: str, sent: str | None) -> None:
        """Say why columns are not kept; those of a file stand in the text field from now on."""
        self.add_error(name, trouble)
        if sent:
            put_back(self, name, sent)
