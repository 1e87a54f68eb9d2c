"""`undertrim certificate`: make the own certificate anew where it soon runs out."""

from __future__ import annotations

import datetime as dt
import os
import subprocess
import sys
from pathlib import Path

from config.workshop.certificate import RENEWED_BEFORE, Place, days_left, make_certificate, read


def renew(place: Place, names: list[str], *, now: dt.datetime) -> bool:
    """Make a new certificate where the old one ends within two months; say whether it was done."""
    if days_left(read(place.certificate), now) > RENEWED_BEFORE:
        return False
    make_certificate(place, names)
    return True


def main() -> None:
    """Renew for the names this installation answers to, and let the front read it."""
    place = Place(folder=Path(sys.argv[1]))
    if not place.authority.exists():
        return  # a given certificate is looked after by whoever gave it
    left = days_left(read(place.certificate), dt.datetime.now(dt.UTC))
    if not place.authority_key.exists():
        if left <= RENEWED_BEFORE:
            sys.exit(f"The certificate ends in {left} days; its authority's key is not here.")
        return
    if renew(place, os.environ["UNDERTRIM_HOSTS"].split(","), now=dt.datetime.now(dt.UTC)):
        subprocess.run(["systemctl", "reload", "nginx"], check=False)
        sys.stdout.write("The certificate was made anew.\n")


if __name__ == "__main__":
    main()
