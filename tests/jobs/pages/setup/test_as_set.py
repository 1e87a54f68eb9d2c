"""The set-up as it was left: written by installers, compared with the visit before, printed."""

from __future__ import annotations

import datetime as dt

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import ChannelSetting, SheetKind
from jobs.pages.setup.as_set import ChannelSettingForm
from jobs.sheets.issue import printed

pytestmark = pytest.mark.django_db


def settings_of(hatchback):
    """What is kept of the tweeter on the left."""
    return ChannelSetting.objects.filter(channel=hatchback.tweeter_left)


def write(hatchback, **more) -> ChannelSetting:
    """Write the tweeter on the left down."""
    plain = {"set_on": dt.date(2026, 11, 29), "set_by": "somebody"}
    return ChannelSetting.objects.create(
        job=hatchback.job, channel=hatchback.tweeter_left, **plain | more
    )


def test_a_new_row_begins_with_what_holds(hatchback):
    """With the plan at first, then with what was set last: whoever writes changes what differs."""
    settings_of(hatchback).delete()
    channel = hatchback.tweeter_left
    begun = ChannelSettingForm(
        instance=ChannelSetting(job=hatchback.job), initial={"channel": str(channel.pk)}
    )
    assert begun.initial["highpass_frequency"] == channel.highpass_frequency
    write(hatchback, level=-4.5)
    again = ChannelSettingForm(
        instance=ChannelSetting(job=hatchback.job), initial={"channel": str(channel.pk)}
    )
    assert again.initial["level"] == -4.5


def test_an_installer_writes_a_channel_down(hatchback, browse):
    """Typed with units, kept in SI, and the page shows it."""
    client = browse("installer")
    settings_of(hatchback).delete()
    url = reverse("channel-setting-add", args=[hatchback.code])
    sent = {
        "channel": hatchback.tweeter_left.pk, "set_on": "2026-11-29", "set_by": "Ina",
        "level": "-2.5 dB", "delay": "1.2 ms", "gain_voltage": "2.9 V", "inverted": "on",
    }  # fmt: skip
    assert client.post(url, sent).status_code == 302
    row = settings_of(hatchback).get()
    assert (row.level, row.delay, row.inverted) == (-2.5, pytest.approx(1.2e-3), True)
    html = client.get(reverse("setup-as-set", args=[hatchback.code])).content.decode()
    assert "Ina" in html
    assert "not written down" in html


@pytest.mark.parametrize(
    ("name", "typed"), [("delay", "12 bananas"), ("delay", "-1 ms"), ("gain_voltage", "loud")]
)
def test_what_cannot_be_is_kept_and_answered(hatchback, browse, name, typed):
    """Nothing is saved; what was typed stands in its field."""
    before = settings_of(hatchback).count()
    url = reverse("channel-setting-add", args=[hatchback.code])
    sent = {
        "channel": hatchback.tweeter_left.pk, "set_on": "2026-11-29", "set_by": "Ina",
        "level": "0", "delay": "0", name: typed,
    }  # fmt: skip
    answer = browse("installer").post(url, sent)
    assert answer.status_code == 422
    assert f'value="{typed}"' in answer.content.decode()
    assert settings_of(hatchback).count() == before


def test_a_later_visit_says_what_moved(hatchback, browse):
    """Polarity and level of the newest row against the one before, and nothing that stayed."""
    settings_of(hatchback).delete()
    write(hatchback, set_on=dt.date(2026, 11, 20), level=-1.0, delay=0.001)
    write(hatchback, level=-3.0, delay=0.001, inverted=True)
    each = next(
        each
        for each in work_out(load(hatchback.job)).as_set
        if each.channel.pk == hatchback.tweeter_left.pk
    )
    assert {what for what, _then, _now in each.moved} == {"level", "polarity inverted"}
    html = browse("installer").get(reverse("setup-as-set", args=[hatchback.code])).content.decode()
    assert "polarity inverted as it is → inverted" in html


@pytest.mark.parametrize(
    ("share", "code", "severity"),
    [(1.5, "gain-above-start", "look"), (0.5, "gain-below-start", "note"), (1.05, None, None)],
)
def test_a_gain_is_held_against_amplifier_and_coil(hatchback, share, code, severity):
    """A tenth more or less is what meters and knobs do; beyond it is said."""
    settings_of(hatchback).delete()
    starts = work_out(load(hatchback.job)).setup.starts
    start = next(s for s in starts if s.channel.pk == hatchback.tweeter_left.pk)
    write(hatchback, gain_voltage=share * start.gain.reading)
    found = {
        each.code: each.severity
        for each in work_out(load(hatchback.job)).findings_of("setup")
        if each.code.startswith("gain-")
    }
    assert found == ({code: severity} if code else {})


def test_the_step_is_complete_only_when_every_channel_is_written_down(hatchback):
    """Nothing set, some of them, all of them."""
    ChannelSetting.objects.all().delete()
    assert work_out(load(hatchback.job)).state_of("setup").says == "nothing set yet"
    write(hatchback)
    assert work_out(load(hatchback.job)).state_of("setup").state == "missing"
    for channel in hatchback.job.channels.filter(amplifier__isnull=False):
        ChannelSetting.objects.create(
            job=hatchback.job, channel=channel, set_on=dt.date(2026, 11, 29), set_by="somebody"
        )
    assert work_out(load(hatchback.job)).state_of("setup").state != "missing"


def test_the_handover_prints_what_was_set_and_marks_what_is_only_planned(hatchback):
    """What nobody wrote down is called planned, never set."""
    ChannelSetting.objects.all().delete()
    write(hatchback, level=-7.3)
    design = work_out(load(hatchback.job))
    html, _data = printed(
        design, sheets.SHEETS[SheetKind.HANDOVER], sheets.Options(), revision=1, at=timezone.now()
    )
    assert "-7.3" in html.replace("−", "-")
    ours = hatchback.job.channels.filter(amplifier__isnull=False).count()
    assert html.count("as planned") == ours - 1
