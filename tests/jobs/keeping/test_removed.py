"""What was removed thirty days ago goes, with its files, unless something rests on it."""

from __future__ import annotations

import datetime as dt

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.core.management import call_command
from django.utils import timezone

from jobs.design.job.whole import load, work_out
from jobs.design.records.data import to_data
from jobs.design.records.decisions import take
from jobs.keeping.removed import KEPT_FOR, STAY, clear_removed
from jobs.models import (
    Box,
    EquipmentItem,
    IssuedSheet,
    Measurement,
    Panel,
    PanelStep,
    Part,
    Photo,
    PowerNode,
    Run,
)
from tests.jobs.factories import make_item, make_panel, make_part, make_step

pytestmark = pytest.mark.django_db

LATER = KEPT_FOR + dt.timedelta(hours=1)


def clear(days_later: dt.timedelta = LATER) -> dict[str, int]:
    """Clear as somebody would so much later."""
    return clear_removed(timezone.now() + days_later)


def a_photo(panel: Panel, by) -> Photo:
    """A photo with its three files."""
    files = {name: ContentFile(b"x", "x.jpg") for name in ("image", "small", "original")}
    return Photo.objects.create(job=panel.job, panel=panel, taken_by=by, **files)


def test_a_row_goes_after_thirty_days_and_not_before(hatchback):
    """Removed today it can be brought back for thirty days; its history stays for good."""
    row = hatchback.key_off
    row.remove()
    assert clear(KEPT_FOR - dt.timedelta(hours=1)) == {}
    assert Measurement.with_removed.filter(pk=row.pk).exists()
    assert clear() == {"measurement": 1}
    assert not Measurement.with_removed.filter(pk=row.pk).exists()
    assert Measurement.history.filter(id=row.pk, history_type="-").exists()
    assert clear() == {}


def test_a_panel_goes_with_its_steps_and_its_photos_files(
    hatchback, cast, django_capture_on_commit_callbacks
):
    """What is part of a row goes with it, and so do the files."""
    panel = make_panel(hatchback.job, "Invented panel")
    step = make_step(panel, "Look.")
    photo = a_photo(panel, cast.installer)
    names = [photo.image.name, photo.small.name, photo.original.name]
    assert all(default_storage.exists(name) for name in names)
    panel.remove()
    with django_capture_on_commit_callbacks(execute=True):
        assert clear() == {"panel": 3}
    assert not PanelStep.with_removed.filter(pk=step.pk).exists()
    assert not any(default_storage.exists(name) for name in names)


def test_what_a_row_that_is_there_points_at_stays(hatchback, shelf):
    """A run keeps its node, a route its panel, a box its wood, an item its part."""
    for row in (hatchback.block, hatchback.side_trim, hatchback.sub):
        row.remove()
    Part.objects.filter(pk=hatchback.box.material_id).update(removed_at=timezone.now())
    Part.objects.filter(pk=hatchback.sub.part_id).update(removed_at=timezone.now())
    assert clear() == {}
    assert PowerNode.with_removed.filter(pk=hatchback.block.pk).exists()
    assert Box.objects.get(pk=hatchback.box.pk).material_id is not None


def test_what_points_at_it_may_go_first(hatchback):
    """A part goes once the item that used it is gone, in one night."""
    part = make_part("Invented plug")
    item = make_item(hatchback.job, part, "boot")
    part.remove()
    assert clear() == {}
    item.remove()
    assert clear() == {"equipmentitem": 1, "part": 1}
    assert not Part.with_removed.filter(pk=part.pk).exists()


def test_a_run_and_a_decision_stay(hatchback, cast):
    """The number of a run is not given again; a decision says who answered for what."""
    hatchback.line_run.remove()
    assert Run in STAY
    assert clear() == {}
    assert Run.with_removed.filter(pk=hatchback.line_run.pk).exists()


def test_what_an_issued_sheet_was_made_from_stays(hatchback, cast):
    """Its rows are those the sheet names."""
    kept = make_item(hatchback.job, make_part("Kept"), "boot")
    IssuedSheet.objects.create(
        job=hatchback.job, kind="build", revision=1, paper="a4", language="en",
        data=to_data(load(hatchback.job)), pdf=b"%PDF", sha256="0" * 64,
        issued_by=cast.manager, issued_at=timezone.now(),
    )  # fmt: skip
    later = make_item(hatchback.job, make_part("Not on the sheet"), "boot")
    kept.remove()
    later.remove()
    kept.part.remove()
    assert clear() == {"equipmentitem": 1}
    assert EquipmentItem.with_removed.filter(pk=kept.pk).exists()


def test_what_a_decision_is_about_stays(saloon, cast):
    """Whoever reads the decision can still see what it was taken on."""
    findings = work_out(load(saloon.job)).findings
    about_box = [one for one in findings if one.about.kind == "box"]
    finding = about_box[0] if about_box else findings[0]
    box = Box.objects.filter(job=saloon.job).first()
    decision = take(saloon.job, finding, cast.manager, "seen and kept so")
    decision.about_kind, decision.about_key = "box", str(box.pk)
    decision.save()
    box.remove()
    assert "box" not in clear()
    assert Box.with_removed.filter(pk=box.pk).exists()


def test_the_command_says_what_went(hatchback, capsys):
    """It is meant for a nightly line in a log: kinds and numbers, no names."""
    hatchback.key_off.remove()
    Measurement.with_removed.filter(pk=hatchback.key_off.pk).update(
        removed_at=timezone.now() - LATER
    )
    call_command("clear_removed")
    assert capsys.readouterr().out == "Gone for good: measurement 1.\n"
    call_command("clear_removed")
    assert capsys.readouterr().out == "Gone for good: nothing.\n"
