"""The page of a finished box's sweep: entered from the bay, refused in words, nothing lost."""

from __future__ import annotations

import pytest
from django.urls import reverse

from jobs import units
from jobs.models import BoxSweep
from tests.jobs.pages.kinds import typed
from tests.jobs.sweeps import BOXED_SUB, THIS_SUB, sweep_text

pytestmark = pytest.mark.django_db
GOOD = sweep_text(BOXED_SUB, 6)


def _sent(client, hatchback, **more):
    url = reverse("box-sweep-add", args=[hatchback.code])
    sent = typed(client.get(url).context["form"])
    least = {"box": hatchback.box.pk, "measured_on": "2026-11-27", "measured_by": "Somebody"}
    return url, sent | least | more


def test_an_installer_enters_it_and_reads_what_it_proves(hatchback, browse):
    """One sweep in the bay: stored, and its page says that the box is the drawn one."""
    client = browse("installer")
    url, sent = _sent(client, hatchback, content=GOOD)
    assert client.post(url, sent).status_code == 302
    row = BoxSweep.objects.latest("pk")
    html = client.get(reverse("box-sweep-edit", args=[hatchback.code, row.pk])).content.decode()
    assert "the built box is the drawn one" in html
    assert "as found" in html


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("\n".join(f"{f}\t0.05" for f in range(10, 400, 5)), "is the amplifier still connected?"),
        (sweep_text(THIS_SUB.loaded(0.5), 2), "no closed box does that"),
        ("", "Paste the sweep here"),
    ],
    ids=["amplifier", "another-box", "nothing"],
)
def test_a_sweep_of_something_else_is_refused_beside_the_field(hatchback, browse, content, says):
    """Each has its own sentence; nothing is stored and what was typed stays."""
    client = browse("installer")
    url, sent = _sent(client, hatchback, content=content, measured_by="Somebody else")
    before = BoxSweep.objects.count()
    answer = client.post(url, sent)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert says in html
    assert "Somebody else" in html
    assert BoxSweep.objects.count() == before


def test_the_preview_works_it_out_before_it_is_saved(hatchback, browse):
    """What is pasted is laid over the drawn box at once, and nothing is written."""
    client = browse("installer")
    _url, sent = _sent(client, hatchback, content=GOOD)
    answer = client.post(reverse("box-sweep-preview", args=[hatchback.code]), sent)
    assert answer.status_code == 200
    assert "The finished box against the drawn one" in answer.content.decode()


def test_sheets_print_what_was_found(hatchback, browse):
    """The list of the boxes names it, and so do the sheets for the bay and for the next garage."""
    from django.template.loader import render_to_string  # as a sheet does, without its engine

    from jobs.design.job.whole import load, work_out

    design = work_out(load(hatchback.job))
    html = render_to_string("sheets/finished_boxes.html", {"design": design})
    assert "Boot box" in html
    assert units.show(design.finished[0].figures[0].as_found, "frequency") in html
    # How far it may be believed stands on paper as it does on the page.
    assert "19 of 20 such sweeps" in html
    assert "The moving mass is taken as drawn" in html
    assert units.show(design.finished[0].fit.misfit, "percent") in html
    page = browse("designer").get(reverse("boxes", args=[hatchback.code])).content.decode()
    assert "Finished boxes" in page
