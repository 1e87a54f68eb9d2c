"""Where a finding is cured: the page of the record it is about, and the field on it."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import NoReverseMatch, path, reverse
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import Job, PowerNode, User
from jobs.pages.history.kinds import ROWS

# The field that cures a finding, by its code. A code that stands nowhere here leads to its record.
ON_THE_CAR = {
    "airbag-procedure-missing": "airbag_procedure",
    "alternator-hot-factor-unknown": "charging_hot_share",
    "alternator-idle-current-unknown": "charging_current_idle",
    "battery-charge-current-unknown": "recovery_current",
    "battery-chemistry-unknown": "battery_chemistry",
    "battery-place-unknown": "battery_place",
    "charging-current-unknown": "charging_current",
    "charging-source-unknown": "charging_source",
    "dc-dc-accessory-limit-unknown": "accessory_limit",
    "key-off-total-unknown": "sleep_current",
    "smart-charging-unknown": "smart_charging",
    "start-stop-unknown": "start_stop",
    "vehicle-load-unknown": "vehicle_current",
}
IN_THE_BRIEF = {"programme-unknown": "programme"}
ON_THE_EQUIPMENT = {
    "amplifier-air-unknown": "ventilated",
    "amplifier-in-closed-space": "ventilated",
}
# Cured on the page that lists what it names, not on the first of them.
ON_ITS_PAGE = ("not-placed", "panels-not-recorded")
ON_THE_RECORD = {
    "airbag-unknown": "airbag_near",
    "ampacity-exceeded": "conductor",
    "amplifier-channel-beyond-last": "amplifier_channel",
    "amplifier-channel-claimed-twice": "amplifier_channel",
    "box-could-have-channel": "channel",
    "box-fixing-unknown": "held_by",
    "box-without-channel": "channel",
    "box-without-driver": "driver",
    "capacitance-unknown": "capacitance",
    "cavity-width-unknown": "cavity_width",
    "channel-without-amplifier": "amplifier",
    "channel-without-output": "amplifier_channel",
    "channel-without-speaker": "speaker",
    "coil-resistance-fitted": "resistance",
    "cold-resistance-unknown": "cca",
    "conductor-unknown": "conductor",
    "control-feed-unknown": "fed_by",
    "control-unprotected": "fuse",
    "current-limit-unknown": "current_limit",
    "drilling-unknown": "drilled",
    "factory-fate-open": "fate",
    "fuse-above-conductor": "fuse",
    "fuse-below-load": "fuse",
    "fuse-beyond-1016-mm": "fuse_distance",
    "fuse-beyond-178-mm": "fuse_distance",
    "fuse-distance-unknown": "fuse_distance",
    "fuse-too-far": "fuse_distance",
    "fuse-holder-not-chosen": "fuse_holder",
    "fuse-terminal-not-chosen": "fuse_terminal",
    "glass-unknown": "glass_near",
    "ground-resistance-unknown": "resistance",
    "ground-surface-unknown": "surface",
    "length-unknown": "length",
    "opening-unknown": "opening_width",
    "port-noisy": "port_diameter",
    "processor-output-beyond-last": "processor_output",
    "return-unknown": "return_kind",
    "run-goes-nowhere": "start",
    "run-length-unknown": "length",
    "second-source-unprotected": "end_fuse",
    "source-without-voltage": "voltage",
    "source-resistance-unknown": "internal_resistance",
    "terminal-not-chosen": "start_terminal",
    "turn-on-limit-unknown": "source_limit",
    "unprotected-conductor": "fuse",
    "zone-unknown": "zone",
}


@require_safe
def go_there(
    request: HttpRequest, code: str, section: str, finding: str, kind: str, key: str
) -> HttpResponse:
    """Open the page where a finding is cured, at its field where one alone cures it."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    return redirect(_address(user, job, finding, kind, key) or _page(job, section))


def _page(job: Job, section: str) -> str:
    try:
        return reverse(section, args=[job.code])
    except NoReverseMatch:
        return reverse("findings", args=[job.code])


def _address(user: User, job: Job, finding: str, kind: str, key: str) -> str:
    """Return the page of the record with the field's anchor; nothing where there is none."""
    if finding in ON_ITS_PAGE:
        return ""
    if finding in ON_THE_CAR:
        return _at("car", job, field=ON_THE_CAR[finding])
    if finding in IN_THE_BRIEF:
        return _at("brief", job, field=IN_THE_BRIEF[finding])
    if finding in ON_THE_EQUIPMENT and kind == "powernode" and key.isdecimal():
        node = PowerNode.objects.filter(job=job, pk=key).first()
        if node and node.equipment_id:
            kind, key = "equipmentitem", str(node.equipment_id)
    row = next((row for row in ROWS if row.model._meta.model_name == kind), None)
    if row is None or not row.allowed(user) or not _is_there(row.model, job, key):
        return ""
    field = ON_THE_RECORD.get(finding) or ON_THE_EQUIPMENT.get(finding, "")
    return _at(f"{row.slug}-edit", job, int(key), field=field)


def _is_there(model: Any, job: Job, key: str) -> bool:
    return key.isdecimal() and model.objects.filter(job=job, pk=key).exists()


def _at(name: str, job: Job, *key: int, field: str) -> str:
    anchor = f"#id_{field}" if field else ""
    return f"{reverse(name, args=[job.code, *key])}{anchor}"


urlpatterns = [
    path(
        "jobs/<str:code>/cure/<str:section>/<str:finding>/<str:kind>/<str:key>/",
        go_there,
        name="cure",
    )
]
