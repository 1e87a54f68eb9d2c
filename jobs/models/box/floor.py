"""What stands under a panel and on it, and the lids in it."""

from __future__ import annotations

from typing import Any, Self

from django.db import models
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.models.bounded import figure
from jobs.models.box.row_lists import ListedRow
from jobs.models.box.trim import TrimPanel
from jobs.models.parts.catalogue import Part


class TrimSupport(ListedRow):
    """A batten or block that a floor stands on, by its middle under the panel."""

    class Kind(models.TextChoices):
        BATTEN = "batten", _("batten")
        BLOCK = "block", pgettext_lazy("wood", "block")

    of = "trim_panel"
    trim_panel = models.ForeignKey(TrimPanel, models.CASCADE, related_name="props")
    kind = models.CharField(_("kind"), max_length=6, choices=Kind)
    u = models.FloatField(_("middle, from the left"))
    v = models.FloatField(_("middle, from below"))
    across = models.FloatField(pgettext_lazy("shape", "across"))
    up = models.FloatField(pgettext_lazy("shape", "up"))
    # As measured where the metal is not level; else what the floor's level leaves.
    height = figure(_("height"))

    @property
    def plain(self) -> list[Any]:
        """Its kind, its middle, its size, and its height where that was measured [m]."""
        tall = [] if self.height is None else [self.height]
        return [self.kind, self.u, self.v, self.across, self.up, *tall]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one support."""
        kind, u, v, across, up, *tall = value
        height = tall[0] if tall else None
        return cls(kind=kind, u=u, v=v, across=across, up=up, height=height)


class TrimHatch(ListedRow):
    """A lid in a panel, by the middle of its opening in the bare wood."""

    class Held(models.TextChoices):
        MAGNETS = "magnets", _("magnets")
        HINGE = "hinge", _("hinge along its lower edge")
        LAID = "laid", _("laid in")

    of = "trim_panel"
    trim_panel = models.ForeignKey(TrimPanel, models.CASCADE, related_name="lids")
    u = models.FloatField(_("middle, from the left"))
    v = models.FloatField(_("middle, from below"))
    width = models.FloatField(_("width"))
    height = models.FloatField(_("height"))
    gap = models.FloatField(_("gap round the lid"), default=0.0015)
    ledge = models.FloatField(_("ledge under the lid"), default=0.02)
    finger_hole = figure(_("finger hole"))
    held = models.CharField(_("held by"), max_length=8, choices=Held, default=Held.MAGNETS)
    over = models.CharField(_("what lies under it"), max_length=60, blank=True)

    @property
    def plain(self) -> list[Any]:
        """Every figure of it in its order, then how it is held and what lies under it."""
        return [
            *(self.u, self.v, self.width, self.height, self.gap, self.ledge),
            *(self.finger_hole, self.held, self.over),
        ]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one hatch."""
        names = ("u", "v", "width", "height", "gap", "ledge", "finger_hole", "held", "over")
        return cls(**dict(zip(names, value, strict=True)))


class TrimMount(ListedRow):
    """A part screwed to a board, by its middle; its length lies across unless it is turned."""

    of = "trim_panel"
    trim_panel = models.ForeignKey(TrimPanel, models.CASCADE, related_name="mounted")
    part = models.ForeignKey(Part, models.CASCADE, related_name="+", verbose_name=_("part"))
    u = models.FloatField(_("middle, from the left"))
    v = models.FloatField(_("middle, from below"))
    turned = models.BooleanField(_("turned a quarter"), default=False)

    @property
    def plain(self) -> list[Any]:
        """The key of its part, its middle, and whether it is turned."""
        return [int(self.part_id), self.u, self.v, bool(self.turned)]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one part on a board."""
        key, u, v, turned = value
        return cls(part_id=key, u=u, v=v, turned=turned)


class TrimBeneath(ListedRow):
    """A fuse or a terminal under a floor, by what is printed on it, and where it lies."""

    of = "trim_panel"
    trim_panel = models.ForeignKey(TrimPanel, models.CASCADE, related_name="lying_under")
    what = models.CharField(_("fuse or terminal"), max_length=80)
    u = models.FloatField(_("middle, from the left"), null=True, blank=True)
    v = models.FloatField(_("middle, from below"), null=True, blank=True)

    @property
    def plain(self) -> list[Any]:
        """What it is, and its place as far as known [m]."""
        return [self.what, self.u, self.v]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one thing under a floor."""
        what, u, v = value
        return cls(what=what, u=u, v=v)
