"""A supplier's file as rows of text: CSV in whatever letters and marks, or a spreadsheet."""

from __future__ import annotations

import csv
import datetime as dt
import io
import zlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any
from zipfile import BadZipFile, ZipFile

from django.utils.translation import gettext as _

MOST_BYTES = 10_000_000
MOST_ROWS = 20_000
MOST_COLUMNS = 60
LONGEST_CELL = 1000
# A spreadsheet is a zip: what it may unfold to, and how many times its own size; common practice.
MOST_UNFOLDED, MOST_FOLDED = 50_000_000, 100
SEPARATORS = ";,\t|"
OLD_SPREADSHEET = b"\xd0\xcf\x11\xe0"


class UnreadableFileError(Exception):
    """The file as a whole cannot be read; the message is for whoever sent it."""


@dataclass(frozen=True, kw_only=True)
class Table:
    """The rows of a file, the first of them its head, and how its letters were read."""

    head: Sequence[str]
    rows: Sequence[Sequence[str]]
    encoding: str


def read(content: bytes) -> Table:
    """Read a file, or say why it cannot be read."""
    if len(content) > MOST_BYTES:
        words = {"most": MOST_BYTES // 1_000_000}
        raise UnreadableFileError(_("The file is larger than %(most)s MB.") % words)
    if content.startswith(OLD_SPREADSHEET):
        raise UnreadableFileError(_("This is an old kind of spreadsheet. Save it as .xlsx or CSV."))
    if content.startswith(b"PK"):
        encoding, rows = "", list(_first_rows(_of_spreadsheet(content)))
    else:
        text, encoding = _text(content)
        rows = list(_first_rows(_of_text(text)))
    if not rows:
        raise UnreadableFileError(_("There is nothing in this file."))
    if len(rows) - 1 > MOST_ROWS:
        words = {"most": MOST_ROWS}
        raise UnreadableFileError(_("More than %(most)s rows: send it in parts.") % words)
    return Table(head=rows[0], rows=rows[1:], encoding=encoding)


def _first_rows(rows: Iterator[list[str]]) -> Iterator[list[str]]:
    """Leave out empty lines before the head; stop soon after too many."""
    begun = 0
    for row in rows:
        begun += bool(begun or any(row))
        if begun:
            yield row
        if begun > MOST_ROWS + 1:
            return


def _text(content: bytes) -> tuple[str, str]:
    """Return a file's letters: Unicode where it is such, else as Western European."""
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        names = ["utf-16"]
    else:
        names = ["utf-8-sig", "cp1252", "latin-1"]
    for name in names:
        try:
            text = content.decode(name)
        except UnicodeDecodeError:
            continue
        if "\0" in text:
            break
        return text, {"utf-8-sig": "UTF-8", "cp1252": "Latin-1"}.get(name, name.upper())
    raise UnreadableFileError(_("This is neither a table as text nor a spreadsheet."))


def _of_text(text: str) -> Iterator[list[str]]:
    """Rows of a CSV file; what separates its cells is what its first line has most of."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    separator = max(SEPARATORS, key=first.count)
    try:
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True):
            yield [" ".join(cell.split())[:LONGEST_CELL] for cell in row[:MOST_COLUMNS]]
    except csv.Error as error:
        words = {"why": error}
        raise UnreadableFileError(_("This table cannot be read: %(why)s.") % words) from error


def _of_spreadsheet(content: bytes) -> Iterator[list[str]]:
    """Rows of the first sheet of a workbook; formulas as they are written."""
    try:
        with ZipFile(io.BytesIO(content)) as packed:
            unfolded = sum(part.file_size for part in packed.infolist())
        if unfolded > min(MOST_UNFOLDED, MOST_FOLDED * len(content)):
            raise UnreadableFileError(_("This spreadsheet unfolds to more than is read."))
        yield from _cells(content)
    except (BadZipFile, KeyError, ValueError, TypeError, OSError, SyntaxError, zlib.error) as error:
        raise UnreadableFileError(_("This spreadsheet is damaged.")) from error


def _cells(content: bytes) -> Iterator[list[str]]:
    # Imported when first needed: it costs a fifth of a second, and most processes never read one.
    from openpyxl import load_workbook

    book = load_workbook(io.BytesIO(content), read_only=True, data_only=False)
    try:
        for row in book.worksheets[0].iter_rows(values_only=True):
            yield [_written(value) for value in row[:MOST_COLUMNS]]
    finally:
        book.close()


def _written(value: Any) -> str:
    """A cell as somebody would type it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "1" if value else "0"
    if isinstance(value, float):
        text = f"{Decimal(repr(value)):f}"
        whole, mark, rest = text.partition(".")
        # Three digits behind the mark could be read as thousands; four cannot.
        return whole if mark and not rest.strip("0") else f"{text}0" if len(rest) == 3 else text
    if isinstance(value, dt.datetime | dt.date):
        return value.isoformat()[:10]
    return " ".join(str(value).split())[:LONGEST_CELL]
