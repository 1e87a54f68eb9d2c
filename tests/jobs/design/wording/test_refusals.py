"""Every code a calculator can refuse with has words, and every word has a code."""

from __future__ import annotations

import ast
from collections.abc import Iterator, Mapping
from pathlib import Path
from string import Formatter

import pytest
from django.utils import translation
from django.utils.functional import Promise
from django.utils.translation import trans_real

import acoustics.errors
import acoustics.names
import wiring.errors
import wiring.names
from acoustics.carcass.shape import errors as wood
from jobs.design.wording.carcass import CARCASS, KINDS
from jobs.design.wording.choices import CHOICES
from jobs.design.wording.columns import COLUMNS
from jobs.design.wording.figures import FIGURES, SYMBOLS
from jobs.design.wording.names import NEEDED, Needed, figure_name
from jobs.design.wording.refusals import ASKED, OUT_OF_RANGE, SENTENCES, UNREADABLE, ZERO
from jobs.design.wording.wiring_figures import WIRING_FIGURES

HOUSE = Path(__file__).parents[4]
SOUND, WIRES, WOOD = acoustics.errors.CODES, wiring.errors.CODES, wood.CODES
# Raised with the line of a text, which their sentence quotes.
OF_A_TEXT = {code for code, given in SOUND.items() if "line" in given}
NAMES = [*acoustics.names.Name, *wiring.names.Name, *Needed]


def test_every_code_has_words_and_every_word_a_code() -> None:
    """No refusal is without a sentence, and no sentence is for what nobody refuses."""
    assert len(SOUND) + len(WIRES) + len(WOOD) > 100
    said = {*ASKED, *SENTENCES, *COLUMNS}
    assert ({*SOUND, *WIRES} - said, said - {*SOUND, *WIRES}) == (set(), set())
    assert set(COLUMNS) == OF_A_TEXT
    assert set(CARCASS) == set(WOOD)
    assert set(ASKED) & set(SENTENCES) == set()


def test_every_name_has_words_and_every_word_a_name() -> None:
    """A figure without words would stand in English, or as an id, in a German sentence."""
    assert len(NAMES) > 200
    assert all(figure_name(name) for name in NAMES)
    assert {*SYMBOLS, *FIGURES} == set(acoustics.names.Name)
    assert set(WIRING_FIGURES) == set(wiring.names.Name)
    assert set(NEEDED) == set(Needed)


def _fields(words: object) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(str(words)) if name}


@pytest.mark.parametrize("language", ["en", "de"])
def test_a_sentence_asks_for_nothing_its_code_does_not_give(language: str) -> None:
    """Every placeholder of every sentence is given with the code, in both languages."""
    tables: list[tuple[Mapping[str, object], Mapping[str, tuple[str, ...]]]] = [
        (ASKED, SOUND | WIRES),
        (ZERO, SOUND | WIRES),
        (SENTENCES, SOUND),
        (CARCASS, WOOD),
    ]
    with translation.override(language):
        for words, codes in tables:
            for code, sentence in words.items():
                assert _fields(sentence) <= set(codes[code]), (code, str(sentence))
        assert _fields(OUT_OF_RANGE) == {"name", "value", "asked"}


def test_every_word_is_translated() -> None:
    """What an English reader is told stands in the German catalogue too."""
    tables = (ASKED, ZERO, SENTENCES, CARCASS, COLUMNS, CHOICES, FIGURES, WIRING_FIGURES, NEEDED)
    words = [OUT_OF_RANGE, UNREADABLE, *dict(KINDS).values()]
    words += [one for table in tables for one in table.values() if isinstance(one, Promise)]
    with translation.override("en"):
        texts = {str(one) for one in words}
    german = trans_real.translation("de")
    assert len(texts) > 300
    assert {text for text in texts if not german._catalog.get(text)} == set()


def _raised() -> Iterator[tuple[str, ast.Call]]:
    """Every error that is made with a code, and where."""
    for room in ("acoustics", "wiring", "jobs/design"):
        for path in (HOUSE / room).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text())):
                if isinstance(node, ast.Call) and getattr(node.func, "id", "").endswith("Error"):
                    yield f"{path.relative_to(HOUSE)}:{node.lineno}", node


def _literals(node: ast.AST) -> set[str]:
    return {
        one.value
        for one in ast.walk(node)
        if isinstance(one, ast.Constant) and isinstance(one.value, str)
    }


def test_what_is_raised_gives_what_its_code_lists() -> None:
    """A refusal that no test provokes would fail where it is raised: its figures are counted."""
    met = set()
    for where, call in _raised():
        given = {word.arg: word.value for word in call.keywords if word.arg}
        if "code" not in given or not (codes := _literals(given.pop("code"))):
            continue
        for code in codes & {*SOUND, *WOOD}:
            met.add(code)
            kind = getattr(call.func, "id", "")
            listed = SOUND if hasattr(acoustics.errors, kind) else WOOD
            assert set(listed[code]) == set(given), where
    assert len(met) > 80


def test_every_code_is_raised_somewhere() -> None:
    """A code that nothing refuses with is deleted."""
    written: set[str] = set()
    for room in ("acoustics", "wiring", "jobs/design"):
        for path in (HOUSE / room).rglob("*.py"):
            if "wording" in path.parts:
                continue
            for node in ast.walk(ast.parse(path.read_text())):
                if isinstance(node, ast.Call):
                    written |= {(word.arg or "").replace("_", "-") for word in node.keywords}
                    written |= {text for word in node.keywords for text in _literals(word.value)}
                elif isinstance(node, ast.Assign):
                    written |= _literals(node.value) if len(_literals(node.value)) == 1 else set()
    handed_on = {"f3-out-of-reach", "vented-f3-out-of-reach"}
    assert {*SOUND, *WIRES, *WOOD} - written - handed_on == set()
