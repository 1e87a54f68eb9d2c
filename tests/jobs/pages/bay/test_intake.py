"""The intake: marks by tap or from the list, what nobody noted, the signature, what comes after."""

from __future__ import annotations

import json

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from jobs.design.job.stages import open_before
from jobs.design.job.whole import load, work_out
from jobs.drawings.car import bodies
from jobs.models import Intake, IntakeMark, Stage
from jobs.pages.bay import intake
from tests.jobs.factories import make_job
from tests.jobs.test_photos import _jpeg

pytestmark = pytest.mark.django_db
DRAWN = json.dumps([[100, 100, 400, 150, 700, 120]])


@pytest.fixture
def job():
    """A job whose car is an estate, in nobody's bay yet."""
    new = make_job(stage=Stage.PARTS)
    new.vehicle.body = "Kombi, five doors"
    new.vehicle.save()
    return new


def _post(client, job, page="intake", *args, **typed):
    return client.post(reverse(page, args=[job.code, *args]), typed)


def _upload():
    return SimpleUploadedFile("a.jpg", _jpeg(), "image/jpeg")


def _signed(client, job, **changed):
    html = client.get(reverse("intake", args=[job.code]))
    typed = {
        "name": "Hanna Lind", "agree": "1", "signature": DRAWN,
        "version": html.context["intake"].version, "newest": html.context["newest"],
    }  # fmt: skip
    return _post(client, job, "intake-sign", **(typed | changed))


def test_every_body_has_its_places_and_a_tap_finds_them():
    """Each place lies on the drawing, is nearest to itself, and inside ones lie on none."""
    for body in Intake.Body:
        for place, (x, y) in bodies.shares(body).items():
            assert 0 < x < 1, (body, place)
            assert 0 < y < 1, (body, place)
            assert bodies.nearest(body, x, y) == place
        assert {*bodies.spots(body), *bodies.INSIDE} <= set(IntakeMark.Place.values)
    assert "back_door_l" not in bodies.spots(Intake.Body.COUPE)
    assert bodies.body_of("pick-up, double cab") == Intake.Body.PICKUP
    assert bodies.body_of("") == Intake.Body.HATCHBACK


def test_a_mark_lies_where_it_was_tapped_or_where_its_place_is(browse, job):
    """A tap is kept to the spot; another place from the list afterwards moves it there."""
    client = browse("installer")
    x, y = bodies.shares("estate")["door_l"]
    for place, kind in (("door_l", "scratch"), ("roof", "dent"), ("seats", "stain")):
        answer = _post(client, job, "intake-mark", place=place, kind=kind, x=x + 0.01, y=y)
        assert answer.status_code == 302
    tapped, chosen, inside = IntakeMark.objects.all()
    assert (tapped.x, tapped.y) == (x + 0.01, y)
    assert (chosen.x, chosen.y) == bodies.shares("estate")["roof"]
    assert (inside.x, inside.y) == (None, None)
    assert Intake.objects.get().body == "estate"
    html = client.get(reverse("intake", args=[job.code])).content.decode()
    assert html.count('r="26"') == 2
    assert "inside: seats" in html.lower()
    _post(client, job, body="coupe", mileage_unit="km", version=Intake.objects.get().version)
    tapped.refresh_from_db()
    assert (tapped.x, tapped.y) == bodies.shares("coupe")["door_l"]


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"place": ""}, "place"),
        ({"place": "moon"}, "place"),
        ({"kind": "other", "note": ""}, "note"),
        ({"kind": "picture"}, "picture"),
        ({"note": "x" * 241}, "note"),
    ],
)
def test_a_mark_that_says_nothing_is_not_kept(browse, job, typed, field):
    """It is said beside its field, and what was typed stays."""
    sent = {"place": "roof", "kind": "scratch", "note": "long"} | typed
    answer = _post(browse("consultant"), job, "intake-mark", **sent)
    assert answer.status_code == 422
    assert f'id="id_{field}_error"' in answer.content.decode()
    assert not IntakeMark.objects.exists()


def test_a_picture_is_kept_without_its_place_and_goes_with_its_mark(browse, job):
    """Sent twice it is kept once; taken out before the signature, its files are gone."""
    client = browse("installer")
    token = "0b9d1c5e-3c57-4d15-9a7c-6f0e8f7f1c11"
    for _turn in range(2):
        typed = {"place": "roof", "kind": "picture", "entry_token": token}
        assert _post(client, job, "intake-mark", picture=_upload(), **typed).status_code == 302
    mark = IntakeMark.objects.get()
    answer = client.get(reverse("intake-picture", args=[job.code, mark.pk]))
    assert b"".join(answer).startswith(b"\xff\xd8")  # read to its end, a file is closed
    name, storage = mark.image.name, mark.image.storage
    assert storage.exists(name)
    assert _post(client, job, "intake-mark-remove", mark.pk).status_code == 302
    assert not storage.exists(name)
    assert not IntakeMark.objects.exists()


def test_what_nobody_noted_is_unknown_and_a_yes_is_named(browse, job):
    """Nothing typed is no nothing; a lamp that is lit has a name."""
    client = browse("consultant")
    answer = _post(client, job, body="estate", mileage_unit="km", lamps_lit="true")
    assert answer.status_code == 422
    assert 'id="id_lamps_error"' in answer.content.decode()
    typed = {"body": "estate", "mileage_unit": "mi", "mileage": "84210", "lamps_lit": "false"}
    assert _post(client, job, **typed).status_code == 302
    html = client.get(reverse("intake", args=[job.code])).content.decode()
    lacks = html.split("printed as that:")[1].split("</p>")[0]
    assert "keys" in lacks
    assert "mileage" not in lacks
    assert _post(client, job, body="estate", mileage_unit="km", fuel="101").status_code == 422


@pytest.mark.parametrize(
    "wrong",
    [
        {"signature": "[]"},
        {"signature": "[[5, 5]]"},
        {"signature": "nonsense"},
        {"name": " "},
        {"agree": ""},
    ],
)
def test_no_signature_without_a_stroke_a_name_and_a_tick(browse, job, wrong):
    """Nothing is frozen by it, and the name stays typed."""
    client = browse("installer")
    _post(client, job, "intake-mark", place="roof", kind="dent")
    if wrong == {"agree": ""}:
        answer = _post(client, job, "intake-sign", name="Hanna Lind", signature=DRAWN)
    else:
        answer = _signed(client, job, **wrong)
    assert answer.status_code == 422
    assert not Intake.objects.get().is_signed


def test_once_signed_it_is_frozen_and_additions_have_their_day(browse, job):
    """Facts and marks stay as signed; a new mark is an addition; the second signature is told."""
    client = browse("installer")
    _post(client, job, "intake-mark", place="roof", kind="dent")
    other = browse("consultant").get(reverse("intake", args=[job.code])).context
    _post(client, job, "intake-mark", place="roof", kind="scratch")
    stale = {"version": other["intake"].version, "newest": other["newest"]}
    assert _signed(client, job, **stale).status_code == 409  # somebody noted more meanwhile
    assert _signed(client, job).status_code == 302
    assert _signed(client, job, version=1, newest=1).status_code == 409
    mark = IntakeMark.objects.first()
    assert _post(client, job, "intake-mark-remove", mark.pk).status_code == 409
    assert _post(client, job, body="van", mileage_unit="km").status_code == 409
    assert _post(client, job, "intake-mark", place="sill_r", kind="dent").status_code == 302
    page = client.get(reverse("intake", args=[job.code]))
    assert [mark.place for mark in page.context["added"]] == ["sill_r"]
    assert len(page.context["marks"]) == 2
    assert 'name="mileage"' not in page.content.decode()


def test_nothing_comes_off_before_it_is_signed(browse, job):
    """The gate before the bay asks for it; of a car that is in the bay already it does not."""

    def gates(stage):
        job.stage = stage
        job.save()
        return {item.code for item in open_before(Stage.BAY, work_out(load(job)))}

    assert "intake" in gates(Stage.PARTS)
    assert "intake" not in gates(Stage.BAY)
    _post(browse("installer"), job, "intake-mark", place="roof", kind="dent")
    assert "intake" in gates(Stage.AGREED)
    assert _signed(browse("installer"), job).status_code == 302
    assert "intake" not in gates(Stage.AGREED)


def test_so_many_marks_are_kept_and_no_more(browse, job, monkeypatch):
    """The one beyond is answered with how many, and what was typed stays."""
    monkeypatch.setattr(intake, "MOST_MARKS", 1)
    sent = {"place": "roof", "kind": "scratch", "note": "as long as a hand"}
    client = browse("installer")
    assert _post(client, job, "intake-mark", **sent).status_code == 302
    answer = _post(client, job, "intake-mark", **sent)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert "At most 1 marks." in html
    assert "as long as a hand" in html
    assert IntakeMark.objects.count() == 1
