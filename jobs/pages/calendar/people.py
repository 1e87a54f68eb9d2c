"""Who can be planned, and who can be away."""

from __future__ import annotations

from typing import Any

from django import forms

from jobs.models import User
from jobs.pages.forms.forms import RecordForm


def offer_people(form: RecordForm[Any], *, also: int | None = None) -> None:
    """Offer whoever works here in the choice of a person, and whom a record names already."""
    field = form.fields["person"]
    assert isinstance(field, forms.ModelChoiceField)
    working = [user.pk for user in User.objects.filter(is_active=True) if user.roles]
    field.queryset = User.objects.filter(pk__in=[*working, also or 0]).order_by("first_name", "pk")
    vars(field)["label_from_instance"] = lambda user: user.full_name
