"""What is found wrong with a record, said at the field that would cure it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from jobs.design.records.findings import Finding, Term, reason

# Code of a finding or of a refusal -> the fields that would cure it, the likeliest first.
_FIELDS: Mapping[str, tuple[str, ...]] = {
    # -- ports
    "port-beside-tunes-higher": ("second_port_length",),
    "flares-longer-than-port": ("port_flare",),
    "port-shorter-than-bend": ("port_straight", "port_bend"),
    "slot-higher-than-box": ("port_height",),
    "slot-wider-than-box": ("port_width",),
    "slot-needs-square-corner": ("port_lies",),
    "slot-mouth-in-cheek": ("port_face",),
    "slot-board-cut": ("port_length", "port_lies"),
    "slot-in-prism-only": ("port_lies",),
    "port-does-not-fit": ("port_bend", "port_length"),
    "port-mouth-near-wall": ("port_bend", "port_length"),
    "front-volume-off-target": ("divider_at",),
    # -- faces and what sits in them
    "recess-through-panel": ("driver_recess",),
    "recess-weakens-panel": ("driver_recess",),
    "grille-hits-cone": ("grille_height",),
    "grille-near-cone": ("grille_height",),
    "grille-not-checked": ("grille_height",),
    "rebate-through-cheeks": ("rebate_depth",),
    "rebate-through-panel": ("rebate_depth",),
    "rebate-where-walls-lean": ("corner_joint",),
    "mitred-cheeks-need-mitres": ("cheek_joint",),
    "window-rim-too-thin": ("brace_opening", "inner_braces"),
    "brace-beyond-width": ("inner_braces",),
    "brace-beyond-height": ("inner_braces",),
    # -- held
    "box-unfixed": ("held_by",),
    "box-fixing-unknown": ("held_by",),
    "fixing-into-nothing": ("held_into",),
    "panel-unfixed": ("held_by",),
    "panel-fixing-unknown": ("held_by",),
    "panel-into-nothing": ("held_into",),
    "equipment-unfixed": ("held_by",),
    "equipment-fixing-unknown": ("held_by",),
    "equipment-into-nothing": ("held_into",),
    "carried-by-nothing-held": ("held_by",),
    # -- trim
    "opening-reaches-rim": ("reveal", "openings"),
    "finish-thicker-than-reveal": ("finish",),
    "ring-incomplete": ("layers",),
    "barrel-longer-than-wood": ("baffle_layers", "layers"),
    "fastener-hole-differs": ("screw_diameter",),
    "panel-cut-apart": ("corner_joint",),
    "round-over-beyond-board": ("round_over",),
    "round-over-meets-part": ("round_over",),
    "opening-in-bend": ("openings", "bend_at"),
    "skin-thicker-than-board": ("bend_skin",),
    "bend-too-tight": ("bend_radius",),
    "bend-beyond-turn": ("bend_angle",),
    "kerfs-too-many": ("bend_angle",),
    "kerfs-overlap": ("bend_radius", "bend_skin"),
    "bend-off-panel": ("bend_at",),
    # -- floors, hatches, cover
    "round-beside-curve": ("outline",),
    "round-too-large": ("outline", "openings"),
    "station-off-batten": ("stations",),
    "stations-coincide": ("stations",),
    "no-such-corner": ("stations",),
    "gap-closes-outline": ("edge_gap",),
    "floor-on-no-support": ("supports",),
    "floor-thicker-than-level": ("level",),
    "support-beyond-floor": ("supports",),
    "support-under-opening": ("supports", "openings"),
    "support-under-hatch": ("supports", "hatches"),
    "floor-tips": ("supports",),
    "floor-overhangs": ("supports",),
    "floor-sags": ("supports",),
    "floor-edge-sags": ("supports",),
    "floor-may-break": ("material", "bears"),
    "floor-strength-unknown": ("material",),
    "floor-load-unknown": ("bears",),
    "floor-stiffness-unknown": ("material",),
    "lid-vanishes": ("hatches",),
    "lid-falls-through": ("hatches",),
    "ledge-closes-hatch": ("hatches",),
    "finger-hole-off-lid": ("hatches",),
    "lid-hardly-lies": ("hatches",),
    "hatch-narrow": ("hatches",),
    "lid-without-grip": ("hatches",),
    "mount-beyond-board": ("mounts",),
    "mount-over-opening": ("mounts",),
    "mounts-collide": ("mounts",),
    "mounts-crowded": ("mounts",),
    "mount-higher-than-room": ("room_above",),
    "mount-without-air": ("room_above",),
    "mount-height-unknown": ("room_above",),
    "mount-not-listed": ("mounts",),
    "beneath-unknown": ("beneath_listed",),
    "beneath-not-listed": ("beneath",),
    "beneath-place-unknown": ("beneath",),
    "beneath-without-hatch": ("beneath", "hatches"),
    "cover-sample-open": ("sample",),
    "cover-thickness-unknown": ("finish", "cover"),
    "cover-roll-unknown": ("cover",),
    "cover-wider-than-roll": ("cover_runs", "cover"),
    "screw-circle-off-wood": ("bolt_circle",),
    # -- the car
    "payload-exceeded": ("payload",),
    "axles-exceeded": ("front_axle_spare", "rear_axle_spare"),
}
# What stands in another thing -> the field that moves it; wood before what sits in the wood.
_MOVED_BY = {
    "divider": "divider_at",
    "shelf": "inner_braces",
    "upright": "inner_braces",
    "plate": "inner_braces",
    "strut": "inner_braces",
    "brace": "brace_count",
    "port": "port_u",
    "terminal": "terminal_u",
    "driver": "driver_u",
}
# What is wrong with the place of one thing: the field that moves it.
_PLACED = {
    "part-hits-wall",
    "part-near-wall",
    "flange-over-edge",
    "cut-out-breaks-edge",
    "cut-out-near-edge",
    "screws-off-wood",
}
_DEEP = {"driver-deeper-than-box", "driver-near-back"}
COLLIDE = _("{where} stand {amount} in each other. Move this at least so far.")
_SHORT = {"stop", "look"}
# Less than this shows as nothing [m].
SEEN = 5e-5
SECOND = Term(("second port",))


def say_at_fields(form: Any, findings: Iterable[Finding]) -> None:
    """Put each sentence on the field of the form that would cure it, stops first as they come."""
    for finding in findings:
        if finding.severity not in _SHORT or finding.decision is not None:
            continue
        name = next((name for name in _fields(finding) if name in form.fields), None)
        if name is not None and not hasattr(form.fields[name], "said"):
            vars(form.fields[name])["said"] = _sentence(finding)


def _fields(finding: Finding) -> tuple[str, ...]:
    code = finding.code
    if code in _DEEP:  # a divider is moved before the whole box is made deeper
        return ("divider_at",) if finding.about.detail.endswith("/divider") else ("depth",)
    if code in _PLACED:
        kind = finding.about.detail.split()[0] if finding.about.detail else ""
        return (_MOVED_BY[kind],) if kind in _MOVED_BY else ()
    if code in {"parts-collide", "parts-crowded"}:
        parts = [part.split()[0] for part in finding.about.detail.split("/") if part]
        moved = tuple(field for kind, field in _MOVED_BY.items() if kind in parts)
        return ("second_port_u", *moved) if SECOND in finding.place else moved
    if finding.refused is not None:
        code = str(getattr(finding.refused, "code", ""))
        named = str(finding.refused.given.get("name", ""))
        if code == "brace-outside":
            return (_MOVED_BY.get(named.split()[0] if named else "", "inner_braces"),)
    return _FIELDS.get(code, ())


def _sentence(finding: Finding) -> str:
    if finding.refused is not None:
        return f"{capfirst(reason(finding.refused))}."
    deep = isinstance(finding.value, float) and finding.value < -SEEN
    if finding.code == "parts-collide" and deep:
        amount = finding.shown_value.lstrip("-−")
        return str(COLLIDE).format(where=finding.where, amount=amount)
    return f"{finding.says} {finding.cure}"
