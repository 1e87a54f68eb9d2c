"""What a customer is offered behind its link: who may read it, and when a yes is a yes."""

from __future__ import annotations

import datetime as dt
import json

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from jobs.acceptance import RefusedError, accept, signature
from jobs.design.job.stages import open_before
from jobs.design.job.whole import load, work_out
from jobs.models import Job, Offer, Panel, Payment, Photo, Stage
from tests.jobs.factories import make_job
from tests.jobs.offers import make_offer
from tests.jobs.pages.public.test_panel import take_photo

pytestmark = pytest.mark.django_db
DRAWN = json.dumps([[100, 200, 300, 100, 500, 300], [600, 200, 800, 210]])
YES = {"name": "Leo Fern", "agree": "on", "signature": DRAWN}


@pytest.fixture
def offer(cast) -> Offer:
    """An open offer of a job in its first stage."""
    return make_offer(make_job(), cast.manager)


def _page(offer: Offer) -> str:
    return reverse("offer-page", args=[offer.token])


def test_whoever_holds_the_link_reads_the_offer(offer):
    """Without signing in: what is fitted, where, the sum, the day it holds until; nobody's name."""
    answer = Client().get(_page(offer))
    html = answer.content.decode()
    assert answer.status_code == 200
    for part in ("A speaker", "2\N{NO-BREAK SPACE}×", "doors", "€100.00", "€30.00", "1 Jan 2099"):
        assert part in html, part
    assert str(offer.job.vehicle.customer) not in html
    assert answer.headers["X-Robots-Tag"].startswith("noindex")
    assert not answer.cookies
    assert Client().get(reverse("offer-page", args=["x" * 22])).status_code == 404
    assert Client().put(_page(offer)).status_code == 405


def test_it_speaks_the_language_it_was_frozen_in_or_asked_for(offer):
    """The paper's language first, whatever the telephone prefers; a link to each other one."""
    german = Client(headers={"accept-language": "de"})
    assert 'lang="en"' in german.get(_page(offer)).content.decode()
    assert 'lang="de"' in german.get(f"{_page(offer)}?l=de").content.decode()
    offer.sheet.language = "de"
    offer.sheet.save()
    assert '<html lang="de">' in Client().get(_page(offer)).content.decode()


def test_the_paper_has_the_bytes_it_was_frozen_with(offer):
    """Whatever becomes of the job and the catalogue."""
    url = reverse("offer-paper", args=[offer.token])
    before = Client().get(url).content
    Job.objects.filter(pk=offer.job_id).update(title="Something else")
    after = Client().get(url)
    assert after.content == before == bytes(offer.sheet.pdf)
    assert after.headers["Content-Type"] == "application/pdf"


def test_a_yes_is_a_name_a_drawing_and_a_tick(offer):
    """Then it says who, when, which document, and the hash of the paper; the job is agreed."""
    answer = Client().post(_page(offer), YES)
    html = answer.content.decode()
    assert answer.status_code == 200
    offer.refresh_from_db()
    assert offer.accepted_name == "Leo Fern"
    assert offer.accepted_at is not None
    assert offer.signature == json.loads(DRAWN)
    assert offer.sheet.sha256 in html
    assert "Accepted by Leo Fern" in html
    assert "<polyline" in html
    assert Client().post(_page(offer), YES).status_code == 200  # sent twice by an impatient thumb


def test_a_name_is_kept_without_what_no_database_keeps(offer):
    """A NUL between the letters is left out, and the name is no other one."""
    assert Client().post(_page(offer), YES | {"name": "Leo\0 Fern\0"}).status_code == 200
    offer.refresh_from_db()
    assert offer.accepted_name == "Leo Fern"


def test_a_yes_takes_the_job_on_where_no_gate_is_open(offer, hatchback, cast):
    """A job that lacks what its stage asks for is agreed and stays where it is."""
    accept(offer, "Leo Fern", signature(DRAWN))
    assert Job.objects.get(pk=offer.job_id).stage != Stage.AGREED
    job = hatchback.job
    Job.objects.filter(pk=job.pk).update(stage=Stage.SPEC, wishes="Bass.")
    other = make_offer(Job.objects.get(pk=job.pk), cast.manager)
    lacks = open_before(Stage.AGREED, work_out(load(Job.objects.get(pk=job.pk))))
    accept(other, "Leo Fern", signature(DRAWN))
    went_on = Job.objects.get(pk=job.pk).stage == Stage.AGREED
    assert went_on == (not lacks)


def test_what_was_offered_waits_for_its_yes_and_its_money(offer):
    """Before the bay what was offered is agreed; before the keys it is paid."""

    def lacks(stage):
        design = work_out(load(Job.objects.get(pk=offer.job_id)))
        return {item.code for item in open_before(stage, design)} & {"agreed", "paid"}

    assert lacks(Stage.BAY) == {"agreed"}
    accept(offer, "Leo Fern", signature(DRAWN))
    assert lacks(Stage.BAY) == set()
    assert lacks(Stage.HANDED_OVER) == {"paid"}
    Payment.objects.create(job=offer.job, amount=100)
    assert lacks(Stage.HANDED_OVER) == set()


@pytest.mark.parametrize(
    ("left_out", "says"),
    [
        ({"name": " "}, "Write your name"),
        ({"name": "x" * 121}, "Write your name"),
        ({"signature": ""}, "Draw your signature"),
        ({"signature": "[]"}, "Draw your signature"),
        ({"signature": "[[500, 200]]"}, "Draw your signature"),
        ({"signature": "[[500, 200, 501, 200]]"}, "Draw your signature"),
        ({"signature": "{"}, "did not arrive"),
        ({"signature": "[[1, 2, 3]]"}, "did not arrive"),
        ({"signature": "[[0, 0, 5000, 0]]"}, "did not arrive"),
        ({"signature": '[["a", "b"]]'}, "did not arrive"),
        ({"signature": "[" * 5000}, "did not arrive"),
        ({"signature": json.dumps([[0, 0]] * 100)}, "did not arrive"),
        ({"agree": None}, "Tick that you agree"),
    ],
)
def test_what_lacks_something_is_no_yes(offer, left_out, says):
    """It is said in words, the name stays typed, and nothing is agreed."""
    sent = {name: value for name, value in (YES | left_out).items() if value is not None}
    answer = Client().post(_page(offer), sent)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert says in html
    if left_out.get("name") is None:
        assert 'value="Leo Fern"' in html
    offer.refresh_from_db()
    assert not offer.is_accepted


def test_the_second_of_two_is_told_who_was_first(offer):
    """One yes wins; the other reads whose it was and changes nothing."""
    assert Client().post(_page(offer), YES).status_code == 200
    other = Client().post(_page(offer), YES | {"name": "Ida Moor"})
    assert other.status_code == 409
    assert "agreed already, by Leo Fern" in other.content.decode()
    offer.refresh_from_db()
    assert offer.accepted_name == "Leo Fern"


def test_two_at_once_read_before_either_writes(offer):
    """Both have read an open offer; whoever writes second is refused all the same."""
    first, second = (Offer.objects.get(pk=offer.pk) for _turn in range(2))
    accept(first, "Leo Fern", signature(DRAWN))
    with pytest.raises(RefusedError, match="Leo Fern"):
        accept(second, "Ida Moor", signature(DRAWN))


def test_an_offer_that_ran_out_is_read_but_not_agreed(offer):
    """Its last day still counts; the day after it says so."""
    offer.valid_until = timezone.localdate()
    offer.save()
    assert 'id="agree-form"' in Client().get(_page(offer)).content.decode()
    offer.valid_until -= dt.timedelta(days=1)
    offer.save()
    html = Client().get(_page(offer)).content.decode()
    assert "has run out" in html
    assert 'id="agree-form"' not in html
    assert Client().post(_page(offer), YES).status_code == 409


def test_a_withdrawn_or_replaced_offer_says_only_that(offer, cast, browse):
    """No figure of it is read any more, its paper is gone, and no yes is taken."""
    client = browse("consultant")
    assert (
        client.post(reverse("offer-withdraw", args=[offer.job.code, offer.pk])).status_code == 302
    )
    newer = make_offer(offer.job, cast.manager, net="120")
    replaced = make_offer(offer.job, cast.manager, net="140")
    for gone, says in ((offer, "withdrawn"), (newer, "taken the place")):
        answer = Client().get(_page(gone))
        assert answer.status_code == 410
        assert says in answer.content.decode()
        assert "€1" not in answer.content.decode()
        assert Client().post(_page(gone), YES).status_code == 410
        assert Client().get(reverse("offer-paper", args=[gone.token])).status_code == 404
    assert Client().get(_page(replaced)).status_code == 200


def test_what_was_agreed_cannot_be_withdrawn(offer, browse):
    """A yes holds, and its page stays readable after a newer offer too."""
    accept(offer, "Leo Fern", signature(DRAWN))
    browse("manager").post(reverse("offer-withdraw", args=[offer.job.code, offer.pk]))
    offer.refresh_from_db()
    assert offer.revoked_at is None
    assert Client().get(_page(offer)).status_code == 200


def test_an_addition_shows_what_changes_and_has_its_own_yes(offer, cast):
    """Against what was agreed: each line's difference and the new total."""
    accept(offer, "Leo Fern", signature(DRAWN))
    offer.refresh_from_db()
    more = make_offer(offer.job, cast.manager, net="125", basis=offer, addition=1)
    html = Client().get(_page(more)).content.decode()
    for part in ("Addition 1", "+€25.00", "€125.00 instead of €100.00", offer.number):
        assert part in html, part
    assert Client().post(_page(more), YES).status_code == 200
    assert Offer.objects.filter(accepted_at__isnull=False).count() == 2


def test_what_was_asked_for_in_words_is_ticked_with_the_yes(offer):
    """Each of the answers; what was ticked stays so where one was left out."""
    offer.shown["questions"] = [["space_to_keep", "Floor flat"], ["must_stay_factory", "Clock"]]
    offer.save()
    answer = Client().post(_page(offer), YES | {"asked": ["space_to_keep"]})
    html = answer.content.decode()
    assert answer.status_code == 422
    assert "Floor flat" in html
    assert 'value="space_to_keep" id="asked-space_to_keep"\n   checked' in html
    assert 'id="asked-must_stay_factory"\n   checked' not in html
    both = {"asked": ["space_to_keep", "must_stay_factory"]}
    assert Client().post(_page(offer), YES | both).status_code == 200
    offer.refresh_from_db()
    assert offer.is_accepted


def test_photos_stand_behind_the_link_once_the_customer_agreed_to_them(offer, cast, browse):
    """Chosen ones of this job that show nobody; never before the yes, never without that tick."""
    client, job = browse("consultant"), offer.job
    panel = Panel.objects.create(job=job, name="door")
    photo = take_photo(panel, cast.installer, caption="behind the door")
    person = take_photo(panel, cast.installer, shows_person=True)
    stranger = take_photo(Panel.objects.create(job=make_job(), name="x"), cast.installer)
    choose = reverse("offer-photos", args=[job.code, offer.pk])
    every = {"photo": [photo.pk, person.pk, stranger.pk, "x"]}
    client.post(choose, every)
    assert not offer.photos.exists()
    assert Client().post(_page(offer), YES | {"photos": "on"}).status_code == 200
    client.post(choose, every)
    assert [*offer.photos.all()] == [photo]
    assert "checked" in client.get(reverse("agreement", args=[job.code])).content.decode()
    html, url = Client().get(_page(offer)).content.decode(), _photo(offer, photo)
    assert url in html
    assert "behind the door" in html
    picture = Client().get(url)
    assert b"".join(picture).startswith(b"\xff\xd8")
    assert picture.headers["Content-Type"] == "image/jpeg"
    assert Client().get(_photo(offer, person)).status_code == 404
    assert Client().get(_photo(make_offer(make_job(), cast.manager), photo)).status_code == 404
    Photo.objects.filter(pk=photo.pk).update(shows_person=True)
    assert Client().get(url).status_code == 404
    Photo.objects.filter(pk=photo.pk).update(shows_person=False)
    Offer.objects.filter(pk=offer.pk).update(photos_wanted=False)
    assert Client().get(url).status_code == 404
    client.post(choose, {})
    assert offer.photos.exists()


def _photo(offer: Offer, photo: Photo) -> str:
    return reverse("offer-photo", args=[offer.token, photo.pk])
