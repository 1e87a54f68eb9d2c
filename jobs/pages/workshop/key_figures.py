"""What a part is picked by: the few figures that tell it from its like, and finding it by them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import reduce
from operator import and_
from typing import Any

from django.db.models import Q, QuerySet

from jobs import units
from jobs.models import Part

# Models of the kinds, as a part leads to them; read with it in one query.
OWN = (
    *("driver", "amplifier", "processor", "conductor", "terminal", "fuse", "holder"),
    *("sheetmaterial", "damping", "cover", "supply"),
)
# What is sold as 165 mm measures a little more or less.
NEAR = 0.04
_FIGURE = re.compile(r"[0-9][0-9.,/]*(?:[ ]?[^\W\d_]+[²³]?|[ ]?[%\"])")


@dataclass(frozen=True, kw_only=True)
class Key:
    """One figure a part is known by: its kind of quantity, or none where it is a text."""

    text: str
    kind: str = ""
    value: float | None = None


def _quantity(part: Any, name: str, kind: str, before: str = "") -> Iterator[Key]:
    value = getattr(part, name)
    if value is not None:
        shown = units.show(value, kind, exact=True)
        yield Key(text=f"{before}{shown}", kind=kind, value=value)


def _driver(part: Any) -> Iterator[Key]:
    yield from _quantity(part, "outer_diameter", "length")
    coils = f"{part.coils} × " if part.coils > 1 else ""
    yield from _quantity(part, "nominal_impedance", "resistance", coils)
    yield from _quantity(part, "power", "power")
    yield from _quantity(part, "fs", "frequency")


def _amplifier(part: Any) -> Iterator[Key]:
    ratings = [rating for rating in part.ratings.all() if not rating.bridged]
    for rating in sorted(ratings, key=lambda rating: -rating.load)[:1]:
        power = units.show(rating.power, "power")
        load = units.show(rating.load, "resistance", exact=True)
        yield Key(text=f"{part.channels} × {power}", kind="power", value=rating.power)
        yield Key(text=load, kind="resistance", value=rating.load)
    if not ratings:
        yield Key(text=f"{part.channels} ×")
    yield from _quantity(part, "fuse_rating", "current")


def _processor(part: Any) -> Iterator[Key]:
    yield Key(text=f"{part.inputs} → {part.outputs}")


def _conductor(part: Any) -> Iterator[Key]:
    yield Key(text=part.size)
    if part.cores > 1:
        yield Key(text=f"{part.cores} ×")
    yield Key(text=str(part.get_metal_display()))


def _terminal(part: Any) -> Iterator[Key]:
    if part.stud:
        yield Key(text=part.stud)
    yield from _quantity(part, "largest_cable", "cross_section", "≤ ")


def _fuse(part: Any) -> Iterator[Key]:
    yield from _quantity(part, "rating", "current")
    yield Key(text=str(part.get_type_display()))


def _holder(part: Any) -> Iterator[Key]:
    yield Key(text=f"{part.ways} ×")
    yield from _quantity(part, "rated_current", "current")


def _sheet_material(part: Any) -> Iterator[Key]:
    for name in ("thickness", "sheet_length", "sheet_width"):
        yield from _quantity(part, name, "length")


def _damping(part: Any) -> Iterator[Key]:
    yield from _quantity(part, "thickness", "length")
    yield from _quantity(part, "area_mass", "area_density")


def _cover(part: Any) -> Iterator[Key]:
    for name in ("thickness", "roll_width"):
        yield from _quantity(part, name, "length")


def _supply(part: Any) -> Iterator[Key]:
    yield Key(text=str(part.get_use_display()))
    if part.thread:
        yield Key(text=part.thread)
    for name, kind in (("barrel", "length"), ("spread", "area_density")):
        yield from _quantity(part, name, kind)


_KEYS: Mapping[str, tuple[str, Callable[[Any], Iterator[Key]]]] = {
    Part.Kind.DRIVER: ("driver", _driver),
    Part.Kind.AMPLIFIER: ("amplifier", _amplifier),
    Part.Kind.PROCESSOR: ("processor", _processor),
    Part.Kind.CONDUCTOR: ("conductor", _conductor),
    Part.Kind.TERMINAL: ("terminal", _terminal),
    Part.Kind.FUSE: ("fuse", _fuse),
    Part.Kind.HOLDER: ("holder", _holder),
    Part.Kind.SHEET_MATERIAL: ("sheetmaterial", _sheet_material),
    Part.Kind.DAMPING: ("damping", _damping),
    Part.Kind.COVER: ("cover", _cover),
    Part.Kind.SUPPLY: ("supply", _supply),
}


def with_figures(parts: QuerySet[Part]) -> QuerySet[Part]:
    """Read parts with what `key_figures` asks of them, whatever their number."""
    return parts.select_related(*OWN).prefetch_related("amplifier__ratings")


def key_figures(part: Part) -> list[Key]:
    """Return what tells a part from its like, the first thing asked of it first."""
    name, keys = _KEYS.get(part.kind, ("", None))
    own = getattr(part, name, None) if name else None
    return [] if own is None or keys is None else list(keys(own))


def in_short(part: Part) -> str:
    """Return the key figures as one line."""
    return " · ".join(key.text for key in key_figures(part)).replace("\u00a0", " ")


def find(parts: QuerySet[Part], text: str) -> list[Part]:
    """Return the parts that bear every word and every figure typed, such as 165 mm 4 Ω."""
    figures = _FIGURE.findall(text)
    words = _FIGURE.sub(" ", text).split()
    named = with_figures(parts.filter(reduce(and_, map(_bears, words), Q())))
    return [part for part in named if all(_has(part, figure) for figure in figures)]


def _bears(word: str) -> Q:
    kinds = [kind for kind, label in Part.Kind.choices if word.casefold() in str(label).casefold()]
    return Q(maker__icontains=word) | Q(name__icontains=word) | Q(kind__in=kinds)


def _has(part: Part, figure: str) -> bool:
    """Whether a part has a key figure near this one, or it stands in its name."""
    keys = key_figures(part)
    flat = figure.casefold().replace(" ", "")
    texts = [str(part), *(key.text for key in keys)]
    if any(flat in text.casefold().replace(" ", "").replace("\u00a0", "") for text in texts):
        return True
    return any(_near(key, value) for key, value in _readings(figure, keys))


def _readings(figure: str, keys: Iterable[Key]) -> Iterator[tuple[Key, float]]:
    for key in keys:
        if not key.kind:
            continue
        try:
            yield key, units.parse(figure, key.kind)
        except units.UnreadableQuantity:
            continue


def _near(key: Key, value: float) -> bool:
    return key.value is not None and abs(value - key.value) <= NEAR * abs(key.value)
