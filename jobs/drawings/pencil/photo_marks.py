"""Arrows and circles over a photo: dark within light, so that they show on any picture."""

import math
from typing import Any

from django.utils.safestring import SafeString

from jobs.drawings.pencil.svg import el, number, outline
from jobs.models import Photo, PhotoMark

WIDE = 1000.0  # drawing units across the picture
HEAD = 45.0  # length of the two strokes at the tip of an arrow
LEAN = math.radians(28)  # between each of them and the shaft
DARK, LIGHT = 9, 19  # widths of the strokes


def photo_marks(photo: Photo, fit: str = "xMidYMid slice") -> SafeString:
    """Return what is marked on a photo as a drawing to lie over it; empty where nothing is."""
    marks, proportion = photo.marks, photo.proportion
    if not marks or proportion is None:
        return SafeString("")
    way = "".join(_way(mark, WIDE * proportion) for mark in marks)
    strokes = [
        el(
            "path", d=way, fill="none", stroke=colour, stroke_width=width, stroke_linecap="round",
            stroke_linejoin="round",
        )
        for colour, width in (("#fff", LIGHT), ("#000", DARK))
    ]  # fmt: skip
    return el(
        "svg",
        *strokes,
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {number(WIDE)} {number(WIDE * proportion)}",
        preserveAspectRatio=fit,
        aria_hidden="true",
    )


def _way(mark: Any, high: float) -> str:
    shape, *places = mark
    x, y, to_x, to_y = (place * side for place, side in zip(places, (WIDE, high) * 2, strict=True))
    if shape == PhotoMark.Shape.CIRCLE:
        radius = number(math.dist((x, y), (to_x, to_y)))
        arc = f"A{radius} {radius} 0 1 0"
        left, right = (f"{number(x + sign * float(radius))} {number(y)}" for sign in (-1, 1))
        return f"M{left}{arc} {right}{arc} {left}"
    back = math.atan2(y - to_y, x - to_x)
    head = [
        (to_x + HEAD * math.cos(back + turn), to_y + HEAD * math.sin(back + turn))
        for turn in (-LEAN, LEAN)
    ]
    shaft = outline([(x, y), (to_x, to_y)], closed=False)
    return shaft + outline([head[0], (to_x, to_y), head[1]], closed=False)
