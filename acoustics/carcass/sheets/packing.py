"""Rules for putting rectangles into one rectangle: free cutting, and cuts from edge to edge."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from typing import ClassVar, NamedTuple

Rect = tuple[int, int, int, int]  # x, y, width, height


@dataclass(frozen=True, kw_only=True)
class Offer:
    """A rectangle that wants a place, and the ways it may lie.

    Attributes:
        index: which part it is [-].
        ways: width, height [µm], and whether that is turned.
    """

    index: int
    ways: tuple[tuple[int, int, bool], ...]


class Spot(NamedTuple):
    """A place for a rectangle; the lower the score the better.

    Attributes:
        score: how well it fits, least is best [-].
        x: left side [µm].
        y: lower side [µm].
        width: extent along x [µm].
        height: extent along y [µm].
        turned: whether it lies turned.
        part: which part it is [-].
        free: which free rectangle it is in [-].
    """

    score: tuple[int, int]
    x: int
    y: int
    width: int
    height: int
    turned: bool
    part: int
    free: int


def fit_score(fit: str, free: Rect, width: int, height: int) -> tuple[int, int]:
    """Return how well a rectangle fits a free one.

    Args:
        fit: what is to be small: short side, long side, area, or corner (up and left).
        free: the free rectangle [µm].
        width: width of the rectangle [µm].
        height: its height [µm].

    Returns: two numbers, least is best

    Source: J. Jylänki, "A Thousand Ways to Pack the Bin" (2010), section 2, from memory.
    """
    x, y, w, h = free
    right, above = w - width, h - height
    if fit == "short side":
        return min(right, above), max(right, above)
    if fit == "long side":
        return max(right, above), min(right, above)
    if fit == "area":
        return w * h - width * height, min(right, above)
    return y + height, x


class Packer(ABC):
    """One sheet being filled.

    Attributes:
        placed: what lies on it.
        filled: area of what lies on it [µm²].
    """

    rules: ClassVar[tuple[str, ...]]

    def __init__(self, width: int, height: int, rule: str) -> None:
        self.rule = rule
        self.fit, _, self.split = rule.partition(", ")
        self.free: list[Rect] = [(0, 0, width, height)]
        self.placed: list[Spot] = []
        self.filled = 0

    def best(self, offer: Offer) -> Spot | None:
        """Return the best place for a rectangle.

        Args:
            offer: the rectangle.

        Returns: the place, or None when there is none
        """
        spot: Spot | None = None
        for width, height, turned in offer.ways:
            for i, free in enumerate(self.free):
                if width <= free[2] and height <= free[3]:
                    score = fit_score(self.fit, free, width, height)
                    if spot is None or score < spot.score:
                        spot = Spot(score, free[0], free[1], width, height, turned, offer.index, i)
        return spot

    def put(self, spot: Spot) -> None:
        """Put a rectangle in its place.

        Args:
            spot: the place, as `best` gave it.
        """
        self.placed.append(spot)
        self.filled += spot.width * spot.height
        self._take(spot)

    @abstractmethod
    def _take(self, spot: Spot) -> None:
        """Take a place out of the free rectangles."""

    @abstractmethod
    def leftovers(self) -> list[Rect]:
        """Return free rectangles that do not overlap, largest first.

        Returns: rectangles [µm]
        """


class Sawn(Packer):
    """Cuts run from edge to edge of the piece in hand, as on a panel saw.

    Source: J. Jylänki, "A Thousand Ways to Pack the Bin" (2010), section 2, from memory.
    """

    rules = tuple(
        f"{fit}, {split}"
        for fit in ("short side", "area", "long side", "corner")
        for split in ("across", "along", "large", "even")
    )

    def _take(self, spot: Spot) -> None:
        x, y, w, h = self.free.pop(spot.free)
        right, above = w - spot.width, h - spot.height
        # A cut across the whole width leaves the piece above whole; otherwise the one beside is.
        if self.split == "large":
            across = above * w > right * h
        elif self.split == "even":
            across = above * w <= right * h
        else:
            across = self.split == "across"
        beside = (x + spot.width, y, right, spot.height if across else h)
        over = (x, y + spot.height, w if across else spot.width, above)
        self.free += [r for r in (beside, over) if r[2] > 0 and r[3] > 0]

    def leftovers(self) -> list[Rect]:
        """Return free rectangles that do not overlap, largest first.

        Returns: rectangles [µm]
        """
        return sorted(self.free, key=lambda r: -r[2] * r[3])


class MaxRects(Packer):
    """Cuts run anywhere, as under a router; free rectangles are kept as large as they can be.

    Source: J. Jylänki, "A Thousand Ways to Pack the Bin" (2010), section 3, from memory.
    """

    rules = ("short side", "corner", "area", "long side")

    def _take(self, spot: Spot) -> None:
        self.free = without(self.free, (spot.x, spot.y, spot.width, spot.height))

    def leftovers(self) -> list[Rect]:
        """Return free rectangles that do not overlap, largest first.

        Returns: rectangles [µm]
        """
        free, kept = list(self.free), []
        while free:
            largest = max(free, key=lambda r: r[2] * r[3])
            kept.append(largest)
            free = without(free, largest)
        return kept


def without(free: list[Rect], taken: Rect) -> list[Rect]:
    """Return the largest free rectangles that remain when one is taken away.

    Args:
        free: free rectangles, none inside another [µm].
        taken: what is taken away [µm].

    Returns: free rectangles, none inside another [µm]

    Source: J. Jylänki, "A Thousand Ways to Pack the Bin" (2010), section 3, from memory.
    """
    tx, ty, tw, th = taken
    tr, tt = tx + tw, ty + th
    whole, pieces = [], []
    for rect in free:
        x, y, w, h = rect
        if tx >= x + w or tr <= x or ty >= y + h or tt <= y:
            whole.append(rect)
            continue
        if tx > x:
            pieces.append((x, y, tx - x, h))
        if tr < x + w:
            pieces.append((tr, y, x + w - tr, h))
        if ty > y:
            pieces.append((x, y, w, ty - y))
        if tt < y + h:
            pieces.append((x, tt, w, y + h - tt))
    kept: list[Rect] = []
    for piece in sorted(set(pieces), key=lambda r: -r[2] * r[3]):
        x, y, w, h = piece
        right, top = x + w, y + h
        for a, b, c, d in (*whole, *kept):
            if a <= x and b <= y and a + c >= right and b + d >= top:
                break
        else:
            kept.append(piece)
    return whole + kept
