"""The estate car's spec and price, agreed; its deposit and the hours so far; the pickup's, open."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

from django.utils import timezone

from jobs import sheets
from jobs.acceptance import accept
from jobs.design.job.whole import load, work_out
from jobs.models import Job, Payment, SheetKind, User, WorkTime
from jobs.options import keep, take_up

# What a hand might draw.
DRAWN = [
    [90, 260, 130, 150, 175, 110, 190, 170, 150, 280, 200, 300, 270, 240, 300, 200, 310, 250],
    [310, 250, 350, 215, 380, 250, 420, 205, 450, 255, 500, 215, 545, 250, 600, 210, 690, 245],
    [640, 180, 720, 165, 850, 150],
]


def load_options(pickup: Job) -> None:
    """A box as planned, and one that goes lower and takes more room; the first is chosen."""
    plain = keep(pickup, "Behind the bench", "Nothing of the cab is lost; the seat stays.")
    box = pickup.boxes.filter(chosen=True)[0]
    box.width = (box.width or 0.0) + 0.15
    box.save()
    keep(pickup, "Wider", "A little deeper in the bass, 15 cm more of the shelf.")
    take_up(plain, choose=True)


def load_agreement(estate: Job, pickup: Job, people: dict[str, User]) -> None:
    """Freeze both where papers can be printed; the first was said yes to."""
    if sheets.unavailable():
        return
    for job in (estate, pickup):
        options = sheets.Options()
        sheets.issue(work_out(load(job)), SheetKind.SPEC, options, people["consultant"])
    offer = estate.offers.get()
    stage = estate.stage
    accept(offer, "Leonie Marsh", DRAWN)
    Job.objects.filter(pk=estate.pk).update(stage=stage)
    Payment.objects.create(
        job=estate, amount=Decimal("1134.59"), received_on=date(2026, 11, 17), note="by transfer"
    )
    day = timezone.localdate() - timedelta(days=3)
    for kind, minutes, text in (("wood", 250, "Box cut and glued"), ("car", 95, "Boot floor")):
        WorkTime.objects.create(job=estate, kind=kind, minutes=minutes, text=text, worked_on=day)
