"""The German catalogue is whole: nothing untranslated, nothing stale, no placeholder lost."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path
from string import Formatter

import polib
import pytest
from django.utils import translation
from django.utils.translation import gettext
from django.utils.translation.template import templatize

ROOT = Path(__file__).parents[2]
FOLDER = ROOT / "jobs" / "locale" / "de" / "LC_MESSAGES"
CATALOGUE = polib.pofile(str(FOLDER / "django.po"))
MARKS = {"_", "gettext", "gettext_lazy", "ngettext", "ngettext_lazy"}
# What Django makes of a template before its texts are gathered.
MARKED = re.compile(r"""\b(?:_|n?gettext)\(\s*u?('(?:\\.|[^'])*'|"(?:\\.|[^"])*")""")
PERCENT = re.compile(r"%\(\w+\)[sd]")


def _pairs() -> Iterator[tuple[str, str]]:
    """Each English text with each German text that stands for it."""
    for entry in CATALOGUE:
        if entry.msgid_plural:
            yield entry.msgid, entry.msgstr_plural[0]
            yield entry.msgid_plural, entry.msgstr_plural[1]
        else:
            yield entry.msgid, entry.msgstr


def _gaps(text: str) -> list[str]:
    """What is filled in later, in either style; a literal brace never occurs."""
    braces = [f"{{{name}}}" for _, name, _, _ in Formatter().parse(text) if name is not None]
    return sorted(set(PERCENT.findall(text)) | set(braces))


def test_nothing_is_left_untranslated() -> None:
    """Every text of the app has its German, and none is only a guess."""
    assert [entry.msgid for entry in CATALOGUE if not entry.translated()] == []
    assert [entry.msgid for entry in CATALOGUE if entry.fuzzy] == []
    assert [entry.msgid for entry in CATALOGUE if entry.obsolete] == []


def _in_python() -> Iterator[str]:
    for path in [*(ROOT / "jobs").rglob("*.py"), *(ROOT / "config").rglob("*.py")]:
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.args:
                text = node.args[0]
                if node.func.id in MARKS and isinstance(text, ast.Constant):
                    yield text.value


def _in_templates() -> Iterator[str]:
    for path in (ROOT / "templates").rglob("*.html"):
        for found in MARKED.findall(templatize(path.read_text())):
            yield ast.literal_eval(found)


def test_the_catalogue_is_as_new_as_the_app() -> None:
    """A text that was added or changed is in the catalogue; `make messages` puts it there."""
    known = {entry.msgid for entry in CATALOGUE}
    assert sorted({*_in_python(), *_in_templates()} - known) == []


def test_the_compiled_catalogue_is_the_written_one() -> None:
    """What the app reads is what a translator wrote."""
    compiled = polib.mofile(str(FOLDER / "django.mo"))
    read = {(one.msgctxt, one.msgid): (one.msgstr, one.msgstr_plural) for one in compiled}
    assert read == {(one.msgctxt, one.msgid): (one.msgstr, one.msgstr_plural) for one in CATALOGUE}


def test_the_same_gaps_are_filled_in_both_languages() -> None:
    """A figure named in English is named in German, and German asks for none that is not given."""
    wrong = [(one, other) for one, other in _pairs() if _gaps(one) != _gaps(other)]
    assert wrong == []


def test_a_text_ends_as_its_original_does() -> None:
    """A sentence stays a sentence, a label a label."""
    marks = (".", ":", "…", "?")
    wrong = [
        (one, other) for one, other in _pairs() if one.endswith(marks) != other.endswith(marks)
    ]
    assert [pair for pair in wrong if not pair[1].endswith(("Ausg. %(n)s", "Okt.", "Nr."))] == []


@pytest.mark.parametrize(
    ("english", "german"), [("fuse", "Sicherung"), ("conductor", "Leiter"), ("run", "Leitung")]
)
def test_the_app_speaks_german_when_asked(english: str, german: str) -> None:
    """The catalogue is found where the settings say it is."""
    with translation.override("de"):
        assert gettext(english) == german
