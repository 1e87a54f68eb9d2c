"""The test signals of a job: listed with their notes, streamed whole, in the format asked for."""

from __future__ import annotations

import io
import wave

import pytest
from django.urls import reverse

from jobs.design.setup.measured import read_recording
from jobs.models import Workshop

pytestmark = pytest.mark.django_db


def test_every_signal_is_listed_with_level_and_warning(hatchback, browse):
    """Shared ones and a tone and a pulse for each amplified channel, with a note on hearing."""
    html = browse("installer").get(reverse("setup-signals", args=[hatchback.code])).content.decode()
    channels = hatchback.job.channels.filter(amplifier__isnull=False).count()
    assert html.count("download") == 5 + 2 * channels
    assert "dBFS" in html
    assert "Ear protection" in html


@pytest.mark.parametrize(
    "slug", ["slow-sweep", "pink-noise", "left-right", "sweep", "marked-sweep"]
)
def test_a_file_is_as_long_as_it_says_and_opens(hatchback, browse, slug):
    """The header holds what the file holds, in the format asked for."""
    url = reverse("setup-signal", args=[hatchback.code, slug, "wav"])
    answer = browse("installer").get(url, {"rate": "44100", "bits": "24"})
    assert answer.streaming
    content = b"".join(answer.streaming_content)
    assert len(content) == int(answer["Content-Length"])
    with wave.open(io.BytesIO(content)) as file:
        assert (file.getframerate(), file.getsampwidth()) == (44_100, 3)
    assert answer["Content-Type"] == "audio/wav"


def test_a_tone_is_made_for_its_channel(hatchback, browse):
    """Without a channel there is none, nor for one of another job or of words."""
    client = browse("installer")
    url = reverse("setup-signal", args=[hatchback.code, "tone", "wav"])
    answer = client.get(url, {"channel": str(hatchback.bass.pk)})
    assert answer.status_code == 200
    assert f"tone-{hatchback.bass.pk}-48000-16.wav" in answer["Content-Disposition"]
    for wrong in ({}, {"channel": "99999"}, {"channel": "bananas"}):
        assert client.get(url, wrong).status_code == 404
    nothing = reverse("setup-signal", args=[hatchback.code, "no-such", "wav"])
    assert client.get(nothing).status_code == 404


def test_a_format_no_file_has_counts_as_not_asked_for(hatchback, browse):
    """Bananas, 96 kHz and 32 bit give the usual file."""
    url = reverse("setup-signal", args=[hatchback.code, "pink-noise", "wav"])
    for rate, bits in (("96000", "32"), ("bananas", "-1"), ("", "")):
        answer = browse("installer").get(url, {"rate": rate, "bits": bits})
        assert "pink-noise-48000-16.wav" in answer["Content-Disposition"]


def test_a_file_may_be_packed_without_loss(hatchback, browse):
    """Asked for as FLAC the page leads to such files; another kind of file there is not."""
    client = browse("installer")
    html = client.get(reverse("setup-signals", args=[hatchback.code]), {"kind": "flac"})
    url = reverse("setup-signal", args=[hatchback.code, "left-right", "flac"])
    assert url in html.content.decode()
    answer = client.get(url, {"rate": "44100", "bits": "16"})
    assert answer["Content-Type"] == "audio/flac"
    assert "left-right-44100-16.flac" in answer["Content-Disposition"]
    assert answer.content.startswith(b"fLaC")  # RFC 9639, 6
    other = reverse("setup-signal", args=[hatchback.code, "left-right", "mp3"])
    assert client.get(other).status_code == 404


def test_the_demo_brings_a_recording_to_try(hatchback, browse):
    """It is worked out as any other: arrival and polarity as it was made; a workshop has none."""
    client, url = browse("installer"), reverse("setup-signals", args=[hatchback.code])
    file = reverse("setup-signal", args=[hatchback.code, "recording", "wav"])
    assert client.get(file).status_code == 404
    Workshop.objects.update_or_create(defaults={"is_demo": True})
    assert file in client.get(url).content.decode()
    heard = read_recording(b"".join(client.get(file).streaming_content))
    assert heard.delay == pytest.approx(0.6e-3, abs=heard.delay_within)
    assert heard.inverted is True
