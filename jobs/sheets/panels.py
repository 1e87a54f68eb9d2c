"""The panel record: what is behind each panel now, for whoever opens it next."""

from __future__ import annotations

import base64
from typing import Any

from django.urls import reverse

from jobs.design.job.whole import JobDesign
from jobs.models import Panel, Photo
from jobs.sheets import codes


def context(design: JobDesign) -> dict[str, Any]:
    """Gather the sources to isolate and the photos of each panel."""
    return {
        "sources": [node for node in design.records.nodes if node.is_source],
        "codes": [
            (panel.panel.pk, code)
            for panel in design.panels
            if (code := _code(design, panel.panel))
        ],
        "photos": [_photos(result.panel.pk, result.photos) for result in design.panels],
    }


def _code(design: JobDesign, panel: Panel) -> str:
    """A code that opens this panel's living record, where the app's address is known."""
    there = codes.address(design.records.workshop, reverse("panels", args=[design.job.code]))
    return codes.code_uri(f"{there}#panel-{panel.pk}") if there else ""


def _photos(panel: int, photos: Any) -> tuple[int, list[tuple[str, str]], int]:
    """Return a panel's photos as data the PDF holds, and how many could not be read."""
    pictures, lost = [], 0
    for photo in photos:
        try:
            pictures.append((str(photo), _data_uri(photo)))
        except OSError:
            lost += 1
    return panel, pictures, lost


def _data_uri(photo: Photo) -> str:
    with photo.small.open("rb") as file:
        return "data:image/jpeg;base64," + base64.b64encode(file.read()).decode()
