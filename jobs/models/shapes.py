"""What a shape is made of, a row each: corners, blocks in the way, braces, sides, openings."""

from __future__ import annotations

from typing import Any, Self

from django.db import models
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.models.bounded import figure
from jobs.models.box import Box
from jobs.models.box_wood import BRACES, FACES, OWN
from jobs.models.row_lists import ListedRow
from jobs.models.trim import TrimPanel

# A list of a box or a panel takes no more than this.
MOST_CORNERS = 40
MOST_ENTRIES = 30


class Corner(ListedRow):
    """A corner of an outline, and how far the edge after it bows: outwards above zero."""

    x = models.FloatField(pgettext_lazy("shape", "across"))
    y = models.FloatField(pgettext_lazy("shape", "up"))
    bow = models.FloatField(_("bow of the edge after it"), default=0.0)

    class Meta(ListedRow.Meta):
        abstract = True

    @property
    def plain(self) -> list[float]:
        """Across and up, and the bow where there is one [m]."""
        return [self.x, self.y, self.bow] if self.bow else [self.x, self.y]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read two or three figures."""
        x, y, *bow = value
        return cls(x=x, y=y, bow=bow[0] if bow else 0.0)


class BoxCorner(Corner):
    """A corner of a box's own side view, or of the cavity it goes in."""

    class Outline(models.TextChoices):
        OWN = OWN, _("own side profile")
        CAVITY = "cavity", _("cavity, side profile")

    of = "box"
    box = models.ForeignKey(Box, models.CASCADE, related_name="corners")
    outline = models.CharField(_("outline"), max_length=6, choices=Outline)


class TrimCorner(Corner):
    """A corner of a trim panel that is no rectangle."""

    of = "trim_panel"
    trim_panel = models.ForeignKey(TrimPanel, models.CASCADE, related_name="corners")


class Obstacle(ListedRow):
    """A block that stands in a cavity; `end` is None where it reaches all the way across."""

    of = "box"
    box = models.ForeignKey(Box, models.CASCADE, related_name="obstacles")
    name = models.CharField(_("name"), max_length=60)
    x = models.FloatField(_("front edge at"))
    y = models.FloatField(_("lower edge at"))
    depth = models.FloatField(_("depth"))
    height = models.FloatField(_("height"))
    start = models.FloatField(_("from the left"), default=0.0)
    end = figure(_("to"))

    @property
    def plain(self) -> dict[str, Any]:
        """Its name, its corners and its reach across [m]."""
        x, y, far, high = self.x, self.y, self.x + self.depth, self.y + self.height
        return {
            "name": self.name,
            "points": [[x, y], [far, y], [far, high], [x, high]],
            "start": self.start,
            "end": self.end,
        }

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read a block; of any other outline what it stands in."""
        xs, ys = zip(*value["points"], strict=True)
        return cls(
            name=value["name"],
            x=min(xs),
            y=min(ys),
            depth=max(xs) - min(xs),
            height=max(ys) - min(ys),
            start=value["start"] or 0.0,
            end=value["end"],
        )


class InnerBrace(ListedRow):
    """What stiffens a box from within, placed by one figure, or a strut by two and its breadth."""

    of = "box"
    box = models.ForeignKey(Box, models.CASCADE, related_name="braces")
    kind = models.CharField(_("kind"), max_length=12, choices=BRACES)
    at = models.FloatField(_("at"))
    second = figure(_("and at"))
    breadth = figure(_("breadth"))
    open = models.FloatField(_("share cut out"), default=0.0)

    @property
    def plain(self) -> dict[str, Any]:
        """Kind, places [m] and open share."""
        places = [self.at, self.second, self.breadth]
        return {
            "kind": self.kind,
            "at": [place for place in places if place is not None],
            "open": self.open,
        }

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one brace."""
        at, *rest = value["at"]
        second, breadth = rest or (None, None)
        return cls(kind=value["kind"], at=at, second=second, breadth=breadth, open=value["open"])


class SideThickness(ListedRow):
    """A side of a box that is of another thickness than its sheet."""

    of = "box"
    box = models.ForeignKey(Box, models.CASCADE, related_name="sides")
    face = models.CharField(_("side"), max_length=12, choices=FACES)
    thickness = models.FloatField(_("thickness"))

    @property
    def plain(self) -> tuple[str, float]:
        """The side and its thickness [m]."""
        return self.face, self.thickness

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one side."""
        face, thickness = value
        return cls(face=face, thickness=thickness)


class TrimOpening(ListedRow):
    """An opening in a trim panel; without a height it is round."""

    of = "trim_panel"
    trim_panel = models.ForeignKey(TrimPanel, models.CASCADE, related_name="cut_outs")
    u = models.FloatField(_("middle, from the left"))
    v = models.FloatField(_("middle, from below"))
    width = models.FloatField(_("width, or diameter"))
    height = figure(_("height"))

    @property
    def plain(self) -> list[float]:
        """Its middle, then its diameter, or its width and height [m]."""
        size = [self.width] if self.height is None else [self.width, self.height]
        return [self.u, self.v, *size]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one opening."""
        u, v, width, *height = value
        return cls(u=u, v=v, width=width, height=height[0] if height else None)
