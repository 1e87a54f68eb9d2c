"""What wood is joined, sealed and screwed with: glue, tape, screws, T-nuts, inserts."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _
from django.utils.translation import pgettext_lazy

from jobs.models.bounded import figure, number
from jobs.models.parts.catalogue import Part


class Supply(Part):
    """A supply of the wood shop, in packs; what nobody read off its maker's sheet stays None."""

    class Use(models.TextChoices):
        GLUE = "glue", _("wood glue")
        COVER_GLUE = "cover_glue", _("glue for covers")
        TAPE = "tape", _("gasket tape")
        SCREW = "screw", _("wood screw")
        T_NUT = "t_nut", _("T-nut")
        INSERT = "insert", _("threaded insert")

    use = models.CharField(_("what it is"), max_length=10, choices=Use)
    # Of glue, on one face of a joint; of what covers panels, on all that is glued together.
    spread = figure(_("spread, mass of glue per area"), most=5.0)
    thread = models.CharField(
        pgettext_lazy("wood", "thread or size, such as M5 or 4 × 35"), max_length=16, blank=True
    )
    # Of a T-nut and an insert the barrel that lies in the wood.
    barrel = figure(_("length of its barrel, flange left out"), most=0.2)
    hole = figure(_("hole to drill for it, from the part maker's sheet"), most=0.05)
    pack_mass = figure(_("a pack holds"), most=200.0)
    pack_length = figure(_("a roll holds"), most=1000.0)
    pack_pieces = number(_("pieces in a pack"), most=10_000)


# What carries a screw or is one, and of these what has a barrel.
BARRELS = (Supply.Use.T_NUT, Supply.Use.INSERT)
FASTENERS = (Supply.Use.SCREW, *BARRELS)
GLUES = (Supply.Use.GLUE, Supply.Use.COVER_GLUE)
