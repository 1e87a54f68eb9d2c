"""The built box worked out again from what was measured, beside the drawn one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from copy import copy
from dataclasses import dataclass

from django.utils.translation import gettext as _

from jobs import units
from jobs.design.box.boxes import BoxResult
from jobs.design.box.checks import SECTION
from jobs.design.box.figures import PORT_SPEEDS
from jobs.design.records.about import about
from jobs.design.records.findings import Finding
from jobs.models import Box, BoxAsBuilt

# So much of its litres may a built box be off before somebody looks: common practice, no source.
OFF = 0.05
# What the comparison shows besides sizes and litres, where both boxes have it.
SHOWN = {
    *("fc", "qtc", "fb", "f3", "rear_tuning", "front_tuning", "band_low", "band_high"),
    *("largest_excursion", *PORT_SPEEDS, "mass"),
}


@dataclass(frozen=True, kw_only=True)
class BuiltBox:
    """A measured box: what was drawn, and what the measured one comes to."""

    record: BoxAsBuilt
    designed: BoxResult
    built: BoxResult

    @property
    def litres(self) -> float | None:
        """What it holds: as filled, or worked out from the measured sizes [m³]."""
        return self.record.volume or self.built.net_volume

    @property
    def rows(self) -> list[tuple[str, str, str]]:
        """What, as designed, as built."""
        drawn, record = self.designed.box, self.record
        rows = [
            (_called(name), _size(getattr(drawn, name)), _size(getattr(record, name)))
            for name in BoxAsBuilt.SIZES
            if getattr(record, name) is not None
        ]
        if record.thickness is not None:
            wood = drawn.material.thickness if drawn.material else None
            rows.append((_("thickness of its wood"), _size(wood), _size(record.thickness)))
        drawn_net = units.show(self.designed.net_volume, "volume")
        built_net = units.show(self.built.net_volume, "volume")
        rows.append((_("net litres, worked out"), drawn_net, built_net))
        if record.volume is not None:
            filled = units.show(record.volume, "volume")
            rows.append((_("net litres, by filling it"), drawn_net, filled))
        after = {figure.name: figure for figure in self.built.figures}
        for figure in self.designed.figures:
            if figure.name in SHOWN and figure.name in after:
                was = units.show(figure.value, figure.kind)
                rows.append((figure.label, was, units.show(after[figure.name].value, figure.kind)))
        return rows

    @property
    def new_findings(self) -> list[Finding]:
        """What the built box trips over and the drawn one does not."""
        known = {(finding.code, finding.about.detail) for finding in self.designed.checked}
        return [
            finding
            for finding in self.built.checked
            if finding.severity != "note" and (finding.code, finding.about.detail) not in known
        ]


def as_measured(box: Box, record: BoxAsBuilt) -> Box:
    """Return the drawn box with every figure that was measured in its place."""
    built = copy(box)
    for name in BoxAsBuilt.SIZES:
        if (size := getattr(record, name)) is not None:
            setattr(built, name, size)
    if record.thickness is not None and box.material is not None:
        built.material = copy(box.material)
        built.material.thickness = record.thickness
    return built


def work_out_built(
    records: Sequence[BoxAsBuilt],
    designed: Sequence[BoxResult],
    again: Callable[[Box], BoxResult],
) -> list[BuiltBox]:
    """Work the newest measurement of each box out again."""
    by_box = {result.box.pk: result for result in designed}
    newest: dict[int, BoxAsBuilt] = {}
    for record in records:  # newest first
        newest.setdefault(record.box_id, record)
    return [
        BuiltBox(
            record=record,
            designed=by_box[record.box_id],
            built=again(as_measured(by_box[record.box_id].box, record)),
        )
        for record in newest.values()
        if record.box_id in by_box
    ]


def check_built(built: Sequence[BuiltBox]) -> Iterator[Finding]:
    """Ask where the built box holds other litres, and where it trips over what was not drawn."""
    for box in built:
        litres, wanted = box.litres, box.designed.net_volume
        if litres and wanted and abs(litres / wanted - 1) > OFF:
            yield Finding(
                code="built-litres-off",
                severity="look",
                section=SECTION,
                about=about(box.record),
                name=box.designed.box.name,
                value=litres,
                limit=wanted,
                unit="m³",
            )
        if box.new_findings:
            yield Finding(
                code="built-finds-more",
                severity="look",
                section=SECTION,
                about=about(box.record),
                name=box.designed.box.name,
                value=", ".join(finding.code for finding in box.new_findings),
                value_said="; ".join(finding.says.rstrip(".") for finding in box.new_findings),
            )


def _called(name: str) -> str:
    return str(getattr(BoxAsBuilt._meta.get_field(name), "verbose_name", name))


def _size(value: float | None) -> str:
    return units.show(value, "length")
