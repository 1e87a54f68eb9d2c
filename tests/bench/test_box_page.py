"""What a box page costs while somebody types: the curves alone, the whole page, the modes."""

from __future__ import annotations

import itertools
from urllib.parse import urlencode

import pytest
from django.urls import reverse

from acoustics.air.modes import judge_modes
from jobs.design.box import remembered
from jobs.design.box.boxes import work_out_box
from jobs.design.box.channel_feed import NOTHING, feed_of
from jobs.design.box.study import study
from jobs.design.job.whole import load
from jobs.design.wiring.channels import work_out_channels
from jobs.drawings.box.box_pictures import box_pictures
from jobs.drawings.box.study_pictures import study_charts
from tests.bench.clock import cost
from tests.jobs.pages.kinds import typed

pytestmark = [pytest.mark.bench, pytest.mark.django_db]


# Sealed and sloped, and vented.
@pytest.fixture(params=["hatchback", "saloon"])
def scene(request, hatchback, saloon):
    return {"hatchback": hatchback, "saloon": saloon}[request.param]


def forget() -> None:
    """Let bands and standing waves be worked out anew, as for figures never seen before."""
    remembered._bands.cache_clear()
    remembered._verdict.cache_clear()


def _box_and_feed(job):
    records = load(job)
    feeds = {one.channel.pk: feed_of(one) for one in work_out_channels(records)}
    box = records.boxes[0]
    return box, feeds.get(box.channel_id or 0, NOTHING)


def test_the_curves_alone(scene):
    """Wood, litres, port, every curve and every figure of a box take less than 30 ms."""
    box, feed = _box_and_feed(scene.job)
    spent = cost(lambda: work_out_box(box, feed), times=7, before=forget)
    print(f"\ncurves of a {box.kind} box: {spent}")
    assert spent.nominal < 0.030


def test_a_whole_box_recomputed(scene):
    """Curves, band of 2 000 draws, modes, clean level, high-pass and all drawings: 150 ms."""
    box, feed = _box_and_feed(scene.job)

    def whole() -> None:
        result = work_out_box(box, feed)
        assert result.findings
        made = study(result)
        assert made is not None
        assert made.bands is not None
        assert made.modes is not None
        box_pictures(result)
        study_charts(made)

    spent = cost(whole, times=7, before=forget)
    print(f"\na whole {box.kind} box: {spent}")
    assert spent.nominal < 0.150


def test_the_page_while_somebody_types(scene, browse):
    """The answer to a key, database, form and page included, takes less than 35 ms.

    Sent as a browser sends it: what is folded on a page just opened is not drawn.
    """
    client, box = browse("designer"), scene.box
    url = reverse("box-edit", args=[scene.code, box.pk])
    sent = typed(client.get(url).context["form"]) | {"row": box.pk}
    sent |= {"folded": ["box-more", "box-list", "box-further"]}
    preview = reverse("box-preview", args=[scene.code])
    widths = itertools.count(4610)

    def key() -> None:
        body = urlencode(sent | {"width": f"{next(widths) / 10} mm"}, doseq=True)
        answer = client.post(preview, body, content_type="application/x-www-form-urlencoded")
        assert answer.status_code == 200

    spent = cost(key, times=7, before=forget)
    print(f"\nbox page of {scene.code}, a key typed: {spent}")
    assert spent.nominal < 0.035


def test_the_modes_of_an_own_profile():
    """Ten modes of a stepped profile and of its square box, within 60 ms."""
    # Invented: a wheel arch under one corner.
    profile = [(0, 0), (0.3, 0), (0.3, 0.12), (0.42, 0.18), (0.42, 0.4), (0.05, 0.4)]
    square = [(0.0, 0.0), (0.42, 0.0), (0.42, 0.4), (0.0, 0.4)]
    for outline in (profile, square):
        spent = cost(
            lambda outline=outline: judge_modes(profile=outline, width=0.5, highest_used=120.0)
        )
        print(f"\nten modes, {len(outline)} corners: {spent}")
        assert spent.nominal < 0.060
