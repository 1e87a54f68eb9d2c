"""The page of proposed bands: what it needs to know, what it says, and who may see it."""

from __future__ import annotations

import re

import numpy as np
import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.design.setup.measured import POINTS
from jobs.design.setup.starting import way_of
from jobs.models import ChannelCurve, Processor, TargetCurve

pytestmark = pytest.mark.django_db
EQUALISER = {
    "sample_rate": 48_000.0, "bands": 8, "most_boost": 6.0, "most_cut": 12.0, "lowest_q": 0.5,
    "highest_q": 8.0,
}  # fmt: skip


def measure(channel, place: str, *, at: float = 60.0) -> None:
    """Keep a curve with a bump of 8 dB in it."""
    f = np.geomspace(20, 16_000, 200)
    level = 80 + 8 * np.exp(-((np.log2(f / at) / 0.4) ** 2))
    content = "Hz\tdB\n" + "\n".join(f"{x:.2f}\t{y:.2f}" for x, y in zip(f, level, strict=True))
    ChannelCurve.objects.create(
        job=channel.job, channel=channel, place=place, measured_on="2026-11-28",
        measured_by="somebody", content=content,
    )  # fmt: skip


@pytest.fixture
def url(hatchback) -> str:
    return reverse("setup-proposal", args=[hatchback.code])


@pytest.fixture
def equalised(hatchback):
    """The bass measured in two places, behind a processor whose sheet was read."""
    Processor.objects.update(**EQUALISER)
    for place in ("driver's seat", "passenger"):
        measure(hatchback.bass, place)
    return hatchback


def of(answer, channel):
    """What is proposed for a channel."""
    return next(
        each for each, _chart, _borne in answer.context["proposals"] if each.channel == channel
    )


def test_bands_bring_a_channel_nearer_to_what_is_wanted(equalised, browse, url):
    """The bump is cut where it is, over both places, with coefficients for the processor."""
    answer = browse("installer").get(url)
    proposal = of(answer, equalised.bass)
    assert proposal.seats == ["driver's seat", "passenger"]
    assert proposal.equalised.after < 0.5 * proposal.equalised.before
    deepest = min(proposal.equalised.bands, key=lambda band: band.gain)
    assert 50 < deepest.frequency < 70
    assert len(proposal.bands[0].coefficients) == 5
    html = answer.content.decode()
    assert "no place is worse off" in html
    assert "passenger" in html


def test_what_is_wanted_can_be_typed(equalised, browse, url):
    """More bass lifts instead of cutting: each lift says its power and its travel."""
    flat = of(browse("designer").get(url), equalised.bass)
    answer = browse("designer").get(url, {"lift": "12 dB", "fall": "0 dB"})
    assert of(answer, equalised.bass).wanted[0] > flat.wanted[0]
    assert of(answer, equalised.bass).equalised.bands != flat.equalised.bands
    # 6 dB are four times the power and twice the travel.
    lifted = [band for band in of(answer, equalised.bass).bands if band.power]
    for band in lifted:
        assert band.power == pytest.approx(band.travel**2)


@pytest.mark.parametrize("wrong", [{"lift": "bananas"}, {"lift": "40 dB"}, {"fall": "9 dB"}])
def test_what_cannot_be_wanted_is_answered_and_kept(equalised, browse, url, wrong):
    """Words and a lift beyond the limit are told at their field, which keeps what was typed."""
    answer = browse("designer").get(url, wrong)
    assert answer.status_code == 200
    name, value = next(iter(wrong.items()))
    assert name in answer.context["form"].errors
    assert value in answer.content.decode()
    assert answer.context["proposals"] == []


@pytest.mark.parametrize("name", sorted(EQUALISER))
def test_what_the_processor_can_do_is_asked_for(equalised, browse, url, name):
    """Without a figure of its sheet nothing is proposed, and the figure is named."""
    Processor.objects.update(**{name: None})
    proposal = of(browse("designer").get(url), equalised.bass)
    label = str(Processor._meta.get_field(name).verbose_name)
    assert label in proposal.why_not
    assert proposal.bands == ()


def test_a_channel_without_a_processor_says_so(equalised, browse, url):
    """Nobody is told to dial what is not there."""
    type(equalised.bass).objects.filter(pk=equalised.bass.pk).update(processor=None)
    assert of(browse("designer").get(url), equalised.bass).why_not


def test_how_low_it_plays_must_be_known(equalised, browse, url):
    """With neither a high-pass nor a resonance nothing is proposed: a lift could break the cone."""
    bass = type(equalised.bass).objects.filter(pk=equalised.bass.pk)
    bass.update(highpass_frequency=None, highpass_shape="")
    assert of(browse("designer").get(url), equalised.bass).bands
    bass.update(speaker=None)
    proposal = of(browse("designer").get(url), equalised.bass)
    assert "resonance" in proposal.why_not
    assert proposal.bands == ()


def test_nothing_is_touched_beyond_the_filters(equalised, browse, url):
    """Bands lie between the channel's filters and above its driver's resonance."""
    proposal = of(browse("designer").get(url), equalised.bass)
    bass = equalised.bass
    least = max(bass.highpass_frequency or 0.0, bass.speaker.part.driver.fs or 0.0)
    for band in proposal.equalised.bands:
        assert least - 0.1 <= band.frequency <= (bass.lowpass_frequency or 16_000.0) + 0.1


def test_nothing_measured_leads_to_measuring(saloon, browse):
    """An empty page says what comes first."""
    answer = browse("designer").get(reverse("setup-proposal", args=[saloon.code]))
    assert reverse("setup-measured", args=[saloon.code]) in answer.content.decode()


def test_a_stranger_finds_nothing_and_nothing_is_posted(equalised, browse, url):
    """404 for whoever has no role, 405 for another method."""
    assert browse("stranger").get(url).status_code == 404
    assert browse("designer").post(url).status_code == 405


def test_twenty_curves_ask_no_more_than_two(equalised, browse, url):
    """Curves come with the job: SELECT ... FROM jobs_channelcurve WHERE job_id = %s, once."""
    client = browse("designer")
    client.get(url)
    with CaptureQueriesContext(connection) as few:
        client.get(url)
    for number in range(18):
        measure(equalised.bass, f"place {number}")
    with CaptureQueriesContext(connection) as many:
        client.get(url)
    assert len(many) == len(few) > 10


def test_a_curve_of_ones_own_is_what_is_wanted(equalised, browse, url):
    """Typed columns take the place of the level line; lift and fall come on top."""
    plain = of(browse("designer").get(url), equalised.bass).wanted
    own = TargetCurve.objects.create(
        job=equalised.job, name="hill",
        content="20 8\n30 8\n45 8\n55 0\n80 0\n200 0\n900 0\n9000 0",
    )  # fmt: skip
    wanted = of(browse("designer").get(url, {"own": own.pk}), equalised.bass).wanted
    assert (wanted - plain)[0] - (wanted - plain)[-1] == pytest.approx(8.0)
    answer = browse("designer").get(url, {"own": "99999"})
    assert "own" in answer.context["form"].errors


def borne_of(answer, channel):
    """What cone and coil of a channel come to."""
    return next(held for each, _c, held in answer.context["proposals"] if each.channel == channel)


def test_cone_and_coil_are_held_again_with_the_bands(equalised, browse, url):
    """Travel with the bands is what the filters leave of the solver's, lifted by the bands."""
    answer = browse("designer").get(url, {"lift": "12 dB"})
    held, proposal = borne_of(answer, equalised.bass), of(answer, equalised.bass)
    assert any(each.power for each in proposal.bands)
    box = next(box for box in answer.context["boxes"].values() if box.box.channel == equalised.bass)
    f, moves = box.played.frequencies, box.played.excursion
    assert held.travel.before == pytest.approx(moves.max(), rel=1e-6)
    # What the bands lift, by the levels that were drawn; beyond its full voltage nothing.
    lifted = moves * 10 ** (np.interp(f, proposal.frequency, proposal.equalised.change) / 20)
    most = np.minimum(lifted, box.alone.excursion)
    assert held.travel.after == pytest.approx(most.max(), rel=0.02)
    assert held.travel.after > held.travel.before
    assert held.travel.allowed == equalised.bass.speaker.part.driver.xmax
    assert held.power.allowed == equalised.bass.speaker.part.driver.power
    assert "with the bands" in answer.content.decode()


def recorded(channel, response) -> None:
    """Keep a response as a recording of one place leads to it."""
    level, angle = 20 * np.log10(np.abs(response)), np.angle(response, deg=True)
    rows = zip(POINTS, level, angle, strict=True)
    ChannelCurve.objects.create(
        job=channel.job, channel=channel, place="driver's seat", measured_on="2026-11-29",
        measured_by="somebody", recorded=True,
        content="Hz\tdB\t°\n" + "\n".join(f"{f:.2f}\t{x:.2f}\t{y:.1f}" for f, x, y in rows),
    )  # fmt: skip


def test_neighbours_recorded_together_say_delay_and_polarity(equalised, browse, url):
    """The upper way 0.1 ms early and turned round is told to wait as much and to be turned."""
    meeting = next(
        each
        for each in browse("designer").get(url).context["meetings"]
        if each.met.frequency > 500 and each.met.better != "either"
    )
    in_step = 1.0 if meeting.met.better == "alike" else -1.0
    ChannelCurve.objects.all().delete()
    recorded(meeting.lower, way_of(meeting.lower).response(POINTS))
    early = -in_step * np.exp(2j * np.pi * POINTS * 0.1e-3)
    recorded(meeting.upper, early * way_of(meeting.upper).response(POINTS))
    answer = browse("designer").get(url)
    pair = next(each for each in answer.context["heard"] if each.upper == meeting.upper)
    assert pair.alignment.turned
    assert pair.alignment.delay == pytest.approx(0.1e-3, abs=0.03e-3)
    assert pair.waits == meeting.upper
    assert pair.alignment.after > -1.0 > pair.alignment.before
    assert re.search(r"waits\s+[\d.]+\s*.s more", answer.content.decode())
