"""The channel plan suggested from the equipment list: each driver once, nothing twice."""

from __future__ import annotations

from collections import Counter
from types import SimpleNamespace

import pytest
from django.urls import reverse

from jobs.design.job.whole import load, work_out
from jobs.design.setup.suggest import _high_pass, suggest
from jobs.models import Amplifier, Channel, Driver, Part, Processor

pytestmark = pytest.mark.django_db
WRONG = {
    "speakers-fed-twice", "speakers-not-fed", "amplifier-channel-claimed-twice", "no-high-pass",
    "processor-output-shared", "processor-output-beyond-last", "amplifier-channel-beyond-last",
    "load-below-amplifier-lowest",
}  # fmt: skip


@pytest.fixture
def bare(hatchback):
    """The hatchback without a plan."""
    Channel.objects.filter(job=hatchback.job).delete()
    return hatchback


def test_a_whole_plan_leaves_nothing_to_suggest(hatchback):
    """Each driver is fed; what a person planned is not touched."""
    suggestion = suggest(load(hatchback.job))
    assert (suggestion.channels, suggestion.left_over) == ([], [])


def test_each_driver_is_fed_once_and_the_plan_stands_its_checks(bare, browse):
    """Put in, nothing is said of it; sent once more, nothing is put in twice."""
    client, url = browse("designer"), reverse("channels-suggested", args=[bare.code])
    page = client.get(reverse("channels", args=[bare.code])).content.decode()
    assert "Suggested from the equipment list" in page
    for _sent in range(2):
        assert client.post(url).status_code == 302
    channels = list(Channel.objects.filter(job=bare.job))
    fed = Counter(channel.speaker_id for channel in channels)
    drivers = bare.job.equipmentitems.filter(part__kind=Part.Kind.DRIVER)
    assert fed == {item.pk: item.quantity for item in drivers}
    codes = {finding.code for finding in work_out(load(bare.job)).findings}
    assert codes & WRONG == set()
    (bass,) = (channel for channel in channels if channel.speaker_id == bare.sub.pk)
    assert Amplifier.objects.get(pk=bass.amplifier.part_id).channels == 1
    tweeters = [channel for channel in channels if channel.highpass_frequency]
    for channel in tweeters:
        assert channel.highpass_frequency >= 2 * channel.speaker.part.driver.fs


def test_where_something_runs_out_it_is_said_of_whom(bare):
    """Without outputs, or without an amplifier that bears it, no channel is invented."""
    whole = suggest(load(bare.job))
    assert whole.left_over == []
    Processor.objects.update(outputs=2)
    short = suggest(load(bare.job))
    assert len(short.channels) == 2
    assert len(short.left_over) == len(whole.channels) - 2
    assert {why for _name, why in short.left_over} == {"no processor output is left"}
    Amplifier.objects.update(lowest_load=1000.0)
    none = suggest(load(bare.job))
    assert none.channels == []
    assert {why for _name, why in none.left_over} == {"no amplifier channel that bears it is left"}


def test_an_installer_is_offered_nothing(bare, browse):
    """Whoever does not plan sees no suggestion."""
    html = browse("installer").get(reverse("channels", args=[bare.code])).content.decode()
    assert "Suggested from the equipment list" not in html


@pytest.mark.parametrize(
    ("fs", "corner"),
    [(1000.0, 2000.0), (1001.0, 2100.0), (300.0, 600.0), (299.0, None), (None, None)],
)
def test_what_resonates_high_is_crossed_at_twice_that_in_round_figures(fs, corner):
    """Up to the next 100 Hz; what resonates low, or nobody knows where, is left without."""
    driver = Driver(name="tweeter", fs=fs)
    item = SimpleNamespace(part=SimpleNamespace(driver=driver))
    expected = {"highpass_frequency": corner, "highpass_shape": "lr24"} if corner else {}
    assert _high_pass(item) == expected
