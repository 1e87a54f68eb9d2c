"""The cars a part is in: what is there counts, and what nobody wrote down stays on the list."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs.design.job.after.recall import cars_with, is_within
from jobs.models import Job, Stage, TrimPanel
from jobs.pages.portable import recall
from jobs.sheets import engine
from tests.jobs.factories import (
    make_driver,
    make_item,
    make_item_as_built,
    make_part,
    make_run_as_built,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def called(van, cast):
    """A driver that was fitted instead of another, in a car that has left."""
    other = make_driver("Called back")
    make_item_as_built(van.six, cast.installer, part=other, serial="AX-0120")
    Job.objects.filter(pk=van.job.pk).update(stage=Stage.HANDED_OVER)
    return other


def jobs_with(part, *numbers: str) -> list[int]:
    """The numbers of the jobs."""
    return [car.job.number for car in cars_with(part, *numbers)]


def test_a_part_is_where_it_was_fitted_and_not_where_it_was_planned(van, called):
    """Exchanged equipment counts as what it was exchanged for."""
    planned = van.six.part
    assert jobs_with(called) == [van.job.number]
    assert all(not use.numbered for car in cars_with(planned) for use in car.uses)


def test_numbers_narrow_and_an_unknown_one_stays(van, saloon, called):
    """A range is of figures, a beginning of letters; who has no number written down is asked."""
    make_item(saloon.job, called, "doors")
    both = [saloon.job.number, van.job.number]
    assert jobs_with(called) == both
    assert jobs_with(called, "AX-99", "AX-300") == both
    assert jobs_with(called, "ax-01") == both
    assert jobs_with(called, "AX-2", "AX-99") == [saloon.job.number]
    assert [car.number_unknown for car in cars_with(called)] == [True, False]
    assert [car.has_left for car in cars_with(called)] == [False, True]
    assert is_within("b7", "b7", "b7")


def test_a_cable_is_the_one_that_was_laid(van, shelf, cast):
    """A run as it lies in the car counts, with what it is to that run."""
    planned = van.link.conductor
    (uses,) = [car.uses for car in cars_with(planned) if car.job == van.job]
    assert f"{van.link.label}: cable" in [use.what for use in uses]
    make_run_as_built(van.link, cast.installer, conductor=shelf["16 mm²"])
    uses = [use.what for car in cars_with(planned) if car.job == van.job for use in car.uses]
    assert f"{van.link.label}: cable" not in uses
    laid = [use.what for car in cars_with(shelf["16 mm²"]) for use in car.uses]
    assert f"{van.link.label}: cable" in laid


def test_the_page_lists_writes_a_table_and_letters(van, called, browse, monkeypatch):
    """What is written to the customer is what the workshop typed; with nothing typed, no letter."""
    manager, url = browse("manager"), reverse("part-cars", args=[called.pk])
    page = manager.get(url).content.decode()
    assert van.code in page
    assert "AX-0120" in page
    table = manager.get(url, {"as": "csv", "first": "AX-1", "last": "AX-200"}).content.decode()
    assert table.count("\n") == 2
    assert van.code in table
    monkeypatch.setattr(engine, "render", lambda html, **_more: html.encode())
    empty = manager.post(url, {"text": "short"})
    assert empty.status_code == 422
    assert "short" in empty.content.decode()
    text = "The maker asks for this part back; we fit another one."
    letter = manager.post(url, {"text": text})
    assert letter["Content-Type"] == "application/pdf"
    assert text in letter.content.decode()
    assert van.job.vehicle.customer.name in letter.content.decode()
    nobody = manager.post(f"{url}?first=ZZ", {"text": text})
    assert nobody.status_code == 422


def test_a_part_on_a_board_is_in_the_car_until_the_job_is_removed(hatchback):
    """What is screwed to a board counts by that board."""
    part = make_part("Distribution block")
    board = TrimPanel(
        job=hatchback.job, name="Amplifier board", kind="board", width=0.6, height=0.4
    )
    board.mounts = [[part.pk, 0.3, 0.2, False]]
    board.save()
    (car,) = cars_with(part)
    assert car.job == hatchback.job
    assert [use.what for use in car.uses] == [str(board)]
    board.remove()
    assert list(cars_with(part)) == []
    TrimPanel.with_removed.filter(pk=board.pk).update(removed_at=None)
    assert len(list(cars_with(part))) == 1
    hatchback.job.remove()
    assert list(cars_with(part)) == []


def test_letters_are_printed_up_to_a_number(monkeypatch):
    """One more than are printed while somebody waits is refused with how many are."""
    monkeypatch.setattr(recall.sheets, "unavailable", lambda: "")
    most = recall.MOST_LETTERS
    assert recall._trouble([None] * most) == ""
    assert recall._trouble([None] * (most + 1)) == (
        f"These are more than {most} letters: narrow the numbers."
    )
    assert "nobody to write to" in recall._trouble([])
