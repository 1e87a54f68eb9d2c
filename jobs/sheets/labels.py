"""Labels on the workshop's own stock: flags for cables, stickers for places and for the wood."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from urllib.parse import quote

from django.urls import reverse
from django.utils.translation import gettext as _

from jobs.design.job.whole import JobDesign
from jobs.design.wiring.schedule import FusePlace, Line, work_out_schedule
from jobs.models import Job, Run, Workshop
from jobs.sheets import codes
from jobs.sheets.place_labels import place_labels
from jobs.sheets.stickers import sticker_sheets

PAPER_SIZES = {"a4": (0.210, 0.297), "letter": (0.2159, 0.2794)}  # m
ENDS = (True, False)  # each run is labelled where it starts and where it ends
PADDING = 1.5e-3
HEAD = 7e-3  # of the paper's upper edge, needed for the line that says what is printed
MM = 1e3


@dataclass(frozen=True, kw_only=True)
class Label:
    """One adhesive label: printed twice, so that both sides of the flag read."""

    run: Run
    # What it says: the run and the sign of the core, its colour, from where to where.
    name: str
    colour: str
    start: str
    end: str
    fuses: tuple[FusePlace, ...]
    # What the end it goes on is screwed to, and how tight.
    stud: str
    torque: float | None
    code: str
    column: int
    row: int


@dataclass(frozen=True, kw_only=True)
class Stock:
    """Where the labels sit on their sheet, and how one is divided."""

    workshop: Workshop

    @property
    def per_sheet(self) -> int:
        """Labels on one sheet of paper."""
        return max(self.workshop.label_columns * self.workshop.label_rows, 1)

    @property
    def face(self) -> float:
        """Width of one side of the flag."""
        return (self.workshop.label_width - self.workshop.label_wrap) / 2.0

    @property
    def code_side(self) -> float:
        """Side of the square that a code may fill, quiet zone included."""
        return min(self.workshop.label_height - 2.0 * PADDING, self.face / 2.0)

    @property
    def columns(self) -> list[tuple[int, str]]:
        """(number, millimetres from the left) of each column."""
        step = self.workshop.label_width + self.workshop.label_gap
        return [
            (n, _mm(self.workshop.label_left + n * step))
            for n in range(self.workshop.label_columns)
        ]

    @property
    def rows(self) -> list[tuple[int, str]]:
        """(number, millimetres from the top) of each row."""
        step = self.workshop.label_height + self.workshop.label_row_gap
        return [
            (n, _mm(self.workshop.label_top + n * step)) for n in range(self.workshop.label_rows)
        ]

    def style(self, *, has_code: bool) -> str:
        """The measures of the stock as a style sheet, to be linked."""
        shop, code = self.workshop, self.code_side
        height = _mm(shop.label_height)
        beside = _mm(code) if has_code else "0mm"
        rules = [
            f".label {{ width: {_mm(shop.label_width)}; height: {height} }}",
            f".face {{ width: {_mm(self.face)}; height: {height} }}",
            f".face .code {{ width: {_mm(code)}; height: {_mm(code)} }}",
            f".sticker .code {{ width: {_mm(code)}; height: {_mm(code)} }}",
            f".sticker .beside-code {{ right: {_mm(code)} }}",
            f".face .stamp {{ width: {_mm(code)} }}",
            f".face .words {{ right: {beside} }}",
            f".face.far .words {{ right: calc({beside} + {_mm(PADDING)}) }}",
            *(f".c{n} {{ left: {left} }}" for n, left in self.columns),
            *(f".r{n} {{ top: {top} }}" for n, top in self.rows),
        ]
        empty = "".join(
            f" @{box} {{ content: none; border: 0 }}"
            for box in ("top-left", "top-right", "bottom-left", "bottom-center", "bottom-right")
        )
        for name, (width, length) in PAPER_SIZES.items():
            size = f"{_mm(width)} {_mm(length)}"
            rules += [
                f"@page stock-{name} {{ size: {size}; margin: 0;{empty} }}",
                f".paper-{name} .stock {{ page: stock-{name};"
                f" width: {_mm(width)}; height: {_mm(length)} }}",
            ]
        return "data:text/css;charset=utf-8," + quote("".join(rules))

    def fits(self, paper: str) -> bool:
        """Whether the labels lie on this paper."""
        shop = self.workshop
        across = shop.label_columns * (shop.label_width + shop.label_gap) - shop.label_gap
        down = shop.label_rows * (shop.label_height + shop.label_row_gap) - shop.label_row_gap
        width, height = PAPER_SIZES[paper]
        return shop.label_left + across <= width and shop.label_top + down <= height


def context(design: JobDesign) -> dict[str, Any]:
    """Lay the labels of every run out on the stock."""
    workshop = design.records.workshop
    stock = Stock(workshop=workshop)
    schedule = work_out_schedule(design.records, design.power, workshop)
    runs = list(design.records.runs)
    no_code = "" if not runs else why_no_code(stock, _address(workshop, design.job, runs[-1]))
    by_label = {fuse.label: fuse for fuse in schedule.fuses}
    # A name that broke at its sign would push the fuse off the label.
    rows = {
        (f"{row.run.label}{row.core.sign}", row.at_start): row
        for row in schedule.ends
        if row.cut is None
    }
    labels: list[Label] = []
    for line in schedule.lines:
        run = line.run
        code = "" if no_code else codes.code_uri(_address(workshop, design.job, run))
        fuses = tuple(by_label[label] for label in line.fuses)
        for name, colour, start, end in _cables(line):
            for at_start in ENDS:
                end_row = rows.get((name, at_start))
                place = len(labels) % stock.per_sheet
                row, column = divmod(place, max(workshop.label_columns, 1))
                labels.append(
                    Label(
                        run=run,
                        name=name,
                        colour=colour,
                        start=start,
                        end=end,
                        fuses=fuses,
                        stud=end_row.stud if end_row else "",
                        torque=end_row.torque if end_row else None,
                        code=code,
                        column=column,
                        row=row,
                    )
                )
    sheets = [labels[n : n + stock.per_sheet] for n in range(0, len(labels), stock.per_sheet)]
    return {
        "measures": stock.style(has_code=not no_code),
        "misfits": [name for name in PAPER_SIZES if not stock.fits(name)],
        "label_sheets": sheets,
        "label_count": len(labels),
        "place_sheets": place_labels(
            design,
            schedule,
            columns=workshop.label_columns,
            per_sheet=stock.per_sheet,
            code_side=stock.code_side,
        ),
        "sticker_sheets": sticker_sheets(design, workshop.label_columns, stock.per_sheet),
        "no_code": no_code,
        "has_head": workshop.label_top >= HEAD,
    }


def _cables(line: Line) -> list[tuple[str, str, str, str]]:
    """(name, colour, from, to) of each cable of a run: single cores apart, a pair as one."""
    run = line.run
    colours = " + ".join(colour for colour in (run.colour, run.return_colour) if colour)
    if line.row is None or line.row.run.one_sheath:
        return [(run.label, colours, run.goes_from, run.goes_to)]
    return [
        (
            f"{run.label}{core.sign}",
            core.colour,
            core.start_place or run.goes_from,
            core.end_place or run.goes_to,
        )
        for core in line.row.run.cores
    ]


def _mm(metres: float) -> str:
    """A length as the style sheet writes it, whatever the reader's language."""
    return f"{metres * MM:.2f}mm"


def _address(workshop: Workshop, job: Job, run: Run) -> str:
    """The address of a run's record."""
    return codes.address(workshop, reverse("run", args=[job.code, run.label]))


def why_no_code(stock: Stock, address: str) -> str:
    """Say why no code is printed, or nothing when one is."""
    if not address:
        return _(
            "No codes: the web address of this app is not entered. The manager enters it on the "
            "workshop page; then each label leads to the record of its cable."
        )
    if codes.module(address, stock.code_side) < codes.SMALLEST_MODULE:
        return _("No codes: this label is too small for one that a phone can still read.")
    return ""
