"""The power tree: its sources, blocks and loads, and what it comes to while one is typed."""

from __future__ import annotations

from typing import Any, ClassVar

from django.http import HttpRequest
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from jobs import units
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.design.wiring.power import PowerResult, RunResult
from jobs.drawings.wiring import wiring_pictures
from jobs.models import Job, PowerNode, Run
from jobs.pages.forms import row_acts
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind, beside_saved

SOURCE, LOAD = _("What it gives"), _("What it takes")
BATTERY, ASLEEP = _("The battery"), _("With the key off")
CONTACT, COIL, STANDS = _("The contact"), _("The coil"), _("What it stands")


class NodeForm(RecordForm[PowerNode]):
    """A point of the power tree."""

    quantities: ClassVar = {
        "voltage": "voltage",
        "internal_resistance": "resistance",
        "cca": "current",
        "charge": "charge",
        "rated_time": "duration",
        "peukert": "ratio",
        "usable_share": "percent",
        "current_limit": "current",
        "capacitance": "capacitance",
        "current": "current",
        "standby_current": "current",
        "flat_voltage": "voltage",
        "starting_current": "current",
        "rated_current": "current",
        "coil_current": "current",
        "highest_voltage": "voltage",
        "fuse_rating": "current",
    }
    or_zero: ClassVar = {"standby_current"}  # asleep, a part may draw nothing at all
    fieldsets: ClassVar = [
        (_("What it is"), ["kind", "name", "place", "side", "equipment"]),
        (SOURCE, ["voltage", "internal_resistance", "current_limit", "capacitance"]),
        (
            BATTERY,
            [
                *("cca", "charge", "rated_time", "peukert", "usable_share"),
                *("flat_voltage", "starting_current"),
            ],
        ),
        (CONTACT, ["rated_current"]),
        (COIL, ["coil_current", "coil_diode"]),
        (LOAD, ["current", "fuse_rating"]),
        (STANDS, ["highest_voltage"]),
        (ASLEEP, ["standby_current"]),
    ]
    only_for: ClassVar = {
        SOURCE: PowerNode.SOURCES,
        BATTERY: (PowerNode.Kind.BATTERY,),
        CONTACT: PowerNode.CONTACTS,
        COIL: (PowerNode.Kind.RELAY,),
        LOAD: (PowerNode.Kind.LOAD,),
        STANDS: (PowerNode.Kind.LOAD, PowerNode.Kind.DC_DC),
        ASLEEP: (PowerNode.Kind.AMPLIFIER, PowerNode.Kind.LOAD, PowerNode.Kind.DC_DC),
    }

    class Meta:
        model = PowerNode
        exclude = ("job",)
        help_texts: ClassVar = {
            "side": _("leave empty to take that of the panel its equipment is behind"),
            "flat_voltage": _("leave empty for 10.5 V, a 12 V lead-acid battery"),
            "starting_current": _("leave empty for 500 A where a cranking current is entered"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("equipment", self.instance.job.equipmentitems.select_related("part"))


def _headline(design: JobDesign, row: Run | PowerNode) -> list[tuple[str, str]]:
    """Return (label, value) of what the tree comes to, and the row in it."""
    loads = [node for node in design.power.nodes if node.worst_current is not None]
    lowest = min((load.worst_voltage or 0.0 for load in loads), default=None)
    total = sum(load.worst_current or 0.0 for load in loads) if loads else None
    return [
        (gettext("stops"), str(len(design.open_stops))),
        *_of_row(design.power, row),
        (gettext("lowest voltage at a load"), units.show(lowest, "voltage")),
        (gettext("all loads, worst case"), units.show(total, "current")),
    ]


def _of_row(power: PowerResult, row: Run | PowerNode) -> list[tuple[str, str]]:
    """Return (label, value) of the run or node that is being typed, once the tree is solved."""
    if isinstance(row, Run):
        run = next((run for run in power.runs if run.run.pk == row.pk), None)
        if run is None or run.worst is None:
            return []
        lost = units.show(run.worst.drop, "voltage")
        return [
            (gettext("lost on this run"), lost),
            (gettext("voltage at its end"), units.show(run.end_voltage, "voltage")),
        ]
    node = next(node for node in power.nodes if node.node.pk == row.pk)
    if node.worst_voltage is None:
        return []
    return [(gettext("voltage here"), units.show(node.worst_voltage, "voltage"))]


def run_rows(
    power: PowerResult, saved: PowerResult | None = None
) -> list[tuple[RunResult, RunResult | None]]:
    """Return every power run beside itself as last saved."""
    was = {run.run.pk: run for run in saved.runs} if saved else {}
    return [(run, was.get(run.run.pk)) for run in power.runs]


def preview(
    request: HttpRequest, job: Job, form: RecordForm[Run] | RecordForm[PowerNode]
) -> dict[str, Any]:
    """Work the tree out with the unsaved row in it, beside the last saved one."""
    records = load(job)
    row: Run | PowerNode = form.instance
    design = work_out(records.with_unsaved(row))
    saved = work_out(records) if form.differs_from_saved else None
    return {
        "power": design.power,
        "run_rows": run_rows(design.power, saved.power if saved else None),
        "results": beside_saved(_headline(design, row), _headline(saved, row) if saved else ()),
        "pictures": {"tree": wiring_pictures.power(design)},
        "findings": design.findings_of("power"),
    }


NODE = RowKind(
    slug="node",
    called=_("source, block or load"),
    form=NodeForm,
    section="power",
    preview=preview,
    preview_template="pages/wiring/power_result.html",
    in_table=("name", "kind", "place", "equipment"),
    sided=("name", "place"),
)

urlpatterns = [*row_acts.urls(NODE), *NODE.urls()]
