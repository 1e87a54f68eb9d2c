"""The channel plan against its parts: what is open, and what cannot be."""

from __future__ import annotations

from copy import copy
from dataclasses import replace

import pytest

from jobs.design.job.whole import load
from jobs.design.records.about import About, about
from jobs.design.wiring.channels import work_out_channels

pytestmark = pytest.mark.django_db


def codes(records, channel) -> set[str]:
    """Codes of one channel of the plan."""
    results = {result.channel.pk: result for result in work_out_channels(records)}
    return {finding.code for finding in results[channel.pk].findings}


def test_an_output_beyond_the_last_is_a_stop(hatchback):
    """A processor of so many outputs has that one and not the next, and none need be named."""
    records = load(hatchback.job)
    channel = next(c for c in records.channels if c.processor and c.processor_output)
    outputs = channel.processor.part.processor.outputs
    for wanted, stops in ((outputs, False), (outputs + 1, True), (None, False)):
        channel.processor_output = wanted
        assert ("processor-output-beyond-last" in codes(records, channel)) is stops


def test_an_amplifier_channel_beyond_the_last_is_a_stop(hatchback):
    """An amplifier of so many channels has that one and not the next."""
    records = load(hatchback.job)
    channel = next(c for c in records.channels if c.amplifier and c.amplifier_channel)
    channels = records.amplifiers[channel.amplifier.part_id].channels
    for wanted, stops in ((channels, False), (channels + 1, True)):
        channel.amplifier_channel = wanted
        assert ("amplifier-channel-beyond-last" in codes(records, channel)) is stops


def test_what_the_plan_leaves_open_is_said(hatchback):
    """Without a speaker, an amplifier or an output each channel says so; whole it says none."""
    records = load(hatchback.job)
    channel = next(c for c in records.channels if c.speaker and c.amplifier and c.amplifier_channel)
    open_ends = {"channel-without-speaker", "channel-without-amplifier", "channel-without-output"}
    assert not codes(records, channel) & open_ends
    channel.amplifier_channel = None
    assert codes(records, channel) & open_ends == {"channel-without-output"}
    channel.amplifier = None
    assert codes(records, channel) & open_ends == {"channel-without-amplifier"}
    channel.speaker = None
    assert codes(records, channel) & open_ends == {"channel-without-speaker"}


def test_every_cable_of_a_channel_is_checked(hatchback):
    """A second cable to a channel hides nothing of the first, and each is decided for itself."""
    records = load(hatchback.job)
    thin = next(run for run in records.runs if run.channel_id and run.length)
    channel = next(one for one in records.channels if one.pk == thin.channel_id)
    thin.length = 60.0

    def lost(runs) -> list[About]:
        results = work_out_channels(replace(records, runs=runs))
        found = [one for result in results for one in result.findings]
        return [one.about for one in found if one.code == "speaker-run-loss"]

    of_thin = about(channel, about(thin).id)
    assert lost(records.runs) == [of_thin]
    short, long = copy(thin), copy(thin)
    short.pk, short.number, short.length = 9_001, 91, 0.1
    long.pk, long.number = 9_002, 92
    assert lost([*records.runs, short]) == [of_thin]
    assert lost([short, *records.runs]) == [of_thin]
    assert sorted(lost([*records.runs, long]), key=str) == sorted(
        [of_thin, about(channel, about(long).id)], key=str
    )


def test_the_heat_somebody_measured_counts_for_a_speaker_run_too(hatchback):
    """Air hotter than its insulation leaves a speaker cable nothing to carry."""
    records = load(hatchback.job)
    run = next(run for run in records.runs if run.channel_id and run.length)

    def says(code: str) -> bool:
        results = work_out_channels(records)
        return any(f.code == code for result in results for f in result.findings)

    assert not says("speaker-run-ampacity-unknown")
    run.ambient = 273.15 + 115.0
    assert says("speaker-run-ampacity-unknown")
