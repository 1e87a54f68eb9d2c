"""What is bought for a job, as lines: equipment, sheets of wood, cable and its ends, covering."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from django.utils.translation import gettext as _

from jobs.design.agreement.lines import Group, Line, Unit
from jobs.design.box.boxes import BoxResult
from jobs.design.records.about import about
from jobs.design.records.records import JobRecords
from jobs.design.wiring.cores import fuses_of
from jobs.design.wiring.schedule import LaidRuns
from jobs.design.wood.cutting import SheetPlan, work_out_cutting
from jobs.design.wood.trim import TrimResult, rolls_of
from jobs.models import Conductor, EquipmentItem, Part, Run, Terminal
from jobs.models.box.box_kinds import Behind, kind_of
from wiring.runs.labelled import Allowance, LabelledRun
from wiring.runs.order import ORDER_STEP

# Areas of covering are counted in steps of this [m²], rounded up.
AREA_STEP = 0.01


@dataclass(frozen=True, kw_only=True)
class Bought:
    """The lines of what is bought, and what could not be counted."""

    lines: Sequence[Line]
    # Labels of the runs without a cable or without a length.
    unmeasured: tuple[str, ...]
    # (key, words) of wood that no sheet is known for.
    not_laid: tuple[tuple[str, str], ...]


def work_out_bought(
    records: JobRecords,
    boxes: Sequence[BoxResult],
    trims: Sequence[TrimResult],
    laid: LaidRuns,
) -> Bought:
    """Count everything that is bought; what offcuts give is free."""
    currency = records.workshop.currency
    lengths, unmeasured = _cable_lengths(records, laid)
    plans = work_out_cutting(records, boxes, trims).plans
    lines = [
        *_equipment(records.equipment, currency),
        *_sheets(plans, currency),
        *(
            _of_part(part, Group.CABLE, Unit.METRE, length, currency)
            for part, length in lengths.items()
        ),
        *(
            _of_part(part, Group.CABLE, Unit.PIECE, Decimal(number), currency)
            for part, number in _pieces(records, laid).items()
        ),
        *_covering(records, trims),
        *_rolls(trims, currency),
    ]
    not_laid = [
        (f"sheet {plan.thickness:.4f}", _sheet_words(plan)) for plan in plans if plan.nest is None
    ]
    not_laid += [
        (about(result.box).id, result.box.name)
        for result in boxes
        if result.box.chosen and result.wood is None and _is_of_wood(result)
    ]
    not_laid += [(about(trim.record).id, trim.record.name) for trim in trims if trim.piece is None]
    return Bought(lines=lines, unmeasured=unmeasured, not_laid=tuple(not_laid))


def _is_of_wood(result: BoxResult) -> bool:
    return kind_of(result.box).behind not in (Behind.OPEN, Behind.DOOR)


def _of_part(
    part: Part,
    group: Group,
    unit: Unit,
    quantity: Decimal | None,
    currency: str,
    details: tuple[str, ...] = (),
) -> Line:
    return Line(
        group=group,
        key=about(part).id,
        name=str(part),
        unit=unit,
        quantity=quantity,
        each=part.price,
        cost_each=part.cost,
        tax_class=part.tax_class,
        currency=currency,
        details=details,
    )


def _equipment(items: Iterable[EquipmentItem], currency: str) -> Iterator[Line]:
    """One line for each part, however many places it goes to."""
    places: dict[Part, list[EquipmentItem]] = defaultdict(list)
    for item in items:
        places[item.part].append(item)
    for part, of_it in places.items():
        quantity = Decimal(sum(item.quantity for item in of_it))
        where = tuple(dict.fromkeys(item.place for item in of_it))
        yield _of_part(part, Group.EQUIPMENT, Unit.PIECE, quantity, currency, where)


def _sheets(plans: Sequence[SheetPlan], currency: str) -> Iterator[Line]:
    """New sheets that are cut into; one material of two thicknesses is two plans."""
    bought: Counter[Part] = Counter()
    for plan in plans:
        if plan.material is not None and plan.nest is not None:
            bought[plan.material] += plan.bought
    for material, number in bought.items():
        if number:
            yield _of_part(material, Group.WOOD, Unit.SHEET, Decimal(number), currency)


def _sheet_words(plan: SheetPlan) -> str:
    names = ", ".join(piece.title for piece in plan.pieces)
    if plan.material is None:
        return _("no sheet of their thickness: %(parts)s") % {"parts": names}
    return f"{plan.material}: {names}"


def _cable_lengths(
    records: JobRecords, laid_runs: LaidRuns
) -> tuple[dict[Conductor, Decimal], tuple[str, ...]]:
    """Return how much of each cable is cut, in steps of its order, and the runs not counted."""
    shop = records.workshop
    allowance = Allowance(
        slack=shop.cable_slack, per_end=shop.cable_per_end, heat_shrink=shop.heat_shrink
    )
    metres: dict[Conductor, float] = defaultdict(float)
    unmeasured = []
    for run in records.runs:
        laid = laid_runs.by_label.get(run.label)
        if laid is None or laid.length is None or any(core.open_length for core in laid.cores):
            unmeasured.append(run.label)
        if laid is not None:
            for part, length in _cut(run, laid, allowance):
                metres[part] += length
    steps = {part: math.ceil(length / ORDER_STEP - 1e-9) for part, length in metres.items()}
    return {part: Decimal(number) / 10 for part, number in steps.items()}, tuple(unmeasured)


def _cut(run: Run, laid: LabelledRun, allowance: Allowance) -> Iterator[tuple[Conductor, float]]:
    """Each cable of a run with its length; cores of one sheath are one cable."""
    assert run.conductor is not None
    if laid.length is None:
        return
    lengths = [core.length or laid.length for core in laid.cores if not core.open_length]
    if laid.one_sheath:
        yield run.conductor, allowance.cut_length(max(lengths))
        return
    for number, core in enumerate(laid.cores):
        if not core.open_length:
            back = run.kind == Run.Kind.POWER and number == 1 and run.return_conductor
            length = allowance.cut_length(core.length or laid.length)
            yield (back or run.conductor), length


def _pieces(records: JobRecords, laid_runs: LaidRuns) -> Counter[Part]:
    """Count terminals, fuses and their holders."""
    pieces: Counter[Part] = Counter()
    for run in records.runs:
        if laid := laid_runs.by_label.get(run.label):
            pieces.update(_terminals(run, laid))
        fitted = (run.fuse, run.end_fuse, run.fuse_holder, run.end_fuse_holder)
        pieces.update(part for part in fitted if part is not None)
    return pieces


def _terminals(run: Run, laid: LabelledRun) -> Iterator[Terminal]:
    """The terminals of a run, one for each end of each core; of plugs one for each end."""
    start, end = run.start_terminal, run.end_terminal
    yield from (part for part in (start, end) if part is not None and part.plug)
    for fuse in fuses_of(run):
        yield from [fuse.terminal] * 2 if fuse.parts_cable and fuse.terminal else []
    for number, _core in enumerate(laid.cores):
        back = run.kind == Run.Kind.POWER and number == 1
        at_start = (run.return_start_terminal if back else None) or start
        at_end = (run.return_end_terminal if back else None) or end
        yield from (part for part in (at_start, at_end) if part is not None and not part.plug)


def _covering(records: JobRecords, trims: Sequence[TrimResult]) -> Iterator[Line]:
    """What covers trim panels of no cover material, as their areas at the shop's own price."""
    area = 0.0
    names = []
    for trim in trims:
        if trim.covered and not trim.cover:
            width, height = trim.covered
            area += width * height
            names.append(trim.record.name)
    if not names:
        return
    shop = records.workshop
    yield Line(
        group=Group.COVERING,
        key="covering",
        name=_("Covering of trim panels"),
        unit=Unit.SQUARE_METRE,
        quantity=Decimal(math.ceil(area / AREA_STEP - 1e-9)) / 100,
        each=shop.covering_price,
        cost_each=shop.covering_cost,
        currency=shop.currency,
        details=tuple(names),
    )


def _rolls(trims: Sequence[TrimResult], currency: str) -> Iterator[Line]:
    """Cover by the metre of its roll; the metres of one without a width are not known."""
    for order in rolls_of(trims):
        metres = None if order.roll is None else Decimal(round(order.roll.order * 10)) / 10
        names = tuple(cut.title for cut in order.cuts)
        yield _of_part(order.cover, Group.COVERING, Unit.METRE, metres, currency, names)
