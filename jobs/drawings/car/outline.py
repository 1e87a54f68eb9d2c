"""A car to walk round: left side, from above, right side, with a numbered pin at each mark."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

from jobs.drawings.car.bodies import (
    HALF,
    HEIGHT,
    OUTLINES,
    WHEEL,
    WHEELS,
    WIDTH,
    Outline,
    above,
    left,
    right,
)
from jobs.drawings.pencil.svg import Point, el, group, line, outline, text
from jobs.models import IntakeMark

View = Callable[[float, float], Point]
PIN = 26.0


def car_outline(body: str, marks: Sequence[IntakeMark], **attributes: str) -> SafeString:
    """Draw a body from three sides; pins are numbered as their marks are listed, from 1."""
    car = OUTLINES[body]
    names = ((_("left"), 30), (_("from above"), 490), (_("right"), 915))
    return el(
        "svg",
        group(
            *_side(car, left),
            *_plan(car),
            *_side(car, right),
            fill="none",
            stroke="currentColor",
            stroke_width=3,
            stroke_linejoin="round",
        ),
        *(text(name, (4, height), size=26) for name, height in names),
        *(_pin(n, mark) for n, mark in enumerate(marks, 1) if mark.x is not None),
        xmlns="http://www.w3.org/2000/svg",
        viewBox=f"0 0 {WIDTH} {HEIGHT}",
        role="img",
        aria_label=_("outline of the car"),
        **attributes,
    )


def _shape(corners: Sequence[Point], view: View) -> SafeString:
    return el("path", d=outline([view(*corner) for corner in corners]))


def _side(car: Outline, view: View) -> list[SafeString]:
    wheels = [
        el("circle", cx=x, cy=y, r=radius)
        for x, y in (view(wheel, WHEEL) for wheel in WHEELS)
        for radius in (WHEEL, WHEEL * 0.6)
    ]
    doors = [line(view(x, 92), view(x, car.base[1] + 8)) for x in car.doors]
    ground = line(view(0, 0), view(WIDTH, 0), stroke_width=1.5)
    return [_shape(car.silhouette, view), _shape(car.glass, view), *doors, *wheels, ground]


def _plan(car: Outline) -> list[SafeString]:
    body: list[Point] = [
        (10, -120), (28, -160), (90, -HALF), (930, -HALF), (980, -165), (990, -130),
        (990, 130), (980, 165), (930, HALF), (90, HALF), (28, 160), (10, 120),
    ]  # fmt: skip
    screen = _across(car.base[0], 158, car.top[0], 138)
    rear = _across(car.roof[0], 138, min(car.tail[0], 975), 152)
    roof = _across(car.top[0], 138, car.roof[0], 138)
    mirrors: list[list[Point]] = [
        [(car.base[0] + 40, sign * HALF), (car.base[0] + 55, sign * 214),
         (car.base[0] + 80, sign * 214), (car.base[0] + 80, sign * HALF)]
        for sign in (-1, 1)
    ]  # fmt: skip
    shapes: list[list[Point]] = [body, screen, roof, rear, *mirrors]
    return [_shape(corners, above) for corners in shapes]


def _across(start: float, half: float, end: float, other: float) -> list[Point]:
    """What is as wide on the left as on the right."""
    return [(start, -half), (end, -other), (end, other), (start, half)]


def _pin(number: int, mark: IntakeMark) -> SafeString:
    assert mark.x is not None
    assert mark.y is not None
    at = mark.x * WIDTH, mark.y * HEIGHT
    ring = el(
        "circle", cx=at[0], cy=at[1], r=PIN, fill="#fff", stroke="#000", stroke_width=4
    )  # fmt: skip
    return group(ring, text(number, at, size=30, anchor="middle", fill="#000", font_weight=600))
