"""The workshop's own choices: its name, units and paper, what it cuts with, its labels."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Any, ClassVar, cast

from django import forms
from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods

from jobs import access, money
from jobs.design.job import board_counts
from jobs.locks import held
from jobs.models import Workshop
from jobs.models.agreement.rates import Rates
from jobs.pages.forms.fields import QuantityField, amount_fields, judged_here

ADDRESS = re.compile(r"https?://[^\s/?#]+(/[^\s?#]*)?", re.I)
# What no finding follows from: changed, nothing is counted anew.
OF_NO_FINDING = (
    *("name", "address", "phone", "units", "paper", "language", "currency", "web_address"),
    *(
        field.name
        for field in Workshop._meta.fields
        if field.name.startswith(("label_", "router_"))
    ),
    # What is missing of a price is told on its own page, to those who may see it.
    *(field.name for field in Rates._meta.fields),
)
SMALLEST_LABEL = 0.010  # m; below it not even the number of a run can be read
MOST_LABELS = 40  # across or down


class SettingsForm(forms.ModelForm[Workshop]):
    """Choices of the workshop, on one page; the second of two managers is told."""

    quantities: ClassVar[dict[str, str]] = {}
    fieldsets: ClassVar[list[tuple[Any, list[str]]]] = []
    # The newest entry of the history when the form was opened.
    entry = forms.IntegerField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.newest = self.instance.history.first()
        self.fields["entry"].initial = self.newest and self.newest.pk
        self.fields |= amount_fields(self.fields)
        judged_here(self.fields.values())
        for name, kind in self.quantities.items():
            old = self.fields[name]
            least = SMALLEST_LABEL if name in {"label_width", "label_height"} else 0.0
            most = math.pi / 2 if name == "saw_tilt" else None
            self.fields[name] = QuantityField(
                kind,
                label=old.label,
                min_value=least,
                max_value=most,
                required=old.required,
                help_text=old.help_text,
            )

    @property
    def groups(self) -> list[tuple[Any, list[forms.BoundField], str]]:
        """(heading, fields under it, "") in the order a person fills them in."""
        return [(title, [self[name] for name in names], "") for title, names in self.fieldsets]

    def clean(self) -> dict[str, Any]:
        """Overwrite nobody unawares."""
        cleaned = super().clean() or {}
        if self.newest is not None and cleaned.get("entry") != self.newest.pk:
            self._tell_of_the_other(cleaned.get("entry"))
        return cleaned

    def _tell_of_the_other(self, opened_at: int | None) -> None:
        """Say what somebody else saved since the form was opened; the next save knows of it."""
        typed = cast(QueryDict, self.data).copy()
        typed["entry"] = str(self.newest.pk)
        self.data = typed
        opened = self.instance.history.filter(pk=opened_at).first()
        theirs = [
            str(field.label)
            for name, field in self.fields.items()
            if opened is not None
            and name != "entry"
            and getattr(opened, name) != getattr(self.newest, name)
        ]
        self.add_error(
            None,
            _(
                "Somebody else saved this while you were typing. Your figures are still here. "
                "Saved meanwhile: %(fields)s."
            )
            % {"fields": ", ".join(theirs) or "–"},
        )


class WorkshopForm(SettingsForm):
    """Everything the manager sets once for all jobs."""

    quantities: ClassVar = {
        "cable_slack": "percent",
        "cable_per_end": "length",
        "heat_shrink": "length",
        "label_width": "length",
        "label_height": "length",
        "label_left": "length",
        "label_top": "length",
        "label_gap": "length",
        "label_row_gap": "length",
        "label_wrap": "length",
        "kerf": "length",
        "sheet_trim": "length",
        "saw_tilt": "angle",
        "smallest_offcut": "length",
        "router_tool": "length",
        "router_tab": "length",
    }
    fieldsets: ClassVar = [
        (
            gettext_lazy("The workshop"),
            ["name", "address", "phone", "warranty", "first_check_weeks", "warranty_months"],
        ),
        (gettext_lazy("How it writes"), ["units", "paper", "language", "currency"]),
        (gettext_lazy("What cable is cut with"), ["cable_slack", "cable_per_end", "heat_shrink"]),
        (
            gettext_lazy("Saw and router"),
            ["cutting", "kerf", "sheet_trim", "saw_tilt", "smallest_offcut"],
        ),
        (
            gettext_lazy("Files for a router"),
            ["router_tool", "router_relief", "router_tab", "router_tabs"],
        ),
        (
            gettext_lazy("Its cable labels"),
            [
                *("web_address", "label_width", "label_height", "label_columns", "label_rows"),
                *("label_left", "label_top", "label_gap", "label_row_gap", "label_wrap"),
            ],
        ),
    ]

    class Meta:
        model = Workshop
        fields = (
            *("name", "address", "phone", "warranty", "first_check_weeks", "warranty_months"),
            *("units", "paper", "language", "currency", "web_address"),
            *("cable_slack", "cable_per_end", "heat_shrink", "label_width", "label_height"),
            *("label_columns", "label_rows", "label_left", "label_top", "label_gap"),
            *("label_row_gap", "label_wrap"),
            *("cutting", "kerf", "sheet_trim", "saw_tilt", "smallest_offcut"),
            *("router_tool", "router_relief", "router_tab", "router_tabs"),
        )
        help_texts: ClassVar = {
            "router_relief": gettext_lazy(
                "a hole as wide as the tool that just reaches the corner, on the layer RELIEF or "
                "that of its pocket"
            ),
            "router_tab": gettext_lazy("left standing, on the layer TABS; none when left empty"),
            "web_address": gettext_lazy(
                "as a phone in the bay types it, such as http://undertrim.lan:8000; the codes on "
                "cable labels lead there"
            ),
        }

    def clean_currency(self) -> str:
        """Take a currency of ISO 4217."""
        code: str = self.cleaned_data["currency"].strip().upper()
        if not money.is_currency(code):
            raise ValidationError(_("Three letters of a currency, such as EUR."))
        return code

    def clean_web_address(self) -> str:
        """Take an address that a phone can open."""
        address: str = self.cleaned_data["web_address"].strip().rstrip("/")
        if address and not ADDRESS.fullmatch(address):
            raise ValidationError(_("Write it as http://name or https://name."))
        return address

    def clean_label_columns(self) -> int:
        """At least one label across."""
        return self._count("label_columns")

    def clean_label_rows(self) -> int:
        """At least one label down."""
        return self._count("label_rows")

    def _count(self, name: str) -> int:
        number: int = self.cleaned_data[name]
        if not 1 <= number <= MOST_LABELS:
            raise ValidationError(_("1 to %(most)s.") % {"most": MOST_LABELS})
        return number

    def clean(self) -> dict[str, Any]:
        """Leave room for words beside the cable."""
        cleaned = super().clean()
        width, wrap = cleaned.get("label_width"), cleaned.get("label_wrap")
        if width is not None and wrap is not None and width - wrap < SMALLEST_LABEL:
            self.add_error("label_wrap", _("This leaves no room on the label for its words."))
        return cleaned


@require_http_methods(["GET", "POST"])
def settings(
    request: HttpRequest,
    *,
    form_class: type[SettingsForm] = WorkshopForm,
    name: str = "workshop",
    template: str = "pages/workshop/workshop.html",
    beside: Callable[[], dict[str, Any]] = dict,
) -> HttpResponse:
    """Change the workshop's choices, as its manager."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    with held(Workshop.current()):
        form = form_class(request.POST or None, instance=Workshop.read())
        if request.method == "POST" and form.is_valid():
            saved = form.save()
            if set(form.changed_data) - set(OF_NO_FINDING):
                board_counts.refresh_all(saved)
            messages.success(request, _("Saved."))
            return redirect(name)
    status = 422 if request.method == "POST" else 200
    context = {"form": form} | beside()
    return render(request, template, context, status=status)


urlpatterns = [path("workshop/", settings, name="workshop")]
