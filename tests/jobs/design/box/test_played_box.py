"""A box as its channel plays it: filters, cable and amplifier in curves, figures and findings."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import signal

from jobs.design.box.boxes import work_out_box
from jobs.design.box.channel_feed import Feed, feed_of, filters_of
from jobs.design.job.whole import load, work_out
from jobs.design.records.findings import decided
from jobs.design.wiring.channels import work_out_channels
from jobs.models import Box, Channel, Decision, FilterShape

pytestmark = pytest.mark.django_db
F = np.array([15.0, 30.0, 60.0, 120.0, 240.0])


@pytest.mark.parametrize("shape", FilterShape.values)
@pytest.mark.parametrize("side", ["high", "low"])
def test_every_shape_of_the_plan_is_the_library_s_filter(shape, side):
    """Second method: scipy.signal's analogue prototypes; Linkwitz-Riley is one of them twice."""
    channel = Channel(**{f"{side}pass_frequency": 60.0, f"{side}pass_shape": shape})
    order = int(shape[2:4]) // 6
    norm = {"p": "phase", "d": "delay"}.get(shape[4:], "mag")
    make, twice = signal.butter, shape.startswith("lr")
    if shape.startswith("be"):
        make = lambda n, w, kind, analog: signal.bessel(n, w, kind, analog=True, norm=norm)  # noqa: E731
    b, a = make(order // 2 if twice else order, 2 * np.pi * 60.0, side, analog=True)
    s = 2j * np.pi * F
    gain = np.polyval(b, s) / np.polyval(a, s)
    found = filters_of(channel)
    assert found is not None
    assert found.response(F) == pytest.approx(gain**2 if twice else gain, rel=1e-6)


def test_a_filter_without_a_shape_is_said_and_left_out(hatchback):
    """Nothing is guessed: the curve is drawn without it, and a look says so."""
    job = hatchback.job
    box = hatchback.box
    Channel.objects.filter(pk=box.channel_id).update(lowpass_shape="", highpass_frequency=None)
    result = work_out(load(job)).boxes[0]
    assert result.feed.filters is None
    assert "filter-shape-unknown" in [one.code for one in result.findings]


def test_cable_and_filters_are_in_the_curves(hatchback):
    """The impedance carries the cable; level and travel are drawn with and without filters."""
    job = hatchback.job
    records = load(job)
    feeds = {one.channel.pk: feed_of(one) for one in work_out_channels(records)}
    box = records.boxes[0]
    feed = feeds[box.channel_id]
    assert feed.cable_resistance > 0
    result = work_out_box(box, feed)
    bare = work_out_box(box, Feed(voltage=feed.voltage))
    far = result.alone.at(frequencies=[1e-3]).impedance.real
    near = bare.alone.at(frequencies=[1e-3]).impedance.real
    assert far - near == pytest.approx(feed.cable_resistance)
    gain = np.abs(feed.filters.response(result.curves["spl"].frequencies))
    beside = {one.name: one for one in result.beside["spl"]}
    assert set(beside) == {"unfiltered", "hot", "stated"}
    level = result.curves["spl"].values - beside["unfiltered"].values
    assert level == pytest.approx(20 * np.log10(gain), abs=1e-6)
    down = 20 * np.log10(result.voltage / box.test_voltage)
    assert beside["unfiltered"].values - beside["stated"].values == pytest.approx(down)
    assert set(result.curves) >= {"impedance", "impedance_phase", "group_delay"}
    assert np.abs(result.curves["impedance_phase"].values).max() < np.pi / 2


def test_travel_is_judged_as_it_is_played_and_both_are_shown(hatchback):
    """A high-pass that holds the cone cures the finding, though without it the cone would pass."""
    job = hatchback.job
    Box.objects.filter(job=job).update(test_voltage=30.0)
    Channel.objects.filter(pk=hatchback.bass.pk).update(highpass_frequency=None)
    open_ = _bass(job)
    travel = {one.name: one.value for one in open_.figures}
    limit = 0.9 * travel["largest_excursion"]
    part = open_.box.driver.part.driver
    part.xmax = limit
    part.save()
    assert "excursion-above-xmax" in [one.code for one in _bass(job).findings]
    Channel.objects.filter(pk=hatchback.bass.pk).update(
        highpass_frequency=45.0, highpass_shape="bw24"
    )
    held = _bass(job)
    figures = {one.name: one.value for one in held.figures}
    assert figures["largest_excursion"] < limit < figures["unfiltered_excursion"]
    assert "excursion-above-xmax" not in [one.code for one in held.findings]


def _bass(job):
    return next(one for one in work_out(load(job)).boxes if one.box.chosen)


def test_what_the_spread_says_can_be_decided(hatchback):
    """A band across Xmax is a finding of the job, in units, and a decision settles it."""
    job = hatchback.job
    part = _bass(job).box.driver.part.driver
    part.xmax = float(_bass(job).bands.largest_excursion.median)
    part.save()
    records = load(job)
    found = [one for one in work_out(records).findings if one.code == "spread-crosses-xmax"]
    [one] = found
    assert one.is_open
    assert one.shown_limit.endswith("mm")
    assert one.shown_value.endswith("mm")
    made = Decision(fingerprint=one.fingerprint, code=one.code, where=one.where, reason="heard it")
    assert not decided([one], [made])[0].is_open


def test_a_radiator_is_held_against_its_own_travel(hatchback):
    """A passive radiator that moves further than its maker allows is a look; so is not knowing."""
    job = hatchback.job
    item = hatchback.sub
    box = Box.objects.create(
        job=job, name="invented", kind="passive_radiator", driver=item, radiator=item,
        wanted_volume=0.05, radiator_count=1, test_voltage=40.0,
    )  # fmt: skip
    part = item.part.driver
    codes = lambda: {one.code for one in work_out(load(job)).saved_box(box.pk).findings}  # noqa: E731
    assert "radiator-above-xmax" in codes()
    part.xmax = None
    part.save()
    assert {"radiator-xmax-unknown", "xmax-unknown"} <= codes()
