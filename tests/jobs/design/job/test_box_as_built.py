"""A built box worked out again from what was measured on it."""

from __future__ import annotations

import datetime as dt

import pytest
from django.utils import timezone

from jobs.design.job.whole import load, work_out
from jobs.models import BoxAsBuilt, SheetKind
from jobs.sheets.issue import printed
from jobs.sheets.registry import SHEETS, Options
from tests.jobs.sheets.kinds import on_paper

pytestmark = pytest.mark.django_db
NBSP = "\N{NO-BREAK SPACE}"


@pytest.fixture
def measured(hatchback):
    """Measure the boot box, and return what the job then says of it."""

    def measure(**figures):
        BoxAsBuilt.objects.create(
            job=hatchback.job, box=hatchback.box, measured_on=dt.date(2026, 11, 28),
            measured_by="somebody", **figures,
        )  # fmt: skip
        design = work_out(load(hatchback.job))
        (built,) = design.built
        return built, {f.code: f for f in design.findings if f.code.startswith("built-")}

    return measure


def test_litres_follow_the_measured_sizes(measured, hatchback):
    """By hand: 10 mm more width is 10 mm times the inside of the side view; thicker wood takes."""
    built, findings = measured(width=0.49)
    carcass = built.designed.wood.carcass
    inside = carcass.gross_volume / (0.48 - 2 * 0.0177)
    assert built.built.net_volume - built.designed.net_volume == pytest.approx(0.01 * inside)
    assert not findings
    thick, _findings = measured(thickness=0.0187)
    assert thick.built.net_volume < thick.designed.net_volume
    # Neither the drawn box nor its sheet is changed by it.
    box = work_out(load(hatchback.job)).boxes[0]
    assert (box.box.width, box.box.material.thickness) == (0.48, 0.0177)


def test_the_newest_measurement_counts(measured):
    """The box of the scene was measured before; what was not measured stays as drawn."""
    built, _findings = measured(height=0.361)
    assert built.built.box.height == 0.361
    assert built.built.box.width == 0.48
    assert [row[0] for row in built.rows][:2] == ["height", "net litres, worked out"]


def test_more_than_a_twentieth_of_the_litres_off_is_asked_about(measured):
    """Filled with 10 % less it is a look, whatever the rule says; with 4 % less it is none."""
    drawn = measured()[0].designed.net_volume
    assert "built-litres-off" not in measured(volume=0.96 * drawn)[1]
    finding = measured(volume=0.9 * drawn)[1]["built-litres-off"]
    assert (finding.severity, finding.value, finding.limit) == ("look", 0.9 * drawn, drawn)


def test_every_check_is_asked_again(measured):
    """Built 60 mm wider it no longer stands in its cavity of 520 mm: that was not drawn."""
    built, findings = measured(width=0.54)
    codes = {finding.code for finding in built.new_findings}
    assert codes
    assert codes == set(findings["built-finds-more"].value.split(", "))


def test_a_box_that_cannot_be_says_so(measured):
    """A width of 20 mm leaves no inside: the built box is refused, the drawn one stays."""
    built, findings = measured(width=0.02)
    assert built.built.trouble
    assert built.designed.net_volume
    assert "built-finds-more" in findings


def test_the_workings_show_what_was_measured_beside_what_was_drawn(measured, hatchback):
    """Sizes and litres of the finished box stand beside the designed ones, under its own box."""
    before = document(work_out(load(hatchback.job)))
    assert "30.5 L" not in before
    built, _findings = measured(width=0.49, volume=0.0305)
    after = document(work_out(load(hatchback.job)))
    _head, _mark, rest = after.partition("<h3>As built</h3>")
    table, _end, _rest = rest.partition("</table>")
    drawn = on_paper(built.designed.net_volume, "volume")
    for words in ("somebody", "480 mm", "490 mm", drawn, "30.5 L"):
        assert words in table


def document(design) -> str:
    """The workings before it is laid out on paper."""
    kind = SHEETS[SheetKind.WORKINGS]
    html, _data = printed(design, kind, Options(), revision=None, at=timezone.now())
    return html.replace(NBSP, " ")
