"""All wood of a job: what is cut, from which sheets, and what the machines cannot do."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from acoustics.carcass.panels.cut_list import CutPart, check_saw, check_whole
from acoustics.carcass.panels.gluing import glue_order
from acoustics.carcass.panels.mass import Mass
from acoustics.carcass.panels.supplies import Supplies, together
from acoustics.carcass.shape.errors import SheetError
from acoustics.carcass.sheets.blanks import Blank, Sheet, blanks, check_blanks
from acoustics.carcass.sheets.nesting import (
    Mode,
    Nest,
    NestedSheet,
    Offcut,
    from_stock,
    nest,
)
from jobs import units
from jobs.design.box.boxes import BoxResult
from jobs.design.box.checks import SECTION
from jobs.design.carcass.rounding import rounded_panels
from jobs.design.records.about import about
from jobs.design.records.findings import Finding, Term, adopt, reason
from jobs.design.records.records import JobRecords
from jobs.design.wood.pieces import Piece, pieces_of
from jobs.design.wood.trim import TrimResult
from jobs.design.wording import term
from jobs.design.wording.joining import GLUING
from jobs.models import SheetMaterial, Workshop

# Two thicknesses closer than this are one sheet [m].
SAME_SHEET = 1e-5


@dataclass(frozen=True, kw_only=True)
class BoxPieces:
    """The pieces of one box, with the letter their numbers begin with."""

    letter: str
    result: BoxResult
    pieces: tuple[Piece, ...]

    @property
    def rows(self) -> list[tuple[Piece, CutPart]]:
        """Each piece with its line of the cut list."""
        parts = self.result.wood.parts if self.result.wood else ()
        return list(zip(self.pieces, parts, strict=True))

    @property
    def steps(self) -> list[str]:
        """What is glued to what, one sentence a step."""
        if self.result.wood is None:
            return []
        number = {panel.name: piece.label for piece, part in self.rows for panel in part.panels}

        def said(*names: str) -> str:
            return ", ".join(f"{term(name)} ({number[name]})" for name in names)

        return [
            str(GLUING[step.reason]).format(panel=said(step.panel), onto=said(*step.onto))
            for step in glue_order(self.result.wood.carcass)
        ]

    @property
    def supplies(self) -> Supplies | None:
        """What to have at hand to glue, screw and seal it."""
        return self.result.wood.supplies if self.result.wood else None

    @property
    def mass(self) -> Mass | None:
        """What the box weighs as far as it is known."""
        return self.result.wood.mass if self.result.wood else None

    @property
    def unweighed(self) -> list[str]:
        """What in it has no known mass, as people call it."""
        wood = self.result.wood
        unknown = wood.mass.unknown if wood else ()
        return [str(wood.places.get(kind, Term((kind,)))) for kind in unknown] if wood else []


@dataclass(frozen=True, kw_only=True)
class SheetPlan:
    """What is cut from one material; without a nest, `refused` may say why."""

    material: SheetMaterial | None
    thickness: float
    pieces: tuple[Piece, ...]
    nest: Nest | None = None
    refused: SheetError | None = None

    @property
    def trouble(self) -> str:
        """Why nothing was laid out, or nothing."""
        return "" if self.refused is None else reason(self.refused)

    @property
    def bought(self) -> int:
        """New sheets."""
        return sum(not sheet.from_stock for sheet in self.nest.sheets) if self.nest else 0

    @property
    def from_stock(self) -> list[str]:
        """The offcuts that are cut up, and where each stands."""
        sheets = self.nest.sheets if self.nest else ()
        return [sheet.sheet.name for sheet in sheets if sheet.from_stock]

    @property
    def offcuts(self) -> list[tuple[int, Offcut]]:
        """What is left over and worth keeping, with the number of its sheet."""
        sheets = self.nest.sheets if self.nest else ()
        return [(n, offcut) for n, sheet in enumerate(sheets, start=1) for offcut in sheet.offcuts]

    def laid(
        self, sheet: NestedSheet, *, turn_over: Callable[[Piece], bool] = lambda piece: False
    ) -> list[Piece]:
        """The pieces where they lie on a sheet, outer face up unless they are turned over."""
        return [
            (piece.turned_over() if turn_over(piece) else piece).laid(
                part.x, part.y, turned=part.turned
            )
            for part in sheet.parts
            for piece in [self.pieces[part.blank.number]]
        ]


@dataclass(frozen=True, kw_only=True)
class Cutting:
    """Everything that is cut for a job."""

    boxes: tuple[BoxPieces, ...]
    trims: tuple[TrimResult, ...]
    plans: tuple[SheetPlan, ...]

    @property
    def supplies(self) -> Supplies | None:
        """What to order for all boxes together; None where one box says it all."""
        each = [needed for box in self.boxes if (needed := box.supplies)]
        return together(each) if len(each) > 1 else None

    @property
    def pieces(self) -> list[Piece]:
        """Every piece, those of boxes first."""
        of_boxes = [piece for box in self.boxes for piece in box.pieces]
        return of_boxes + [piece for trim in self.trims for piece in trim.pieces]


def letters(boxes: Iterable[BoxResult]) -> dict[int, str]:
    """Give every box that is built a letter, in their order; its parts are numbered under it.

    After Z comes AA: no letter is given twice.
    """
    built = [box.box.pk for box in boxes if box.box.chosen]
    return {pk: _letter(number) for number, pk in enumerate(built)}


def _letter(number: int) -> str:
    ahead, last = divmod(number, 26)
    return (_letter(ahead - 1) if ahead else "") + chr(65 + last)


def box_pieces(boxes: Sequence[BoxResult]) -> tuple[BoxPieces, ...]:
    """Lay the parts of every box that is built flat, numbered under its letter."""
    letter = letters(boxes)
    return tuple(
        BoxPieces(
            letter=letter[box.box.pk],
            result=box,
            pieces=pieces_of(
                box.wood.parts,
                box.wood.carcass,
                letter[box.box.pk],
                rounded_panels(box.box, box.wood),
            ),
        )
        for box in boxes
        if box.box.chosen and box.wood
    )


def all_pieces(boxes: Sequence[BoxResult], trims: Sequence[TrimResult]) -> list[Piece]:
    """Return every piece of a job, those of boxes first; nothing is nested for it."""
    return [
        *(piece for box in box_pieces(boxes) for piece in box.pieces),
        *(piece for trim in trims for piece in trim.pieces),
    ]


def work_out_cutting(
    records: JobRecords, boxes: Sequence[BoxResult], trims: Sequence[TrimResult]
) -> Cutting:
    """Lay all pieces on the workshop's sheets, those of one material together."""
    built = box_pieces(boxes)
    wanted = [(piece, box.result.box.material) for box in built for piece in box.pieces]
    wanted += [(piece, trim.material) for trim in trims for piece in trim.pieces]
    groups: dict[tuple[int, float], list[Piece]] = {}
    materials: dict[int, SheetMaterial] = {}
    for piece, usual in wanted:
        material = _sheet_for(piece.thickness, usual, records.sheet_materials)
        key = (material.pk if material else 0, round(piece.thickness, 5))
        groups.setdefault(key, []).append(piece)
        if material:
            materials[key[0]] = material
    plans = tuple(
        _plan(materials.get(pk), thickness, pieces, records)
        for (pk, thickness), pieces in groups.items()
    )
    return Cutting(boxes=built, trims=tuple(trims), plans=plans)


def _sheet_for(
    thickness: float, usual: SheetMaterial | None, sheets: Iterable[SheetMaterial]
) -> SheetMaterial | None:
    """The material of its box, or the first sheet of the catalogue that is as thick."""
    for sheet in (usual, *sheets):
        if sheet and abs(sheet.thickness - thickness) < SAME_SHEET:
            return sheet
    return None


def _plan(
    material: SheetMaterial | None,
    thickness: float,
    pieces: Sequence[Piece],
    records: JobRecords,
) -> SheetPlan:
    sheet, shop = _sheet(material), records.workshop
    laid, refused = None, None
    if sheet:
        try:
            laid = _laid(sheet, _blanks(pieces), _kept(material, records), shop)
        except SheetError as error:
            refused = error
    return SheetPlan(
        material=material, thickness=thickness, pieces=tuple(pieces), nest=laid, refused=refused
    )


def _kept(material: SheetMaterial | None, records: JobRecords) -> list[Sheet]:
    """The workshop's offcuts of a material."""
    return [
        Sheet(
            name=_offcut_name(offcut.length, offcut.width, offcut.place),
            length=offcut.length,
            width=offcut.width,
        )
        for offcut in records.offcuts
        if material and offcut.material_id == material.pk
    ]


def _offcut_name(length: float, width: float, place: str) -> str:
    size = f"{units.show(length, 'length')} × {units.show(width, 'length')}"
    return f"{size}, {place}" if place else size


def _laid(sheet: Sheet, parts: list[Blank], stock: list[Sheet], shop: Workshop) -> Nest:
    """Lay parts on offcuts first, and what is left on as few new sheets as can be found."""
    mode: Mode = shop.cutting  # type: ignore[assignment]
    smallest = shop.smallest_offcut
    used, left = from_stock(parts, stock, kerf=shop.kerf, mode=mode, smallest_offcut=smallest)
    if not left:
        return Nest(sheets=used, lower_bound=0)
    fresh = nest(
        left,
        sheet,
        kerf=shop.kerf,
        trim=shop.sheet_trim,
        mode=mode,
        smallest_offcut=smallest,
    )
    return Nest(sheets=(*used, *fresh.sheets), lower_bound=fresh.lower_bound)


def _sheet(material: SheetMaterial | None) -> Sheet | None:
    if material is None or material.sheet_length is None or material.sheet_width is None:
        return None
    return Sheet(name=str(material), length=material.sheet_length, width=material.sheet_width)


def _blanks(pieces: Iterable[Piece]) -> list[Blank]:
    return [piece.blank(number) for number, piece in enumerate(pieces)]


def check_machines(
    records: JobRecords, boxes: Iterable[BoxResult], trims: Iterable[TrimResult]
) -> list[Finding]:
    """Find what the saw cannot tilt to and what no sheet can hold; nothing is nested for it."""
    findings: list[Finding] = []
    shop = records.workshop
    for result in boxes:
        wood, box = result.wood, result.box
        if wood is None or not box.chosen:
            continue
        bevels = [*check_saw(wood.panels, tilt_limit=shop.saw_tilt), *check_whole(wood.panels)]
        findings += adopt(bevels, section=SECTION, about=about(box), name=box.name, places={})
        for thickness in sorted({part.panel.thickness for part in wood.parts}):
            if sheet := _sheet(_sheet_for(thickness, box.material, records.sheet_materials)):
                wanted = blanks(wood.parts, thickness=thickness)
                for large in check_blanks(wanted, sheet, trim=shop.sheet_trim):
                    adopted = adopt([large], section=SECTION, about=about(box), name=box.name)[0]
                    findings.append(replace(adopted, place=(Term(large.detail), sheet.name)))
    for trim in trims:
        findings += trim.findings
        if trim.piece and (sheet := _sheet(trim.material)):
            too_large = check_blanks([trim.piece.blank(0)], sheet, trim=shop.sheet_trim)
            name = f"{trim.piece.label} {trim.piece.name} / {sheet.name}"
            findings += adopt(too_large, section=SECTION, about=about(trim.record), name=name)
    return findings
