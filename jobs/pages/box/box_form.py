"""The form of a box: what it is, what drives it, how big, and the wood it is made of."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext_lazy as _

from jobs.models import Box, Part
from jobs.pages.box.bench import usual_losses
from jobs.pages.box.box_shown import FIELD_ONLY_FOR, ONLY_FOR
from jobs.pages.box.folds import (
    AIR,
    CARCASS,
    CAVITY,
    CONE,
    DOOR,
    DRIVER,
    FOLDS,
    FRONT_CHAMBER,
    HELD,
    JOINTS,
    LEANING,
    MOULDED,
    PORT,
    RADIATOR,
    REAR_PORT_FIELDS,
    SEATED,
    SHEETS,
    SIZE,
    SIZES,
    SQUARE_JOINTS,
    TERMINAL,
    WHAT,
    Fold,
    lacking,
)
from jobs.pages.box.moulded_fields import FillsField, SectionsField
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.shape_fields import BracesField, ObstaclesField, OutlineField, SidesField
from jobs.pages.forms.surface import surface


class BoxForm(RecordForm[Box]):
    """An enclosure: what it is, what drives it, how big, and the wood it is made of."""

    quantities: ClassVar = {
        "test_voltage": "voltage",
        "isobaric_gap": "length",
        "driver_recess": "length",
        "grille_height": "length",
        "wanted_volume": "volume",
        "port_diameter": "length",
        "port_width": "length",
        "port_height": "length",
        "port_flare": "length",
        "port_length": "length",
        "second_port_diameter": "length",
        "second_port_length": "length",
        "second_port_u": "length",
        "second_port_v": "length",
        "rear_wanted_tuning": "frequency",
        "port_wall": "length",
        "wanted_tuning": "frequency",
        "front_volume": "volume",
        "rear_port_diameter": "length",
        "rear_port_length": "length",
        "divider_at": "length",
        "radiator_added_mass": "moving_mass",
        "hole_area": "area",
        "width": "length",
        "height": "length",
        "depth": "length",
        "top_depth": "length",
        "top_width": "length",
        "top_to_rear": "length",
        "top_to_right": "length",
        "cavity_width": "length",
        "cavity_gap": "length",
        "opening_width": "length",
        "opening_height": "length",
        "ql": "ratio",
        "qa": "ratio",
        "qp": "ratio",
        "fill": "ratio",
        "brace_opening": "ratio",
        "rear_slope": "angle",
        "cut_depth": "length",
        "cut_height": "length",
        "rebate_depth": "length",
        "driver_u": "length",
        "round_over": "length",
        "driver_v": "length",
        "port_u": "length",
        "port_v": "length",
        "port_straight": "length",
        "terminal_diameter": "length",
        "terminal_u": "length",
        "terminal_v": "length",
        "skin_area": "surface",
        "skin_thickness": "length",
        "skin_stray": "length",
        "skin_density": "density",
    }
    terms: ClassVar = {
        "wanted_volume": "net_volume",
        "wanted_tuning": "tuning",
        "port_diameter": "port_speed",
    }
    only_for: ClassVar = ONLY_FOR
    field_only_for: ClassVar = FIELD_ONLY_FOR
    any_sign: ClassVar = {
        "rear_slope",
        "top_to_rear",
        "top_to_right",
        "radiator_added_mass",
        "cavity_gap",
        "brace_opening",
        "port_wall",
    }
    fieldsets: ClassVar = [
        (SIZE, [*SIZES]),
        (WHAT, ["name", "kind", "place", "chosen"]),
        (
            DRIVER,
            [
                "driver",
                "driver_count",
                "isobaric",
                "isobaric_gap",
                "channel",
                "test_voltage",
            ],
        ),
        (SEATED, ["driver_face", "driver_u", "driver_v", "driver_recess", "grille_height"]),
        (AIR, ["ql", "qa", "qp", "fill"]),
        (
            PORT,
            [
                "port_shape",
                "port_lies",
                "port_count",
                "port_diameter",
                "port_width",
                "port_height",
                "slot_walls",
                "port_flare",
                "port_length",
                "port_wall",
                "wanted_tuning",
                "port_face",
                "port_u",
                "port_v",
                "port_bend",
                "port_straight",
                "second_port_diameter",
                "second_port_length",
                "second_port_face",
                "second_port_u",
                "second_port_v",
            ],
        ),
        (
            FRONT_CHAMBER,
            ["front_volume", "divider", "divider_at"],
        ),
        (
            REAR_PORT_FIELDS,
            [
                "rear_port_diameter",
                "rear_port_length",
                "rear_wanted_tuning",
                "rear_port_face",
            ],
        ),
        (CONE, ["radiator"]),
        (RADIATOR, ["radiator_count", "radiator_added_mass", "radiator_face"]),
        (DOOR, ["hole", "hole_area"]),
        (
            CARCASS,
            [
                "shape",
                "top_depth",
                "rear_slope",
                "cut_depth",
                "cut_height",
                "profile",
                "plan",
            ],
        ),
        (LEANING, ["top_width", "top_to_rear", "top_to_right"]),
        (
            MOULDED,
            [
                "litres_by",
                "measured_in",
                "fills",
                "sections",
                "skin_area",
                "skin_thickness",
                "skin_stray",
                "skin_density",
                "skin_layup",
            ],
        ),
        (
            SHEETS,
            [
                "material",
                "grain",
                "baffle_layers",
                "brace_count",
                "brace_opening",
                "inner_braces",
                "thicknesses",
            ],
        ),
        (JOINTS, ["corner_joint", "runs_through", "round_over", "round_all"]),
        (SQUARE_JOINTS, ["cheek_joint", "rebate_depth"]),
        (
            TERMINAL,
            ["terminal_face", "terminal_diameter", "terminal_u", "terminal_v"],
        ),
        (HELD, ["held_by", "held_into"]),
        (
            CAVITY,
            [
                "cavity_profile",
                "cavity_width",
                "cavity_obstacles",
                "cavity_gap",
                "opening_width",
                "opening_height",
            ],
        ),
    ]
    profile = OutlineField(label=_("own side profile"), on="bench")
    plan = OutlineField(label=_("own plan, seen from above"), leans=True)
    cavity_profile = OutlineField(label=_("cavity, side profile"), bows=True, beside=("blocks",))
    cavity_obstacles = ObstaclesField(label=_("what stands in the cavity"), on="cavity_profile")
    fills = FillsField(label=_("what each fill took"))
    sections = SectionsField(label=_("areas at heights"))
    inner_braces = BracesField(label=_("shelves, uprights, plates, struts"))
    thicknesses = SidesField(
        label=_("sides of another thickness"),
        help_text=_("All others are as thick as the sheet."),
    )

    class Meta:
        model = Box
        exclude = ("job",)
        help_texts: ClassVar = {
            "rear_slope": _("Instead of the depth at the top."),
            "top_to_rear": _(
                "From the middle of the bottom to the middle of the top; negative to the front."
            ),
            "top_to_right": _("Likewise; negative to the left."),
            "corner_joint": _(
                "Where all walls lean, a mitre or a butt; bottom and top cover the walls."
            ),
            "runs_through": _(
                "Where all walls lean: left and right with the first, front and rear with the "
                "second."
            ),
            "brace_count": _("Across the box; level where all walls lean."),
            "measured_in": _(
                "With the ring in place and its hole closed flush by a board; without driver and "
                "port."
            ),
            "skin_area": _("By the tape, or by the cloth that went on."),
            "skin_stray": _("At the thinnest and the thickest of some places you measured."),
            "skin_layup": _("Such as 3 layers of mat, 450 g/m², in polyester; fleece underneath."),
            "driver_face": _(
                "The front when left empty. Where there is a divider it sits in that, whatever is "
                "chosen here."
            ),
            "driver_u": _("To its middle, seen from outside. In the middle when left empty."),
            "driver_v": _(
                "Where all walls lean, both count from the rectangle round the outside of the face."
            ),
            "driver_recess": _(
                "As deep as flange and squeezed gasket are thick; milled 1 mm wider all round."
            ),
            "grille_height": _(
                "From the face the driver sits in to the inside of the grille; nothing without one."
            ),
            "held_by": _(
                "The vehicle maker's own points come first, with what their maker allows."
            ),
            "held_into": _("Such as 4 x M8 through the seat cross member, with washers."),
            "port_lies": _(
                "Its boards stand on the cut list. With no width it runs from wall to wall; a bend "
                "turns it round the far wall."
            ),
            "port_face": _("Beside the driver when left empty."),
            "isobaric_gap": _(
                "From mounting face to mounting face, one behind the other in one hole. Left "
                "empty, they stand face to face, the second outside the box."
            ),
            "divider": _("Without one no wood is worked out for two chambers."),
            "divider_at": _(
                "From the front, the bottom or the left of the outside. Left empty, it stands "
                "where the front chamber has its volume."
            ),
            "rear_port_face": _("Opposite the front chamber when left empty."),
            "radiator_face": _("One in each side panel when left empty."),
            "radiator": _(
                "In a door: the factory driver that sits or sat in the hole. Put it on the "
                "equipment list, with figures from its sheet or a measured sweep."
            ),
            "hole_area": _("Left empty, the cone area of the factory driver is taken."),
            "port_diameter": _(
                "With a tuning wanted and none typed: as large as the area rule asks."
            ),
            "port_flare": _("A quarter circle at each end; nothing for straight ends."),
            "second_port_diameter": _("A round port unlike the first, open beside it."),
            "second_port_face": _("Beside the first when left empty."),
            "rear_wanted_tuning": _("Instead of the length of the rear port."),
            "qp": _("Of a port; in a door, of the open hole, where 10 is taken when left empty."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        job = self.instance.job
        drivers = job.equipmentitems.select_related("part").filter(part__kind=Part.Kind.DRIVER)
        self.offer("driver", drivers)
        self.offer("radiator", drivers)
        self.fields["radiator"].label = _("undriven cone: passive radiator or factory driver")
        self.offer("channel", job.channels.all())
        for name in ("corner_joint", "runs_through"):  # choices too long for half a column
            vars(self.fields[name])["wide"] = True
        for name, usual in self._usual().items():
            self.fields[name].widget.attrs["placeholder"] = usual

    def _usual(self) -> dict[str, Any]:
        """What is taken for a figure that is left empty; places follow once they are worked out."""
        return {
            **usual_losses(self.instance),
            "top_to_rear": _("in the middle"),
            "top_to_right": _("in the middle"),
            "rebate_depth": _("half the thinnest panel"),
        }

    @property
    def drawing(self) -> dict[str, Any]:
        """What the drawing above the figures needs."""
        return surface("bench")

    @property
    def sizes(self) -> list[forms.BoundField]:
        """The figures beside the drawing."""
        return [self[name] for name in SIZES]

    @property
    def folds(
        self,
    ) -> list[tuple[Fold, list[tuple[Any, list[forms.BoundField], str]], bool, bool, str]]:
        """(fold, its groups, whether it is open, whether its kind lacks something in it, for what).

        Open is the first that lacks something, and what is refused. For what: the kinds and shapes
        for which one of its groups means anything, empty where one always does.
        """
        lacking_in = lacking(self.instance)
        lacks = [fold.slug for fold in FOLDS if fold.slug in lacking_in]
        folds = []
        for fold in FOLDS:
            groups = [group for group in self.groups if group[0] in fold.headings]
            wrong = any(field.name in self.errors for _t, fields, _k in groups for field in fields)
            kinds = [kinds for _title, _fields, kinds in groups]
            only = " ".join(dict.fromkeys(" ".join(kinds).split())) if all(kinds) else ""
            is_open, lacks_some = wrong or fold.slug in lacks[:1], fold.slug in lacks
            folds.append((fold, groups, is_open, lacks_some, only))
        return folds
