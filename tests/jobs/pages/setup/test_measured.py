"""What was measured in the seat: columns of any program, a recording, and bad ones answered."""

from __future__ import annotations

import numpy as np
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from acoustics.setup.wav import wav
from jobs.models import ChannelCurve
from jobs.pages.setup import measured
from tests.jobs.curves import a_curve
from tests.jobs.takes import RATE, Heard, recording

pytestmark = pytest.mark.django_db


@pytest.fixture
def url(hatchback) -> str:
    return reverse("channel-curve-add", args=[hatchback.code])


def sent(hatchback, **more):
    """A whole form, with something else in place of the curve."""
    base = {
        "channel": hatchback.tweeter_left.pk, "place": "driver's seat",
        "measured_on": "2026-11-28", "measured_by": "somebody",
    }  # fmt: skip
    return base | more


def test_a_recording_gives_level_delay_and_polarity(hatchback, browse, url):
    """A millisecond later than the mark and turned round, with how far that may be off."""
    answer = browse("installer").post(url, sent(hatchback, recording=recording()))
    assert answer.status_code == 302
    row = ChannelCurve.objects.get(recorded=True)
    assert row.delay == pytest.approx(1e-3, abs=20e-6)
    assert (row.delay_within, row.inverted) == (pytest.approx(20e-6), True)
    assert row.content.startswith("Hz\tdB\t°\n20.00\t")


def test_delays_are_compared_only_where_marks_were_recorded(hatchback, browse, url):
    """Two recordings have a table of waits; a curve without marks takes no part in it."""
    client = browse("installer")
    for name in ("tweeter_left", "bass"):
        more = {"channel": getattr(hatchback, name).pk, "recording": recording()}
        assert client.post(url, sent(hatchback, **more)).status_code == 302
    html = client.get(reverse("setup-measured", args=[hatchback.code])).content.decode()
    assert "What each has to wait for the last one" in html
    assert html.count("the same speaker") == 1
    ChannelCurve.objects.filter(channel=hatchback.bass).update(recorded=False)
    html = client.get(reverse("setup-measured", args=[hatchback.code])).content.decode()
    assert "What each has to wait for the last one" not in html


@pytest.mark.parametrize("between", ["\t", ";", " ", ", "])
def test_columns_of_any_program_are_read(hatchback, browse, url, between):
    """Tabs, semicolons, spaces and commas part them."""
    text = a_curve(between=between)
    answer = browse("installer").post(url, sent(hatchback, content=text))
    assert answer.status_code == 302


def test_decimal_commas_are_read_as_such(hatchback, browse, url):
    """Semicolons between columns, commas inside."""
    text = a_curve(between=";").replace(".", ",")
    assert browse("installer").post(url, sent(hatchback, content=text)).status_code == 302
    kept = ChannelCurve.objects.filter(content__contains=";").get()
    assert kept.content.replace("\r", "") == text


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("words and words", "fewer than"),
        ("100\t80", "fewer than"),
        ("\n".join(f"{f}\t80" for f in (20, 40, 30, 50, 60, 70, 80, 90)), "go one way"),
        ("\n".join(f"{f}\t80" for f in (20, 20, 30, 50, 60, 70, 80, 90)), "go one way"),
        ("\n".join(f"{f}\tloud" for f in range(20, 100, 10)), "not a number"),
        ("", "Paste the curve here"),
    ],
)
def test_columns_that_are_none_are_kept_and_answered(hatchback, browse, url, text, says):
    """What was pasted stands there, and the field says what is wrong with it."""
    answer = browse("installer").post(url, sent(hatchback, content=text))
    assert answer.status_code == 422
    html = answer.content.decode()
    assert says in html
    assert text.split("\n")[0] in html


@pytest.mark.parametrize(
    ("content", "says"),
    [(b"words", "no WAV file"), (b"", "empty"), (b"RIFF0000WAVEfmt ", "no WAV file")],
)
def test_a_file_that_is_no_recording_is_answered(hatchback, browse, url, content, says):
    """Words, nothing and a torn file."""
    file = SimpleUploadedFile("take.wav", content, "audio/wav")
    answer = browse("installer").post(url, sent(hatchback, recording=file))
    assert answer.status_code == 422
    assert says in answer.content.decode()


def test_a_recording_outlives_what_was_wrong_with_the_form(hatchback, browse, url):
    """Kept beside a refused day, it is read when the form is put right; a strange name is none."""
    client, file = browse("installer"), recording()
    answer = client.post(url, sent(hatchback, recording=file, measured_on="soon"))
    assert answer.status_code == 422
    assert "take.wav is kept" in answer.content.decode()
    again = answer.context["form"]["again"].value()
    assert client.post(url, sent(hatchback, again=again)).status_code == 302
    row = ChannelCurve.objects.get(recorded=True)
    assert row.take_name == "take.wav"
    file.seek(0)
    with row.take.open() as kept:
        assert kept.read() == file.read()
    answer = client.post(url, sent(hatchback, again="../../secret_key/x"))
    assert answer.status_code == 422
    assert "choose it once more" in answer.content.decode()


def test_a_recording_that_was_refused_is_kept(hatchback, browse, url):
    """What is wrong with it is said, and it stands by for another look."""
    content = b"".join(wav(_Cut(), rate=RATE, bits=16))
    file = SimpleUploadedFile("loud.wav", content, "audio/wav")
    html = browse("installer").post(url, sent(hatchback, recording=file)).content.decode()
    assert "full scale" in html
    assert "loud.wav is kept" in html


class _Cut(Heard):
    def samples(self, n, rate):
        return np.clip(20.0 * super().samples(n, rate), -1.0, 1.0)


def test_a_typed_curve_in_place_of_a_recorded_one_has_no_delay(hatchback, browse, url):
    """Whoever pastes other columns loses what only the recording told."""
    client = browse("installer")
    client.post(url, sent(hatchback, recording=recording()))
    row = ChannelCurve.objects.get(recorded=True)
    edit = reverse("channel-curve-edit", args=[hatchback.code, row.pk])
    answer = client.post(edit, sent(hatchback, content=a_curve(), version=row.version))
    assert answer.status_code == 302
    row.refresh_from_db()
    assert (row.recorded, row.delay, row.inverted) == (False, None, None)


def test_a_calibration_is_taken_off(hatchback, browse, url):
    """A microphone that adds 3 dB everywhere lowers the curve by 3 dB; where it ends is said."""
    client = browse("installer")
    flat = "\n".join(f"{f}\t3" for f in (100, 200, 400, 800, 1600, 3200, 6400, 9000))
    place = {"place": "rear seat"}
    answer = client.post(url, sent(hatchback, content=a_curve(), calibration=flat, **place))
    assert answer.status_code == 302
    html = client.get(reverse("setup-measured", args=[hatchback.code])).content.decode()
    assert "does not reach as far" in html
    from jobs.design.setup.measured import drawn

    row = ChannelCurve.objects.get(place="rear seat")
    bare = ChannelCurve(content=row.content)
    difference = drawn(bare).level - drawn(row).level
    assert difference == pytest.approx(3.0, abs=1e-6)


def test_a_recording_larger_than_is_read_is_answered_with_both_sizes(
    hatchback, browse, url, monkeypatch
):
    """Before anything of it is read."""
    monkeypatch.setattr(measured, "LARGEST", 2_048)
    before = ChannelCurve.objects.count()
    file = SimpleUploadedFile("take.wav", b"x" * 3_072, "audio/wav")
    answer = browse("installer").post(url, sent(hatchback, recording=file))
    assert answer.status_code == 422
    html = answer.content.decode().replace("\xa0", " ")
    assert "This holds 3.0 KB; at most 2.0 KB are read." in html
    assert ChannelCurve.objects.count() == before
