# Everything up to 0121 at once, for an empty database; others go on from where they are.
import django.contrib.auth.models
import django.contrib.auth.validators
import django.core.validators
import django.db.models.deletion
import django.db.models.manager
import django.utils.timezone
import jobs.models.agreement.offer
import jobs.models.bay
import jobs.models.panels
import simple_history.models
from decimal import Decimal
from django.conf import settings
from django.db import migrations, models
from django.db.migrations.operations.base import Operation


class AtOnce(Operation):
    """Make the tables of models that are all there already.

    One after the other, each new model has all those drawn anew that hang together with it: with
    this many that takes minutes.
    """

    def __init__(self, operations):
        self.operations = operations

    def state_forwards(self, app_label, state):
        state.__dict__.pop("apps", None)  # drawn again when it is asked for, and then once
        for operation in self.operations:
            operation.state_forwards(app_label, state)

    def database_forwards(self, app_label, schema_editor, from_state, to_state):
        for model in to_state.apps.get_app_config(app_label).get_models():
            schema_editor.create_model(model)

    def database_backwards(self, app_label, schema_editor, from_state, to_state):
        for model in reversed(list(from_state.apps.get_app_config(app_label).get_models())):
            schema_editor.delete_model(model)


class Migration(migrations.Migration):
    replaces = [
        ("jobs", "0001_squashed_0009"),
        ("jobs", "0010_tapered_boxes"),
        ("jobs", "0011_inner_braces"),
        ("jobs", "0012_decisions_know_their_record"),
        ("jobs", "0013_issued_sheet_fingerprint"),
        ("jobs", "0014_people"),
        ("jobs", "0015_both_databases"),
        ("jobs", "0016_words"),
        ("jobs", "0017_print_orders"),
        ("jobs", "0025_history_people_can_read"),
        ("jobs", "0026_history_begins"),
        ("jobs", "0030_wiring_states_returns_joins"),
        ("jobs", "0031_public_panel_pages"),
        ("jobs", "0032_fuse_holders_and_inputs"),
        ("jobs", "0034_finished_boxes_and_ports"),
        ("jobs", "0036_rows_of_shapes"),
        ("jobs", "0037_shapes_as_rows"),
        ("jobs", "0038_shapes_are_rows"),
        ("jobs", "0042_whereabouts"),
        ("jobs", "0043_as_built"),
        ("jobs", "0044_measured_limits"),
        ("jobs", "0045_bay"),
        ("jobs", "0046_band_pass_and_slot_wood"),
        ("jobs", "0047_held_flush_screws"),
        ("jobs", "0052_signal_nouns"),
        ("jobs", "0053_sides_and_plugs"),
        ("jobs", "0060_stages_and_halts"),
        ("jobs", "0061_figures_from_another_car"),
        ("jobs", "0065_part_shelf"),
        ("jobs", "0066_figures_as_typed"),
        ("jobs", "0070_held_equipment_and_masses"),
        ("jobs", "0071_trim_finish"),
        ("jobs", "0072_wood_steps"),
        ("jobs", "0073_offcuts"),
        ("jobs", "0074_router_and_boxes_as_built"),
        ("jobs", "0075_edition"),
        ("jobs", "0080_photo_marks"),
        ("jobs", "0081_items_as_built"),
        ("jobs", "0082_damping_by_panel"),
        ("jobs", "0083_tester_files"),
        ("jobs", "0084_cautions_read"),
        ("jobs", "0100_prices_and_rates"),
        ("jobs", "0101_offers_payments_hours"),
        ("jobs", "0102_options"),
        ("jobs", "0103_parts_to_come"),
        ("jobs", "0120_setup_starting_values"),
        ("jobs", "0121_channel_curves"),
    ]

    initial = True

    dependencies = [
        ("auth", "0012_alter_user_first_name_max_length"),
    ]

    operations = [
        AtOnce(
            [
                migrations.CreateModel(
                    name="Part",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                    ],
                    options={
                        "ordering": ["kind", "maker", "name", "pk"],
                    },
                ),
                migrations.CreateModel(
                    name="Box",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "shape",
                            models.CharField(
                                choices=[
                                    ("rectangle", "rectangular"),
                                    ("sloped", "sloped rear wall"),
                                    ("wedge", "wedge: floor, leaning rear, front"),
                                    ("knee", "rear wall in two slopes"),
                                    ("step", "step at the lower rear"),
                                    ("toe", "L: a low toe in front"),
                                    ("corner", "lower rear corner cut off"),
                                    ("arch", "room for a wheel arch"),
                                    ("well", "round well: flat sides, width is its depth"),
                                    ("taper", "tapered: all walls lean"),
                                    ("profile", "own profile"),
                                ],
                                default="rectangle",
                                max_length=10,
                                verbose_name="shape",
                            ),
                        ),
                        ("width", models.FloatField(blank=True, null=True, verbose_name="width")),
                        ("height", models.FloatField(blank=True, null=True, verbose_name="height")),
                        (
                            "depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth at the bottom"
                            ),
                        ),
                        (
                            "top_depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth at the top"
                            ),
                        ),
                        (
                            "rear_slope",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="lean of the rear wall from upright",
                            ),
                        ),
                        (
                            "cut_depth",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="depth of step, toe, cut or knee",
                            ),
                        ),
                        (
                            "cut_height",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="height of step, toe, cut, knee or arch",
                            ),
                        ),
                        (
                            "baffle_layers",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="layers of the front panel",
                            ),
                        ),
                        (
                            "brace_count",
                            models.PositiveSmallIntegerField(
                                default=0, verbose_name="inner braces"
                            ),
                        ),
                        (
                            "brace_opening",
                            models.FloatField(default=0.5, verbose_name="share of a brace cut out"),
                        ),
                        (
                            "corner_joint",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "butt, mitred where the saw then tilts less"),
                                    ("butt", "butt"),
                                    ("mitre", "mitre"),
                                    ("rebate", "rebate"),
                                ],
                                default="",
                                max_length=6,
                                verbose_name="corners",
                            ),
                        ),
                        (
                            "runs_through",
                            models.CharField(
                                choices=[
                                    ("lying", "the lying ones: bottom and top"),
                                    ("standing", "the standing ones: front and rear"),
                                ],
                                default="lying",
                                max_length=8,
                                verbose_name="panels that run through",
                            ),
                        ),
                        (
                            "cheek_joint",
                            models.CharField(
                                choices=[
                                    ("cover", "over the ends of the others"),
                                    ("between", "between the others"),
                                    ("mitre", "mitred, if every corner is"),
                                    ("rebate", "the others let into them"),
                                ],
                                default="cover",
                                max_length=7,
                                verbose_name="side panels",
                            ),
                        ),
                        (
                            "rebate_depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth of the rebates"
                            ),
                        ),
                        (
                            "grain",
                            models.CharField(
                                choices=[
                                    ("across", "across the box"),
                                    ("up", "up"),
                                    ("none", "as it saves most wood"),
                                ],
                                default="across",
                                max_length=6,
                                verbose_name="grain runs",
                            ),
                        ),
                        (
                            "driver_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="driver in",
                            ),
                        ),
                        (
                            "driver_u",
                            models.FloatField(
                                blank=True, null=True, verbose_name="driver, from the left"
                            ),
                        ),
                        (
                            "driver_v",
                            models.FloatField(
                                blank=True, null=True, verbose_name="driver, from below"
                            ),
                        ),
                        (
                            "port_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="port in",
                            ),
                        ),
                        (
                            "port_u",
                            models.FloatField(
                                blank=True, null=True, verbose_name="port, from the left"
                            ),
                        ),
                        (
                            "port_v",
                            models.FloatField(
                                blank=True, null=True, verbose_name="port, from below"
                            ),
                        ),
                        (
                            "port_bend",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "straight"),
                                    ("+v", "up"),
                                    ("-v", "down"),
                                    ("+u", "to the right"),
                                    ("-u", "to the left"),
                                ],
                                default="",
                                max_length=2,
                                verbose_name="port bends",
                            ),
                        ),
                        (
                            "port_straight",
                            models.FloatField(
                                blank=True, null=True, verbose_name="straight piece before the bend"
                            ),
                        ),
                        (
                            "radiator_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="passive radiator in",
                            ),
                        ),
                        (
                            "terminal_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="terminal plate in",
                            ),
                        ),
                        (
                            "terminal_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="hole for the terminal plate"
                            ),
                        ),
                        (
                            "terminal_u",
                            models.FloatField(
                                blank=True, null=True, verbose_name="terminal plate, from the left"
                            ),
                        ),
                        (
                            "terminal_v",
                            models.FloatField(
                                blank=True, null=True, verbose_name="terminal plate, from below"
                            ),
                        ),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("sealed", "sealed"),
                                    ("vented", "vented"),
                                    ("passive_radiator", "passive radiator"),
                                    ("band_pass_4", "band-pass, 4th order"),
                                    ("band_pass_6", "band-pass, 6th order"),
                                    ("infinite_baffle", "infinite baffle"),
                                    ("door", "vehicle door"),
                                ],
                                default="sealed",
                                max_length=18,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        (
                            "chosen",
                            models.BooleanField(default=True, verbose_name="this one is built"),
                        ),
                        (
                            "driver_count",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="drivers",
                            ),
                        ),
                        (
                            "isobaric",
                            models.BooleanField(default=False, verbose_name="isobaric pair"),
                        ),
                        (
                            "test_voltage",
                            models.FloatField(default=2.83, verbose_name="voltage for the curves"),
                        ),
                        (
                            "wanted_volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="net volume wanted"
                            ),
                        ),
                        ("ql", models.FloatField(blank=True, null=True, verbose_name="leakage QL")),
                        (
                            "qa",
                            models.FloatField(blank=True, null=True, verbose_name="absorption QA"),
                        ),
                        (
                            "qp",
                            models.FloatField(blank=True, null=True, verbose_name="port loss QP"),
                        ),
                        (
                            "fill",
                            models.FloatField(default=1.0, verbose_name="filling gain (1 to 1.4)"),
                        ),
                        (
                            "port_shape",
                            models.CharField(
                                choices=[("round", "round tube"), ("slot", "slot along a wall")],
                                default="round",
                                max_length=5,
                                verbose_name="port",
                            ),
                        ),
                        (
                            "port_count",
                            models.PositiveSmallIntegerField(default=1, verbose_name="ports"),
                        ),
                        (
                            "port_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="port diameter inside"
                            ),
                        ),
                        (
                            "port_width",
                            models.FloatField(blank=True, null=True, verbose_name="slot width"),
                        ),
                        (
                            "port_height",
                            models.FloatField(blank=True, null=True, verbose_name="slot height"),
                        ),
                        (
                            "port_length",
                            models.FloatField(blank=True, null=True, verbose_name="port length"),
                        ),
                        (
                            "port_wall",
                            models.FloatField(default=0.003, verbose_name="port wall thickness"),
                        ),
                        (
                            "wanted_tuning",
                            models.FloatField(blank=True, null=True, verbose_name="tuning wanted"),
                        ),
                        (
                            "front_volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="front chamber volume"
                            ),
                        ),
                        (
                            "rear_port_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rear port diameter inside"
                            ),
                        ),
                        (
                            "rear_port_length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rear port length"
                            ),
                        ),
                        (
                            "radiator_count",
                            models.PositiveSmallIntegerField(
                                default=1, verbose_name="passive radiators"
                            ),
                        ),
                        (
                            "radiator_added_mass",
                            models.FloatField(default=0.0, verbose_name="mass added to each"),
                        ),
                        (
                            "hole",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("blanked", "blanked off"),
                                    ("open", "left open"),
                                    ("factory_driver", "factory driver left in, unplugged"),
                                ],
                                max_length=16,
                                verbose_name="factory hole beside it",
                            ),
                        ),
                        (
                            "hole_area",
                            models.FloatField(
                                blank=True, null=True, verbose_name="area of the factory hole"
                            ),
                        ),
                        (
                            "cavity_width",
                            models.FloatField(blank=True, null=True, verbose_name="cavity width"),
                        ),
                        ("cavity_gap", models.FloatField(default=0.01, verbose_name="gap to keep")),
                        (
                            "opening_width",
                            models.FloatField(
                                blank=True, null=True, verbose_name="opening it must pass, width"
                            ),
                        ),
                        (
                            "opening_height",
                            models.FloatField(
                                blank=True, null=True, verbose_name="opening it must pass, height"
                            ),
                        ),
                        (
                            "top_to_rear",
                            models.FloatField(
                                blank=True, null=True, verbose_name="top moved to the rear"
                            ),
                        ),
                        (
                            "top_to_right",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="top moved to the right, seen from the front",
                            ),
                        ),
                        (
                            "top_width",
                            models.FloatField(
                                blank=True, null=True, verbose_name="width at the top"
                            ),
                        ),
                        (
                            "port_flare",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="radius of the flares, both ends",
                            ),
                        ),
                        (
                            "rear_wanted_tuning",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rear tuning wanted"
                            ),
                        ),
                        (
                            "second_port_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="second port, diameter inside"
                            ),
                        ),
                        (
                            "second_port_length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="second port, length"
                            ),
                        ),
                        (
                            "slot_walls",
                            models.CharField(
                                choices=[
                                    ("one", "one: its width lies on a wall"),
                                    ("two", "two: it lies in a corner"),
                                    ("three", "three: it is as wide as the box"),
                                ],
                                default="one",
                                max_length=5,
                                verbose_name="walls the slot lies on, inside",
                            ),
                        ),
                        (
                            "divider",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("upright", "upright: front chamber before it"),
                                    ("shelf", "shelf: front chamber above it"),
                                    ("plate", "plate: front chamber right of it"),
                                ],
                                max_length=7,
                                verbose_name="divider that carries the driver",
                            ),
                        ),
                        (
                            "divider_at",
                            models.FloatField(
                                blank=True, null=True, verbose_name="divider, to its middle"
                            ),
                        ),
                        (
                            "isobaric_gap",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="from the first driver of a pair to the second",
                            ),
                        ),
                        (
                            "port_lies",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "none: it has walls of its own"),
                                    ("bottom", "the bottom"),
                                    ("bottom left", "the bottom, against the left side"),
                                    ("bottom right", "the bottom, against the right side"),
                                    ("top", "the top"),
                                    ("top left", "the top, against the left side"),
                                    ("top right", "the top, against the right side"),
                                    ("left", "the left side, from bottom to top"),
                                    ("right", "the right side, from bottom to top"),
                                ],
                                default="",
                                max_length=12,
                                verbose_name="slot made of the box's own panels, along",
                            ),
                        ),
                        (
                            "rear_port_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="rear port in",
                            ),
                        ),
                        (
                            "driver_recess",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="recess for the driver's flange, deep",
                            ),
                        ),
                        (
                            "held_by",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "nobody has said yet"),
                                    ("makers", "at the vehicle maker's own points"),
                                    ("brackets", "by brackets bolted into body metal"),
                                    ("inserts", "by bolts through inserts into body metal"),
                                    ("carried", "on a box, board or floor that is held itself"),
                                    ("loose", "by nothing: it stands loose"),
                                ],
                                default="",
                                max_length=8,
                                verbose_name="held in the car",
                            ),
                        ),
                        (
                            "held_into",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="into what, with what"
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                    ],
                    options={
                        "verbose_name": "box",
                        "verbose_name_plural": "boxes",
                        "ordering": ["-chosen", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="Channel",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        ("source", models.CharField(max_length=80, verbose_name="source")),
                        (
                            "processor_output",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="processor output",
                            ),
                        ),
                        (
                            "amplifier_channel",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="amplifier channel",
                            ),
                        ),
                        (
                            "bridged",
                            models.BooleanField(
                                default=False, verbose_name="bridged with the next channel"
                            ),
                        ),
                        (
                            "speaker_count",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many on this channel",
                            ),
                        ),
                        (
                            "connection",
                            models.CharField(
                                choices=[("parallel", "parallel"), ("series", "series")],
                                default="parallel",
                                max_length=8,
                                verbose_name="speakers connected in",
                            ),
                        ),
                        (
                            "coil_connection",
                            models.CharField(
                                choices=[("parallel", "parallel"), ("series", "series")],
                                default="parallel",
                                max_length=8,
                                verbose_name="coils of one speaker in",
                            ),
                        ),
                        (
                            "highpass_frequency",
                            models.FloatField(blank=True, null=True, verbose_name="high-pass"),
                        ),
                        (
                            "highpass_shape",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("bw6", "Butterworth 6 dB/oct"),
                                    ("bw12", "Butterworth 12 dB/oct"),
                                    ("bw18", "Butterworth 18 dB/oct"),
                                    ("bw24", "Butterworth 24 dB/oct"),
                                    ("lr12", "Linkwitz–Riley 12 dB/oct"),
                                    ("lr24", "Linkwitz–Riley 24 dB/oct"),
                                    ("lr48", "Linkwitz–Riley 48 dB/oct"),
                                    ("be12", "Bessel 12 dB/oct, −3 dB at the corner"),
                                    ("be24", "Bessel 24 dB/oct, −3 dB at the corner"),
                                    ("be12p", "Bessel 12 dB/oct, corner by phase"),
                                    ("be24p", "Bessel 24 dB/oct, corner by phase"),
                                    ("be12d", "Bessel 12 dB/oct, corner by delay"),
                                    ("be24d", "Bessel 24 dB/oct, corner by delay"),
                                ],
                                max_length=5,
                                verbose_name="high-pass shape",
                            ),
                        ),
                        (
                            "lowpass_frequency",
                            models.FloatField(blank=True, null=True, verbose_name="low-pass"),
                        ),
                        (
                            "lowpass_shape",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("bw6", "Butterworth 6 dB/oct"),
                                    ("bw12", "Butterworth 12 dB/oct"),
                                    ("bw18", "Butterworth 18 dB/oct"),
                                    ("bw24", "Butterworth 24 dB/oct"),
                                    ("lr12", "Linkwitz–Riley 12 dB/oct"),
                                    ("lr24", "Linkwitz–Riley 24 dB/oct"),
                                    ("lr48", "Linkwitz–Riley 48 dB/oct"),
                                    ("be12", "Bessel 12 dB/oct, −3 dB at the corner"),
                                    ("be24", "Bessel 24 dB/oct, −3 dB at the corner"),
                                    ("be12p", "Bessel 12 dB/oct, corner by phase"),
                                    ("be24p", "Bessel 24 dB/oct, corner by phase"),
                                    ("be12d", "Bessel 12 dB/oct, corner by delay"),
                                    ("be24d", "Bessel 24 dB/oct, corner by delay"),
                                ],
                                max_length=5,
                                verbose_name="low-pass shape",
                            ),
                        ),
                        ("level", models.FloatField(default=0.0, verbose_name="level")),
                        (
                            "delay",
                            models.FloatField(
                                default=0.0,
                                validators=[django.core.validators.MinValueValidator(0.0)],
                                verbose_name="delay",
                            ),
                        ),
                        (
                            "inverted",
                            models.BooleanField(default=False, verbose_name="polarity inverted"),
                        ),
                        (
                            "distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="distance to the listener's head",
                            ),
                        ),
                        (
                            "side",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("both", "both sides"),
                                ],
                                max_length=5,
                                verbose_name="side it plays",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                    ],
                    options={
                        "verbose_name": "channel",
                        "ordering": ["position", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="FactoryPart",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("speaker", "speaker"),
                                    ("amplifier", "amplifier"),
                                    ("head_unit", "head unit"),
                                    ("connector", "connector"),
                                    ("other", "other part"),
                                ],
                                max_length=10,
                                verbose_name="kind",
                            ),
                        ),
                        ("place", models.CharField(max_length=80, verbose_name="place")),
                        (
                            "description",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="description"
                            ),
                        ),
                        (
                            "fate",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("in_use", "stays in use"),
                                    ("unplugged", "stays in place, unplugged and insulated"),
                                    ("removed", "removed and kept"),
                                    ("replaced", "replaced"),
                                ],
                                max_length=10,
                                verbose_name="fate",
                            ),
                        ),
                        (
                            "kept_where",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where it is kept, or how it goes back",
                            ),
                        ),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                    ],
                    options={
                        "verbose_name": "factory part",
                        "ordering": ["place", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="PrintWorker",
                    fields=[
                        (
                            "name",
                            models.CharField(max_length=32, primary_key=True, serialize=False),
                        ),
                        ("started_at", models.DateTimeField()),
                        ("beat_at", models.DateTimeField()),
                    ],
                ),
                migrations.CreateModel(
                    name="TaxRate",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "percent",
                            models.DecimalField(
                                decimal_places=2,
                                max_digits=5,
                                validators=[
                                    django.core.validators.MinValueValidator(Decimal("0")),
                                    django.core.validators.MaxValueValidator(Decimal("100")),
                                ],
                                verbose_name="rate in per cent",
                            ),
                        ),
                        ("valid_from", models.DateField(verbose_name="valid from")),
                    ],
                    options={
                        "verbose_name": "tax rate",
                        "ordering": ["tax_class", "-valid_from", "-pk"],
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="Workshop",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        (
                            "cutting",
                            models.CharField(
                                choices=[
                                    ("panel saw", "panel saw: cuts run from edge to edge"),
                                    ("router", "router: cuts run anywhere"),
                                ],
                                default="panel saw",
                                max_length=9,
                                verbose_name="sheets are cut with",
                            ),
                        ),
                        (
                            "kerf",
                            models.FloatField(
                                default=0.0032,
                                validators=[django.core.validators.MinValueValidator(0.0)],
                                verbose_name="width of the cut",
                            ),
                        ),
                        (
                            "sheet_trim",
                            models.FloatField(
                                default=0.01,
                                validators=[django.core.validators.MinValueValidator(0.0)],
                                verbose_name="cut off all round a sheet first",
                            ),
                        ),
                        (
                            "saw_tilt",
                            models.FloatField(
                                default=0.7853981633974483,
                                validators=[
                                    django.core.validators.MinValueValidator(0.0),
                                    django.core.validators.MaxValueValidator(1.5707963267948966),
                                ],
                                verbose_name="saw tilts from square up to",
                            ),
                        ),
                        (
                            "smallest_offcut",
                            models.FloatField(
                                default=0.1,
                                validators=[django.core.validators.MinValueValidator(0.0)],
                                verbose_name="offcuts kept from",
                            ),
                        ),
                        (
                            "name",
                            models.CharField(
                                default="Undertrim", max_length=80, verbose_name="name"
                            ),
                        ),
                        ("address", models.TextField(blank=True, verbose_name="address")),
                        (
                            "phone",
                            models.CharField(blank=True, max_length=40, verbose_name="phone"),
                        ),
                        (
                            "units",
                            models.CharField(
                                choices=[
                                    ("metric", "metric (mm, L, mm²)"),
                                    ("imperial", "imperial (in, cu ft, AWG)"),
                                ],
                                default="metric",
                                max_length=10,
                                verbose_name="units",
                            ),
                        ),
                        (
                            "paper",
                            models.CharField(
                                choices=[("a4", "A4"), ("letter", "Letter"), ("a3", "A3")],
                                default="a4",
                                max_length=10,
                                verbose_name="paper",
                            ),
                        ),
                        (
                            "currency",
                            models.CharField(default="EUR", max_length=3, verbose_name="currency"),
                        ),
                        (
                            "web_address",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="web address of this app"
                            ),
                        ),
                        (
                            "cable_slack",
                            models.FloatField(
                                default=0.1, verbose_name="added to every cable, as a share"
                            ),
                        ),
                        (
                            "cable_per_end",
                            models.FloatField(default=0.1, verbose_name="added at each end"),
                        ),
                        (
                            "heat_shrink",
                            models.FloatField(default=0.04, verbose_name="heat-shrink on each end"),
                        ),
                        (
                            "label_width",
                            models.FloatField(default=0.094, verbose_name="width of a label"),
                        ),
                        (
                            "label_height",
                            models.FloatField(default=0.029, verbose_name="height of a label"),
                        ),
                        (
                            "label_columns",
                            models.PositiveSmallIntegerField(
                                default=2, verbose_name="labels across"
                            ),
                        ),
                        (
                            "label_rows",
                            models.PositiveSmallIntegerField(default=9, verbose_name="labels down"),
                        ),
                        (
                            "label_left",
                            models.FloatField(
                                default=0.009, verbose_name="paper edge to the first label, across"
                            ),
                        ),
                        (
                            "label_top",
                            models.FloatField(
                                default=0.009, verbose_name="paper edge to the first label, down"
                            ),
                        ),
                        (
                            "label_gap",
                            models.FloatField(
                                default=0.004, verbose_name="gap between labels, across"
                            ),
                        ),
                        (
                            "label_row_gap",
                            models.FloatField(default=0.0, verbose_name="gap between labels, down"),
                        ),
                        (
                            "label_wrap",
                            models.FloatField(
                                default=0.014, verbose_name="left blank to go round the cable"
                            ),
                        ),
                        ("is_demo", models.BooleanField(default=False, editable=False)),
                        (
                            "router_relief",
                            models.BooleanField(
                                default=False, verbose_name="inside corners drilled out"
                            ),
                        ),
                        (
                            "router_tab",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="width of a tab that holds a part",
                            ),
                        ),
                        (
                            "router_tabs",
                            models.PositiveSmallIntegerField(
                                default=4, verbose_name="tabs to a part"
                            ),
                        ),
                        (
                            "router_tool",
                            models.FloatField(
                                blank=True, null=True, verbose_name="diameter of the router's tool"
                            ),
                        ),
                        (
                            "covering_cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="covering costs the workshop, by the square metre",
                            ),
                        ),
                        (
                            "covering_price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="covering, by the square metre",
                            ),
                        ),
                        (
                            "hour_cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour costs the workshop",
                            ),
                        ),
                        (
                            "minutes_channel",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="to set up one channel"
                            ),
                        ),
                        (
                            "minutes_cut",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="to cut one part"
                            ),
                        ),
                        (
                            "minutes_glue",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="to glue one joint"
                            ),
                        ),
                        (
                            "minutes_panel",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                verbose_name="to take one panel off and put it back",
                            ),
                        ),
                        (
                            "minutes_run",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                verbose_name="to lay one run and make its ends",
                            ),
                        ),
                        (
                            "rate_car",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour on the car",
                            ),
                        ),
                        (
                            "rate_covering",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour of covering",
                            ),
                        ),
                        (
                            "rate_desk",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour of planning",
                            ),
                        ),
                        (
                            "rate_set_up",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour of setting up",
                            ),
                        ),
                        (
                            "rate_wiring",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour of wiring",
                            ),
                        ),
                        (
                            "rate_wood",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour in the wood shop",
                            ),
                        ),
                        (
                            "usual_deposit",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=5,
                                null=True,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(100),
                                ],
                                verbose_name="usual deposit in per cent of the total",
                            ),
                        ),
                        (
                            "valid_days",
                            models.PositiveSmallIntegerField(
                                default=30,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="days an offer holds",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="User",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("password", models.CharField(max_length=128, verbose_name="password")),
                        (
                            "last_login",
                            models.DateTimeField(blank=True, null=True, verbose_name="last login"),
                        ),
                        (
                            "is_superuser",
                            models.BooleanField(
                                default=False,
                                help_text="Designates that this user has all permissions without explicitly assigning them.",
                                verbose_name="superuser status",
                            ),
                        ),
                        (
                            "username",
                            models.CharField(
                                error_messages={
                                    "unique": "A user with that username already exists."
                                },
                                help_text="Required. 150 characters or fewer. Letters, digits and @/./+/-/_ only.",
                                max_length=150,
                                unique=True,
                                validators=[
                                    django.contrib.auth.validators.UnicodeUsernameValidator()
                                ],
                                verbose_name="username",
                            ),
                        ),
                        (
                            "first_name",
                            models.CharField(blank=True, max_length=150, verbose_name="first name"),
                        ),
                        (
                            "last_name",
                            models.CharField(blank=True, max_length=150, verbose_name="last name"),
                        ),
                        (
                            "email",
                            models.EmailField(
                                blank=True, max_length=254, verbose_name="email address"
                            ),
                        ),
                        (
                            "is_staff",
                            models.BooleanField(
                                default=False,
                                help_text="Designates whether the user can log into this admin site.",
                                verbose_name="staff status",
                            ),
                        ),
                        (
                            "is_active",
                            models.BooleanField(
                                default=True,
                                help_text="Designates whether this user should be treated as active. Unselect this instead of deleting accounts.",
                                verbose_name="active",
                            ),
                        ),
                        (
                            "date_joined",
                            models.DateTimeField(
                                default=django.utils.timezone.now, verbose_name="date joined"
                            ),
                        ),
                        (
                            "language",
                            models.CharField(
                                blank=True,
                                choices=[("en", "English"), ("de", "German")],
                                max_length=8,
                                verbose_name="language",
                            ),
                        ),
                        (
                            "must_change_password",
                            models.BooleanField(default=False, editable=False),
                        ),
                        ("roles", models.JSONField(blank=True, default=list, verbose_name="roles")),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        (
                            "groups",
                            models.ManyToManyField(
                                blank=True,
                                help_text="The groups this user belongs to. A user will get all permissions granted to each of their groups.",
                                related_name="user_set",
                                related_query_name="user",
                                to="auth.group",
                                verbose_name="groups",
                            ),
                        ),
                        (
                            "user_permissions",
                            models.ManyToManyField(
                                blank=True,
                                help_text="Specific permissions for this user.",
                                related_name="user_set",
                                related_query_name="user",
                                to="auth.permission",
                                verbose_name="user permissions",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "user",
                        "verbose_name_plural": "users",
                        "abstract": False,
                    },
                    managers=[
                        ("objects", django.contrib.auth.models.UserManager()),
                    ],
                ),
                migrations.CreateModel(
                    name="AccountEvent",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        (
                            "did",
                            models.CharField(
                                choices=[
                                    ("added", "added"),
                                    ("roles", "roles changed"),
                                    ("password", "password changed"),
                                    ("reset", "new start password"),
                                    ("left", "left the workshop"),
                                    ("back", "came back"),
                                    ("factor-on", "second factor set up"),
                                    ("codes", "new recovery codes"),
                                    ("factor-off", "second factor taken off"),
                                ],
                                max_length=12,
                            ),
                        ),
                        ("at", models.DateTimeField(auto_now_add=True)),
                        ("roles", models.JSONField(default=list)),
                        (
                            "by",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "person",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="events",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["-pk"],
                    },
                ),
                migrations.CreateModel(
                    name="Amplifier",
                    fields=[
                        (
                            "part_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="jobs.part",
                            ),
                        ),
                        (
                            "stage",
                            models.CharField(
                                choices=[("D", "class D"), ("AB", "class AB")],
                                default="D",
                                max_length=2,
                                verbose_name="output stage",
                            ),
                        ),
                        (
                            "channels",
                            models.PositiveSmallIntegerField(default=2, verbose_name="channels"),
                        ),
                        (
                            "lowest_load",
                            models.FloatField(
                                blank=True, null=True, verbose_name="lowest load, one channel"
                            ),
                        ),
                        (
                            "lowest_load_bridged",
                            models.FloatField(
                                blank=True, null=True, verbose_name="lowest load, bridged"
                            ),
                        ),
                        (
                            "efficiency",
                            models.FloatField(
                                blank=True, null=True, verbose_name="efficiency at rated power"
                            ),
                        ),
                        (
                            "fuse_rating",
                            models.FloatField(
                                blank=True, null=True, verbose_name="fuse on the amplifier"
                            ),
                        ),
                        (
                            "quiescent_current",
                            models.FloatField(blank=True, null=True, verbose_name="idle current"),
                        ),
                        (
                            "minimum_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="lowest supply voltage it works at",
                            ),
                        ),
                        (
                            "turn_on_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="turn-on current"
                            ),
                        ),
                        (
                            "highest_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="highest supply voltage it stands",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("jobs.part",),
                ),
                migrations.CreateModel(
                    name="Conductor",
                    fields=[
                        (
                            "part_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="jobs.part",
                            ),
                        ),
                        ("size", models.CharField(max_length=16, verbose_name="size")),
                        (
                            "metal",
                            models.CharField(
                                choices=[
                                    ("copper", "copper"),
                                    (
                                        "copper_clad_aluminium_10",
                                        "copper-clad aluminium, 10 % copper",
                                    ),
                                    (
                                        "copper_clad_aluminium_15",
                                        "copper-clad aluminium, 15 % copper",
                                    ),
                                    ("aluminium", "aluminium"),
                                ],
                                default="copper",
                                max_length=26,
                                verbose_name="metal",
                            ),
                        ),
                        (
                            "insulation_temperature",
                            models.FloatField(
                                blank=True, null=True, verbose_name="insulation temperature class"
                            ),
                        ),
                        (
                            "ampacity",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="rated current from the maker's sheet",
                            ),
                        ),
                        (
                            "outer_diameter",
                            models.FloatField(blank=True, null=True, verbose_name="outer diameter"),
                        ),
                        (
                            "colour",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="colour (IEC 60757)"
                            ),
                        ),
                        (
                            "cores",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="cores under one sheath",
                            ),
                        ),
                        ("screened", models.BooleanField(default=False, verbose_name="screened")),
                        (
                            "capacitance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="capacitance per length, core to screen",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("jobs.part",),
                ),
                migrations.CreateModel(
                    name="Damping",
                    fields=[
                        (
                            "part_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="jobs.part",
                            ),
                        ),
                        (
                            "thickness",
                            models.FloatField(blank=True, null=True, verbose_name="thickness"),
                        ),
                        (
                            "area_mass",
                            models.FloatField(blank=True, null=True, verbose_name="mass per area"),
                        ),
                        (
                            "effect",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("layer", "constrained layer: damps a sheet of metal"),
                                    ("barrier", "barrier: heavy and limp"),
                                    ("absorber", "absorber: open pores"),
                                    ("foam", "closed-cell foam: keeps parts from rattling"),
                                ],
                                max_length=8,
                                verbose_name="what it does",
                            ),
                        ),
                        (
                            "sheet_area",
                            models.FloatField(
                                blank=True, null=True, verbose_name="area of one sheet or roll"
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("jobs.part",),
                ),
                migrations.CreateModel(
                    name="Driver",
                    fields=[
                        (
                            "part_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="jobs.part",
                            ),
                        ),
                        (
                            "fs",
                            models.FloatField(blank=True, null=True, verbose_name="resonance fs"),
                        ),
                        ("qts", models.FloatField(blank=True, null=True, verbose_name="Qts")),
                        ("qes", models.FloatField(blank=True, null=True, verbose_name="Qes")),
                        ("qms", models.FloatField(blank=True, null=True, verbose_name="Qms")),
                        ("vas", models.FloatField(blank=True, null=True, verbose_name="Vas")),
                        (
                            "sd",
                            models.FloatField(blank=True, null=True, verbose_name="cone area Sd"),
                        ),
                        (
                            "re",
                            models.FloatField(
                                blank=True, null=True, verbose_name="coil resistance Re, one coil"
                            ),
                        ),
                        (
                            "le",
                            models.FloatField(
                                blank=True, null=True, verbose_name="coil inductance Le, one coil"
                            ),
                        ),
                        ("mms", models.FloatField(blank=True, null=True, verbose_name="Mms")),
                        ("cms", models.FloatField(blank=True, null=True, verbose_name="Cms")),
                        (
                            "rms",
                            models.FloatField(
                                blank=True, null=True, verbose_name="mechanical loss Rms"
                            ),
                        ),
                        ("bl", models.FloatField(blank=True, null=True, verbose_name="Bl")),
                        (
                            "xmax",
                            models.FloatField(
                                blank=True,
                                db_column="linear_travel",
                                null=True,
                                verbose_name="linear travel Xmax, one way",
                            ),
                        ),
                        (
                            "power",
                            models.FloatField(
                                blank=True, null=True, verbose_name="continuous power"
                            ),
                        ),
                        (
                            "nominal_impedance",
                            models.FloatField(
                                blank=True, null=True, verbose_name="nominal impedance, one coil"
                            ),
                        ),
                        (
                            "coils",
                            models.PositiveSmallIntegerField(default=1, verbose_name="voice coils"),
                        ),
                        (
                            "outer_diameter",
                            models.FloatField(blank=True, null=True, verbose_name="outer diameter"),
                        ),
                        (
                            "cutout_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cut-out diameter"
                            ),
                        ),
                        (
                            "bolt_circle",
                            models.FloatField(blank=True, null=True, verbose_name="bolt circle"),
                        ),
                        (
                            "depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth behind the mounting face"
                            ),
                        ),
                        (
                            "magnet_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="magnet diameter"
                            ),
                        ),
                        (
                            "magnet_height",
                            models.FloatField(blank=True, null=True, verbose_name="magnet height"),
                        ),
                        (
                            "displacement",
                            models.FloatField(
                                blank=True, null=True, verbose_name="volume it takes from the box"
                            ),
                        ),
                        (
                            "screw_hole",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="pilot hole or hole for its insert",
                            ),
                        ),
                        (
                            "screws",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="screws"
                            ),
                        ),
                        (
                            "sensitivity",
                            models.FloatField(
                                blank=True, null=True, verbose_name="level at 2.83 V and 1 m"
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("jobs.part",),
                ),
                migrations.CreateModel(
                    name="Fuse",
                    fields=[
                        (
                            "part_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="jobs.part",
                            ),
                        ),
                        (
                            "type",
                            models.CharField(
                                choices=[
                                    ("mini", "blade, type F (mini)"),
                                    ("blade", "blade, type C (regular)"),
                                    ("maxi", "blade, type E (maxi)"),
                                    ("sf30", "bolted strip SF30"),
                                    ("sf51", "bolted strip SF51"),
                                    ("cartridge", "cartridge"),
                                    ("breaker", "circuit breaker"),
                                ],
                                max_length=10,
                                verbose_name="type",
                            ),
                        ),
                        (
                            "rating",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.1)],
                                verbose_name="rating",
                            ),
                        ),
                        (
                            "voltage",
                            models.FloatField(blank=True, null=True, verbose_name="rated voltage"),
                        ),
                        (
                            "breaking_capacity",
                            models.FloatField(
                                blank=True, null=True, verbose_name="breaking capacity"
                            ),
                        ),
                        (
                            "curve",
                            models.JSONField(
                                blank=True, default=list, verbose_name="opening times"
                            ),
                        ),
                        (
                            "rerating",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="share of the rating lost for each degree above 25 °C",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("jobs.part",),
                ),
                migrations.CreateModel(
                    name="Holder",
                    fields=[
                        (
                            "part_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="jobs.part",
                            ),
                        ),
                        (
                            "ways",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="ways",
                            ),
                        ),
                        (
                            "rated_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current it may carry"
                            ),
                        ),
                        (
                            "largest_cable",
                            models.FloatField(
                                blank=True, null=True, verbose_name="largest cable it takes"
                            ),
                        ),
                        (
                            "stud",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="stud or screw, such as M8"
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("jobs.part",),
                ),
                migrations.CreateModel(
                    name="Processor",
                    fields=[
                        (
                            "part_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="jobs.part",
                            ),
                        ),
                        (
                            "inputs",
                            models.PositiveSmallIntegerField(default=2, verbose_name="inputs"),
                        ),
                        (
                            "outputs",
                            models.PositiveSmallIntegerField(default=2, verbose_name="outputs"),
                        ),
                        (
                            "current",
                            models.FloatField(blank=True, null=True, verbose_name="supply current"),
                        ),
                        (
                            "turn_on_limit",
                            models.FloatField(
                                blank=True, null=True, verbose_name="turn-on output can carry"
                            ),
                        ),
                        (
                            "fuse_rating",
                            models.FloatField(
                                blank=True, null=True, verbose_name="supply fuse its maker asks for"
                            ),
                        ),
                        (
                            "highest_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="highest supply voltage it stands",
                            ),
                        ),
                        (
                            "minimum_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="lowest supply voltage it works at",
                            ),
                        ),
                        (
                            "highest_input",
                            models.FloatField(
                                blank=True, null=True, verbose_name="highest signal its inputs take"
                            ),
                        ),
                        (
                            "device",
                            models.CharField(
                                choices=[
                                    ("processor", "processor"),
                                    ("converter", "line converter: high level in, line level out"),
                                    ("interface", "interface to the bus or fibre of the car"),
                                ],
                                default="processor",
                                max_length=12,
                                verbose_name="what it is",
                            ),
                        ),
                        (
                            "wakes_itself",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="turns itself on by the signal or the bus",
                            ),
                        ),
                        (
                            "sample_rate",
                            models.FloatField(blank=True, null=True, verbose_name="sample rate"),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("jobs.part",),
                ),
                migrations.CreateModel(
                    name="SheetMaterial",
                    fields=[
                        (
                            "part_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="jobs.part",
                            ),
                        ),
                        ("thickness", models.FloatField(verbose_name="measured thickness")),
                        (
                            "sheet_length",
                            models.FloatField(blank=True, null=True, verbose_name="sheet length"),
                        ),
                        (
                            "sheet_width",
                            models.FloatField(blank=True, null=True, verbose_name="sheet width"),
                        ),
                        (
                            "density",
                            models.FloatField(blank=True, null=True, verbose_name="density"),
                        ),
                        (
                            "stiffness",
                            models.FloatField(
                                blank=True, null=True, verbose_name="Young's modulus"
                            ),
                        ),
                        (
                            "grained",
                            models.BooleanField(
                                default=False, verbose_name="has a grain direction"
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("jobs.part",),
                ),
                migrations.CreateModel(
                    name="Terminal",
                    fields=[
                        (
                            "part_ptr",
                            models.OneToOneField(
                                auto_created=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                parent_link=True,
                                primary_key=True,
                                serialize=False,
                                to="jobs.part",
                            ),
                        ),
                        (
                            "metals",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("copper", "copper only"),
                                    ("aluminium", "aluminium and copper-clad aluminium only"),
                                    ("both", "copper, aluminium and copper-clad aluminium"),
                                ],
                                max_length=10,
                                verbose_name="made for",
                            ),
                        ),
                        (
                            "stud",
                            models.CharField(
                                blank=True,
                                max_length=8,
                                verbose_name="stud or screw it sits on, such as M8",
                            ),
                        ),
                        (
                            "torque",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="tightening torque, from the part maker's sheet",
                            ),
                        ),
                        (
                            "largest_cable",
                            models.FloatField(
                                blank=True, null=True, verbose_name="largest cable it is made for"
                            ),
                        ),
                        (
                            "smallest_cable",
                            models.FloatField(
                                blank=True, null=True, verbose_name="smallest cable it is made for"
                            ),
                        ),
                        (
                            "plug",
                            models.BooleanField(
                                default=False,
                                verbose_name="a plug that comes on its lead or is soldered on: nothing is crimped",
                            ),
                        ),
                    ],
                    options={
                        "abstract": False,
                    },
                    bases=("jobs.part",),
                ),
                migrations.CreateModel(
                    name="BoxCorner",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("position", models.PositiveSmallIntegerField(editable=False)),
                        ("x", models.FloatField(verbose_name="across")),
                        ("y", models.FloatField(verbose_name="up")),
                        (
                            "bow",
                            models.FloatField(default=0.0, verbose_name="bow of the edge after it"),
                        ),
                        (
                            "outline",
                            models.CharField(
                                choices=[
                                    ("own", "own side profile"),
                                    ("cavity", "cavity, side profile"),
                                ],
                                max_length=6,
                                verbose_name="outline",
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="corners",
                                to="jobs.box",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["position", "pk"],
                        "abstract": False,
                    },
                ),
                migrations.AddField(
                    model_name="box",
                    name="channel",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="boxes",
                        to="jobs.channel",
                        verbose_name="channel that feeds it",
                    ),
                ),
                migrations.CreateModel(
                    name="Customer",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=120, verbose_name="name")),
                        (
                            "phone",
                            models.CharField(blank=True, max_length=40, verbose_name="phone"),
                        ),
                        (
                            "email",
                            models.EmailField(blank=True, max_length=254, verbose_name="e-mail"),
                        ),
                        ("address", models.TextField(blank=True, verbose_name="address")),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        (
                            "erased_at",
                            models.DateTimeField(editable=False, null=True, verbose_name="erased"),
                        ),
                        (
                            "erased_why",
                            models.CharField(
                                blank=True, editable=False, max_length=200, verbose_name="why"
                            ),
                        ),
                        (
                            "erased_by",
                            models.ForeignKey(
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                                verbose_name="erased by",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["name", "pk"],
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="EquipmentItem",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("place", models.CharField(max_length=80, verbose_name="place")),
                        (
                            "quantity",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="quantity",
                            ),
                        ),
                        (
                            "serial",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="serial number"
                            ),
                        ),
                        (
                            "state",
                            models.CharField(
                                choices=[
                                    ("to_order", "to order"),
                                    ("ordered", "ordered"),
                                    ("in", "in"),
                                    ("fitted", "fitted"),
                                    ("missing", "missing"),
                                ],
                                default="to_order",
                                max_length=10,
                                verbose_name="state",
                            ),
                        ),
                        (
                            "ventilated",
                            models.BooleanField(
                                blank=True, null=True, verbose_name="air can move around it"
                            ),
                        ),
                        (
                            "private",
                            models.BooleanField(
                                default=False,
                                verbose_name="private: behind the code only “ask the workshop”",
                            ),
                        ),
                        (
                            "held_by",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "nobody has said yet"),
                                    ("makers", "at the vehicle maker's own points"),
                                    ("brackets", "by brackets bolted into body metal"),
                                    ("inserts", "by bolts through inserts into body metal"),
                                    ("carried", "on a box, board or floor that is held itself"),
                                    ("loose", "by nothing: it stands loose"),
                                ],
                                default="",
                                max_length=8,
                                verbose_name="held in the car",
                            ),
                        ),
                        (
                            "held_into",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="into what, with what"
                            ),
                        ),
                        (
                            "expected_on",
                            models.DateField(blank=True, null=True, verbose_name="expected on"),
                        ),
                        (
                            "shelf",
                            models.CharField(blank=True, max_length=40, verbose_name="shelf"),
                        ),
                        (
                            "part",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="uses",
                                to="jobs.part",
                                verbose_name="part",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "equipment",
                        "ordering": ["place", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.AddField(
                    model_name="channel",
                    name="amplifier",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="jobs.equipmentitem",
                        verbose_name="amplifier",
                    ),
                ),
                migrations.AddField(
                    model_name="channel",
                    name="processor",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="jobs.equipmentitem",
                        verbose_name="processor",
                    ),
                ),
                migrations.AddField(
                    model_name="channel",
                    name="speaker",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="jobs.equipmentitem",
                        verbose_name="speaker",
                    ),
                ),
                migrations.AddField(
                    model_name="box",
                    name="driver",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="boxes",
                        to="jobs.equipmentitem",
                        verbose_name="driver",
                    ),
                ),
                migrations.AddField(
                    model_name="box",
                    name="radiator",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="jobs.equipmentitem",
                        verbose_name="passive radiator",
                    ),
                ),
                migrations.AddField(
                    model_name="channel",
                    name="factory_speaker",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="jobs.factorypart",
                        verbose_name="factory speaker that stays in use",
                    ),
                ),
                migrations.CreateModel(
                    name="HistoricalAmplifier",
                    fields=[
                        (
                            "part_ptr",
                            models.ForeignKey(
                                auto_created=True,
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                parent_link=True,
                                related_name="+",
                                to="jobs.part",
                            ),
                        ),
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        (
                            "stage",
                            models.CharField(
                                choices=[("D", "class D"), ("AB", "class AB")],
                                default="D",
                                max_length=2,
                                verbose_name="output stage",
                            ),
                        ),
                        (
                            "channels",
                            models.PositiveSmallIntegerField(default=2, verbose_name="channels"),
                        ),
                        (
                            "lowest_load",
                            models.FloatField(
                                blank=True, null=True, verbose_name="lowest load, one channel"
                            ),
                        ),
                        (
                            "lowest_load_bridged",
                            models.FloatField(
                                blank=True, null=True, verbose_name="lowest load, bridged"
                            ),
                        ),
                        (
                            "efficiency",
                            models.FloatField(
                                blank=True, null=True, verbose_name="efficiency at rated power"
                            ),
                        ),
                        (
                            "fuse_rating",
                            models.FloatField(
                                blank=True, null=True, verbose_name="fuse on the amplifier"
                            ),
                        ),
                        (
                            "quiescent_current",
                            models.FloatField(blank=True, null=True, verbose_name="idle current"),
                        ),
                        (
                            "minimum_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="lowest supply voltage it works at",
                            ),
                        ),
                        (
                            "turn_on_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="turn-on current"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "highest_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="highest supply voltage it stands",
                            ),
                        ),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical amplifier",
                        "verbose_name_plural": "historical amplifiers",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalConductor",
                    fields=[
                        (
                            "part_ptr",
                            models.ForeignKey(
                                auto_created=True,
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                parent_link=True,
                                related_name="+",
                                to="jobs.part",
                            ),
                        ),
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        ("size", models.CharField(max_length=16, verbose_name="size")),
                        (
                            "metal",
                            models.CharField(
                                choices=[
                                    ("copper", "copper"),
                                    (
                                        "copper_clad_aluminium_10",
                                        "copper-clad aluminium, 10 % copper",
                                    ),
                                    (
                                        "copper_clad_aluminium_15",
                                        "copper-clad aluminium, 15 % copper",
                                    ),
                                    ("aluminium", "aluminium"),
                                ],
                                default="copper",
                                max_length=26,
                                verbose_name="metal",
                            ),
                        ),
                        (
                            "insulation_temperature",
                            models.FloatField(
                                blank=True, null=True, verbose_name="insulation temperature class"
                            ),
                        ),
                        (
                            "ampacity",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="rated current from the maker's sheet",
                            ),
                        ),
                        (
                            "outer_diameter",
                            models.FloatField(blank=True, null=True, verbose_name="outer diameter"),
                        ),
                        (
                            "colour",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="colour (IEC 60757)"
                            ),
                        ),
                        (
                            "cores",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="cores under one sheath",
                            ),
                        ),
                        ("screened", models.BooleanField(default=False, verbose_name="screened")),
                        (
                            "capacitance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="capacitance per length, core to screen",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical conductor",
                        "verbose_name_plural": "historical conductors",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalCustomer",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=120, verbose_name="name")),
                        (
                            "phone",
                            models.CharField(blank=True, max_length=40, verbose_name="phone"),
                        ),
                        (
                            "email",
                            models.EmailField(blank=True, max_length=254, verbose_name="e-mail"),
                        ),
                        ("address", models.TextField(blank=True, verbose_name="address")),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "erased_at",
                            models.DateTimeField(editable=False, null=True, verbose_name="erased"),
                        ),
                        (
                            "erased_why",
                            models.CharField(
                                blank=True, editable=False, max_length=200, verbose_name="why"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "erased_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                                verbose_name="erased by",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical customer",
                        "verbose_name_plural": "historical customers",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalDamping",
                    fields=[
                        (
                            "part_ptr",
                            models.ForeignKey(
                                auto_created=True,
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                parent_link=True,
                                related_name="+",
                                to="jobs.part",
                            ),
                        ),
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        (
                            "thickness",
                            models.FloatField(blank=True, null=True, verbose_name="thickness"),
                        ),
                        (
                            "area_mass",
                            models.FloatField(blank=True, null=True, verbose_name="mass per area"),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "effect",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("layer", "constrained layer: damps a sheet of metal"),
                                    ("barrier", "barrier: heavy and limp"),
                                    ("absorber", "absorber: open pores"),
                                    ("foam", "closed-cell foam: keeps parts from rattling"),
                                ],
                                max_length=8,
                                verbose_name="what it does",
                            ),
                        ),
                        (
                            "sheet_area",
                            models.FloatField(
                                blank=True, null=True, verbose_name="area of one sheet or roll"
                            ),
                        ),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical damping",
                        "verbose_name_plural": "historical dampings",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalDriver",
                    fields=[
                        (
                            "part_ptr",
                            models.ForeignKey(
                                auto_created=True,
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                parent_link=True,
                                related_name="+",
                                to="jobs.part",
                            ),
                        ),
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        (
                            "fs",
                            models.FloatField(blank=True, null=True, verbose_name="resonance fs"),
                        ),
                        ("qts", models.FloatField(blank=True, null=True, verbose_name="Qts")),
                        ("qes", models.FloatField(blank=True, null=True, verbose_name="Qes")),
                        ("qms", models.FloatField(blank=True, null=True, verbose_name="Qms")),
                        ("vas", models.FloatField(blank=True, null=True, verbose_name="Vas")),
                        (
                            "sd",
                            models.FloatField(blank=True, null=True, verbose_name="cone area Sd"),
                        ),
                        (
                            "re",
                            models.FloatField(
                                blank=True, null=True, verbose_name="coil resistance Re, one coil"
                            ),
                        ),
                        (
                            "le",
                            models.FloatField(
                                blank=True, null=True, verbose_name="coil inductance Le, one coil"
                            ),
                        ),
                        ("mms", models.FloatField(blank=True, null=True, verbose_name="Mms")),
                        ("cms", models.FloatField(blank=True, null=True, verbose_name="Cms")),
                        (
                            "rms",
                            models.FloatField(
                                blank=True, null=True, verbose_name="mechanical loss Rms"
                            ),
                        ),
                        ("bl", models.FloatField(blank=True, null=True, verbose_name="Bl")),
                        (
                            "xmax",
                            models.FloatField(
                                blank=True,
                                db_column="linear_travel",
                                null=True,
                                verbose_name="linear travel Xmax, one way",
                            ),
                        ),
                        (
                            "power",
                            models.FloatField(
                                blank=True, null=True, verbose_name="continuous power"
                            ),
                        ),
                        (
                            "nominal_impedance",
                            models.FloatField(
                                blank=True, null=True, verbose_name="nominal impedance, one coil"
                            ),
                        ),
                        (
                            "coils",
                            models.PositiveSmallIntegerField(default=1, verbose_name="voice coils"),
                        ),
                        (
                            "outer_diameter",
                            models.FloatField(blank=True, null=True, verbose_name="outer diameter"),
                        ),
                        (
                            "cutout_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cut-out diameter"
                            ),
                        ),
                        (
                            "bolt_circle",
                            models.FloatField(blank=True, null=True, verbose_name="bolt circle"),
                        ),
                        (
                            "depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth behind the mounting face"
                            ),
                        ),
                        (
                            "magnet_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="magnet diameter"
                            ),
                        ),
                        (
                            "magnet_height",
                            models.FloatField(blank=True, null=True, verbose_name="magnet height"),
                        ),
                        (
                            "displacement",
                            models.FloatField(
                                blank=True, null=True, verbose_name="volume it takes from the box"
                            ),
                        ),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "screw_hole",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="pilot hole or hole for its insert",
                            ),
                        ),
                        (
                            "screws",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="screws"
                            ),
                        ),
                        (
                            "sensitivity",
                            models.FloatField(
                                blank=True, null=True, verbose_name="level at 2.83 V and 1 m"
                            ),
                        ),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical driver",
                        "verbose_name_plural": "historical drivers",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalFuse",
                    fields=[
                        (
                            "part_ptr",
                            models.ForeignKey(
                                auto_created=True,
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                parent_link=True,
                                related_name="+",
                                to="jobs.part",
                            ),
                        ),
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        (
                            "type",
                            models.CharField(
                                choices=[
                                    ("mini", "blade, type F (mini)"),
                                    ("blade", "blade, type C (regular)"),
                                    ("maxi", "blade, type E (maxi)"),
                                    ("sf30", "bolted strip SF30"),
                                    ("sf51", "bolted strip SF51"),
                                    ("cartridge", "cartridge"),
                                    ("breaker", "circuit breaker"),
                                ],
                                max_length=10,
                                verbose_name="type",
                            ),
                        ),
                        (
                            "rating",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.1)],
                                verbose_name="rating",
                            ),
                        ),
                        (
                            "voltage",
                            models.FloatField(blank=True, null=True, verbose_name="rated voltage"),
                        ),
                        (
                            "breaking_capacity",
                            models.FloatField(
                                blank=True, null=True, verbose_name="breaking capacity"
                            ),
                        ),
                        (
                            "curve",
                            models.JSONField(
                                blank=True, default=list, verbose_name="opening times"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "rerating",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="share of the rating lost for each degree above 25 °C",
                            ),
                        ),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical fuse",
                        "verbose_name_plural": "historical fuses",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalHolder",
                    fields=[
                        (
                            "part_ptr",
                            models.ForeignKey(
                                auto_created=True,
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                parent_link=True,
                                related_name="+",
                                to="jobs.part",
                            ),
                        ),
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        (
                            "ways",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="ways",
                            ),
                        ),
                        (
                            "rated_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current it may carry"
                            ),
                        ),
                        (
                            "largest_cable",
                            models.FloatField(
                                blank=True, null=True, verbose_name="largest cable it takes"
                            ),
                        ),
                        (
                            "stud",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="stud or screw, such as M8"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical holder",
                        "verbose_name_plural": "historical holders",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalPart",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical part",
                        "verbose_name_plural": "historical parts",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalProcessor",
                    fields=[
                        (
                            "part_ptr",
                            models.ForeignKey(
                                auto_created=True,
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                parent_link=True,
                                related_name="+",
                                to="jobs.part",
                            ),
                        ),
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        (
                            "inputs",
                            models.PositiveSmallIntegerField(default=2, verbose_name="inputs"),
                        ),
                        (
                            "outputs",
                            models.PositiveSmallIntegerField(default=2, verbose_name="outputs"),
                        ),
                        (
                            "current",
                            models.FloatField(blank=True, null=True, verbose_name="supply current"),
                        ),
                        (
                            "turn_on_limit",
                            models.FloatField(
                                blank=True, null=True, verbose_name="turn-on output can carry"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "fuse_rating",
                            models.FloatField(
                                blank=True, null=True, verbose_name="supply fuse its maker asks for"
                            ),
                        ),
                        (
                            "highest_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="highest supply voltage it stands",
                            ),
                        ),
                        (
                            "minimum_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="lowest supply voltage it works at",
                            ),
                        ),
                        (
                            "highest_input",
                            models.FloatField(
                                blank=True, null=True, verbose_name="highest signal its inputs take"
                            ),
                        ),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "device",
                            models.CharField(
                                choices=[
                                    ("processor", "processor"),
                                    ("converter", "line converter: high level in, line level out"),
                                    ("interface", "interface to the bus or fibre of the car"),
                                ],
                                default="processor",
                                max_length=12,
                                verbose_name="what it is",
                            ),
                        ),
                        (
                            "wakes_itself",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="turns itself on by the signal or the bus",
                            ),
                        ),
                        (
                            "sample_rate",
                            models.FloatField(blank=True, null=True, verbose_name="sample rate"),
                        ),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical processor",
                        "verbose_name_plural": "historical processors",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalSheetMaterial",
                    fields=[
                        (
                            "part_ptr",
                            models.ForeignKey(
                                auto_created=True,
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                parent_link=True,
                                related_name="+",
                                to="jobs.part",
                            ),
                        ),
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        ("thickness", models.FloatField(verbose_name="measured thickness")),
                        (
                            "sheet_length",
                            models.FloatField(blank=True, null=True, verbose_name="sheet length"),
                        ),
                        (
                            "sheet_width",
                            models.FloatField(blank=True, null=True, verbose_name="sheet width"),
                        ),
                        (
                            "density",
                            models.FloatField(blank=True, null=True, verbose_name="density"),
                        ),
                        (
                            "stiffness",
                            models.FloatField(
                                blank=True, null=True, verbose_name="Young's modulus"
                            ),
                        ),
                        (
                            "grained",
                            models.BooleanField(
                                default=False, verbose_name="has a grain direction"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical sheet material",
                        "verbose_name_plural": "historical sheet materials",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalTaxRate",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "percent",
                            models.DecimalField(
                                decimal_places=2,
                                max_digits=5,
                                validators=[
                                    django.core.validators.MinValueValidator(Decimal("0")),
                                    django.core.validators.MaxValueValidator(Decimal("100")),
                                ],
                                verbose_name="rate in per cent",
                            ),
                        ),
                        ("valid_from", models.DateField(verbose_name="valid from")),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical tax rate",
                        "verbose_name_plural": "historical tax rates",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalTerminal",
                    fields=[
                        (
                            "part_ptr",
                            models.ForeignKey(
                                auto_created=True,
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                parent_link=True,
                                related_name="+",
                                to="jobs.part",
                            ),
                        ),
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("driver", "driver"),
                                    ("amplifier", "amplifier"),
                                    ("processor", "processor"),
                                    ("conductor", "conductor"),
                                    ("terminal", "crimp terminal"),
                                    ("fuse", "fuse"),
                                    ("holder", "fuse holder or block"),
                                    ("sheet_material", "sheet material"),
                                    ("damping", "damping"),
                                    ("other", "other"),
                                ],
                                editable=False,
                                max_length=16,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "maker",
                            models.CharField(blank=True, max_length=60, verbose_name="maker"),
                        ),
                        ("name", models.CharField(max_length=100, verbose_name="name")),
                        (
                            "price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price",
                            ),
                        ),
                        (
                            "figures_source",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where the figures come from",
                            ),
                        ),
                        ("notes", models.TextField(blank=True, verbose_name="notes")),
                        (
                            "metals",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("copper", "copper only"),
                                    ("aluminium", "aluminium and copper-clad aluminium only"),
                                    ("both", "copper, aluminium and copper-clad aluminium"),
                                ],
                                max_length=10,
                                verbose_name="made for",
                            ),
                        ),
                        (
                            "stud",
                            models.CharField(
                                blank=True,
                                max_length=8,
                                verbose_name="stud or screw it sits on, such as M8",
                            ),
                        ),
                        (
                            "torque",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="tightening torque, from the part maker's sheet",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "largest_cable",
                            models.FloatField(
                                blank=True, null=True, verbose_name="largest cable it is made for"
                            ),
                        ),
                        (
                            "smallest_cable",
                            models.FloatField(
                                blank=True, null=True, verbose_name="smallest cable it is made for"
                            ),
                        ),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "plug",
                            models.BooleanField(
                                default=False,
                                verbose_name="a plug that comes on its lead or is soldered on: nothing is crimped",
                            ),
                        ),
                        (
                            "shelf",
                            models.CharField(
                                blank=True,
                                max_length=80,
                                verbose_name="where it lies in the workshop",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "order_number",
                            models.CharField(
                                blank=True, max_length=60, verbose_name="supplier's number"
                            ),
                        ),
                        (
                            "supplier",
                            models.CharField(blank=True, max_length=60, verbose_name="supplier"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical terminal",
                        "verbose_name_plural": "historical terminals",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalUser",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        (
                            "username",
                            models.CharField(
                                db_index=True,
                                error_messages={
                                    "unique": "A user with that username already exists."
                                },
                                help_text="Required. 150 characters or fewer. Letters, digits and @/./+/-/_ only.",
                                max_length=150,
                                validators=[
                                    django.contrib.auth.validators.UnicodeUsernameValidator()
                                ],
                                verbose_name="username",
                            ),
                        ),
                        (
                            "first_name",
                            models.CharField(blank=True, max_length=150, verbose_name="first name"),
                        ),
                        (
                            "last_name",
                            models.CharField(blank=True, max_length=150, verbose_name="last name"),
                        ),
                        (
                            "is_active",
                            models.BooleanField(
                                default=True,
                                help_text="Designates whether this user should be treated as active. Unselect this instead of deleting accounts.",
                                verbose_name="active",
                            ),
                        ),
                        ("roles", models.JSONField(blank=True, default=list, verbose_name="roles")),
                        (
                            "language",
                            models.CharField(
                                blank=True,
                                choices=[("en", "English"), ("de", "German")],
                                max_length=8,
                                verbose_name="language",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical user",
                        "verbose_name_plural": "historical users",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalVehicle",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("maker", models.CharField(max_length=60, verbose_name="maker")),
                        ("model", models.CharField(max_length=60, verbose_name="model")),
                        ("body", models.CharField(blank=True, max_length=60, verbose_name="body")),
                        (
                            "year",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="year"
                            ),
                        ),
                        (
                            "plate",
                            models.CharField(
                                blank=True, max_length=20, verbose_name="number plate"
                            ),
                        ),
                        (
                            "vin",
                            models.CharField(
                                blank=True,
                                max_length=17,
                                verbose_name="vehicle identification number",
                            ),
                        ),
                        (
                            "colour",
                            models.CharField(blank=True, max_length=40, verbose_name="colour"),
                        ),
                        (
                            "driver_side",
                            models.CharField(
                                choices=[("left", "left"), ("right", "right")],
                                max_length=5,
                                verbose_name="driver's side",
                            ),
                        ),
                        (
                            "energy",
                            models.CharField(
                                choices=[
                                    ("combustion", "combustion engine"),
                                    ("mild_hybrid", "mild hybrid (48 V)"),
                                    ("hybrid", "hybrid (high voltage)"),
                                    ("battery", "battery electric (high voltage)"),
                                ],
                                max_length=12,
                                verbose_name="energy",
                            ),
                        ),
                        (
                            "battery_place",
                            models.CharField(
                                blank=True, max_length=80, verbose_name="where the 12 V battery is"
                            ),
                        ),
                        (
                            "battery_chemistry",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("flooded", "lead-acid, flooded"),
                                    ("efb", "lead-acid, enhanced flooded"),
                                    ("agm", "lead-acid, absorbed glass mat"),
                                    ("gel", "lead-acid, gel"),
                                    ("lfp", "lithium iron phosphate"),
                                ],
                                max_length=8,
                                verbose_name="battery chemistry",
                            ),
                        ),
                        (
                            "battery_charge",
                            models.FloatField(
                                blank=True, null=True, verbose_name="battery capacity"
                            ),
                        ),
                        (
                            "battery_cca",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cold cranking current"
                            ),
                        ),
                        (
                            "charging_source",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("alternator", "alternator"),
                                    ("dc_dc", "DC-DC converter"),
                                ],
                                max_length=10,
                                verbose_name="charging source",
                            ),
                        ),
                        (
                            "charging_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rated charging current"
                            ),
                        ),
                        (
                            "charging_current_idle",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rated charging current at idle"
                            ),
                        ),
                        (
                            "charging_hot_share",
                            models.FloatField(
                                blank=True, null=True, verbose_name="share of it left when hot"
                            ),
                        ),
                        (
                            "accessory_limit",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="added load the vehicle maker allows",
                            ),
                        ),
                        (
                            "recovery_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current the batteries take after a start",
                            ),
                        ),
                        (
                            "vehicle_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current the running car takes itself",
                            ),
                        ),
                        (
                            "sleep_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="key-off current of the car alone, asleep",
                            ),
                        ),
                        (
                            "start_stop",
                            models.BooleanField(
                                blank=True, null=True, verbose_name="the engine stops by itself"
                            ),
                        ),
                        (
                            "smart_charging",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="the charging voltage is commanded (sensor on the battery)",
                            ),
                        ),
                        (
                            "cabin_volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cabin air volume"
                            ),
                        ),
                        (
                            "cabin_length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cabin length inside"
                            ),
                        ),
                        (
                            "airbag_procedure",
                            models.TextField(
                                blank=True,
                                verbose_name="airbag isolation, as the vehicle maker writes it",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "front_axle_spare",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="mass its front axle may still bear",
                            ),
                        ),
                        (
                            "payload",
                            models.FloatField(
                                blank=True, null=True, verbose_name="mass the car may still carry"
                            ),
                        ),
                        (
                            "rear_axle_spare",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="mass its rear axle may still bear",
                            ),
                        ),
                        (
                            "figures_from",
                            models.CharField(
                                blank=True,
                                editable=False,
                                max_length=12,
                                verbose_name="figures taken over from",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "customer",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.customer",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical vehicle",
                        "verbose_name_plural": "historical vehicles",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalWorkshop",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        (
                            "cutting",
                            models.CharField(
                                choices=[
                                    ("panel saw", "panel saw: cuts run from edge to edge"),
                                    ("router", "router: cuts run anywhere"),
                                ],
                                default="panel saw",
                                max_length=9,
                                verbose_name="sheets are cut with",
                            ),
                        ),
                        (
                            "kerf",
                            models.FloatField(
                                default=0.0032,
                                validators=[django.core.validators.MinValueValidator(0.0)],
                                verbose_name="width of the cut",
                            ),
                        ),
                        (
                            "sheet_trim",
                            models.FloatField(
                                default=0.01,
                                validators=[django.core.validators.MinValueValidator(0.0)],
                                verbose_name="cut off all round a sheet first",
                            ),
                        ),
                        (
                            "saw_tilt",
                            models.FloatField(
                                default=0.7853981633974483,
                                validators=[
                                    django.core.validators.MinValueValidator(0.0),
                                    django.core.validators.MaxValueValidator(1.5707963267948966),
                                ],
                                verbose_name="saw tilts from square up to",
                            ),
                        ),
                        (
                            "smallest_offcut",
                            models.FloatField(
                                default=0.1,
                                validators=[django.core.validators.MinValueValidator(0.0)],
                                verbose_name="offcuts kept from",
                            ),
                        ),
                        (
                            "name",
                            models.CharField(
                                default="Undertrim", max_length=80, verbose_name="name"
                            ),
                        ),
                        ("is_demo", models.BooleanField(default=False, editable=False)),
                        ("address", models.TextField(blank=True, verbose_name="address")),
                        (
                            "phone",
                            models.CharField(blank=True, max_length=40, verbose_name="phone"),
                        ),
                        (
                            "units",
                            models.CharField(
                                choices=[
                                    ("metric", "metric (mm, L, mm²)"),
                                    ("imperial", "imperial (in, cu ft, AWG)"),
                                ],
                                default="metric",
                                max_length=10,
                                verbose_name="units",
                            ),
                        ),
                        (
                            "paper",
                            models.CharField(
                                choices=[("a4", "A4"), ("letter", "Letter"), ("a3", "A3")],
                                default="a4",
                                max_length=10,
                                verbose_name="paper",
                            ),
                        ),
                        (
                            "currency",
                            models.CharField(default="EUR", max_length=3, verbose_name="currency"),
                        ),
                        (
                            "web_address",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="web address of this app"
                            ),
                        ),
                        (
                            "cable_slack",
                            models.FloatField(
                                default=0.1, verbose_name="added to every cable, as a share"
                            ),
                        ),
                        (
                            "cable_per_end",
                            models.FloatField(default=0.1, verbose_name="added at each end"),
                        ),
                        (
                            "heat_shrink",
                            models.FloatField(default=0.04, verbose_name="heat-shrink on each end"),
                        ),
                        (
                            "label_width",
                            models.FloatField(default=0.094, verbose_name="width of a label"),
                        ),
                        (
                            "label_height",
                            models.FloatField(default=0.029, verbose_name="height of a label"),
                        ),
                        (
                            "label_columns",
                            models.PositiveSmallIntegerField(
                                default=2, verbose_name="labels across"
                            ),
                        ),
                        (
                            "label_rows",
                            models.PositiveSmallIntegerField(default=9, verbose_name="labels down"),
                        ),
                        (
                            "label_left",
                            models.FloatField(
                                default=0.009, verbose_name="paper edge to the first label, across"
                            ),
                        ),
                        (
                            "label_top",
                            models.FloatField(
                                default=0.009, verbose_name="paper edge to the first label, down"
                            ),
                        ),
                        (
                            "label_gap",
                            models.FloatField(
                                default=0.004, verbose_name="gap between labels, across"
                            ),
                        ),
                        (
                            "label_row_gap",
                            models.FloatField(default=0.0, verbose_name="gap between labels, down"),
                        ),
                        (
                            "label_wrap",
                            models.FloatField(
                                default=0.014, verbose_name="left blank to go round the cable"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "router_relief",
                            models.BooleanField(
                                default=False, verbose_name="inside corners drilled out"
                            ),
                        ),
                        (
                            "router_tab",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="width of a tab that holds a part",
                            ),
                        ),
                        (
                            "router_tabs",
                            models.PositiveSmallIntegerField(
                                default=4, verbose_name="tabs to a part"
                            ),
                        ),
                        (
                            "router_tool",
                            models.FloatField(
                                blank=True, null=True, verbose_name="diameter of the router's tool"
                            ),
                        ),
                        (
                            "covering_cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="covering costs the workshop, by the square metre",
                            ),
                        ),
                        (
                            "covering_price",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="covering, by the square metre",
                            ),
                        ),
                        (
                            "hour_cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour costs the workshop",
                            ),
                        ),
                        (
                            "minutes_channel",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="to set up one channel"
                            ),
                        ),
                        (
                            "minutes_cut",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="to cut one part"
                            ),
                        ),
                        (
                            "minutes_glue",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="to glue one joint"
                            ),
                        ),
                        (
                            "minutes_panel",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                verbose_name="to take one panel off and put it back",
                            ),
                        ),
                        (
                            "minutes_run",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                verbose_name="to lay one run and make its ends",
                            ),
                        ),
                        (
                            "rate_car",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour on the car",
                            ),
                        ),
                        (
                            "rate_covering",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour of covering",
                            ),
                        ),
                        (
                            "rate_desk",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour of planning",
                            ),
                        ),
                        (
                            "rate_set_up",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour of setting up",
                            ),
                        ),
                        (
                            "rate_wiring",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour of wiring",
                            ),
                        ),
                        (
                            "rate_wood",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="an hour in the wood shop",
                            ),
                        ),
                        (
                            "usual_deposit",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=5,
                                null=True,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(100),
                                ],
                                verbose_name="usual deposit in per cent of the total",
                            ),
                        ),
                        (
                            "valid_days",
                            models.PositiveSmallIntegerField(
                                default=30,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="days an offer holds",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical workshop",
                        "verbose_name_plural": "historical workshops",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="InnerBrace",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("position", models.PositiveSmallIntegerField(editable=False)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("shelf", "shelf"),
                                    ("upright", "upright"),
                                    ("plate", "plate"),
                                    ("strut across", "strut across"),
                                    ("strut along", "strut along"),
                                    ("strut up", "strut up"),
                                ],
                                max_length=12,
                                verbose_name="kind",
                            ),
                        ),
                        ("at", models.FloatField(verbose_name="at")),
                        ("second", models.FloatField(blank=True, null=True, verbose_name="and at")),
                        (
                            "breadth",
                            models.FloatField(blank=True, null=True, verbose_name="breadth"),
                        ),
                        ("open", models.FloatField(default=0.0, verbose_name="share cut out")),
                        (
                            "box",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="braces",
                                to="jobs.box",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["position", "pk"],
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Job",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "number",
                            models.PositiveIntegerField(
                                editable=False, unique=True, verbose_name="number"
                            ),
                        ),
                        (
                            "stage",
                            models.CharField(
                                choices=[
                                    ("enquiry", "enquiry"),
                                    ("brief", "brief"),
                                    ("spec", "spec"),
                                    ("agreed", "agreed"),
                                    ("parts", "parts"),
                                    ("bay", "in the bay"),
                                    ("set_up", "set up"),
                                    ("handed_over", "handed over"),
                                    ("aftercare", "aftercare"),
                                ],
                                default="enquiry",
                                max_length=12,
                                verbose_name="stage",
                            ),
                        ),
                        ("title", models.CharField(max_length=120, verbose_name="in one line")),
                        ("created_at", models.DateTimeField(auto_now_add=True)),
                        (
                            "promised_on",
                            models.DateField(blank=True, null=True, verbose_name="promised for"),
                        ),
                        (
                            "wishes",
                            models.TextField(
                                blank=True, verbose_name="what the customer wants, in their words"
                            ),
                        ),
                        (
                            "listening",
                            models.TextField(
                                blank=True,
                                verbose_name="what they listen to, how loud, on which seat",
                            ),
                        ),
                        (
                            "programme",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("compressed", "loud and dense, peaks just clip"),
                                    ("music", "usual music, peaks just clip"),
                                    ("quiet", "speech or quiet listening"),
                                ],
                                max_length=10,
                                verbose_name="what is usually played",
                            ),
                        ),
                        (
                            "reserve_wanted",
                            models.FloatField(
                                blank=True, null=True, verbose_name="to play with the engine off"
                            ),
                        ),
                        (
                            "looks",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("hidden", "hidden"),
                                    ("discreet", "discreet"),
                                    ("on_show", "on show"),
                                ],
                                max_length=10,
                                verbose_name="looks",
                            ),
                        ),
                        (
                            "space_to_keep",
                            models.TextField(blank=True, verbose_name="space to keep"),
                        ),
                        (
                            "must_stay_factory",
                            models.TextField(blank=True, verbose_name="what must stay factory"),
                        ),
                        (
                            "budget",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="budget",
                            ),
                        ),
                        ("open_stops", models.PositiveSmallIntegerField(editable=False, null=True)),
                        ("open_looks", models.PositiveSmallIntegerField(editable=False, null=True)),
                        (
                            "care_notes",
                            models.TextField(blank=True, verbose_name="care, for the customer"),
                        ),
                        (
                            "calls_heard",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="a hands-free call must be heard over the music",
                            ),
                        ),
                        ("edition", models.PositiveIntegerField(default=0, editable=False)),
                        (
                            "halt",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("on_hold", "on hold"),
                                    ("lost", "lost"),
                                    ("cancelled", "cancelled"),
                                ],
                                max_length=9,
                                verbose_name="does not go on",
                            ),
                        ),
                        (
                            "halt_why",
                            models.CharField(
                                blank=True, max_length=240, verbose_name="why it does not"
                            ),
                        ),
                        (
                            "look_again_on",
                            models.DateField(blank=True, null=True, verbose_name="look again on"),
                        ),
                        (
                            "deposit",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=5,
                                null=True,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(100),
                                ],
                                verbose_name="deposit in per cent of the total",
                            ),
                        ),
                        (
                            "discount",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=5,
                                null=True,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(100),
                                ],
                                verbose_name="discount in per cent",
                            ),
                        ),
                        (
                            "consultant",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="jobs",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["-number"],
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="ItemAsBuilt",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "reason",
                            models.CharField(
                                max_length=240, verbose_name="why it was done differently"
                            ),
                        ),
                        ("done_at", models.DateTimeField()),
                        (
                            "serial",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="serial number"
                            ),
                        ),
                        ("place", models.CharField(max_length=80, verbose_name="place")),
                        (
                            "done_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "item",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="equipment",
                            ),
                        ),
                        (
                            "part",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="fitted_instead",
                                to="jobs.part",
                                verbose_name="part",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "equipment as built",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="IssuedSheet",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("build", "build sheet"),
                                    ("panels", "panel record"),
                                    ("handover", "hand-over"),
                                    ("cut", "cut sheet"),
                                    ("templates", "paper templates"),
                                    ("cables", "cable sheet"),
                                    ("labels", "cable labels"),
                                    ("compare", "boxes side by side"),
                                    ("spec", "spec and price"),
                                    ("setup", "set-up sheet"),
                                    ("options", "options side by side"),
                                ],
                                max_length=10,
                            ),
                        ),
                        ("revision", models.PositiveSmallIntegerField()),
                        ("paper", models.CharField(max_length=10)),
                        ("language", models.CharField(max_length=5)),
                        ("data", models.JSONField()),
                        ("pdf", models.BinaryField()),
                        ("sha256", models.CharField(max_length=64)),
                        ("issued_at", models.DateTimeField()),
                        ("fingerprint", models.CharField(blank=True, max_length=64)),
                        ("erased_at", models.DateTimeField(null=True)),
                        (
                            "issued_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="issued_sheets",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["-issued_at", "-pk"],
                    },
                ),
                migrations.CreateModel(
                    name="HistoricalWorkTime",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("wood", "wood shop"),
                                    ("covering", "covering"),
                                    ("wiring", "wiring"),
                                    ("car", "on the car"),
                                    ("set_up", "setting up"),
                                    ("desk", "planning"),
                                ],
                                default="car",
                                max_length=8,
                                verbose_name="kind of work",
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="minutes",
                            ),
                        ),
                        (
                            "worked_on",
                            models.DateField(
                                default=django.utils.timezone.localdate, verbose_name="on"
                            ),
                        ),
                        (
                            "text",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="what was done"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical time worked",
                        "verbose_name_plural": "historical time workeds",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalStageRelease",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("left_open", models.JSONField(default=dict)),
                        (
                            "reason",
                            models.CharField(
                                max_length=240, verbose_name="reason, which is printed"
                            ),
                        ),
                        ("released_at", models.DateTimeField()),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "stage",
                            models.CharField(
                                choices=[
                                    ("enquiry", "enquiry"),
                                    ("brief", "brief"),
                                    ("spec", "spec"),
                                    ("agreed", "agreed"),
                                    ("parts", "parts"),
                                    ("bay", "in the bay"),
                                    ("set_up", "set up"),
                                    ("handed_over", "handed over"),
                                    ("aftercare", "aftercare"),
                                ],
                                default="handed_over",
                                max_length=12,
                                verbose_name="to",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "released_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical stage released",
                        "verbose_name_plural": "historical stage releaseds",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalPriceLine",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("thing", "a thing"),
                                    ("wood", "wood shop"),
                                    ("covering", "covering"),
                                    ("wiring", "wiring"),
                                    ("car", "on the car"),
                                    ("set_up", "setting up"),
                                    ("desk", "planning"),
                                ],
                                default="thing",
                                max_length=8,
                                verbose_name="kind",
                            ),
                        ),
                        ("text", models.CharField(max_length=120, verbose_name="what it is")),
                        (
                            "quantity",
                            models.DecimalField(
                                decimal_places=2,
                                default=Decimal("1"),
                                max_digits=7,
                                validators=[
                                    django.core.validators.MinValueValidator(Decimal("0.01"))
                                ],
                                verbose_name="quantity",
                            ),
                        ),
                        (
                            "each",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price of one",
                            ),
                        ),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="one costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="minutes"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical line of the price",
                        "verbose_name_plural": "historical line of the prices",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalPowerNode",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("battery", "battery"),
                                    ("dc_dc", "DC-DC converter"),
                                    ("alternator", "alternator"),
                                    ("capacitor", "capacitor bank"),
                                    ("switch", "switch"),
                                    ("relay", "charge relay"),
                                    ("diode", "isolator with diodes"),
                                    ("block", "distribution block"),
                                    ("amplifier", "amplifier"),
                                    ("load", "other load"),
                                ],
                                max_length=10,
                                verbose_name="kind",
                            ),
                        ),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        (
                            "voltage",
                            models.FloatField(
                                blank=True, null=True, verbose_name="open-circuit voltage"
                            ),
                        ),
                        (
                            "internal_resistance",
                            models.FloatField(
                                blank=True, null=True, verbose_name="internal resistance"
                            ),
                        ),
                        (
                            "cca",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cold cranking current"
                            ),
                        ),
                        (
                            "charge",
                            models.FloatField(blank=True, null=True, verbose_name="capacity"),
                        ),
                        (
                            "rated_time",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="discharge time the capacity is rated for",
                            ),
                        ),
                        (
                            "peukert",
                            models.FloatField(
                                blank=True, null=True, verbose_name="Peukert exponent"
                            ),
                        ),
                        (
                            "usable_share",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="share of the capacity that may be used",
                            ),
                        ),
                        (
                            "current_limit",
                            models.FloatField(
                                blank=True, null=True, verbose_name="output current limit"
                            ),
                        ),
                        (
                            "capacitance",
                            models.FloatField(blank=True, null=True, verbose_name="capacitance"),
                        ),
                        (
                            "current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current it takes"
                            ),
                        ),
                        (
                            "standby_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current it takes asleep, key off",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "coil_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current of its coil"
                            ),
                        ),
                        (
                            "coil_diode",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="its coil has a diode or a resistor",
                            ),
                        ),
                        (
                            "flat_voltage",
                            models.FloatField(
                                blank=True, null=True, verbose_name="open-circuit voltage when flat"
                            ),
                        ),
                        (
                            "fuse_rating",
                            models.FloatField(
                                blank=True, null=True, verbose_name="supply fuse its maker asks for"
                            ),
                        ),
                        (
                            "highest_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="highest supply voltage it stands",
                            ),
                        ),
                        (
                            "rated_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current it may carry, by its maker",
                            ),
                        ),
                        (
                            "starting_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current the starter takes"
                            ),
                        ),
                        (
                            "side",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("left", "left"),
                                    ("middle", "in the middle"),
                                    ("right", "right"),
                                ],
                                max_length=6,
                                verbose_name="side of the car",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "equipment",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="equipment",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical power node",
                        "verbose_name_plural": "historical power nodes",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalPayment",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("deposit", "deposit"),
                                    ("balance", "balance"),
                                    ("back", "paid back"),
                                ],
                                default="deposit",
                                max_length=8,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "amount",
                            models.DecimalField(
                                decimal_places=2,
                                max_digits=10,
                                validators=[
                                    django.core.validators.MinValueValidator(Decimal("0.01"))
                                ],
                                verbose_name="amount",
                            ),
                        ),
                        (
                            "received_on",
                            models.DateField(
                                default=django.utils.timezone.localdate, verbose_name="on"
                            ),
                        ),
                        (
                            "note",
                            models.CharField(
                                blank=True,
                                max_length=120,
                                verbose_name="how, or its number in the books",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical payment",
                        "verbose_name_plural": "historical payments",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalPanel",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        ("name", models.CharField(max_length=80, verbose_name="name")),
                        ("removal", models.TextField(blank=True, verbose_name="how it comes off")),
                        (
                            "fixings",
                            models.CharField(blank=True, max_length=160, verbose_name="fixings"),
                        ),
                        (
                            "airbag_near",
                            models.BooleanField(
                                blank=True, null=True, verbose_name="airbag or its wiring behind it"
                            ),
                        ),
                        (
                            "drilled",
                            models.BooleanField(
                                default=False, verbose_name="something is drilled here"
                            ),
                        ),
                        (
                            "damping_note",
                            models.CharField(
                                blank=True, max_length=160, verbose_name="damping fitted"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "token",
                            models.CharField(
                                db_index=True, editable=False, max_length=22, null=True
                            ),
                        ),
                        ("empty_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "side",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("left", "left"),
                                    ("middle", "in the middle"),
                                    ("right", "right"),
                                ],
                                max_length=6,
                                verbose_name="side of the car",
                            ),
                        ),
                        (
                            "rattle_note",
                            models.CharField(
                                blank=True, max_length=160, verbose_name="against rattling"
                            ),
                        ),
                        (
                            "empty_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "learnt_from",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical panel",
                        "verbose_name_plural": "historical panels",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalItemAsBuilt",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "reason",
                            models.CharField(
                                max_length=240, verbose_name="why it was done differently"
                            ),
                        ),
                        ("done_at", models.DateTimeField()),
                        (
                            "serial",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="serial number"
                            ),
                        ),
                        ("place", models.CharField(max_length=80, verbose_name="place")),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "done_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "item",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="equipment",
                            ),
                        ),
                        (
                            "part",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.part",
                                verbose_name="part",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical equipment as built",
                        "verbose_name_plural": "historical equipment as builts",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalGateSign",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("code", models.CharField(max_length=40)),
                        ("subject", models.CharField(blank=True, max_length=120)),
                        ("signed_at", models.DateTimeField()),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "signed_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical check before hand-over",
                        "verbose_name_plural": "historical check before hand-overs",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalFactoryPart",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("speaker", "speaker"),
                                    ("amplifier", "amplifier"),
                                    ("head_unit", "head unit"),
                                    ("connector", "connector"),
                                    ("other", "other part"),
                                ],
                                max_length=10,
                                verbose_name="kind",
                            ),
                        ),
                        ("place", models.CharField(max_length=80, verbose_name="place")),
                        (
                            "description",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="description"
                            ),
                        ),
                        (
                            "fate",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("in_use", "stays in use"),
                                    ("unplugged", "stays in place, unplugged and insulated"),
                                    ("removed", "removed and kept"),
                                    ("replaced", "replaced"),
                                ],
                                max_length=10,
                                verbose_name="fate",
                            ),
                        ),
                        (
                            "kept_where",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where it is kept, or how it goes back",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("mass", models.FloatField(blank=True, null=True, verbose_name="mass")),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical factory part",
                        "verbose_name_plural": "historical factory parts",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalFactoryAsBuilt",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "reason",
                            models.CharField(
                                max_length=240, verbose_name="why it was done differently"
                            ),
                        ),
                        ("done_at", models.DateTimeField()),
                        (
                            "fate",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("in_use", "stays in use"),
                                    ("unplugged", "stays in place, unplugged and insulated"),
                                    ("removed", "removed and kept"),
                                    ("replaced", "replaced"),
                                ],
                                max_length=10,
                                verbose_name="fate",
                            ),
                        ),
                        (
                            "kept_where",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where it is kept, or how it goes back",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "done_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "factory_part",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.factorypart",
                                verbose_name="factory part",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical factory part as built",
                        "verbose_name_plural": "historical factory part as builts",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalEquipmentItem",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("place", models.CharField(max_length=80, verbose_name="place")),
                        (
                            "quantity",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="quantity",
                            ),
                        ),
                        (
                            "serial",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="serial number"
                            ),
                        ),
                        (
                            "state",
                            models.CharField(
                                choices=[
                                    ("to_order", "to order"),
                                    ("ordered", "ordered"),
                                    ("in", "in"),
                                    ("fitted", "fitted"),
                                    ("missing", "missing"),
                                ],
                                default="to_order",
                                max_length=10,
                                verbose_name="state",
                            ),
                        ),
                        (
                            "ventilated",
                            models.BooleanField(
                                blank=True, null=True, verbose_name="air can move around it"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "private",
                            models.BooleanField(
                                default=False,
                                verbose_name="private: behind the code only “ask the workshop”",
                            ),
                        ),
                        (
                            "held_by",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "nobody has said yet"),
                                    ("makers", "at the vehicle maker's own points"),
                                    ("brackets", "by brackets bolted into body metal"),
                                    ("inserts", "by bolts through inserts into body metal"),
                                    ("carried", "on a box, board or floor that is held itself"),
                                    ("loose", "by nothing: it stands loose"),
                                ],
                                default="",
                                max_length=8,
                                verbose_name="held in the car",
                            ),
                        ),
                        (
                            "held_into",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="into what, with what"
                            ),
                        ),
                        (
                            "expected_on",
                            models.DateField(blank=True, null=True, verbose_name="expected on"),
                        ),
                        (
                            "shelf",
                            models.CharField(blank=True, max_length=40, verbose_name="shelf"),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "part",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.part",
                                verbose_name="part",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical equipment",
                        "verbose_name_plural": "historical equipments",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalDriverSweep",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "specimen",
                            models.CharField(
                                blank=True,
                                max_length=60,
                                verbose_name="which one (serial number, side)",
                            ),
                        ),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        (
                            "coils",
                            models.CharField(
                                choices=[
                                    ("series", "both, in series"),
                                    ("parallel", "both, in parallel"),
                                ],
                                default="series",
                                max_length=8,
                                verbose_name="coils of a two-coil driver",
                            ),
                        ),
                        (
                            "resistance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="resistance by a meter, as connected",
                            ),
                        ),
                        (
                            "content",
                            models.TextField(
                                verbose_name="sweep in free air: frequency, ohms, phase in degrees"
                            ),
                        ),
                        (
                            "method",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("mass", "known mass added to the cone"),
                                    ("volume", "sealed box of known volume"),
                                ],
                                max_length=6,
                                verbose_name="second sweep",
                            ),
                        ),
                        (
                            "added_mass",
                            models.FloatField(blank=True, null=True, verbose_name="mass added"),
                        ),
                        (
                            "box_volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="net volume of the test box"
                            ),
                        ),
                        (
                            "second",
                            models.TextField(
                                blank=True,
                                verbose_name="second sweep: frequency, ohms, phase in degrees",
                            ),
                        ),
                        (
                            "in_use",
                            models.BooleanField(
                                default=False,
                                verbose_name="work out this job's boxes with these figures instead of the catalogue's",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "item",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="driver",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical measured driver",
                        "verbose_name_plural": "historical measured drivers",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalDesignOption",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=40, verbose_name="name")),
                        (
                            "text",
                            models.TextField(
                                blank=True, verbose_name="what it is, for the customer"
                            ),
                        ),
                        (
                            "kept_at",
                            models.DateTimeField(blank=True, editable=False, verbose_name="kept"),
                        ),
                        ("fingerprint", models.CharField(editable=False, max_length=64)),
                        (
                            "chosen_at",
                            models.DateTimeField(editable=False, null=True, verbose_name="chosen"),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical option",
                        "verbose_name_plural": "historical options",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalDecision",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("code", models.CharField(max_length=60)),
                        ("where", models.TextField()),
                        ("fingerprint", models.CharField(max_length=64)),
                        ("said", models.TextField()),
                        ("severity", models.CharField(max_length=4)),
                        ("reason", models.TextField(verbose_name="reason")),
                        ("name", models.CharField(max_length=150)),
                        ("decided_at", models.DateTimeField(blank=True, editable=False)),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("about_detail", models.TextField(blank=True)),
                        ("about_key", models.CharField(blank=True, max_length=20)),
                        ("about_kind", models.CharField(blank=True, max_length=40)),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "decided_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical decision",
                        "verbose_name_plural": "historical decisions",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalChannelCurve",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "place",
                            models.CharField(
                                max_length=80, verbose_name="seat, and where the microphone stood"
                            ),
                        ),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        (
                            "microphone",
                            models.CharField(blank=True, max_length=80, verbose_name="microphone"),
                        ),
                        (
                            "calibration",
                            models.TextField(
                                blank=True, verbose_name="its calibration: frequency, dB"
                            ),
                        ),
                        (
                            "content",
                            models.TextField(
                                blank=True,
                                verbose_name="curve: frequency, level in dB, phase in degrees",
                            ),
                        ),
                        ("recorded", models.BooleanField(default=False, editable=False)),
                        (
                            "delay",
                            models.FloatField(
                                blank=True, null=True, verbose_name="delay against the mark"
                            ),
                        ),
                        (
                            "delay_within",
                            models.FloatField(
                                blank=True, null=True, verbose_name="how far it may be off"
                            ),
                        ),
                        (
                            "inverted",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="polarity turned against the mark",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "channel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.channel",
                                verbose_name="channel; empty: all together",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical measured channel",
                        "verbose_name_plural": "historical measured channels",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalChannel",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        ("source", models.CharField(max_length=80, verbose_name="source")),
                        (
                            "processor_output",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="processor output",
                            ),
                        ),
                        (
                            "amplifier_channel",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="amplifier channel",
                            ),
                        ),
                        (
                            "bridged",
                            models.BooleanField(
                                default=False, verbose_name="bridged with the next channel"
                            ),
                        ),
                        (
                            "speaker_count",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many on this channel",
                            ),
                        ),
                        (
                            "connection",
                            models.CharField(
                                choices=[("parallel", "parallel"), ("series", "series")],
                                default="parallel",
                                max_length=8,
                                verbose_name="speakers connected in",
                            ),
                        ),
                        (
                            "coil_connection",
                            models.CharField(
                                choices=[("parallel", "parallel"), ("series", "series")],
                                default="parallel",
                                max_length=8,
                                verbose_name="coils of one speaker in",
                            ),
                        ),
                        (
                            "highpass_frequency",
                            models.FloatField(blank=True, null=True, verbose_name="high-pass"),
                        ),
                        (
                            "highpass_shape",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("bw6", "Butterworth 6 dB/oct"),
                                    ("bw12", "Butterworth 12 dB/oct"),
                                    ("bw18", "Butterworth 18 dB/oct"),
                                    ("bw24", "Butterworth 24 dB/oct"),
                                    ("lr12", "Linkwitz–Riley 12 dB/oct"),
                                    ("lr24", "Linkwitz–Riley 24 dB/oct"),
                                    ("lr48", "Linkwitz–Riley 48 dB/oct"),
                                    ("be12", "Bessel 12 dB/oct, −3 dB at the corner"),
                                    ("be24", "Bessel 24 dB/oct, −3 dB at the corner"),
                                    ("be12p", "Bessel 12 dB/oct, corner by phase"),
                                    ("be24p", "Bessel 24 dB/oct, corner by phase"),
                                    ("be12d", "Bessel 12 dB/oct, corner by delay"),
                                    ("be24d", "Bessel 24 dB/oct, corner by delay"),
                                ],
                                max_length=5,
                                verbose_name="high-pass shape",
                            ),
                        ),
                        (
                            "lowpass_frequency",
                            models.FloatField(blank=True, null=True, verbose_name="low-pass"),
                        ),
                        (
                            "lowpass_shape",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("bw6", "Butterworth 6 dB/oct"),
                                    ("bw12", "Butterworth 12 dB/oct"),
                                    ("bw18", "Butterworth 18 dB/oct"),
                                    ("bw24", "Butterworth 24 dB/oct"),
                                    ("lr12", "Linkwitz–Riley 12 dB/oct"),
                                    ("lr24", "Linkwitz–Riley 24 dB/oct"),
                                    ("lr48", "Linkwitz–Riley 48 dB/oct"),
                                    ("be12", "Bessel 12 dB/oct, −3 dB at the corner"),
                                    ("be24", "Bessel 24 dB/oct, −3 dB at the corner"),
                                    ("be12p", "Bessel 12 dB/oct, corner by phase"),
                                    ("be24p", "Bessel 24 dB/oct, corner by phase"),
                                    ("be12d", "Bessel 12 dB/oct, corner by delay"),
                                    ("be24d", "Bessel 24 dB/oct, corner by delay"),
                                ],
                                max_length=5,
                                verbose_name="low-pass shape",
                            ),
                        ),
                        ("level", models.FloatField(default=0.0, verbose_name="level")),
                        (
                            "delay",
                            models.FloatField(
                                default=0.0,
                                validators=[django.core.validators.MinValueValidator(0.0)],
                                verbose_name="delay",
                            ),
                        ),
                        (
                            "inverted",
                            models.BooleanField(default=False, verbose_name="polarity inverted"),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="distance to the listener's head",
                            ),
                        ),
                        (
                            "side",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("both", "both sides"),
                                ],
                                max_length=5,
                                verbose_name="side it plays",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "amplifier",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="amplifier",
                            ),
                        ),
                        (
                            "factory_speaker",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.factorypart",
                                verbose_name="factory speaker that stays in use",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "processor",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="processor",
                            ),
                        ),
                        (
                            "speaker",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="speaker",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical channel",
                        "verbose_name_plural": "historical channels",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalCarAnswer",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("code", models.CharField(max_length=40)),
                        (
                            "text",
                            models.TextField(blank=True, verbose_name="what was read or done"),
                        ),
                        ("written_at", models.DateTimeField()),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "report",
                            models.TextField(
                                blank=True, max_length=100, verbose_name="file of the tester"
                            ),
                        ),
                        (
                            "report_name",
                            models.CharField(
                                blank=True, max_length=100, verbose_name="name of that file"
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "written_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical electronics of the car",
                        "verbose_name_plural": "historical electronics of the cars",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalCabinCurve",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "place",
                            models.CharField(
                                max_length=120,
                                verbose_name="where the box and the microphone stood",
                            ),
                        ),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        (
                            "content",
                            models.TextField(
                                verbose_name="curve: frequency, gain in dB, phase in degrees"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical transfer curve",
                        "verbose_name_plural": "historical transfer curves",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalBoxSweep",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        (
                            "content",
                            models.TextField(
                                verbose_name="sweep of the box: frequency, ohms, phase in degrees"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.box",
                                verbose_name="box",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical sweep of a finished box",
                        "verbose_name_plural": "historical sweep of a finished boxs",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalBoxAsBuilt",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        ("width", models.FloatField(blank=True, null=True, verbose_name="width")),
                        ("height", models.FloatField(blank=True, null=True, verbose_name="height")),
                        (
                            "depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth at the bottom"
                            ),
                        ),
                        (
                            "top_depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth at the top"
                            ),
                        ),
                        (
                            "thickness",
                            models.FloatField(
                                blank=True, null=True, verbose_name="thickness of its wood"
                            ),
                        ),
                        (
                            "volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="net litres, by filling it"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.box",
                                verbose_name="box",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical box as built",
                        "verbose_name_plural": "historical box as builts",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="GateSign",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("code", models.CharField(max_length=40)),
                        ("subject", models.CharField(blank=True, max_length=120)),
                        ("signed_at", models.DateTimeField()),
                        (
                            "signed_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "check before hand-over",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="Fixing",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "name",
                            models.CharField(max_length=80, verbose_name="clip, screw or nut"),
                        ),
                        (
                            "part_number",
                            models.CharField(
                                blank=True,
                                max_length=40,
                                verbose_name="part number, from the vehicle maker",
                            ),
                        ),
                        (
                            "quantity",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="where, if it is hidden"
                            ),
                        ),
                        (
                            "breaks",
                            models.BooleanField(
                                default=False, verbose_name="breaks easily: have spares"
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "fixing",
                        "ordering": ["panel__position", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.AddField(
                    model_name="factorypart",
                    name="job",
                    field=models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="factory_parts",
                        to="jobs.job",
                    ),
                ),
                migrations.CreateModel(
                    name="FactoryAsBuilt",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "reason",
                            models.CharField(
                                max_length=240, verbose_name="why it was done differently"
                            ),
                        ),
                        ("done_at", models.DateTimeField()),
                        (
                            "fate",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("in_use", "stays in use"),
                                    ("unplugged", "stays in place, unplugged and insulated"),
                                    ("removed", "removed and kept"),
                                    ("replaced", "replaced"),
                                ],
                                max_length=10,
                                verbose_name="fate",
                            ),
                        ),
                        (
                            "kept_where",
                            models.CharField(
                                blank=True,
                                max_length=160,
                                verbose_name="where it is kept, or how it goes back",
                            ),
                        ),
                        (
                            "done_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "factory_part",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.factorypart",
                                verbose_name="factory part",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "factory part as built",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.AddField(
                    model_name="equipmentitem",
                    name="job",
                    field=models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="%(class)ss",
                        to="jobs.job",
                    ),
                ),
                migrations.CreateModel(
                    name="DriverSweep",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "specimen",
                            models.CharField(
                                blank=True,
                                max_length=60,
                                verbose_name="which one (serial number, side)",
                            ),
                        ),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        (
                            "coils",
                            models.CharField(
                                choices=[
                                    ("series", "both, in series"),
                                    ("parallel", "both, in parallel"),
                                ],
                                default="series",
                                max_length=8,
                                verbose_name="coils of a two-coil driver",
                            ),
                        ),
                        (
                            "resistance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="resistance by a meter, as connected",
                            ),
                        ),
                        (
                            "content",
                            models.TextField(
                                verbose_name="sweep in free air: frequency, ohms, phase in degrees"
                            ),
                        ),
                        (
                            "method",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("mass", "known mass added to the cone"),
                                    ("volume", "sealed box of known volume"),
                                ],
                                max_length=6,
                                verbose_name="second sweep",
                            ),
                        ),
                        (
                            "added_mass",
                            models.FloatField(blank=True, null=True, verbose_name="mass added"),
                        ),
                        (
                            "box_volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="net volume of the test box"
                            ),
                        ),
                        (
                            "second",
                            models.TextField(
                                blank=True,
                                verbose_name="second sweep: frequency, ohms, phase in degrees",
                            ),
                        ),
                        (
                            "in_use",
                            models.BooleanField(
                                default=False,
                                verbose_name="work out this job's boxes with these figures instead of the catalogue's",
                            ),
                        ),
                        (
                            "item",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="sweeps",
                                to="jobs.equipmentitem",
                                verbose_name="driver",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "measured driver",
                        "ordering": ["item", "-measured_on", "-pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="DesignOption",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=40, verbose_name="name")),
                        (
                            "text",
                            models.TextField(
                                blank=True, verbose_name="what it is, for the customer"
                            ),
                        ),
                        ("kept_at", models.DateTimeField(auto_now_add=True, verbose_name="kept")),
                        ("fingerprint", models.CharField(editable=False, max_length=64)),
                        (
                            "chosen_at",
                            models.DateTimeField(editable=False, null=True, verbose_name="chosen"),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="options",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "option",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="Decision",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("code", models.CharField(max_length=60)),
                        ("where", models.TextField()),
                        ("fingerprint", models.CharField(max_length=64)),
                        ("said", models.TextField()),
                        ("severity", models.CharField(max_length=4)),
                        ("reason", models.TextField(verbose_name="reason")),
                        ("name", models.CharField(max_length=150)),
                        ("decided_at", models.DateTimeField(auto_now_add=True)),
                        ("about_detail", models.TextField(blank=True)),
                        ("about_key", models.CharField(blank=True, max_length=20)),
                        ("about_kind", models.CharField(blank=True, max_length=40)),
                        (
                            "decided_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="ChannelCurve",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "place",
                            models.CharField(
                                max_length=80, verbose_name="seat, and where the microphone stood"
                            ),
                        ),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        (
                            "microphone",
                            models.CharField(blank=True, max_length=80, verbose_name="microphone"),
                        ),
                        (
                            "calibration",
                            models.TextField(
                                blank=True, verbose_name="its calibration: frequency, dB"
                            ),
                        ),
                        (
                            "content",
                            models.TextField(
                                blank=True,
                                verbose_name="curve: frequency, level in dB, phase in degrees",
                            ),
                        ),
                        ("recorded", models.BooleanField(default=False, editable=False)),
                        (
                            "delay",
                            models.FloatField(
                                blank=True, null=True, verbose_name="delay against the mark"
                            ),
                        ),
                        (
                            "delay_within",
                            models.FloatField(
                                blank=True, null=True, verbose_name="how far it may be off"
                            ),
                        ),
                        (
                            "inverted",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="polarity turned against the mark",
                            ),
                        ),
                        (
                            "channel",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="curves",
                                to="jobs.channel",
                                verbose_name="channel; empty: all together",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "measured channel",
                        "ordering": ["place", "channel", "-measured_on", "-pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.AddField(
                    model_name="channel",
                    name="job",
                    field=models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="%(class)ss",
                        to="jobs.job",
                    ),
                ),
                migrations.CreateModel(
                    name="CarAnswer",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("code", models.CharField(max_length=40)),
                        (
                            "text",
                            models.TextField(blank=True, verbose_name="what was read or done"),
                        ),
                        ("written_at", models.DateTimeField()),
                        (
                            "report",
                            models.FileField(
                                blank=True,
                                upload_to=jobs.models.bay.report_path,
                                verbose_name="file of the tester",
                            ),
                        ),
                        (
                            "report_name",
                            models.CharField(
                                blank=True, max_length=100, verbose_name="name of that file"
                            ),
                        ),
                        (
                            "written_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "electronics of the car",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="CabinCurve",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "place",
                            models.CharField(
                                max_length=120,
                                verbose_name="where the box and the microphone stood",
                            ),
                        ),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        (
                            "content",
                            models.TextField(
                                verbose_name="curve: frequency, gain in dB, phase in degrees"
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "transfer curve",
                        "ordering": ["-measured_on", "-pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="BoxSweep",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        (
                            "content",
                            models.TextField(
                                verbose_name="sweep of the box: frequency, ohms, phase in degrees"
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="sweeps",
                                to="jobs.box",
                                verbose_name="box",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "sweep of a finished box",
                        "ordering": ["box", "-measured_on", "-pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="BoxAsBuilt",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("measured_on", models.DateField(verbose_name="measured on")),
                        (
                            "measured_by",
                            models.CharField(max_length=80, verbose_name="measured by"),
                        ),
                        ("width", models.FloatField(blank=True, null=True, verbose_name="width")),
                        ("height", models.FloatField(blank=True, null=True, verbose_name="height")),
                        (
                            "depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth at the bottom"
                            ),
                        ),
                        (
                            "top_depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth at the top"
                            ),
                        ),
                        (
                            "thickness",
                            models.FloatField(
                                blank=True, null=True, verbose_name="thickness of its wood"
                            ),
                        ),
                        (
                            "volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="net litres, by filling it"
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="built",
                                to="jobs.box",
                                verbose_name="box",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "box as built",
                        "ordering": ["box", "-measured_on", "-pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.AddField(
                    model_name="box",
                    name="job",
                    field=models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="boxes",
                        to="jobs.job",
                    ),
                ),
                migrations.CreateModel(
                    name="BayAct",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("key", models.UUIDField(unique=True)),
                        ("did_at", models.DateTimeField()),
                        ("came_at", models.DateTimeField(auto_now_add=True)),
                        ("status", models.PositiveSmallIntegerField()),
                        ("says", models.CharField(blank=True, max_length=400)),
                        (
                            "author",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["pk"],
                    },
                ),
                migrations.CreateModel(
                    name="Obstacle",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("position", models.PositiveSmallIntegerField(editable=False)),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        ("x", models.FloatField(verbose_name="front edge at")),
                        ("y", models.FloatField(verbose_name="lower edge at")),
                        ("depth", models.FloatField(verbose_name="depth")),
                        ("height", models.FloatField(verbose_name="height")),
                        ("start", models.FloatField(default=0.0, verbose_name="from the left")),
                        ("end", models.FloatField(blank=True, null=True, verbose_name="to")),
                        (
                            "box",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="obstacles",
                                to="jobs.box",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["position", "pk"],
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="Offer",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "addition",
                            models.PositiveSmallIntegerField(default=0, verbose_name="addition"),
                        ),
                        ("shown", models.JSONField(default=dict)),
                        (
                            "total",
                            models.DecimalField(
                                decimal_places=3, max_digits=12, verbose_name="total with tax"
                            ),
                        ),
                        ("valid_until", models.DateField(verbose_name="valid until")),
                        (
                            "token",
                            models.CharField(
                                default=jobs.models.agreement.offer.new_token,
                                max_length=22,
                                unique=True,
                            ),
                        ),
                        ("revoked_at", models.DateTimeField(null=True, verbose_name="withdrawn")),
                        ("accepted_at", models.DateTimeField(null=True, verbose_name="accepted")),
                        (
                            "accepted_name",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="accepted by"
                            ),
                        ),
                        ("signature", models.JSONField(default=list)),
                        (
                            "basis",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="additions",
                                to="jobs.offer",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="offers",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "recorded_by",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "sheet",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="offer",
                                to="jobs.issuedsheet",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "spec and price",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="HistoricalOffer",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "addition",
                            models.PositiveSmallIntegerField(default=0, verbose_name="addition"),
                        ),
                        ("shown", models.JSONField(default=dict)),
                        (
                            "total",
                            models.DecimalField(
                                decimal_places=3, max_digits=12, verbose_name="total with tax"
                            ),
                        ),
                        ("valid_until", models.DateField(verbose_name="valid until")),
                        (
                            "token",
                            models.CharField(
                                db_index=True,
                                default=jobs.models.agreement.offer.new_token,
                                max_length=22,
                            ),
                        ),
                        ("revoked_at", models.DateTimeField(null=True, verbose_name="withdrawn")),
                        ("accepted_at", models.DateTimeField(null=True, verbose_name="accepted")),
                        (
                            "accepted_name",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="accepted by"
                            ),
                        ),
                        ("signature", models.JSONField(default=list)),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "recorded_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "sheet",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.issuedsheet",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "basis",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.offer",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical spec and price",
                        "verbose_name_plural": "historical spec and prices",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="OptionCopy",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("data", models.JSONField()),
                        (
                            "option",
                            models.OneToOneField(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="copy",
                                to="jobs.designoption",
                            ),
                        ),
                    ],
                ),
                migrations.CreateModel(
                    name="Panel",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        ("name", models.CharField(max_length=80, verbose_name="name")),
                        ("removal", models.TextField(blank=True, verbose_name="how it comes off")),
                        (
                            "fixings",
                            models.CharField(blank=True, max_length=160, verbose_name="fixings"),
                        ),
                        (
                            "airbag_near",
                            models.BooleanField(
                                blank=True, null=True, verbose_name="airbag or its wiring behind it"
                            ),
                        ),
                        (
                            "drilled",
                            models.BooleanField(
                                default=False, verbose_name="something is drilled here"
                            ),
                        ),
                        (
                            "damping_note",
                            models.CharField(
                                blank=True, max_length=160, verbose_name="damping fitted"
                            ),
                        ),
                        (
                            "token",
                            models.CharField(editable=False, max_length=22, null=True, unique=True),
                        ),
                        ("empty_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "side",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("left", "left"),
                                    ("middle", "in the middle"),
                                    ("right", "right"),
                                ],
                                max_length=6,
                                verbose_name="side of the car",
                            ),
                        ),
                        (
                            "rattle_note",
                            models.CharField(
                                blank=True, max_length=160, verbose_name="against rattling"
                            ),
                        ),
                        (
                            "empty_by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "learnt_from",
                            models.ForeignKey(
                                blank=True,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "panel",
                        "ordering": ["position", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="HistoricalPanelStep",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        ("text", models.CharField(max_length=240, verbose_name="what to do")),
                        ("done_at", models.DateTimeField(blank=True, null=True)),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "wants_photo",
                            models.BooleanField(
                                default=False, verbose_name="not done without a photo"
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="minutes"
                            ),
                        ),
                        (
                            "done_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical step",
                        "verbose_name_plural": "historical steps",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalPanelContent",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "description",
                            models.CharField(
                                blank=True, max_length=160, verbose_name="or in words"
                            ),
                        ),
                        (
                            "fixing",
                            models.CharField(
                                blank=True, max_length=160, verbose_name="how it is fixed"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "private",
                            models.BooleanField(
                                default=False,
                                verbose_name="private: behind the code only “ask the workshop”",
                            ),
                        ),
                        (
                            "elsewhere",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="or where else, in words"
                            ),
                        ),
                        (
                            "pieces",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many of them are there",
                            ),
                        ),
                        (
                            "serial",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="serial number"
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.box",
                                verbose_name="box",
                            ),
                        ),
                        (
                            "equipment",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="equipment",
                            ),
                        ),
                        (
                            "factory_part",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.factorypart",
                                verbose_name="factory part",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="behind panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical what is behind it",
                        "verbose_name_plural": "historical what is behind its",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalPanelClosing",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("checked", models.JSONField(default=list)),
                        ("left_open", models.JSONField(default=list)),
                        (
                            "reason",
                            models.CharField(
                                blank=True,
                                max_length=240,
                                verbose_name="why it was closed all the same",
                            ),
                        ),
                        ("closed_at", models.DateTimeField()),
                        ("reopened_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "reopened_why",
                            models.CharField(
                                blank=True, max_length=240, verbose_name="why it was opened again"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "closed_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "reopened_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical closing of a panel",
                        "verbose_name_plural": "historical closing of a panels",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalFixing",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "name",
                            models.CharField(max_length=80, verbose_name="clip, screw or nut"),
                        ),
                        (
                            "part_number",
                            models.CharField(
                                blank=True,
                                max_length=40,
                                verbose_name="part number, from the vehicle maker",
                            ),
                        ),
                        (
                            "quantity",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="where, if it is hidden"
                            ),
                        ),
                        (
                            "breaks",
                            models.BooleanField(
                                default=False, verbose_name="breaks easily: have spares"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical fixing",
                        "verbose_name_plural": "historical fixings",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalBayNote",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("note", "note"),
                                    ("clip", "broken clip"),
                                    ("extra", "extra work"),
                                    ("time", "minutes"),
                                ],
                                default="note",
                                max_length=5,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "pieces",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many",
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="minutes",
                            ),
                        ),
                        (
                            "text",
                            models.CharField(blank=True, max_length=240, verbose_name="in words"),
                        ),
                        ("written_at", models.DateTimeField(blank=True, editable=False)),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "fixing",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.fixing",
                                verbose_name="clip, screw or nut",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "written_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical note of the bay",
                        "verbose_name_plural": "historical note of the bays",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="GroundPoint",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("body", "stud on the body"),
                                    ("post", "minus post of the battery"),
                                    ("sensor", "body side of the battery sensor"),
                                    ("block", "ground block"),
                                ],
                                default="body",
                                max_length=8,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        (
                            "surface",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("bare", "bare metal, sealed afterwards"),
                                    ("painted", "painted or coated"),
                                ],
                                max_length=8,
                                verbose_name="metal under the lug",
                            ),
                        ),
                        (
                            "resistance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="resistance to the battery's minus, measured",
                            ),
                        ),
                        (
                            "stud",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="stud or screw, such as M8"
                            ),
                        ),
                        (
                            "torque",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="tightening torque, from the vehicle or part maker",
                            ),
                        ),
                        (
                            "length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="length of that cable"
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="behind panel",
                            ),
                        ),
                        (
                            "conductor",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="jobs.conductor",
                                verbose_name="cable that leads on from here",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "ground point",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.AddField(
                    model_name="fixing",
                    name="panel",
                    field=models.ForeignKey(
                        on_delete=django.db.models.deletion.CASCADE,
                        related_name="fastenings",
                        to="jobs.panel",
                        verbose_name="panel",
                    ),
                ),
                migrations.CreateModel(
                    name="CautionRead",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("read_on", models.DateField()),
                        (
                            "read_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.panel",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["pk"],
                    },
                ),
                migrations.CreateModel(
                    name="BayNote",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("note", "note"),
                                    ("clip", "broken clip"),
                                    ("extra", "extra work"),
                                    ("time", "minutes"),
                                ],
                                default="note",
                                max_length=5,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "pieces",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many",
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="minutes",
                            ),
                        ),
                        (
                            "text",
                            models.CharField(blank=True, max_length=240, verbose_name="in words"),
                        ),
                        ("written_at", models.DateTimeField(auto_now_add=True)),
                        (
                            "written_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "fixing",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.fixing",
                                verbose_name="clip, screw or nut",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "note of the bay",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="PanelClosing",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("checked", models.JSONField(default=list)),
                        ("left_open", models.JSONField(default=list)),
                        (
                            "reason",
                            models.CharField(
                                blank=True,
                                max_length=240,
                                verbose_name="why it was closed all the same",
                            ),
                        ),
                        ("closed_at", models.DateTimeField()),
                        ("reopened_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "reopened_why",
                            models.CharField(
                                blank=True, max_length=240, verbose_name="why it was opened again"
                            ),
                        ),
                        (
                            "closed_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="closings",
                                to="jobs.panel",
                            ),
                        ),
                        (
                            "reopened_by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "closing of a panel",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="PanelContent",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "description",
                            models.CharField(
                                blank=True, max_length=160, verbose_name="or in words"
                            ),
                        ),
                        (
                            "fixing",
                            models.CharField(
                                blank=True, max_length=160, verbose_name="how it is fixed"
                            ),
                        ),
                        (
                            "private",
                            models.BooleanField(
                                default=False,
                                verbose_name="private: behind the code only “ask the workshop”",
                            ),
                        ),
                        (
                            "elsewhere",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="or where else, in words"
                            ),
                        ),
                        (
                            "pieces",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many of them are there",
                            ),
                        ),
                        (
                            "serial",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="serial number"
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.box",
                                verbose_name="box",
                            ),
                        ),
                        (
                            "equipment",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="equipment",
                            ),
                        ),
                        (
                            "factory_part",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.factorypart",
                                verbose_name="factory part",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="contents",
                                to="jobs.panel",
                                verbose_name="behind panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "what is behind it",
                        "ordering": ["panel__position", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="PanelStep",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        ("text", models.CharField(max_length=240, verbose_name="what to do")),
                        ("done_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "wants_photo",
                            models.BooleanField(
                                default=False, verbose_name="not done without a photo"
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="minutes"
                            ),
                        ),
                        (
                            "done_by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="steps",
                                to="jobs.panel",
                                verbose_name="panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "step",
                        "ordering": ["panel__position", "panel_id", "position", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="HistoricalPhoto",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "caption",
                            models.CharField(blank=True, max_length=160, verbose_name="caption"),
                        ),
                        ("image", models.TextField(max_length=100)),
                        ("small", models.TextField(max_length=100)),
                        ("original", models.TextField(max_length=100)),
                        ("added_at", models.DateTimeField(blank=True, editable=False)),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "shows_person",
                            models.BooleanField(
                                default=False, verbose_name="shows a person or a number plate"
                            ),
                        ),
                        (
                            "shown_outside",
                            models.BooleanField(
                                default=False, verbose_name="may be shown behind the code"
                            ),
                        ),
                        ("proportion", models.FloatField(editable=False, null=True)),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "taken_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="panel",
                            ),
                        ),
                        (
                            "step",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panelstep",
                                verbose_name="step it shows",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical photo",
                        "verbose_name_plural": "historical photos",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="Payment",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("deposit", "deposit"),
                                    ("balance", "balance"),
                                    ("back", "paid back"),
                                ],
                                default="deposit",
                                max_length=8,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "amount",
                            models.DecimalField(
                                decimal_places=2,
                                max_digits=10,
                                validators=[
                                    django.core.validators.MinValueValidator(Decimal("0.01"))
                                ],
                                verbose_name="amount",
                            ),
                        ),
                        (
                            "received_on",
                            models.DateField(
                                default=django.utils.timezone.localdate, verbose_name="on"
                            ),
                        ),
                        (
                            "note",
                            models.CharField(
                                blank=True,
                                max_length=120,
                                verbose_name="how, or its number in the books",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="payments",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "payment",
                        "ordering": ["received_on", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="Photo",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "caption",
                            models.CharField(blank=True, max_length=160, verbose_name="caption"),
                        ),
                        ("image", models.FileField(upload_to=jobs.models.panels.photo_path)),
                        ("small", models.FileField(upload_to=jobs.models.panels.photo_path)),
                        ("original", models.FileField(upload_to=jobs.models.panels.photo_path)),
                        ("added_at", models.DateTimeField(auto_now_add=True)),
                        (
                            "shows_person",
                            models.BooleanField(
                                default=False, verbose_name="shows a person or a number plate"
                            ),
                        ),
                        (
                            "shown_outside",
                            models.BooleanField(
                                default=False, verbose_name="may be shown behind the code"
                            ),
                        ),
                        ("proportion", models.FloatField(editable=False, null=True)),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="photos",
                                to="jobs.panel",
                                verbose_name="panel",
                            ),
                        ),
                        (
                            "step",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="photos",
                                to="jobs.panelstep",
                                verbose_name="step it shows",
                            ),
                        ),
                        (
                            "taken_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "photo",
                        "ordering": ["panel__position", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="PhotoMark",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("position", models.PositiveSmallIntegerField(editable=False)),
                        (
                            "shape",
                            models.CharField(
                                choices=[("arrow", "arrow"), ("circle", "circle")],
                                max_length=6,
                                verbose_name="mark",
                            ),
                        ),
                        ("x", models.FloatField(verbose_name="from the left")),
                        ("y", models.FloatField(verbose_name="from the top")),
                        ("to_x", models.FloatField(verbose_name="to, from the left")),
                        ("to_y", models.FloatField(verbose_name="to, from the top")),
                        (
                            "photo",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="drawn",
                                to="jobs.photo",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["position", "pk"],
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="PowerNode",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("battery", "battery"),
                                    ("dc_dc", "DC-DC converter"),
                                    ("alternator", "alternator"),
                                    ("capacitor", "capacitor bank"),
                                    ("switch", "switch"),
                                    ("relay", "charge relay"),
                                    ("diode", "isolator with diodes"),
                                    ("block", "distribution block"),
                                    ("amplifier", "amplifier"),
                                    ("load", "other load"),
                                ],
                                max_length=10,
                                verbose_name="kind",
                            ),
                        ),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        (
                            "voltage",
                            models.FloatField(
                                blank=True, null=True, verbose_name="open-circuit voltage"
                            ),
                        ),
                        (
                            "internal_resistance",
                            models.FloatField(
                                blank=True, null=True, verbose_name="internal resistance"
                            ),
                        ),
                        (
                            "cca",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cold cranking current"
                            ),
                        ),
                        (
                            "charge",
                            models.FloatField(blank=True, null=True, verbose_name="capacity"),
                        ),
                        (
                            "rated_time",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="discharge time the capacity is rated for",
                            ),
                        ),
                        (
                            "peukert",
                            models.FloatField(
                                blank=True, null=True, verbose_name="Peukert exponent"
                            ),
                        ),
                        (
                            "usable_share",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="share of the capacity that may be used",
                            ),
                        ),
                        (
                            "current_limit",
                            models.FloatField(
                                blank=True, null=True, verbose_name="output current limit"
                            ),
                        ),
                        (
                            "capacitance",
                            models.FloatField(blank=True, null=True, verbose_name="capacitance"),
                        ),
                        (
                            "current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current it takes"
                            ),
                        ),
                        (
                            "standby_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current it takes asleep, key off",
                            ),
                        ),
                        (
                            "coil_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current of its coil"
                            ),
                        ),
                        (
                            "coil_diode",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="its coil has a diode or a resistor",
                            ),
                        ),
                        (
                            "flat_voltage",
                            models.FloatField(
                                blank=True, null=True, verbose_name="open-circuit voltage when flat"
                            ),
                        ),
                        (
                            "fuse_rating",
                            models.FloatField(
                                blank=True, null=True, verbose_name="supply fuse its maker asks for"
                            ),
                        ),
                        (
                            "highest_voltage",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="highest supply voltage it stands",
                            ),
                        ),
                        (
                            "rated_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current it may carry, by its maker",
                            ),
                        ),
                        (
                            "starting_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current the starter takes"
                            ),
                        ),
                        (
                            "side",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("left", "left"),
                                    ("middle", "in the middle"),
                                    ("right", "right"),
                                ],
                                max_length=6,
                                verbose_name="side of the car",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "equipment",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="power_nodes",
                                to="jobs.equipmentitem",
                                verbose_name="equipment",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "power node",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="PriceLine",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("thing", "a thing"),
                                    ("wood", "wood shop"),
                                    ("covering", "covering"),
                                    ("wiring", "wiring"),
                                    ("car", "on the car"),
                                    ("set_up", "setting up"),
                                    ("desk", "planning"),
                                ],
                                default="thing",
                                max_length=8,
                                verbose_name="kind",
                            ),
                        ),
                        ("text", models.CharField(max_length=120, verbose_name="what it is")),
                        (
                            "quantity",
                            models.DecimalField(
                                decimal_places=2,
                                default=Decimal("1"),
                                max_digits=7,
                                validators=[
                                    django.core.validators.MinValueValidator(Decimal("0.01"))
                                ],
                                verbose_name="quantity",
                            ),
                        ),
                        (
                            "each",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="price of one",
                            ),
                        ),
                        (
                            "cost",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="one costs the workshop",
                            ),
                        ),
                        (
                            "tax_class",
                            models.CharField(
                                choices=[
                                    ("standard", "standard rate"),
                                    ("reduced", "reduced rate"),
                                    ("exempt", "exempt"),
                                ],
                                default="standard",
                                max_length=8,
                                verbose_name="tax class",
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="minutes"
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="price_lines",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "line of the price",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="PrintOrder",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("build", "build sheet"),
                                    ("panels", "panel record"),
                                    ("handover", "hand-over"),
                                    ("cut", "cut sheet"),
                                    ("templates", "paper templates"),
                                    ("cables", "cable sheet"),
                                    ("labels", "cable labels"),
                                    ("compare", "boxes side by side"),
                                    ("spec", "spec and price"),
                                    ("setup", "set-up sheet"),
                                    ("options", "options side by side"),
                                ],
                                max_length=10,
                            ),
                        ),
                        ("options", models.JSONField()),
                        ("to_issue", models.BooleanField()),
                        ("asked_at", models.DateTimeField()),
                        ("entry_token", models.UUIDField(null=True, unique=True)),
                        ("rests_on", models.CharField(blank=True, db_index=True, max_length=64)),
                        (
                            "state",
                            models.CharField(
                                choices=[
                                    ("waiting", "waiting"),
                                    ("printing", "being printed"),
                                    ("printed", "printed"),
                                    ("failed", "failed"),
                                ],
                                default="waiting",
                                max_length=8,
                            ),
                        ),
                        ("worker", models.CharField(blank=True, max_length=32)),
                        ("tries", models.PositiveSmallIntegerField(default=0)),
                        ("page", models.PositiveSmallIntegerField(default=0)),
                        ("started_at", models.DateTimeField(null=True)),
                        ("finished_at", models.DateTimeField(null=True)),
                        (
                            "trouble",
                            models.CharField(
                                blank=True,
                                choices=[
                                    (
                                        "no-pdf",
                                        "No PDFs can be made on this machine: a library is missing.",
                                    ),
                                    ("not-allowed", "Whoever asked for it may not do so any more."),
                                    (
                                        "ended",
                                        "The process that prints ended over this sheet, three times.",
                                    ),
                                    ("broken", "Something went wrong while it was printed."),
                                ],
                                max_length=12,
                            ),
                        ),
                        ("detail", models.CharField(blank=True, max_length=80)),
                        ("pdf", models.BinaryField(null=True)),
                        (
                            "asked_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "issued",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.issuedsheet",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="print_orders",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["pk"],
                    },
                ),
                migrations.CreateModel(
                    name="Run",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("P", "power"),
                                    ("S", "speaker"),
                                    ("L", "line level"),
                                    ("C", "control"),
                                ],
                                max_length=1,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "number",
                            models.PositiveSmallIntegerField(editable=False, verbose_name="number"),
                        ),
                        (
                            "from_text",
                            models.CharField(blank=True, max_length=80, verbose_name="from"),
                        ),
                        ("to_text", models.CharField(blank=True, max_length=80, verbose_name="to")),
                        (
                            "start_contact",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("15", "15: plus, switched by the ignition"),
                                    ("30", "30: battery plus"),
                                    ("30a", "30a: plus of the second battery"),
                                    ("31", "31: ground"),
                                    ("31b", "31b: switched ground"),
                                    ("40", "40: 48 V plus"),
                                    ("41", "41: 48 V ground"),
                                    ("49", "49: flasher"),
                                    ("50", "50: starter"),
                                    ("56", "56: headlights"),
                                    ("58", "58: side lights"),
                                    ("58d", "58d: instrument lights, dimmed"),
                                    ("61", "61: charge lamp"),
                                    ("75", "75: radio and accessories"),
                                    ("85", "85: relay coil, minus"),
                                    ("86", "86: relay coil, plus"),
                                    ("87", "87: relay contact, closes"),
                                    ("87a", "87a: relay contact, opens"),
                                    ("B+", "B+: alternator plus"),
                                    ("D+", "D+: alternator charge signal"),
                                ],
                                max_length=4,
                                verbose_name="terminal number at the start (DIN 72552)",
                            ),
                        ),
                        (
                            "end_contact",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("15", "15: plus, switched by the ignition"),
                                    ("30", "30: battery plus"),
                                    ("30a", "30a: plus of the second battery"),
                                    ("31", "31: ground"),
                                    ("31b", "31b: switched ground"),
                                    ("40", "40: 48 V plus"),
                                    ("41", "41: 48 V ground"),
                                    ("49", "49: flasher"),
                                    ("50", "50: starter"),
                                    ("56", "56: headlights"),
                                    ("58", "58: side lights"),
                                    ("58d", "58d: instrument lights, dimmed"),
                                    ("61", "61: charge lamp"),
                                    ("75", "75: radio and accessories"),
                                    ("85", "85: relay coil, minus"),
                                    ("86", "86: relay coil, plus"),
                                    ("87", "87: relay contact, closes"),
                                    ("87a", "87a: relay contact, opens"),
                                    ("B+", "B+: alternator plus"),
                                    ("D+", "D+: alternator charge signal"),
                                ],
                                max_length=4,
                                verbose_name="terminal number at the end (DIN 72552)",
                            ),
                        ),
                        (
                            "colour",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="colour (IEC 60757)"
                            ),
                        ),
                        (
                            "return_colour",
                            models.CharField(
                                blank=True,
                                max_length=8,
                                verbose_name="colour of the other core (IEC 60757)",
                            ),
                        ),
                        (
                            "length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="length, one way"
                            ),
                        ),
                        (
                            "return_kind",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("cable", "its own cable"),
                                    ("chassis", "chassis, measured"),
                                ],
                                max_length=8,
                                verbose_name="way back",
                            ),
                        ),
                        (
                            "return_length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="length of the way back"
                            ),
                        ),
                        (
                            "chassis_resistance",
                            models.FloatField(
                                blank=True, null=True, verbose_name="chassis resistance, measured"
                            ),
                        ),
                        (
                            "zone",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("engine bay", "engine bay"),
                                    ("cabin", "cabin"),
                                    ("under carpet", "under carpet"),
                                    ("boot", "boot"),
                                    ("outside", "outside, under the floor"),
                                ],
                                max_length=12,
                                verbose_name="hottest zone it passes",
                            ),
                        ),
                        (
                            "ambient",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="hottest air round it, if measured",
                            ),
                        ),
                        (
                            "bundle",
                            models.PositiveSmallIntegerField(
                                default=2,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="current-carrying cables in the bundle",
                            ),
                        ),
                        (
                            "fuse_distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="cable from the source to the fuse",
                            ),
                        ),
                        (
                            "fuse_sheathed",
                            models.BooleanField(
                                default=False, verbose_name="sheathed all the way to the fuse"
                            ),
                        ),
                        (
                            "end_fuse_distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="cable from the far source to its fuse",
                            ),
                        ),
                        (
                            "current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current it must switch or carry",
                            ),
                        ),
                        (
                            "source_resistance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="output resistance of its source",
                            ),
                        ),
                        (
                            "beside_power",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="how far it lies along a power run",
                            ),
                        ),
                        (
                            "source_limit",
                            models.FloatField(
                                blank=True, null=True, verbose_name="most its source may give"
                            ),
                        ),
                        (
                            "relay",
                            models.BooleanField(
                                default=False, verbose_name="turned on through a relay"
                            ),
                        ),
                        (
                            "relay_coil",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current of the relay's coil"
                            ),
                        ),
                        (
                            "diversity",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="share of the fuses behind it that flows at once",
                            ),
                        ),
                        (
                            "drop_limit",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="voltage it may lose, as a share of 12 V",
                            ),
                        ),
                        (
                            "end_fuse_sheathed",
                            models.BooleanField(
                                default=False, verbose_name="sheathed all the way to that fuse"
                            ),
                        ),
                        (
                            "fed_by",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("output", "an output of a device, with a limit of its own"),
                                    (
                                        "supply",
                                        "a battery, a block or a switched circuit of the car",
                                    ),
                                ],
                                max_length=8,
                                verbose_name="fed by",
                            ),
                        ),
                        (
                            "relay_diode",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="the relay's coil has a diode or a resistor",
                            ),
                        ),
                        (
                            "purpose",
                            models.CharField(
                                choices=[
                                    ("turn_on", "turns equipment on"),
                                    ("mute", "mutes equipment, for a call"),
                                ],
                                default="turn_on",
                                max_length=8,
                                verbose_name="what it does",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "channel",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="runs",
                                to="jobs.channel",
                                verbose_name="channel",
                            ),
                        ),
                        (
                            "end",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="runs_in",
                                to="jobs.powernode",
                                verbose_name="to",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "return_end",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.groundpoint",
                                verbose_name="where the minus meets metal at the end",
                            ),
                        ),
                        (
                            "return_start",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.groundpoint",
                                verbose_name="where the minus meets metal at the start",
                            ),
                        ),
                        (
                            "start",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="runs_out",
                                to="jobs.powernode",
                                verbose_name="from",
                            ),
                        ),
                        (
                            "wakes",
                            models.ManyToManyField(
                                blank=True,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="equipment it turns on or mutes",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "run",
                        "ordering": ["kind", "number", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="Measurement",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        ("name", models.CharField(max_length=160, verbose_name="what to measure")),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("voltage", "voltage"),
                                    ("current", "current"),
                                    ("resistance", "resistance"),
                                    ("length", "length"),
                                    ("level", "sound level"),
                                ],
                                max_length=10,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "expected",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="what to expect, in words"
                            ),
                        ),
                        (
                            "value",
                            models.FloatField(blank=True, null=True, verbose_name="measured"),
                        ),
                        ("measured_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "beyond",
                            models.CharField(
                                choices=[
                                    ("look", "a person decides"),
                                    ("stop", "it must not stay so"),
                                ],
                                default="look",
                                max_length=4,
                                verbose_name="beyond that",
                            ),
                        ),
                        (
                            "derived",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("rest", "voltage at a load, everything off"),
                                    ("load", "voltage at a load, everything at full output"),
                                    ("speaker", "resistance of a speaker at the amplifier’s plug"),
                                    ("fuse", "voltage lost over a fuse at full output"),
                                    (
                                        "ground",
                                        "voltage between a ground point and the battery’s minus",
                                    ),
                                    ("key_off", "key-off current, car asleep"),
                                    ("charging", "charging voltage, engine running"),
                                ],
                                editable=False,
                                max_length=8,
                            ),
                        ),
                        ("high", models.FloatField(blank=True, null=True, verbose_name="at most")),
                        ("low", models.FloatField(blank=True, null=True, verbose_name="at least")),
                        (
                            "channel",
                            models.ForeignKey(
                                blank=True,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.channel",
                            ),
                        ),
                        (
                            "ground",
                            models.ForeignKey(
                                blank=True,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.groundpoint",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "measured_by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "node",
                            models.ForeignKey(
                                blank=True,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.powernode",
                            ),
                        ),
                        (
                            "run",
                            models.ForeignKey(
                                blank=True,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.run",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "measurement",
                        "ordering": ["position", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="LoomJoin",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("connector", models.CharField(max_length=60, verbose_name="connector")),
                        ("pin", models.CharField(blank=True, max_length=12, verbose_name="pin")),
                        (
                            "colour",
                            models.CharField(
                                blank=True, max_length=20, verbose_name="factory colour"
                            ),
                        ),
                        (
                            "how",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("plug", "adapter plug"),
                                    ("crimp", "crimped splice"),
                                    ("solder", "soldered and sleeved"),
                                    ("pin", "pin added to the housing"),
                                ],
                                max_length=8,
                                verbose_name="how joined",
                            ),
                        ),
                        (
                            "signal",
                            models.CharField(
                                blank=True, max_length=80, verbose_name="signal found there"
                            ),
                        ),
                        (
                            "level",
                            models.FloatField(
                                blank=True, null=True, verbose_name="voltage measured there"
                            ),
                        ),
                        (
                            "carries",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("high", "signal for a speaker (high level)"),
                                    ("line", "line level"),
                                    ("data", "bus or fibre"),
                                    ("supply", "supply or ground"),
                                    ("remote", "turn-on"),
                                    ("mute", "mute, from the hands-free"),
                                ],
                                max_length=8,
                                verbose_name="what it carries",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="behind panel",
                            ),
                        ),
                        (
                            "run",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="joins",
                                to="jobs.run",
                                verbose_name="our run",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "join to the factory loom",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="HistoricalMeasurement",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        ("name", models.CharField(max_length=160, verbose_name="what to measure")),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("voltage", "voltage"),
                                    ("current", "current"),
                                    ("resistance", "resistance"),
                                    ("length", "length"),
                                    ("level", "sound level"),
                                ],
                                max_length=10,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "expected",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="what to expect, in words"
                            ),
                        ),
                        (
                            "value",
                            models.FloatField(blank=True, null=True, verbose_name="measured"),
                        ),
                        ("measured_at", models.DateTimeField(blank=True, null=True)),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "beyond",
                            models.CharField(
                                choices=[
                                    ("look", "a person decides"),
                                    ("stop", "it must not stay so"),
                                ],
                                default="look",
                                max_length=4,
                                verbose_name="beyond that",
                            ),
                        ),
                        (
                            "derived",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("rest", "voltage at a load, everything off"),
                                    ("load", "voltage at a load, everything at full output"),
                                    ("speaker", "resistance of a speaker at the amplifier’s plug"),
                                    ("fuse", "voltage lost over a fuse at full output"),
                                    (
                                        "ground",
                                        "voltage between a ground point and the battery’s minus",
                                    ),
                                    ("key_off", "key-off current, car asleep"),
                                    ("charging", "charging voltage, engine running"),
                                ],
                                editable=False,
                                max_length=8,
                            ),
                        ),
                        ("high", models.FloatField(blank=True, null=True, verbose_name="at most")),
                        ("low", models.FloatField(blank=True, null=True, verbose_name="at least")),
                        (
                            "channel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.channel",
                            ),
                        ),
                        (
                            "ground",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.groundpoint",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "measured_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "node",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.powernode",
                            ),
                        ),
                        (
                            "run",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                editable=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.run",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical measurement",
                        "verbose_name_plural": "historical measurements",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalLoomJoin",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("connector", models.CharField(max_length=60, verbose_name="connector")),
                        ("pin", models.CharField(blank=True, max_length=12, verbose_name="pin")),
                        (
                            "colour",
                            models.CharField(
                                blank=True, max_length=20, verbose_name="factory colour"
                            ),
                        ),
                        (
                            "how",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("plug", "adapter plug"),
                                    ("crimp", "crimped splice"),
                                    ("solder", "soldered and sleeved"),
                                    ("pin", "pin added to the housing"),
                                ],
                                max_length=8,
                                verbose_name="how joined",
                            ),
                        ),
                        (
                            "signal",
                            models.CharField(
                                blank=True, max_length=80, verbose_name="signal found there"
                            ),
                        ),
                        (
                            "level",
                            models.FloatField(
                                blank=True, null=True, verbose_name="voltage measured there"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "carries",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("high", "signal for a speaker (high level)"),
                                    ("line", "line level"),
                                    ("data", "bus or fibre"),
                                    ("supply", "supply or ground"),
                                    ("remote", "turn-on"),
                                    ("mute", "mute, from the hands-free"),
                                ],
                                max_length=8,
                                verbose_name="what it carries",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="behind panel",
                            ),
                        ),
                        (
                            "run",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.run",
                                verbose_name="our run",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical join to the factory loom",
                        "verbose_name_plural": "historical join to the factory looms",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="Session",
                    fields=[
                        (
                            "session_key",
                            models.CharField(
                                max_length=40,
                                primary_key=True,
                                serialize=False,
                                verbose_name="session key",
                            ),
                        ),
                        ("session_data", models.TextField(verbose_name="session data")),
                        (
                            "expire_date",
                            models.DateTimeField(db_index=True, verbose_name="expire date"),
                        ),
                        (
                            "device",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("phone", "a phone"),
                                    ("tablet", "a tablet"),
                                    ("computer", "a computer"),
                                ],
                                max_length=8,
                            ),
                        ),
                        ("address", models.GenericIPAddressField(null=True)),
                        ("began_at", models.DateTimeField(null=True)),
                        ("seen_at", models.DateTimeField()),
                        (
                            "user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="sessions",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "session",
                        "verbose_name_plural": "sessions",
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="SideThickness",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("position", models.PositiveSmallIntegerField(editable=False)),
                        (
                            "face",
                            models.CharField(
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="side",
                            ),
                        ),
                        ("thickness", models.FloatField(verbose_name="thickness")),
                        (
                            "box",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="sides",
                                to="jobs.box",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["position", "pk"],
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="StageRelease",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("left_open", models.JSONField(default=dict)),
                        (
                            "reason",
                            models.CharField(
                                max_length=240, verbose_name="reason, which is printed"
                            ),
                        ),
                        ("released_at", models.DateTimeField()),
                        (
                            "stage",
                            models.CharField(
                                choices=[
                                    ("enquiry", "enquiry"),
                                    ("brief", "brief"),
                                    ("spec", "spec"),
                                    ("agreed", "agreed"),
                                    ("parts", "parts"),
                                    ("bay", "in the bay"),
                                    ("set_up", "set up"),
                                    ("handed_over", "handed over"),
                                    ("aftercare", "aftercare"),
                                ],
                                default="handed_over",
                                max_length=12,
                                verbose_name="to",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "released_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "stage released",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="Stretch",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        ("position", models.PositiveSmallIntegerField(default=1)),
                        (
                            "follows_loom",
                            models.BooleanField(
                                default=True, verbose_name="follows the factory loom"
                            ),
                        ),
                        (
                            "edge",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("grommet", "metal edge, grommet or guard fitted"),
                                    ("bare", "metal edge, still bare"),
                                    ("soft", "edge, but no metal"),
                                    ("open", "an edge, nobody has looked yet"),
                                ],
                                max_length=8,
                                verbose_name="edge it passes",
                            ),
                        ),
                        ("note", models.CharField(blank=True, max_length=120, verbose_name="note")),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="stretches",
                                to="jobs.panel",
                            ),
                        ),
                        (
                            "run",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="stretches",
                                to="jobs.run",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["position", "pk"],
                    },
                ),
                migrations.AddField(
                    model_name="run",
                    name="panels",
                    field=models.ManyToManyField(
                        related_name="runs", through="jobs.Stretch", to="jobs.panel"
                    ),
                ),
                migrations.CreateModel(
                    name="TrimPanel",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        ("width", models.FloatField(blank=True, null=True, verbose_name="width")),
                        ("height", models.FloatField(blank=True, null=True, verbose_name="height")),
                        (
                            "reveal",
                            models.FloatField(default=0.003, verbose_name="gap round what shows"),
                        ),
                        (
                            "box_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="its face",
                            ),
                        ),
                        (
                            "box_u",
                            models.FloatField(
                                default=0.0, verbose_name="face moved to the right by"
                            ),
                        ),
                        ("box_v", models.FloatField(default=0.0, verbose_name="face moved up by")),
                        (
                            "finish",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="thickness of what covers it, round the edges",
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.box",
                                verbose_name="covers the box",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="trim_panels",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "material",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.sheetmaterial",
                                verbose_name="sheet material",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "trim panel",
                        "verbose_name_plural": "trim panels",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="TrimOpening",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("position", models.PositiveSmallIntegerField(editable=False)),
                        ("u", models.FloatField(verbose_name="middle, from the left")),
                        ("v", models.FloatField(verbose_name="middle, from below")),
                        ("width", models.FloatField(verbose_name="width, or diameter")),
                        ("height", models.FloatField(blank=True, null=True, verbose_name="height")),
                        (
                            "trim_panel",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="cut_outs",
                                to="jobs.trimpanel",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["position", "pk"],
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="TrimCorner",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("position", models.PositiveSmallIntegerField(editable=False)),
                        ("x", models.FloatField(verbose_name="across")),
                        ("y", models.FloatField(verbose_name="up")),
                        (
                            "bow",
                            models.FloatField(default=0.0, verbose_name="bow of the edge after it"),
                        ),
                        (
                            "trim_panel",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="corners",
                                to="jobs.trimpanel",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["position", "pk"],
                        "abstract": False,
                    },
                ),
                migrations.CreateModel(
                    name="HistoricalWoodStep",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("mock_up", "mock-up tried in the car"),
                                    ("cut", "cut the parts"),
                                    ("glue", "glue it up"),
                                    ("cure", "let it cure"),
                                    ("seal", "seal it"),
                                    ("wrap", "wrap it"),
                                    ("fit", "fit in the car"),
                                ],
                                max_length=8,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "text",
                            models.CharField(
                                blank=True, max_length=240, verbose_name="what to mind"
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="minutes"
                            ),
                        ),
                        ("done_at", models.DateTimeField(blank=True, null=True)),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.box",
                                verbose_name="box",
                            ),
                        ),
                        (
                            "done_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "trim_panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.trimpanel",
                                verbose_name="trim panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical work in the wood shop",
                        "verbose_name_plural": "historical wood steps",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="Vehicle",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("maker", models.CharField(max_length=60, verbose_name="maker")),
                        ("model", models.CharField(max_length=60, verbose_name="model")),
                        ("body", models.CharField(blank=True, max_length=60, verbose_name="body")),
                        (
                            "year",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="year"
                            ),
                        ),
                        (
                            "plate",
                            models.CharField(
                                blank=True, max_length=20, verbose_name="number plate"
                            ),
                        ),
                        (
                            "vin",
                            models.CharField(
                                blank=True,
                                max_length=17,
                                verbose_name="vehicle identification number",
                            ),
                        ),
                        (
                            "colour",
                            models.CharField(blank=True, max_length=40, verbose_name="colour"),
                        ),
                        (
                            "driver_side",
                            models.CharField(
                                choices=[("left", "left"), ("right", "right")],
                                max_length=5,
                                verbose_name="driver's side",
                            ),
                        ),
                        (
                            "energy",
                            models.CharField(
                                choices=[
                                    ("combustion", "combustion engine"),
                                    ("mild_hybrid", "mild hybrid (48 V)"),
                                    ("hybrid", "hybrid (high voltage)"),
                                    ("battery", "battery electric (high voltage)"),
                                ],
                                max_length=12,
                                verbose_name="energy",
                            ),
                        ),
                        (
                            "battery_place",
                            models.CharField(
                                blank=True, max_length=80, verbose_name="where the 12 V battery is"
                            ),
                        ),
                        (
                            "battery_chemistry",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("flooded", "lead-acid, flooded"),
                                    ("efb", "lead-acid, enhanced flooded"),
                                    ("agm", "lead-acid, absorbed glass mat"),
                                    ("gel", "lead-acid, gel"),
                                    ("lfp", "lithium iron phosphate"),
                                ],
                                max_length=8,
                                verbose_name="battery chemistry",
                            ),
                        ),
                        (
                            "battery_charge",
                            models.FloatField(
                                blank=True, null=True, verbose_name="battery capacity"
                            ),
                        ),
                        (
                            "battery_cca",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cold cranking current"
                            ),
                        ),
                        (
                            "charging_source",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("alternator", "alternator"),
                                    ("dc_dc", "DC-DC converter"),
                                ],
                                max_length=10,
                                verbose_name="charging source",
                            ),
                        ),
                        (
                            "charging_current",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rated charging current"
                            ),
                        ),
                        (
                            "charging_current_idle",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rated charging current at idle"
                            ),
                        ),
                        (
                            "charging_hot_share",
                            models.FloatField(
                                blank=True, null=True, verbose_name="share of it left when hot"
                            ),
                        ),
                        (
                            "accessory_limit",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="added load the vehicle maker allows",
                            ),
                        ),
                        (
                            "recovery_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current the batteries take after a start",
                            ),
                        ),
                        (
                            "vehicle_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current the running car takes itself",
                            ),
                        ),
                        (
                            "sleep_current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="key-off current of the car alone, asleep",
                            ),
                        ),
                        (
                            "start_stop",
                            models.BooleanField(
                                blank=True, null=True, verbose_name="the engine stops by itself"
                            ),
                        ),
                        (
                            "smart_charging",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="the charging voltage is commanded (sensor on the battery)",
                            ),
                        ),
                        (
                            "cabin_volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cabin air volume"
                            ),
                        ),
                        (
                            "cabin_length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="cabin length inside"
                            ),
                        ),
                        (
                            "airbag_procedure",
                            models.TextField(
                                blank=True,
                                verbose_name="airbag isolation, as the vehicle maker writes it",
                            ),
                        ),
                        (
                            "front_axle_spare",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="mass its front axle may still bear",
                            ),
                        ),
                        (
                            "payload",
                            models.FloatField(
                                blank=True, null=True, verbose_name="mass the car may still carry"
                            ),
                        ),
                        (
                            "rear_axle_spare",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="mass its rear axle may still bear",
                            ),
                        ),
                        (
                            "figures_from",
                            models.CharField(
                                blank=True,
                                editable=False,
                                max_length=12,
                                verbose_name="figures taken over from",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "customer",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="vehicles",
                                to="jobs.customer",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["maker", "model", "pk"],
                    },
                ),
                migrations.AddField(
                    model_name="job",
                    name="vehicle",
                    field=models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="jobs",
                        to="jobs.vehicle",
                    ),
                ),
                migrations.CreateModel(
                    name="HistoricalJob",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "number",
                            models.PositiveIntegerField(
                                db_index=True, editable=False, verbose_name="number"
                            ),
                        ),
                        (
                            "stage",
                            models.CharField(
                                choices=[
                                    ("enquiry", "enquiry"),
                                    ("brief", "brief"),
                                    ("spec", "spec"),
                                    ("agreed", "agreed"),
                                    ("parts", "parts"),
                                    ("bay", "in the bay"),
                                    ("set_up", "set up"),
                                    ("handed_over", "handed over"),
                                    ("aftercare", "aftercare"),
                                ],
                                default="enquiry",
                                max_length=12,
                                verbose_name="stage",
                            ),
                        ),
                        ("title", models.CharField(max_length=120, verbose_name="in one line")),
                        ("created_at", models.DateTimeField(blank=True, editable=False)),
                        (
                            "promised_on",
                            models.DateField(blank=True, null=True, verbose_name="promised for"),
                        ),
                        (
                            "wishes",
                            models.TextField(
                                blank=True, verbose_name="what the customer wants, in their words"
                            ),
                        ),
                        (
                            "listening",
                            models.TextField(
                                blank=True,
                                verbose_name="what they listen to, how loud, on which seat",
                            ),
                        ),
                        (
                            "programme",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("compressed", "loud and dense, peaks just clip"),
                                    ("music", "usual music, peaks just clip"),
                                    ("quiet", "speech or quiet listening"),
                                ],
                                max_length=10,
                                verbose_name="what is usually played",
                            ),
                        ),
                        (
                            "reserve_wanted",
                            models.FloatField(
                                blank=True, null=True, verbose_name="to play with the engine off"
                            ),
                        ),
                        (
                            "looks",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("hidden", "hidden"),
                                    ("discreet", "discreet"),
                                    ("on_show", "on show"),
                                ],
                                max_length=10,
                                verbose_name="looks",
                            ),
                        ),
                        (
                            "space_to_keep",
                            models.TextField(blank=True, verbose_name="space to keep"),
                        ),
                        (
                            "must_stay_factory",
                            models.TextField(blank=True, verbose_name="what must stay factory"),
                        ),
                        (
                            "budget",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=10,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(0)],
                                verbose_name="budget",
                            ),
                        ),
                        ("open_stops", models.PositiveSmallIntegerField(editable=False, null=True)),
                        ("open_looks", models.PositiveSmallIntegerField(editable=False, null=True)),
                        (
                            "care_notes",
                            models.TextField(blank=True, verbose_name="care, for the customer"),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "calls_heard",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="a hands-free call must be heard over the music",
                            ),
                        ),
                        ("edition", models.PositiveIntegerField(default=0, editable=False)),
                        (
                            "halt",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("on_hold", "on hold"),
                                    ("lost", "lost"),
                                    ("cancelled", "cancelled"),
                                ],
                                max_length=9,
                                verbose_name="does not go on",
                            ),
                        ),
                        (
                            "halt_why",
                            models.CharField(
                                blank=True, max_length=240, verbose_name="why it does not"
                            ),
                        ),
                        (
                            "look_again_on",
                            models.DateField(blank=True, null=True, verbose_name="look again on"),
                        ),
                        (
                            "deposit",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=5,
                                null=True,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(100),
                                ],
                                verbose_name="deposit in per cent of the total",
                            ),
                        ),
                        (
                            "discount",
                            models.DecimalField(
                                blank=True,
                                decimal_places=2,
                                max_digits=5,
                                null=True,
                                validators=[
                                    django.core.validators.MinValueValidator(0),
                                    django.core.validators.MaxValueValidator(100),
                                ],
                                verbose_name="discount in per cent",
                            ),
                        ),
                        (
                            "consultant",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "vehicle",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.vehicle",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical job",
                        "verbose_name_plural": "historical jobs",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="WithdrawnCode",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("token", models.CharField(max_length=22, unique=True)),
                        ("withdrawn_at", models.DateTimeField()),
                        (
                            "panel",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="withdrawn_codes",
                                to="jobs.panel",
                            ),
                        ),
                        (
                            "withdrawn_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["pk"],
                    },
                ),
                migrations.CreateModel(
                    name="WoodStep",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "position",
                            models.PositiveSmallIntegerField(default=1, verbose_name="order"),
                        ),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("mock_up", "mock-up tried in the car"),
                                    ("cut", "cut the parts"),
                                    ("glue", "glue it up"),
                                    ("cure", "let it cure"),
                                    ("seal", "seal it"),
                                    ("wrap", "wrap it"),
                                    ("fit", "fit in the car"),
                                ],
                                max_length=8,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "text",
                            models.CharField(
                                blank=True, max_length=240, verbose_name="what to mind"
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True, null=True, verbose_name="minutes"
                            ),
                        ),
                        ("done_at", models.DateTimeField(blank=True, null=True)),
                        (
                            "box",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="wood_steps",
                                to="jobs.box",
                                verbose_name="box",
                            ),
                        ),
                        (
                            "done_by",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="wood_steps",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "trim_panel",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="wood_steps",
                                to="jobs.trimpanel",
                                verbose_name="trim panel",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "work in the wood shop",
                        "verbose_name_plural": "wood steps",
                        "ordering": ["box_id", "trim_panel_id", "position", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="Word",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        (
                            "shelf",
                            models.PositiveSmallIntegerField(
                                choices=[
                                    (1, "Job"),
                                    (2, "Run"),
                                    (3, "Item"),
                                    (4, "Part"),
                                    (5, "Place"),
                                    (6, "Customer"),
                                ]
                            ),
                        ),
                        ("word", models.BinaryField(max_length=40)),
                        ("kind", models.CharField(max_length=16)),
                        ("key", models.BigIntegerField()),
                    ],
                    options={
                        "indexes": [
                            models.Index(
                                fields=["shelf", "word", "-key"], name="jobs_word_shelf_c40121_idx"
                            )
                        ],
                        "constraints": [
                            models.UniqueConstraint(
                                fields=("kind", "key", "word"), name="word_of_record_once"
                            )
                        ],
                    },
                ),
                migrations.CreateModel(
                    name="WorkTime",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("wood", "wood shop"),
                                    ("covering", "covering"),
                                    ("wiring", "wiring"),
                                    ("car", "on the car"),
                                    ("set_up", "setting up"),
                                    ("desk", "planning"),
                                ],
                                default="car",
                                max_length=8,
                                verbose_name="kind of work",
                            ),
                        ),
                        (
                            "minutes",
                            models.PositiveSmallIntegerField(
                                blank=True,
                                null=True,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="minutes",
                            ),
                        ),
                        (
                            "worked_on",
                            models.DateField(
                                default=django.utils.timezone.localdate, verbose_name="on"
                            ),
                        ),
                        (
                            "text",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="what was done"
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="work_times",
                                to="jobs.job",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "time worked",
                        "ordering": ["worked_on", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="HistoricalAmplifierRating",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("bridged", models.BooleanField(default=False, verbose_name="bridged")),
                        (
                            "load",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.1)],
                                verbose_name="load",
                            ),
                        ),
                        (
                            "power",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.1)],
                                verbose_name="power per channel",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "amplifier",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.amplifier",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical amplifier rating",
                        "verbose_name_plural": "historical amplifier ratings",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="AmplifierRating",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("bridged", models.BooleanField(default=False, verbose_name="bridged")),
                        (
                            "load",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.1)],
                                verbose_name="load",
                            ),
                        ),
                        (
                            "power",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.1)],
                                verbose_name="power per channel",
                            ),
                        ),
                        (
                            "amplifier",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="ratings",
                                to="jobs.amplifier",
                            ),
                        ),
                    ],
                    options={
                        "ordering": ["bridged", "-load", "pk"],
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.AddField(
                    model_name="run",
                    name="conductor",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.conductor",
                        verbose_name="cable",
                    ),
                ),
                migrations.AddField(
                    model_name="run",
                    name="return_conductor",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.conductor",
                        verbose_name="cable of the way back",
                    ),
                ),
                migrations.CreateModel(
                    name="HistoricalGroundPoint",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("body", "stud on the body"),
                                    ("post", "minus post of the battery"),
                                    ("sensor", "body side of the battery sensor"),
                                    ("block", "ground block"),
                                ],
                                default="body",
                                max_length=8,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        (
                            "surface",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("bare", "bare metal, sealed afterwards"),
                                    ("painted", "painted or coated"),
                                ],
                                max_length=8,
                                verbose_name="metal under the lug",
                            ),
                        ),
                        (
                            "resistance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="resistance to the battery's minus, measured",
                            ),
                        ),
                        (
                            "stud",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="stud or screw, such as M8"
                            ),
                        ),
                        (
                            "torque",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="tightening torque, from the vehicle or part maker",
                            ),
                        ),
                        (
                            "length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="length of that cable"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="behind panel",
                            ),
                        ),
                        (
                            "conductor",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.conductor",
                                verbose_name="cable that leads on from here",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical ground point",
                        "verbose_name_plural": "historical ground points",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalDampingLayer",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "where",
                            models.CharField(
                                max_length=80, verbose_name="on what of it, such as the outer skin"
                            ),
                        ),
                        (
                            "area",
                            models.FloatField(blank=True, null=True, verbose_name="area of that"),
                        ),
                        (
                            "coverage",
                            models.FloatField(
                                default=1.0, verbose_name="share of it that is covered"
                            ),
                        ),
                        (
                            "layers",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="layers",
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.panel",
                                verbose_name="panel",
                            ),
                        ),
                        (
                            "part",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.damping",
                                verbose_name="damping material",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical damping of a panel",
                        "verbose_name_plural": "historical damping of a panels",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="DampingLayer",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "where",
                            models.CharField(
                                max_length=80, verbose_name="on what of it, such as the outer skin"
                            ),
                        ),
                        (
                            "area",
                            models.FloatField(blank=True, null=True, verbose_name="area of that"),
                        ),
                        (
                            "coverage",
                            models.FloatField(
                                default=1.0, verbose_name="share of it that is covered"
                            ),
                        ),
                        (
                            "layers",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="layers",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "panel",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="damping",
                                to="jobs.panel",
                                verbose_name="panel",
                            ),
                        ),
                        (
                            "part",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="jobs.damping",
                                verbose_name="damping material",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "damping of a panel",
                        "ordering": ["panel__position", "pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="RunAsBuilt",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "reason",
                            models.CharField(
                                max_length=240, verbose_name="why it was done differently"
                            ),
                        ),
                        ("done_at", models.DateTimeField()),
                        (
                            "colour",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="colour (IEC 60757)"
                            ),
                        ),
                        (
                            "return_colour",
                            models.CharField(
                                blank=True,
                                max_length=8,
                                verbose_name="colour of the other core (IEC 60757)",
                            ),
                        ),
                        (
                            "length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="length, one way"
                            ),
                        ),
                        (
                            "zone",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("engine bay", "engine bay"),
                                    ("cabin", "cabin"),
                                    ("under carpet", "under carpet"),
                                    ("boot", "boot"),
                                    ("outside", "outside, under the floor"),
                                ],
                                max_length=12,
                                verbose_name="hottest zone it passes",
                            ),
                        ),
                        (
                            "fuse_distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="cable from the source to the fuse",
                            ),
                        ),
                        (
                            "end_fuse_distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="cable from the far source to its fuse",
                            ),
                        ),
                        ("route", models.JSONField(default=list)),
                        (
                            "done_by",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="%(class)ss",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "run",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="+",
                                to="jobs.run",
                                verbose_name="run",
                            ),
                        ),
                        (
                            "conductor",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="jobs.conductor",
                                verbose_name="cable",
                            ),
                        ),
                        (
                            "end_fuse",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="jobs.fuse",
                                verbose_name="fuse at the end",
                            ),
                        ),
                        (
                            "fuse",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="+",
                                to="jobs.fuse",
                                verbose_name="fuse at the start",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "run as built",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.AddField(
                    model_name="run",
                    name="end_fuse",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.fuse",
                        verbose_name="fuse at the end",
                    ),
                ),
                migrations.AddField(
                    model_name="run",
                    name="fuse",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.fuse",
                        verbose_name="fuse at the start",
                    ),
                ),
                migrations.CreateModel(
                    name="HistoricalRunAsBuilt",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "reason",
                            models.CharField(
                                max_length=240, verbose_name="why it was done differently"
                            ),
                        ),
                        ("done_at", models.DateTimeField()),
                        (
                            "colour",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="colour (IEC 60757)"
                            ),
                        ),
                        (
                            "return_colour",
                            models.CharField(
                                blank=True,
                                max_length=8,
                                verbose_name="colour of the other core (IEC 60757)",
                            ),
                        ),
                        (
                            "length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="length, one way"
                            ),
                        ),
                        (
                            "zone",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("engine bay", "engine bay"),
                                    ("cabin", "cabin"),
                                    ("under carpet", "under carpet"),
                                    ("boot", "boot"),
                                    ("outside", "outside, under the floor"),
                                ],
                                max_length=12,
                                verbose_name="hottest zone it passes",
                            ),
                        ),
                        (
                            "fuse_distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="cable from the source to the fuse",
                            ),
                        ),
                        (
                            "end_fuse_distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="cable from the far source to its fuse",
                            ),
                        ),
                        ("route", models.JSONField(default=list)),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "done_by",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "run",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.run",
                                verbose_name="run",
                            ),
                        ),
                        (
                            "conductor",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.conductor",
                                verbose_name="cable",
                            ),
                        ),
                        (
                            "end_fuse",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.fuse",
                                verbose_name="fuse at the end",
                            ),
                        ),
                        (
                            "fuse",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.fuse",
                                verbose_name="fuse at the start",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical run as built",
                        "verbose_name_plural": "historical run as builts",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.AddField(
                    model_name="run",
                    name="end_fuse_holder",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.holder",
                        verbose_name="holder of the fuse at the end",
                    ),
                ),
                migrations.AddField(
                    model_name="run",
                    name="fuse_holder",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.holder",
                        verbose_name="holder of the fuse at the start",
                    ),
                ),
                migrations.CreateModel(
                    name="Ring",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        (
                            "quantity",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many",
                            ),
                        ),
                        (
                            "layers",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="layers",
                            ),
                        ),
                        (
                            "outer_diameter",
                            models.FloatField(blank=True, null=True, verbose_name="outer diameter"),
                        ),
                        (
                            "inner_diameter",
                            models.FloatField(blank=True, null=True, verbose_name="inner diameter"),
                        ),
                        (
                            "bolt_circle",
                            models.FloatField(blank=True, null=True, verbose_name="bolt circle"),
                        ),
                        (
                            "screws",
                            models.PositiveSmallIntegerField(
                                default=6,
                                validators=[django.core.validators.MinValueValidator(3)],
                                verbose_name="screws",
                            ),
                        ),
                        (
                            "screw_diameter",
                            models.FloatField(default=0.004, verbose_name="screw holes"),
                        ),
                        (
                            "tilt",
                            models.FloatField(
                                default=0.0, verbose_name="tilt between driver and door"
                            ),
                        ),
                        (
                            "driver",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="driver",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.CASCADE,
                                related_name="rings",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "material",
                            models.ForeignKey(
                                blank=True,
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to="jobs.sheetmaterial",
                                verbose_name="sheet material",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "speaker ring",
                        "verbose_name_plural": "rings",
                        "ordering": ["pk"],
                        "abstract": False,
                        "base_manager_name": "with_removed",
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="Offcut",
                    fields=[
                        (
                            "id",
                            models.BigAutoField(
                                auto_created=True,
                                primary_key=True,
                                serialize=False,
                                verbose_name="ID",
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(editable=False, null=True, unique=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "length",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.01)],
                                verbose_name="length, along the grain",
                            ),
                        ),
                        (
                            "width",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.01)],
                                verbose_name="width",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(
                                blank=True, max_length=80, verbose_name="where it stands"
                            ),
                        ),
                        (
                            "material",
                            models.ForeignKey(
                                on_delete=django.db.models.deletion.PROTECT,
                                related_name="kept_offcuts",
                                to="jobs.sheetmaterial",
                                verbose_name="sheet material",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "offcut",
                        "ordering": ["material", "-length", "pk"],
                    },
                    managers=[
                        ("objects", django.db.models.manager.Manager()),
                        ("with_removed", django.db.models.manager.Manager()),
                    ],
                ),
                migrations.CreateModel(
                    name="HistoricalTrimPanel",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        ("width", models.FloatField(blank=True, null=True, verbose_name="width")),
                        ("height", models.FloatField(blank=True, null=True, verbose_name="height")),
                        (
                            "reveal",
                            models.FloatField(default=0.003, verbose_name="gap round what shows"),
                        ),
                        (
                            "box_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="its face",
                            ),
                        ),
                        (
                            "box_u",
                            models.FloatField(
                                default=0.0, verbose_name="face moved to the right by"
                            ),
                        ),
                        ("box_v", models.FloatField(default=0.0, verbose_name="face moved up by")),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "finish",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="thickness of what covers it, round the edges",
                            ),
                        ),
                        (
                            "box",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.box",
                                verbose_name="covers the box",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "material",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.sheetmaterial",
                                verbose_name="sheet material",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical trim panel",
                        "verbose_name_plural": "historical trim panels",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalRing",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        (
                            "quantity",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="how many",
                            ),
                        ),
                        (
                            "layers",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="layers",
                            ),
                        ),
                        (
                            "outer_diameter",
                            models.FloatField(blank=True, null=True, verbose_name="outer diameter"),
                        ),
                        (
                            "inner_diameter",
                            models.FloatField(blank=True, null=True, verbose_name="inner diameter"),
                        ),
                        (
                            "bolt_circle",
                            models.FloatField(blank=True, null=True, verbose_name="bolt circle"),
                        ),
                        (
                            "screws",
                            models.PositiveSmallIntegerField(
                                default=6,
                                validators=[django.core.validators.MinValueValidator(3)],
                                verbose_name="screws",
                            ),
                        ),
                        (
                            "screw_diameter",
                            models.FloatField(default=0.004, verbose_name="screw holes"),
                        ),
                        (
                            "tilt",
                            models.FloatField(
                                default=0.0, verbose_name="tilt between driver and door"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "driver",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="driver",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "material",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.sheetmaterial",
                                verbose_name="sheet material",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical speaker ring",
                        "verbose_name_plural": "historical rings",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalOffcut",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "length",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.01)],
                                verbose_name="length, along the grain",
                            ),
                        ),
                        (
                            "width",
                            models.FloatField(
                                validators=[django.core.validators.MinValueValidator(0.01)],
                                verbose_name="width",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(
                                blank=True, max_length=80, verbose_name="where it stands"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "material",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.sheetmaterial",
                                verbose_name="sheet material",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical offcut",
                        "verbose_name_plural": "historical offcuts",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.CreateModel(
                    name="HistoricalBox",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "shape",
                            models.CharField(
                                choices=[
                                    ("rectangle", "rectangular"),
                                    ("sloped", "sloped rear wall"),
                                    ("wedge", "wedge: floor, leaning rear, front"),
                                    ("knee", "rear wall in two slopes"),
                                    ("step", "step at the lower rear"),
                                    ("toe", "L: a low toe in front"),
                                    ("corner", "lower rear corner cut off"),
                                    ("arch", "room for a wheel arch"),
                                    ("well", "round well: flat sides, width is its depth"),
                                    ("taper", "tapered: all walls lean"),
                                    ("profile", "own profile"),
                                ],
                                default="rectangle",
                                max_length=10,
                                verbose_name="shape",
                            ),
                        ),
                        ("width", models.FloatField(blank=True, null=True, verbose_name="width")),
                        ("height", models.FloatField(blank=True, null=True, verbose_name="height")),
                        (
                            "depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth at the bottom"
                            ),
                        ),
                        (
                            "top_depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth at the top"
                            ),
                        ),
                        (
                            "rear_slope",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="lean of the rear wall from upright",
                            ),
                        ),
                        (
                            "cut_depth",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="depth of step, toe, cut or knee",
                            ),
                        ),
                        (
                            "cut_height",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="height of step, toe, cut, knee or arch",
                            ),
                        ),
                        (
                            "baffle_layers",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="layers of the front panel",
                            ),
                        ),
                        (
                            "brace_count",
                            models.PositiveSmallIntegerField(
                                default=0, verbose_name="inner braces"
                            ),
                        ),
                        (
                            "brace_opening",
                            models.FloatField(default=0.5, verbose_name="share of a brace cut out"),
                        ),
                        (
                            "corner_joint",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "butt, mitred where the saw then tilts less"),
                                    ("butt", "butt"),
                                    ("mitre", "mitre"),
                                    ("rebate", "rebate"),
                                ],
                                default="",
                                max_length=6,
                                verbose_name="corners",
                            ),
                        ),
                        (
                            "runs_through",
                            models.CharField(
                                choices=[
                                    ("lying", "the lying ones: bottom and top"),
                                    ("standing", "the standing ones: front and rear"),
                                ],
                                default="lying",
                                max_length=8,
                                verbose_name="panels that run through",
                            ),
                        ),
                        (
                            "cheek_joint",
                            models.CharField(
                                choices=[
                                    ("cover", "over the ends of the others"),
                                    ("between", "between the others"),
                                    ("mitre", "mitred, if every corner is"),
                                    ("rebate", "the others let into them"),
                                ],
                                default="cover",
                                max_length=7,
                                verbose_name="side panels",
                            ),
                        ),
                        (
                            "rebate_depth",
                            models.FloatField(
                                blank=True, null=True, verbose_name="depth of the rebates"
                            ),
                        ),
                        (
                            "grain",
                            models.CharField(
                                choices=[
                                    ("across", "across the box"),
                                    ("up", "up"),
                                    ("none", "as it saves most wood"),
                                ],
                                default="across",
                                max_length=6,
                                verbose_name="grain runs",
                            ),
                        ),
                        (
                            "driver_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="driver in",
                            ),
                        ),
                        (
                            "driver_u",
                            models.FloatField(
                                blank=True, null=True, verbose_name="driver, from the left"
                            ),
                        ),
                        (
                            "driver_v",
                            models.FloatField(
                                blank=True, null=True, verbose_name="driver, from below"
                            ),
                        ),
                        (
                            "port_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="port in",
                            ),
                        ),
                        (
                            "port_u",
                            models.FloatField(
                                blank=True, null=True, verbose_name="port, from the left"
                            ),
                        ),
                        (
                            "port_v",
                            models.FloatField(
                                blank=True, null=True, verbose_name="port, from below"
                            ),
                        ),
                        (
                            "port_bend",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "straight"),
                                    ("+v", "up"),
                                    ("-v", "down"),
                                    ("+u", "to the right"),
                                    ("-u", "to the left"),
                                ],
                                default="",
                                max_length=2,
                                verbose_name="port bends",
                            ),
                        ),
                        (
                            "port_straight",
                            models.FloatField(
                                blank=True, null=True, verbose_name="straight piece before the bend"
                            ),
                        ),
                        (
                            "radiator_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="passive radiator in",
                            ),
                        ),
                        (
                            "terminal_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="terminal plate in",
                            ),
                        ),
                        (
                            "terminal_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="hole for the terminal plate"
                            ),
                        ),
                        (
                            "terminal_u",
                            models.FloatField(
                                blank=True, null=True, verbose_name="terminal plate, from the left"
                            ),
                        ),
                        (
                            "terminal_v",
                            models.FloatField(
                                blank=True, null=True, verbose_name="terminal plate, from below"
                            ),
                        ),
                        ("name", models.CharField(max_length=60, verbose_name="name")),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("sealed", "sealed"),
                                    ("vented", "vented"),
                                    ("passive_radiator", "passive radiator"),
                                    ("band_pass_4", "band-pass, 4th order"),
                                    ("band_pass_6", "band-pass, 6th order"),
                                    ("infinite_baffle", "infinite baffle"),
                                    ("door", "vehicle door"),
                                ],
                                default="sealed",
                                max_length=18,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "place",
                            models.CharField(blank=True, max_length=80, verbose_name="place"),
                        ),
                        (
                            "chosen",
                            models.BooleanField(default=True, verbose_name="this one is built"),
                        ),
                        (
                            "driver_count",
                            models.PositiveSmallIntegerField(
                                default=1,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="drivers",
                            ),
                        ),
                        (
                            "isobaric",
                            models.BooleanField(default=False, verbose_name="isobaric pair"),
                        ),
                        (
                            "test_voltage",
                            models.FloatField(default=2.83, verbose_name="voltage for the curves"),
                        ),
                        (
                            "wanted_volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="net volume wanted"
                            ),
                        ),
                        ("ql", models.FloatField(blank=True, null=True, verbose_name="leakage QL")),
                        (
                            "qa",
                            models.FloatField(blank=True, null=True, verbose_name="absorption QA"),
                        ),
                        (
                            "qp",
                            models.FloatField(blank=True, null=True, verbose_name="port loss QP"),
                        ),
                        (
                            "fill",
                            models.FloatField(default=1.0, verbose_name="filling gain (1 to 1.4)"),
                        ),
                        (
                            "port_shape",
                            models.CharField(
                                choices=[("round", "round tube"), ("slot", "slot along a wall")],
                                default="round",
                                max_length=5,
                                verbose_name="port",
                            ),
                        ),
                        (
                            "port_count",
                            models.PositiveSmallIntegerField(default=1, verbose_name="ports"),
                        ),
                        (
                            "port_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="port diameter inside"
                            ),
                        ),
                        (
                            "port_width",
                            models.FloatField(blank=True, null=True, verbose_name="slot width"),
                        ),
                        (
                            "port_height",
                            models.FloatField(blank=True, null=True, verbose_name="slot height"),
                        ),
                        (
                            "port_length",
                            models.FloatField(blank=True, null=True, verbose_name="port length"),
                        ),
                        (
                            "port_wall",
                            models.FloatField(default=0.003, verbose_name="port wall thickness"),
                        ),
                        (
                            "wanted_tuning",
                            models.FloatField(blank=True, null=True, verbose_name="tuning wanted"),
                        ),
                        (
                            "front_volume",
                            models.FloatField(
                                blank=True, null=True, verbose_name="front chamber volume"
                            ),
                        ),
                        (
                            "rear_port_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rear port diameter inside"
                            ),
                        ),
                        (
                            "rear_port_length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rear port length"
                            ),
                        ),
                        (
                            "radiator_count",
                            models.PositiveSmallIntegerField(
                                default=1, verbose_name="passive radiators"
                            ),
                        ),
                        (
                            "radiator_added_mass",
                            models.FloatField(default=0.0, verbose_name="mass added to each"),
                        ),
                        (
                            "hole",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("blanked", "blanked off"),
                                    ("open", "left open"),
                                    ("factory_driver", "factory driver left in, unplugged"),
                                ],
                                max_length=16,
                                verbose_name="factory hole beside it",
                            ),
                        ),
                        (
                            "hole_area",
                            models.FloatField(
                                blank=True, null=True, verbose_name="area of the factory hole"
                            ),
                        ),
                        (
                            "cavity_width",
                            models.FloatField(blank=True, null=True, verbose_name="cavity width"),
                        ),
                        ("cavity_gap", models.FloatField(default=0.01, verbose_name="gap to keep")),
                        (
                            "opening_width",
                            models.FloatField(
                                blank=True, null=True, verbose_name="opening it must pass, width"
                            ),
                        ),
                        (
                            "opening_height",
                            models.FloatField(
                                blank=True, null=True, verbose_name="opening it must pass, height"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        (
                            "top_to_rear",
                            models.FloatField(
                                blank=True, null=True, verbose_name="top moved to the rear"
                            ),
                        ),
                        (
                            "top_to_right",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="top moved to the right, seen from the front",
                            ),
                        ),
                        (
                            "top_width",
                            models.FloatField(
                                blank=True, null=True, verbose_name="width at the top"
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "port_flare",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="radius of the flares, both ends",
                            ),
                        ),
                        (
                            "rear_wanted_tuning",
                            models.FloatField(
                                blank=True, null=True, verbose_name="rear tuning wanted"
                            ),
                        ),
                        (
                            "second_port_diameter",
                            models.FloatField(
                                blank=True, null=True, verbose_name="second port, diameter inside"
                            ),
                        ),
                        (
                            "second_port_length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="second port, length"
                            ),
                        ),
                        (
                            "slot_walls",
                            models.CharField(
                                choices=[
                                    ("one", "one: its width lies on a wall"),
                                    ("two", "two: it lies in a corner"),
                                    ("three", "three: it is as wide as the box"),
                                ],
                                default="one",
                                max_length=5,
                                verbose_name="walls the slot lies on, inside",
                            ),
                        ),
                        (
                            "divider",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("upright", "upright: front chamber before it"),
                                    ("shelf", "shelf: front chamber above it"),
                                    ("plate", "plate: front chamber right of it"),
                                ],
                                max_length=7,
                                verbose_name="divider that carries the driver",
                            ),
                        ),
                        (
                            "divider_at",
                            models.FloatField(
                                blank=True, null=True, verbose_name="divider, to its middle"
                            ),
                        ),
                        (
                            "isobaric_gap",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="from the first driver of a pair to the second",
                            ),
                        ),
                        (
                            "port_lies",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "none: it has walls of its own"),
                                    ("bottom", "the bottom"),
                                    ("bottom left", "the bottom, against the left side"),
                                    ("bottom right", "the bottom, against the right side"),
                                    ("top", "the top"),
                                    ("top left", "the top, against the left side"),
                                    ("top right", "the top, against the right side"),
                                    ("left", "the left side, from bottom to top"),
                                    ("right", "the right side, from bottom to top"),
                                ],
                                default="",
                                max_length=12,
                                verbose_name="slot made of the box's own panels, along",
                            ),
                        ),
                        (
                            "rear_port_face",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("front", "front"),
                                    ("rear", "rear"),
                                    ("top", "top"),
                                    ("bottom", "bottom"),
                                    ("left", "left"),
                                    ("right", "right"),
                                    ("lower rear", "lower rear"),
                                    ("upper rear", "upper rear"),
                                    ("toe top", "toe top"),
                                    ("riser", "riser"),
                                    ("side 1", "side 1"),
                                    ("side 2", "side 2"),
                                    ("side 3", "side 3"),
                                    ("side 4", "side 4"),
                                    ("side 5", "side 5"),
                                    ("side 6", "side 6"),
                                    ("side 7", "side 7"),
                                    ("side 8", "side 8"),
                                ],
                                max_length=12,
                                verbose_name="rear port in",
                            ),
                        ),
                        (
                            "driver_recess",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="recess for the driver's flange, deep",
                            ),
                        ),
                        (
                            "held_by",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("", "nobody has said yet"),
                                    ("makers", "at the vehicle maker's own points"),
                                    ("brackets", "by brackets bolted into body metal"),
                                    ("inserts", "by bolts through inserts into body metal"),
                                    ("carried", "on a box, board or floor that is held itself"),
                                    ("loose", "by nothing: it stands loose"),
                                ],
                                default="",
                                max_length=8,
                                verbose_name="held in the car",
                            ),
                        ),
                        (
                            "held_into",
                            models.CharField(
                                blank=True, max_length=120, verbose_name="into what, with what"
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "channel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.channel",
                                verbose_name="channel that feeds it",
                            ),
                        ),
                        (
                            "driver",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="driver",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "radiator",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.equipmentitem",
                                verbose_name="passive radiator",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "material",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.sheetmaterial",
                                verbose_name="sheet material",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical box",
                        "verbose_name_plural": "historical boxes",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.AddField(
                    model_name="box",
                    name="material",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.SET_NULL,
                        related_name="+",
                        to="jobs.sheetmaterial",
                        verbose_name="sheet material",
                    ),
                ),
                migrations.AddField(
                    model_name="run",
                    name="end_terminal",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.terminal",
                        verbose_name="crimp terminal at the end",
                    ),
                ),
                migrations.AddField(
                    model_name="run",
                    name="return_end_terminal",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.terminal",
                        verbose_name="terminal of the minus at the end",
                    ),
                ),
                migrations.AddField(
                    model_name="run",
                    name="return_start_terminal",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.terminal",
                        verbose_name="terminal of the minus at the start",
                    ),
                ),
                migrations.AddField(
                    model_name="run",
                    name="start_terminal",
                    field=models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="jobs.terminal",
                        verbose_name="crimp terminal at the start",
                    ),
                ),
                migrations.CreateModel(
                    name="HistoricalRun",
                    fields=[
                        (
                            "id",
                            models.BigIntegerField(
                                auto_created=True, blank=True, db_index=True, verbose_name="ID"
                            ),
                        ),
                        ("version", models.PositiveIntegerField(default=1, editable=False)),
                        ("entry_token", models.UUIDField(db_index=True, editable=False, null=True)),
                        ("removed_at", models.DateTimeField(blank=True, editable=False, null=True)),
                        (
                            "kind",
                            models.CharField(
                                choices=[
                                    ("P", "power"),
                                    ("S", "speaker"),
                                    ("L", "line level"),
                                    ("C", "control"),
                                ],
                                max_length=1,
                                verbose_name="kind",
                            ),
                        ),
                        (
                            "number",
                            models.PositiveSmallIntegerField(editable=False, verbose_name="number"),
                        ),
                        (
                            "from_text",
                            models.CharField(blank=True, max_length=80, verbose_name="from"),
                        ),
                        ("to_text", models.CharField(blank=True, max_length=80, verbose_name="to")),
                        (
                            "start_contact",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("15", "15: plus, switched by the ignition"),
                                    ("30", "30: battery plus"),
                                    ("30a", "30a: plus of the second battery"),
                                    ("31", "31: ground"),
                                    ("31b", "31b: switched ground"),
                                    ("40", "40: 48 V plus"),
                                    ("41", "41: 48 V ground"),
                                    ("49", "49: flasher"),
                                    ("50", "50: starter"),
                                    ("56", "56: headlights"),
                                    ("58", "58: side lights"),
                                    ("58d", "58d: instrument lights, dimmed"),
                                    ("61", "61: charge lamp"),
                                    ("75", "75: radio and accessories"),
                                    ("85", "85: relay coil, minus"),
                                    ("86", "86: relay coil, plus"),
                                    ("87", "87: relay contact, closes"),
                                    ("87a", "87a: relay contact, opens"),
                                    ("B+", "B+: alternator plus"),
                                    ("D+", "D+: alternator charge signal"),
                                ],
                                max_length=4,
                                verbose_name="terminal number at the start (DIN 72552)",
                            ),
                        ),
                        (
                            "end_contact",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("15", "15: plus, switched by the ignition"),
                                    ("30", "30: battery plus"),
                                    ("30a", "30a: plus of the second battery"),
                                    ("31", "31: ground"),
                                    ("31b", "31b: switched ground"),
                                    ("40", "40: 48 V plus"),
                                    ("41", "41: 48 V ground"),
                                    ("49", "49: flasher"),
                                    ("50", "50: starter"),
                                    ("56", "56: headlights"),
                                    ("58", "58: side lights"),
                                    ("58d", "58d: instrument lights, dimmed"),
                                    ("61", "61: charge lamp"),
                                    ("75", "75: radio and accessories"),
                                    ("85", "85: relay coil, minus"),
                                    ("86", "86: relay coil, plus"),
                                    ("87", "87: relay contact, closes"),
                                    ("87a", "87a: relay contact, opens"),
                                    ("B+", "B+: alternator plus"),
                                    ("D+", "D+: alternator charge signal"),
                                ],
                                max_length=4,
                                verbose_name="terminal number at the end (DIN 72552)",
                            ),
                        ),
                        (
                            "colour",
                            models.CharField(
                                blank=True, max_length=8, verbose_name="colour (IEC 60757)"
                            ),
                        ),
                        (
                            "return_colour",
                            models.CharField(
                                blank=True,
                                max_length=8,
                                verbose_name="colour of the other core (IEC 60757)",
                            ),
                        ),
                        (
                            "length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="length, one way"
                            ),
                        ),
                        (
                            "return_kind",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("cable", "its own cable"),
                                    ("chassis", "chassis, measured"),
                                ],
                                max_length=8,
                                verbose_name="way back",
                            ),
                        ),
                        (
                            "return_length",
                            models.FloatField(
                                blank=True, null=True, verbose_name="length of the way back"
                            ),
                        ),
                        (
                            "chassis_resistance",
                            models.FloatField(
                                blank=True, null=True, verbose_name="chassis resistance, measured"
                            ),
                        ),
                        (
                            "zone",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("engine bay", "engine bay"),
                                    ("cabin", "cabin"),
                                    ("under carpet", "under carpet"),
                                    ("boot", "boot"),
                                    ("outside", "outside, under the floor"),
                                ],
                                max_length=12,
                                verbose_name="hottest zone it passes",
                            ),
                        ),
                        (
                            "ambient",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="hottest air round it, if measured",
                            ),
                        ),
                        (
                            "bundle",
                            models.PositiveSmallIntegerField(
                                default=2,
                                validators=[django.core.validators.MinValueValidator(1)],
                                verbose_name="current-carrying cables in the bundle",
                            ),
                        ),
                        (
                            "fuse_distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="cable from the source to the fuse",
                            ),
                        ),
                        (
                            "fuse_sheathed",
                            models.BooleanField(
                                default=False, verbose_name="sheathed all the way to the fuse"
                            ),
                        ),
                        (
                            "end_fuse_distance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="cable from the far source to its fuse",
                            ),
                        ),
                        (
                            "current",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="current it must switch or carry",
                            ),
                        ),
                        (
                            "source_resistance",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="output resistance of its source",
                            ),
                        ),
                        (
                            "beside_power",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="how far it lies along a power run",
                            ),
                        ),
                        (
                            "source_limit",
                            models.FloatField(
                                blank=True, null=True, verbose_name="most its source may give"
                            ),
                        ),
                        (
                            "relay",
                            models.BooleanField(
                                default=False, verbose_name="turned on through a relay"
                            ),
                        ),
                        (
                            "relay_coil",
                            models.FloatField(
                                blank=True, null=True, verbose_name="current of the relay's coil"
                            ),
                        ),
                        ("history_id", models.AutoField(primary_key=True, serialize=False)),
                        ("history_date", models.DateTimeField(db_index=True)),
                        ("history_change_reason", models.CharField(max_length=100, null=True)),
                        (
                            "history_type",
                            models.CharField(
                                choices=[("+", "Created"), ("~", "Changed"), ("-", "Deleted")],
                                max_length=1,
                            ),
                        ),
                        ("hanging", models.JSONField(null=True)),
                        (
                            "diversity",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="share of the fuses behind it that flows at once",
                            ),
                        ),
                        (
                            "drop_limit",
                            models.FloatField(
                                blank=True,
                                null=True,
                                verbose_name="voltage it may lose, as a share of 12 V",
                            ),
                        ),
                        (
                            "end_fuse_sheathed",
                            models.BooleanField(
                                default=False, verbose_name="sheathed all the way to that fuse"
                            ),
                        ),
                        (
                            "fed_by",
                            models.CharField(
                                blank=True,
                                choices=[
                                    ("output", "an output of a device, with a limit of its own"),
                                    (
                                        "supply",
                                        "a battery, a block or a switched circuit of the car",
                                    ),
                                ],
                                max_length=8,
                                verbose_name="fed by",
                            ),
                        ),
                        (
                            "relay_diode",
                            models.BooleanField(
                                blank=True,
                                null=True,
                                verbose_name="the relay's coil has a diode or a resistor",
                            ),
                        ),
                        (
                            "purpose",
                            models.CharField(
                                choices=[
                                    ("turn_on", "turns equipment on"),
                                    ("mute", "mutes equipment, for a call"),
                                ],
                                default="turn_on",
                                max_length=8,
                                verbose_name="what it does",
                            ),
                        ),
                        ("as_typed", models.JSONField(blank=True, default=dict, editable=False)),
                        (
                            "channel",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.channel",
                                verbose_name="channel",
                            ),
                        ),
                        (
                            "history_user",
                            models.ForeignKey(
                                null=True,
                                on_delete=django.db.models.deletion.SET_NULL,
                                related_name="+",
                                to=settings.AUTH_USER_MODEL,
                            ),
                        ),
                        (
                            "return_end",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.groundpoint",
                                verbose_name="where the minus meets metal at the end",
                            ),
                        ),
                        (
                            "return_start",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.groundpoint",
                                verbose_name="where the minus meets metal at the start",
                            ),
                        ),
                        (
                            "job",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.job",
                            ),
                        ),
                        (
                            "end",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.powernode",
                                verbose_name="to",
                            ),
                        ),
                        (
                            "start",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.powernode",
                                verbose_name="from",
                            ),
                        ),
                        (
                            "conductor",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.conductor",
                                verbose_name="cable",
                            ),
                        ),
                        (
                            "return_conductor",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.conductor",
                                verbose_name="cable of the way back",
                            ),
                        ),
                        (
                            "end_fuse",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.fuse",
                                verbose_name="fuse at the end",
                            ),
                        ),
                        (
                            "fuse",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.fuse",
                                verbose_name="fuse at the start",
                            ),
                        ),
                        (
                            "end_fuse_holder",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.holder",
                                verbose_name="holder of the fuse at the end",
                            ),
                        ),
                        (
                            "fuse_holder",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.holder",
                                verbose_name="holder of the fuse at the start",
                            ),
                        ),
                        (
                            "end_terminal",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.terminal",
                                verbose_name="crimp terminal at the end",
                            ),
                        ),
                        (
                            "return_end_terminal",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.terminal",
                                verbose_name="terminal of the minus at the end",
                            ),
                        ),
                        (
                            "return_start_terminal",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.terminal",
                                verbose_name="terminal of the minus at the start",
                            ),
                        ),
                        (
                            "start_terminal",
                            models.ForeignKey(
                                blank=True,
                                db_constraint=False,
                                null=True,
                                on_delete=django.db.models.deletion.DO_NOTHING,
                                related_name="+",
                                to="jobs.terminal",
                                verbose_name="crimp terminal at the start",
                            ),
                        ),
                    ],
                    options={
                        "verbose_name": "historical run",
                        "verbose_name_plural": "historical runs",
                        "ordering": ("-history_date", "-history_id"),
                        "get_latest_by": ("history_date", "history_id"),
                    },
                    bases=(simple_history.models.HistoricalChanges, models.Model),
                ),
                migrations.AddConstraint(
                    model_name="issuedsheet",
                    constraint=models.UniqueConstraint(
                        fields=("job", "kind", "revision"), name="one_sheet_per_revision"
                    ),
                ),
                migrations.AddConstraint(
                    model_name="cautionread",
                    constraint=models.UniqueConstraint(
                        fields=("panel", "read_by", "read_on"), name="cautions_read_once_a_day"
                    ),
                ),
                migrations.AddIndex(
                    model_name="printorder",
                    index=models.Index(
                        fields=["state", "finished_at"], name="print_orders_by_state"
                    ),
                ),
                migrations.AddIndex(
                    model_name="job",
                    index=models.Index(
                        fields=["stage", "-number"], name="jobs_job_stage_37ce13_idx"
                    ),
                ),
                migrations.AddConstraint(
                    model_name="run",
                    constraint=models.UniqueConstraint(
                        fields=("job", "kind", "number"), name="one_run_per_label"
                    ),
                ),
            ]
        )
    ]
