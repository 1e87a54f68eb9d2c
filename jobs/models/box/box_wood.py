"""The wood of a box: its shape, its sheets, its joints, and what sits where in its faces."""

from __future__ import annotations

from django.db import models
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.models.bounded import count, figure
from jobs.models.box.row_lists import RowList, WithLists
from jobs.models.parts.catalogue import SheetMaterial

_SIDE = pgettext_lazy("wood", "side")
# The faces a calculator knows by name; those of an own profile are counted from its first corner.
FACES = [
    ("front", pgettext_lazy("wood", "front")),
    ("rear", pgettext_lazy("wood", "rear")),
    ("top", pgettext_lazy("wood", "top")),
    ("bottom", pgettext_lazy("wood", "bottom")),
    ("left", pgettext_lazy("wood", "left")),
    ("right", pgettext_lazy("wood", "right")),
    ("lower rear", pgettext_lazy("wood", "lower rear")),
    ("upper rear", pgettext_lazy("wood", "upper rear")),
    ("toe top", pgettext_lazy("wood", "toe top")),
    ("riser", pgettext_lazy("wood", "riser")),
    *(
        (f"side {number}", format_lazy("{side} {number}", side=_SIDE, number=number))
        for number in range(1, 13)
    ),
]

# Whose corners they are: of the box itself, seen from the side or from above, or of the cavity
# (`jobs/models/box/box.py`).
OWN, PLAN, CAVITY = "own", "plan", "cavity"

# Braces that are entered one by one: kind -> what it is called. `at` of each counts to its middle,
# from the front, up from the bottom, from the left; that of a strut ends with its breadth.
SHELF, UPRIGHT, PLATE = "shelf", "upright", "plate"
STRUT_ACROSS, STRUT_ALONG, STRUT_UP = "strut across", "strut along", "strut up"
BRACES = [
    (SHELF, pgettext_lazy("wood", "shelf")),
    (UPRIGHT, pgettext_lazy("wood", "upright")),
    (PLATE, pgettext_lazy("wood", "plate")),
    (STRUT_ACROSS, pgettext_lazy("wood", "strut across")),
    (STRUT_ALONG, pgettext_lazy("wood", "strut along")),
    (STRUT_UP, pgettext_lazy("wood", "strut up")),
]


def face(label: object) -> models.CharField[str, str]:
    """Return a field for a face, empty for the usual one."""
    return models.CharField(label, max_length=12, choices=FACES, blank=True)  # type: ignore[arg-type]


class BoxWood(WithLists):
    """What a saw needs to know of a box; lengths in metres, outside unless it says otherwise."""

    class Shape(models.TextChoices):
        RECTANGLE = "rectangle", _("rectangular")
        SLOPED = "sloped", _("sloped rear wall")
        WEDGE = "wedge", _("wedge: floor, leaning rear, front")
        KNEE = "knee", _("rear wall in two slopes")
        STEP = "step", _("step at the lower rear")
        TOE = "toe", _("L: a low toe in front")
        CORNER = "corner", _("lower rear corner cut off")
        ARCH = "arch", _("room for a wheel arch")
        WELL = "well", _("round well: flat sides, width is its depth")
        TAPER = "taper", _("tapered: all walls lean")
        PROFILE = "profile", _("own profile")
        PLAN = "plan", _("own plan, as in a corner: walls upright or leaning")
        MOULDED = "moulded", _("moulded: litres by fills or areas, a skin and a ring")

    class Corner(models.TextChoices):
        USUAL = "", _("butt, mitred where the saw then tilts less")
        BUTT = "butt", _("butt")
        MITRE = "mitre", _("mitre")
        REBATE = "rebate", _("rebate")

    class Through(models.TextChoices):
        LYING = "lying", _("the lying ones: bottom and top")
        STANDING = "standing", _("the standing ones: front and rear")

    class Cheek(models.TextChoices):
        COVER = "cover", _("over the ends of the others")
        BETWEEN = "between", _("between the others")
        MITRE = "mitre", _("mitred, if every corner is")
        REBATE = "rebate", _("the others let into them")

    class Grain(models.TextChoices):
        ACROSS = "across", _("across the box")
        UP = "up", _("up")
        NONE = "none", _("as it saves most wood")

    class Bend(models.TextChoices):
        STRAIGHT = "", _("straight")
        UP = "+v", _("up")
        DOWN = "-v", _("down")
        RIGHT = "+u", _("to the right")
        LEFT = "-u", _("to the left")

    class Lies(models.TextChoices):
        OWN = "", _("none: it has walls of its own")
        BOTTOM = "bottom", _("the bottom")
        BOTTOM_LEFT = "bottom left", _("the bottom, against the left side")
        BOTTOM_RIGHT = "bottom right", _("the bottom, against the right side")
        TOP = "top", _("the top")
        TOP_LEFT = "top left", _("the top, against the left side")
        TOP_RIGHT = "top right", _("the top, against the right side")
        LEFT = "left", _("the left side, from bottom to top")
        RIGHT = "right", _("the right side, from bottom to top")

    class Divider(models.TextChoices):
        UPRIGHT = "upright", _("upright: front chamber before it")
        SHELF = "shelf", _("shelf: front chamber above it")
        PLATE = "plate", _("plate: front chamber right of it")

    shape = models.CharField(_("shape"), max_length=10, choices=Shape, default=Shape.RECTANGLE)
    width = figure(_("width"))
    height = figure(_("height"))
    depth = figure(_("depth at the bottom"))
    top_depth = figure(_("depth at the top"))
    top_width = figure(_("width at the top"))
    # From the middle of the bottom to the middle of the top; negative to the front, to the left.
    top_to_rear = figure(_("top moved to the rear"))
    top_to_right = figure(_("top moved to the right, seen from the front"))
    rear_slope = figure(_("lean of the rear wall from upright"))
    cut_depth = figure(_("depth of step, toe, cut or knee"))
    cut_height = figure(_("height of step, toe, cut, knee or arch"))
    # [[x, y], …] in metres, side view, counter-clockwise: for shapes the fields cannot say.
    profile = RowList("corners", outline=OWN)
    # [[x, y], …] or [x, y, 0, lean]: seen from above, front at the left; how far the wall after a
    # corner leans inwards from upright [rad].
    plan = RowList("corners", outline=PLAN)
    material = models.ForeignKey(
        SheetMaterial,
        models.SET_NULL,
        null=True,
        blank=True,
        related_name="+",
        verbose_name=_("sheet material"),
    )
    # {"front": 0.0221, …}: sides that are of another thickness than the material.
    thicknesses = RowList("sides", pack=dict)
    baffle_layers = count(_("layers of the front panel"), most=6, least=1)
    brace_count = count(_("inner braces"), most=20, default=0)
    brace_opening = models.FloatField(_("share of a brace cut out"), default=0.5)
    # [{"kind": "shelf", "at": [0.15], "open": 0.5}, …]: each with its own place, in metres.
    inner_braces = RowList("braces")

    # Of a box with two chambers: the closed board that carries the driver, which looks to the
    # front, up, or to the right; there is the front chamber. Its place as that of a brace.
    divider = models.CharField(
        _("divider that carries the driver"), max_length=7, choices=Divider, blank=True
    )
    divider_at = figure(_("divider, to its middle"))

    corner_joint = models.CharField(
        _("corners"), max_length=6, choices=Corner, default=Corner.USUAL, blank=True
    )
    runs_through = models.CharField(
        _("panels that run through"), max_length=8, choices=Through, default=Through.LYING
    )
    cheek_joint = models.CharField(
        _("side panels"), max_length=7, choices=Cheek, default=Cheek.COVER
    )
    rebate_depth = figure(_("depth of the rebates"))
    grain = models.CharField(_("grain runs"), max_length=6, choices=Grain, default=Grain.ACROSS)

    driver_face = face(_("driver in"))
    driver_u = figure(_("driver, from the left"))
    driver_v = figure(_("driver, from below"))
    driver_recess = figure(_("recess for the driver's flange, deep"))
    # From the face the driver sits in to the inside of the grille; none without a grille.
    grille_height = figure(_("grille, free height under it"), most=0.5)
    # Of the outer edges of the panel the driver sits in, or of every outer edge.
    round_over = figure(_("edges rounded over, radius"), most=0.1)
    round_all = models.BooleanField(_("every outer edge"), default=False)
    port_face = face(_("port in"))
    port_u = figure(_("port, from the left"))
    port_v = figure(_("port, from below"))
    port_bend = models.CharField(
        _("port bends"), max_length=2, choices=Bend, default=Bend.STRAIGHT, blank=True
    )
    port_lies = models.CharField(
        _("slot made of the box's own panels, along"),
        max_length=12,
        choices=Lies,
        default=Lies.OWN,
        blank=True,
    )
    port_straight = figure(_("straight piece before the bend"))
    radiator_face = face(_("passive radiator in"))
    terminal_face = face(_("terminal plate in"))
    terminal_diameter = figure(_("hole for the terminal plate"))
    terminal_u = figure(_("terminal plate, from the left"))
    terminal_v = figure(_("terminal plate, from below"))

    class Meta:
        abstract = True
