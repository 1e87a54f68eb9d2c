"""How the estate car came in: marks round the car, a picture, a signature, and an addition."""

from __future__ import annotations

import io
from datetime import timedelta

from django.core.files.base import ContentFile
from django.utils import timezone
from PIL import Image, ImageDraw

from jobs.demo.agreement import DRAWN
from jobs.drawings.car.bodies import shares
from jobs.models import Intake, IntakeMark, Job, User

Kind, Place = IntakeMark.Kind, IntakeMark.Place
MARKS = (
    (Place.DOOR_L, Kind.SCRATCH, "a hand long, down to the primer"),
    (Place.REAR, Kind.DENT, "as large as a coin, right of the plate"),
    (Place.SCREEN, Kind.CRACK, "stone chip, does not run"),
    (Place.SEATS, Kind.STAIN, "coffee, rear bench"),
)


def load_intake(estate: Job, people: dict[str, User]) -> None:
    """Take the estate in four days ago; a wheel is looked at again the day after."""
    at, by = timezone.now() - timedelta(days=4), people["consultant"]
    body = Intake.Body.ESTATE
    spots = shares(body)
    for n, (place, kind, note) in enumerate(MARKS):
        x, y = spots.get(place, (None, None))
        mark = IntakeMark(
            job=estate, place=place, kind=kind, note=note, x=x, y=y, noted_by=by,
            noted_at=at - timedelta(minutes=10 - n),
        )  # fmt: skip
        if kind == Kind.SCRATCH:
            mark.image = mark.small = ContentFile(_scratch(), "scratch.jpg")
        mark.save()
    Intake.objects.create(
        job=estate, body=body, mileage=84_210, fuel=60, keys=1, lamps_lit=False,
        belongings_left=True, belongings="Child seat, rear left; a folder in the glove box",
        works="Radio, all four doors, reversing sensors",
        works_not="The rear speaker on the right crackles", signed_name="Leonie Marsh",
        signature=DRAWN, signed_at=at, taken_by=by,
    )  # fmt: skip
    x, y = spots[Place.FRONT_WHEEL_R]
    IntakeMark.objects.create(
        job=estate, place=Place.FRONT_WHEEL_R, kind=Kind.SCRATCH, x=x, y=y,
        note="Kerb mark; seen when the car was washed", noted_by=people["installer"],
        noted_at=at + timedelta(days=1),
    )  # fmt: skip


def _scratch() -> bytes:
    """A drawn stand-in for a photo: a light stroke over dark paint."""
    sheet = Image.new("RGB", (800, 600), (58, 74, 92))
    pencil = ImageDraw.Draw(sheet)
    pencil.line([(150, 380), (330, 330), (520, 300), (690, 240)], fill=(215, 216, 210), width=7)
    written = io.BytesIO()
    sheet.save(written, "JPEG", quality=82)
    return written.getvalue()
