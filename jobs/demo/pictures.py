"""What the drivers of the demo look like: drawn here, since there are none to photograph."""

from __future__ import annotations

import io

from PIL import Image, ImageDraw

from jobs.models import Driver, PartPicture
from jobs.photos import STAMP

# Rim, surround, cone and cap: share of the outer diameter, and shade of grey.
RINGS = ((0.96, 90), (0.84, 40), (0.70, 150), (0.28, 70))


def add_pictures() -> None:
    """Draw each driver from its front, the larger ones larger."""
    drivers = list(Driver.objects.all())
    largest = max(driver.outer_diameter or 0.0 for driver in drivers)
    for driver in drivers:
        if driver.outer_diameter:
            across = STAMP * (0.4 + 0.6 * driver.outer_diameter / largest)
            PartPicture.objects.create(part=driver, image=_front(across))


def _front(across: float) -> bytes:
    sheet = Image.new("L", (STAMP, STAMP), 245)
    pencil = ImageDraw.Draw(sheet)
    for share, shade in RINGS:
        half = across * share / 2
        middle = STAMP / 2
        pencil.ellipse((middle - half, middle - half, middle + half, middle + half), fill=shade)
    written = io.BytesIO()
    sheet.save(written, "JPEG", quality=82)
    return written.getvalue()
