"""Parts of all jobs by supplier: many at a tap, a replacement that is checked, an order."""

from __future__ import annotations

import csv
import io
import re
from datetime import date
from types import SimpleNamespace

import pytest
from django.contrib.messages.storage.fallback import FallbackStorage
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.design.wood.trim import rolls_of
from jobs.models import Cover, EquipmentItem, Job, Part, Stage, TrimPanel
from jobs.pages.agreement.parts import _say_what_changed
from tests.jobs.factories import make_item, make_job, make_part, make_sheet_material

pytestmark = pytest.mark.django_db


@pytest.fixture
def two_jobs():
    """Two jobs that want the same part of one supplier, and one thing of nobody."""
    horn = make_part("Horn", supplier="North", order_number="N-1")
    items = [make_item(make_job(), horn, "boot", quantity=n, state="to_order") for n in (1, 2)]
    return [*items, make_item(items[0].job, make_part("Lamp"), "boot", state="to_order")]


def _send(client, items, act, **more):
    sent = {"item": [item.pk for item in items], "act": act} | more
    answer = client.post(reverse("parts-act"), sent, follow=True)
    for item in items:
        item.refresh_from_db()
    return answer


def test_many_rows_are_written_down_at_one_tap(two_jobs, browse):
    """Ordered with the day it is expected, then in, on a shelf and with its serial number."""
    first, second, lamp = two_jobs
    client = browse("installer")
    html = client.get(reverse("parts")).content.decode()
    for part in ("North", "Horn", "no supplier entered", first.job.code, second.job.code):
        assert part in html, part
    _send(client, [first, second], "ordered", expected_on="2026-12-03")
    assert {(item.state, item.expected_on) for item in (first, second)} == {
        ("ordered", date(2026, 12, 3))}  # fmt: skip
    assert lamp.state == "to_order"
    _send(client, [first], "in", shelf="B4", **{f"serial-{first.pk}": "S-77"})
    assert (first.state, first.shelf, first.serial) == ("in", "B4", "S-77")
    _send(client, [second], "missing")
    html = client.get(reverse("parts")).content.decode()
    assert f'value="{first.pk}"' not in html
    assert "missing" in html


def test_what_cannot_be_is_said_and_writes_nothing(two_jobs, browse):
    """No tick, a day that is none, an act nobody knows, a shelf without an end."""
    client = browse("consultant")
    assert "Tick the parts" in _send(client, [], "in").content.decode()
    for more in ({"expected_on": "soon"}, {"shelf": "x" * 41}):
        answer = _send(client, two_jobs, "ordered", **more)
        assert answer.status_code == 422
        assert f'value="{two_jobs[0].pk}" id="item-{two_jobs[0].pk}"' in answer.content.decode()
        assert "checked" in answer.content.decode()
    assert _send(client, two_jobs, "sold").status_code == 422
    assert {item.state for item in two_jobs} == {"to_order"}
    assert browse("stranger").get(reverse("parts")).status_code == 404
    assert client.get(reverse("parts-act")).status_code == 405


def test_a_replacement_is_checked_and_said(hatchback, browse):
    """The job is worked out again; what comes up is said, and only the same kind fits."""
    sub = hatchback.sub
    Job.objects.filter(pk=hatchback.job.pk).update(stage=Stage.PARTS)
    EquipmentItem.objects.filter(pk=sub.pk).update(state="ordered")
    bare = type(sub.part.driver).objects.create(kind="driver", name="Unknown 30")
    answer = _send(browse("designer"), [sub], "replaced", by=bare.pk)
    assert (sub.part_id, sub.state) == (bare.pk, "to_order")
    assert f"{hatchback.code}, checked again. New:" in answer.content.decode()
    other = make_part("Felt", Part.Kind.DAMPING)
    refused = _send(browse("designer"), [sub], "replaced", by=other.pk)
    assert "can take the place" in refused.content.decode()
    assert sub.part_id == bare.pk
    assert (
        browse("installer")
        .post(reverse("parts-act"), {"item": [sub.pk], "act": "replaced", "by": other.pk})
        .status_code
        == 403
    )


def test_an_order_names_each_part_once(two_jobs, browse):
    """Summed over the jobs, as a table no cell of which is a formula, and as a paper."""
    Part.objects.filter(name="Horn").update(order_number="=1+1")
    client, url = browse("consultant"), reverse("parts-order")
    text = client.get(url, {"supplier": "North", "csv": "1"}).content.decode("utf-8-sig")
    (row,) = csv.DictReader(io.StringIO(text))
    assert (row["part"], row["quantity"], row["supplier's number"]) == ("Horn", "3", "'=1+1")
    if not sheets.unavailable():
        assert client.get(url, {"supplier": "North"}).content.startswith(b"%PDF")
    _send(client, two_jobs, "ordered")
    text = client.get(url, {"supplier": "North", "csv": "1"}).content.decode("utf-8-sig")
    assert list(csv.DictReader(io.StringIO(text))) == []


def test_twenty_rows_ask_no_more_than_three(two_jobs, browse):
    """The list is read at once, whatever its length."""
    client, url = browse("installer"), reverse("parts")

    def queries():
        with CaptureQueriesContext(connection) as seen:
            client.get(url)
        return len(seen)

    few = queries()
    for _row in range(20):
        make_item(make_job(), two_jobs[0].part, "boot", state="to_order")
    assert queries() == few


def test_cover_is_ordered_by_the_metre_of_its_roll(hatchback, browse):
    """By hand: 0.8 x 0.6 m of 18 mm board, 40 mm turned: 0.916 x 0.716 m off a roll of 1.4 m.

    The side along the roll, 0.716 m, is 0.8 m to order; of a roll nobody measured it is not known.
    """
    Job.objects.filter(pk=hatchback.job.pk).update(stage=Stage.PARTS)
    carpet = Cover.objects.create(kind="cover", name="Carpet", supplier="South", roll_width=1.4)
    board = make_sheet_material("Board 18", size=(2.4, 1.2), thickness=0.018)
    floor = TrimPanel.objects.create(
        job=hatchback.job, name="Floor", width=0.8, height=0.6, material=board, cover=carpet
    )
    client, order = browse("consultant"), {"supplier": "South", "csv": "1"}

    def row():
        text = client.get(reverse("parts-order"), order).content.decode("utf-8-sig")
        return next(csv.DictReader(io.StringIO(text)), None)

    assert (row()["part"], row()["quantity"], row()["unit"]) == ("Carpet", "0.8", "m")
    html = client.get(reverse("parts")).content.decode()
    assert "0.8 m" in html
    (key,) = re.findall(r'name="cover" value="([^"]+)"', html)
    _send(client, [], "ordered", cover=key)
    floor.refresh_from_db()
    assert floor.cover_state == "ordered"
    assert row() is None
    _send(client, [], "missing", cover=key)  # as it was read: ordered meanwhile
    floor.refresh_from_db()
    assert floor.cover_state == "ordered"
    TrimPanel.objects.update(cover_state="to_order")
    Cover.objects.update(roll_width=None)
    assert row()["quantity"] == "not known"


def test_cover_that_is_not_listed_is_said(hatchback, browse, monkeypatch):
    """Of more jobs than the list works out, the rest are counted, not left out in silence."""
    carpet = Cover.objects.create(kind="cover", name="Carpet", supplier="South", roll_width=1.4)
    TrimPanel.objects.create(job=hatchback.job, name="Floor", width=0.8, height=0.6, cover=carpet)
    page = browse("designer").get(reverse("parts")).content.decode()
    assert "not listed" not in page
    monkeypatch.setattr("jobs.pages.agreement.parts.MOST_JOBS", 0)
    page = browse("designer").get(reverse("parts")).content.decode()
    assert "The cover of 1 job more is not listed." in page


def test_cover_of_many_jobs_is_asked_for_at_once(hatchback, browse):
    """As many queries for four jobs as for two; the metres are those of the job by itself."""
    carpet = Cover.objects.create(kind="cover", name="Carpet", roll_width=1.4)
    TrimPanel.objects.filter(pk=hatchback.cover.pk).update(cover=carpet)
    board, client = hatchback.cover.material, browse("designer")

    def another() -> None:
        panel = TrimPanel(job=make_job(), name="Lid", material=board, cover=carpet)
        panel.outline = [[0, 0], [0.5, 0, 0, 0.05], [0.5, 0.4], [0, 0.4]]
        panel.save()

    def queries() -> int:
        with CaptureQueriesContext(connection) as asked:
            page = client.get(reverse("parts"))
        suppliers = page.context["suppliers"]
        covers.extend(order for supplier in suppliers for order in supplier.covers)
        return len(asked)

    covers: list = []
    another()
    few = queries()
    another()
    another()
    assert queries() == few
    ours = {order.metres for order in covers if order.job == hatchback.job}
    (whole,) = rolls_of(work_out(load(hatchback.job)).trims)
    assert [float(metres) for metres in ours] == [pytest.approx(whole.roll.order)]


def test_what_a_replacement_settles_is_counted(rf):
    """Nothing new: how many findings are gone; else each new one in its words."""
    job = SimpleNamespace(code="J-0417")
    for before, after, says in (
        ({"a": "A.", "b": "B."}, {"a": "A."}, "J-0417, checked again: nothing new, 1 settled."),
        ({"a": "A."}, {"a": "A.", "c": "C."}, "J-0417, checked again. New: C."),
    ):
        request = rf.post("/")
        request.session = {}
        request._messages = FallbackStorage(request)
        _say_what_changed(request, job, before, after)
        assert [str(told) for told in request._messages] == [says]
