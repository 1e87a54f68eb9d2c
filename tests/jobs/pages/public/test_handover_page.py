"""The hand-over behind the customer's link: what was issued, for nobody else, until withdrawn."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.core.files.base import ContentFile
from django.urls import reverse
from django.utils import timezone, translation
from django.utils.translation import gettext, ngettext

from jobs.design.job.whole import load, work_out
from jobs.models import Customer, CustomerPage, IssuedSheet, Job, Photo, Workshop
from jobs.sheets.customer import page as kept

pytestmark = pytest.mark.django_db


@pytest.fixture
def issued(hatchback, cast) -> CustomerPage:
    """A hand-over with a photo, one that shows a person and one whose file is lost."""
    job = Job.objects.select_related("vehicle__customer").get(pk=hatchback.job.pk)
    for caption, person in (("the new floor", False), ("somebody", True), ("lost", False)):
        files = {name: ContentFile(b"\xff\xd8", "x.jpg") for name in ("image", "small")}
        Photo.objects.create(
            job=job, panel=hatchback.boot_floor, caption=caption, on_handover="after",
            shows_person=person, taken_by=cast.installer, **files,
        )  # fmt: skip
    lost = job.photos.get(caption="lost").small
    lost.storage.delete(lost.name)
    sheet = IssuedSheet.objects.create(
        job=job, kind="handover", revision=1, paper="a4", language="de", data={}, pdf=b"%PDF",
        sha256="x", data_sha256="x", issued_by=cast.manager, issued_at=timezone.now(),
    )  # fmt: skip
    kept.keep(work_out(load(job)), sheet)
    return CustomerPage.objects.get(job=job)


def _page(client: Any, page: CustomerPage) -> Any:
    return client.get(reverse("customer-page", args=[page.token]))


def test_it_is_the_hand_over_in_the_language_it_was_issued_in(issued, client):
    """Whoever has the link reads it on a phone: no name, no plate, no code, and keeps the paper."""
    answer = _page(client, issued)
    text = answer.content.decode()
    assert answer.status_code == 200
    assert answer["Cache-Control"] == "no-store"
    assert 'lang="de"' in text
    customer = issued.job.vehicle.customer
    assert customer.name not in text
    assert not issued.job.vehicle.plate or issued.job.vehicle.plate not in text
    for finding in work_out(load(issued.job)).findings:
        assert finding.code not in text
    paper = client.get(reverse("customer-paper", args=[issued.token]))
    assert paper.content == b"%PDF"


def test_what_changes_later_does_not_change_it(issued, client):
    """The page says what was handed over, whatever becomes of the job."""
    before = _page(client, issued).content
    Job.objects.filter(pk=issued.job_id).update(care_notes="Something new.")
    assert _page(client, issued).content == before


def test_photos_of_people_stay_off_it_and_a_lost_one_is_said(issued, client):
    """Each that is shown has an address that nobody guesses; no other photo of the job opens."""
    text = _page(client, issued).content.decode()
    shown = re.findall(r'src="(/h/[^"]+)"', text)
    assert len(shown) == 1
    photo = client.get(shown[0])
    assert photo.status_code == 200
    photo.close()
    person = issued.job.photos.get(caption="somebody")
    assert client.get(reverse("customer-photo", args=[issued.token, person.pk])).status_code == 404
    with translation.override("de"):
        assert gettext("Photos that show people are on the paper only.") in text
        lost = "A photo that belongs here is missing: ask us for it."
        assert (
            ngettext(lost, "%(n)s photos that belong here are missing: ask us for them.", 1) in text
        )
    assert "somebody" not in text


def test_a_link_is_withdrawn_and_given_anew(issued, client, browse):
    """Withdrawn it says so (410), photos and paper are gone (404); a new one takes its photos."""
    old = issued.token
    designer = browse("designer")
    code = issued.job.code
    assert old in designer.get(reverse("sheets", args=[code])).content.decode()
    designer.post(reverse("customer-link-withdraw", args=[code]))
    assert _page(client, issued).status_code == 410
    assert client.get(reverse("customer-paper", args=[old])).status_code == 404
    designer.post(reverse("customer-link-renew", args=[code]))
    assert _page(client, issued).status_code == 404
    issued.refresh_from_db()
    text = _page(client, issued).content.decode()
    assert old not in text
    (address,) = re.findall(r'src="(/h/[^"]+)"', text)
    photo = client.get(address)
    assert photo.status_code == 200
    photo.close()


@pytest.mark.parametrize(("own", "language"), [("de", "de"), ("", "en")])
def test_papers_speak_the_language_of_the_customer(hatchback, browse, own, language):
    """Without one they speak the workshop's; what stays in the house speaks the reader's."""
    Customer.objects.update(language=own)
    Workshop.objects.update(language="en")
    text = browse("manager").get(reverse("sheets", args=[hatchback.code])).content.decode()
    for kind, spoken in (("handover", language), ("build", "en")):
        address = reverse("sheet-draft", args=[hatchback.code, kind])
        assert f"{address}?paper=a4&amp;language={spoken}" in text
