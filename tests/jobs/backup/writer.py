"""Somebody who keeps saving: `python -m tests.jobs.backup.writer FILE` until its input ends.

Each save that was acknowledged is counted in the file, a byte each, after it is in the database.
"""

from __future__ import annotations

import os
import select
import sys

import django

PHOTO_EVERY = 25


def keep_saving(counted: int) -> None:
    """Save new rows, the same row again and again, and photos."""
    from django.core.files.base import ContentFile

    from jobs.models import Customer, Panel, Photo, User

    panel, person = Panel.objects.all()[0], User.objects.all()[0]
    counter = Customer.objects.create(name="counter", notes="0")
    number = 0
    while not select.select([sys.stdin], [], [], 0)[0]:
        number += 1
        Customer.objects.create(name=f"save {number}")
        counter.notes = str(number)
        counter.save()
        if number % PHOTO_EVERY == 1:
            pictures = {
                name: ContentFile(os.urandom(20_000), "x")
                for name in ("image", "small", "original")
            }
            Photo.objects.create(job=panel.job, panel=panel, taken_by=person, **pictures)
        os.write(counted, b".")


if __name__ == "__main__":
    django.setup()
    keep_saving(os.open(sys.argv[1], os.O_WRONLY | os.O_CREAT | os.O_APPEND))
