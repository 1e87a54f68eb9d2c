"""What was measured on a later visit, held against the one before and against the plan."""

from __future__ import annotations

import datetime as dt

import pytest
from django.urls import reverse

from jobs import units
from jobs.design.job.whole import load, work_out
from jobs.design.setup.visits import visits
from jobs.models import Channel, ChannelCurve

pytestmark = pytest.mark.django_db
CODES = {"quieter-than-before", "polarity-turned-since", "heard-outside-its-band"}
FIRST, LAST = dt.date(2026, 11, 1), dt.date(2026, 11, 20)
BANDS = {"Tweeter left": (4000, 16_000), "Midrange left": (500, 4000), "Woofer left": (80, 500)}


def _curve(job, name, day, level, **more):
    """A curve that is flat in the band of its channel, 30 dB less beside it."""
    low, high = BANDS[name]
    rows = [f"{f} {level if low <= f <= high else level - 30}" for f in range(50, 16_001, 50)]
    channel = Channel.objects.get(job=job, name=name)
    plain = {"place": "seat", "measured_by": "somebody", "measured_on": day}
    return ChannelCurve.objects.create(
        job=job, channel=channel, content="\n".join(rows), **(plain | more)
    )


def _found(job):
    findings = work_out(load(job)).findings
    return {(each.code, each.about.key): each for each in findings if each.code in CODES}


def test_a_tweeter_that_died_is_told_from_a_recorder_turned_down(hatchback):
    """All 4 dB quieter is the recorder; one 25 dB below that is not; mended, nothing is said."""
    job = hatchback.job
    for name in BANDS:
        _curve(job, name, FIRST, 80)
        _curve(job, name, LAST, 76)
    assert _found(job) == {}
    dead = _curve(job, "Tweeter left", LAST, 51)
    ((code, key),) = _found(job)
    assert (code, key) == ("quieter-than-before", str(dead.pk))
    finding = _found(job)[code, key]
    assert finding.value == pytest.approx(25.0, abs=0.5)
    assert "25" in finding.says
    _curve(job, "Tweeter left", LAST + dt.timedelta(days=1), 80)
    assert _found(job) == {}


def test_what_is_lost_is_said_from_where_to_where(hatchback):
    """Of all together the top two octaves are gone: a tweeter on a passive network."""
    job = hatchback.job
    whole = [(f, 80) for f in range(50, 16_001, 50)]
    for day, lost in ((FIRST, 0), (LAST, 20)):
        text = "\n".join(f"{f} {level - (lost if f > 4000 else 0)}" for f, level in whole)
        ChannelCurve.objects.create(
            job=job, content=text, place="seat", measured_by="somebody", measured_on=day
        )
    (pair,) = visits(ChannelCurve.objects.filter(job=job))
    low, high, drop = pair.lost
    assert 3500 < low < 4600
    assert high > 15_000
    assert drop == pytest.approx(20.0, abs=0.5)
    assert [code for code, _key in _found(job)] == ["quieter-than-before"]


@pytest.mark.parametrize(("high", "is_said"), [(7000, False), (9000, True)])
def test_less_than_an_octave_is_a_note_and_no_loss(hatchback, high, is_said):
    """From 4 to 7 kHz is eight tenths of an octave, to 9 kHz over one."""
    for day, lost in ((FIRST, 0), (LAST, 20)):
        text = "\n".join(f"{f} {80 - lost * (4000 < f < high)}" for f in range(50, 16_001, 50))
        ChannelCurve.objects.create(
            job=hatchback.job, content=text, place="seat", measured_by="x", measured_on=day
        )
    (pair,) = visits(ChannelCurve.objects.filter(job=hatchback.job))
    assert (pair.lost is not None) == is_said


@pytest.mark.parametrize(
    ("then", "now", "says"), [(False, True, True), (True, True, False), (None, True, False)]
)
def test_a_polarity_that_was_turned_is_said_with_the_day_it_was_another(hatchback, then, now, says):
    """Of two takes with marks that both can tell; what cannot be told is not said to be turned."""
    _curve(hatchback.job, "Woofer left", FIRST, 80, inverted=then, recorded=True)
    _curve(hatchback.job, "Woofer left", LAST, 80, inverted=now, recorded=True)
    found = _found(hatchback.job)
    assert [code for code, _key in found] == ["polarity-turned-since"] * says
    assert all("1 Nov 2026" in finding.says for finding in found.values())


def test_a_second_take_of_one_day_takes_the_place_of_the_first(hatchback):
    """It is no later visit."""
    for level in (80, 60):
        _curve(hatchback.job, "Woofer left", LAST, level)
    assert visits(ChannelCurve.objects.filter(job=hatchback.job)) == []


@pytest.mark.parametrize(
    ("name", "heard", "says"),
    [("Woofer left", "Tweeter left", True), ("Tweeter left", "Woofer left", True),
     ("Woofer left", "Woofer left", False)],
)  # fmt: skip
def test_another_channel_than_was_meant_is_told_by_where_it_plays(hatchback, name, heard, says):
    """A tweeter under a woofer's name, or left and right of the sweep exchanged; never its own."""
    row = _curve(hatchback.job, heard, LAST, 80)
    ChannelCurve.objects.filter(pk=row.pk).update(
        channel=Channel.objects.get(job=hatchback.job, name=name)
    )
    found = _found(hatchback.job)
    assert [code for code, _key in found] == ["heard-outside-its-band"] * says
    assert all("exchanged" in str(finding.cure) for finding in found.values())


def test_old_and_new_lie_on_each_other_and_what_moved_is_listed(hatchback, browse):
    """The page draws both and says how far each channel moved."""
    _curve(hatchback.job, "Woofer left", FIRST, 80, delay=0.002, delay_within=1e-4, recorded=True)
    _curve(hatchback.job, "Woofer left", LAST, 79, delay=0.004, delay_within=1e-4, recorded=True)
    url = reverse("setup-measured", args=[hatchback.code])
    html = browse("installer").get(url).content.decode()
    for part in (
        "Woofer left, 1 Nov 2026",
        "What moved since the visit before",
        units.show(0.002, "time"),
    ):
        assert part in html, part
