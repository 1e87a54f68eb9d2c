"""The bodies a car may have, as a few corners of their side view; drawn by eye, not to scale."""

from __future__ import annotations

import math
from dataclasses import dataclass

from jobs.models import Intake, IntakeMark

Place = IntakeMark.Place
Point = tuple[float, float]
WIDTH, HEIGHT = 1000, 1360  # of the drawing; every body fills its width
# What lies inside the car and on no outline.
INSIDE = (Place.DASH, Place.SEATS, Place.TRIM, Place.LINING, Place.BOOT)
HALF = 188.0  # half the width of a car from above
LEFT_GROUND, MIDDLE, RIGHT_GROUND = 460.0, 695.0, 1350.0
WHEELS = (190.0, 805.0)
WHEEL = 68.0


@dataclass(frozen=True, kw_only=True)
class Outline:
    """A side view: from the nose at 0 to the tail at 1000, heights above the ground."""

    nose: float
    # Foot and head of the windscreen, end of the roof, foot of the rear window.
    base: Point
    top: Point
    roof: Point
    tail: Point
    deck: float
    # Edges of the doors, front to rear.
    doors: tuple[float, ...]
    # Where glass behind the front doors ends; None: at the rear window.
    glass_end: float | None = None

    @property
    def silhouette(self) -> list[Point]:
        """The side view all round."""
        return [
            (12, 88), (16, self.nose - 40), (52, self.nose), self.base, self.top, self.roof,
            self.tail, (972, self.deck), (988, self.deck - 45), (988, 88),
        ]  # fmt: skip

    @property
    def glass(self) -> list[Point]:
        """The side windows."""
        belt = self.base[1] + 8
        if self.glass_end is not None:
            return [
                (self.base[0] + 45, belt), (self.top[0] + 12, self.top[1] - 22),
                (self.glass_end, self.top[1] - 22), (self.glass_end, belt),
            ]  # fmt: skip
        return [
            (self.base[0] + 45, belt), (self.top[0] + 12, self.top[1] - 22),
            (self.roof[0] - 12, self.roof[1] - 22), (self.tail[0] - 45, belt),
        ]  # fmt: skip


OUTLINES: dict[str, Outline] = {
    Intake.Body.SALOON: Outline(
        nose=185, base=(270, 220), top=(395, 330), roof=(640, 335), tail=(805, 235), deck=220,
        doors=(320, 495, 665),
    ),
    Intake.Body.HATCHBACK: Outline(
        nose=185, base=(250, 220), top=(375, 335), roof=(770, 338), tail=(935, 225), deck=200,
        doors=(315, 500, 685),
    ),
    Intake.Body.ESTATE: Outline(
        nose=190, base=(260, 225), top=(385, 335), roof=(890, 338), tail=(962, 225), deck=205,
        doors=(320, 495, 670),
    ),
    Intake.Body.VAN: Outline(
        nose=215, base=(150, 265), top=(285, 420), roof=(968, 425), tail=(980, 255), deck=230,
        doors=(185, 375, 610), glass_end=370,
    ),
    Intake.Body.PICKUP: Outline(
        nose=205, base=(260, 230), top=(365, 350), roof=(585, 352), tail=(630, 245), deck=242,
        doors=(300, 445, 600),
    ),
    Intake.Body.COUPE: Outline(
        nose=172, base=(330, 205), top=(455, 300), roof=(645, 300), tail=(885, 212), deck=200,
        doors=(375, 650),
    ),
}  # fmt: skip


def left(x: float, height: float) -> Point:
    """A point of the left side, whose nose points to the left."""
    return x, LEFT_GROUND - height


def right(x: float, height: float) -> Point:
    """A point of the right side, whose nose points to the right."""
    return WIDTH - x, RIGHT_GROUND - height


def above(x: float, across: float) -> Point:
    """A point seen from above, the nose to the left; `across` counts from the middle."""
    return x, MIDDLE + across


def spots(body: str) -> dict[str, Point]:
    """Where each place of a car lies on the drawing, from its upper left corner."""
    car = OUTLINES[body]
    places = {
        Place.FRONT: above(22, 0),
        Place.BONNET: above((60 + car.base[0]) / 2, 0),
        Place.SCREEN: above((car.base[0] + car.top[0]) / 2, 0),
        Place.ROOF: above((car.top[0] + car.roof[0]) / 2, 0),
        Place.REAR_GLASS: above((car.roof[0] + car.tail[0]) / 2, 0),
        Place.TAIL: above(min((car.tail[0] + 972) / 2, 955), 0),
        Place.REAR: above(982, 0),
    }
    for view, side in ((left, "_l"), (right, "_r")):
        first, second, *third = car.doors
        last = car.doors[-1]
        on_the_side = {
            "wing": view((car.base[0] + 70) / 2, 165),
            "door": view((first + second) / 2, 160),
            "quarter": view((last + 988) / 2, 175),
            "sill": view((first + last) / 2, 92),
            "mirror": view(car.base[0] + 55, car.base[1] + 22),
            "front_wheel": view(WHEELS[0], WHEEL),
            "rear_wheel": view(WHEELS[1], WHEEL),
        }
        if third:
            on_the_side["back_door"] = view((second + third[0]) / 2, 160)
        places |= {Place(name + side): spot for name, spot in on_the_side.items()}
    return {place.value: spot for place, spot in places.items()}


def shares(body: str) -> dict[str, Point]:
    """Where each place lies, as shares of the drawing's width and height."""
    return {name: (x / WIDTH, y / HEIGHT) for name, (x, y) in spots(body).items()}


def nearest(body: str, x: float, y: float) -> str:
    """The place that lies nearest to a spot that was tapped, given as shares of the drawing."""
    places = spots(body)
    return min(places, key=lambda name: math.dist(places[name], (x * WIDTH, y * HEIGHT)))


def body_of(words: str) -> Intake.Body:
    """Guess an outline from what somebody wrote about the body; a person may choose another."""
    text = words.casefold()
    guesses = (body for body, known in _WORDS.items() if any(word in text for word in known))
    return next(guesses, Intake.Body.HATCHBACK)


# In either language; the first that stands in the words decides.
_WORDS: dict[Intake.Body, tuple[str, ...]] = {
    Intake.Body.PICKUP: ("pick", "pritsche"),
    Intake.Body.VAN: ("van", "bus", "camper", "transporter", "kasten", "wohnmobil"),
    Intake.Body.ESTATE: ("estate", "wagon", "kombi", "off-road", "suv", "gelände"),
    Intake.Body.COUPE: ("coup", "open", "cabrio", "convertible", "two door", "zweitür"),
    Intake.Body.SALOON: ("saloon", "sedan", "limousine", "stufen", "notch"),
    Intake.Body.HATCHBACK: ("hatch", "schräg", "steil"),
}
