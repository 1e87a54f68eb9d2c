"""Boxes held against each other: which are shown, how one is copied, and the one printed page."""

from __future__ import annotations

import io
import json
import uuid
from dataclasses import replace

import pytest
from django.test import Client
from django.urls import reverse
from pypdf import PdfReader

from jobs import sheets, units
from jobs.design.box.cabin import cabin_of
from jobs.design.box.compare import compare, picked
from jobs.design.job.whole import load, work_out
from jobs.models import Box, IssuedSheet, SheetKind

pytestmark = pytest.mark.django_db
needs_pdf = pytest.mark.skipif(bool(sheets.unavailable()), reason=sheets.unavailable())


def _copy(saloon, client, box, token=""):
    return client.post(
        reverse("box-copy", args=[saloon.code, box.pk]), {"token": token or uuid.uuid4()}
    )


def _made(saloon, *keys):
    design = work_out(load(saloon.job))
    chosen = picked(design.boxes, keys)
    return compare(chosen, cabin_of(saloon.job.vehicle, []))


def test_two_are_shown_at_one_voltage(saloon, browse):
    """Both boxes stand on the same axes and in one table, at the same voltage."""
    html = browse("installer").get(reverse("boxes", args=[saloon.code])).content.decode()
    for box in saloon.job.boxes.all():
        assert html.count(f" {box.name}</th>") == 1
    made = _made(saloon)
    assert {float(one.played.voltage) for one in made.candidates} == {made.voltage}
    for series in (f"A {saloon.box.name}", f"B {saloon.sealed.name}"):
        assert html.count(f'data-series="{series}"') >= 4


def test_a_box_that_cannot_be_worked_out_is_left_out_and_says_why(saloon):
    """Without a driver, or with one whose load nobody knows, it has no curve beside the others."""
    first, second, *_rest = work_out(load(saloon.job)).boxes
    for part in ("driver", "load"):
        lame = replace(second, **{part: None})
        made = compare([first, lame], cabin_of(saloon.job.vehicle, []))
        assert [candidate.name for candidate in made.candidates] == [f"A {first.box.name}"]
        assert [name for name, _why in made.left_out] == [second.box.name]


def test_the_curves_are_told_apart_without_colour(saloon, browse):
    """Every curve of a chart has a line pattern of its own, and its name at its end."""
    for _ in range(2):
        _copy(saloon, browse("designer"), saloon.box)
    page = browse("installer").get(reverse("boxes", args=[saloon.code]))
    for chart in page.context["charts"]:
        drawing = str(chart.drawing)
        names = [one.name for one in page.context["comparison"].candidates]
        assert len(names) == 4
        patterns = set()
        for name in names:
            group = drawing.rpartition(f'data-series="{name}"')[0].rpartition("<g")[2]
            patterns.add(group.partition(">")[0].partition("stroke-dasharray=")[2])
        assert len(patterns) == 4, chart.title


def test_ticks_choose_and_a_fifth_is_named(saloon, browse):
    """Ticked boxes are shown; more than four, or one that cannot be worked out, is said."""
    client, box = browse("designer"), saloon.box
    url = reverse("boxes", args=[saloon.code])
    alone = client.get(url, {"box": box.pk}).content.decode()
    assert "Tick two to four" in alone
    for _ in range(3):
        _copy(saloon, client, box)
    keys = list(saloon.job.boxes.values_list("pk", flat=True))
    assert len(keys) == 5
    html = client.get(url, {"box": keys}).content.decode()
    assert "Only four fit side by side" in html
    bare = Box.objects.create(job=saloon.job, name="invented, bare")
    html = client.get(url, {"box": [keys[0], keys[1], bare.pk]}).content.decode()
    assert "invented, bare is not shown" in html
    for nonsense in ("x", "-1", "9" * 40, "²"):
        assert client.get(url, {"box": nonsense}).status_code == 200


def test_a_copy_is_a_candidate_with_everything_of_the_first(saloon, browse):
    """Every field is the same but name and built; pressed twice it is made once, and undone."""
    client, box, token = browse("designer"), saloon.box, uuid.uuid4()
    answer = _copy(saloon, client, box, token)
    made = Box.objects.get(entry_token=token)
    assert answer.url == reverse("box-edit", args=[saloon.code, made.pk])
    own = {"id", "name", "chosen", "entry_token", "version"}
    for field in Box._meta.concrete_fields:
        if field.name not in own:
            assert getattr(made, field.attname) == getattr(box, field.attname), field.name
    assert (made.chosen, made.version) == (False, 1)
    assert box.name in made.name
    assert _copy(saloon, client, box, token).url == answer.url
    assert Box.objects.filter(entry_token=token).count() == 1
    assert Box.objects.get(pk=box.pk).chosen
    page = client.get(answer.url).content.decode()
    assert reverse("box-remove", args=[saloon.code, made.pk]) in page
    made.name = "n" * 60
    made.save()
    assert _copy(saloon, client, made).status_code == 302


def test_a_copy_is_made_by_those_who_decide(hatchback, saloon, browse):
    """A link copies nothing, an installer is refused, a stranger and another job find nothing."""
    box = saloon.box
    url = reverse("box-copy", args=[saloon.code, box.pk])
    assert browse("designer").get(url).status_code == 405
    assert browse("installer").post(url).status_code == 403
    assert browse("stranger").post(url).status_code == 404
    assert Client().post(url).status_code == 302
    assert (
        browse("designer").post(reverse("box-copy", args=[hatchback.code, box.pk])).status_code
        == 404
    )
    assert browse("designer").post(url, {"token": "x"}).status_code == 302


def test_the_table_holds_the_figures_of_the_boxes(saloon):
    """Litres and resonance are those of each box page; level adds up to its voltage."""
    design = work_out(load(saloon.job))
    made = _made(saloon)
    rows = {row.label: [value for _name, value in row.cells] for row in made.rows}
    litres = rows["net volume, and that wanted"]
    for result, shown in zip(design.boxes, litres, strict=True):
        assert units.show(result.net_volume, "volume").split("\N{NO-BREAK SPACE}")[0] in shown
    assert [text.count("/") for text in litres] == [1, 0]
    # A linear system: six decibels more at twice the voltage.
    box = saloon.box
    box.test_voltage *= 2
    box.save()
    twice = {row.label: [value for _n, value in row.cells] for row in _made(saloon).rows}
    label = next(one for one in rows if one.startswith("level at"))
    for before, after in zip(rows[label], twice[label], strict=True):
        first = [float(text) for text in before.split("\N{NO-BREAK SPACE}")[0].split(" / ")]
        second = [float(text) for text in after.split("\N{NO-BREAK SPACE}")[0].split(" / ")]
        assert [b - a for a, b in zip(first, second, strict=True)] == pytest.approx(
            [6.02] * 3, abs=0.11
        )


@needs_pdf
@pytest.mark.parametrize(
    ("paper", "language"),
    [
        ("letter", "de"),
        *(
            pytest.param(*one, marks=pytest.mark.long)
            for one in (("a4", "en"), ("a4", "de"), ("letter", "en"))
        ),
    ],
)
def test_four_boxes_print_on_one_page(saloon, browse, paper, language):
    """Four boxes with the longest names still stand on one page, in both papers and languages."""
    for n in range(2):
        copied = _copy(saloon, browse("designer"), saloon.box).url
        box = Box.objects.get(pk=int(copied.rstrip("/").rpartition("/")[2]))
        box.name = f"A long name that says what differs, no. {n}, {'w' * 12}"
        box.save()
    answer = browse("installer").get(
        reverse("sheet-draft", args=[saloon.code, SheetKind.COMPARE]),
        {"paper": paper, "language": language},
    )
    pages = PdfReader(io.BytesIO(answer.content)).pages
    assert len(pages) == 1
    text = " ".join(pages[0].extract_text().split())
    assert "D " in text
    says = {"en": "No level in the car is promised", "de": "Kein Pegel im Wagen wird versprochen"}
    assert says[language] in text


@needs_pdf
def test_a_printed_page_holds_the_ticked_boxes(saloon, browse):
    """Ticks reach the sheet, drafted or issued; what is attached are figures of the ticked."""
    _copy(saloon, browse("designer"), saloon.box)
    first, second, third = saloon.job.boxes.order_by("pk")
    url = reverse("sheet-draft", args=[saloon.code, SheetKind.COMPARE])
    answer = browse("designer").get(url, {"box": [first.pk, third.pk]})
    text = PdfReader(io.BytesIO(answer.content)).pages[0].extract_text().replace("\n", " ")
    assert second.name not in text
    browse("designer").post(
        reverse("sheet-issue", args=[saloon.code, SheetKind.COMPARE]),
        {"box": [first.pk, second.pk], "sure": "1"},
    )
    issued = IssuedSheet.objects.get(kind=SheetKind.COMPARE)
    (attached,) = PdfReader(io.BytesIO(bytes(issued.pdf))).attachments.values()
    assert list(json.loads(attached[0])["figures"]) == [str(first.pk), str(second.pk)]
    assert issued.data["options"]["boxes"] == [str(first.pk), str(second.pk)]


@needs_pdf
def test_one_box_or_none_prints_too(hatchback, van, browse):
    """One box prints with its cabin's curve; a job without any prints a sentence, not an error."""

    def words(code):
        url = reverse("sheet-draft", args=[code, SheetKind.COMPARE])
        pages = PdfReader(io.BytesIO(browse("installer").get(url).content)).pages
        assert len(pages) == 1
        return " ".join(pages[0].extract_text().split())

    assert "In this cabin, by the curve measured" in words(hatchback.code)
    assert "There is no box yet" in words(van.code)
