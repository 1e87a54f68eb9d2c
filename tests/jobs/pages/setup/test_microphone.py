"""Measuring with the device at hand: the page, what a take is answered with, and what is kept."""

from __future__ import annotations

import wave

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from jobs.models import ChannelCurve
from tests.jobs.curves import a_curve
from tests.jobs.takes import RATE, recording

pytestmark = pytest.mark.django_db


@pytest.fixture
def url(hatchback) -> str:
    return reverse("setup-microphone", args=[hatchback.code])


def sent(hatchback, **more):
    """A take of the tweeter on the left, as the page sends it."""
    base = {
        "channel": hatchback.tweeter_left.pk, "place": "driver's seat, windows shut",
        "measured_on": "2026-11-28", "measured_by": "Ina",
    }  # fmt: skip
    return base | more


def test_a_take_is_answered_with_what_it_says_and_kept_whole(hatchback, browse, url):
    """Level over the noise, delay and polarity; the file comes back byte for byte, to be saved."""
    client = browse("installer")
    file = recording()
    answer = client.post(url, sent(hatchback, recording=file))
    assert answer.status_code == 201
    html = answer.content.decode()
    assert "above the noise" in html
    assert "polarity is turned against the mark" in html
    assert "not calibrated" in html
    row = ChannelCurve.objects.get(recorded=True)
    # The noise lies 60 dB below the level, spread over time as the sweep is.
    assert 30 < row.above_noise < 90
    file.seek(0)
    back = client.get(reverse("setup-take", args=[hatchback.code, row.pk]))
    assert b"".join(back.streaming_content) == file.read()
    assert back["Content-Disposition"].startswith("attachment")
    assert back["X-Content-Type-Options"] == "nosniff"
    with row.take.open("rb") as kept, wave.open(kept) as read:
        assert read.getframerate() == RATE


def test_the_next_take_begins_with_what_the_last_one_had(hatchback, browse, url):
    """Place, microphone and its calibration stay: one sits in the car with a phone."""
    client = browse("installer")
    more = {"recording": recording(), "microphone": "flat one", "calibration": a_curve()}
    assert client.post(url, sent(hatchback, **more)).status_code == 201
    html = client.get(url).content.decode()
    assert "flat one" in html
    assert "driver&#x27;s seat, windows shut" in html


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({}, "recording of the sweep"),
        ({"recording": SimpleUploadedFile("take.wav", b"words")}, "no WAV file"),
        ({"channel": ""}, "Channel"),
        ({"calibration": "12 bananas"}, "calibration"),
        ({"place": ""}, "Seat"),
    ],
)
def test_what_is_wrong_is_said_and_nothing_kept(hatchback, browse, url, more, says):
    """A take without sound, without a channel, with a calibration that is none."""
    before = ChannelCurve.objects.count()
    whole = sent(hatchback) | ({"recording": recording()} if more else {}) | more
    answer = browse("installer").post(url, whole)
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert ChannelCurve.objects.count() == before


def test_columns_in_place_of_a_recording_let_go_of_it(hatchback, browse, url):
    """What the curve did not come out of does not hang on it."""
    client = browse("installer")
    client.post(url, sent(hatchback, recording=recording()))
    row = ChannelCurve.objects.get(recorded=True)
    edit = reverse("channel-curve-edit", args=[hatchback.code, row.pk])
    client.post(edit, sent(hatchback, content=a_curve(), version=row.version))
    assert client.get(reverse("setup-take", args=[hatchback.code, row.pk])).status_code == 404


def test_the_page_asks_for_the_right_people(hatchback, browse, url):
    """404 for a stranger; another method is refused."""
    assert browse("stranger").get(url).status_code == 404
    assert browse("installer").put(url).status_code == 405
