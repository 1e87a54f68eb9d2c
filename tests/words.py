"""What a page or a sheet says, line by line: its words, its links and what stands in its fields."""

from __future__ import annotations

import re
from collections.abc import Iterator

from lxml import html as markup
from lxml.html import HtmlElement

SILENT = {"head", "script", "style", "svg", "template"}
WITHIN = {
    *("a", "b", "strong", "em", "i", "small", "span", "abbr", "code", "sub", "sup", "time", "mark"),
    *("br", "u"),
}
TELLS = ("href", "name", "value", "min", "max", "maxlength", "pattern", "placeholder", "step")
MARKS = ("checked", "selected", "disabled", "readonly", "required", "hidden", "multiple", "open")
# What is another every time: numbers of rows, secrets, days counted from today.
MONTHS = "Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec"
CHANGING = (
    (re.compile(r"\b[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}\b"), "TOKEN"),
    (re.compile(r"\b\d{4}-\d\d-\d\d(?:T[\d:.+]+)?\b"), "DAY"),
    (re.compile(r"(?<=option\(value=)\d+|(?<=name=row, value=)\d+|(?<=-)\d+(?=\))"), "#"),
    (re.compile(r"/\d+(?=[/#?&]|$)"), "/#"),
    (re.compile(rf"\b(?:\d{{1,2}} )?(?:{MONTHS})[a-z]*\b(?: \d{{4}})?"), "DAY"),
    (re.compile(r"\b\d\d:\d\d\b"), "TIME"),
)


def words(html: str) -> list[str]:
    """Return every line a reader meets, in order; of a page what is its own."""
    whole = markup.fromstring(html)
    main = whole.find(".//main")
    told = "".join(_told(whole if main is None else main))
    lines = (" ".join(line.split()) for line in told.splitlines())
    return [_steady(line) for line in lines if line]


def _told(element: HtmlElement) -> Iterator[str]:
    if not isinstance(element.tag, str) or element.tag in SILENT:
        yield element.tail or ""
        return
    between = " " if element.tag in WITHIN else "\n"
    yield between
    said = [f"{name}={element.get(name)}" for name in TELLS if element.get(name)]
    said += [name for name in MARKS if element.get(name) is not None]
    if said and element.get("name") != "csrfmiddlewaretoken":
        yield f"{element.tag}({', '.join(said)}) "
    yield element.text or ""
    for child in element:
        yield from _told(child)
    yield between
    yield element.tail or ""


def _steady(line: str) -> str:
    for pattern, instead in CHANGING:
        line = pattern.sub(instead, line)
    return line
