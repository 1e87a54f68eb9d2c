"""Offcuts the workshop keeps: put away, used before a new sheet, taken off when cut up."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.job.whole import load, work_out
from jobs.design.wood.cutting import work_out_cutting
from jobs.models import Offcut

pytestmark = pytest.mark.django_db


def test_whoever_puts_one_away_enters_it(browse, hatchback, shelf):
    """Typed with units; what cannot be read keeps what was typed and makes nothing."""
    client, url = browse("installer"), reverse("offcuts")
    typed = {"material": shelf["birch"].pk, "length": "600 mm", "width": "2'", "place": "rack 2"}
    assert client.post(url, typed).status_code == 302
    kept = Offcut.objects.get(place="rack 2")
    assert (kept.length, kept.width) == (0.6, pytest.approx(0.6096))
    wrong = client.post(url, typed | {"length": "12 bananas", "place": "rack 3"})
    assert wrong.status_code == 422
    assert "12 bananas" in wrong.content.decode()
    assert not Offcut.objects.filter(place="rack 3").exists()


def test_one_that_is_cut_up_goes_and_comes_back(browse, hatchback):
    """Off the stock with one tap, back with another."""
    client, offcut = browse("installer"), Offcut.objects.get()
    client.post(reverse("offcut-remove", args=[offcut.pk]))
    assert not Offcut.objects.exists()
    client.post(reverse("offcut-restore", args=[offcut.pk]))
    assert Offcut.objects.get() == offcut


def test_the_cut_sheet_takes_offcuts_first(hatchback, shelf):
    """The box's parts that fit on one are cut from it, each part once, not from a sheet."""

    def plans():
        design = work_out(load(hatchback.job))
        cutting = work_out_cutting(design.records, design.boxes, design.trims)
        return [plan for plan in cutting.plans if plan.material.pk == shelf["birch"].pk]

    (before,) = plans()
    assert before.from_stock == []
    Offcut.objects.create(material=shelf["birch"], length=0.5, width=0.4, place="rack 2")
    Offcut.objects.create(material=shelf["fibreboard"], length=2.0, width=2.0)
    (after,) = plans()
    assert len(after.from_stock) == 1
    assert "rack 2" in after.from_stock[0]
    laid = [part.blank.number for sheet in after.nest.sheets for part in sheet.parts]
    assert sorted(laid) == sorted(
        part.blank.number for sheet in before.nest.sheets for part in sheet.parts
    )
    for _offcut in range(8):
        Offcut.objects.create(material=shelf["birch"], length=0.6, width=0.5)
    (all_stock,) = plans()
    assert all_stock.bought == 0
