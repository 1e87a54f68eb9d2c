"""Starting values of a job: delays by the tape, gains, levels, and which polarity the ways want."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.design.setup.starting import chains
from jobs.models import Channel, Driver, Processor

pytestmark = pytest.mark.django_db


def starts(job):
    """What each channel starts from, by its name."""
    return {start.channel.name: start for start in work_out(load(job)).setup.starts}


def said(job) -> dict[str, str]:
    """What the set-up has to say of a job, by code."""
    return {f.code: f.says for f in work_out(load(job)).findings_of("setup")}


def test_the_near_speaker_waits_for_the_far_one(hatchback):
    """0.95 m against 1.45 m: 1.4569 ms on the near one, 70 samples at 48 kHz, half a metre."""
    # Reckoned by hand with 343.2 m/s.
    near, far = hatchback.job.channels.all()[:2]
    Channel.objects.filter(pk=near.pk).update(distance=0.95)
    Channel.objects.filter(pk=far.pk).update(distance=1.45)
    Processor.objects.filter(pk=near.processor.part_id).update(sample_rate=48_000.0)
    both = starts(hatchback.job)
    assert both[near.name].delay == pytest.approx(1.4569e-3, abs=1e-7)
    assert (both[near.name].samples, both[near.name].behind) == (70, pytest.approx(0.5))
    assert both[far.name].delay == 0.0


def test_unknown_is_said_and_never_counted_as_nothing(hatchback):
    """Without tape, level and sample rate there are no such values, and one note each says why."""
    Processor.objects.update(sample_rate=None)
    every = starts(hatchback.job).values()
    assert all(start.delay is None and start.samples is None for start in every)
    assert {"distances-unknown", "sample-rates-unknown", "sensitivities-unknown"} <= said(
        hatchback.job
    ).keys()


def test_a_gain_is_held_by_what_the_coil_bears(hatchback):
    """75 W into 4 Ω are 17.3 V; a coil of 40 W stops at 12.65 V, read 12 dB lower."""
    start = starts(hatchback.job)[hatchback.tweeter_left.name]
    assert start.gain.full == pytest.approx(12.649, abs=1e-3)
    assert start.gain.held_by_coil
    cut = start.filters[0].cut
    passed = abs(cut.response(start.tone * 1.0))
    assert start.gain.reading == pytest.approx(12.649 * 10 ** (-12 / 20) * passed, rel=1e-3)


def test_levels_come_down_to_the_least_loud(hatchback):
    """The maker's level counts before the figures; the least loud stays, the others come down."""
    channel = hatchback.tweeter_left
    Driver.objects.filter(pk=channel.speaker.part_id).update(sensitivity=80.0)
    by_name = starts(hatchback.job)
    assert by_name[channel.name].trim == 0.0
    assert min(start.trim for start in by_name.values() if start.trim is not None) < -3.0
    assert all(start.pad is None for start in by_name.values() if not start.trim)


def _cross(lower: Channel, upper: Channel, shape: str) -> None:
    Channel.objects.filter(pk=lower.pk).update(lowpass_frequency=400.0, lowpass_shape=shape)
    Channel.objects.filter(pk=upper.pk).update(highpass_frequency=400.0, highpass_shape=shape)


def test_a_polarity_that_makes_a_hole_is_said_and_its_cure_takes_it_away(hatchback):
    """Linkwitz-Riley of the second order wants one inverted; planned alike there is a hole."""
    woofer = hatchback.job.channels.filter(name__icontains="woofer").first()
    mid = hatchback.job.channels.filter(name__icontains="midrange").first()
    Channel.objects.filter(pk__in=(woofer.pk, mid.pk)).update(side=Channel.Side.LEFT)
    _cross(woofer, mid, "lr12")
    assert "polarity-makes-hole" in said(hatchback.job)
    Channel.objects.filter(pk=mid.pk).update(inverted=True)
    keys = {
        finding.name
        for finding in work_out(load(hatchback.job)).findings
        if finding.code == "polarity-makes-hole"
    }
    assert f"{mid.name} · {woofer.name}" not in keys


def test_sides_are_kept_apart_and_chains_alike_drawn_once(hatchback):
    """A way of the left meets one of the left or of both sides, never one of the right."""
    setup = work_out(load(hatchback.job)).setup
    assert setup.meetings
    for meeting in setup.meetings:
        sides = {meeting.lower.side, meeting.upper.side} - {"", "both"}
        assert len(sides) < 2
    assert len(chains(setup)) == 1


def test_a_bessel_corner_means_what_its_shape_says(hatchback):
    """By phase the low-pass of the second order is 4.771 dB down at its corner, not 3.010."""
    # scipy.signal.bessel, norm 'phase' and 'mag'.
    levels = {}
    for shape in ("be12", "be12p", "be12d"):
        Channel.objects.filter(pk=hatchback.bass.pk).update(
            lowpass_frequency=80.0, lowpass_shape=shape
        )
        cut = starts(hatchback.job)[hatchback.bass.name].filters[-1].cut
        levels[shape] = abs(cut.response(80.0))
    assert levels == pytest.approx({"be12": 0.70711, "be12p": 0.57735, "be12d": 0.83205}, rel=1e-3)
