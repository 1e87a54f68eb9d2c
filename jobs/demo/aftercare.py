"""What the estate car's customer is given to keep, and what came up over a weekend at home."""

from __future__ import annotations

import io

from django.utils import timezone
from PIL import Image, ImageDraw

from jobs import sheets
from jobs.design.job.whole import load, work_out
from jobs.models import CableLot, ItemAsBuilt, Job, Photo, Run, ServiceVisit, SheetKind, User
from jobs.photos import prepare


def load_aftercare(estate: Job, people: dict[str, User]) -> None:
    """Issue its pack and let it go home; it is back with a complaint, and a unit is exchanged.

    The pack puts the page behind the customer's link.
    """
    main = estate.runs.filter(kind=Run.Kind.POWER).order_by("number")[0]
    CableLot.objects.create(job=estate, conductor_id=main.conductor_id, number="K26-0417", run=main)
    if not sheets.unavailable():
        design = work_out(load(estate))
        sheets.issue(design, SheetKind.CUSTOMER, sheets.Options(), people["manager"])
    now = timezone.now()
    # Its row knows by now which sheet was issued last.
    Job.objects.filter(pk=estate.pk).update(left_on=timezone.localdate(now))
    visit = ServiceVisit.objects.create(
        job=estate,
        day=timezone.localdate(now),
        reason=ServiceVisit.Reason.COMPLAINT,
        person=people["installer"],
        panel=estate.panels.get(name="Front door card, left"),
        told="It was taken home over the weekend: something buzzed in the left door.",
        seen="One clip of the card was not home. The fan of the six-channel amplifier ground.",
        changed="New clip; nothing buzzes up to the clean level.",
        settled=True,
    )
    six = estate.equipmentitems.get(serial="S6-1182")
    ItemAsBuilt.objects.create(
        job=estate, item=six, part_id=six.part_id, place=six.place, serial="S6-1197",
        reason="The fan of the first one ground: exchanged under its warranty.",
        done_by=people["installer"], done_at=now,
    )  # fmt: skip
    Photo.objects.create(
        job=estate, visit=visit, taken_by=people["installer"],
        caption="The clip that was not home", **prepare(_clip()).fields,
    )  # fmt: skip


def _clip() -> bytes:
    """A drawn stand-in for a photo: a round clip beside its hole."""
    sheet = Image.new("RGB", (800, 600), (92, 88, 82))
    pencil = ImageDraw.Draw(sheet)
    pencil.ellipse((180, 230, 300, 350), fill=(28, 27, 26))
    pencil.ellipse((420, 210, 580, 370), fill=(226, 222, 210))
    pencil.ellipse((470, 260, 530, 320), fill=(170, 164, 150))
    written = io.BytesIO()
    sheet.save(written, "JPEG", quality=82)
    return written.getvalue()
