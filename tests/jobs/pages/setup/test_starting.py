"""The set-up page: what it shows, who may write distances down, and what bad input is told."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from jobs.models import Channel

pytestmark = pytest.mark.django_db


def sent(job, **distances: str) -> dict[str, str]:
    """What a browser sends of the distances: every channel with an amplifier."""
    data = {}
    for channel in job.channels.filter(amplifier__isnull=False):
        data[f"c{channel.pk}-distance"] = distances.get(f"c{channel.pk}", "")
        data[f"c{channel.pk}-version"] = str(channel.version)
    return data


def test_the_page_shows_every_channel_with_its_reading(hatchback, browse):
    """Each amplified channel stands there with the voltage to set."""
    client = browse("installer")
    html = client.get(reverse("setup", args=[hatchback.job.code])).content.decode()
    for channel in hatchback.job.channels.filter(amplifier__isnull=False):
        assert channel.name in html
    assert "12.65" in html.replace("\N{NO-BREAK SPACE}", " ")
    assert "Hearing" in html


def test_an_installer_writes_the_tape_down(hatchback, browse):
    """Typed in centimetres or inches, stored in metres, and the delay is there."""
    client = browse("installer")
    job, channel = hatchback.job, hatchback.tweeter_left
    url = reverse("setup-distances", args=[job.code])
    answer = client.post(url, sent(job, **{f"c{channel.pk}": "95 cm"}))
    assert answer.status_code == 302
    channel.refresh_from_db()
    assert channel.distance == pytest.approx(0.95)
    assert channel.history.first().history_user.roles == ["installer"]


@pytest.mark.parametrize("typed", ["12 m", "0", "-1 m", "12 bananas"])
def test_a_distance_that_cannot_be_is_refused_and_kept(hatchback, browse, typed):
    """Nothing is saved, what was typed stands there, and the field says what is wrong."""
    client = browse("installer")
    job, channel = hatchback.job, hatchback.tweeter_left
    other = hatchback.bass
    data = sent(job, **{f"c{channel.pk}": typed, f"c{other.pk}": "2 m"})
    answer = client.post(reverse("setup-distances", args=[job.code]), data)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert f'value="{typed}"' in html
    assert f'id="id_c{channel.pk}-distance_error"' in html
    other.refresh_from_db()
    assert other.distance is None


def test_the_second_of_two_is_told(hatchback, browse):
    """Somebody else changed the channel meanwhile: nothing is overwritten, saved again it is."""
    client = browse("installer")
    job, channel = hatchback.job, hatchback.tweeter_left
    data = sent(job, **{f"c{channel.pk}": "1 m"})
    channel.distance, channel.version = 1.5, channel.version + 1
    channel.save()
    url = reverse("setup-distances", args=[job.code])
    answer = client.post(url, data)
    assert answer.status_code == 422
    channel.refresh_from_db()
    assert channel.distance == 1.5
    data[f"c{channel.pk}-version"] = str(channel.version)
    assert f'name="c{channel.pk}-version" value="{channel.version}"' in answer.content.decode()
    assert client.post(url, data).status_code == 302
    channel.refresh_from_db()
    assert channel.distance == 1.0


def test_the_loudest_of_each_channel_is_said_in_both_weightings(hatchback, browse):
    """Bass reads far less on A than on C, and its times say why not to go by A alone."""
    answer = browse("installer").get(reverse("setup", args=[hatchback.code]))
    hearing = {each.channel: each for each in answer.context["hearing"]}
    bass = hearing[hatchback.bass]
    assert bass.in_c - bass.in_a > 15.0
    assert bass.in_a < bass.in_c < bass.loudest + 0.1
    html = answer.content.decode()
    assert "WHO-ITU H.870" in html
    assert re.search(r">\s*\d+\smin\b", html)  # a tweeter at full scale: minutes, not 0.13 h


def test_where_no_level_is_known_nothing_is_said_of_hearing(hatchback, browse):
    """A channel without a part's level has no row, and without any row there is no table."""
    Channel.objects.filter(job=hatchback.job).update(speaker=None, factory_speaker=None)
    answer = browse("installer").get(reverse("setup", args=[hatchback.code]))
    assert answer.context["hearing"] == []
    assert "WHO-ITU H.870" not in answer.content.decode()
