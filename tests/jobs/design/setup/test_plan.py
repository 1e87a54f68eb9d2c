"""The channel plan held against its parts: each check has its reason, a sound plan has none."""

from __future__ import annotations

import pytest

from jobs.design.job.whole import load, work_out
from jobs.models import Channel, Driver, FactoryPart, Job, Processor

pytestmark = pytest.mark.django_db

PLAN = {
    "speakers-fed-twice", "speakers-not-fed", "processor-output-shared", "high-pass-above-low-pass",
    "filter-beyond-processor", "no-high-pass", "high-pass-near-resonance",
    "lowest-it-bears-unknown", "low-pass-where-cone-beams", "moves-beyond-xmax",
    "factory-speaker-is-out",
}  # fmt: skip


def codes(job: Job) -> dict[str, str]:
    """What the plan checks say of a job: code and severity."""
    findings = work_out(load(job)).findings
    return {each.code: each.severity for each in findings if each.code in PLAN}


def tweeter(hatchback) -> Driver:
    """The catalogue's figures of the tweeter on the left."""
    return Driver.objects.get(pk=hatchback.tweeter_left.speaker.part_id)


def test_a_sound_plan_has_nothing_said_of_it(hatchback):
    """Every driver is fed once, every filter makes sense."""
    assert codes(hatchback.job) == {}


@pytest.mark.parametrize(("count", "code"), [(2, "speakers-fed-twice"), (0, "speakers-not-fed")])
def test_each_driver_on_the_list_is_fed_once(hatchback, count, code):
    """More on the channels than on the list, or fewer, is said."""
    channel = hatchback.tweeter_left
    if count:
        channel.speaker_count = count
        channel.save()
    else:
        channel.remove()
    assert codes(hatchback.job)[code] == "look"


def test_an_output_cannot_say_two_things(hatchback):
    """Two channels on one processor output differ, and the second is told; alike they may share."""
    first, second = hatchback.job.channels.all()[:2]
    second.processor_output = first.processor_output
    second.save()
    assert "processor-output-shared" in codes(hatchback.job)
    for name in ("highpass_frequency", "highpass_shape", "lowpass_frequency", "lowpass_shape"):
        setattr(second, name, getattr(first, name))
    second.level, second.delay = first.level, first.delay
    second.save()
    assert "processor-output-shared" not in codes(hatchback.job)


def test_a_band_with_nothing_in_it_is_said(hatchback):
    """A high-pass at or above the low-pass leaves nothing."""
    Channel.objects.filter(pk=hatchback.bass.pk).update(
        highpass_frequency=90.0, highpass_shape="lr24", lowpass_frequency=90.0
    )
    assert codes(hatchback.job)["high-pass-above-low-pass"] == "look"


def test_a_filter_beyond_half_the_sample_rate_is_said(hatchback):
    """No processor plays a corner at half its sample rate or above."""
    channel = hatchback.tweeter_left
    Processor.objects.filter(pk=channel.processor.part_id).update(sample_rate=48_000.0)
    Channel.objects.filter(pk=channel.pk).update(lowpass_frequency=24_000.0, lowpass_shape="bw6")
    assert codes(hatchback.job)["filter-beyond-processor"] == "look"


@pytest.mark.parametrize(
    ("fs", "corner", "code", "severity"),
    [
        (1100.0, None, "no-high-pass", "stop"),
        (1100.0, 2000.0, "high-pass-near-resonance", "look"),
        (None, None, "lowest-it-bears-unknown", "look"),
    ],
)
def test_a_tweeter_is_kept_from_bass(hatchback, fs, corner, code, severity):
    """Without a high-pass it must not be fitted so; unknown is said, and so is a close call."""
    driver = tweeter(hatchback)
    driver.fs = fs
    driver.save()
    Channel.objects.filter(pk=hatchback.tweeter_left.pk).update(
        highpass_frequency=corner, highpass_shape="lr24" if corner else ""
    )
    assert codes(hatchback.job)[code] == severity


def test_a_door_driver_that_leaves_its_travel_is_said(hatchback):
    """A woofer without a box and without a high-pass moves beyond what its maker allows."""
    woofer = hatchback.job.channels.filter(name__icontains="woofer").first()
    Channel.objects.filter(pk=woofer.pk).update(highpass_frequency=None, highpass_shape="")
    found = [f for f in work_out(load(hatchback.job)).findings if f.code == "moves-beyond-xmax"]
    assert [finding.name for finding in found] == [woofer.name]
    assert found[0].value > found[0].limit == 0.005


def test_a_factory_speaker_that_is_out_plays_nothing(hatchback):
    """A channel that ends at a factory speaker of which was decided that it goes is told."""
    part = FactoryPart.objects.filter(job=hatchback.job, kind="speaker").first()
    FactoryPart.objects.filter(pk=part.pk).update(fate=FactoryPart.Fate.REMOVED)
    Channel.objects.create(
        job=hatchback.job, name="Rear", source="factory amplifier", factory_speaker=part
    )
    assert codes(hatchback.job)["factory-speaker-is-out"] == "look"


def test_a_cone_that_beams_is_told_as_a_note(hatchback):
    """A 16 cm cone (132 cm²) that plays to 5 kHz is heard less from the side above 1.7 kHz."""
    woofer = hatchback.job.channels.filter(name__icontains="woofer").first()
    Channel.objects.filter(pk=woofer.pk).update(lowpass_frequency=5000.0)
    assert codes(hatchback.job)["low-pass-where-cone-beams"] == "note"


def _set(row, **values):
    for name, value in values.items():
        setattr(row, name, value)


def _twice(first, second):
    second.amplifier_id, second.amplifier_channel = first.amplifier_id, first.amplifier_channel


def _bare(channel):
    _set(channel, highpass_frequency=None)
    _set(channel.speaker.part.driver, fs=1100.0)


# The signal of the factory without the part that converts it: `test_complete.py` of the wiring.
BROKEN = {
    "speakers-fed-twice": lambda plan: _set(plan["Tweeter left"], speaker_count=2),
    "speakers-not-fed": lambda plan: _set(plan["Tweeter left"], speaker=None),
    "amplifier-channel-claimed-twice": lambda plan: _twice(
        plan["Tweeter left"], plan["Woofer left"]
    ),
    "processor-output-shared": lambda plan: _set(plan["Woofer left"], processor_output=1),
    "processor-output-beyond-last": lambda plan: _set(plan["Woofer left"], processor_output=64),
    "load-below-amplifier-lowest": lambda plan: _set(plan["Woofer left"], speaker_count=8),
    "programme-above-coil": lambda plan: _set(plan["Woofer left"].speaker.part.driver, power=0.5),
    "no-high-pass": lambda plan: _bare(plan["Tweeter left"]),
    "high-pass-above-low-pass": lambda plan: _set(plan["Woofer left"], highpass_frequency=400.0),
    "moves-beyond-xmax": lambda plan: _set(
        plan["Woofer left"], highpass_frequency=None, highpass_shape=""
    ),
    "factory-speaker-is-out": lambda plan: _set(
        plan["Bass"], factory_speaker=FactoryPart(kind="speaker", fate=FactoryPart.Fate.REMOVED)
    ),
}


@pytest.mark.parametrize("code", BROKEN)
def test_each_check_of_the_plan_comes_and_goes(hatchback, code):
    """Nothing is said of the plan as it is; with one thing wrong that is said; mended, no more."""
    for wrong in (False, True, False):
        records = load(hatchback.job)
        if wrong:
            BROKEN[code]({channel.name: channel for channel in records.channels})
        codes_now = [finding.code for finding in work_out(records).findings]
        assert (code in codes_now) == wrong
