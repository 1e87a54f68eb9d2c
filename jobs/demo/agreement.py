"""The estate car's spec and price, agreed; its deposit and the hours so far; the pickup's, open."""

from __future__ import annotations

from datetime import date, timedelta

from django.urls import reverse
from django.utils import timezone

from jobs import sheets
from jobs.acceptance import accept
from jobs.design.agreement.shown import Shown
from jobs.design.job.whole import load, work_out
from jobs.models import (
    Conversation,
    Job,
    Message,
    Payment,
    SheetKind,
    User,
    Workshop,
    WorkTime,
)
from jobs.options import keep, take_up

# What a hand might draw.
DRAWN = [
    [90, 260, 130, 150, 175, 110, 190, 170, 150, 280, 200, 300, 270, 240, 300, 200, 310, 250],
    [310, 250, 350, 215, 380, 250, 420, 205, 450, 255, 500, 215, 545, 250, 600, 210, 690, 245],
    [640, 180, 720, 165, 850, 150],
]


def load_options(pickup: Job) -> None:
    """A box as planned, a wider one and a narrower one; the first is chosen."""
    plain = keep(pickup, "Behind the bench", "Nothing of the cab is lost; the seat stays.")
    box = pickup.boxes.filter(chosen=True)[0]
    box.width = (box.width or 0.0) + 0.15
    box.save()
    keep(pickup, "Wider", "A little deeper in the bass, 15 cm more of the shelf.")
    box.width -= 0.3
    box.save()
    keep(pickup, "Narrow", "The jack stays where it is; less of the lowest octave.")
    take_up(plain, choose=True)


def load_words(estate: Job, pickup: Job, by: User) -> None:
    """What was said, and an e-mail with the link of an offer: it waits for whoever serves."""
    today = timezone.localdate()
    way = Conversation.Way
    for days, how, text in (
        (
            9,
            way.HERE,
            "Came by with the car. Nothing may stand out in the boot; a dog rides there.",
        ),
        (2, way.PHONE, "Asked whether the floor still opens. Told her it does, with two fingers."),
    ):
        row = Conversation(job=estate, held_on=today - timedelta(days=days), way=how, text=text)
        row._history_user = by  # type: ignore[attr-defined]
        row.save()
    offer = pickup.offers.first()
    if offer is None:  # no papers can be printed here
        return
    shop, now, who = Workshop.current(), timezone.now(), pickup.vehicle.customer
    link = f"{shop.web_address}{reverse('offer-page', args=[offer.token])}"
    Message.objects.create(
        job=pickup, offer=offer, kind=Message.Kind.OFFER, to=who.email, asked_by=by, asked_at=now,
        next_at=now, subject=f"Our offer {offer.number} for your {pickup.vehicle}",
        text=f"Good day {who},\n\nbehind this link is our offer {offer.number}:\n\n{link}\n\n"
        f"{shop.name}\n{shop.phone}",
    )  # fmt: skip


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
    deposit = Shown.read(offer.shown).deposit
    Payment.objects.create(
        job=estate, amount=deposit, received_on=date(2026, 11, 17), note="by transfer"
    )
    day = timezone.localdate() - timedelta(days=3)
    for kind, minutes, text in (("wood", 250, "Box cut and glued"), ("car", 95, "Boot floor")):
        WorkTime.objects.create(job=estate, kind=kind, minutes=minutes, text=text, worked_on=day)
