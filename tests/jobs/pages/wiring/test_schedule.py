"""Cables and labels: who may read the page, what stands on it, and the form of a run's route."""

from __future__ import annotations

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from jobs.design.job import board_counts
from jobs.models import Fuse, Run, Stretch, Workshop
from tests.jobs.factories import make_job, make_rows
from tests.jobs.pages.forms_at import form_at, refused_at
from tests.jobs.pages.kinds import typed

pytestmark = pytest.mark.django_db


def _edit(run: Run) -> str:
    return reverse("run-edit", args=[run.job.code, run.pk])


def _stop(panel: object = "", place: str = "", way: str = "loom", edge: str = "") -> list[str]:
    return [str(panel), place, way, edge]


def _sent(stops: list[list[str]]) -> dict[str, list[str]]:
    """What a browser sends for these stops."""
    parts = ("panel", "place", "way", "edge")
    return {f"route-{part}": [one[n] for one in stops] for n, part in enumerate(parts)}


def test_a_member_reads_the_page_and_a_stranger_does_not(hatchback, browse):
    """An installer reads it, a stranger gets 404, and there is nothing to post."""
    url = reverse("schedule", args=[hatchback.code])
    answer = browse("installer").get(url)
    assert answer.status_code == 200
    html = answer.content.decode()
    for words in ("Wire schedule", "Fuse map", "Cable order", "Crimp list"):
        assert words in html
    for words in (f"F-{hatchback.main_run}", hatchback.boot_floor.name):
        assert words in html
    assert browse("stranger").get(url).status_code == 404
    assert browse("manager").post(url).status_code == 405


def test_a_job_without_cables_says_what_to_do(browse):
    """Nothing is listed and nothing breaks."""
    job = make_job()
    html = browse("designer").get(reverse("schedule", args=[job.code])).content.decode()
    assert "No cables yet" in html


def test_twenty_runs_ask_no_more_than_one(shelf, browse):
    """One row of each kind or twenty: the same queries."""
    job, client = make_job(), browse("designer")
    url = reverse("schedule", args=[job.code])
    make_rows(job, 1)
    board_counts.refresh(job)  # once, by whoever looks first
    with CaptureQueriesContext(connection) as one:
        assert client.get(url).status_code == 200
    make_rows(job, 19)
    with CaptureQueriesContext(connection) as many:
        assert client.get(url).status_code == 200
    # What a job is loaded with: its rows, lists kept as rows, each kind of part they take.
    assert len(many) == len(one) <= 62


def test_the_power_page_leads_there(hatchback, browse):
    """Who is at the wiring finds the lists."""
    html = browse("installer").get(reverse("power", args=[hatchback.code])).content.decode()
    assert reverse("schedule", args=[hatchback.code]) in html


def test_a_route_is_kept_in_the_order_it_was_sent(hatchback, browse):
    """Panels, places and edges come back as they were typed, empty slips are none."""
    run, url = hatchback.six_run, _edit(hatchback.six_run)
    client = browse("designer")
    floor, sill = hatchback.boot_floor.pk, hatchback.sill.pk
    stops = [
        _stop(sill, way="own"),
        _stop(),
        _stop(place="bulkhead, left", way="own", edge="grommet"),
        _stop(floor, "beside the spare wheel"),
    ]
    sent = typed(form_at(url)) | _sent(stops)
    assert client.post(url, sent).status_code == 302
    kept = list(Stretch.objects.filter(run=run))
    assert [(one.panel_id, one.place, one.follows_loom, one.edge) for one in kept] == [
        (sill, "", False, ""),
        (None, "bulkhead, left", False, "grommet"),
        (floor, "beside the spare wheel", True, ""),
    ]
    # The panel record fills itself, and only with panels.
    html = browse("installer").get(reverse("panels", args=[hatchback.code])).content.decode()
    assert run.label in html.split(hatchback.sill.name, 1)[1]
    record = (
        browse("installer").get(reverse("run", args=[hatchback.code, run.label])).content.decode()
    )
    places = (hatchback.sill.name, "bulkhead, left", "spare wheel")
    assert sorted(places, key=record.index) == list(places)


def test_a_run_sent_twice_keeps_the_route_it_has(hatchback, browse):
    """The second of two equal sends makes nothing and puts no old route back."""
    client = browse("designer")
    url = reverse("run-add", args=[hatchback.code])
    sent = typed(client.get(url).context["form"]) | {"kind": "C", "from_text": "a", "to_text": "b"}
    assert client.post(url, sent | _sent([_stop(place="under the seat")])).status_code == 302
    run = Run.objects.get(job=hatchback.job, from_text="a")
    run.stretches.update(place="along the sill")
    client.post(url, sent | _sent([_stop(place="under the seat")]))
    assert [one.place for one in Stretch.objects.filter(run__from_text="a")] == ["along the sill"]


def test_an_untouched_route_is_kept(hatchback, browse):
    """Opening a run and saving it changes nothing of its route."""
    run, url = hatchback.tweeter_run, _edit(hatchback.tweeter_run)
    before = [(one.panel_id, one.place, one.follows_loom, one.edge) for one in run.route]
    client = browse("designer")
    form = client.get(url).context["form"]
    assert client.post(url, typed(form)).status_code == 302
    run = Run.objects.get(pk=run.pk)
    assert [(one.panel_id, one.place, one.follows_loom, one.edge) for one in run.route] == before


def test_a_stop_that_cannot_be_is_named_and_kept(hatchback, browse):
    """Another job's panel, nonsense and overlong words are field errors; nothing typed is lost."""
    run, url = hatchback.six_run, _edit(hatchback.six_run)
    before = len(run.route)
    for stop in (
        _stop("²"),
        _stop(place="x" * 81),
        _stop(place="nul\x00"),
        _stop(place="here", way="flying"),
        _stop(place="here", edge="sharp"),
    ):
        refused = refused_at(url, typed(form_at(url)) | _sent([stop]))
        assert "Place 1 cannot be read" in str(refused.get("route")), stop
    sent = typed(form_at(url)) | _sent([_stop("999999")])
    answer = browse("designer").post(url, sent)
    assert answer.status_code == 422
    assert "Place 1 cannot be read" in answer.content.decode()
    assert len(Run.objects.get(pk=run.pk).route) == before


def test_the_preview_sees_the_route_being_typed(hatchback, browse):
    """A bare metal edge is a stop before anything is saved."""
    run, url = hatchback.six_run, _edit(hatchback.six_run)
    client = browse("designer")
    sent = typed(form_at(url)) | _sent([_stop(place="sill", edge="bare")])
    answer = client.post(reverse("run-preview", args=[hatchback.code]), sent | {"row": run.pk})
    assert answer.status_code == 200
    assert "grommet-missing" in answer.content.decode()
    assert (
        "grommet-missing"
        not in client.get(reverse("power", args=[hatchback.code])).content.decode()
    )


def test_what_a_control_run_turns_on_is_seen_at_once(hatchback, browse):
    """Ticked equipment counts in the preview; none ticked is a finding."""
    run, url = hatchback.turn_on_run, _edit(hatchback.turn_on_run)
    client = browse("designer")
    sent = typed(form_at(url))
    sent["wakes"] = []
    answer = client.post(reverse("run-preview", args=[hatchback.code]), sent | {"row": run.pk})
    assert "turn-on-current-unknown" in answer.content.decode()


@pytest.mark.parametrize(("typed_text", "kept"), [("gnye", "GNYE"), (" rd ", "RD"), ("", "")])
def test_colours_are_kept_in_the_letters_of_the_standard(hatchback, browse, typed_text, kept):
    """Small letters are read; IEC 60757 writes capitals."""
    run, url = hatchback.six_run, _edit(hatchback.six_run)
    client = browse("designer")
    sent = typed(form_at(url)) | {"return_colour": typed_text}
    assert client.post(url, sent).status_code == 302
    assert Run.objects.get(pk=run.pk).return_colour == kept


def test_a_colour_outside_the_standard_is_refused(hatchback, browse):
    """“red” is no pair of letters of IEC 60757."""
    url = _edit(hatchback.six_run)
    client = browse("designer")
    sent = typed(form_at(url)) | {"colour": "red"}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert "IEC 60757" in answer.content.decode()


def test_a_fuse_keeps_every_point_of_its_curve(shelf, browse):
    """What is typed in the catalogue comes back in the form."""
    part = shelf["80 A"]
    url, client = reverse("part-edit", args=[part.pk]), browse("designer")
    sent = typed(client.get(url).context["form"]) | {
        "curve-multiple": ["2", "6", ""],
        "curve-time": ["100 s", "0.5 s", ""],
    }
    assert client.post(url, sent).status_code == 302
    assert Fuse.objects.get(pk=part.pk).curve == [[2.0, 100.0], [6.0, 0.5]]


@pytest.mark.parametrize(
    ("field", "wrong"),
    [
        ("web_address", "undertrim"),
        ("web_address", "javascript:alert(1)"),
        ("web_address", "http://a b"),
        ("label_width", "12 bananas"),
        ("label_width", "2 mm"),
        ("label_wrap", "90 mm"),
        ("label_columns", "0"),
        ("label_rows", "999"),
        ("cable_slack", "-5 %"),
    ],
)
def test_label_stock_that_cannot_be_is_refused(browse, field, wrong):
    """The field says so and nothing is saved."""
    url, client = reverse("workshop"), browse("manager")
    before = getattr(Workshop.current(), field)
    sent = typed(client.get(url).context["form"]) | {field: wrong}
    answer = client.post(url, sent)
    assert answer.status_code == 422
    assert f'id="id_{field}_error"' in answer.content.decode()
    assert getattr(Workshop.current(), field) == before


def test_label_stock_is_typed_with_units(browse):
    """Inches and millimetres are both read; the page gives back what was meant."""
    url, client = reverse("workshop"), browse("manager")
    sent = typed(client.get(url).context["form"]) | {
        "label_width": "4 in",
        "label_columns": "1",
        "web_address": "https://shop.invalid/app/",
    }
    assert client.post(url, sent).status_code == 302
    workshop = Workshop.current()
    assert workshop.label_width == pytest.approx(0.1016)
    assert workshop.web_address == "https://shop.invalid/app"
