"""How two panels meet at a corner, and where that ends each of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from acoustics.carcass.shape.errors import JointError, metres
from acoustics.carcass.shape.profile import Point, Profile
from acoustics.errors import COUNT, Id, Quantity

JointKind = Literal["butt", "mitre", "rebate"]
CheekJoint = Literal["cover", "between", "mitre", "rebate"]


@dataclass(frozen=True, kw_only=True)
class Joint:
    """The joint at one corner of the profile.

    Before and after are the edges that end and begin at the corner. In a butt joint the panel
    that runs through hides the end of the other; in a rebate it also takes the other into itself.

    Attributes:
        kind: butt, mitre or rebate.
        through: which of the two panels runs through; without meaning for a mitre.
        depth: how far the other panel goes into a rebate [m].

    Raises:
        JointError: an unknown kind, a rebate without depth, or a depth without a rebate.

    Source: common practice, no source.
    """

    kind: JointKind = "butt"
    through: Literal["before", "after"] = "before"
    depth: float = 0.0

    def __post_init__(self) -> None:
        if self.kind not in ("butt", "mitre", "rebate") or self.through not in ("before", "after"):
            raise JointError(code="joint-unknown", kind=self.kind, through=self.through)
        if (self.kind == "rebate") != (self.depth > 0) or not math.isfinite(self.depth):
            raise JointError(code="rebate-depth-wrong", kind=self.kind, depth=metres(self.depth))


def usual_joints(profile: Profile, *, through: Sequence[str] | None = None) -> tuple[Joint, ...]:
    """Choose the joint for every corner that needs the smaller saw tilt.

    A butt needs the tilt |90° − φ| (φ the angle inside, taken modulo 180°), a mitre
    |90° − φ / 2|; flat corners are mitred, all others butted.

    Args:
        profile: the outline.
        through: names of the edges that run through, first come first served; every second
            edge when left out.

    Returns:
        One joint per corner.

    Raises:
        ProfileError: when a name is not an edge.

    Source: common practice, no source.
    """
    count = len(profile)
    names = profile.names[::2] if through is None else tuple(through)
    rank = {profile.index(name): order for order, name in enumerate(names)}
    joints = []
    for corner in range(count):
        angle = profile.interior_angle(corner)
        butt_tilt = abs(math.pi / 2 - angle % math.pi)
        if abs(math.pi / 2 - angle / 2) < butt_tilt - 1e-9:
            joints.append(Joint(kind="mitre"))
            continue
        before, after = (corner - 1) % count, corner
        first = rank.get(before, count) <= rank.get(after, count)
        joints.append(Joint(through="before" if first else "after"))
    return tuple(joints)


def by_slope(profile: Profile, *, standing: bool) -> tuple[str, ...]:
    """Return the edges in the order in which they run through: the lying or the standing first.

    Args:
        profile: the outline.
        standing: whether the standing ones come first.

    Returns: names of the edges

    Source: definition.
    """

    def upright(name: str) -> float:
        return abs(profile.direction(profile.index(name))[1])

    return tuple(sorted(profile.names, key=upright, reverse=standing))


def same_joints(
    profile: Profile, kind: JointKind, *, through: Sequence[str], depth: float
) -> tuple[Joint, ...]:
    """Return one joint for all corners; of two panels the one named earlier runs through.

    Args:
        profile: the outline.
        kind: butt, mitre or rebate.
        through: names of all edges, first come first served.
        depth: how far the other panel goes into a rebate, without meaning for other kinds [m].

    Returns: one joint per corner

    Raises:
        JointError: a rebate without depth.

    Source: common practice, no source.
    """
    if kind == "mitre":
        return (Joint(kind=kind),) * len(profile)
    rank = {name: order for order, name in enumerate(through)}
    return tuple(
        Joint(
            kind=kind,
            through="before" if rank[profile.names[corner - 1]] < rank[name] else "after",
            depth=depth if kind == "rebate" else 0.0,
        )
        for corner, name in enumerate(profile.names)
    )


def panel_end(
    profile: Profile, thickness: Sequence[float], *, edge: int, corner: int, joint: Joint
) -> tuple[Point, Point]:
    """Return where the outer and the inner face of a panel end at a corner.

    The end is cut along the neighbour's outer line, its inner line, the bottom of its rebate,
    or, in a mitre, along the line from the outer to the inner corner, which is right for unequal
    thicknesses too.

    Args:
        profile: the outer outline.
        thickness: thickness per edge [m].
        edge: index of the panel's edge [-].
        corner: index of the corner: the edge's own or the next [-].
        joint: the joint at this corner.

    Returns:
        End of the outer face and end of the inner face, each (x, y) [m].

    Raises:
        JointError: when a rebate is as deep as the panel it is cut in.

    Source: definition (straight lines).
    """
    count = len(profile)
    starts_here = corner % count == edge % count
    other = (edge - 1 if starts_here else edge + 1) % count
    own_t, other_t = thickness[edge % count], thickness[other]
    if joint.kind == "mitre":
        inner = profile.meeting_point(edge, own_t, other, other_t)
        return profile.points[corner % count], inner
    runs_through = (joint.through == "after") == starts_here
    if joint.kind == "rebate" and not runs_through and joint.depth >= other_t:
        raise JointError(
            code="rebate-through-panel",
            rebate=metres(joint.depth),
            name=Id(profile.names[other]),
            thickness=metres(other_t),
        )
    convex = profile.interior_angle(corner % count) < math.pi
    if runs_through:
        cut = 0.0 if convex else other_t
    else:
        cut = other_t - joint.depth if convex else joint.depth
    return (
        profile.meeting_point(edge, 0.0, other, cut),
        profile.meeting_point(edge, own_t, other, cut),
    )


def check_joints(
    *,
    corners: int,
    joints: Sequence[Joint] | None,
    of_corners: Sequence[Joint],
    cheek_joint: str,
    cheek_rebate: float,
    cheeks: tuple[float, float],
) -> None:
    """Refuse joints that do not go together.

    Args:
        corners: how many corners the profile has [-].
        joints: the joints that were given, None for the usual ones.
        of_corners: the joint of each corner.
        cheek_joint: how the cheeks meet the walls.
        cheek_rebate: depth of the rebate in the cheeks [m].
        cheeks: thickness of the cheeks [m].

    Raises:
        JointError: when they do not.

    Source: common practice, no source.
    """
    if joints is not None and len(joints) != corners:
        raise JointError(
            code="joints-not-one-per-corner",
            joints=Quantity(len(joints), COUNT),
            corners=Quantity(corners, COUNT),
        )
    if cheek_joint not in ("cover", "between", "mitre", "rebate"):
        raise JointError(code="cheek-joint-unknown", kind=cheek_joint)
    if cheek_joint == "mitre" and any(j.kind != "mitre" for j in of_corners):
        raise JointError(code="mitred-cheeks-need-mitres")
    if (cheek_joint == "rebate") != (cheek_rebate > 0):
        raise JointError(code="rebate-depth-wrong", kind=cheek_joint, depth=metres(cheek_rebate))
    if cheek_rebate >= min(cheeks):
        raise JointError(
            code="rebate-through-cheeks", rebate=metres(cheek_rebate), cheek=metres(min(cheeks))
        )
