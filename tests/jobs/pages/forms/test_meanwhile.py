"""Two people on one record: of each only what was typed is written."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.models import EquipmentItem, Run
from tests.jobs.pages.forms_at import form_at
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def _url(hatchback, slug, row):
    return reverse(f"{slug}-edit", args=[hatchback.code, row.pk])


def test_what_nobody_typed_here_stays_as_the_other_saved_it(hatchback, browse):
    """Two fields of one record, each changed by somebody else: both are there afterwards."""
    item = hatchback.six
    url = _url(hatchback, "item", item)
    first, second = typed(form_at(url, item)), typed(form_at(url, item))
    assert browse("consultant").post(url, first | {"place": "under the tray"}).status_code == 302
    answer = browse("designer").post(url, second | {"serial": "AB 12"}, follow=True)
    assert answer.status_code == 200
    assert "Place" in answer.content.decode().split("Somebody else changed this meanwhile")[1][:80]
    kept = EquipmentItem.objects.get(pk=item.pk)
    assert (kept.place, kept.serial) == ("under the tray", "AB 12")


def test_only_the_field_both_changed_is_asked_about(hatchback, browse):
    """Of two fields the other changed, the one this person changed too stands beside theirs."""
    item = hatchback.six
    url = _url(hatchback, "item", item)
    sent = typed(form_at(url, item))
    theirs = sent | {"place": "under the tray", "serial": "theirs"}
    assert browse("consultant").post(url, theirs).status_code == 302
    answer = browse("designer").post(url, sent | {"serial": "mine"})
    assert answer.status_code == 422
    differences = answer.context["form"].differences()
    assert [(str(theirs), str(mine)) for _, theirs, mine in differences] == [("theirs", "mine")]
    again = typed(answer.context["form"])
    assert browse("designer").post(url, again).status_code == 302
    kept = EquipmentItem.objects.get(pk=item.pk)
    assert (kept.place, kept.serial) == ("under the tray", "mine")


def test_the_route_somebody_else_changed_is_asked_about(hatchback, browse):
    """What hangs on a record is not known as it was opened: a difference there is shown."""
    run = Run.objects.filter(job=hatchback.job, stretches__isnull=False).first()
    url = _url(hatchback, "run", run)
    sent = typed(form_at(url, run))
    places = [*sent["route-place"]]
    theirs = sent | {"route-place": ["behind the glove box", *places[1:]]}
    assert browse("consultant").post(url, theirs).status_code == 302
    answer = browse("designer").post(url, sent | {"zone": "boot"})
    assert answer.status_code == 422
    assert run.stretches.first().place == "behind the glove box"


def test_a_version_nobody_knows_is_asked_about(hatchback, browse):
    """Without a history of the version that was opened no difference is taken for the other's."""
    item = hatchback.six
    url = _url(hatchback, "item", item)
    sent = typed(form_at(url, item)) | {"version": "9999999999999", "place": "elsewhere"}
    answer = browse("designer").post(url, sent)
    assert answer.status_code == 422
    assert EquipmentItem.objects.get(pk=item.pk).place == item.place
