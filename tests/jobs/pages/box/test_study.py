"""The study page: opened by members, by its own job only, and loaded late inside the box page."""

from __future__ import annotations

import pytest
from django.urls import reverse
from django.utils import translation

from jobs import units
from jobs.design.box.study import study
from jobs.design.job.whole import load, work_out
from jobs.models import Box
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def _url(scene, code: str = "") -> str:
    return reverse("study", args=[code or scene.code, scene.box.pk])


def test_a_member_reads_the_study_in_figures(hatchback, browse):
    """The page shows the figures and bands of the calculators, and every chart."""
    answer = browse("installer").get(_url(hatchback))
    assert answer.status_code == 200
    html = answer.content.decode()
    box = hatchback.box
    made = study(work_out(load(hatchback.job)).saved_box(box.pk))
    with translation.override("en"):
        for one in made.figures:
            assert units.show(one.low, one.kind) in html
            assert units.show(one.high, one.kind) in html
    assert html.count("<svg") > 3
    assert all(f'data-code="{one.code}"' in html for one in made.findings)
    assert "<main" in html


def test_the_box_page_loads_it_late_and_without_a_page_around_it(hatchback, browse):
    """The box page names the address; the answer to it is a part, not a page in a page."""
    client, box = browse("designer"), hatchback.box
    assert (
        f'hx-get="{_url(hatchback)}"'
        in client.get(reverse("box-edit", args=[hatchback.code, box.pk])).content.decode()
    )
    part = client.get(_url(hatchback), headers={"HX-Request": "true"})
    assert "<main" not in part.content.decode()
    assert "HX-Request" in part.headers["Vary"]
    new = client.get(reverse("box-add", args=[hatchback.code])).content.decode()
    assert "/study/" not in new


def test_a_stranger_and_another_job_get_404(hatchback, van, browse):
    """To a stranger there is nothing, and no job opens the box of another."""
    assert browse("stranger").get(_url(hatchback)).status_code == 404
    assert browse("manager").get(_url(hatchback, van.code)).status_code == 404
    assert browse("manager").get(reverse("study", args=[hatchback.code, 10**6])).status_code == 404


def test_the_study_is_only_read(hatchback, browse):
    """No other method than reading is answered."""
    client = browse("manager")
    assert client.post(_url(hatchback)).status_code == 405
    assert client.delete(_url(hatchback)).status_code == 405


def test_a_box_not_worked_out_says_so(hatchback, browse):
    """Without a driver there is a sentence instead of a study."""
    box = Box.objects.create(job=hatchback.job, name="invented, no driver")
    answer = browse("designer").get(reverse("study", args=[hatchback.code, box.pk]))
    assert answer.status_code == 200
    assert "not worked out" in answer.content.decode()


def test_a_box_is_studied_while_it_is_typed(hatchback, browse):
    """The study of a box being typed is that of what stands in the form, saved or not."""
    client, box = browse("designer"), hatchback.box
    url = reverse("box-edit", args=[hatchback.code, box.pk])
    sent = typed(client.get(url).context["form"]) | {"row": box.pk, "width": "700 mm"}
    answer = client.post(reverse("box-study-preview", args=[hatchback.code]), sent)
    assert answer.status_code == 200
    assert "2 000 draws" in answer.content.decode()
    made = answer.context["study"]
    saved = study(work_out(load(hatchback.job)).saved_box(box.pk))
    assert made.bands.resonance.low < saved.bands.resonance.low  # more litres, lower resonance
    for slug in ("box-preview", "box-study-preview"):
        empty = client.post(reverse(slug, args=[hatchback.code]), {"name": "new"})
        assert "not worked out" in empty.content.decode()


def test_a_key_is_answered_before_the_study(saloon, browse):
    """What is shown at once and what follows together say what the saved page says."""
    client = browse("designer")
    box = saloon.box
    url = reverse("box-edit", args=[saloon.code, box.pk])
    page = client.get(url)
    sent = typed(page.context["form"]) | {"row": box.pk}
    quick = client.post(reverse("box-preview", args=[saloon.code]), sent)
    html = quick.content.decode()
    assert "2 000 draws" not in html
    assert "follows when you pause" in html
    assert [v[:2] for v in quick.context["results"]] == [v[:2] for v in page.context["results"]]
    late = client.post(reverse("box-study-preview", args=[saloon.code]), sent)
    codes = [[one.code for one in r.context["findings"]] for r in (page, quick, late)]
    assert codes[0] == codes[2]
    assert set(codes[1]) < set(codes[0])


def test_a_refused_page_fetches_its_study_as_a_key_does(hatchback, browse):
    """Where a box could not be saved, what its page says will follow is asked for."""
    client, box = browse("designer"), hatchback.box
    url = reverse("box-edit", args=[hatchback.code, box.pk])
    sent = typed(client.get(url).context["form"]) | {"cut_depth": "12 bananas"}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert "follows when you pause" in html
    assert f'hx-post="{reverse("box-study-preview", args=[hatchback.code])}"' in html


def test_the_study_of_a_typed_box_is_for_who_may_type_it(hatchback, browse):
    """Stranger 404, wrong role 403, reading 405, no such box 404."""
    address = reverse("box-study-preview", args=[hatchback.code])
    assert browse("stranger").post(address).status_code == 404
    assert browse("installer").post(address).status_code == 403
    assert browse("designer").get(address).status_code == 405
    assert browse("designer").post(address, {"row": 9999}).status_code == 404
