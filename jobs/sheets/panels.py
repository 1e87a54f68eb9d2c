"""The panel record: what is behind each panel now, for whoever opens it next."""

from __future__ import annotations

import base64
from collections.abc import Iterator
from typing import Any

from django.urls import reverse
from django.utils.translation import gettext as _

from jobs.design.job.after.visits import work_out_aftercare
from jobs.design.job.panel_page import FuseThere, PanelPage, RunThere, work_out_panel_pages
from jobs.design.job.whereabouts import elsewhere, work_out_whereabouts
from jobs.design.job.whole import JobDesign
from jobs.design.records.as_built import key_of
from jobs.design.records.records import otherwise
from jobs.design.wiring.cores import fuses_of
from jobs.design.wiring.schedule import Schedule, work_out_schedule
from jobs.drawings.pencil.photo_marks import photo_marks
from jobs.models import Fuse, Photo, PowerNode, Run, Workshop
from jobs.sheets import codes, photo_data
from jobs.units import show


def context(design: JobDesign) -> dict[str, Any]:
    """Gather what to isolate, what is nowhere yet, the ends behind each panel, and its photos."""
    records = design.records
    schedule = work_out_schedule(records, design.power, records.workshop)
    after = work_out_aftercare(records) if records.job.left_on else None
    return {
        "sources": [node for node in records.nodes if node.is_source],
        "fuses": [(run, *place) for run in records.runs for place in fuse_places(run)],
        "elsewhere": elsewhere(records),
        "loose": {
            "grounds": [point for point in records.grounds if point.panel_id is None],
            "joins": [join for join in records.joins if join.panel_id is None],
        },
        # What became so after the car had left is told there, from what to what.
        "built": [
            (row, differs)
            for row, differs in otherwise(records)
            if after is None or key_of(row) not in after.told
        ],
        "after": after,
        "not_placed": [thing for thing in work_out_whereabouts(records) if thing.missing],
        "codes": [
            (page.panel.pk, *_code(page, design.records.workshop))
            for page in work_out_panel_pages(design.records)
        ],
        "schedule": schedule,
        "ends": list(_ends_by_panel(schedule).items()),
        "photos": [_photos(result.panel.pk, result.photos) for result in design.panels],
        # One that shows a panel stands with its panel.
        "since_photos": [
            _photos(visit.record.pk, [photo for photo in visit.photos if not photo.panel_id])
            for visit in (after.visits if after else ())
        ],
    }


def _ends_by_panel(schedule: Schedule) -> dict[int | None, list[Any]]:
    """Every end of every core by the panel where its run's route begins or ends, None elsewhere."""
    routes = {line.run.label: line.route for line in schedule.lines}
    places: dict[int | None, list[Any]] = {}
    for row in schedule.ends:
        route = routes[row.run.label]
        near_start = row.cut.at_start if row.cut else row.at_start
        at = route[0 if near_start else -1].panel_id if route else None
        places.setdefault(at, []).append(row)
    return places


def fuse_places(run: Run) -> list[tuple[Fuse, PowerNode | None, float | None]]:
    """Each fuse of a run with the point of the tree it sits at, and how far along the cable."""
    return [(fuse.part, fuse.node, fuse.distance) for fuse in fuses_of(run)]


def _code(page: PanelPage, workshop: Workshop) -> tuple[str, bool]:
    """A code that opens this panel's page for everybody; without one, its core as text."""
    path = reverse("panel-page", args=[page.panel.token]) if page.panel.token else ""
    if path and (there := codes.public_address(path)):
        return codes.code_uri(there), True
    return codes.text_uri(core_of(page, workshop)), False


def core_of(page: PanelPage, workshop: Workshop) -> str:
    """Return what matters most of a panel as short plain text, as much as a code can hold.

    What can injure comes first, and what a phone could not read any more is said to be on the
    record: a list that was cut short never looks whole.
    """
    end = " … " + _("see the record")
    text = ""
    for part in _core(page, workshop):
        if not codes.fits(text + part + end):
            return text.rstrip(" ;\n") + end
        text += part
    return text.strip()


def _core(page: PanelPage, workshop: Workshop) -> Iterator[str]:
    """Yield the core bit by bit, each of which may be the last."""
    panel = page.panel
    yield f"{panel.name} ({page.job})\n"
    if page.high_voltage is not False:
        yield (_("HIGH VOLTAGE") if page.high_voltage else _("High voltage: not recorded")) + "\n"
    if panel.airbag_near is not False:
        yield (_("AIRBAG behind it") if panel.airbag_near else _("Airbag: not recorded")) + "\n"
    if workshop.phone:
        yield f"{workshop.phone}\n"
    main = [_fuse(fuse) for fuse in page.main_fuses]
    things = [thing.what for thing in (*page.things, *page.factory)]
    if page.hides_more:
        things.append(_("more: ask the workshop"))
    for title, entries in (
        (_("Isolate first"), [*page.sources, *main]),
        (_("Behind it"), things),
        (_("Cables"), [_run(run) for run in page.runs]),
    ):
        yield f"{title}: "
        yield from (f"{entry}; " for entry in entries or [_("nothing recorded")])
        yield "\n"


def _run(passing: RunThere) -> str:
    fuses = [
        f"{show(fuse.fuse.rating, 'current', exact=True)} {fuse.place}" for fuse in passing.fuses
    ]
    return " ".join(part for part in (passing.run.label, passing.colours, *fuses) if part)


def _fuse(fuse: FuseThere) -> str:
    return f"{fuse.run} {show(fuse.fuse.rating, 'current', exact=True)} {fuse.place}"


def _photos(of: int, photos: Any) -> tuple[int, list[tuple[str, str, str]], int]:
    """Return photos of a panel or a visit with their marks, and how many of them are lost."""
    pictures, lost = [], 0
    for photo in photos:
        try:
            pictures.append((str(photo), photo_data.address(photo), _over(photo)))
        except OSError:
            lost += 1
    return of, pictures, lost


def _over(photo: Photo) -> str:
    """What is marked on a photo, as a picture of its size to lie over it."""
    drawn = photo_marks(photo, "none")
    return f"data:image/svg+xml;base64,{base64.b64encode(drawn.encode()).decode()}" if drawn else ""
