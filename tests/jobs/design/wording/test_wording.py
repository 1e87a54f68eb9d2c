"""Every code a check can give has words, and every word has a code that can be given."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import pytest
from django.utils import translation

from acoustics import findings as acoustic
from jobs.design.wording import WORDS, cure, says, term
from jobs.design.wording.sources import SOURCES
from jobs.design.wording.terms import TERMS
from wiring import findings as electric
from wiring.cable.conductor import METALS

DESIGN = Path(__file__).parents[4] / "jobs" / "design"
CODE = re.compile(r"[a-z]+(-[a-z0-9]+)+")


def _made_in(tree: ast.AST) -> Iterator[str]:
    """Codes that are handed to a finding, looped over or chosen between before that."""
    makes = any(
        isinstance(node, ast.Call) and _name(node.func) in MAKERS for node in ast.walk(tree)
    )
    for node in ast.walk(tree):
        text = node.value if isinstance(node, ast.Constant) else None
        if makes and isinstance(text, str) and CODE.fullmatch(text):
            yield text


MAKERS = {"Finding", "_finding", "box_finding", "_panel"}


def _name(node: ast.expr) -> str:
    return node.id if isinstance(node, ast.Name) else getattr(node, "attr", "")


def _own_codes() -> set[str]:
    codes: set[str] = set()
    for path in DESIGN.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.FunctionDef):
                codes |= set(_made_in(node))
    return codes


CITED = re.compile(r"\b[a-z]{3,}")  # a published work is named in capitals and numbers
STATED = re.compile(r"(SOURCE|_TRADE|_PERSON)\Z|\A(source|sheet|trade|maker)\Z")


def _texts(node: ast.AST | None) -> Iterator[str]:
    for one in ast.walk(node) if node else ():
        if isinstance(one, ast.Constant) and isinstance(one.value, str):
            yield one.value


def _stated_sources() -> Iterator[str]:
    """Every text a calculator hands over as a source: by keyword, or under such a name before."""
    root = DESIGN.parents[1]
    for path in [
        *root.glob("acoustics/**/*.py"),
        *root.glob("wiring/**/*.py"),
        *DESIGN.rglob("*.py"),
    ]:
        if path.suffix != ".py":
            continue
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.keyword) and node.arg == "source":
                if isinstance(node.value, (ast.Constant, ast.IfExp)):
                    yield from _texts(node.value)
            elif isinstance(node, ast.Assign):
                names = [one.id for one in node.targets if isinstance(one, ast.Name)]
                if any(STATED.search(one) for one in names):
                    value = node.value
                    yield from _texts(value.body if isinstance(value, ast.IfExp) else value)


def test_every_source_in_words_is_said_in_the_readers_language() -> None:
    """A source that is no published work has words of its own; the search finds them all."""
    stated = set(_stated_sources())
    assert {"battery's sheet", "Kirchhoff's laws", "trade pages, lowest of 150 to 300 mA"} <= stated
    left = {
        part
        for text in stated
        if text not in SOURCES
        for part in text.split("; ")
        if part not in SOURCES and CITED.search(part)
    }
    assert left == set()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "common practice, no source; amplifier's sheet",
            "übliche Praxis, ohne Quelle; Datenblatt",
        ),
        ("Made-up driver, R1 · qms", "Made-up driver, R1 · Qms"),
        ("bulkhead, left", "bulkhead, left"),
        ("brace 1, left", "Strebe 1, links"),
    ],
)
def test_what_is_put_together_is_said_part_by_part(text: str, said: str) -> None:
    """Each of two sources and of a list of words; a typed place is left alone, symbols are set."""
    with translation.override("de"):
        assert term(text).startswith(said)


EVERY = _own_codes() | set(acoustic.CODES) | set(electric.CODES)


def test_the_search_finds_codes_however_they_are_made() -> None:
    """The search sees a keyword, a positional argument, a table's key and a choice of two."""
    by_keyword, by_position = "high-voltage-car", "channel-without-speaker"
    in_a_table, by_choice = "battery-place-unknown", "port-audible"
    assert {by_keyword, by_position, in_a_table, by_choice} <= _own_codes()


def test_every_code_has_words() -> None:
    """No finding reaches a page or a sheet without a sentence."""
    assert EVERY - set(WORDS) == set()


def test_every_sentence_has_a_code() -> None:
    """A sentence that no check can say is deleted."""
    assert set(WORDS) - EVERY == set()


@pytest.mark.parametrize("language", ["en", "de"])
@pytest.mark.parametrize("code", sorted(WORDS))
def test_the_words_take_what_a_finding_gives(code: str, language: str) -> None:
    """A sentence is filled without a brace left over, ends like one, and the cure needs nothing."""
    with translation.override(language):
        sentence = says(code, "P03", "-12 A", "10 A")
        remedy = cure(code)
    assert not set("{}") & set(sentence + remedy)
    assert sentence.endswith(".")
    assert remedy.endswith(".")
    assert "--" not in sentence


@pytest.mark.parametrize("code", sorted(WORDS))
def test_a_missing_figure_is_called_unknown(code: str) -> None:
    """An unknown value is said to be unknown, never left as a gap."""
    with translation.override("en"):
        fields = {name for _, name, _, _ in Formatter().parse(str(WORDS[code][0])) if name}
        assert fields <= {"where", "value", "limit", "amount"}
        if fields & {"value", "limit", "amount"}:
            assert "unknown" in says(code, "P03", "", "")


def test_the_calculators_words_are_said_in_the_reader_s_language() -> None:
    """A place or a metal that a calculator names is a word of the reader's too."""
    with translation.override("de"):
        assert "hin" in says("length-unknown", "P03", "out", "")
        assert "Aluminium" in says("terminal-unsuited-to-metal", "P03", "aluminium", "copper")
        assert "Kofferraum · Öffnung" in says("box-too-near", "Kofferraum · opening", "", "")
        assert term("My box · port / brace 2") == "My box · Reflexrohr / Strebe 2"
        assert term("Frontier") == "Frontier"


def test_every_metal_has_a_word() -> None:
    """No key of a table is printed as it is."""
    assert set(METALS) <= set(TERMS)
