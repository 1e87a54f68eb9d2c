"""A box in its car: the bound or the measured curve, and how a curve gets in."""

from __future__ import annotations

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.models import CabinCurve
from tests.jobs.pages.kinds import KINDS, typed

pytestmark = pytest.mark.django_db
KIND = next(kind for kind in KINDS if kind.slug == "cabin-curve")


def _url(scene):
    return reverse("cabin", args=[scene.code, scene.box.pk])


def _send(client, scene, **changed):
    add = reverse("cabin-curve-add", args=[scene.code])
    form = client.get(add).context["form"]
    return client.post(add, typed(form) | KIND.least(scene.job) | changed)


def test_a_member_reads_it_and_nothing_is_promised(hatchback, van, saloon, browse):
    """Members see the curve and that it is no promise; to a stranger there is nothing."""
    client = browse("installer")
    for scene in (hatchback, saloon):
        html = client.get(_url(scene)).content.decode()
        assert "<svg" in html
        assert "No level in the car is promised" in html
        assert browse("stranger").get(_url(scene)).status_code == 404
    assert Client().get(_url(saloon)).status_code == 302
    other = reverse("cabin", args=[van.code, saloon.box.pk])
    assert client.get(other).status_code == 404
    assert client.post(_url(saloon)).status_code == 405


def test_a_bound_is_named_a_bound_and_a_curve_by_who_and_when(saloon, hatchback, browse):
    """The bound says so in words and in its drawing; a measured curve says where, when and who."""
    client = browse("installer")
    html = client.get(_url(saloon)).content.decode()
    assert "An upper bound, not a forecast" in html
    assert 'data-series="upper bound"' in html
    html = client.get(_url(hatchback)).content.decode()
    curve = hatchback.cabin_curve
    assert curve.measured_by in html
    assert curve.place in html
    assert "12 Nov 2026" in html
    assert "upper bound" not in html


def test_what_is_missing_leads_to_where_it_is_entered(saloon, browse):
    """Without the cabin's volume the page says so and links to the car."""
    car = saloon.job.vehicle
    car.cabin_volume = None
    car.save()
    html = browse("installer").get(_url(saloon)).content.decode()
    assert "cabin air volume" in html
    assert reverse("car", args=[saloon.code]) in html
    assert "<svg data-frame" not in html


def test_a_file_is_read_kept_as_text_and_used(saloon, browse):
    """A UTF-16 file with decimal commas becomes the curve of every box in the car."""
    rows = "\r\n".join(f"{20 * (n + 1)};{9 - n},5" for n in range(10))
    sent = SimpleUploadedFile("boot.txt", ("Hz;dB\r\n" + rows).encode("utf-16"))
    assert _send(browse("installer"), saloon, content="", file=sent).status_code == 302
    made = saloon.job.cabincurves.get()
    assert made.content.startswith("Hz;dB")
    html = browse("installer").get(_url(saloon)).content.decode()
    assert "with the curve measured" in html


@pytest.mark.parametrize(
    ("name", "content", "says"),
    [
        ("big", b"20.0\t1.0\n" * 1_200_000, "at most"),
        ("picture", b"\x89PNG\r\n\x1a\n\x00\x00", "no text file"),
        ("nothing", b"", "fewer than 8 lines"),
        ("kilohertz", "\n".join(f"0.{n + 10}\t3" for n in range(20)).encode(), "write kHz"),
        ("swapped", "\n".join(f"{9 - n}\t{20 + n}" for n in range(20)).encode(), "Frequency"),
    ],
)
def test_a_file_that_is_no_curve_is_refused(saloon, browse, name, content, says):
    """Too large, binary, empty, in kHz, swapped: refused with its reason, nothing kept."""
    sent = SimpleUploadedFile(f"{name}.txt", content)
    answer = _send(browse("designer"), saloon, content="", file=sent)
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert not saloon.job.cabincurves.exists()


def test_ten_megabytes_pasted_are_answered_in_words(saloon, browse, settings):
    """Ten megabytes are refused by their size; more than a form takes gets a page of its own."""
    content = "20.0\t1.0\n" * 1_200_000
    answer = _send(browse("designer"), saloon, content=content)
    assert answer.status_code == 422
    assert "MB are read" in answer.content.decode()
    settings.DATA_UPLOAD_MAX_MEMORY_SIZE = 1_000_000
    answer = _send(browse("designer"), saloon, content=content)
    assert answer.status_code == 400
    assert "Nothing was saved" in answer.content.decode()
    assert not saloon.job.cabincurves.exists()


def test_neither_text_nor_file_is_said(saloon, browse):
    """A form without a curve asks for one; a file that is empty does not fall back on the text."""
    answer = _send(browse("designer"), saloon, content="")
    assert "Paste the curve here" in answer.content.decode()
    sent = SimpleUploadedFile("empty.txt", b"")
    assert _send(browse("designer"), saloon, file=sent).status_code == 422


def test_a_file_that_can_be_put_right_stands_in_the_field(saloon, browse):
    """No browser keeps a file; its text comes back in the field with the line that is wrong."""
    rows = [f"{20 + n}\t1" for n in range(12)]
    rows[6] = "26\tsomewhat"
    sent = SimpleUploadedFile("typo.txt", "\n".join(rows).encode())
    answer = _send(browse("designer"), saloon, content="", file=sent)
    html = answer.content.decode()
    assert "Line 7" in html
    assert "26\tsomewhat\n27\t1" in html
    assert "on the roof" in html


def test_the_newest_curve_of_the_car_counts_on_every_job(hatchback, browse):
    """A later curve replaces an earlier one, and a removed one counts no more."""
    client = browse("designer")
    _send(client, hatchback, measured_on="2026-11-24", place="second try")
    html = client.get(_url(hatchback)).content.decode()
    assert "second try" in html
    newest = CabinCurve.of(hatchback.job.vehicle).first()
    client.post(reverse("cabin-curve-remove", args=[hatchback.code, newest.pk]))
    html = client.get(_url(hatchback)).content.decode()
    assert "The gain was measured: second try" not in html
    assert f"The gain was measured: {hatchback.cabin_curve.place}" in html
    car = client.get(reverse("car", args=[hatchback.code])).content.decode()
    assert "The newest curve is used" in car


def test_twenty_curves_ask_no_more_than_one(hatchback, browse):
    """The car page and the box in its cabin read one curve or twenty in as many queries."""
    client = browse("designer")
    urls = [_url(hatchback), reverse("car", args=[hatchback.code])]

    def queries():
        counts = []
        for url in urls:
            client.get(url)
            with CaptureQueriesContext(connection) as seen:
                assert client.get(url).status_code == 200
            counts.append(len(seen))
        return counts

    one = queries()
    first = hatchback.cabin_curve
    for _ in range(19):
        CabinCurve.objects.create(
            job=hatchback.job, place="again", measured_by="x", measured_on=first.measured_on,
            content=first.content,
        )  # fmt: skip
    assert queries() == one
