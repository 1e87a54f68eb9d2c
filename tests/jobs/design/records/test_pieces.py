"""Several of one part, piece by piece."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.job.whereabouts import work_out_whereabouts
from jobs.design.records.pieces import pieces_of, take_apart, with_numbers
from jobs.design.records.records import load
from jobs.models import PanelContent
from tests.jobs.factories import make_item, make_job, make_panel, make_part
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


@pytest.fixture
def pair(cast):
    """Two equal speakers on the list."""
    return make_item(make_job(), make_part("Speaker"), "front doors", quantity=2)


def _missing(job):
    return [thing.missing for thing in work_out_whereabouts(load(job))]


def test_two_speakers_become_two_pieces_once(pair):
    """Each gets a row without a place; asked for again nothing is added, and nothing is placed."""
    assert len(pieces_of(pair)) == 2
    assert pieces_of(pair) == []
    rows = PanelContent.objects.filter(equipment=pair)
    assert [(row.pieces, row.serial, row.where) for row in rows] == [(1, "", ""), (1, "", "")]
    assert _missing(pair.job) == [2]


def test_one_piece_is_not_taken_apart(pair):
    """Its serial number and its place stand on the list already."""
    pair.quantity = 1
    assert pieces_of(pair) == []


def test_what_was_placed_together_stays_where_it_is(pair):
    """Two behind one panel become one and one behind it, fixed as they were."""
    door = make_panel(pair.job, "Door card, left")
    both = PanelContent.objects.create(
        job=pair.job, equipment=pair, panel=door, pieces=2, fixing="screws"
    )
    (other,) = take_apart(both)
    assert (both.pieces, other.pieces, other.panel, other.fixing) == (1, 1, door, "screws")
    assert take_apart(both) == []
    assert _missing(pair.job) == [0]


def test_sheets_say_the_number_of_each_piece(pair):
    """The list of what goes in names every serial number that was read."""
    first, second = pieces_of(pair)
    PanelContent.objects.filter(pk=first.pk).update(serial="A-1")
    PanelContent.objects.filter(pk=second.pk).update(serial="A-2")
    assert with_numbers(load(pair.job)) == [(pair, "A-1, A-2")]


def test_one_tap_takes_a_row_apart(pair, browse):
    """Whoever plans does it on the list; each piece then takes its number, then its place."""
    job, client = pair.job, browse("designer")
    url = reverse("item-rows", args=[job.code])
    assert browse("installer").post(url, {"act": "apart", "rows": pair.pk}).status_code == 403
    for expected in (2, 2):
        client.post(url, {"act": "apart", "rows": pair.pk})
        assert PanelContent.objects.filter(equipment=pair).count() == expected
    piece = PanelContent.objects.filter(equipment=pair)[0]
    page, installer = reverse("content-edit", args=[job.code, piece.pk]), browse("installer")
    sent = typed(installer.get(page).context["form"])
    assert installer.post(page, sent).status_code == 422
    assert installer.post(page, sent | {"serial": "A-1"}).status_code == 302
    listed = client.get(reverse("equipment", args=[job.code])).content.decode()
    assert "A-1, not placed yet; not placed yet" in listed


def test_a_row_without_pieces_is_not_taken_apart(pair, browse):
    """Only what stands for several pieces can be: of a panel there is no such act."""
    url = reverse("panel-rows", args=[pair.job.code])
    assert browse("designer").post(url, {"act": "apart", "rows": "1"}).status_code == 404
