"""Every code a check can give has words, and every word has a code that can be given."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from string import Formatter

import pytest
from django.utils import translation

from acoustics import findings as acoustic
from acoustics.sources import Source as Acoustic
from jobs.design.records.about import About
from jobs.design.records.findings import Finding, Term
from jobs.design.wording import WORDS, cure, says, sources_said, term, terms
from jobs.design.wording.sources import SOURCES
from jobs.design.wording.terms import TERMS
from wiring import findings as electric
from wiring.cable.conductor import METALS
from wiring.sources import Source as Electric

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


@cache
def _own_codes() -> set[str]:
    """The codes the bridge makes itself."""
    codes: set[str] = set()
    for path in DESIGN.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.FunctionDef):
                codes |= set(_made_in(node))
    return codes


def _every_code() -> set[str]:
    return _own_codes() | set(acoustic.CODES) | set(electric.CODES)


def test_several_sources_are_said_one_by_one() -> None:
    """Each of two sources is said in the reader's language."""
    with translation.override("de"):
        said = sources_said((Electric.COMMON_PRACTICE, Electric.AMPLIFIER_SHEET))
    assert said.startswith("übliche Praxis, ohne Quelle; Datenblatt")


def test_every_source_has_words() -> None:
    """No key of a source is printed, and no words are kept for a source that is gone."""
    assert set(SOURCES) == {*Acoustic, *Electric}


def test_the_search_finds_codes_however_they_are_made() -> None:
    """The search sees a keyword, a positional argument, a table's key and a choice of two."""
    by_keyword, by_position = "high-voltage-car", "channel-without-speaker"
    in_a_table, by_choice = "battery-place-unknown", "programme-above-coil"
    assert {by_keyword, by_position, in_a_table, by_choice} <= _own_codes()


def test_every_code_has_words() -> None:
    """No finding reaches a page or a sheet without a sentence."""
    assert _every_code() - set(WORDS) == set()


def test_every_sentence_has_a_code() -> None:
    """A sentence that no check can say is deleted."""
    assert set(WORDS) - _every_code() == set()


@pytest.mark.parametrize("language", ["en", "de"])
def test_the_words_take_what_a_finding_gives(language: str) -> None:
    """A sentence is filled without a brace left over, ends like one, and the cure needs nothing."""
    with translation.override(language):
        for code in WORDS:
            sentence = says(code, "P03", "-12 A", "10 A")
            remedy = cure(code)
            assert not set("{}") & set(sentence + remedy), code
            assert sentence.endswith("."), code
            assert remedy.endswith("."), code
            assert "--" not in sentence, code


def test_a_missing_figure_is_called_unknown() -> None:
    """An unknown value is said to be unknown, never left as a gap."""
    with translation.override("en"):
        for code, words in WORDS.items():
            fields = {name for _, name, _, _ in Formatter().parse(str(words[0])) if name}
            assert fields <= {"where", "value", "limit", "amount"}, code
            if fields & {"value", "limit", "amount"}:
                assert "unknown" in says(code, "P03", "", ""), code


def test_the_calculators_words_are_said_in_the_reader_s_language() -> None:
    """A place or a metal that a calculator names is a word of the reader's too."""
    with translation.override("de"):
        assert term("out") == "hin"
        assert terms(["left", "brace 2"]) == "links, Strebe 2"
        assert term("front layer 1") == "Front, Lage 1"
        assert (term("qms"), term("Frontier"), term("bulkhead, left")) == (
            "Qms", "Frontier", "bulkhead, left")  # fmt: skip


def test_the_place_of_a_finding_is_said_in_the_reader_s_language() -> None:
    """A face is translated; a record's name is left as it was typed, whatever word it is."""
    finding = Finding(
        code="box-too-near",
        severity="stop",
        section="boxes",
        about=About("box", "1", "opening"),
        name="front",
        place=(Term(("opening",)), "left"),
    )
    with translation.override("de"):
        assert finding.where == "front · Öffnung / left"
        assert "front · Öffnung / left" in finding.says


def test_every_metal_has_a_word() -> None:
    """No key of a table is printed as it is."""
    assert set(METALS) <= set(TERMS)
