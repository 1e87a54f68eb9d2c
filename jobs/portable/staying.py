"""What of a job's rows stays behind, and why."""

from __future__ import annotations

from django.db.models import Model

from jobs.models import User, Workshop
from jobs.models.workshop import Machines

_COUNTED = "is counted by the app for itself"
_BUYING = "is between the workshop and its supplier"
_PROOF = "shows the car as its owner brought it: the proof of the workshop that took it in"
# What of a job's plain data stays behind: why.
STAYS = {
    "*.version": _COUNTED,
    "Job.edition": _COUNTED,
    "Job.open_stops": _COUNTED,
    "Job.open_looks": _COUNTED,
    "Photo.original": "may say where it was taken",
    "Customer.notes": "is what the workshop thinks of a person",
    "Vehicle.figures_from": "names a job of this workshop",
    "Part.cost": _BUYING,
    "Part.supplier": _BUYING,
    "Part.order_number": _BUYING,
    "Part.shelf": _BUYING,
    "Part.notes": _BUYING,
    "PriceLine.cost": _BUYING,
    "IntakeMark.image": _PROOF,
    "IntakeMark.small": _PROOF,
    "Intake.signature": "could be put under anything",
    "ChannelCurve.take": "is what a microphone heard, words of people among it",
    "ProcessorFile.kept": "is the file of another program, which nobody here looks into",
    # Nor the secret in the address of an offer, which opens it to whoever knows it, nor what was
    # drawn under it: a signature could be put under anything. Who said yes, and when, goes along.
    # The codes of panels and sheets do too: they are printed on paper that is in the file.
}
# Of the workshop only what figures rest on; its rates, addresses and words are its own.
OF_THE_WORKSHOP = {
    *("id", "name", "units", "paper", "currency"),
    *("cable_slack", "cable_per_end", "heat_shrink"),
    *(column.attname for column in Machines._meta.get_fields()),  # type: ignore[union-attr]
}
# What of a person is no sign-in.
OF_A_PERSON = {"id", "last_name"}


def stays(model: type[Model], name: str) -> bool:
    """Whether a field of a row does not go into the file."""
    if model is Workshop:
        return name not in OF_THE_WORKSHOP
    if model is User:
        return name not in OF_A_PERSON
    return any(f"{base}.{name}" in STAYS for base in ("*", *(b.__name__ for b in model.__mro__)))
