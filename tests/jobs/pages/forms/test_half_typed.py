"""What is worked out while somebody types stands any text in any field."""

from __future__ import annotations

import pytest
from django.urls import NoReverseMatch, reverse

from tests.jobs.pages.kinds import KINDS, typed

pytestmark = pytest.mark.django_db


def _previewed() -> list[str]:
    slugs = []
    for kind in KINDS:
        try:
            reverse(f"{kind.slug}-preview", args=["any"])
        except NoReverseMatch:
            continue
        slugs.append(kind.slug)
    return slugs


WORKED_OUT = _previewed()


@pytest.mark.parametrize("slug", WORKED_OUT)
def test_a_row_half_typed_is_answered(hatchback, browse, slug):
    """Empty or nonsense in all fields, of a new row and an old one; in each needed one alone."""
    kind = next(kind for kind in KINDS if kind.slug == slug)
    client, row = browse("manager"), kind.model.objects.filter(job=hatchback.job).first()
    url = reverse(f"{slug}-preview", args=[hatchback.code])
    form = client.get(reverse(f"{slug}-add", args=[hatchback.code])).context["form"]
    needed = kind.least(hatchback.job)
    least = typed(form) | needed
    all_of_them = least | dict.fromkeys(set(least) - {"version", "entry_token"}, "0.20 Ω")
    for texts in ({}, all_of_them, *(least | {name: "zzz"} for name in needed)):
        assert client.post(url, texts).status_code in (200, 422), texts
    for texts in ({}, all_of_them):
        assert client.post(f"{url}?row={row.pk}", texts).status_code in (200, 422), texts


def test_some_rows_are_worked_out_while_they_are_typed():
    """The list above is not empty."""
    assert len(WORKED_OUT) > 5
