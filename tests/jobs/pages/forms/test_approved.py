"""What each field of each form takes, and what it answers, is what was let stand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from copy import copy
from typing import Any

import pytest
from django import forms
from django.db import transaction
from django.urls import reverse

from jobs.models import Job
from jobs.pages.forms.fields import QuantityField
from jobs.pages.workshop.part_forms import FORMS
from tests.approval import hold
from tests.jobs.pages.forms_at import as_sent, form_at
from tests.jobs.pages.kinds import KINDS, PARTS, Kind, typed
from tests.jobs.pages.limits import extreme

pytestmark = pytest.mark.django_db
# More of a long list say nothing new.
MOST = 8
NOT_TYPED = {"version", "entry_token"}
KEY = re.compile(r"\b\d+\b")


def _tried(form: forms.BaseForm, name: str) -> Iterator[str]:
    """Yield what is put into a field while the others stay: its ends, beyond them, each choice."""
    field = form.fields[name]
    if isinstance(field, forms.BooleanField):
        yield "" if form[name].value() else "on"
        return
    yield ""
    if (choices := getattr(field.widget, "choices", None)) is not None:
        yield from [str(key) for key, _word in choices][:MOST]
    elif isinstance(field, QuantityField | forms.IntegerField):
        yield from (str(value) for end in ("largest", "smallest") if (value := extreme(field, end)))
        yield from ("-1", "3.7")


def _answered(form: forms.BaseForm, name: str) -> str:
    """Return what is wrong, or what was understood of what was typed into a field."""
    if form.is_valid():
        value = form.cleaned_data.get(name)
        return f"{value:.6g}" if isinstance(value, float) else f"{value!s:.60}"
    wrong = [f"{of}: {error}" for of, errors in form.errors.items() for error in errors]
    return f"wrong: {'; '.join(wrong)}"


def _lines(whole: forms.BaseForm, least: dict[str, Any]) -> Iterator[str]:
    """Yield each field of an untouched form, each value tried and what is answered."""
    row, form_of = whole.instance, type(whole)
    sent = typed(whole) | least
    for name in whole.fields:
        if name in NOT_TYPED:
            continue
        for value in dict.fromkeys(_tried(whole, name)):
            form = form_of(as_sent(sent | {name: value}), instance=copy(row))
            with transaction.atomic():
                answer = _answered(form, name)
                transaction.set_rollback(True)
            is_key = hasattr(whole.fields[name], "queryset")
            yield f"{name} < {KEY.sub('#', value) if is_key else value:.40} > {answer}"


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.slug)
def test_each_field_of_a_row_answers_what_was_let_stand(kind: Kind, hatchback):
    """At its ends, beyond them, with each choice: what is understood or what is wrong."""
    job: Job = hatchback.job
    form = form_at(reverse(f"{kind.slug}-add", args=[job.code]), kind.model(job=job))
    hold(f"forms/{kind.slug}", _lines(form, kind.least(job)))


@pytest.mark.parametrize("part", PARTS)
def test_each_field_of_a_part_answers_what_was_let_stand(part: str, shelf):
    """The same of each kind of part."""
    least, _field = PARTS[part]
    hold(f"forms/part-{part}", _lines(FORMS[part](), least))
