"""Profiles of the boxes a car asks for; every dimension is of the outside.

The front is at x = 0 and the floor at y = 0. For dimensions of the inside build the same shape
with inner dimensions and grow it: `Profile.inset` with negative depths.
"""

from __future__ import annotations

import math

from acoustics.carcass.shape.errors import ProfileError, metres
from acoustics.carcass.shape.profile import Profile, positive
from acoustics.errors import COUNT, Quantity
from acoustics.names import Name

FOUR = ("bottom", "rear", "top", "front")


def _less(name: Name, value: float, other: Name, limit: float) -> None:
    if not positive(name, value) < limit:
        raise ProfileError(
            code="measure-too-large",
            measure=name,
            value=metres(value),
            other=other,
            limit=metres(limit),
        )


def rectangle_profile(depth: float, height: float) -> Profile:
    """Return a plain rectangular side view.

    Args:
        depth: outer depth, front to rear [m].
        height: outer height [m].

    Returns:
        A profile with edges bottom, rear, top, front [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m.

    Source: definition.
    """
    return sloped_rear_profile(depth, depth, height)


def sloped_rear_profile(bottom_depth: float, top_depth: float, height: float) -> Profile:
    """Return a side view with an upright front and a leaning rear, as behind a seat back.

    Its area is height · (bottom_depth + top_depth) / 2 and the rear leans
    atan((bottom_depth − top_depth) / height) from upright.

    Args:
        bottom_depth: outer depth at the floor [m].
        top_depth: outer depth at the top [m].
        height: outer height [m].

    Returns:
        A profile with edges bottom, rear, top, front [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m.

    Source: definition.
    """
    positive(Name.BOTTOM_DEPTH, bottom_depth)
    positive(Name.TOP_DEPTH, top_depth)
    positive(Name.HEIGHT, height)
    points = ((0.0, 0.0), (bottom_depth, 0.0), (top_depth, height), (0.0, height))
    return Profile(points=points, names=FOUR)


def leaning_rear_profile(bottom_depth: float, height: float, slope: float) -> Profile:
    """Return a side view whose rear leans forward by a measured angle.

    top depth = bottom_depth − height · tan(slope).

    Args:
        bottom_depth: outer depth at the floor [m].
        height: outer height [m].
        slope: lean of the rear from upright; positive leans towards the front [rad].

    Returns:
        A profile with edges bottom, rear, top, front [m].

    Raises:
        ProfileError: when the slope is 90° or more from upright, or meets the front below
            the top.

    Source: definition.
    """
    if not abs(slope) < math.pi / 2:
        raise ProfileError(
            code="slope-too-steep",
            slope=Quantity(slope, "rad"),
            steepest=Quantity(math.pi / 2, "rad"),
        )
    top_depth = bottom_depth - height * math.tan(slope)
    if top_depth <= 0:
        limit = math.atan2(bottom_depth, height)
        raise ProfileError(
            code="slope-meets-front", slope=Quantity(slope, "rad"), steepest=Quantity(limit, "rad")
        )
    return sloped_rear_profile(bottom_depth, top_depth, height)


def wedge_profile(depth: float, height: float) -> Profile:
    """Return a three-cornered side view: a floor, a leaning rear and an upright front.

    Args:
        depth: outer depth at the floor [m].
        height: outer height of the front [m].

    Returns:
        A profile with edges bottom, rear, front [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m.

    Source: definition.
    """
    positive(Name.DEPTH, depth)
    positive(Name.HEIGHT, height)
    return Profile(
        points=((0.0, 0.0), (depth, 0.0), (0.0, height)), names=("bottom", "rear", "front")
    )


def double_slope_profile(
    *, bottom_depth: float, knee_depth: float, knee_height: float, top_depth: float, height: float
) -> Profile:
    """Return a side view whose rear leans in two slopes that meet at a knee.

    Args:
        bottom_depth: outer depth at the floor [m].
        knee_depth: outer depth where the slope changes [m].
        knee_height: height of that place [m].
        top_depth: outer depth at the top [m].
        height: outer height [m].

    Returns:
        A profile with edges bottom, lower rear, upper rear, top, front [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m or the knee is not below the top.

    Source: definition.
    """
    _less(Name.KNEE_HEIGHT, knee_height, Name.HEIGHT, height)
    for name, value in (
        (Name.BOTTOM_DEPTH, bottom_depth),
        (Name.KNEE_DEPTH, knee_depth),
        (Name.TOP_DEPTH, top_depth),
    ):
        positive(name, value)
    return Profile(
        points=(
            (0.0, 0.0),
            (bottom_depth, 0.0),
            (knee_depth, knee_height),
            (top_depth, height),
            (0.0, height),
        ),
        names=("bottom", "lower rear", "upper rear", "top", "front"),
    )


def step_profile(*, depth: float, height: float, step_depth: float, step_height: float) -> Profile:
    """Return a side view with a step cut out of the lower rear, as over a beam axle.

    Args:
        depth: outer depth at the top [m].
        height: outer height [m].
        step_depth: how far the step reaches in from the rear [m].
        step_height: how high it reaches above the floor [m].

    Returns:
        A profile with edges bottom, step riser, step tread, rear, top, front [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m or the step is as large as the box.

    Source: definition.
    """
    _less(Name.STEP_DEPTH, step_depth, Name.DEPTH, positive(Name.DEPTH, depth))
    _less(Name.STEP_HEIGHT, step_height, Name.HEIGHT, positive(Name.HEIGHT, height))
    return Profile(
        points=(
            (0.0, 0.0),
            (depth - step_depth, 0.0),
            (depth - step_depth, step_height),
            (depth, step_height),
            (depth, height),
            (0.0, height),
        ),
        names=("bottom", "step riser", "step tread", "rear", "top", "front"),
    )


def l_profile(*, depth: float, height: float, toe_depth: float, toe_height: float) -> Profile:
    """Return an L-shaped side view: a low toe that reaches forward, as under a seat.

    Args:
        depth: outer depth over all [m].
        height: outer height of the tall part at the rear [m].
        toe_depth: depth of the low part in front [m].
        toe_height: height of the low part [m].

    Returns:
        A profile with edges bottom, rear, top, riser, toe top, front [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m or the toe is as large as the box.

    Source: definition.
    """
    _less(Name.TOE_DEPTH, toe_depth, Name.DEPTH, positive(Name.DEPTH, depth))
    _less(Name.TOE_HEIGHT, toe_height, Name.HEIGHT, positive(Name.HEIGHT, height))
    return Profile(
        points=(
            (0.0, 0.0),
            (depth, 0.0),
            (depth, height),
            (toe_depth, height),
            (toe_depth, toe_height),
            (0.0, toe_height),
        ),
        names=("bottom", "rear", "top", "riser", "toe top", "front"),
    )


def cut_corner_profile(
    *, depth: float, height: float, cut_depth: float, cut_height: float
) -> Profile:
    """Return a rectangle whose lower rear corner is cut off straight.

    Args:
        depth: outer depth at the top [m].
        height: outer height [m].
        cut_depth: how far the cut reaches in along the floor [m].
        cut_height: how far it reaches up the rear [m].

    Returns:
        A profile with edges bottom, cut, rear, top, front [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m or the cut is as large as the box.

    Source: definition.
    """
    _less(Name.CUT_DEPTH, cut_depth, Name.DEPTH, positive(Name.DEPTH, depth))
    _less(Name.CUT_HEIGHT, cut_height, Name.HEIGHT, positive(Name.HEIGHT, height))
    return Profile(
        points=(
            (0.0, 0.0),
            (depth - cut_depth, 0.0),
            (depth, cut_height),
            (depth, height),
            (0.0, height),
        ),
        names=("bottom", "cut", "rear", "top", "front"),
    )


def wheel_arch_profile(*, depth: float, height: float, radius: float, flats: int = 3) -> Profile:
    """Return a rectangle whose lower rear corner makes room for a wheel arch, in flats.

    The flats touch the arch from outside, so the wood never enters it: their corners lie on
    radius / cos(π / (4 · flats)), and the first and last flat meet floor and rear where the
    arch does not reach.

    Args:
        depth: outer depth at the top [m].
        height: outer height [m].
        radius: radius of the arch around the lower rear corner [m].
        flats: number of flat panels that follow the arch [-].

    Returns:
        A profile with edges bottom, arch 1 …, rear, top, front [m].

    Raises:
        ProfileError: when a dimension is not greater than 0 m, the arch is as large as the box,
            or there are fewer than two flats.

    Source: definition (polygon around a circle).
    """
    if flats < 2:
        raise ProfileError(code="flats-too-few", flats=Quantity(flats, COUNT))
    step = math.pi / 2 / flats
    reach = positive(Name.RADIUS, radius) / math.cos(step / 2)
    _less(Name.ARCH_REACH, reach, Name.DEPTH, positive(Name.DEPTH, depth))
    _less(Name.ARCH_REACH, reach, Name.HEIGHT, positive(Name.HEIGHT, height))
    arc = [
        (depth - reach * math.cos(k * step), reach * math.sin(k * step)) for k in range(flats + 1)
    ]
    arc[-1] = (depth, reach)
    return Profile(
        points=((0.0, 0.0), *arc, (depth, height), (0.0, height)),
        names=("bottom", *(f"arch {k + 1}" for k in range(flats)), "rear", "top", "front"),
    )


def round_well_profile(*, diameter: float, sides: int = 12) -> Profile:
    """Return a regular polygon that fits inside a round well, such as a spare-wheel tub.

    Its corners lie on the circle, so the box goes in; its width is the depth of the well.

    Args:
        diameter: diameter of the well, less the gap to keep [m].
        sides: number of flat sides [-].

    Returns:
        A profile with edges side 1 … [m].

    Raises:
        ProfileError: when the diameter is not greater than 0 m or there are fewer than 5 sides.

    Source: definition (polygon inside a circle).
    """
    if sides < 5:
        raise ProfileError(code="sides-too-few", sides=Quantity(sides, COUNT))
    radius = positive(Name.WELL_DIAMETER, diameter) / 2
    angles = (2 * math.pi * k / sides for k in range(sides))
    return Profile(points=tuple((radius * math.cos(a), radius * math.sin(a)) for a in angles))
