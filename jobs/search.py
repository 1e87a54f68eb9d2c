"""What is found by words: written beside every record as it is saved, looked up by beginnings."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

from django.db import models
from django.db.models import Exists, OuterRef, QuerySet

from jobs.models import (
    Customer,
    Decision,
    EquipmentItem,
    Job,
    JobPart,
    Part,
    Run,
    Vehicle,
    Word,
)
from jobs.models.words import LONGEST

Shelf = Word.Shelf

# Of more records than this with one beginning, those looked at are the nearest to it, newest first.
MOST = 300
MOST_TYPED = 6
MANY = 500  # rows in one statement
_WORD = re.compile(r"[^\W_]+")
# Read off a label or over the telephone, often without its beginning or its blanks.
_BY_ENDING = {"serial", "plate", "vin", "phone"}
_LEAST_ENDING = 4
# Tables of figures, kept as they were pasted.
_NOT_WORDS = {"content", "second"}


def words_in(text: str) -> list[bytes]:
    """Return a text's words as they are kept: small letters, no accents, cut to length.

    >>> words_in("Kühlwagen, B-AX 12")
    [b'kuhlwagen', b'b', b'ax', b'12']
    """
    plain = "".join(
        letter
        for letter in unicodedata.normalize("NFKD", text.casefold())
        if not unicodedata.combining(letter)
    )
    return [word.encode()[:LONGEST] for word in _WORD.findall(plain)]


def _endings(text: str) -> Iterator[bytes]:
    """Return a number as one word, and every ending of it somebody may know it by."""
    whole = b"".join(words_in(text))[:LONGEST]
    yield whole
    yield from (whole[n:] for n in range(1, len(whole) - _LEAST_ENDING + 1))


def _texts(record: models.Model) -> Iterator[bytes]:
    """Return the words a person wrote into a record; of a part, its maker and name."""
    read_as = Part if isinstance(record, Part) else record
    for column in read_as._meta.concrete_fields:
        is_text = isinstance(column, models.CharField | models.TextField) and not column.choices
        text = getattr(record, column.attname) if is_text else ""
        if not text or column.name in _NOT_WORDS:
            continue
        yield from words_in(text)
        if column.name in _BY_ENDING:
            yield from _endings(text)


def _words(record: models.Model) -> set[bytes]:
    """Return what a record is found by; a removed one by nothing."""
    if getattr(record, "removed_at", None):
        return set()
    words = set(_texts(record))
    if isinstance(record, Job):
        words |= {b"".join(words_in(record.code)), str(record.number).encode()}
        words |= {*words_in(record.code), *_texts(record.vehicle), *_texts(record.vehicle.customer)}
    elif isinstance(record, Run):
        words.add(record.label.casefold().encode())
    return words - {b""}


def _shelf(record: models.Model) -> Word.Shelf | None:
    """Return where a search lists a record, if it does; a decision is read with its finding."""
    if isinstance(record, Decision):
        return None
    kinds = {
        Job: Shelf.JOB,
        Customer: Shelf.CUSTOMER,
        Part: Shelf.PART,
        Run: Shelf.RUN,
        EquipmentItem: Shelf.ITEM,
        JobPart: Shelf.PLACE,
    }
    return next((shelf for kind, shelf in kinds.items() if isinstance(record, kind)), None)


def _kind(record: models.Model) -> str:
    """Return a record's kind; every kind of part shares the keys of the catalogue."""
    return "part" if isinstance(record, Part) else str(record._meta.model_name)


def write(record: models.Model) -> None:
    """Bring the words kept for a record up to date, and those of the jobs it is read with."""
    shelf = _shelf(record)
    if shelf is not None:
        of_record = {"kind": _kind(record), "key": record.pk}
        kept = {
            bytes(word) for word in Word.objects.filter(**of_record).values_list("word", flat=True)
        }
        words = _words(record)
        if kept - words:
            Word.objects.filter(**of_record, word__in=kept - words).delete()
        Word.objects.bulk_create(
            [Word(shelf=shelf, word=word, **of_record) for word in sorted(words - kept)],
            ignore_conflicts=True,
        )
    if isinstance(record, Vehicle):
        rewrite(Job.objects.filter(vehicle=record))
    elif isinstance(record, Customer):
        rewrite(Job.objects.filter(vehicle__customer=record))


def write_parts(parts: Sequence[Part]) -> None:
    """Bring the words of many parts up to date; a bulk write sends no signal."""
    keys = [part.pk for part in parts]
    for start in range(0, len(keys), MANY):
        Word.objects.filter(kind="part", key__in=keys[start : start + MANY]).delete()
    Word.objects.bulk_create(
        [
            Word(shelf=Shelf.PART, kind="part", key=part.pk, word=word)
            for part in parts
            for word in sorted(_words(part))
        ],
        batch_size=MANY,
    )


def rewrite(jobs: QuerySet[Job]) -> None:
    """Bring the words of these jobs up to date."""
    for job in jobs.select_related("vehicle__customer"):
        write(job)


def forget(record: models.Model) -> None:
    """Drop the words of a record that is gone for good."""
    if _shelf(record) is not None:
        Word.objects.filter(kind=_kind(record), key=record.pk).delete()


def write_first() -> None:
    """Write the words of every record of an installation from before there were any."""
    if Word.objects.exists():
        return
    kinds: Iterable[Any] = (
        Job.objects.select_related("vehicle__customer"),
        Customer.objects,
        Part.objects,
        *(kind.objects for kind in JobPart.__subclasses__()),
    )
    for records in kinds:
        for record in records.iterator():
            write(record)


@dataclass(frozen=True, kw_only=True)
class Hits:
    """Records of one shelf that bear every word asked for, best first, as (kind, key)."""

    records: list[tuple[str, int]] = field(default_factory=list)
    # More bear the words than were looked at: another word would tell them apart.
    more: bool = False

    def keys(self, kind: str) -> list[int]:
        """Return the keys of one kind, best first."""
        return [key for of, key in self.records if of == kind]


def look_up(text: str, shelf: Word.Shelf, most: int) -> Hits:
    """Find the records of a shelf that bear a word beginning with each word typed."""
    typed = words_in(text)[:MOST_TYPED]
    hits = _bearing_all(typed, shelf, most) if typed else Hits()
    if not hits.records and len(typed) > 1:
        # A plate or a number, with blanks where its owner writes none.
        hits = _bearing_all([b"".join(typed)[:LONGEST]], shelf, most)
    return hits


def _bearing_all(typed: list[bytes], shelf: Word.Shelf, most: int) -> Hits:
    bearing = [_bearing(word).filter(shelf=shelf) for word in typed]
    counts = [rows[:MOST].count() for rows in bearing] if len(typed) > 1 else [0]
    rarest = counts.index(min(counts))
    rows = bearing[rarest]
    others = [word for n, word in enumerate(typed) if n != rarest]
    if others and counts[rarest] == MOST:
        rows = Word.objects.filter(pk__in=rows.order_by("word", "-key").values("pk")[:MOST])
    for word in others:
        beside = _bearing(word).filter(kind=OuterRef("kind"), key=OuterRef("key"))
        rows = rows.filter(Exists(beside))
    seen = list(rows.order_by("word", "-key").values_list("word", "kind", "key")[:MOST])
    written_out = [(kind, key) for word, kind, key in seen if bytes(word) == typed[rarest]]
    begun = sorted({(kind, key) for _word, kind, key in seen}, key=lambda record: -record[1])
    records = list(dict.fromkeys([*written_out, *begun]))
    return Hits(
        records=records[:most], more=len(records) > most or MOST in {len(seen), min(counts)}
    )


def _bearing(word: bytes) -> QuerySet[Word]:
    """Return the rows of words that begin so; no letter is written with the byte 0xff."""
    return Word.objects.filter(word__gte=word, word__lt=word + b"\xff")
