"""The bench of a box: what its drawing needs to know of the box as it was worked out last."""

from __future__ import annotations

import json
from typing import Any

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from jobs import units
from jobs.design.box.boxes import BoxResult
from jobs.design.box.enclosures import hole_q, leak_q
from jobs.design.carcass.carcass import Drawn, Placed, PortBody, kind_of
from jobs.design.wording import term
from jobs.models import Box
from jobs.models.box.box_kinds import kind_of as kind_of_box

# The fields that place a part, where there is one of it to place; a rear port has none.
FIELDS = {
    "driver": ("driver_u", "driver_v"),
    "port": ("port_u", "port_v"),
    "second port": ("second_port_u", "second_port_v"),
    "rear port": None,
    "terminal plate": ("terminal_u", "terminal_v"),
}


def bench(result: BoxResult) -> str:
    """Return, as JSON in metres, faces with what sits in them, place and what is taken."""
    place, faces = result.place or (0.0, 0.0, 0.0), _faces(result)
    return json.dumps(
        {
            "faces": faces,
            "place": place[:2],
            "taken": _taken(result, faces),
        },
        ensure_ascii=False,
    )


def _faces(result: BoxResult) -> list[dict[str, Any]]:
    if result.wood is None:
        return []
    body = result.wood.carcass
    names = dict.fromkeys(placed.face for placed in body.contents)
    return [
        {
            "key": name,
            "label": capfirst(term(name)),
            "width": body.face(name).size[0],
            "height": body.face(name).size[1],
            "items": [_item(body, p) for p in body.contents if p.face == name],
        }
        for name in names
    ]


def _item(body: Drawn, placed: Placed) -> dict[str, Any]:
    part, kind = placed.part, _kind(placed)
    (u, v), (width, height) = body.centre(placed), _size(part)
    # The walls of the box say where a slot made of its panels is.
    boarded = isinstance(part, PortBody) and part.boarded is not None
    alone = [_kind(other) for other in body.contents].count(kind) == 1
    fields = FIELDS.get(kind) if alone and not boarded else None
    return {
        "name": str(term(kind)) if kind in FIELDS else part.name,
        "x": u,
        "y": v,
        "w": width,
        "h": height,
        "u": fields and fields[0],
        "v": fields and fields[1],
    }


def _kind(placed: Placed) -> str:
    """What it is called by kind; of two ports the rear one has a kind of its own."""
    part = placed.part
    return part.name if isinstance(part, PortBody) else kind_of(part)


def _size(part: Any) -> tuple[float, float | None]:
    if isinstance(part, PortBody):
        return part.width, part.height
    return part.flange_diameter, None


def usual_losses(box: Box) -> dict[str, str]:
    """What is taken for a loss that is left empty, by field: a door's leakage has to be known."""
    hole = kind_of_box(box).hole
    return {
        "ql": "" if hole else units.show(leak_q(box), "ratio", exact=True),
        "qa": _("no loss"),
        "qp": units.show(hole_q(box), "ratio", exact=True) if hole else _("no loss"),
    }


def _taken(result: BoxResult, faces: list[dict[str, Any]]) -> dict[str, str]:
    """What stands for a field that is left empty, by the name of the field."""
    taken = usual_losses(result.box)
    for face in faces:
        for item in face["items"]:
            for name, value in ((item["u"], item["x"]), (item["v"], item["y"])):
                if name:
                    taken[name] = _shown(value)
    if result.port is not None:
        taken["port_length"] = _shown(result.port.length)
    return taken


def _shown(length: float) -> str:
    return units.show(length, "length").replace("\N{NO-BREAK SPACE}", " ")
