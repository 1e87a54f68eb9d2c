"""Wood that is no box: the ring that carries a speaker, the trim panel that covers a box."""

from __future__ import annotations

from typing import Any, Self

from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.bounded import count, figure
from jobs.models.box.box import Box
from jobs.models.box.box_wood import face
from jobs.models.box.row_lists import MOST_CORNERS, Corner, ListedRow, RowList, WithLists
from jobs.models.equipment import EquipmentItem
from jobs.models.held import HeldInCar
from jobs.models.job import Job, JobPart
from jobs.models.parts.catalogue import Cover, SheetMaterial


class Ring(JobPart):
    """A stack of rings between a driver and a door; what is left open follows the driver."""

    job = models.ForeignKey(Job, models.CASCADE, related_name="rings")
    name = models.CharField(_("name"), max_length=60)
    place = models.CharField(_("place"), max_length=80, blank=True)
    quantity = count(_("how many"), most=100, least=1)
    driver = models.ForeignKey(
        EquipmentItem,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("driver"),
    )
    material = models.ForeignKey(
        SheetMaterial,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("sheet material"),
    )
    layers = count(_("layers"), most=20, least=1)
    outer_diameter = figure(_("outer diameter"))
    inner_diameter = figure(_("inner diameter"))
    bolt_circle = figure(_("bolt circle"))
    screws = count(_("screws"), most=64, least=3, default=6)
    screw_diameter = models.FloatField(_("screw holes"), default=0.004)
    tilt = models.FloatField(_("tilt between driver and door"), default=0.0)
    # In a moulded box it stands on spacers while the skin is drawn over it.
    box = models.ForeignKey(
        Box,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="rings",
        verbose_name=_("sits in the moulded box"),
    )
    raised = figure(_("its middle stands above the base by"))
    lean = models.FloatField(_("it leans from level by"), default=0.0)
    spacers = count(_("spacers"), most=12, least=3, default=4)
    spacer_width = figure(_("width of a spacer"))

    class Meta(JobPart.Meta):
        verbose_name = _("speaker ring")
        verbose_name_plural = "rings"
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.name


class TrimPanel(WithLists, HeldInCar, JobPart):
    """A flat panel: one that covers a box and leaves open what must show, or a false floor."""

    class Kind(models.TextChoices):
        TRIM = "trim", _("trim panel")
        FLOOR = "floor", _("false floor")
        BOARD = "board", _("board for amplifiers")

    class Measured(models.TextChoices):
        WOOD = "wood", _("the bare wood")
        SPACE = "space", _("the space it goes into")

    class CoverRuns(models.TextChoices):
        UP = "up", _("up the panel")
        ACROSS = "across", _("across the panel")

    kind = models.CharField(_("what it is"), max_length=6, choices=Kind, default=Kind.TRIM)
    job = models.ForeignKey(Job, models.CASCADE, related_name="trim_panels")
    name = models.CharField(_("name"), max_length=60)
    place = models.CharField(_("place"), max_length=80, blank=True)
    material = models.ForeignKey(
        SheetMaterial,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("sheet material"),
    )
    width = figure(_("width"))
    height = figure(_("height"))
    # Of a space the wood is smaller all round: by gap, own cover, and the cover of what it meets.
    measured = models.CharField(
        _("the outline is"), max_length=5, choices=Measured, default=Measured.WOOD
    )
    edge_gap = models.FloatField(_("gap round it"), default=0.002)
    beside = figure(_("thickness of the cover on what it meets"))
    reveal = models.FloatField(_("gap round what shows"), default=0.003)
    # It fills as much of that gap, and makes the panel so much larger all round.
    finish = figure(_("thickness of what covers it, round the edges"))
    cover = models.ForeignKey(
        Cover,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("cover material"),
    )
    turned = models.FloatField(_("turned over behind, all round"), default=0.04)
    cover_runs = models.CharField(
        _("pile or pattern runs"), max_length=6, choices=CoverRuns, default=CoverRuns.UP
    )
    sample = models.CharField(
        _("approved sample: its number, and when"), max_length=120, blank=True
    )
    cover_state = models.CharField(
        _("state of the cover"),
        max_length=10,
        choices=EquipmentItem.State,
        default=EquipmentItem.State.TO_ORDER,
    )
    # Of its upper edge, all round.
    round_over = figure(_("edge rounded over, radius"), most=0.1)
    # Bent over kerfs in its back, from so far from the left; its width is that of the flat board.
    bend_at = figure(_("bend begins, from the left"))
    bend_radius = figure(_("radius of the bend, outside"), most=5.0)
    bend_angle = figure(_("it bends by"), most=6.3)
    bend_skin = figure(_("wood left under each kerf"), most=0.1)
    bend_blade = figure(_("width of a kerf, by a trial cut"), most=0.05)
    # Of a false floor: its covered top above what its supports stand on.
    level = figure(_("its top lies above the metal by"))
    bears = figure(_("heaviest load in one place"))
    # Of a board: the free height over it.
    room_above = figure(_("free height over the board"))
    # [[key of the part, u, v, whether turned], …]: middles, from the lower left corner.
    mounts = RowList("mounted")
    # [[kind, u, v, across, up] or with a height, …], and [[u, v, width, height, gap, ledge,
    # finger hole, held, over], …]: middles, from the lower left corner.
    supports = RowList("props")
    hatches = RowList("lids")
    # [[what, u, v], …]: fuses and terminals under a floor, by what is printed on them; a place that
    # nobody measured is None, and so is the answer of nobody who looked.
    beneath = RowList("lying_under")
    beneath_listed = models.BooleanField(
        _("every fuse and terminal under it is listed"), null=True, blank=True
    )
    # What shows of this face of this box is left open; the face lies in the middle of the panel.
    box = models.ForeignKey(
        Box,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("covers the box"),
    )
    box_face = face(_("its face"))
    box_u = models.FloatField(_("face moved to the right by"), default=0.0)
    box_v = models.FloatField(_("face moved up by"), default=0.0)
    # [[u, v, diameter], [u, v, width, height] or with the radius of its corners, …]: middles, from
    # the lower left corner.
    openings = RowList("cut_outs")
    # [[u, v], …], [u, v, bow] or [u, v, bow, radius], from the lower left corner: of a panel that
    # is no rectangle.
    outline = RowList("corners")
    # [[corner, along, out], …]: from a batten laid along the edge after that corner.
    stations = RowList("offsets")

    class Meta(JobPart.Meta):
        verbose_name = _("trim panel")
        verbose_name_plural = "trim panels"
        ordering = ["pk"]

    def __str__(self) -> str:
        return self.name

    @property
    def edge(self) -> float:
        """How thick what covers it is round its edges [m]: as typed, else as the catalogue says."""
        if self.finish is None and self.cover is not None:
            return self.cover.thickness or 0.0
        return self.finish or 0.0


class TrimCorner(Corner):
    """A corner of a trim panel that is no rectangle."""

    of = "trim_panel"
    trim_panel = models.ForeignKey(TrimPanel, models.CASCADE, related_name="corners")
    radius = models.FloatField(_("radius of the corner"), default=0.0)

    @property
    def plain(self) -> list[float]:
        """Across and up, the bow, and the radius where it is rounded [m]."""
        return [self.x, self.y, self.bow, self.radius] if self.radius else super().plain

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read two to four figures."""
        x, y, *more = value
        bow, radius = [*more, 0.0, 0.0][:2]
        return cls(x=x, y=y, bow=bow, radius=radius)


class TrimStation(ListedRow):
    """How far an edge lies off a straight batten laid along it, at one place."""

    of = "trim_panel"
    trim_panel = models.ForeignKey(TrimPanel, models.CASCADE, related_name="offsets")
    # Of a rectangle: 1 lower left, and on round it counter-clockwise.
    corner = count(_("batten after corner"), most=MOST_CORNERS, least=1)
    along = models.FloatField(_("along it"))
    out = models.FloatField(_("outwards"))

    @property
    def plain(self) -> list[Any]:
        """The corner, then along the batten and outwards from it [m]."""
        return [int(self.corner), self.along, self.out]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one station."""
        corner, along, out = value
        return cls(corner=corner, along=along, out=out)


class TrimOpening(ListedRow):
    """An opening in a trim panel; without a height it is round."""

    of = "trim_panel"
    trim_panel = models.ForeignKey(TrimPanel, models.CASCADE, related_name="cut_outs")
    u = models.FloatField(_("middle, from the left"))
    v = models.FloatField(_("middle, from below"))
    width = models.FloatField(_("width, or diameter"))
    height = figure(_("height"))
    radius = models.FloatField(_("radius of its corners"), default=0.0)

    @property
    def plain(self) -> list[float]:
        """Its middle, then its diameter, or its width, height and perhaps radius [m]."""
        if self.height is None:
            return [self.u, self.v, self.width]
        rounded = [self.radius] if self.radius else []
        return [self.u, self.v, self.width, self.height, *rounded]

    @classmethod
    def read(cls, value: Any) -> Self:
        """Read one opening."""
        u, v, width, *more = value
        height, radius = [*more, None, 0.0][:2] if more else (None, 0.0)
        return cls(u=u, v=v, width=width, height=height, radius=radius or 0.0)
